//! The best way to share steps out: layer by layer, one step more in each.
//!
//! A layer holds every way to share out so many steps that may still beat the best found. Steps are
//! shared out by when they start, so that the ways of a layer can be compared. Of two that stand
//! alike one is dropped if the other is nowhere later and has walked no more. A layer that grows beyond its width loses its least promising ones, and what these could have come to
//! bounds what was missed: where that is no less than the best found, the best is proved, as if
//! the search had been exhaustive. The widths are counts, so every platform gives the same answer.

use std::collections::BTreeMap;

use super::conflict;
use super::delay::{Age, Need, Needs};
use super::side::{Side, bit};
use crate::routine::{Cost, Plan, Problem, Proof};
use crate::vehicle::{Action, Deed, Vehicle, Walks};

/// Ways that a search looks at in all, shared among its layers. Up to a dozen steps it is as good as
/// exhaustive.
const WAYS: usize = 24_000;
/// A narrow search first, so that the wide one has something to beat.
const WIDTH_FIRST: usize = 16;
/// Most steps that are shared out. The place behind them is the end's.
const STEPS_MAX: usize = 127;

/// What a schedule costs, the weightiest part first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(super) struct Price {
    /// For how long what must not end alone could have ended with nobody there. Unit: s.
    pub(super) alone_s: u32,
    pub(super) elapsed_s: u32,
    pub(super) walk_s: u32,
    pub(super) zone_changes: u32,
}

impl Price {
    pub(super) fn of(plan: &Plan) -> Self {
        let Cost { alone_s, elapsed_s, walk_s, zone_changes, .. } = plan.cost;
        Self { alone_s, elapsed_s, walk_s, zone_changes }
    }
}

/// One step as the search sees it.
#[derive(Debug)]
pub(super) struct Job {
    pub(super) zone: usize,
    pub(super) seconds: u32,
    /// Steps that must have ended before.
    pub(super) before: Vec<usize>,
    /// What must be old before.
    pub(super) needs: Vec<Need>,
    /// The age from when on who does it is there, where it ends what must not end alone.
    pub(super) attended: Option<Age>,
    /// The fitting whose chain it belongs to.
    pub(super) chain: Option<usize>,
}

/// What is to be shared out.
#[derive(Debug)]
pub(super) struct Task<'a> {
    pub(super) walks: &'a Walks,
    pub(super) zone: usize,
    pub(super) jobs: Vec<Job>,
    /// What must be old in the end.
    pub(super) end: Vec<Need>,
    /// The waits: nobody's work.
    pub(super) waits: u128,
    /// The steps of each chain.
    chains: BTreeMap<usize, u128>,
    /// For each step, those that wait for it.
    after: Vec<u128>,
}

impl<'a> Task<'a> {
    pub(super) fn of(problem: &Problem<'a>, plan: &Plan, needs: Needs) -> Self {
        let vehicle = problem.vehicle;
        let is_chain = |number: usize| vehicle.fittings.get(number).is_some_and(|f| f.one_person);
        let actions = plan.steps.iter().filter_map(|step| vehicle.actions.get(*step));
        let actions: Vec<&Action> = actions.collect();
        let before = conflict::before(problem, plan);
        let mut jobs: Vec<Job> = Vec::new();
        let needed = needs.steps.into_iter().zip(needs.attended);
        for ((action, mut before), (needs, attended)) in actions.iter().zip(before).zip(needed) {
            before.extend(needs.iter().flatten().flat_map(|age| &age.from));
            // What an earlier step needs to be old stays as it is until that has ended.
            let spoils = |job: &Job| job.needs.iter().any(|need| spoils(vehicle, action, need));
            before.extend((0..jobs.len()).filter(|place| jobs.get(*place).is_some_and(spoils)));
            before.sort_unstable();
            before.dedup();
            jobs.push(Job {
                zone: action.zone,
                seconds: action.seconds,
                before,
                needs,
                attended,
                chain: Some(action.fitting).filter(|fitting| is_chain(*fitting)),
            });
        }
        let mut task = Self {
            walks: &vehicle.walks,
            zone: problem.zone,
            after: vec![0; jobs.len()],
            jobs,
            end: needs.end,
            waits: 0,
            chains: BTreeMap::new(),
        };
        task.link(&actions);
        task
    }

