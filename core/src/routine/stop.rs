//! The order within a stop: the critical early, then the technician's own order, so that the same
//! leaving looks the same every day.

use super::{Plan, Problem};
use crate::catalogue::Severity;
use crate::interlock::{Standing, bears_on, believed, is_permitted, standing};
use crate::vehicle::{Action, AgeOf, Clause, Deed, Settings, VariableId, Vehicle};

/// Tries at most this many part orders of one stop before the order found is kept.
const TRIES_MAX: usize = 4_000;

/// The plan with the steps of each stop in their best order. Each stop still starts and ends with
/// the same beliefs and breaks no nuisance that it did not, so the cost stays what it is.
pub(super) fn settle(problem: &Problem, plan: &Plan) -> Plan {
    let vehicle = problem.vehicle;
    let mut beliefs = problem.beliefs.clone();
    let on_time = OnTime::of(problem, plan);
    let ways_out = problem.ways_out();
    let broken: Vec<&Clause> = ways_out.iter().filter_map(|goal| goal.clause(vehicle)).collect();
    let mut steps = Vec::new();
    for stop in plan.steps.chunk_by(|a, b| zone_of(vehicle, *a) == zone_of(vehicle, *b)) {
        let end = stop.iter().fold(beliefs.clone(), |before, step| after(vehicle, &before, *step));
        let actions = || stop.iter().filter_map(|step| vehicle.actions.get(*step));
        if actions().any(|action| on_time.bears(action)) {
            steps.extend(stop);
            beliefs = end;
            continue;
        }
        let nuisances = nuisances(vehicle, &beliefs, stop);
        let mut sort =
            Sort { vehicle, stop, broken: &broken, end: end.clone(), nuisances, tries: 0 };
        let sorted = sort.longer(&beliefs, &mut Vec::new(), 0);
        steps.extend(sorted.unwrap_or_else(|| stop.to_vec()));
        beliefs = end;
    }
    Plan { steps, ..plan.clone() }
}

/// What time hangs on in a plan: each age that one of its steps or a goal asks for, and what it is the
/// age of. Where such a thing stands still and is old already, nothing hangs on it.
pub(super) struct OnTime(Vec<VariableId>);

impl OnTime {
    pub(super) fn of(problem: &Problem, plan: &Plan) -> Self {
        let vehicle = problem.vehicle;
        let steps = || plan.steps.iter().filter_map(|step| vehicle.actions.get(*step));
        let waits = steps().filter(|action| action.deed == Deed::Wait);
        let waited = waits.flat_map(|wait| &wait.effects).map(|effect| effect.variable);
        let before = steps().flat_map(|action| &action.before);
        let goals = problem.goals.iter().flat_map(|goal| &goal.any_of);
        let asked = before.chain(goals).map(|literal| literal.variable);
        let is_changed = |variable: VariableId| {
            steps().flat_map(|action| &action.effects).any(|one| one.variable == variable)
        };
        let both = waited.chain(asked).filter_map(|variable| {
            let of = vehicle.variables.get(variable)?.age_of?.variable;
            let is_old = believed(&problem.beliefs, variable) == Settings::one(AgeOf::OLD);
            (!is_old || is_changed(of)).then_some([variable, of])
        });
        Self(both.flatten().collect())
    }

    /// Whether a step changes such a thing, or comes only after a time.
    pub(super) fn bears(&self, action: &Action) -> bool {
        let effects = action.effects.iter().map(|effect| effect.variable);
        let before = action.before.iter().map(|literal| literal.variable);
        effects.chain(before).any(|variable| self.0.contains(&variable))
    }
}

fn zone_of(vehicle: &Vehicle, step: usize) -> Option<usize> {
    vehicle.actions.get(step).map(|action| action.zone)
}

fn after(vehicle: &Vehicle, beliefs: &[Settings], step: usize) -> Vec<Settings> {
    let mut after = beliefs.to_vec();
    if let Some(action) = vehicle.actions.get(step) {
        action.apply(&mut after);
    }
    after
}

/// Nuisance clauses that the steps, in this order, lead into and leave broken.
pub(super) fn nuisances(vehicle: &Vehicle, beliefs: &[Settings], steps: &[usize]) -> usize {
    let mut beliefs = beliefs.to_vec();
    let mut count = 0_usize;
    for step in steps {
        let next = after(vehicle, &beliefs, *step);
        let action = vehicle.actions.get(*step);
        let breaks = vehicle.clauses.iter().filter(|clause| {
            clause.severity == Severity::Nuisance
                && action.is_some_and(|action| bears_on(vehicle, action, clause))
                && standing(&next, clause) == Standing::Broken
        });
        count = count.saturating_add(breaks.count());
        beliefs = next;
    }
    count
}

struct Sort<'a> {
    vehicle: &'a Vehicle,
    stop: &'a [usize],
    /// What was broken when the routine began.
    broken: &'a [&'a Clause],
    /// What is believed when the stop ends.
    end: Vec<Settings>,
    nuisances: usize,
    tries: usize,
}

impl Sort<'_> {
    /// Whether nothing that comes earlier in the stop and acts on the same thing is left.
    fn is_next(&self, step: usize, chosen: &[usize]) -> bool {
        let own = |step: usize| {
            let effects = self.vehicle.actions.get(step).map(|action| &action.effects);
            effects.into_iter().flatten().filter(|one| !one.spoilt).map(|one| one.variable)
        };
        let earlier = self.stop.iter().take_while(|one| **one != step);
        let mut waiting = earlier.filter(|one| !chosen.contains(one));
        !waiting.any(|one| own(*one).any(|variable| own(step).any(|other| other == variable)))
    }

    /// The first permitted order that starts with `chosen`, critical steps first, then by number;
    /// a step that leads nowhere is taken back.
    fn longer(
        &mut self,
        beliefs: &[Settings],
        chosen: &mut Vec<usize>,
        nuisances_so_far: usize,
    ) -> Option<Vec<usize>> {
        if chosen.len() == self.stop.len() {
            return (beliefs == self.end).then(|| chosen.clone());
        }
        // As long as something is broken the order stays, or exposure could grow.
        if self.broken.iter().any(|one| standing(beliefs, one) == Standing::Broken) {
            return None;
        }
        let mut left: Vec<usize> =
            self.stop.iter().copied().filter(|step| !chosen.contains(step)).collect();
        left.sort_by_key(|step| self.vehicle.actions.get(*step).map(|a| (!a.hazard, *step)));
        left.retain(|step| self.is_next(*step, chosen));
        for step in left {
            self.tries = self.tries.saturating_add(1);
            let action = self.vehicle.actions.get(step)?;
            let next = after(self.vehicle, beliefs, step);
            let nuisances =
                nuisances_so_far.saturating_add(nuisances(self.vehicle, beliefs, &[step]));
            if self.tries > TRIES_MAX
                || nuisances > self.nuisances
                || !is_permitted(self.vehicle, beliefs, action)
            {
                continue;
            }
            chosen.push(step);
            if let Some(found) = self.longer(&next, chosen, nuisances) {
                return Some(found);
            }
            chosen.pop();
        }
        None
    }
}
