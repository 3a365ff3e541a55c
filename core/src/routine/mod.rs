//! From what is believed to a target: which moves and looks, in which order, and how sure the
//! planner is that nothing is cheaper.

mod asked;
mod bound;
mod compile;
mod cost;
mod form;
mod gather;
mod keep;
mod mark;
mod order;
mod pair;
mod reach;
mod relevant;
mod search;
mod stop;
#[cfg(test)]
mod tests;
mod useful;

pub use cost::Cost;
pub use gather::{Gesture, GestureKind, LINES_MAX, gather};
pub use keep::{KEEP_S, KEEP_ZONE_CHANGES, go_on, keep};
pub use order::{Ordering, order};
pub use pair::{Pause, Schedule, Turn, share};

use std::collections::{BTreeMap, BTreeSet};

use crate::interlock::{self, Goal, GoalOf, believed};
use crate::vehicle::{Deed, Settings, VariableId, Vehicle};

/// A question to the planner, in the words of the semantics: everything that a plan is judged by.
#[derive(Debug, Clone)]
pub struct Problem<'a> {
    /// The vehicle.
    pub vehicle: &'a Vehicle,
    /// What is believed of each variable.
    pub beliefs: Vec<Settings>,
    /// Variables done or looked at for this departure.
    pub fresh: Vec<bool>,
    /// Variables that cannot be moved.
    pub stuck: BTreeSet<VariableId>,
    /// Ages that grow by themselves, and in how many seconds each is old; one that is not named
    /// takes its whole time. Unit: s.
    pub ripens_s: BTreeMap<VariableId, u32>,
    /// Where the person stands.
    pub zone: usize,
    /// What must be so in the end. The ways out of clauses that are broken now are added to it.
    pub goals: Vec<Goal>,
}

/// How far a plan is from the cheapest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case", tag = "proof")]
pub enum Proof {
    /// Nothing is cheaper, in exposure, nuisances, time, walking and zone changes.
    Exact,
    /// The search was cut short: no plan is more than this much quicker.
    Gap {
        /// Elapsed time of this plan less the lower bound. Unit: s.
        seconds: u32,
    },
}

/// A way to the target.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// Actions of the vehicle by number, in order.
    pub steps: Vec<usize>,
    /// What is left of each wait once one is where it is waited, by its place among the steps; 0
    /// where it is over by then. Unit: s.
    pub wait_s: BTreeMap<usize, u32>,
    /// What it costs.
    pub cost: Cost,
    /// How far it is from the cheapest.
    pub proof: Proof,
    /// Search nodes that were opened.
    pub nodes: usize,
}

impl Plan {
    /// Where a step of the plan, by its place, is made; of a wait, where it is waited: in the zone of
    /// the step that follows. `None` where none does: then one waits where one stands.
    #[must_use]
    pub fn zone(&self, vehicle: &Vehicle, place: usize) -> Option<usize> {
        let later = self.steps.iter().skip(place).filter_map(|step| vehicle.actions.get(*step));
        later.filter(|action| action.deed != Deed::Wait).map(|action| action.zone).next()
    }
}

/// The planner's answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Outcome {
    /// A plan; empty where the target is reached.
    Plan(Plan),
    /// There is none. The goals of the problem, by number, that keep it so: with any one of them
    /// dropped there is a plan.
    Impossible(Vec<usize>),
    /// None was found before the search was cut short.
    NotFound,
}

/// Plans.
#[must_use]
pub fn plan(problem: &Problem) -> Outcome {
    let problem = problem.with_ways_out();
    match search::search(&problem) {
        search::Found::Plan(plan) => Outcome::Plan(stop::settle(&problem, &plan)),
        search::Found::Nothing => Outcome::Impossible(conflict(&problem)),
        search::Found::CutShort => Outcome::NotFound,
    }
}

