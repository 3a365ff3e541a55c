//! The planner and the oracle, component by component: possible for both or for neither, at one
//! cost, and no reason too many where there is no way.

use std::collections::BTreeSet;
use std::fmt;

use stowfast_core::catalogue::Catalogue;
use stowfast_core::interlock::{Goal, goals};
use stowfast_core::routine::{Outcome, Problem, Proof, plan};
use stowfast_core::vehicle::Vehicle;
use stowfast_tests::cases::make_ages_fit;
use stowfast_tests::checker::check;
use stowfast_tests::choices::Choices;
use stowfast_tests::components::{
    Choice, Component, STATES_MAX, choices, components, count, numbered,
};
use stowfast_tests::judge::{Judged, judge};
use stowfast_tests::oracle::{Answer, solve};
use stowfast_tests::question;

/// What came of holding them against each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Tally {
    /// States from which both were asked.
    pub(crate) asked: u128,
    /// States there are, in components with something to ask for.
    pub(crate) of: u128,
    /// Exact plans at the oracle's cost.
    pub(crate) exact: u32,
    /// Plans within their stated gap of it.
    pub(crate) within_gap: u32,
    /// No way for either.
    pub(crate) impossible: u32,
    /// Reasons that were each shown to be needed.
    pub(crate) reasons: usize,
    /// The oracle freshens something by moving it, or acts only to wait in another place.
    pub(crate) odd: u32,
    /// One of them gave up.
    pub(crate) open: u32,
}

impl Tally {
    pub(crate) fn plus(self, more: Self) -> Self {
        Self {
            asked: self.asked + more.asked,
            of: self.of.saturating_add(more.of),
            exact: self.exact + more.exact,
            within_gap: self.within_gap + more.within_gap,
            impossible: self.impossible + more.impossible,
            reasons: self.reasons + more.reasons,
            odd: self.odd + more.odd,
            open: self.open + more.open,
        }
    }
}

impl fmt::Display for Tally {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { asked, of, exact, within_gap, impossible, reasons, odd, open } = self;
        write!(
            f,
            "asked from {asked} of {of} states: {exact} at one cost, {within_gap} within the "
        )?;
        write!(f, "gap, {impossible} impossible, {reasons} reasons shown to be needed; ")?;
        write!(f, "{odd} odd, {open} not compared")
    }
}

/// How much is asked.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Effort {
    /// Most states of one component from which both are asked, evenly spread over all of them.
    pub(crate) starts: u128,
    /// Most states that the oracle may settle for one answer.
    pub(crate) settled: usize,
    /// Whether the components with more than 10^6 states are asked, or the others.
    pub(crate) large: bool,
}

/// Asks both, component by component.
pub(crate) fn answers_agree(vehicle: &Vehicle, drawn: &mut Choices, effort: Effort) -> Tally {
    let mut tally = Tally::default();
    for component in components(vehicle) {
        let component = with_ages(vehicle, component);
        let part = apart(vehicle, &component);
        let targets = asked(&part, &component);
        let fresh: BTreeSet<usize> = targets
            .iter()
            .flatten()
            .filter(|goal| goal.fresh)
            .flat_map(|goal| &goal.any_of)
            .map(|one| one.variable)
            .collect();
        let variables = component.all();
        let known: Vec<Vec<Choice>> =
            variables.iter().map(|one| choices(&part, *one, fresh.contains(one))).collect();
        let states = count(&known);
        if targets.is_empty() || (states > STATES_MAX) != effort.large {
            continue;
        }
        tally.of = tally.of.saturating_add(states);
        let taken = effort.starts.min(states);
        for start in 0..taken {
            let state = numbered(&known, start * states / taken);
            let goals = targets[usize::try_from(start).unwrap() % targets.len()].clone();
            let problem = problem(&part, &variables, &state, goals, drawn);
            tally.asked += 1;
            agree(&problem, effort.settled, &mut tally);
        }
    }
    tally
}

/// The component with what its ages are the age of.
fn with_ages(vehicle: &Vehicle, component: Component) -> Component {
    let ages = component.variables.iter().filter_map(|one| vehicle.variables[*one].age_of);
    let mut variables: BTreeSet<usize> = component.variables.iter().copied().collect();
    variables.extend(ages.map(|age| age.variable).filter(|one| !component.hubs.contains(one)));
    Component { variables: variables.into_iter().collect(), ..component }
}

/// The component as a vehicle of its own: its rules, what acts on it or on its hubs, and what that
/// does to them. What lies elsewhere stays as it is.
fn apart(vehicle: &Vehicle, component: &Component) -> Vehicle {
    let mut part = vehicle.clone();
    let all = component.all();
    part.clauses.retain(|one| one.literals.iter().all(|literal| component.names(literal)));
    for action in &mut part.actions {
        action.before.retain(|one| component.names(one));
        action.effects.retain(|one| all.contains(&one.variable));
    }
    part.actions.retain(|one| one.effects.iter().any(|effect| !effect.spoilt));
    part
}

