//! Keeping to the order that a routine has: a re-plan changes it only for a real gain, so that
//! nobody is sent about anew for a few seconds (`semantics.md` 14).

use super::asked::Asked;
use super::search::resume;
use super::stop::nuisances;
use super::{Cost, Plan, Problem, Proof};
use crate::catalogue::Severity;
use crate::interlock::{Goal, Standing, is_permitted, must_hold, standing};
use crate::vehicle::{Action, Deed, Settings};

/// A new order must be quicker by more than this (`semantics.md` 14). Unit: s.
pub const KEEP_S: u32 = 60;
/// Or save more zone changes than this (`semantics.md` 14).
pub const KEEP_ZONE_CHANGES: u32 = 1;

/// What is left of the plan under way, kept to as an order is where time must pass, so that two
/// plans with waits do not take turns; also where none was found from here.
#[must_use]
pub fn go_on(problem: &Problem, rest: &[usize], new: Option<&Plan>) -> Option<Plan> {
    let problem = &problem.with_ways_out();
    let kept = (!rest.is_empty()).then(|| resume(problem, rest)).flatten()?;
    let Some(new) = new else {
        let proof = Proof::Gap { seconds: kept.cost.elapsed_s };
        return Some(Plan { proof, ..kept });
    };
    (kept.steps != new.steps && is_good_enough(kept.cost, new.cost))
        .then(|| Plan { proof: proof(kept.cost, new.cost, new.proof), ..kept })
}

/// The `old` order as far as it is still of use, with what only `new` asks for put in where one
/// stands anyway; unless that no longer leads to the goals or `new` is enough better. What time
/// hangs on is always planned anew, and so is what comes while something must not end alone.
#[must_use]
pub fn keep(problem: &Problem, old: &[usize], new: &Plan) -> Option<Plan> {
    let waits = |step: &usize| {
        problem.vehicle.actions.get(*step).is_none_or(|action| action.deed == Deed::Wait)
    };
    if old.is_empty() || new.steps.iter().any(waits) || problem.attends() {
        return None;
    }
    let problem = &problem.with_ways_out();
    let asked = &Asked::by(problem);
    let mut steps = Replay::of(problem, asked).useful(&completed(problem, old, &new.steps));
    if steps.iter().any(waits) || !Replay::of(problem, asked).reaches(&steps) {
        return None;
    }
    // What a changed course made needless goes; an order that is no longer than the new one has
    // nothing such.
    let mut place = steps.len();
    while steps.len() > new.steps.len() && place > 0 {
        place = place.saturating_sub(1);
        let mut fewer = steps.clone();
        fewer.remove(place);
        // A step that was only for what it undid goes with it.
        let fewer = Replay::of(problem, asked).useful(&fewer);
        if Replay::of(problem, asked).reaches(&fewer) {
            // What went may have been all that another was for.
            steps = fewer;
            place = steps.len();
        }
    }
    let (kept, best) = (cost(problem, asked, &steps), cost(problem, asked, &new.steps));
    (steps != new.steps && is_good_enough(kept, best)).then(|| Plan {
        steps,
        cost: kept,
        proof: proof(kept, best, new.proof),
        ..new.clone()
    })
}

/// The `old` order with the steps of `new` that it lacks: each after what `new` does before it in
/// the same zone, or before what the old order does there, or after the step before it.
fn completed(problem: &Problem, old: &[usize], new: &[usize]) -> Vec<usize> {
    let zone = |step: &usize| problem.vehicle.actions.get(*step).map(|action| action.zone);
    let mut order = old.to_vec();
    for (at, step) in new.iter().enumerate().filter(|(_, step)| !old.contains(step)) {
        let before = new.get(..at).unwrap_or_default();
        let after = |one: &usize| {
            order.iter().position(|known| known == one).map(|at| at.saturating_add(1))
        };
        let here = before.iter().filter(|one| zone(one) == zone(step)).filter_map(after).max();
        let there = || order.iter().position(|one| zone(one) == zone(step));
        let next = || before.last().and_then(after);
        let place = here.or_else(there).or_else(next).unwrap_or(0);
        order.insert(place, *step);
    }
    order
}

/// Whether an old order of that cost is kept to, with a new one of this cost at hand.
fn is_good_enough(old: Cost, new: Cost) -> bool {
    old.gravity() <= new.gravity()
        && old.elapsed_s.saturating_sub(new.elapsed_s) <= KEEP_S
        && old.zone_changes.saturating_sub(new.zone_changes) <= KEEP_ZONE_CHANGES
}

/// An order that costs the same is as good as the new one; else it may take longer by so much.
fn proof(kept: Cost, best: Cost, proof: Proof) -> Proof {
    let gap_s = match proof {
        Proof::Exact if kept == best => return proof,
        Proof::Exact => 0,
        Proof::Gap { seconds } => seconds,
    };
    let longer_s = kept.elapsed_s.saturating_sub(best.elapsed_s);
    Proof::Gap { seconds: gap_s.saturating_add(longer_s) }
}

/// What is believed and fresh as steps are taken, one after the other.
struct Replay<'a> {
    problem: &'a Problem<'a>,
    asked: &'a Asked,
    beliefs: Vec<Settings>,
    fresh: Vec<bool>,
}

