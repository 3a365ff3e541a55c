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

use crate::interlock::{believed, new_settings};
use crate::routine::Problem;
use crate::routine::form::{Compiled, Step};
use crate::routine::useful::{Useful, meeting};
use crate::vehicle::{Action, Deed, Literal, Settings};

/// The moves of use that one step of use outdoes: those of the first such step.
pub(super) fn outdone(problem: &Problem, whole: &Compiled, useful: &Useful) -> Vec<usize> {
    let all = Outdone { problem, whole, useful };
    let outdone = all.of_use().map(|other| all.outdone_by(&other));
    outdone.into_iter().find(|outdone| !outdone.is_empty()).unwrap_or_default()
}

struct Outdone<'a> {
    problem: &'a Problem<'a>,
    whole: &'a Compiled,
    useful: &'a Useful<'a>,
}

/// A step of use, by its number, with its action.
struct Rival<'a> {
    number: usize,
    step: &'a Step,
    action: &'a Action,
}

impl<'a> Outdone<'a> {
    fn of_use(&self) -> impl Iterator<Item = Rival<'a>> {
        let steps = self.whole.steps.iter().enumerate();
        let of_use = steps.filter(|(number, _)| self.useful.steps.get(*number) == Some(&true));
        let actions = &self.problem.vehicle.actions;
        of_use.filter_map(|(number, step)| {
            Some(Rival { number, step, action: actions.get(step.number)? })
        })
    }

    fn outdone_by(&self, other: &Rival) -> Vec<usize> {
        let is_worse = |rival: &Rival| {
            rival.number != other.number
                && rival.action.deed == Deed::Move
                && self.outdoes(other.action, rival.action)
                && (other.action.deed == Deed::Look
                    || !(self.is_sought(rival)
                        || (other.number > rival.number
                            && self.outdoes(rival.action, other.action))))
        };
        let mut outdone: Vec<Rival> = self.of_use().filter(is_worse).collect();
        while !outdone.is_empty() {
            let is_rest = |rival: &Rival| {
                rival.number != other.number && outdone.iter().all(|one| one.number != rival.number)
            };
            let rest: Vec<&Action> =
                self.of_use().filter(is_rest).map(|rival| rival.action).collect();
            let before = outdone.len();
            outdone.retain(|rival| self.nothing_is_lost(other.action, rival, &rest));
            if outdone.len() == before {
                break;
            }
        }
        outdone.into_iter().map(|rival| rival.number).collect()
    }

    /// Whether more than its setting is wanted of a move.
    fn is_sought(&self, rival: &Rival) -> bool {
        rival.step.changes.iter().any(|change| {
            if change.spoilt {
                return self.useful.is_wanted(rival.step, change);
            }
            self.useful.of(change.var).to_freshen != 0 && !self.useful.can_look_at_once(change.var)
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
        let var = self.whole.variables.iter().position(|known| *known == variable);
        let wants = var.map_or(0, |var| self.useful.of(var).wants);
        wants & meeting(one.bits()) & !meeting(other.bits()) == 0
            && self
                .literals_on(variable)
                .all(|literal| !other.meets(literal.settings) || one.meets(literal.settings))
    }

    fn literals_on(&self, variable: usize) -> impl Iterator<Item = &'a Literal> {
        let literals = self.problem.vehicle.clauses.iter().flat_map(|clause| &clause.literals);
        literals.filter(move |literal| literal.variable == variable)
    }

    /// Whether the rest of what is of use leaves nothing to be had from the move's own setting.
    fn nothing_is_lost(&self, other: &Action, rival: &Rival, rest: &[&Action]) -> bool {
        let vehicle = self.problem.vehicle;
        rival.action.effects.iter().filter(|effect| !effect.spoilt).all(|effect| {
            let variable = effect.variable;
            let brought = |rest: &&&Action| new_settings(vehicle, rest, variable);
            let middle = vehicle.variables.get(variable).map_or(Settings::NONE, |one| one.middle);
            if other.deed == Deed::Look {
                return rest.iter().all(|one| brought(&one).is_empty())
                    && !self.throws_back_what_is_wanted(rival.step);
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

    fn throws_back_what_is_wanted(&self, step: &Step) -> bool {
        let mut spoilt = step.changes.iter().filter(|change| change.spoilt);
        spoilt.any(|change| self.useful.is_wanted(step, change))
    }
}
