//! The shortest walk that does some tasks in order, ending anywhere: best-first over what is left and
//! where one stands (Hart, Nilsson and Raphael 1968). What one search learns of how far it is from
//! where it came by is kept for the next (Koenig and Likhachev 2005).
//!
//! What can be done where one stands is done first: doing it never makes anything wait. And a zone
//! need not be tried next that lies beyond another where all that is left could be done on the way, in
//! no more steps back (*passed*): the way through it is as short, and the later visit is saved.
//! Walking, zone changes and steps back are all no more when a visit is left out, so the argument
//! holds for the three of them in this order.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use rustc_hash::FxHashMap;

use super::cuts::Cuts;
use super::ring::{Ring, Round, rings};
use super::stops::{Direct, Stops, ZONES_MAX, place, placed, renamed, zones};
use super::ways::{apart_s, ways};
use super::{Task, Tasks};
use crate::vehicle::Walks;

/// Places that are opened before it is left at a lower bound for each further walk.
const PLACES_MAX: usize = 12_000;
/// Orders that are kept: see [`Walk::order`].
const ORDERS_MAX: usize = 64;

/// Walking time, zone changes and steps back, the weightiest in the upper bits.
type Length = u64;

/// What is left to do, and where one stands.
type Place = (Tasks, usize);

pub(super) struct Walk<'a> {
    /// The number of each task here.
    numbers: Vec<usize>,
    tasks: Vec<Direct>,
    /// By what is skipped: see [`Walk::order`].
    orders: Vec<(Tasks, Order)>,
    ground: Ground<'a>,
}

/// A walk's length in its parts.
pub(super) struct Parts {
    pub(super) walk_s: u32,
    pub(super) zone_changes: u32,
    pub(super) backward: u32,
}

/// Where one walks.
struct Ground<'a> {
    walks: &'a Walks,
    rings: Vec<Ring>,
    cuts: Cuts,
    trees: FxHashMap<u64, u32>,
    /// Places that may still be opened.
    left: usize,
}

/// Which tasks wait for which, and what is known of the walks that keep that order.
struct Order {
    stops: Stops,
    rounds: Vec<Round>,
    /// How long, and whether that is exact or a lower bound.
    known: FxHashMap<Place, (Length, bool)>,
}

/// A place that a search came by.
struct Reached {
    place: Place,
    so_far: Length,
    from: usize,
    is_open: bool,
}

impl<'a> Walk<'a> {
    pub(super) fn new(tasks: &[Task], walks: &'a Walks, start: usize) -> Self {
        let (numbers, tasks) = placed(tasks);
        let mut ways = ways(walks);
        let rings = rings(walks, &mut ways);
        let stops = Stops::new(&tasks, 0);
        let cuts = Cuts::new(&ways, walks.zones().min(ZONES_MAX), &stops, start);
        let ground = Ground { walks, rings, cuts, trees: FxHashMap::default(), left: PLACES_MAX };
        let orders = vec![(0, Order::new(stops, &ground))];
        Self { numbers, tasks, orders, ground }
    }

    /// How many places were opened so far.
    pub(super) fn opened(&self) -> usize {
        PLACES_MAX.saturating_sub(self.ground.left)
    }

    /// The shortest walk from `zone` for the tasks of `to_do`; too short where it takes long to
    /// tell, or where only what is known so far is asked for (`at_a_glance`).
    pub(super) fn shortest(&mut self, to_do: Tasks, zone: usize, at_a_glance: bool) -> Parts {
        let to_do = renamed(to_do, &self.numbers);
        let length = self.order(to_do).map_or(0, |number| {
            let Some((_, order)) = self.orders.get_mut(number) else { return 0 };
            let left = order.stops.left(to_do & order.stops.known(), zone);
            if at_a_glance {
                order.at_least(&mut self.ground, (left, zone)).0
            } else {
                order.shortest(&mut self.ground, (left, zone))
            }
        });
        let part =
            |shift: u32, mask: u64| u32::try_from(length >> shift & mask).unwrap_or(u32::MAX);
        Parts {
            walk_s: part(32, u64::MAX),
            zone_changes: part(16, 0xffff),
            backward: part(0, 0xffff),
        }
    }

    /// The order that some tasks must come in. What waits for another through a task that is done
    /// by now waits for it no more: so there is an order for each set of tasks that are so *skipped*.
    fn order(&mut self, to_do: Tasks) -> Option<usize> {
        let skipped = self.orders.first().map_or(0, |(_, order)| order.stops.skipped(to_do));
        let known = self.orders.iter().position(|(one, _)| *one == skipped);
        if known.is_none() && self.orders.len() < ORDERS_MAX {
            let order = Order::new(Stops::new(&self.tasks, skipped), &self.ground);
            self.orders.push((skipped, order));
            return self.orders.len().checked_sub(1);
        }
        known
    }

    /// The shortest tree that joins the zones of some tasks. Unit: s.
    pub(super) fn joined_s(&mut self, tasks: Tasks) -> u32 {
        let tasks = renamed(tasks, &self.numbers);
        let zones = self.orders.first().map_or(0, |(_, order)| order.stops.zones(tasks));
        self.ground.tree_s(zones)
    }
}

impl Order {
    fn new(stops: Stops, ground: &Ground) -> Self {
        let rounds = ground.rings.iter().map(|ring| Round::new(ring, &stops)).collect();
        Self { stops, rounds, known: FxHashMap::default() }
    }

