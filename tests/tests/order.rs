//! The ordering core against published and proven optima, and against every order there is.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::cast_sign_loss,
    clippy::many_single_char_names,
    reason = "a test may fail loudly"
)]

use stowfast_core::routine::order;
use stowfast_tests::choices::Choices;
use stowfast_tests::draw::{Effort, law};

const NODES_MAX: usize = 1_000_000;

/// An instance: which steps must be behind before each step, and what each costs after which.
#[derive(Debug)]
struct Instance {
    after: Vec<Vec<usize>>,
    /// `start[to]`, then `arcs[from][to]`.
    start: Vec<u64>,
    arcs: Vec<Vec<u64>>,
}

impl Instance {
    fn arc(&self, from: Option<usize>, to: usize) -> u64 {
        from.map_or(self.start[to], |from| self.arcs[from][to])
    }

    fn permitted(&self, done: u128, step: usize) -> bool {
        self.after[step].iter().all(|one| done >> one & 1 == 1)
    }

    fn best(&self) -> Option<(Vec<usize>, u64)> {
        let found = order(
            self.after.len(),
            NODES_MAX,
            |done, step| self.permitted(done, step),
            |from, to| self.arc(from, to),
        )?;
        Some((found.steps, found.cost))
    }

    /// What the steps cost in this order; `None` where it is not permitted.
    fn price(&self, steps: &[usize]) -> Option<u64> {
        let (mut done, mut last, mut cost) = (0_u128, None, 0);
        for step in steps {
            if done >> step & 1 == 1 || !self.permitted(done, *step) {
                return None;
            }
            cost += self.arc(last, *step);
            done |= 1 << step;
            last = Some(*step);
        }
        (steps.len() == self.after.len()).then_some(cost)
    }

    /// The least cost over every permutation.
    fn brute_force(&self) -> Option<u64> {
        let mut least = None;
        let mut steps: Vec<usize> = (0..self.after.len()).collect();
        permutations(&mut steps, 0, &mut |steps| {
            if let Some(cost) = self.price(steps) {
                least = Some(least.map_or(cost, |known: u64| known.min(cost)));
            }
        });
        least
    }
}

fn permutations(steps: &mut Vec<usize>, from: usize, each: &mut impl FnMut(&[usize])) {
    if from == steps.len() {
        return each(steps);
    }
    for other in from..steps.len() {
        steps.swap(from, other);
        permutations(steps, from + 1, each);
        steps.swap(from, other);
    }
}

/// One for each change of zone, a virtual start at no distance.
fn zoned(zones: &[usize], pairs: &[(usize, usize)]) -> Instance {
    let count = zones.len();
    let mut after = vec![Vec::new(); count];
    for (first, then) in pairs {
        after[*then].push(*first);
    }
    let arc = |from: usize, to: usize| u64::from(zones[from] != zones[to]);
    Instance {
        after,
        start: vec![0; count],
        arcs: (0..count).map(|from| (0..count).map(|to| arc(from, to)).collect()).collect(),
    }
}

#[test]
fn zone_instances_reach_their_proven_optima() {
    let text = include_str!("../data/zone_seq_instances.csv");
    let rows: Vec<_> = text.lines().skip(2).collect();
    assert_eq!(rows.len(), 8);
    for row in rows {
        let fields: Vec<_> = row.split(';').collect();
        let zones: Vec<usize> =
            fields[2].split_whitespace().map(|zone| zone.parse().unwrap()).collect();
        let pairs: Vec<(usize, usize)> = fields[3]
            .split_whitespace()
            .map(|pair| pair.split_once('-').unwrap())
            .map(|(first, then)| (first.parse().unwrap(), then.parse().unwrap()))
            .collect();
        assert_eq!(zones.len(), fields[1].parse::<usize>().unwrap());
        let instance = zoned(&zones, &pairs);
        let (steps, cost) = instance.best().unwrap();
        let proven: u64 = fields[4].parse().unwrap();
        assert_eq!((cost, fields[5], fields[6]), (proven, fields[4], "OPTIMAL"), "{row}");
        assert_eq!(instance.price(&steps), Some(cost), "{row}");
    }
}

/// The instance as printed: entry (i, j) is the arc i to j, or -1 where j must come before i.
fn esc07() -> Vec<Vec<i64>> {
    let rows = include_str!("../data/ESC07.sop.csv").lines().skip(1);
    rows.map(|row| row.split(',').map(|cell| cell.parse().unwrap()).collect()).collect()
}

