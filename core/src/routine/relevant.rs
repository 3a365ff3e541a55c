//! Which actions can be of use.
//!
//! An action is, if it brings about something that is wanted and not so of itself: a goal, a
//! condition of an action of use, the way out of a clause that would forbid or burden one, or what
//! one must put back. Any other action can be struck from a plan, which stays a plan and costs no
//! more: nothing in it waits for what the action does. Freshness alone is got by a look, where one
//! can look.
//!
//! Of the rest, a move is left out where another action is as good in every respect: `outdone.rs`.

mod outdone;

use std::collections::BTreeSet;

use super::Problem;
use crate::catalogue::Severity;
use crate::interlock::{Goal, believed, is_permitted, new_settings};
use crate::vehicle::{Action, Deed, Effect, Literal, Settings, Vehicle};

/// What can be of use.
pub(super) struct Relevant {
    /// For each action of the vehicle, whether it is.
    pub(super) of_use: Vec<bool>,
    /// The settings that each variable can come to for certain, by what is of use.
    pub(super) certain: Vec<Settings>,
}

/// Which actions of the vehicle can be of use.
pub(super) fn relevant(problem: &Problem) -> Relevant {
    let mut outdone = BTreeSet::new();
    loop {
        let wanted = Wanted::grown(problem, &outdone);
        let newly = wanted.outdone();
        if newly.is_empty() {
            return Relevant { of_use: wanted.of_use, certain: wanted.certain };
        }
        outdone.extend(newly);
    }
}

/// For each action of the vehicle, whether it is among `known` and can be of use here.
pub(super) fn relevant_among(problem: &Problem, known: &[bool]) -> Vec<bool> {
    let rest = (0..problem.vehicle.actions.len()).filter(|one| known.get(*one) != Some(&true));
    Wanted::grown(problem, &rest.collect()).of_use
}

struct Wanted<'a> {
    problem: &'a Problem<'a>,
    /// Settings that something wants of a variable.
    wants: BTreeSet<Literal>,
    /// What would be no news, if it were seen to be so already: then a move that brings it about
    /// makes nothing possible.
    to_see: BTreeSet<Literal>,
    /// Those that must be made fresh too.
    to_freshen: BTreeSet<Literal>,
    /// The settings that each variable can come to have, by what is of use so far.
    reached: Vec<Settings>,
    /// Those of them that it comes to unseen, thrown back by something else.
    unseen: Vec<Settings>,
    /// Those that it can come to for certain.
    certain: Vec<Settings>,
    of_use: Vec<bool>,
    /// The ways out of what is broken at the start.
    ways_out: Vec<Goal>,
}

impl<'a> Wanted<'a> {
    /// What is wanted, and what is of use, without the actions of `left_out`.
    fn grown(problem: &'a Problem<'a>, left_out: &BTreeSet<usize>) -> Self {
        let mut wanted = Self::new(problem);
        while wanted.grows(left_out) {}
        wanted
    }

    fn new(problem: &'a Problem<'a>) -> Self {
        Self {
            problem,
            wants: BTreeSet::new(),
            to_see: BTreeSet::new(),
            to_freshen: BTreeSet::new(),
            reached: problem.beliefs.clone(),
            unseen: vec![Settings::NONE; problem.beliefs.len()],
            certain: certain_at_first(problem),
            of_use: vec![false; problem.vehicle.actions.len()],
            ways_out: problem.ways_out(),
        }
    }

    /// One round; whether it found anything new.
    fn grows(&mut self, left_out: &BTreeSet<usize>) -> bool {
        let problem = self.problem;
        let known = self.noted();
        // Any way out of what is broken may be the sooner, though the target asks for another.
        for literal in self.ways_out.iter().flat_map(|goal| goal.any_of.clone()).collect::<Vec<_>>()
        {
            self.want(literal);
        }
        for goal in problem.telling() {
            for literal in &goal.any_of {
                self.want(*literal);
                let fresh = problem.fresh.get(literal.variable) == Some(&true)
                    && believed(&self.unseen, literal.variable).is_empty();
                if goal.fresh && !fresh {
                    self.to_freshen.insert(*literal);
                }
            }
        }
        let mut taken_up = false;
        for (number, action) in problem.vehicle.actions.iter().enumerate() {
            if self.of_use.get(number) == Some(&true) {
                self.follow(action);
            } else if !left_out.contains(&number)
                && is_possible(problem, action)
                && action.effects.iter().any(|effect| self.is_wanted(action, effect))
            {
                self.take_up(number, action);
                taken_up = true;
            }
        }
        taken_up || known != self.noted()
    }

    fn noted(&self) -> [usize; 3] {
        [self.wants.len(), self.to_see.len(), self.to_freshen.len()]
    }

    /// Notes that `literal` is wanted, unless it holds and nothing of use changes that.
    fn want(&mut self, literal: Literal) {
        if !believed(&self.reached, literal.variable).is_within(literal.settings) {
            self.wants.insert(literal);
        }
    }

