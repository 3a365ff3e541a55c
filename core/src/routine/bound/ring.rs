//! Walking within a ring of few zones, exactly: all that lies beyond one of its zones counts as there.
//!
//! A way that every path between two zones takes is a *bridge*; zones that hang together without any
//! bridge are a *ring*. A walk's length is what it crosses of bridges and what it walks in rings, so
//! the shortest walks in each alone add up to no more than the whole. That in a ring is found by
//! trying every zone that can be next (Bellman 1962), each question once.

use rustc_hash::FxHashMap;

use super::Tasks;
use super::stops::{Stops, ZONES_MAX, place, zones};
use super::ways::{Way, joined};
use crate::vehicle::Walks;

/// Most zones of a ring that is worked out.
const ZONES: usize = 8;
/// Most questions to one ring: beyond, the rest of the walk in it counts nothing.
const KNOWN_MAX: usize = 20_000;

#[derive(Debug, Clone)]
pub(super) struct Ring {
    /// For each zone, the one of the ring that it lies beyond.
    at: Vec<usize>,
    walks: Walks,
}

/// The walk in a ring for some tasks.
pub(super) struct Round {
    ring: Ring,
    stops: Stops,
    /// Unit: s.
    known: FxHashMap<(Tasks, usize), u32>,
}

/// The rings of few zones, with more zones beyond; their ways count nothing from here on.
pub(super) fn rings(walks: &Walks, ways: &mut [Way]) -> Vec<Ring> {
    let count = walks.zones().min(ZONES_MAX);
    let is_bridge = |number: &usize| {
        ways.get(*number).is_some_and(|way| {
            let [one, other] = way.ends;
            joined(ways, one, &[*number]) & place(other) == 0
        })
    };
    let bridges: Vec<usize> = (0..ways.len()).filter(is_bridge).collect();
    let mut found = Vec::new();
    let mut seen = 0;
    for zone in 0..count {
        let set = joined(ways, zone, &bridges);
        let size = zones(set).count();
        if seen & place(zone) == 0 && (3..=ZONES).contains(&size) && size < count {
            found.push(set);
        }
        seen |= set;
    }
    found.into_iter().map(|set| Ring::new(walks, ways, set)).collect()
}

impl Ring {
    fn new(walks: &Walks, ways: &mut [Way], set: u64) -> Self {
        let is_within = |way: &Way| way.ends.iter().all(|end| set & place(*end) != 0);
        let own: Vec<usize> =
            ways.iter().enumerate().filter(|(_, way)| is_within(way)).map(|(n, _)| n).collect();
        let beyond: Vec<(usize, u64)> =
            zones(set).map(|zone| (zone, joined(ways, zone, &own))).collect();
        let at = |zone: usize| beyond.iter().find(|(_, set)| set & place(zone) != 0);
        let at = (0..walks.zones()).map(|zone| at(zone).map_or(zone, |(at, _)| *at)).collect();
        let walks = Walks::closed(walks.zones(), |from, to| {
            let mut own = own.iter().filter_map(|number| ways.get(*number));
            own.find(|way| way.ends == [from.min(to), from.max(to)]).map(|way| way.seconds)
        });
        for way in ways.iter_mut().filter(|way| is_within(way)) {
            way.seconds = 0;
        }
        Self { at, walks }
    }

    fn zone(&self, zone: usize) -> usize {
        self.at.get(zone).copied().unwrap_or(zone)
    }
}

impl Round {
    pub(super) fn new(ring: &Ring, stops: &Stops) -> Self {
        let stops = stops.with_zones(|zone| ring.zone(zone));
        Self { ring: ring.clone(), stops, known: FxHashMap::default() }
    }

    /// The shortest walk in the ring for some tasks. Unit: s.
    pub(super) fn shortest_s(&mut self, to_do: Tasks, zone: usize) -> u32 {
        let zone = self.ring.zone(zone);
        self.least_s(self.stops.left(to_do, zone), zone)
    }

    fn least_s(&mut self, to_do: Tasks, zone: usize) -> u32 {
        if to_do == 0 {
            return 0;
        }
        if let Some(known) = self.known.get(&(to_do, zone)) {
            return *known;
        }
        if self.known.len() >= KNOWN_MAX {
            return 0;
        }
        let ready = self.stops.zones_of_ready(to_do);
        let way_s = |from, to| self.ring.walks.between(from, to);
        let passes = |next: usize| {
            zones(ready).any(|via| {
                let all_s = way_s(zone, via).saturating_add(way_s(via, next));
                via != next && way_s(via, next) > 0 && all_s == way_s(zone, next)
            })
        };
        let nexts: Vec<(usize, u32)> = zones(ready)
            .filter(|next| !passes(*next))
            .map(|next| (next, way_s(zone, next)))
            .collect();
        let mut least_s = u32::MAX;
        for (next, way_s) in nexts {
            let then = self.stops.then_left(to_do, next);
            least_s = least_s.min(way_s.saturating_add(self.least_s(then, next)));
        }
        self.known.insert((to_do, zone), least_s);
        least_s
    }
}