fn sequential(matrix: &[Vec<i64>], cost: impl Fn(usize, usize) -> i64) -> Instance {
    let count = matrix.len();
    let (first, last) = (0, count - 1);
    let mut after = vec![Vec::new(); count];
    for (step, row) in matrix.iter().enumerate() {
        after[step].extend((0..count).filter(|before| row[*before] == -1));
        if step != first {
            after[step].push(first);
        }
        if step != last {
            after[last].push(step);
        }
    }
    let arc = |from: usize, to: usize| u64::try_from(cost(from, to).max(0)).unwrap();
    Instance {
        after,
        start: vec![0; count],
        arcs: (0..count).map(|from| (0..count).map(|to| arc(from, to)).collect()).collect(),
    }
}

#[test]
fn esc07_reaches_its_published_optimum() {
    let matrix = esc07();
    let (steps, cost) = sequential(&matrix, |from, to| matrix[from][to]).best().unwrap();
    assert_eq!(cost, 2125);
    assert_eq!((steps.len(), steps[0], steps[8]), (9, 0, 8));
}

/// The cheaper direction for both ways, where only one may be walked the other's price for it.
#[test]
fn esc07_made_symmetric_would_be_another_instance() {
    let matrix = esc07();
    let both = |from: usize, to: usize| match (matrix[from][to], matrix[to][from]) {
        (-1, back) => back,
        (there, -1) => there,
        (there, back) => there.min(back),
    };
    assert_eq!(sequential(&matrix, both).best().unwrap().1, 1375);
}

#[test]
fn every_small_instance_is_ordered_as_by_trying_every_order() {
    let drawn = |list: &[u16]| {
        let choices = &mut Choices::new(list);
        let count = choices.between(1, 7);
        let mut after = vec![Vec::new(); count];
        for (step, before) in after.iter_mut().enumerate() {
            before.extend((0..count).filter(|one| *one != step && choices.once_in(6)));
        }
        let mut arcs =
            || (0..count).map(|_| u64::try_from(choices.below(20)).unwrap()).collect::<Vec<_>>();
        let start = arcs();
        Some(Instance { after, start, arcs: (0..count).map(|_| arcs()).collect() })
    };
    let held = law(Effort { cases: 300, numbers_max: 120 }, drawn, |instance| {
        let (ordered, tried) = (instance.best(), instance.brute_force());
        let cost = ordered.as_ref().map(|(_, cost)| *cost);
        let priced = ordered.as_ref().and_then(|(steps, _)| instance.price(steps));
        (cost == tried && priced == tried)
            .then_some(())
            .ok_or_else(|| format!("{ordered:?}, but trying every order gives {tried:?}"))
    });
    held.unwrap_or_else(|why| panic!("{why}"));
}

/// Zones A:1, C:2, B:3, X:1, Y:3; never A and C without B, never X without B, never Y without C.
/// Start in 1. Whoever does everything ready where they stand needs four changes of zone.
#[test]
fn doing_everything_ready_in_a_zone_is_not_best() {
    const ZONES: [usize; 5] = [1, 2, 3, 1, 3];
    let [a, c, b, x, y] = [0, 1, 2, 3, 4];
    let done = |steps: u128, step: usize| steps >> step & 1 == 1;
    let allowed = |steps: u128, step: usize| {
        let then = steps | 1 << step;
        !(done(then, a) && done(then, c) && !done(then, b))
            && (!done(then, x) || done(then, b))
            && (!done(then, y) || done(then, c))
    };
    let arc =
        |from: Option<usize>, to: usize| u64::from(from.map_or(1, |one| ZONES[one]) != ZONES[to]);
    let best = order(5, NODES_MAX, allowed, arc).unwrap();
    assert_eq!(best.cost, 3);

    let (mut steps, mut zone, mut changes) = (0_u128, 1, 0);
    while steps != 0b1_1111 {
        let ready = |zone: usize| {
            (0..5).find(|one| ZONES[*one] == zone && !done(steps, *one) && allowed(steps, *one))
        };
        if let Some(step) = ready(zone) {
            steps |= 1 << step;
        } else {
            zone = [1, 2, 3].into_iter().find(|other| ready(*other).is_some()).unwrap();
            changes += 1;
        }
    }
    assert_eq!(changes, 4);
}

#[test]
fn what_no_order_permits_has_none() {
    let never =
        Instance { after: vec![vec![1], vec![0]], start: vec![0; 2], arcs: vec![vec![0; 2]; 2] };
    assert_eq!(never.best(), None);
    assert_eq!(never.brute_force(), None);
}