impl<'a> Replay<'a> {
    fn of(problem: &'a Problem<'a>, asked: &'a Asked) -> Self {
        Self { problem, asked, beliefs: problem.beliefs.clone(), fresh: problem.fresh.clone() }
    }

    /// Whether a step may be taken here, and changes or freshens something.
    fn takes(&self, action: &Action) -> bool {
        let own = || action.effects.iter().filter(|effect| !effect.spoilt);
        let changes = own().any(|effect| {
            let before = self.beliefs.get(effect.variable).copied().unwrap_or_default();
            let stale = self.fresh.get(effect.variable) != Some(&true);
            before != action.outcome(effect, before)
                || stale && (action.deed == Deed::Look || !self.asked.of(effect.variable).can_look)
        });
        let moves = action.deed != Deed::Look;
        let stuck = own().any(|effect| self.problem.stuck.contains(&effect.variable));
        changes && !(moves && stuck) && is_permitted(self.problem.vehicle, &self.beliefs, action)
    }

    fn take(&mut self, action: &Action) {
        let before = self.beliefs.clone();
        action.apply(&mut self.beliefs);
        for effect in &action.effects {
            let same = before.get(effect.variable) == self.beliefs.get(effect.variable);
            if let Some(fresh) = self.fresh.get_mut(effect.variable) {
                *fresh = !effect.spoilt || *fresh && same;
            }
        }
    }

    /// The steps that can be taken and change something, each in its turn.
    fn useful(mut self, steps: &[usize]) -> Vec<usize> {
        let mut useful = Vec::new();
        for step in steps {
            let action = self.problem.vehicle.actions.get(*step);
            if let Some(action) = action.filter(|action| self.takes(action)) {
                self.take(action);
                useful.push(*step);
            }
        }
        useful
    }

    /// Whether every step can be taken and changes something, and all is as asked in the end.
    fn reaches(mut self, steps: &[usize]) -> bool {
        for step in steps {
            let action = self.problem.vehicle.actions.get(*step);
            let Some(action) = action.filter(|action| self.takes(action)) else { return false };
            self.take(action);
        }
        let met = |goal: &Goal| {
            goal.any_of.iter().any(|one| {
                let fresh = !goal.fresh || self.fresh.get(one.variable) == Some(&true);
                fresh && must_hold(&self.beliefs, one)
            })
        };
        self.problem.goals.iter().all(met) && self.is_restored()
    }

    /// Whether what no goal speaks of is as it was found.
    fn is_restored(&self) -> bool {
        self.problem.vehicle.variables.iter().enumerate().all(|(number, variable)| {
            let settings = |beliefs: &[Settings]| beliefs.get(number).copied().unwrap_or_default();
            variable.dont_care
                || self.asked.of(number).right.is_some()
                || settings(&self.beliefs).is_within(settings(&self.problem.beliefs))
        })
    }
}

/// What steps cost that let no time pass but by being done.
fn cost(problem: &Problem, asked: &Asked, steps: &[usize]) -> Cost {
    let vehicle = problem.vehicle;
    let ways_out = problem.ways_out();
    let mut beliefs = problem.beliefs.clone();
    let mut zone = problem.zone;
    let mut sum = Cost::default();
    for action in steps.iter().filter_map(|step| vehicle.actions.get(*step)) {
        let exposed = |severity: Severity, beliefs: &[Settings]| {
            let broken = ways_out.iter().filter(|goal| goal.severity == severity);
            let mut broken = broken.filter_map(|goal| goal.clause(vehicle));
            broken.any(|clause| standing(beliefs, clause) == Standing::Broken)
        };
        let walk_s = vehicle.walks.between(zone, action.zone);
        let spent_s = walk_s.saturating_add(action.seconds);
        sum = sum.plus(Cost {
            danger_s: if exposed(Severity::Danger, &beliefs) { spent_s } else { 0 },
            damage_s: if exposed(Severity::Damage, &beliefs) { spent_s } else { 0 },
            disturbed: u32::from(asked.is_disturbed_by(action)),
            elapsed_s: spent_s,
            walk_s,
            zone_changes: u32::from(zone != action.zone),
            backward: u32::from(action.zone < zone),
            ..Cost::default()
        });
        zone = action.zone;
        action.apply(&mut beliefs);
    }
    let nuisances = nuisances(vehicle, &problem.beliefs, steps);
    Cost { nuisances: u32::try_from(nuisances).unwrap_or(u32::MAX), ..sum }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_order_is_kept_up_to_60_s_and_one_zone_change() {
        let of = |elapsed_s, zone_changes| Cost { elapsed_s, zone_changes, ..Cost::default() };
        let kept = |old, new| is_good_enough(old, new);
        assert!(kept(of(160, 3), of(100, 3)) && !kept(of(161, 3), of(100, 3)));
        assert!(kept(of(100, 4), of(100, 3)) && !kept(of(100, 5), of(100, 3)));
        assert!(kept(of(90, 2), of(100, 3)), "a better one is no reason against it");
        let danger = Cost { danger_s: 1, ..of(100, 3) };
        assert!(!kept(danger, of(500, 9)), "danger comes before all that");
        assert!(kept(danger, danger));
    }
}
