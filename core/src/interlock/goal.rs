//! What a target asks of this vehicle: conjunctions of "any of these literals".

use super::permit::new_settings;
use super::{Standing, must_hold, standing};
use crate::catalogue::{self, Severity, Target};
use crate::error::Result;
use crate::vehicle::{Action, Clause, Literal, Settings, VariableId, Vehicle};

/// Where a goal comes from.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum GoalOf {
    /// A clause of the vehicle, by its number: it must be off.
    Clause(usize),
    /// A goal of the target, by its id.
    Target(String),
    /// A condition of the move that the target makes ready for.
    Condition,
    /// A variable that is at what runs by itself and must not end alone: it ends.
    Runs(VariableId),
    /// How something stood before the routine moved it: it ends as it was found.
    Found,
}

/// One thing that must be so.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Goal {
    /// Where it comes from.
    pub of: GoalOf,
    /// Any one of them will do; one literal per variable.
    pub any_of: Vec<Literal>,
    /// It must have been done or looked at for this departure.
    pub fresh: bool,
    /// How bad it is when it is not met.
    pub severity: Severity,
}

impl Goal {
    /// The goal let go: it speaks of the same variables, which may end as they please, and asks
    /// nothing of them.
    #[must_use]
    pub fn let_go(&self, vehicle: &Vehicle) -> Self {
        let all = |one: &Literal| vehicle.variables.get(one.variable).map(|known| known.all);
        let free = |one: &Literal| Literal { settings: all(one).unwrap_or_default(), ..*one };
        Self { any_of: self.any_of.iter().map(free).collect(), fresh: false, ..self.clone() }
    }

    /// The clause that it comes from, if it does.
    #[must_use]
    pub fn clause<'a>(&self, vehicle: &'a Vehicle) -> Option<&'a Clause> {
        match self.of {
            GoalOf::Clause(number) => vehicle.clauses.get(number),
            GoalOf::Target(_) | GoalOf::Condition | GoalOf::Runs(_) | GoalOf::Found => None,
        }
    }

    /// The variables that it speaks of.
    #[must_use]
    pub fn variables(&self) -> Vec<VariableId> {
        self.any_of.iter().map(|one| one.variable).collect()
    }

    /// Whether nothing is asked any more.
    #[must_use]
    pub fn is_let_go(&self, vehicle: &Vehicle) -> bool {
        *self == self.let_go(vehicle)
    }
}

/// What `target` asks of `vehicle`: for a target that makes ready for a move, everything that this
/// move must not meet (its clauses stand once, where the fittings are); then the target's own
/// goals, as far as what is believed of place and season calls for them, and what its facts to come
/// must not meet. What hangs on a danger clause must be fresh.
///
/// # Errors
/// Only if catalogue and vehicle do not belong together.
pub fn goals(vehicle: &Vehicle, target: &Target, beliefs: &[Settings]) -> Result<Vec<Goal>> {
    let mut goals = Vec::new();
    if let Some((kind, step)) = target.ready_for.as_deref().and_then(|path| path.split_once('.')) {
        for action in vehicle.actions.iter().filter(|action| action.name == step) {
            if vehicle.fittings.get(action.fitting).is_none_or(|one| one.kind != kind) {
                continue;
            }
            goals.extend(before(vehicle, action));
        }
    }
    for fact in vehicle.any_of(&target.before)?.into_iter().flatten() {
        let brought = |variable: usize| {
            if variable == fact.variable { fact.settings } else { Settings::NONE }
        };
        for (number, clause) in vehicle.clauses.iter().enumerate() {
            goals.extend(met_by(vehicle, brought, number, clause));
        }
    }
    for goal in &target.goals {
        if !is_called_for(vehicle, goal, beliefs)? {
            continue;
        }
        for any_of in vehicle.any_of(&goal.any_of)? {
            goals.push(Goal {
                of: GoalOf::Target(goal.id.clone()),
                any_of,
                fresh: goal.fresh,
                severity: Severity::Damage,
            });
        }
    }
    Ok(goals)
}

