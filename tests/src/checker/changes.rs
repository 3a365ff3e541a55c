//! What a plan changes, thing by thing.

use std::collections::BTreeMap;

use stowfast_core::routine::Problem;
use stowfast_core::vehicle::{Deed, Settings};

use super::Replay;

/// How often the steps move each variable to another setting, and whether it ends other than it was
/// found (semantics 15). What a step only throws back is not counted, nor what a look shows.
#[must_use]
pub fn changes(problem: &Problem, steps: &[usize]) -> BTreeMap<usize, (u32, bool)> {
    let mut replay = Replay::of(problem);
    let mut made: BTreeMap<usize, u32> = BTreeMap::new();
    for action in steps.iter().filter_map(|number| problem.vehicle.actions.get(*number)) {
        let own = action.effects.iter().filter(|effect| !effect.spoilt);
        for effect in own.filter(|_| action.deed == Deed::Move) {
            let changed = replay.belief(effect.variable) != Settings::one(effect.to);
            let count = made.entry(effect.variable).or_default();
            *count = count.saturating_add(u32::from(changed));
        }
        replay.step(problem, 0, action);
    }
    let ends = |variable: usize| problem.beliefs.get(variable) != Some(&replay.belief(variable));
    made.into_iter().map(|(variable, count)| (variable, (count, ends(variable)))).collect()
}
