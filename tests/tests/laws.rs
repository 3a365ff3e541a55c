//! Laws of the planner, held against an independent checker and an oracle.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a test may fail loudly"
)]

use std::cell::Cell;

use stowfast_core::routine::{Outcome, Plan, Problem, Proof, plan};
use stowfast_tests::cases::{self, Case, Kinds};
use stowfast_tests::checker::{check, end_of};
use stowfast_tests::draw::{Effort, law};
use stowfast_tests::oracle::{Answer, solve};
use stowfast_tests::packs::Size;

/// Small enough for the oracle, most of the time.
const SMALL: Size = Size { least: 1, most: 4, own_seconds: true };
/// Too large for it: checker only.
const LARGE: Size = Size { least: 8, most: 20, own_seconds: true };
/// Hands-on times as the kinds have them.
const PLAIN: Size = Size { least: 1, most: 6, own_seconds: false };
const NUMBERS: usize = 400;
const STATES_MAX: usize = 20_000;

fn effort(cases: u32) -> Effort {
    Effort { cases, numbers_max: NUMBERS }
}

fn planned(problem: &Problem) -> Option<Plan> {
    match plan(problem) {
        Outcome::Plan(plan) => Some(plan),
        Outcome::Impossible(_) | Outcome::NotFound => None,
    }
}

/// Every plan passes the checker.
fn checks(kinds: Kinds, size: Size, cases: u32) {
    let plans = Cell::new(0_u32);
    let held = law(
        effort(cases),
        |list| Case::drawn(list, kinds, size).ok(),
        |case| {
            let problem = case.problem();
            let Some(plan) = planned(&problem) else { return Ok(()) };
            plans.set(plans.get() + 1);
            let found = check(&problem, &plan);
            if found.is_empty() {
                return Ok(());
            }
            Err(format!("{found:?}\n{plan:?}\n{:?}", case.names(&plan.steps)))
        },
    );
    held.unwrap_or_else(|why| panic!("{why}"));
    println!("{} plans checked", plans.get());
    assert!(plans.get() >= cases / 8, "only {} plans", plans.get());
}

#[test]
fn plans_for_small_vehicles_pass_the_checker() {
    checks(Kinds::BuiltIn, SMALL, 400);
}

#[test]
fn plans_for_large_vehicles_pass_the_checker() {
    checks(Kinds::BuiltIn, LARGE, 30);
}

#[test]
fn plans_for_made_up_kinds_pass_the_checker() {
    checks(Kinds::MadeUp, SMALL, 600);
}

/// The oracle agrees on what is possible and, where the plan claims to be exact, on every part of
/// the cost.
fn agrees(kinds: Kinds, cases: u32) {
    let agreed = Cell::new((0_u32, 0_u32, 0_u32));
    let held = law(
        effort(cases),
        |list| Case::drawn(list, kinds, SMALL).ok(),
        |case| {
            let problem = case.problem();
            let answer = solve(&problem.with_ways_out(), STATES_MAX);
            let outcome = plan(&problem);
            let (exact, none, open) = agreed.get();
            agreed.set(match judge(&outcome, &answer) {
                Judged::Same if matches!(answer, Answer::Possible { .. }) => {
                    (exact + 1, none, open)
                }
                Judged::Same => (exact, none + 1, open),
                Judged::Open => (exact, none, open + 1),
                Judged::Different => {
                    let steps = match &answer {
                        Answer::Possible { steps, .. } => case.names(steps),
                        Answer::Impossible { .. } | Answer::TooLarge => Vec::new(),
                    };
                    let found = match &outcome {
                        Outcome::Plan(plan) => case.names(&plan.steps),
                        Outcome::Impossible(_) | Outcome::NotFound => Vec::new(),
                    };
                    return Err(format!("{outcome:?}\n{found:?}\noracle: {answer:?}\n{steps:?}"));
                }
            });
            Ok(())
        },
    );
    let (exact, none, open) = agreed.get();
    println!("{exact} of equal cost, {none} impossible, {open} not compared");
    held.unwrap_or_else(|why| panic!("{why}"));
    assert!(exact + none >= cases / 2, "only {exact} + {none} compared");
}

enum Judged {
    Same,
    Different,
    Open,
}

fn judge(outcome: &Outcome, answer: &Answer) -> Judged {
    let same = match (outcome, answer) {
        (Outcome::NotFound, _) | (_, Answer::TooLarge) => return Judged::Open,
        (Outcome::Plan(_), Answer::Impossible { .. })
        | (Outcome::Impossible(_), Answer::Possible { .. }) => false,
        (Outcome::Impossible(_), Answer::Impossible { .. }) => true,
        (Outcome::Plan(plan), Answer::Possible { cost, .. }) => match plan.proof {
            Proof::Exact => plan.cost == *cost,
            Proof::Gap { seconds } => {
                let weightier = |cost: &stowfast_core::routine::Cost| {
                    (cost.danger_s, cost.damage_s, cost.nuisances)
                };
                *cost <= plan.cost
                    && (weightier(cost) < weightier(&plan.cost)
                        || plan.cost.elapsed_s <= cost.elapsed_s.saturating_add(seconds))
            }
        },
    };
    if same { Judged::Same } else { Judged::Different }
}

#[test]
fn the_oracle_agrees_on_vehicles() {
    agrees(Kinds::BuiltIn, 120);
}

#[test]
fn the_oracle_agrees_on_made_up_kinds() {
    agrees(Kinds::MadeUp, 400);
}
