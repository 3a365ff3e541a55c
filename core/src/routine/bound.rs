//! A lower bound on what is left to do: hands-on time for each aim that is not met, and the
//! shortest walk through every zone that must still be visited.

use std::collections::BTreeMap;

use super::compile::{Compiled, Step};
use super::cost::Cost;
use crate::vehicle::Walks;

/// Most zones that the walk is bounded over; the rest are left out, which only weakens the bound.
const ZONES_MAX: usize = 14;

/// What each aim costs at least, and where.
struct Least {
    hands_on_s: u32,
    /// The bit of the only zone where it can be met; 0 where there are several.
    zone: u32,
}

/// Lower bounds for one problem.
pub(super) struct Bound<'a> {
    compiled: &'a Compiled,
    walks: &'a Walks,
    least: Vec<Least>,
    /// The zones that bits stand for.
    zones: Vec<usize>,
    known: BTreeMap<(u32, usize), u32>,
}

impl<'a> Bound<'a> {
    pub(super) fn new(compiled: &'a Compiled, walks: &'a Walks) -> Self {
        let mut zones = Vec::new();
        for zone in compiled.aims.iter().filter_map(|aim| only_zone(compiled, &aim.steps)) {
            if !zones.contains(&zone) && zones.len() < ZONES_MAX {
                zones.push(zone);
            }
        }
        let mut shared = vec![0_u32; compiled.steps.len()];
        for step in compiled.aims.iter().flat_map(|aim| &aim.steps) {
            if let Some(count) = shared.get_mut(*step) {
                *count = count.saturating_add(1);
            }
        }
        // A step that meets several aims pays a share to each.
        let share = |number: &usize| {
            let step = compiled.steps.get(*number)?;
            step.seconds.checked_div(shared.get(*number).copied().unwrap_or(1))
        };
        let least = compiled.aims.iter().map(|aim| Least {
            hands_on_s: aim.steps.iter().filter_map(share).min().unwrap_or(0),
            zone: only_zone(compiled, &aim.steps)
                .and_then(|zone| zones.iter().position(|known| *known == zone))
                .map_or(0, bit),
        });
        Self { least: least.collect(), compiled, walks, zones, known: BTreeMap::new() }
    }

    /// The least that is left from here: what is not met costs its hands-on time, and its zone
    /// must be entered.
    pub(super) fn left(&mut self, beliefs: &[u8], zone: usize) -> Cost {
        let mut hands_on_s = 0_u32;
        let mut to_visit = 0_u32;
        for (aim, least) in self.compiled.aims.iter().zip(&self.least) {
            if !aim.is_met(beliefs) {
                hands_on_s = hands_on_s.saturating_add(least.hands_on_s);
                to_visit |= least.zone;
            }
        }
        if let Some(here) = self.zones.iter().position(|known| *known == zone) {
            to_visit &= !bit(here);
        }
        let walk_s = self.walk_s(to_visit, zone);
        Cost {
            elapsed_s: hands_on_s.saturating_add(walk_s),
            walk_s,
            zone_changes: to_visit.count_ones(),
            ..Cost::default()
        }
    }

    /// The shortest walk from `zone` through all of `to_visit`, ending anywhere (Held and Karp
    /// 1962), kept for the next time.
    fn walk_s(&mut self, to_visit: u32, zone: usize) -> u32 {
        if to_visit == 0 {
            return 0;
        }
        if let Some(known) = self.known.get(&(to_visit, zone)) {
            return *known;
        }
        let mut shortest = u32::MAX;
        for place in 0..self.zones.len() {
            let next = self.zones.get(place).copied().unwrap_or(zone);
            if to_visit & bit(place) != 0 {
                let rest = self.walk_s(to_visit & !bit(place), next);
                shortest = shortest.min(self.walks.between(zone, next).saturating_add(rest));
            }
        }
        self.known.insert((to_visit, zone), shortest);
        shortest
    }
}

fn bit(place: usize) -> u32 {
    u32::try_from(place).ok().and_then(|place| 1_u32.checked_shl(place)).unwrap_or(0)
}

fn only_zone(compiled: &Compiled, steps: &[usize]) -> Option<usize> {
    let mut zones = steps.iter().filter_map(|step| compiled.steps.get(*step)).map(zone_of);
    let first = zones.next()?;
    zones.all(|zone| zone == first).then_some(first)
}

fn zone_of(step: &Step) -> usize {
    step.zone
}
