//! Laws of gestures: what one confirms may be seen to in any order, and gathering changes nothing
//! that a plan is judged by.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::print_stdout,
    reason = "a test may fail loudly"
)]

use std::cell::Cell;

use stowfast_core::catalogue;
use stowfast_core::routine::{Gesture, GestureKind, LINES_MAX, Outcome, Plan, gather, plan};
use stowfast_core::vehicle::Vehicle;
use stowfast_tests::cases::{Case, Kinds};
use stowfast_tests::checker::{Violation, check};
use stowfast_tests::draw::{Effort, law};
use stowfast_tests::packs::Size;

const SMALL: Size = Size { least: 1, most: 5, own_seconds: true };
const LARGE: Size = Size { least: 8, most: 20, own_seconds: true };

#[derive(Default)]
struct Seen {
    plans: Cell<u32>,
    moved: Cell<u32>,
    lists: Cell<u32>,
}

/// The plan in the order of its gestures, each list forwards or backwards.
fn in_order(plan: &Plan, gestures: &[Gesture], backwards: bool) -> Plan {
    let lines = gestures.iter().flat_map(|one| {
        let mut steps = one.steps.clone();
        if backwards && one.kind == GestureKind::Together {
            steps.reverse();
        }
        steps
    });
    Plan { steps: lines.collect(), ..plan.clone() }
}

/// Whether the catalogue has it confirmed by itself.
fn is_own(vehicle: &Vehicle, step: usize) -> bool {
    let effects = vehicle.actions[step].effects.iter().filter(|one| !one.spoilt);
    effects
        .into_iter()
        .any(|one| vehicle.variables[one.variable].gesture == catalogue::Gesture::Own)
}

fn judge(case: &Case, seen: &Seen) -> Result<(), String> {
    let count = |cell: &Cell<u32>, is: bool| cell.set(cell.get() + u32::from(is));
    let problem = case.problem();
    let Outcome::Plan(plan) = plan(&problem) else { return Ok(()) };
    if !check(&problem, &plan).is_empty() {
        return Ok(()); // That is for another law to say.
    }
    let stands = gather(&problem, &plan, true);
    if in_order(&plan, &stands, false) != plan {
        return Err("not as it stood".to_owned());
    }
    let gestures = gather(&problem, &plan, false);
    let gathered = in_order(&plan, &gestures, false);
    let shown = || format!("{:?}\n{:?}", case.names(&plan.steps), case.names(&gathered.steps));
    let found = check(&problem, &gathered);
    if !found.is_empty() {
        return Err(format!("{found:?}\n{}", shown()));
    }
    // Backwards a list is walked another way, so that more or less is left of a wait after it, or a
    // wait is, for which the way was long enough; nothing else is otherwise.
    let backwards = in_order(&plan, &gestures, true);
    let asks_for_time = |step: usize| {
        let mut before = problem.vehicle.actions[backwards.steps[step]].before.iter();
        before.any(|one| problem.vehicle.variables[one.variable].age_of.is_some())
    };
    let mut found = check(&problem, &backwards);
    found.retain(|one| {
        let too_soon = matches!(one, Violation::Before(step) if asks_for_time(*step));
        !too_soon && !matches!(one, Violation::Cost(_) | Violation::Left(..))
    });
    if !found.is_empty() {
        return Err(format!("backwards: {found:?}\n{}", shown()));
    }
    if gather(&problem, &gathered, false) != gestures {
        return Err(format!("gathered again it is otherwise\n{}", shown()));
    }
    for gesture in &gestures {
        let own = gesture.steps.iter().any(|step| is_own(problem.vehicle, *step));
        let most = if own { 1 } else { LINES_MAX };
        if gesture.steps.is_empty() || gesture.steps.len() > most {
            return Err(format!("{gesture:?}\n{}", shown()));
        }
        count(&seen.lists, gesture.steps.len() > 1);
    }
    count(&seen.plans, true);
    count(&seen.moved, gathered != plan);
    Ok(())
}

fn holds(kinds: Kinds, size: Size, cases: u32) -> [u32; 3] {
    let seen = Seen::default();
    let effort = Effort { cases, numbers_max: 400 };
    let held = law(effort, |list| Case::drawn(list, kinds, size).ok(), |case| judge(case, &seen));
    held.unwrap_or_else(|why| panic!("{why}"));
    let numbers = [&seen.plans, &seen.moved, &seen.lists].map(Cell::get);
    println!("plans, reordered, lists of several: {numbers:?}");
    numbers
}

#[test]
fn gathering_keeps_a_plan_permitted_and_at_its_cost() {
    let [_, moved, lists] = holds(Kinds::BuiltIn, LARGE, 900);
    assert!(moved >= 5 && lists >= 40);
}

#[test]
fn gathering_keeps_plans_of_made_up_kinds_as_they_are() {
    let [_, _, lists] = holds(Kinds::MadeUp, SMALL, 4_000);
    assert!(lists >= 60);
}

#[test]
fn gathering_keeps_plans_in_which_time_counts_as_they_are() {
    for (kinds, cases) in [(Kinds::Timed, 3_000), (Kinds::Attended, 3_000)] {
        let [plans, _, lists] = holds(kinds, SMALL, cases);
        assert!(plans >= 1_000 && lists >= 40);
    }
}
