//! What must have grown old before a step: the ages without which it would be refused, however long
//! the plan itself took to come to it.

use crate::catalogue::Severity;
use crate::interlock::{Refusal, Standing, bears_on, believed, must_hold, refusals, standing};
use crate::routine::compile::seconds;
use crate::routine::{Plan, Problem};
use crate::vehicle::{Action, AgeOf, Clause, Deed, Literal, Settings, VariableId};

/// An age, and what it counts from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Age {
    pub(super) variable: VariableId,
    /// The steps, by place, that begin it: it counts from the end of the last of them.
    pub(super) from: Vec<usize>,
    /// How long it takes from there; from the start where no step begins it. Unit: s.
    pub(super) takes_s: u32,
}

/// Ages of which one must be old.
pub(super) type Need = Vec<Age>;

/// What each step of a plan needs to be old, by place, and what must be old in the end.
#[derive(Debug, Default)]
pub(super) struct Needs {
    pub(super) steps: Vec<Vec<Need>>,
    /// For each step that ends what must not end alone, the age from when on somebody is there.
    pub(super) attended: Vec<Option<Age>>,
    pub(super) end: Vec<Need>,
}

impl Age {
    /// When it is old, where each step ends when `ends_s` tells. Unit: s.
    pub(super) fn old_s(&self, ends_s: &[u32]) -> u32 {
        let ends = self.from.iter().filter_map(|place| ends_s.get(*place));
        ends.max().copied().unwrap_or(0).saturating_add(self.takes_s)
    }
}

/// The first of the ages of a need to be old, and when. Unit: s.
pub(super) fn soonest<'a>(need: &'a Need, ends_s: &[u32]) -> Option<(u32, &'a Age)> {
    let old = need.iter().map(|age| (age.old_s(ends_s), age));
    old.min_by_key(|(old_s, _)| *old_s)
}

/// When all of some needs are met. Unit: s.
pub(super) fn met_s<'a>(needs: impl IntoIterator<Item = &'a Need>, ends_s: &[u32]) -> u32 {
    let met = needs.into_iter().filter_map(|need| soonest(need, ends_s));
    met.map(|(old_s, _)| old_s).max().unwrap_or(0)
}

/// A plan replayed with no time passing.
struct Replay<'a> {
    problem: &'a Problem<'a>,
    beliefs: Vec<Settings>,
    /// For each variable that is an age and grows, what it counts from.
    ages: Vec<Option<Age>>,
}

/// What a plan needs to be old; `alone_s` tells when each step ends in it. `None` where what the plan
/// does cannot be told from its ages.
pub(super) fn needs(problem: &Problem, plan: &Plan, alone_s: &[u32]) -> Option<Needs> {
    let mut replay = Replay::of(problem);
    let mut needs = Needs::default();
    for (place, step) in plan.steps.iter().enumerate() {
        let action = problem.vehicle.actions.get(*step)?;
        let mut own = match action.deed {
            Deed::Move | Deed::Look => replay.asked(action)?,
            Deed::Wait => Vec::new(),
        };
        needs.attended.push(replay.attended(action));
        replay.take(place, action);
        own.extend(replay.spared(place, action, alone_s));
        needs.steps.push(own);
    }
    needs.end = replay.asked_in_the_end()?;
    Some(needs)
}

impl<'a> Replay<'a> {
    fn of(problem: &'a Problem<'a>) -> Self {
        let beliefs = problem.beliefs.clone();
        let age = |(number, of): (usize, Option<AgeOf>)| {
            let of = of.filter(|of| is_at(&beliefs, *of))?;
            let takes_s =
                problem.ripens_s.get(&number).copied().unwrap_or_else(|| seconds(of.limit_ms));
            Some(Age { variable: number, from: Vec::new(), takes_s })
        };
        let ages = problem.vehicle.variables.iter().map(|one| one.age_of).enumerate();
        let ages = ages.map(age).collect();
        Self { problem, beliefs, ages }
    }

