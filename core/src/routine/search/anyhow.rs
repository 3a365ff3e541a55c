//! Whether there is a way at all: the search without zones, time, walking and nuisances.
//!
//! A harmless step is taken at once, wherever it is, if it is permitted, changes nothing but what it
//! is for, and each clause of which it makes a literal possible is off for good. *Argument:* no
//! condition and no aim waits for its changes to be otherwise and nothing throws them back, so from
//! any way that takes it later, or never, one that takes it now is made by moving it here. A clock
//! may ripen whenever it runs, so where this finds nothing, there is nothing.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use rustc_hash::FxHashSet;

use crate::catalogue::Severity;
use crate::routine::form::{Beliefs, Compiled, NEVER, OfUse, Step, at, settings_of};
use crate::routine::useful::useful;
use crate::vehicle::Deed;

/// How much more is left, in steps, as long as something is broken that was at the start.
const BROKEN: usize = 1_000;

/// What is known of whether there is a way.
pub(super) enum Anyhow {
    /// Steps in an order that is permitted, as far as no age comes in between.
    Steps(Vec<usize>),
    Nothing,
    CutShort,
}

struct Place {
    beliefs: Beliefs,
    /// The place before, and the steps from there.
    parent: usize,
    taken: Vec<usize>,
    zone: usize,
}

/// Looks for any way, opening at most `places_max` places.
pub(super) fn anyhow(compiled: &Compiled, places_max: usize) -> Anyhow {
    let mut places: Vec<Place> = Vec::new();
    let mut seen = FxHashSet::default();
    let mut open = BinaryHeap::new();
    let beliefs = compiled.start.clone();
    let mut of_use = useful(compiled, &beliefs);
    let mut found = vec![Place { beliefs, parent: 0, taken: Vec::new(), zone: compiled.zone }];
    for _ in 0..=places_max {
        for mut place in found.drain(..) {
            take_harmless(compiled, &of_use, &mut place);
            if seen.insert(place.beliefs.clone()) {
                let aims = compiled.aims.iter().filter(|aim| !aim.is_met(&place.beliefs)).count();
                let steps = useful(compiled, &place.beliefs).steps;
                let steps = steps.iter().filter(|useful| **useful).count();
                let left = match compiled.broken(&place.beliefs) {
                    (true, _) => aims.saturating_add(steps).saturating_add(2 * BROKEN),
                    (false, true) => aims.saturating_add(steps).saturating_add(BROKEN),
                    (false, false) if aims == 0 => 0,
                    (false, false) => aims.saturating_add(steps),
                };
                open.push(Reverse((left, Reverse(places.len()))));
                places.push(place);
            }
        }
        let Some(Reverse((left, Reverse(number)))) = open.pop() else {
            return Anyhow::Nothing;
        };
        if left == 0 {
            return Anyhow::Steps(steps(&places, number));
        }
        let Some(place) = places.get(number) else { break };
        of_use = useful(compiled, &place.beliefs);
        for (next, step) in compiled.steps.iter().enumerate().rev() {
            if of_use.steps.get(next) == Some(&true)
                && let Some(beliefs) = after(compiled, &place.beliefs, step)
            {
                found.push(Place { beliefs, parent: number, taken: vec![next], zone: step.zone });
            }
        }
    }
    Anyhow::CutShort
}

/// What a step makes of some beliefs, if it can be taken and does anything.
fn after(compiled: &Compiled, beliefs: &[u8], step: &Step) -> Option<Beliefs> {
    let after = step.apply(beliefs);
    let can = match compiled.clock_of(step).and_then(|clock| compiled.clocks.get(clock)) {
        Some(clock) => match clock.of {
            Some(of) => settings_of(at(beliefs, of)) == clock.setting,
            None => clock.left_s != NEVER,
        },
        None => compiled.is_permitted(beliefs, step),
    };
    (can && step.is_of_effect(beliefs, &after)).then_some(after)
}

/// Takes harmless steps until none is left, those where one stands first; none as long as
/// something is broken, since getting out of it comes first.
fn take_harmless(compiled: &Compiled, of_use: &OfUse, place: &mut Place) {
    while compiled.broken(&place.beliefs) == (false, false) {
        let steps = compiled.steps.iter().enumerate();
        let steps = steps.filter(|(number, step)| step.is_harmless(*number, of_use));
        let mut can = steps.filter_map(|(next, step)| {
            let then = after(compiled, &place.beliefs, step)?;
            is_free(compiled, of_use, &place.beliefs, step, &then)
                .then_some((next, step.zone, then))
        });
        let first = can.next();
        let here = first.iter().all(|(_, zone, _)| *zone == place.zone);
        let better = if here { None } else { can.find(|(_, zone, _)| *zone == place.zone) };
        let Some((next, zone, then)) = better.or(first) else { return };
        place.taken.push(next);
        place.zone = zone;
        place.beliefs = then;
    }
}

/// Whether a harmless step throws nothing back and makes no clause possible that matters.
fn is_free(compiled: &Compiled, of_use: &OfUse, beliefs: &[u8], step: &Step, after: &[u8]) -> bool {
    let throws_back = |var: usize| {
        at(beliefs, var) != at(after, var)
            && !step.changes.iter().any(|one| one.var == var && !one.spoilt)
    };
    let burdens = step.burdens.iter().filter_map(|rule| compiled.rules.get(*rule));
    let mut grave = burdens.filter(|rule| rule.severity != Severity::Nuisance);
    !step.changes.iter().any(|one| throws_back(one.var))
        && (step.deed == Deed::Look || grave.all(|rule| rule.is_off_for_good(of_use, step)))
}

/// The steps to a place, from the start.
fn steps(places: &[Place], number: usize) -> Vec<usize> {
    let mut steps = Vec::new();
    let mut next = Some(number);
    while let Some((number, place)) = next.and_then(|one| places.get(one).map(|place| (one, place)))
    {
        steps.extend(place.taken.iter().rev());
        next = (number != 0).then_some(place.parent);
    }
    steps.reverse();
    steps
}