    /// Notes which steps belong to a chain, and which wait for each.
    fn link(&mut self, actions: &[&Action]) {
        for (place, (job, action)) in self.jobs.iter().zip(actions).enumerate() {
            if action.deed == Deed::Wait {
                self.waits |= bit(place);
                continue;
            }
            if let Some(chain) = job.chain {
                *self.chains.entry(chain).or_insert(0) |= bit(place);
            }
            for one in &job.before {
                if let Some(cell) = self.after.get_mut(*one) {
                    *cell |= bit(place);
                }
            }
        }
        for one in self.end.iter().flatten().flat_map(|age| &age.from) {
            if let Some(cell) = self.after.get_mut(*one) {
                *cell |= bit(STEPS_MAX);
            }
        }
    }

    pub(super) fn members(&self, chain: usize) -> u128 {
        self.chains.get(&chain).copied().unwrap_or(0)
    }

    /// Whether a step must wait until another has ended.
    pub(super) fn waits(&self, place: usize, other: usize) -> bool {
        self.jobs.get(place).is_some_and(|job| job.before.contains(&other))
    }

    /// Those that wait for a step.
    pub(super) fn after(&self, place: usize) -> u128 {
        self.after.get(place).copied().unwrap_or(0)
    }
}

/// Whether a step moves what an age counts from.
fn spoils(vehicle: &Vehicle, action: &Action, need: &Need) -> bool {
    let of = |variable: usize| vehicle.variables.get(variable).and_then(|known| known.age_of);
    need.iter().filter_map(|age| of(age.variable)).any(|of| {
        let mut effects = action.effects.iter();
        effects.any(|one| one.variable == of.variable && action.brings(one))
    })
}

/// The best way to share the steps out that beats `known`, and how far the better of both is from
/// the best there is.
pub(super) fn best(task: &Task, known: Price) -> (Option<Side>, Proof) {
    if task.jobs.len() > STEPS_MAX {
        let (least, _) = Side::start(task).bound(task);
        return (None, proof(known, least));
    }
    let wide = WAYS.checked_div(task.jobs.len()).unwrap_or(WAYS);
    let (first, _) = layers(task, known, WIDTH_FIRST);
    let known = first.as_ref().map_or(known, |side| side.price);
    let (second, missed) = layers(task, known, wide);
    let found = second.or(first);
    let price = found.as_ref().map_or(known, |side| side.price);
    (found, missed.map_or(Proof::Exact, |missed| proof(price, missed)))
}

fn proof(price: Price, least: Price) -> Proof {
    if least >= price {
        return Proof::Exact;
    }
    Proof::Gap { seconds: price.elapsed_s.saturating_sub(least.elapsed_s) }
}

/// The best that beats `known` among what the width lets through, and the least that what it did
/// not let through can come to.
fn layers(task: &Task, known: Price, width: usize) -> (Option<Side>, Option<Price>) {
    let mut layer = vec![Side::start(task)];
    let mut missed: Option<Price> = None;
    let waits = usize::try_from(task.waits.count_ones()).unwrap_or(usize::MAX);
    for _ in 0..task.jobs.len().saturating_sub(waits) {
        let mut next: Vec<Side> = layer
            .iter()
            .flat_map(|side| side.longer(task))
            .filter(|one| one.least < known)
            .collect();
        next.sort_by(Side::rank);
        let (kept, first_missed) = keep(task, next, width);
        missed = missed.into_iter().chain(first_missed).min();
        layer = kept;
    }
    // The most promising of those that are complete may walk further than another.
    let best = layer.into_iter().min_by(|a, b| a.price.cmp(&b.price).then_with(|| a.rank(b)));
    (best.filter(|one| one.price < known), missed)
}

/// The first `width` of a sorted layer that none before them outdoes, and the least of the rest.
fn keep(task: &Task, sorted: Vec<Side>, width: usize) -> (Vec<Side>, Option<Price>) {
    let mut kept: Vec<Side> = Vec::new();
    let mut alike: BTreeMap<_, Vec<usize>> = BTreeMap::new();
    let mut sorted = sorted.into_iter();
    while let Some(side) = sorted.next() {
        let group = alike.entry(side.stand()).or_default();
        let mut others = group.iter().filter_map(|number| kept.get(*number));
        if others.any(|other| side.is_outdone_by(other, task)) {
            continue;
        }
        if kept.len() >= width {
            // The most promising is not the least in walking.
            let missed = sorted.map(|one| one.least).min();
            return (kept, missed.into_iter().chain([side.least]).min());
        }
        group.push(kept.len());
        kept.push(side);
    }
    (kept, None)
}