    /// Whether an action brings about something wanted.
    fn is_wanted(&self, action: &Action, effect: &Effect) -> bool {
        let now = believed(&self.problem.beliefs, effect.variable);
        let outcome = action.outcome(effect, now);
        let brings =
            |want: &Literal| want.variable == effect.variable && outcome.is_within(want.settings);
        let unseen = believed(&self.unseen, effect.variable);
        let shows = |want: &Literal| {
            brings(want) || (want.variable == effect.variable && unseen.meets(want.settings))
        };
        let freshens = !effect.spoilt && self.to_freshen.iter().any(shows);
        let serves = self.wants.iter().any(brings);
        let news = self.to_see.iter().any(brings);
        match action.deed {
            _ if effect.spoilt => serves,
            Deed::Look => freshens || ((serves || news) && now.single().is_none()),
            Deed::Wait => serves,
            Deed::Move => serves || (freshens && !self.can_look_at_once(effect.variable)),
        }
    }

    /// Whether a variable can be looked at before anything else is done: then a move of what stands
    /// right, which disturbs it, is never the way to make it fresh. Where a rule is broken now, its
    /// way out may have to come before the look: then only a look that asks for nothing but
    /// standing still counts, which no routine gives up for the sake of a look.
    fn can_look_at_once(&self, variable: usize) -> bool {
        let problem = self.problem;
        problem.vehicle.actions.iter().any(|look| {
            look.deed == Deed::Look
                && look.effects.iter().any(|seen| seen.variable == variable && !seen.spoilt)
                && is_permitted(problem.vehicle, &problem.beliefs, look)
                && (self.ways_out.is_empty() || asks_only_to_stand(problem.vehicle, look))
        })
    }

    fn take_up(&mut self, number: usize, action: &Action) {
        if let Some(of_use) = self.of_use.get_mut(number) {
            *of_use = true;
        }
        for effect in &action.effects {
            if action.brings(effect) {
                let new = new_settings(self.problem.vehicle, action, effect.variable);
                let sets = [&mut self.reached, &mut self.certain, &mut self.unseen];
                for set in sets.into_iter().take(if effect.spoilt { 3 } else { 2 }) {
                    if let Some(known) = set.get_mut(effect.variable) {
                        *known = known.or(new);
                    }
                }
            }
        }
    }

    /// What an action of use wants in turn.
    fn follow(&mut self, action: &Action) {
        let vehicle = self.problem.vehicle;
        action.before.iter().for_each(|literal| self.want(*literal));
        for clause in &vehicle.clauses {
            let bears =
                |one: &Literal| new_settings(vehicle, action, one.variable).meets(one.settings);
            let can_hold = |one: &Literal| match clause.severity {
                Severity::Nuisance => {
                    let now = believed(&self.problem.beliefs, one.variable);
                    now.is_within(one.settings)
                        || believed(&self.certain, one.variable).meets(one.settings)
                }
                Severity::Danger | Severity::Damage => {
                    believed(&self.reached, one.variable).meets(one.settings)
                }
            };
            if clause.literals.iter().any(bears) && clause.literals.iter().all(can_hold) {
                self.to_see.extend(clause.literals.iter().filter(|one| bears(one)));
                for literal in clause.literals.iter().filter(|one| !bears(one)) {
                    let all = vehicle.variables.get(literal.variable);
                    let all = all.map_or(Settings::NONE, |known| known.all);
                    self.want(Literal { settings: all.minus(literal.settings), ..*literal });
                }
            }
        }
        let moved = action.effects.iter().filter(|one| action.brings(one));
        for effect in moved {
            let variable = effect.variable;
            if !is_free_to_end(self.problem, variable) {
                let settings = believed(&self.problem.beliefs, variable);
                self.want(Literal { variable, settings });
            }
        }
    }
}

/// What each variable is certain to be now, or once it is looked at.
fn certain_at_first(problem: &Problem) -> Vec<Settings> {
    let single = |now: &Settings| now.single().map_or(Settings::NONE, Settings::one);
    let mut certain: Vec<Settings> = problem.beliefs.iter().map(single).collect();
    for look in problem.vehicle.actions.iter().filter(|action| action.deed == Deed::Look) {
        for effect in look.effects.iter().filter(|effect| !effect.spoilt) {
            if let Some(known) = certain.get_mut(effect.variable) {
                *known =
                    known.or(look.outcome(effect, believed(&problem.beliefs, effect.variable)));
            }
        }
    }
    certain
}

/// Whether an action asks for nothing but standing still.
pub(super) fn asks_only_to_stand(vehicle: &Vehicle, action: &Action) -> bool {
    let standing_still = vehicle.standing_still();
    action.before.iter().all(|one| Some(*one) == standing_still)
}

/// Whether what a move changes could be looked at instead.
pub(super) fn can_look(problem: &Problem, effect: &Effect) -> bool {
    problem.vehicle.actions.iter().any(|action| {
        action.deed == Deed::Look
            && action.effects.iter().any(|seen| seen.variable == effect.variable && !seen.spoilt)
    })
}

/// Whether an action can be taken at all: nothing moves what is stuck.
pub(super) fn is_possible(problem: &Problem, action: &Action) -> bool {
    action.deed != Deed::Move
        || !action.effects.iter().any(|one| !one.spoilt && problem.stuck.contains(&one.variable))
}

/// Whether a plan may leave a variable otherwise than it found it: the goals speak of it, or its
/// kind does not care.
pub(super) fn is_free_to_end(problem: &Problem, variable: usize) -> bool {
    problem.vehicle.variables.get(variable).is_none_or(|known| known.dont_care)
        || problem.goals.iter().flat_map(|goal| &goal.any_of).any(|one| one.variable == variable)
}
