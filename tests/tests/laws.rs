//! Laws of the planner, held against an independent checker and an oracle.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::print_stdout,
    reason = "a test may fail loudly"
)]

use std::cell::Cell;

use stowfast_core::routine::{Outcome, Plan, Problem, plan};
use stowfast_core::vehicle::{Action, Deed};
use stowfast_tests::cases::{Case, Kinds, vehicle};
use stowfast_tests::checker::{check, end_of};
use stowfast_tests::draw::{Effort, law};
use stowfast_tests::judge::{Judged, freshens_by_moving, judge};
use stowfast_tests::oracle::{Answer, solve};
use stowfast_tests::packs::Size;

/// Small enough for the oracle, most of the time.
const SMALL: Size = Size { least: 1, most: 4, own_seconds: true };
/// Too large for it: checker only.
const LARGE: Size = Size { least: 8, most: 20, own_seconds: true };
/// Hands-on times as the kinds have them.
const PLAIN: Size = Size { least: 6, most: 16, own_seconds: false };
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
    checks(Kinds::BuiltIn, SMALL, 1_000);
}

#[test]
fn plans_for_large_vehicles_pass_the_checker() {
    checks(Kinds::BuiltIn, LARGE, 60);
}

#[test]
fn plans_for_made_up_kinds_pass_the_checker() {
    checks(Kinds::MadeUp, SMALL, 2_000);
}

