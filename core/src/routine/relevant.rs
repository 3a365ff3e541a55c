//! Which actions can be of use. An action is, if it brings about something that is wanted: a goal,
//! a condition of an action of use, the way out of a clause that would forbid or burden one, or
//! what one must put back. Any other action can be struck from a plan, which stays a plan and
//! costs no more: nothing in it waits for what the action does.

use super::Problem;
use crate::interlock::{believed, new_settings};
use crate::vehicle::{Action, Clause, Deed, Literal, Settings};

/// For each action of the vehicle, whether it can be of use.
pub(super) fn relevant(problem: &Problem) -> Vec<bool> {
    let mut wanted = Wanted {
        problem,
        settings: vec![Settings::NONE; problem.beliefs.len()],
        of_use: vec![false; problem.vehicle.actions.len()],
        queue: Vec::new(),
    };
    for goal in &problem.goals {
        goal.any_of.iter().for_each(|literal| wanted.want(*literal));
    }
    while let Some(number) = wanted.queue.pop() {
        if let Some(action) = problem.vehicle.actions.get(number) {
            wanted.follow(action);
        }
    }
    wanted.of_use
}

struct Wanted<'a> {
    problem: &'a Problem<'a>,
    settings: Vec<Settings>,
    of_use: Vec<bool>,
    queue: Vec<usize>,
}

impl Wanted<'_> {
    /// Takes up each action that can bring `literal` about.
    fn want(&mut self, literal: Literal) {
        let Some(known) = self.settings.get_mut(literal.variable) else { return };
        if literal.settings.is_within(*known) {
            return;
        }
        *known = known.or(literal.settings);
        for (number, action) in self.problem.vehicle.actions.iter().enumerate() {
            let before = believed(&self.problem.beliefs, literal.variable);
            let brings = action.effects.iter().any(|effect| {
                effect.variable == literal.variable
                    && action.outcome(effect, before).is_within(literal.settings)
            });
            if let Some(of_use) = self.of_use.get_mut(number)
                && brings
                && !*of_use
                && is_possible(self.problem, action)
            {
                *of_use = true;
                self.queue.push(number);
            }
        }
    }

    /// What an action of use wants in turn.
    fn follow(&mut self, action: &Action) {
        action.before.iter().for_each(|literal| self.want(*literal));
        let vehicle = self.problem.vehicle;
        for clause in &vehicle.clauses {
            self.clear(action, clause);
        }
        for effect in &action.effects {
            let variable = effect.variable;
            if action.deed == Deed::Move && !is_free_to_end(self.problem, variable) {
                self.want(Literal { variable, settings: believed(&self.problem.beliefs, variable) });
            }
        }
    }

    /// The ways out of a clause that bears on an action.
    fn clear(&mut self, action: &Action, clause: &Clause) {
        let vehicle = self.problem.vehicle;
        let brought = |literal: &Literal| new_settings(vehicle, action, literal.variable);
        if !clause.literals.iter().any(|one| brought(one).meets(one.settings)) {
            return;
        }
        for literal in clause.literals.iter().filter(|one| !brought(one).meets(one.settings)) {
            let all = vehicle.variables.get(literal.variable);
            let all = all.map_or(Settings::NONE, |known| known.all);
            self.want(Literal { settings: all.minus(literal.settings), ..*literal });
        }
    }
}

/// Whether an action can be taken at all: nothing moves what is stuck.
pub(super) fn is_possible(problem: &Problem, action: &Action) -> bool {
    action.deed == Deed::Look
        || !action.effects.iter().any(|one| !one.spoilt && problem.stuck.contains(&one.variable))
}

/// Whether a plan may leave a variable otherwise than it found it: the goals speak of it, or its
/// kind does not care.
pub(super) fn is_free_to_end(problem: &Problem, variable: usize) -> bool {
    problem.vehicle.variables.get(variable).is_none_or(|known| known.dont_care)
        || problem.goals.iter().flat_map(|goal| &goal.any_of).any(|one| one.variable == variable)
}