/// A minimal set of goals that have no plan together, by a deletion filter (Chinneck and Dravnieks
/// 1991) from the last goal to the first: a goal is let go, and stays so if there is still no plan.
/// Goals are let go by halves as far as that holds (Junker 2004), since what can be let go together
/// can be let go one by one.
fn conflict(problem: &Problem) -> Vec<usize> {
    let goals = || problem.goals.iter().enumerate();
    // What nothing can bring about is reason enough by itself.
    let never = goals().find(|(_, goal)| !problem.can_be_met(goal)).map(|(number, _)| number);
    let mut kept: Vec<usize> = never.into_iter().collect();
    let asking = goals().filter(|(_, goal)| !goal.is_let_go(problem.vehicle));
    let asking: Vec<usize> = asking.map(|(number, _)| number).collect();
    if kept.is_empty() {
        let (mut tried, mut asking) = (problem.clone(), asking);
        if search::is_refuted_at_a_glance(problem) {
            let all = std::mem::take(&mut asking);
            needed(&mut tried, &all, search::is_refuted_at_a_glance, &mut asking);
        }
        needed(&mut tried, &asking, search::is_refuted, &mut kept);
    }
    kept.sort_unstable();
    kept
}

/// Lets go of those of some goals without which there is still no plan, as far as `is_refuted` tells;
/// notes the others.
fn needed(
    tried: &mut Problem,
    goals: &[usize],
    is_refuted: fn(&Problem) -> bool,
    kept: &mut Vec<usize>,
) {
    let mut smaller = tried.clone();
    for number in goals {
        smaller.let_go(*number);
    }
    if is_refuted(&smaller) {
        *tried = smaller;
        return;
    }
    let (earlier, later) = goals.split_at(goals.len() / 2);
    if let ([], [one]) = (earlier, later) {
        kept.push(*one);
        return;
    }
    for half in [later, earlier].into_iter().filter(|half| !half.is_empty()) {
        needed(tried, half, is_refuted, kept);
    }
}

impl Problem<'_> {
    /// Lets a goal go, by its number: see [`Goal::let_go`].
    pub fn let_go(&mut self, number: usize) {
        if let Some(goal) = self.goals.get_mut(number) {
            *goal = goal.let_go(self.vehicle);
        }
    }

    /// Whether something runs at the start that must not end alone.
    fn attends(&self) -> bool {
        interlock::running(self.vehicle, &self.beliefs).next().is_some()
    }

    /// Whether a goal is met, may be found to be, or some action can meet it.
    fn can_be_met(&self, goal: &Goal) -> bool {
        goal.any_of.iter().any(|literal| {
            let now = believed(&self.beliefs, literal.variable);
            let actions = self.vehicle.actions.iter();
            let possible = actions.filter(|action| relevant::is_possible(self, action));
            let mut effects = possible.flat_map(|action| &action.effects);
            now.is_within(literal.settings)
                || effects.any(|one| {
                    let may_be = now.or(Settings::one(one.to));
                    one.variable == literal.variable && may_be.meets(literal.settings)
                })
        })
    }

    /// Ways out of what is broken now, without what was let go: no plan gets out of that, and so
    /// none is judged by how soon it does.
    fn ways_out(&self) -> Vec<Goal> {
        let let_go = |of: &GoalOf| {
            self.goals.iter().any(|goal| goal.of == *of && goal.is_let_go(self.vehicle))
        };
        let mut goals = interlock::ways_out(self.vehicle, &self.beliefs);
        goals.retain(|goal| !let_go(&goal.of));
        goals
    }

    /// The goals that say something of their own: one that is met whenever a stricter one is ("hob
    /// off or cylinder shut", where the cylinder must be shut) asks nothing more.
    fn telling(&self) -> Vec<&Goal> {
        let implies = |strict: &Goal, goal: &Goal| match strict.any_of.as_slice() {
            [one] => {
                strict.fresh >= goal.fresh
                    && goal.any_of.iter().any(|other| {
                        other.variable == one.variable && one.settings.is_within(other.settings)
                    })
            }
            _ => false,
        };
        let goals = || self.goals.iter().enumerate();
        let idle = |(number, goal): (usize, &Goal)| {
            goals().any(|(other, strict)| {
                other != number
                    && implies(strict, goal)
                    && !(number < other && implies(goal, strict))
            })
        };
        goals().filter(|one| !idle(*one)).map(|(_, goal)| goal).collect()
    }

    /// The same problem, with the ways out of what is broken now among its goals, and the end of what
    /// must not end alone.
    #[must_use]
    pub fn with_ways_out(&self) -> Self {
        let mut problem = self.clone();
        let ways_out = interlock::ways_out(self.vehicle, &self.beliefs);
        let ends = interlock::ends(self.vehicle, &self.beliefs);
        for goal in ways_out.into_iter().chain(ends) {
            if !problem.goals.iter().any(|known| known.of == goal.of) {
                problem.goals.push(goal);
            }
        }
        problem
    }
}
