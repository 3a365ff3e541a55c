//! The problem in bits.

use stowfast_core::catalogue::Severity;
use stowfast_core::interlock::{Goal, GoalOf};
use stowfast_core::routine::Problem;
use stowfast_core::vehicle::{Clause, Deed, Effect};

use super::{Act, Bits, NEVER};

/// Clauses whose goal asks nothing any more.
pub(super) fn let_go(problem: &Problem) -> Vec<usize> {
    let all = |v: usize| problem.vehicle.variables.get(v).map(|known| known.all);
    let free = |goal: &&Goal| goal.any_of.iter().all(|one| all(one.variable) == Some(one.settings));
    let numbers = problem.goals.iter().filter(free).filter_map(|goal| match goal.of {
        GoalOf::Clause(number) => Some(number),
        GoalOf::Target(_) | GoalOf::Condition | GoalOf::Runs(_) | GoalOf::Found => None,
    });
    numbers.collect()
}

pub(super) fn ages(problem: &Problem) -> Vec<(usize, usize, u8, u32)> {
    let ages = problem.vehicle.variables.iter().enumerate();
    let known = ages.filter_map(|(number, variable)| {
        let age = variable.age_of?;
        let limit_s = u32::try_from(age.limit_ms / 1_000).unwrap_or(NEVER);
        Some((number, age.variable, 1_u8.wrapping_shl(age.setting.into()), limit_s))
    });
    known.collect()
}

/// For each of those ages, the zone where somebody must be once it is old.
pub(super) fn attended(problem: &Problem) -> Vec<Option<u8>> {
    let variables = &problem.vehicle.variables;
    let zone = |number: usize| {
        let of = variables.get(number)?.age_of.filter(|age| age.attended)?;
        u8::try_from(variables.get(of.variable)?.zone).ok()
    };
    ages(problem).iter().map(|(number, ..)| zone(*number)).collect()
}

/// An action in bits; `None` if it moves what is stuck, or leaves the place.
pub(super) fn act(problem: &Problem, number: usize) -> Option<Act> {
    let vehicle = problem.vehicle;
    let action = vehicle.actions.get(number)?;
    let acts_on = |v: usize| action.effects.iter().any(|one| one.variable == v && !one.spoilt);
    let moves_stuck = || problem.stuck.iter().any(|variable| acts_on(*variable));
    if action.leaves || action.deed == Deed::Move && moves_stuck() {
        return None;
    }
    let looked_at = |v: usize| {
        let mut looks = vehicle.actions.iter().filter(|other| other.deed == Deed::Look);
        looks.any(|look| look.effects.iter().any(|one| one.variable == v && !one.spoilt))
    };
    let look = action.deed == Deed::Look;
    let new = |v: usize| {
        let middle = vehicle.variables.get(v).map_or(0, |known| known.middle.bits());
        let brings = |effect: &&Effect| effect.spoilt || action.deed != Deed::Look;
        let effect = action.effects.iter().filter(brings).find(|effect| effect.variable == v);
        effect.map_or(0, |effect| 1_u8.wrapping_shl(effect.to.into()) | middle)
    };
    let rule = |clause: &Clause| -> Vec<(Bits, u8)> {
        let literals = clause.literals.iter();
        literals.map(|one| ((one.variable, one.settings.bits()), new(one.variable))).collect()
    };
    let judged = vehicle.clauses.iter().filter(|one| one.severity != Severity::Nuisance);
    let own = action.effects.iter().filter(|effect| !effect.spoilt);
    let waited = action.effects.first().filter(|_| action.deed == Deed::Wait);
    Some(Act {
        look,
        waits_for: waited.and_then(|one| ages(problem).iter().position(|a| a.0 == one.variable)),
        before: action.before.iter().map(|one| (one.variable, one.settings.bits())).collect(),
        effects: action
            .effects
            .iter()
            .map(|one| (one.variable, 1_u8.wrapping_shl(one.to.into()), one.spoilt))
            .collect(),
        freshens: own.clone().map(|one| one.variable).filter(|v| !looked_at(*v)).collect(),
        rules: judged.map(rule).filter(|rule| rule.iter().any(|(_, new)| *new != 0)).collect(),
        disturbs: !look
            && own.clone().any(|effect| {
                let start = problem.beliefs.get(effect.variable).map_or(0, |known| known.bits());
                let asked = problem.goals.iter().flat_map(|goal| &goal.any_of);
                let mut asked = asked.filter(|one| one.variable == effect.variable).peekable();
                looked_at(effect.variable)
                    && asked.peek().is_some()
                    && asked.all(|one| start & !one.settings.bits() == 0)
            }),
        seconds: action.seconds,
        zone: u8::try_from(action.zone).ok()?,
    })
}