    /// A length that no walk is shorter than, and whether one is as short: of the shortest tree that
    /// joins all the zones, and of what is crossed and walked in rings.
    fn at_least(&mut self, ground: &mut Ground, (to_do, zone): Place) -> (Length, bool) {
        if to_do == 0 {
            return (0, true);
        }
        if let Some(known) = self.known.get(&(to_do, zone)) {
            return *known;
        }
        let zones = self.stops.zones(to_do);
        let (crossed_s, changes) = ground.cuts.at_least(&self.stops, to_do, zone);
        let rounds = self.rounds.iter_mut().map(|round| round.shortest_s(to_do, zone));
        let walked_s = rounds.fold(crossed_s, u32::saturating_add);
        let walk_s = ground.tree_s(zones | place(zone)).max(walked_s);
        let length =
            Length::from(walk_s) << 32 | Length::from(zones.count_ones().max(changes)) << 16;
        self.known.insert((to_do, zone), (length, false));
        (length, false)
    }

    /// The length of the shortest walk; a lower bound once no more places may be opened.
    fn shortest(&mut self, ground: &mut Ground, start: Place) -> Length {
        let mut reached = vec![Reached { place: start, so_far: 0, from: 0, is_open: true }];
        let mut numbers = FxHashMap::from_iter([(start, 0)]);
        let mut open = BinaryHeap::from([(Reverse(self.at_least(ground, start).0), 0, 0)]);
        while let Some((Reverse(length), so_far, number)) = open.pop() {
            let Some(one) = reached.get_mut(number).filter(|one| one.so_far == so_far) else {
                continue;
            };
            one.is_open = false;
            let place = one.place;
            let (_, exact) = self.at_least(ground, place);
            if exact || ground.left == 0 {
                self.keep(&reached, number, length, exact);
                return length;
            }
            ground.left = ground.left.saturating_sub(1);
            for next in self.nexts(ground, place) {
                let so_far = so_far.saturating_add(ground.step(place.1, next.1));
                let found = Reached { place: next, so_far, from: number, is_open: true };
                let at = *numbers.entry(next).or_insert(reached.len());
                match reached.get_mut(at) {
                    Some(known) if known.so_far <= so_far => continue,
                    Some(known) => *known = found,
                    None => reached.push(found),
                }
                let length = so_far.saturating_add(self.at_least(ground, next).0);
                open.push((Reverse(length), so_far, at));
            }
        }
        Length::MAX
    }

    /// Keeps what a search has learnt: from each place that it opened on a way so far to an end of
    /// this length at least, it is the rest of that.
    fn keep(&mut self, reached: &[Reached], end: usize, length: Length, exact: bool) {
        for one in reached.iter().filter(|one| !one.is_open) {
            let rest = length.saturating_sub(one.so_far);
            let known = self.known.entry(one.place).or_default();
            if !known.1 {
                known.0 = known.0.max(rest);
            }
        }
        let mut next = Some(end).filter(|_| exact);
        while let Some((number, one)) = next.and_then(|n| Some((n, reached.get(n)?))) {
            self.known.insert(one.place, (length.saturating_sub(one.so_far), true));
            next = (number != 0).then_some(one.from);
        }
    }

    /// What may be next.
    fn nexts(&self, ground: &Ground, (to_do, zone): Place) -> Vec<Place> {
        let ready = zones(self.stops.zones_of_ready(to_do));
        let all: Vec<Place> = ready.map(|next| (self.stops.then_left(to_do, next), next)).collect();
        let done_there = |(then, next): &&Place| then & self.stops.in_zone(*next) == 0;
        let passes = |next: usize| {
            all.iter().filter(done_there).any(|(_, via)| {
                let steps = [ground.step(zone, *via), ground.step(*via, next)];
                *via != next
                    && ground.walks.between(*via, next) > 0
                    && steps.iter().fold(0, |sum: Length, one| sum.saturating_add(*one))
                        == ground.step(zone, next).saturating_add(1 << 16)
            })
        };
        all.iter().filter(|(_, next)| !passes(*next)).copied().collect()
    }
}

impl Ground<'_> {
    /// One way, with a zone change, and a step back where the zone comes earlier in the
    /// technician's order.
    fn step(&self, from: usize, to: usize) -> Length {
        let walk_s = Length::from(self.walks.between(from, to));
        walk_s << 32 | 1 << 16 | Length::from(to < from)
    }

    /// The shortest tree that joins some zones (Prim 1957), each way taken as the shorter of there
    /// and back.
    fn tree_s(&mut self, set: u64) -> u32 {
        if let Some(known) = self.trees.get(&set) {
            return *known;
        }
        let mut left: Vec<(usize, u32)> = zones(set).map(|zone| (zone, u32::MAX)).collect();
        let mut tree_s = 0_u32;
        let mut next = left.pop();
        while let Some((zone, _)) = next {
            for (other, join_s) in &mut left {
                *join_s = (*join_s).min(apart_s(self.walks, zone, *other));
            }
            let nearest = left.iter().enumerate().min_by_key(|(_, (_, join_s))| *join_s);
            next = nearest.map(|(at, _)| at).map(|at| left.swap_remove(at));
            tree_s = tree_s.saturating_add(next.map_or(0, |(_, join_s)| join_s));
        }
        self.trees.insert(set, tree_s);
        tree_s
    }
}
