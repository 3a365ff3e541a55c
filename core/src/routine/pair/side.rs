//! A schedule on its way: who stands where until when, and the least that it can still come to.

use std::cmp::{Ordering, max};

use super::Turn;
use super::delay::met_s;
use super::search::{Price, Task};

/// One of the two.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Person {
    pub(super) zone: usize,
    /// When that zone was come to. Unit: s.
    pub(super) since_s: u32,
    /// When the last step ends. Unit: s.
    pub(super) free_s: u32,
    /// The chain that is begun and not ended.
    pub(super) chain: Option<usize>,
}

/// Some steps shared out. Steps are bits and numbers by their place in the plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Side {
    pub(super) done: u128,
    pub(super) people: [Person; 2],
    pub(super) price: Price,
    pub(super) turns: Vec<Turn>,
    /// When each step ends; 0 until it is shared out. Unit: s.
    pub(super) ends_s: Vec<u32>,
    /// The least that the whole can come to.
    pub(super) least: Price,
    /// What both are busy for at least, waits so far included. Unit: s.
    pub(super) busy_s: u32,
}

/// The bit of a step in a set of steps.
pub(super) fn bit(place: usize) -> u128 {
    u32::try_from(place).ok().and_then(|place| 1_u128.checked_shl(place)).unwrap_or(0)
}

impl Side {
    pub(super) fn start(task: &Task) -> Self {
        let person = Person { zone: task.zone, since_s: 0, free_s: 0, chain: None };
        let mut side = Self {
            done: task.waits,
            people: [person; 2],
            price: Price::default(),
            turns: Vec::new(),
            ends_s: vec![0; task.jobs.len()],
            least: Price::default(),
            busy_s: 0,
        };
        side.price.elapsed_s = side.waited_s(task);
        side
    }

    /// When all is old that must be in the end, as far as what begins it is shared out.
    fn waited_s(&self, task: &Task) -> u32 {
        let begun = task
            .end
            .iter()
            .filter(|need| need.iter().flat_map(|age| &age.from).all(|place| self.has(*place)));
        met_s(begun, &self.ends_s)
    }

    pub(super) fn has(&self, place: usize) -> bool {
        self.done & bit(place) != 0
    }

    /// When the last step starts that was shared out. They are shared out by when they start, so
    /// none starts before it.
    fn start_s(&self) -> u32 {
        self.turns.last().map_or(0, |turn| turn.start_s)
    }

    fn end_s(&self, place: usize) -> u32 {
        self.ends_s.get(place).copied().unwrap_or(0)
    }

    /// Every way to give one more step to somebody. Where both stand alike it is the first.
    pub(super) fn longer<'a>(&'a self, task: &'a Task) -> impl Iterator<Item = Self> + 'a {
        let alike = self.people.iter().all(|one| self.people.first() == Some(one));
        let people = self.people.iter().enumerate().take(if alike { 1 } else { 2 });
        people.flat_map(move |(number, person)| {
            let places = 0..task.jobs.len();
            places.filter_map(move |place| self.with(task, place, number, *person))
        })
    }

    /// With one step more; `None` where that person may not do it now.
    fn with(&self, task: &Task, place: usize, number: usize, person: Person) -> Option<Self> {
        let job = task.jobs.get(place)?;
        let begun = job.chain.is_some_and(|chain| task.members(chain) & self.done != 0);
        let chain = job.chain.filter(|_| begun);
        if self.has(place) || !job.before.iter().all(|one| self.has(*one)) || person.chain != chain
        {
            return None;
        }
        let walk_s = task.walks.between(person.zone, job.zone);
        let told_s = job.before.iter().map(|one| self.end_s(*one)).max().unwrap_or(0);
        let old_s = met_s(&job.needs, &self.ends_s);
        let there_s = person.free_s.saturating_add(walk_s);
        let start_s = max(max(self.start_s(), old_s), max(told_s, there_s));
        let end_s = start_s.saturating_add(job.seconds);
        let mut next = self.clone();
        next.done |= bit(place);
        let goes_on = job.chain.filter(|chain| task.members(*chain) & !next.done != 0);
        let since_s = if person.zone == job.zone { person.since_s } else { there_s };
        *next.people.get_mut(number)? =
            Person { zone: job.zone, since_s, free_s: end_s, chain: goes_on };
        // Who ends what must not end alone is there from when it may end.
        let due_s = job.attended.as_ref().map(|age| age.old_s(&self.ends_s));
        let alone_s = due_s.map_or(0, |due_s| since_s.saturating_sub(due_s));
        next.price = Price {
            alone_s: self.price.alone_s.saturating_add(alone_s),
            elapsed_s: max(self.price.elapsed_s, end_s),
            walk_s: self.price.walk_s.saturating_add(walk_s),
            zone_changes: self
                .price
                .zone_changes
                .saturating_add(u32::from(person.zone != job.zone)),
        };
        next.turns.push(Turn { place, person: number, start_s, end_s, walk_s, word: None });
        *next.ends_s.get_mut(place)? = end_s;
        next.price.elapsed_s = max(next.price.elapsed_s, next.waited_s(task));
        (next.least, next.busy_s) = next.bound(task);
        Some(next)
    }

