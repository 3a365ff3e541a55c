//! The way to a target, or as far towards it as there is one.

use std::collections::BTreeMap;

use super::loaded::Loaded;
use super::words::{Words, once};
use crate::catalogue::Target;
use crate::clock::Stamp;
use crate::error::Result;
use crate::interlock::{Fault, Goal};
use crate::routine::{Outcome, Plan, Problem, plan};
use crate::vehicle::{Literal, VariableId};

/// A plan for all goals that can be met together with the rest, and the goals that cannot.
pub(super) struct Way<'a> {
    /// What was planned for in the end.
    pub(super) problem: Problem<'a>,
    /// The plan; `None` where none was found in the time allowed.
    pub(super) plan: Option<Plan>,
    /// Goals that keep there from being a way: the rest goes on without them.
    pub(super) given_up: Vec<Goal>,
}

impl<'a> Way<'a> {
    /// Plans; what was knowingly left is not asked for.
    pub(super) fn find(mut problem: Problem<'a>, left: &BTreeMap<VariableId, i64>) -> Self {
        let is_left = |goal: &Goal| goal.any_of.iter().all(|one| left.contains_key(&one.variable));
        for number in 0..problem.goals.len() {
            if problem.goals.get(number).is_some_and(is_left) {
                problem.let_go(number);
            }
        }
        let mut given_up = Vec::new();
        loop {
            match plan(&problem) {
                Outcome::Plan(plan) => return Self { problem, plan: Some(plan), given_up },
                Outcome::Impossible(numbers) if !numbers.is_empty() => {
                    let Some(number) = least(&problem, &numbers) else { continue };
                    given_up.extend(problem.goals.get(number).cloned());
                    if given_up.last().is_some_and(|goal| is_fact(&problem, goal)) {
                        // Facts that only a person can tell: nothing is begun without them.
                        return Self { problem, plan: None, given_up };
                    }
                    // One that nothing is left of can only be dropped.
                    if problem.goals.get(number).is_some_and(|goal| goal.any_of.is_empty()) {
                        problem.goals.remove(number);
                    } else {
                        problem.let_go(number);
                    }
                }
                Outcome::Impossible(_) | Outcome::NotFound => {
                    return Self { problem, plan: None, given_up };
                }
            }
        }
    }
}

/// Which of some goals to give up: one that asks for a given fact first, then the least grave,
/// then the last.
fn least(problem: &Problem, numbers: &[usize]) -> Option<usize> {
    let fact = |number: usize| problem.goals.get(number).is_some_and(|goal| is_fact(problem, goal));
    let grave = |number: usize| problem.goals.get(number).map(|goal| goal.severity);
    numbers.iter().copied().max_by_key(|number| (fact(*number), grave(*number), *number))
}

/// Whether a goal asks only for facts that no move changes.
fn is_fact(problem: &Problem, goal: &Goal) -> bool {
    let given = |one: &Literal| {
        problem.vehicle.variables.get(one.variable).is_some_and(|known| known.given)
    };
    !goal.any_of.is_empty() && goal.any_of.iter().all(given)
}

impl Loaded {
    /// How many steps are left to a target.
    pub(super) fn steps_left(&self, target: &str, now: &Stamp) -> Result<usize> {
        let goals = self.goals(self.catalogue.target(target)?)?;
        Ok(Way::find(self.problem(goals, now)?, &self.state.left)
            .plan
            .map_or(0, |plan| plan.steps.len()))
    }

    /// Why the target cannot be reached, in words.
    pub(super) fn impossible(&self, words: &Words, target: &Target, way: &Way) -> Vec<String> {
        let goals = way.given_up.iter().map(|goal| self.given_up(words, target, goal));
        let stuck = self.state.stuck.keys().map(|stuck| {
            let title = Words::sentence(&words.label(*stuck));
            words.say("impossible.stuck", &[("title", &title)])
        });
        let fact = way.given_up.last().is_some_and(|goal| is_fact(&way.problem, goal));
        let key = if fact { "impossible.tell" } else { "impossible.not_found" };
        let not_found = way.plan.is_none().then(|| words.say(key, &[]));
        if way.plan.is_some() && way.given_up.is_empty() {
            return Vec::new();
        }
        once(goals.chain(stuck).chain(not_found))
    }

    fn given_up(&self, words: &Words, target: &Target, goal: &Goal) -> String {
        let reason = self.reason(words, target, goal);
        let key = match goal.any_of.as_slice() {
            [] => return reason,
            [_] => "impossible.goal",
            _ => "impossible.rule",
        };
        let slots = [
            ("title", self.title(words, target, goal)),
            ("wanted", Self::wanted(words, goal)),
            ("seen", self.seen(words, goal, Fault::Broken)),
            ("reason", reason),
        ];
        words.say(key, &slots.each_ref().map(|(slot, said)| (*slot, said.as_str())))
    }
}
