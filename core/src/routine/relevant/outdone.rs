//! Moves that can be left out because another action of use is as good in every respect.
//!
//! *Argument:* take any plan and put the other action in the place of each move that it outdoes.
//! It changes the same variables in the same zone in no more time and asks no more. What it sets
//! serves every want that the move's setting served, and lies in no literal of a clause that the
//! move's did not lie in. Where the move's setting lies in a literal and the other's does not,
//! nothing else of use leads into that literal, so nothing is lost by having left it. Where the
//! other finds its work done already it is no action, so nothing but its setting may be wanted of
//! the move. A look stands for a move where nothing else of use changes what it looks at: then it
//! always finds the same, and it brings news or freshness wherever the move did.

use std::collections::BTreeSet;

use super::Wanted;
use crate::interlock::{believed, new_settings};
use crate::vehicle::{Action, Deed, Literal, Settings};

impl<'a> Wanted<'a> {
    /// The moves of use that one action of use outdoes: those of the first such action.
    pub(super) fn outdone(&self) -> BTreeSet<usize> {
        let outdone = self.actions_of_use().map(|(number, other)| self.outdone_by(number, other));
        outdone.into_iter().find(|outdone| !outdone.is_empty()).unwrap_or_default()
    }

    fn actions_of_use(&self) -> impl Iterator<Item = (usize, &'a Action)> {
        let actions = self.problem.vehicle.actions.iter().enumerate();
        actions.filter(|(number, _)| self.of_use.get(*number) == Some(&true))
    }

    fn outdone_by(&self, number: usize, other: &Action) -> BTreeSet<usize> {
        let is_worse = |(rival, action): &(usize, &Action)| {
            *rival != number
                && action.deed == Deed::Move
                && self.outdoes(other, action)
                && (other.deed == Deed::Look
                    || !(self.is_sought(action)
                        || (number > *rival && self.outdoes(action, other))))
        };
        let mut outdone: Vec<(usize, &Action)> = self.actions_of_use().filter(is_worse).collect();
        loop {
            let rest: Vec<&Action> = self
                .actions_of_use()
                .filter(|(rival, _)| *rival != number && outdone.iter().all(|one| one.0 != *rival))
                .map(|(_, action)| action)
                .collect();
            let before = outdone.len();
            outdone.retain(|(_, action)| self.nothing_is_lost(other, action, &rest));
            if outdone.len() == before {
                return outdone.into_iter().map(|(number, _)| number).collect();
            }
        }
    }

    /// Whether more than its setting is wanted of a move.
    fn is_sought(&self, action: &Action) -> bool {
        action.effects.iter().any(|effect| {
            if effect.spoilt {
                return self.is_wanted(action, effect);
            }
            let mut to_freshen = self.to_freshen.iter();
            to_freshen.any(|want| want.variable == effect.variable)
                && !self.can_look_at_once(effect.variable)
        })
    }

    fn outdoes(&self, other: &Action, action: &Action) -> bool {
        other.zone == action.zone
            && other.seconds <= action.seconds
            && other.before.iter().all(|literal| action.before.contains(literal))
            && other.effects.len() == action.effects.len()
            && other.effects.iter().zip(&action.effects).all(|(effect, one)| {
                effect.variable == one.variable
                    && effect.spoilt == one.spoilt
                    && self.serves_as_well(
                        one.variable,
                        self.outcome(other, one.variable),
                        Settings::one(one.to),
                    )
            })
    }

    /// What an action sets a variable to, or finds it at first.
    fn outcome(&self, action: &Action, variable: usize) -> Settings {
        let now = believed(&self.problem.beliefs, variable);
        let mut effects = action.effects.iter().filter(|effect| effect.variable == variable);
        effects.next().map_or(Settings::NONE, |effect| action.outcome(effect, now))
    }

    fn serves_as_well(&self, variable: usize, other: Settings, one: Settings) -> bool {
        let mut wants = self.wants.iter().filter(|want| want.variable == variable);
        wants.all(|want| !one.meets(want.settings) || other.meets(want.settings))
            && self
                .literals_on(variable)
                .all(|literal| !other.meets(literal.settings) || one.meets(literal.settings))
    }

    fn literals_on(&self, variable: usize) -> impl Iterator<Item = &'a Literal> {
        let literals = self.problem.vehicle.clauses.iter().flat_map(|clause| &clause.literals);
        literals.filter(move |literal| literal.variable == variable)
    }

    /// Whether the rest of what is of use leaves nothing to be had from the move's own setting.
    fn nothing_is_lost(&self, other: &Action, action: &Action, rest: &[&Action]) -> bool {
        let vehicle = self.problem.vehicle;
        action.effects.iter().filter(|effect| !effect.spoilt).all(|effect| {
            let variable = effect.variable;
            let brought = |rest: &&&Action| new_settings(vehicle, rest, variable);
            let middle = vehicle.variables.get(variable).map_or(Settings::NONE, |one| one.middle);
            if other.deed == Deed::Look {
                return rest.iter().all(|one| brought(&one).is_empty())
                    && !self.throws_back_what_is_wanted(action);
            }
            self.literals_on(variable).all(|literal| {
                let left = !self.outcome(other, variable).meets(literal.settings)
                    && Settings::one(effect.to).meets(literal.settings);
                !left
                    || (!middle.meets(literal.settings)
                        && !rest.iter().any(|one| brought(&one).meets(literal.settings)))
            })
        })
    }

    fn throws_back_what_is_wanted(&self, action: &Action) -> bool {
        let mut spoilt = action.effects.iter().filter(|effect| effect.spoilt);
        spoilt.any(|effect| self.is_wanted(action, effect))
    }
}