/// The goals on the component of each target that has any.
fn asked(part: &Vehicle, component: &Component) -> Vec<Vec<Goal>> {
    let targets = Catalogue::built_in().unwrap().targets.iter();
    let of = |target| {
        let mut found = goals(part, target, &[]).unwrap();
        found.retain(|goal| {
            !goal.any_of.is_empty() && goal.any_of.iter().all(|one| component.names(one))
        });
        found
    };
    targets.map(of).filter(|found| !found.is_empty()).collect()
}

fn problem<'a>(
    vehicle: &'a Vehicle,
    variables: &[usize],
    state: &[Choice],
    goals: Vec<Goal>,
    drawn: &mut Choices,
) -> Problem<'a> {
    let mut beliefs = question::usual(vehicle);
    let mut fresh = vec![false; beliefs.len()];
    for (variable, choice) in variables.iter().zip(state) {
        (beliefs[*variable], fresh[*variable]) = *choice;
    }
    make_ages_fit(vehicle, &mut beliefs);
    Problem {
        fresh,
        stuck: variables.iter().copied().filter(|_| drawn.once_in(12)).collect(),
        zone: drawn.below(vehicle.zones.len()),
        ..question::problem(vehicle, beliefs, goals)
    }
}

fn agree(problem: &Problem, most: usize, tally: &mut Tally) {
    let whole = problem.with_ways_out();
    let (outcome, answer) = (plan(problem), solve(&whole, most));
    let told = || tell(&whole, &outcome, &answer);
    if let Outcome::Plan(plan) = &outcome {
        assert_eq!(check(problem, plan), [], "{}", told());
    }
    match judge(&whole, &outcome, &answer) {
        Judged::Different => panic!("{}", told()),
        Judged::Odd => tally.odd += 1,
        Judged::Open => {
            assert_ne!(outcome, Outcome::NotFound, "the planner gave up: {}", told());
            tally.open += 1;
        }
        Judged::Same => match &outcome {
            Outcome::Plan(plan) if plan.proof == Proof::Exact => tally.exact += 1,
            Outcome::Plan(_) => tally.within_gap += 1,
            Outcome::Impossible(_) | Outcome::NotFound => tally.impossible += 1,
        },
    }
    if let Outcome::Impossible(reasons) = &outcome {
        for reason in reasons {
            match without(&whole, reasons, *reason, most) {
                Answer::Possible { .. } => tally.reasons += 1,
                Answer::Impossible { .. } => panic!("{reason} is not needed\n{}", told()),
                Answer::TooLarge => {}
            }
        }
    }
}

/// Everything that one needs to look into an answer.
fn tell(problem: &Problem, outcome: &Outcome, answer: &Answer) -> String {
    let vehicle = problem.vehicle;
    let acts = |steps: &[usize]| -> Vec<String> {
        let named = steps.iter().map(|step| &vehicle.actions[*step]);
        named.map(|one| format!("{} ({} s, zone {})", one.id, one.seconds, one.zone)).collect()
    };
    let planned = if let Outcome::Plan(plan) = outcome { acts(&plan.steps) } else { Vec::new() };
    let solved = match answer {
        Answer::Possible { steps, .. } => acts(steps),
        Answer::Impossible { .. } | Answer::TooLarge => Vec::new(),
    };
    let acted = vehicle.actions.iter().flat_map(|one| &one.effects).map(|one| one.variable);
    let acted: BTreeSet<usize> = acted.collect();
    let known = acted.iter().map(|one| {
        let names = vehicle.variables[*one].names_of(problem.beliefs[*one]);
        let stuck = if problem.stuck.contains(one) { ", stuck" } else { "" };
        format!(
            "{} {one} in {names:?}, fresh {}{stuck}",
            vehicle.variables[*one].id, problem.fresh[*one]
        )
    });
    let known: Vec<String> = known.collect();
    format!(
        "{outcome:?}\n{planned:?}\n{answer:?}\n{solved:?}\nzone {}\n{:?}\n{}",
        problem.zone,
        problem.goals,
        known.join("\n")
    )
}

/// The oracle's answer where only the other reasons are asked for.
fn without(whole: &Problem, reasons: &[usize], dropped: usize, most: usize) -> Answer {
    let mut smaller = whole.clone();
    for number in 0..whole.goals.len() {
        if number == dropped || !reasons.contains(&number) {
            smaller.let_go(number);
        }
    }
    solve(&smaller, most)
}
