//! The shortest walk that does some tasks in order, ending anywhere: Held and Karp 1962 over the
//! orders that precedence leaves, kept for the next time.
//!
//! What can be done where one stands is done first: doing it never makes anything wait. Two zones
//! need not be tried next. One where all that could be done now can as well be done at a later
//! visit that is due in any case (*put off*). And one that lies beyond another where all that is
//! left could be done on the way, in no more steps back (*passed*): the way through it is as short,
//! and the later visit is saved. Walking, zone changes and steps back are all no more when a visit
//! is left out, so each argument holds for the three of them in this order.

use std::cmp::Reverse;

use rustc_hash::FxHashMap;

use super::cuts::Cuts;
use super::{TASKS_MAX, Task, Tasks, bit, numbers};
use crate::vehicle::Walks;

/// Walks that are worked out before it is left at a lower bound for each further one.
const WALKS_MAX: usize = 20_000;
/// Zones that the walk knows; what is to do in any beyond counts as if done anywhere.
pub(super) const ZONES_MAX: usize = 64;

/// Walking time, zone changes and steps back, the weightiest in the upper bits.
type Length = u64;

/// What the walk knows of a task.
pub(super) struct Stop {
    pub(super) zone: Option<usize>,
    pub(super) after: Tasks,
    /// Tasks that come straight after it.
    before: Tasks,
}

pub(super) struct Walk<'a> {
    walks: &'a Walks,
    stops: Vec<Stop>,
    /// For each task, the first that has the same zone, the same before it and the same after it.
    first: Vec<Tasks>,
    /// Tasks in an order in which none comes before one that it waits for.
    sorted: Vec<usize>,
    zones: Vec<Tasks>,
    /// Tasks that can be done in more than one zone.
    anywhere: Tasks,
    /// How long, and whether that is exact or a lower bound.
    known: FxHashMap<(Tasks, usize), (Length, bool)>,
    trees: FxHashMap<u64, u32>,
    cuts: Cuts,
    left: usize,
}

/// A walk's length in its parts.
pub(super) struct Parts {
    pub(super) walk_s: u32,
    pub(super) zone_changes: u32,
    pub(super) backward: u32,
}

impl<'a> Walk<'a> {
    pub(super) fn new(tasks: &[Task], walks: &'a Walks, start: usize) -> Self {
        let before = |number: usize| {
            let after = tasks.iter().enumerate().filter(|(_, one)| one.after & bit(number) != 0);
            after.fold(0, |set, (other, _)| set | bit(other))
        };
        let stops: Vec<Stop> = tasks
            .iter()
            .enumerate()
            .map(|(number, task)| {
                let zone = task.zone.filter(|zone| *zone < ZONES_MAX);
                Stop { zone, after: task.after, before: before(number) }
            })
            .collect();
        let same = |one: &Stop, other: &Stop| {
            one.zone == other.zone && one.after == other.after && one.before == other.before
        };
        let first = stops
            .iter()
            .map(|one| bit(stops.iter().position(|other| same(one, other)).unwrap_or_default()));
        let first: Vec<Tasks> = first.collect();
        let firsts = |set: Tasks| numbers(set).fold(0, |all, n| all | first.get(n).unwrap_or(&0));
        let stops = stops.iter().map(|one| Stop {
            zone: one.zone,
            after: firsts(one.after),
            before: firsts(one.before),
        });
        let stops: Vec<Stop> = stops.collect();
        let in_zone = |zone: Option<usize>| {
            let there = stops.iter().enumerate().filter(|(_, stop)| stop.zone == zone);
            there.fold(0, |set, (number, _)| set | bit(number))
        };
        let zones = (0..ZONES_MAX).map(|zone| in_zone(Some(zone))).collect();
        let anywhere = in_zone(None);
        let sorted = sorted(&stops);
        let (known, trees) = (FxHashMap::default(), FxHashMap::default());
        let cuts = Cuts::new(walks, &stops, &sorted, start);
        Self { walks, cuts, stops, first, sorted, zones, anywhere, known, trees, left: WALKS_MAX }
    }