/// What must hold before a move may be made: its conditions, and everything that it must not meet.
pub(crate) fn before(vehicle: &Vehicle, action: &Action) -> Vec<Goal> {
    let conditions = action.before.iter().map(|literal| Goal {
        of: GoalOf::Condition,
        any_of: vec![*literal],
        fresh: false,
        severity: Severity::Damage,
    });
    let brought = |variable: usize| new_settings(vehicle, action, variable);
    let clauses = vehicle.clauses.iter().enumerate();
    let clauses = clauses.filter_map(|(number, clause)| met_by(vehicle, brought, number, clause));
    conditions.chain(clauses).collect()
}

/// Whether everything that a goal hangs on is fitted and known to hold.
fn is_called_for(vehicle: &Vehicle, goal: &catalogue::Goal, beliefs: &[Settings]) -> Result<bool> {
    if !goal.when.iter().all(|asked| vehicle.has(asked)) {
        return Ok(false);
    }
    for literal in &goal.only_if {
        let ways = vehicle.any_of(std::slice::from_ref(literal))?;
        let holds = |any_of: &Vec<Literal>| any_of.iter().any(|one| must_hold(beliefs, one));
        if ways.is_empty() || !ways.iter().all(holds) {
            return Ok(false);
        }
    }
    Ok(true)
}

/// The goal that keeps a clause off once each variable is brought to some settings, if that bears
/// on it: any of the clause's other literals false.
fn met_by(
    vehicle: &Vehicle,
    brought: impl Fn(usize) -> Settings,
    number: usize,
    clause: &Clause,
) -> Option<Goal> {
    let brought = |literal: &Literal| brought(literal.variable);
    let bears = clause.literals.iter().any(|one| brought(one).meets(one.settings));
    let kept_off = clause
        .literals
        .iter()
        .any(|one| !brought(one).is_empty() && !brought(one).meets(one.settings));
    if clause.severity == Severity::Nuisance || !bears || kept_off {
        return None;
    }
    let others = clause.literals.iter().filter(|literal| brought(literal).is_empty());
    let any_of: Vec<_> = others.map(|literal| negation(vehicle, literal)).collect();
    // Nobody looks at an age: what it is the age of is looked at.
    let is_age = |one: &Literal| {
        vehicle.variables.get(one.variable).is_some_and(|known| known.age_of.is_some())
    };
    Some(Goal {
        of: GoalOf::Clause(number),
        fresh: clause.severity == Severity::Danger && !any_of.iter().all(is_age),
        any_of,
        severity: clause.severity,
    })
}

/// A goal for each danger or damage clause that is broken now: wherever one stands, the way out of
/// danger is part of the routine.
#[must_use]
pub(crate) fn ways_out(vehicle: &Vehicle, beliefs: &[Settings]) -> Vec<Goal> {
    let broken = |clause: &Clause| {
        clause.severity != Severity::Nuisance && standing(beliefs, clause) == Standing::Broken
    };
    let numbered = vehicle.clauses.iter().enumerate().filter(|(_, clause)| broken(clause));
    numbered
        .map(|(number, clause)| Goal {
            of: GoalOf::Clause(number),
            any_of: clause.literals.iter().map(|literal| negation(vehicle, literal)).collect(),
            fresh: false,
            severity: clause.severity,
        })
        .collect()
}

/// What runs for certain and must not end alone: that it does, and the age that tells for how long.
pub(crate) fn running(
    vehicle: &Vehicle,
    beliefs: &[Settings],
) -> impl Iterator<Item = (Literal, VariableId)> {
    let ages = vehicle.variables.iter().enumerate();
    ages.filter_map(|(number, known)| {
        let age = known.age_of.filter(|age| age.attended)?;
        let at = Literal { variable: age.variable, settings: Settings::one(age.setting) };
        must_hold(beliefs, &at).then_some((at, number))
    })
}

/// A goal for each thing that runs so: whatever the routine is for, somebody sees to its end.
pub(crate) fn ends(vehicle: &Vehicle, beliefs: &[Settings]) -> impl Iterator<Item = Goal> {
    running(vehicle, beliefs).map(|(literal, _)| Goal {
        of: GoalOf::Runs(literal.variable),
        any_of: vec![negation(vehicle, &literal)],
        fresh: false,
        severity: Severity::Nuisance,
    })
}

fn negation(vehicle: &Vehicle, literal: &Literal) -> Literal {
    let all = vehicle.variables.get(literal.variable).map_or(Settings::NONE, |known| known.all);
    Literal { variable: literal.variable, settings: all.minus(literal.settings) }
}