    /// The least that the whole can come to, and that both are busy for. It is neither quicker than
    /// the longest line of steps that wait for each other (with the walk where one person must do
    /// both, and with what must grow old between), nor than half of all that both do; what is left
    /// starts no sooner than the last step did; and every zone where a step is left and nobody stands
    /// is walked to, by the lightest tree.
    pub(super) fn bound(&self, task: &Task) -> (Price, u32) {
        let left = || (0..task.jobs.len()).filter(|place| !self.has(*place));
        let mut known_s = self.ends_s.clone();
        let mut longest_s = self.price.elapsed_s;
        let mut hands_s = 0_u32;
        let mut zones: Vec<usize> = Vec::new();
        for (place, job) in left().filter_map(|place| Some((place, task.jobs.get(place)?))) {
            let people = self.people.iter().filter(|one| match job.chain {
                Some(chain) if task.members(chain) & self.done != 0 => one.chain == Some(chain),
                _ => true,
            });
            let arrives =
                |one: &Person| one.free_s.saturating_add(task.walks.between(one.zone, job.zone));
            let there_s = max(self.start_s(), people.map(arrives).min().unwrap_or(0));
            let told = job.before.iter().map(|one| {
                let walk_s = task.jobs.get(*one).filter(|_| !self.has(*one)).map_or(0, |earlier| {
                    let same = earlier.chain.is_some() && earlier.chain == job.chain;
                    if same { task.walks.between(earlier.zone, job.zone) } else { 0 }
                });
                known_s.get(*one).map_or(0, |told_s| told_s.saturating_add(walk_s))
            });
            let old_s = met_s(&job.needs, &known_s);
            let start_s = max(there_s, max(old_s, told.max().unwrap_or(0)));
            let end_s = start_s.saturating_add(job.seconds);
            if let Some(cell) = known_s.get_mut(place) {
                *cell = end_s;
            }
            longest_s = max(longest_s, end_s);
            hands_s = hands_s.saturating_add(job.seconds);
            if !zones.contains(&job.zone) && self.people.iter().all(|one| one.zone != job.zone) {
                zones.push(job.zone);
            }
        }
        longest_s = max(longest_s, met_s(&task.end, &known_s));
        let walk_s = self.tree_s(task, &zones);
        let both = |from_s: u32| {
            let free_s = self.people.iter().map(|one| max(one.free_s, from_s));
            free_s.fold(hands_s, u32::saturating_add)
        };
        let busy_s = max(both(0).saturating_add(walk_s), both(self.start_s()));
        let least = Price {
            alone_s: self.price.alone_s,
            elapsed_s: max(longest_s, busy_s.div_ceil(2)),
            walk_s: self.price.walk_s.saturating_add(walk_s),
            zone_changes: self
                .price
                .zone_changes
                .saturating_add(u32::try_from(zones.len()).unwrap_or(u32::MAX)),
        };
        (least, busy_s)
    }

    /// The least walking to some zones: what both walk leads to each of them from where somebody
    /// stands, so it is no less than the lightest tree that does (Prim 1957).
    fn tree_s(&self, task: &Task, zones: &[usize]) -> u32 {
        // A walk may take longer one way; a tree has no direction.
        let walk_s = |a: usize, b: usize| task.walks.between(a, b).min(task.walks.between(b, a));
        let stood = |zone: usize| self.people.iter().map(|one| walk_s(one.zone, zone)).min();
        let mut out: Vec<(usize, u32)> =
            zones.iter().map(|zone| (*zone, stood(*zone).unwrap_or(0))).collect();
        let mut sum_s = 0_u32;
        while let Some(next) = (0..out.len()).min_by_key(|at| out.get(*at).map(|one| one.1)) {
            let (zone, nearest_s) = out.swap_remove(next);
            sum_s = sum_s.saturating_add(nearest_s);
            for (other, least_s) in &mut out {
                *least_s = (*least_s).min(walk_s(zone, *other));
            }
        }
        sum_s
    }

    /// What the rest hangs on, but for times.
    pub(super) fn stand(&self) -> (u128, [(usize, Option<usize>); 2]) {
        (self.done, self.people.map(|one| (one.zone, one.chain)))
    }

    /// Whether, where both stand alike, whatever this can still come to the other can too, at no
    /// more.
    pub(super) fn is_outdone_by(&self, other: &Self, task: &Task) -> bool {
        let mut pairs = other.people.iter().zip(&self.people);
        let waited_for = |place: &usize| task.after(*place) & !self.done != 0;
        // What must not end alone is no better for coming sooner.
        let attended = task.jobs.iter().enumerate().filter(|(place, _)| !self.has(*place));
        let mut begun =
            attended.filter_map(|(_, job)| job.attended.as_ref()).flat_map(|age| &age.from);
        pairs.all(|(one, two)| one.free_s <= two.free_s && one.since_s <= two.since_s)
            && begun.all(|place| other.end_s(*place) == self.end_s(*place))
            && other.price.alone_s <= self.price.alone_s
            && other.start_s() <= self.start_s()
            && other.price.elapsed_s <= self.price.elapsed_s
            && (other.price.walk_s, other.price.zone_changes)
                <= (self.price.walk_s, self.price.zone_changes)
            && (0..task.jobs.len())
                .filter(waited_for)
                .all(|place| other.end_s(place) <= self.end_s(place))
    }

    /// The most promising first, and always in the same order.
    pub(super) fn rank(&self, other: &Self) -> Ordering {
        let order = |one: &Self| one.turns.iter().map(|turn| (turn.place, turn.person)).collect();
        let key = |one: &Self| {
            let Price { alone_s, elapsed_s, .. } = one.least;
            (alone_s, elapsed_s, one.busy_s, one.least, one.price, one.people)
        };
        let orders = || -> (Vec<_>, Vec<_>) { (order(self), order(other)) };
        key(self).cmp(&key(other)).then_with(|| {
            let (one, two) = orders();
            one.cmp(&two)
        })
    }
}