    /// The shortest walk from `zone` for the tasks of `to_do`; too short where it takes long to
    /// tell, or where only what is known so far is asked for (`at_a_glance`).
    pub(super) fn shortest(&mut self, to_do: Tasks, zone: usize, at_a_glance: bool) -> Parts {
        let to_do = numbers(to_do).fold(0, |set, task| set | self.first.get(task).unwrap_or(&0));
        // Whatever is known is no less than a limit of nothing.
        let limit = if at_a_glance { 0 } else { Length::MAX };
        let length = self.length(to_do, zone, limit);
        let part =
            |shift: u32, mask: u64| u32::try_from(length >> shift & mask).unwrap_or(u32::MAX);
        Parts {
            walk_s: part(32, u64::MAX),
            zone_changes: part(16, 0xffff),
            backward: part(0, 0xffff),
        }
    }

    /// The length of the shortest walk if that is below `limit`, else a lower bound of `limit` or
    /// more: what cannot be part of a shorter walk need not be known to the second.
    fn length(&mut self, to_do: Tasks, zone: usize, limit: Length) -> Length {
        let to_do = self.without_ready(to_do, zone);
        if to_do == 0 {
            return 0;
        }
        match self.known.get(&(to_do, zone)) {
            Some((known, exact)) if *exact || *known >= limit => return *known,
            _ => {}
        }
        if self.left == 0 || limit == 0 {
            return self.at_least(to_do, zone);
        }
        self.left = self.left.saturating_sub(1);
        let mut nexts: Vec<(Length, usize, Tasks)> = self.nexts(to_do, zone);
        nexts.sort_unstable_by_key(|next| Reverse(*next));
        let mut shortest = Length::MAX;
        while let Some((least, next, then)) = nexts.pop() {
            if least >= limit.min(shortest) {
                shortest = shortest.min(least);
                break;
            }
            let step = self.step(zone, next);
            let limit = limit.min(shortest).saturating_sub(step);
            shortest = shortest.min(step.saturating_add(self.length(then, next, limit)));
        }
        self.known.insert((to_do, zone), (shortest, shortest < limit));
        shortest
    }

    /// The zones that may be next, with what is left to do there, and how long the walk is at
    /// least.
    fn nexts(&mut self, to_do: Tasks, zone: usize) -> Vec<(Length, usize, Tasks)> {
        let ready = numbers(to_do).filter_map(|task| self.stops.get(task));
        let ready = ready.filter(|stop| stop.after & to_do == 0).filter_map(|stop| stop.zone);
        let zones = ready.fold(0_u64, |set, zone| set | place(zone));
        let all: Vec<(usize, Tasks)> =
            places(zones).map(|next| (next, self.without_ready(to_do, next))).collect();
        let done_there = |(next, then): &&(usize, Tasks)| then & self.tasks_in(*next) == 0;
        let passed = |next: usize| {
            all.iter().filter(done_there).any(|(via, _)| {
                *via != next
                    && self.walks.between(*via, next) > 0
                    && self.step(zone, *via).saturating_add(self.step(*via, next))
                        == self.step(zone, next).saturating_add(1 << 16)
            })
        };
        let kept: Vec<(usize, Tasks)> = all
            .iter()
            .filter(|(next, then)| !passed(*next) && !self.is_put_off(to_do, *then, *next))
            .copied()
            .collect();
        let at_least = |(next, then): (usize, Tasks)| {
            let known = self.known.get(&(then, next)).map(|(least, _)| *least);
            let least = known.unwrap_or_else(|| self.at_least(then, next));
            (self.step(zone, next).saturating_add(least), next, then)
        };
        kept.into_iter().map(at_least).collect()
    }

    fn tasks_in(&self, zone: usize) -> Tasks {
        self.zones.get(zone).copied().unwrap_or(0)
    }

    /// Whether all that a visit would do can wait for a later visit to the same zone: something is
    /// left there that all that waits for this visit waits for too.
    fn is_put_off(&self, to_do: Tasks, then: Tasks, zone: usize) -> bool {
        let done = numbers(to_do & !then).filter_map(|task| self.stops.get(task));
        let waiting = done.fold(0, |set, stop| set | stop.before) & then;
        numbers(then & self.tasks_in(zone)).any(|later| {
            let covered = self.stops.get(later).map_or(0, |stop| stop.before) | bit(later);
            waiting & !covered == 0
        })
    }

    /// What is left once all that can be done in a zone is done.
    fn without_ready(&self, to_do: Tasks, zone: usize) -> Tasks {
        let here = self.tasks_in(zone) | self.anywhere;
        let mut left = to_do;
        loop {
            let ready = numbers(left & here)
                .filter(|task| self.stops.get(*task).is_some_and(|stop| stop.after & left == 0));
            let after = ready.fold(left, |set, task| set & !bit(task));
            if after == left {
                return left;
            }
            left = after;
        }
    }