    /// Takes a step. What moves a thing to its setting, or first finds it there, begins its age. Two
    /// that both throw it back may come in either order, so that each counts.
    fn take(&mut self, place: usize, action: &Action) {
        let before = self.beliefs.clone();
        if action.deed != Deed::Wait {
            action.apply(&mut self.beliefs);
        }
        let vehicle = self.problem.vehicle;
        for ((number, known), age) in vehicle.variables.iter().enumerate().zip(&mut self.ages) {
            let Some(of) = known.age_of else { continue };
            let mut effects = action.effects.iter();
            let moved = effects.any(|one| one.variable == of.variable && action.brings(one));
            if !is_at(&self.beliefs, of) {
                *age = None;
            } else if moved || !is_at(&before, of) {
                let mut from = age.take().map_or_else(Vec::new, |age| age.from);
                from.push(place);
                *age = Some(Age { variable: number, from, takes_s: seconds(of.limit_ms) });
            }
        }
    }

    /// The age of what must not end alone, of a step that ends it.
    fn attended(&self, action: &Action) -> Option<Age> {
        let known = |one: &Literal| {
            let of = self.problem.vehicle.variables.get(one.variable)?.age_of?;
            let age = self.ages.get(one.variable).cloned().flatten().filter(|_| of.attended)?;
            // What is over from the start has nothing left to wait for.
            let over = age.from.is_empty() && must_hold(&self.problem.beliefs, one);
            Some(Age { takes_s: if over { 0 } else { age.takes_s }, ..age })
        };
        action.before.iter().find_map(known)
    }

    /// What must be old for a step not to be refused; `None` where no age would do.
    fn asked(&self, action: &Action) -> Option<Vec<Need>> {
        let vehicle = self.problem.vehicle;
        let need = |refusal: Refusal| match refusal {
            Refusal::Before(literal) => self.one_of(&[literal], |old| must_hold(old, &literal)),
            Refusal::Clause(number) => {
                let clause = vehicle.clauses.get(number)?;
                self.one_of(&clause.literals, |old| {
                    !refusals(vehicle, old, action).contains(&refusal)
                })
            }
        };
        let refused = refusals(vehicle, &self.beliefs, action);
        refused.into_iter().map(need).collect()
    }

    /// What must be old for a step that was taken not to lead into a nuisance that the plan was
    /// spared, because it was old by the end of the step.
    fn spared(&self, place: usize, action: &Action, alone_s: &[u32]) -> Vec<Need> {
        let vehicle = self.problem.vehicle;
        let end_s = alone_s.get(place).copied().unwrap_or(0);
        let nuisances = vehicle.clauses.iter().filter(|one| one.severity == Severity::Nuisance);
        let led_into = nuisances.filter(|one| {
            bears_on(vehicle, action, one) && standing(&self.beliefs, one) == Standing::Broken
        });
        let need = |clause: &Clause| {
            self.one_of(&clause.literals, |old| standing(old, clause) != Standing::Broken)
        };
        // What it begins itself is old at once or not in time.
        let in_time = |need: &Need| {
            need.iter().all(|age| !age.from.contains(&place))
                && soonest(need, alone_s).is_some_and(|(old_s, _)| old_s <= end_s)
        };
        led_into.filter_map(need).filter(in_time).collect()
    }

    /// What must be old for the goals; `None` where no age would do.
    fn asked_in_the_end(&self) -> Option<Vec<Need>> {
        let goals = self.problem.with_ways_out().goals;
        let unmet = goals
            .iter()
            .filter(|goal| !goal.any_of.iter().any(|one| must_hold(&self.beliefs, one)));
        let need = |literals: &[Literal]| {
            self.one_of(literals, |old| literals.iter().any(|one| must_hold(old, one)))
        };
        unmet.map(|goal| need(&goal.any_of)).collect()
    }

    /// The ages among some literals that grow, and of which each would do by being old.
    fn one_of(&self, literals: &[Literal], would_do: impl Fn(&[Settings]) -> bool) -> Option<Need> {
        let grown = |literal: &Literal| {
            let age = self.ages.get(literal.variable).cloned().flatten()?;
            let mut old = self.beliefs.clone();
            *old.get_mut(literal.variable)? = Settings::one(AgeOf::OLD);
            would_do(&old).then_some(age)
        };
        let need: Need = literals.iter().filter_map(grown).collect();
        (!need.is_empty()).then_some(need)
    }
}

/// Whether a thing is for certain at the setting of its age.
fn is_at(beliefs: &[Settings], of: AgeOf) -> bool {
    believed(beliefs, of.variable) == Settings::one(of.setting)
}
