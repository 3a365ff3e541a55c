//! The walk against one that tries every zone next, without bound, reduction or memory; and what a
//! wait is at least, with what comes after it.

use super::stops::{Stops, placed};
use super::walk::{Parts, Walk};
use super::{Bound, Least, Left, Task, Tasks, What, bit, numbers};
use crate::routine::compile::compile;
use crate::routine::form::{Clock, Compiled};
use crate::routine::tests::{problem, vehicle};
use crate::vehicle::Walks;

/// Numbers from a seed (Steele, Lea and Flood 2014).
struct Draw(u64);

impl Draw {
    fn below(&mut self, count: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ self.0 >> 30).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ mixed >> 27).wrapping_mul(0x94d0_49bb_1331_11eb);
        usize::try_from((mixed ^ mixed >> 31) >> 33).unwrap() % count
    }

    fn seconds(&mut self) -> u32 {
        u32::try_from(self.below(9)).unwrap()
    }

    /// A row of zones, often with a ring, sometimes with ways of its own back.
    fn walks(&mut self) -> Walks {
        let zones = 3 + self.below(5);
        let mut ways: Vec<(usize, usize, u32)> =
            (1..zones).map(|zone| (self.below(zone), zone, self.seconds())).collect();
        for _ in 0..self.below(3) {
            ways.push((self.below(zones), self.below(zones), self.seconds()));
        }
        let one_way = self.below(4) == 0;
        Walks::closed(zones, |from, to| {
            let is_it = |way: &&(usize, usize, u32)| {
                (way.0, way.1) == (from, to) || (way.0, way.1) == (to, from)
            };
            let back_s = u32::from(one_way && from > to) * 3;
            ways.iter().filter(is_it).map(|way| way.2 + back_s).min()
        })
    }

    fn tasks(&mut self, zones: usize) -> Vec<Task> {
        let count = 1 + self.below(9);
        let once_in = 1 + self.below(6);
        let drawn = |number: usize| {
            let after = (0..number).filter(|_| self.below(once_in) == 0);
            let after = after.fold(0, |set, one| set | bit(one));
            task(Some(self.below(zones)).filter(|_| self.below(8) != 0), after)
        };
        (0..count).map(drawn).collect()
    }
}

fn task(zone: Option<usize>, after: Tasks) -> Task {
    Task {
        what: What::Aim(0),
        steps: Vec::new(),
        takes: [Least::default(); 2],
        zone,
        steps_zone: zone,
        after,
        long_after: 0,
        clock: None,
        undone_by: 0,
    }
}

/// Walking time, zone changes and steps back of the least walk.
fn least(tasks: &[Task], walks: &Walks, to_do: Tasks, zone: usize) -> [u32; 3] {
    let is_ready = |task: usize, to_do| tasks[task].after & to_do == 0;
    let mut left = to_do;
    while let Some(task) = numbers(left)
        .find(|one| is_ready(*one, left) && tasks[*one].zone.is_none_or(|place| place == zone))
    {
        left &= !bit(task);
    }
    let ready = numbers(left).filter(|one| is_ready(*one, left));
    let nexts = ready.filter_map(|one| tasks[one].zone);
    let rest = nexts.map(|next| {
        let [walked_s, changes, backward] = least(tasks, walks, left, next);
        let back = u32::from(next < zone);
        [walked_s + walks.between(zone, next), changes + 1, backward + back]
    });
    rest.min().unwrap_or([0; 3])
}

#[test]
fn a_walk_is_the_shortest_of_all_that_keep_the_order() {
    for seed in 0..3_000 {
        let mut draw = Draw(seed);
        let walks = draw.walks();
        let tasks = draw.tasks(walks.zones());
        let mut walk = Walk::new(&tasks, &walks, draw.below(walks.zones()));
        // What one question leaves known must not mislead the next.
        for _ in 0..6 {
            let to_do = numbers(bit(tasks.len()) - 1).filter(|_| draw.below(5) != 0);
            let to_do = to_do.fold(0, |set, task| set | bit(task));
            let zone = draw.below(walks.zones());
            let exact = least(&tasks, &walks, to_do, zone);
            for at_a_glance in [true, false, true] {
                let Parts { walk_s, zone_changes, backward } =
                    walk.shortest(to_do, zone, at_a_glance);
                let found = [walk_s, zone_changes, backward];
                assert!(found <= exact, "seed {seed}: {found:?} above {exact:?}");
                assert!(at_a_glance || found == exact, "seed {seed}: {found:?}, not {exact:?}");
            }
        }
    }
}

#[test]
fn what_is_done_in_between_is_waited_for_no_more() {
    let (_, tasks) = placed(&[task(Some(0), 0), task(Some(1), 0b001), task(Some(2), 0b010)]);
    let all = Stops::new(&tasks, 0);
    assert_eq!(all.skipped(0b101), 0b010);
    assert_eq!(all.zones_of_ready(0b101), 0b001);
    assert_eq!(Stops::new(&tasks, 0b010).zones_of_ready(0b101), 0b101);
}

/// A task anywhere, by what it takes and what it waits for.
fn takes(hands_on_s: u32, after: Tasks) -> Task {
    let takes = [Least { hands_on_s, disturbs: false }; 2];
    Task { takes, long_after: after, ..task(None, after) }
}

/// Something is drained 100 s from now, then wiped, then shut. Once it is wiped, shutting it waits for
/// the draining of something else no more, though it once came after it.
#[test]
fn a_wait_counts_only_what_still_waits_for_it() {
    let vehicle = vehicle(&["engine"]);
    let question = problem(&vehicle, "ready_to_drive", &[]);
    let clock = Clock { var: 0, of: None, setting: 1, limit_s: 1_000, left_s: 100, attended: None };
    let compiled = Compiled { clocks: vec![clock], ..compile(&question).unwrap() };
    let mut bound = Bound::new(&compiled, &vehicle.walks);
    let [drain, wipe, shut] = [0, 1, 2];
    bound.tasks = vec![
        Task { clock: Some(0), ..takes(0, 0) },
        takes(30, bit(drain)),
        Task { long_after: bit(drain) | bit(wipe), ..takes(50, bit(wipe)) },
    ];
    bound.walk = Some(Walk::new(&bound.tasks, &vehicle.walks, 0));
    let mut wait_s = |tasks: Tasks| bound.wait_s(Left { tasks, by_move: 0 }, 0, &[100], 0, false);
    assert_eq!(wait_s(bit(drain) | bit(wipe) | bit(shut)), 100 + 30 + 50);
    assert_eq!(wait_s(bit(drain) | bit(wipe)), 100 + 30);
    assert_eq!(wait_s(bit(drain) | bit(shut)), 100, "it was wiped: shutting does not wait");
    assert_eq!(wait_s(bit(wipe) | bit(shut)), 0, "nothing is waited for");
}