    /// One way, with a zone change, and a step back where the zone comes earlier in the
    /// technician's order.
    fn step(&self, from: usize, to: usize) -> Length {
        let walk_s = Length::from(self.walks.between(from, to));
        walk_s << 32 | 1 << 16 | Length::from(to < from)
    }

    /// A length that no walk is shorter than: of the shortest tree that joins all the zones, and of
    /// each chain of tasks that wait for one another.
    fn at_least(&mut self, to_do: Tasks, zone: usize) -> Length {
        let zones = self.zones.iter().enumerate().filter(|(_, tasks)| *tasks & to_do != 0);
        let zones = zones.fold(0_u64, |set, (zone, _)| set | place(zone));
        let (crossed_s, changes) = self.cuts.at_least(&self.stops, &self.sorted, to_do, zone);
        let walk_s = self.tree_s(zones | place(zone)).max(self.chain_s(to_do, zone)).max(crossed_s);
        Length::from(walk_s) << 32 | Length::from(zones.count_ones().max(changes)) << 16
    }

    /// The shortest tree that joins the zones of some tasks. Unit: s.
    pub(super) fn joined_s(&mut self, tasks: Tasks) -> u32 {
        let zones = self.zones.iter().enumerate().filter(|(_, there)| *there & tasks != 0);
        let zones = zones.fold(0_u64, |set, (zone, _)| set | place(zone));
        self.tree_s(zones)
    }

    /// The longest walk that tasks force which wait for one another.
    fn chain_s(&self, to_do: Tasks, zone: usize) -> u32 {
        let mut walked_s = [0_u32; TASKS_MAX];
        let mut longest = 0;
        for number in self.sorted.iter().filter(|number| to_do & bit(**number) != 0) {
            let Some(stop) = self.stops.get(*number) else { continue };
            let way_s = |from: Option<usize>| match (from, stop.zone) {
                (Some(from), Some(to)) => self.walks.between(from, to),
                _ => 0,
            };
            let mut here_s = way_s(Some(zone));
            for other in numbers(stop.after & to_do) {
                let from = self.stops.get(other).and_then(|stop| stop.zone);
                let until_s = walked_s.get(other).copied().unwrap_or(0);
                here_s = here_s.max(until_s.saturating_add(way_s(from)));
            }
            if let Some(cell) = walked_s.get_mut(*number) {
                *cell = here_s;
            }
            longest = longest.max(here_s);
        }
        longest
    }

    /// The shortest tree that joins some zones (Prim 1957), each way taken as the shorter of there
    /// and back.
    fn tree_s(&mut self, zones: u64) -> u32 {
        if let Some(known) = self.trees.get(&zones) {
            return *known;
        }
        let way_s = |one, other| self.walks.between(one, other).min(self.walks.between(other, one));
        let mut left: Vec<(usize, u32)> = places(zones).map(|zone| (zone, u32::MAX)).collect();
        let mut tree_s = 0_u32;
        let mut next = left.pop();
        while let Some((zone, _)) = next {
            for (other, join_s) in &mut left {
                *join_s = (*join_s).min(way_s(zone, *other));
            }
            let nearest = left.iter().enumerate().min_by_key(|(_, (_, join_s))| *join_s);
            next = nearest.map(|(at, _)| at).map(|at| left.swap_remove(at));
            tree_s = tree_s.saturating_add(next.map_or(0, |(_, join_s)| join_s));
        }
        self.trees.insert(zones, tree_s);
        tree_s
    }
}

/// Tasks in an order in which none comes before one that it waits for.
fn sorted(stops: &[Stop]) -> Vec<usize> {
    let mut order = Vec::new();
    let mut placed: Tasks = 0;
    while order.len() < stops.len() {
        let before = order.len();
        for (number, stop) in stops.iter().enumerate() {
            if placed & bit(number) == 0 && stop.after & !placed == 0 {
                placed |= bit(number);
                order.push(number);
            }
        }
        if order.len() == before {
            break; // There is no cycle: see `after.rs`.
        }
    }
    order
}

/// A zone in a set of zones; none beyond the last that a set holds.
pub(super) fn place(zone: usize) -> u64 {
    u32::try_from(zone).ok().and_then(|zone| 1_u64.checked_shl(zone)).unwrap_or(0)
}

fn places(zones: u64) -> impl Iterator<Item = usize> {
    numbers(Tasks::from(zones))
}