/// The oracle agrees on what is possible and, where the plan claims to be exact, on every part of
/// the cost.
fn agrees(kinds: Kinds, cases: u32) -> u32 {
    let attended = Cell::new(0_u32);
    let agreed = Cell::new((0_u32, 0_u32, 0_u32));
    let odd = Cell::new(0_u32);
    let held = law(
        effort(cases),
        |list| Case::drawn(list, kinds, SMALL).ok(),
        |case| {
            let problem = case.problem();
            let answer = solve(&problem.with_ways_out(), STATES_MAX);
            let outcome = plan(&problem);
            if let Outcome::Plan(plan) = &outcome {
                attended.set(attended.get() + u32::from(ends_what_is_attended(&problem, plan)));
            }
            let (exact, none, open) = agreed.get();
            agreed.set(match judge(&problem, &outcome, &answer) {
                Judged::Same if matches!(answer, Answer::Possible { .. }) => {
                    (exact + 1, none, open)
                }
                Judged::Same => (exact, none + 1, open),
                Judged::Open => (exact, none, open + 1),
                Judged::Odd => {
                    odd.set(odd.get() + 1);
                    (exact, none, open)
                }
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
    let odd = odd.get();
    println!("{exact} of equal cost, {none} impossible, {odd} odd, {open} not compared");
    println!("{} with an attended end", attended.get());
    held.unwrap_or_else(|why| panic!("{why}"));
    assert!(exact + none >= cases / 2, "only {exact} + {none} compared");
    assert!(odd <= cases / 100, "{odd} are odd");
    attended.get()
}

/// Whether a plan makes something end at which somebody must be.
fn ends_what_is_attended(problem: &Problem, plan: &Plan) -> bool {
    let of = |variable: usize| problem.vehicle.variables[variable].age_of;
    let actions = plan.steps.iter().map(|step| &problem.vehicle.actions[*step]);
    actions
        .filter(|action| action.deed == Deed::Move)
        .flat_map(|action| &action.before)
        .any(|one| of(one.variable).is_some_and(|age| age.attended))
}

#[test]
fn the_oracle_agrees_on_vehicles() {
    _ = agrees(Kinds::BuiltIn, 500);
}

#[test]
fn the_oracle_agrees_on_made_up_kinds() {
    _ = agrees(Kinds::MadeUp, 3_000);
}

#[test]
fn the_oracle_agrees_where_ends_are_attended() {
    let attended = agrees(Kinds::Attended, 600);
    assert!(attended >= 100, "only {attended} attended ends");
}

/// Cases that once broke a law keep holding it.
#[test]
fn what_once_failed_holds() {
    let lists = include_str!("../data/once_failed.txt").lines().skip(1);
    let read = |line: &str| line.split(' ').map(|one| one.parse().unwrap()).collect::<Vec<u16>>();
    // Of what was drawn, the catalogue's check refuses more today: two, with a ring in `before`.
    let cases = lists.filter_map(|line| Case::drawn(&read(line), Kinds::MadeUp, SMALL).ok());
    let cases: Vec<_> = cases.collect();
    assert!(cases.len() >= 7, "{} cases", cases.len());
    for (number, case) in cases.iter().enumerate() {
        let problem = case.problem();
        let outcome = plan(&problem);
        if let Outcome::Plan(plan) = &outcome {
            assert_eq!(check(&problem, plan), [], "{number}: {plan:?}");
        }
        let answer = solve(&problem.with_ways_out(), STATES_MAX);
        let agreed = matches!(judge(&problem, &outcome, &answer), Judged::Same);
        assert!(agreed, "{number}: {outcome:?}\n{answer:?}\n{case:?}");
    }
}

/// Holds a law for a number of cases; it tells whether a case was one that it speaks of. At least
/// `least` must be.
fn holds(
    kinds: Kinds,
    size: Size,
    (cases, least): (u32, u32),
    each: impl Fn(&Case) -> Result<bool, String>,
) {
    let spoken_of = Cell::new(0_u32);
    let held = law(
        Effort { cases, numbers_max: 400 },
        |list| Case::drawn(list, kinds, size).ok(),
        |case| {
            spoken_of.set(spoken_of.get() + u32::from(each(case)?));
            Ok(())
        },
    );
    held.unwrap_or_else(|why| panic!("{why}"));
    assert!(spoken_of.get() >= least, "only {} cases", spoken_of.get());
}

fn must(is: bool, why: impl Fn() -> String) -> Result<(), String> {
    if is { Ok(()) } else { Err(why()) }
}

/// The problem once its plan is carried out, with everything fresh that was done or looked at.
fn afterwards<'a>(problem: &Problem<'a>) -> Option<Problem<'a>> {
    let Outcome::Plan(plan) = plan(problem) else { return None };
    let (beliefs, fresh, zone) = end_of(problem, &plan.steps);
    Some(Problem { beliefs, fresh, zone, ..problem.clone() })
}

/// Whether a look found a rule broken that nobody knew of: what is reached has a way out to plan.
fn finds_a_broken_rule(reached: &Problem) -> bool {
    reached.with_ways_out().goals.len() > reached.goals.len()
}

#[test]
fn what_is_reached_plans_to_nothing() {
    for kinds in [Kinds::BuiltIn, Kinds::MadeUp] {
        holds(kinds, SMALL, (150, 40), |case| {
            let Some(reached) = afterwards(&case.problem()) else { return Ok(false) };
            if finds_a_broken_rule(&reached) {
                return Ok(false);
            }
            let Outcome::Plan(again) = plan(&reached) else { return Err("no plan".to_owned()) };
            must(again.steps.is_empty(), || format!("{:?}", case.names(&again.steps)))?;
            Ok(true)
        });
    }
}

#[test]
fn what_lacks_only_freshness_plans_to_looks_only() {
    holds(Kinds::BuiltIn, PLAIN, (700, 12), |case| {
        let Some(reached) = afterwards(&case.problem()) else { return Ok(false) };
        if finds_a_broken_rule(&reached) {
            return Ok(false);
        }
        let stale = Problem { fresh: vec![false; reached.fresh.len()], ..reached };
        if stale.with_ways_out().goals.len() > stale.goals.len() {
            return Ok(false); // A look found a rule broken that nobody knew of.
        }
        let Outcome::Plan(again) = plan(&stale) else { return Ok(false) };
        if stale.goals.iter().any(|goal| goal.fresh && goal.any_of.len() > 1) {
            return Ok(false); // Another way to meet it may be the shorter.
        }
        let wheels = case.vehicle.standing_still();
        if wheels.is_some_and(|one| !stale.beliefs[one.variable].is_within(one.settings)) {
            return Ok(false); // On the road one stops to look.
        }
        let can_look = |variable: usize| {
            let mut looks = case.vehicle.actions.iter().filter(|one| one.deed == Deed::Look);
            looks.any(|look| look.effects.iter().any(|e| e.variable == variable && !e.spoilt))
        };
        let steps = again.steps.iter().map(|step| &case.vehicle.actions[*step]);
        let mut moves = steps.filter(|action| action.deed == Deed::Move).peekable();
        let shows = |action: &Action| {
            let mut own = action.effects.iter().filter(|effect| !effect.spoilt);
            own.all(|one| can_look(one.variable))
        };
        if moves.peek().is_some() {
            // What no look shows is done again, with whatever that takes.
            must(!moves.all(shows), || format!("{:?}", case.names(&again.steps)))?;
            return Ok(false);
        }
        Ok(!again.steps.is_empty())
    });
}

/// Semantics 18: with any one of the reasons dropped there is a way.
#[test]
fn every_reason_why_there_is_no_way_is_needed() {
    holds(Kinds::MadeUp, SMALL, (2_000, 400), |case| {
        let problem = case.problem().with_ways_out();
        let Outcome::Impossible(reasons) = plan(&problem) else { return Ok(false) };
        let solved = |kept: &[usize]| {
            let mut smaller = problem.clone();
            for number in (0..problem.goals.len()).filter(|number| !kept.contains(number)) {
                smaller.let_go(number);
            }
            solve(&smaller, STATES_MAX)
        };
        match solved(&reasons) {
            Answer::Possible { steps, .. } if freshens_by_moving(&problem, &steps) => {
                return Ok(false);
            }
            Answer::Possible { steps, .. } => return Err(format!("{:?}", case.names(&steps))),
            Answer::Impossible { .. } | Answer::TooLarge => {}
        }
        let mut without = problem.clone();
        for reason in &reasons {
            without.let_go(*reason);
        }
        let (outcome, answer) = (plan(&without), solve(&without, STATES_MAX));
        must(!matches!(judge(&without, &outcome, &answer), Judged::Different), || {
            format!("without {reasons:?}: {outcome:?}\noracle: {answer:?}")
        })?;
        for dropped in &reasons {
            let kept: Vec<_> = reasons.iter().copied().filter(|one| one != dropped).collect();
            must(!matches!(solved(&kept), Answer::Impossible { .. }), || {
                format!("{reasons:?}: {dropped} is not needed")
            })?;
        }
        Ok(true)
    });
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    holds(Kinds::BuiltIn, PLAIN, (40, 40), |case| {
        let again = vehicle(&case.pack, &case.catalogue).unwrap();
        let anew = Problem { vehicle: &again, ..case.problem() };
        let bytes = |problem: &Problem| format!("{:?}", plan(problem));
        let (first, second, third) = (bytes(&case.problem()), bytes(&case.problem()), bytes(&anew));
        must(first == second && first == third, || format!("{first}\n{second}\n{third}"))?;
        Ok(true)
    });
}
