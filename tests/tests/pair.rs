//! Laws of plans for two, held against an independent checker and every way to share a short plan.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::print_stdout,
    reason = "a test may fail loudly"
)]

use std::cell::Cell;

use stowfast_core::interlock::is_permitted;
use stowfast_core::routine::{Outcome, Plan, Problem, Proof, Schedule, plan, share};
use stowfast_core::vehicle::{Deed, Literal};
use stowfast_tests::cases::{Case, Kinds};
use stowfast_tests::conflict::{after, in_order};
use stowfast_tests::draw::{Effort, law};
use stowfast_tests::packs::Size;
use stowfast_tests::pair::{Price, chain_of, faults};

const SMALL: Size = Size { least: 1, most: 5, own_seconds: true };
const LARGE: Size = Size { least: 8, most: 20, own_seconds: true };
/// Most steps of a plan of which every way to share it is tried.
const TRIED_MAX: usize = 7;

/// Whether the plan is permitted, and reaches its goals, though no time passes.
fn is_timeless(problem: &Problem, plan: &Plan) -> bool {
    let permitted = plan.steps.iter().enumerate().all(|(count, step)| {
        let action = &problem.vehicle.actions[*step];
        let beliefs = after(problem, plan, count);
        action.deed != Deed::Wait && is_permitted(problem.vehicle, &beliefs, action)
    });
    let end = after(problem, plan, plan.steps.len());
    let holds = |one: &Literal| end[one.variable].is_within(one.settings);
    let goals = problem.with_ways_out().goals;
    permitted && goals.iter().all(|goal| goal.any_of.iter().any(holds))
}

/// A partial way to share a plan.
#[derive(Clone)]
struct Way {
    end_s: Vec<Option<u32>>,
    zone: [usize; 2],
    free_s: [u32; 2],
    open: [Option<usize>; 2],
    price: Price,
}

struct Every<'a> {
    problem: &'a Problem<'a>,
    plan: &'a Plan,
    order: Vec<(usize, usize)>,
    best: Price,
}

impl Every<'_> {
    /// Tries every step next, by either person.
    fn go_on(&mut self, way: &Way) {
        if way.end_s.iter().all(Option::is_some) {
            self.best = self.best.min(way.price);
        }
        for place in (0..self.plan.steps.len()).filter(|place| way.end_s[*place].is_none()) {
            let ready = self.order.iter().filter(|(_, b)| *b == place).map(|(a, _)| way.end_s[*a]);
            let Some(ready) = ready.collect::<Option<Vec<u32>>>() else { continue };
            for person in 0..2 {
                self.give(way, place, person, ready.iter().copied().max().unwrap_or(0));
            }
        }
    }

    fn give(&mut self, way: &Way, place: usize, person: usize, ready_s: u32) {
        let action = &self.problem.vehicle.actions[self.plan.steps[place]];
        let chain = chain_of(self.problem, self.plan, place);
        let of = |other: usize| chain_of(self.problem, self.plan, other) == chain;
        let begun =
            chain.is_some() && (0..way.end_s.len()).any(|p| of(p) && way.end_s[p].is_some());
        if way.open[person] != chain.filter(|_| begun) {
            return;
        }
        let mut next = way.clone();
        let walk_s = self.problem.vehicle.walks.between(way.zone[person], action.zone);
        let end_s = ready_s.max(way.free_s[person] + walk_s) + action.seconds;
        next.end_s[place] = Some(end_s);
        next.open[person] =
            chain.filter(|_| (0..way.end_s.len()).any(|p| of(p) && next.end_s[p].is_none()));
        next.price.0 = next.price.0.max(end_s);
        next.price.1 += walk_s;
        next.price.2 += u32::from(way.zone[person] != action.zone);
        next.zone[person] = action.zone;
        next.free_s[person] = end_s;
        self.go_on(&next);
    }
}

/// The least price of all ways to share a plan, or to leave it with one person.
fn least(problem: &Problem, plan: &Plan) -> Price {
    let cost = plan.cost;
    let best = (cost.elapsed_s, cost.walk_s, cost.zone_changes);
    let mut every = Every { problem, plan, order: in_order(problem, plan), best };
    if is_timeless(problem, plan) {
        every.go_on(&Way {
            end_s: vec![None; plan.steps.len()],
            zone: [problem.zone; 2],
            free_s: [0; 2],
            open: [None; 2],
            price: (0, 0, 0),
        });
    }
    every.best
}

/// No schedule is quicker: the longest line of steps that wait for each other, half of all hands-on
/// time, the furthest step.
fn bound(problem: &Problem, plan: &Plan) -> u32 {
    let seconds = |place: usize| problem.vehicle.actions[plan.steps[place]].seconds;
    let order = in_order(problem, plan);
    let mut ends: Vec<u32> = Vec::new();
    for place in 0..plan.steps.len() {
        let zone = problem.vehicle.actions[plan.steps[place]].zone;
        let walk_s = problem.vehicle.walks.between(problem.zone, zone);
        let told = order.iter().filter(|(_, b)| *b == place).map(|(a, _)| ends[*a]).max();
        ends.push(told.unwrap_or(0).max(walk_s) + seconds(place));
    }
    let hands: u32 = (0..plan.steps.len()).map(seconds).sum();
    ends.into_iter().max().unwrap_or(0).max(hands.div_ceil(2))
}

/// What has come up among the cases.
#[derive(Default)]
struct Seen {
    plans: Cell<u32>,
    shared: Cell<u32>,
    tried: Cell<u32>,
    exact: Cell<u32>,
}

fn judge(case: &Case, seen: &Seen) -> Result<(), String> {
    let count = |cell: &Cell<u32>, is: bool| cell.set(cell.get() + u32::from(is));
    let problem = case.problem();
    let Outcome::Plan(plan) = plan(&problem) else { return Ok(()) };
    let schedule = share(&problem, &plan);
    let Schedule { elapsed_s, walk_s, zone_changes, proof, .. } = schedule;
    let shown = || format!("{:?}\n{schedule:#?}\n{plan:?}", case.names(&plan.steps));
    let found = faults(&problem, &plan, &schedule);
    count(&seen.plans, true);
    count(&seen.shared, schedule.turns.iter().any(|turn| turn.person == 1));
    count(&seen.exact, proof == Proof::Exact);
    if !found.is_empty() {
        return Err(format!("{found:?}\n{}", shown()));
    }
    if elapsed_s > plan.cost.elapsed_s {
        return Err(format!("slower than one\n{}", shown()));
    }
    if is_timeless(&problem, &plan) && elapsed_s < bound(&problem, &plan) {
        return Err(format!("quicker than can be: {}\n{}", bound(&problem, &plan), shown()));
    }
    if plan.steps.len() <= TRIED_MAX {
        let (best, own) = (least(&problem, &plan), (elapsed_s, walk_s, zone_changes));
        if best != own || proof != Proof::Exact {
            return Err(format!("best is {best:?}, own {own:?}, {proof:?}\n{}", shown()));
        }
        count(&seen.tried, plan.steps.len() > 1);
    }
    Ok(())
}

fn holds(kinds: Kinds, size: Size, cases: u32) -> Seen {
    let seen = Seen::default();
    let effort = Effort { cases, numbers_max: 400 };
    let held = law(effort, |list| Case::drawn(list, kinds, size).ok(), |case| judge(case, &seen));
    held.unwrap_or_else(|why| panic!("{why}"));
    let Seen { plans, shared, tried, exact } = &seen;
    let numbers = [plans, shared, tried, exact].map(Cell::get);
    println!("plans, shared, every way tried, exact: {numbers:?}");
    assert!(numbers[1] >= cases / 40, "{numbers:?}");
    seen
}

#[test]
fn small_vehicles_are_shared_in_the_best_way() {
    assert!(holds(Kinds::BuiltIn, SMALL, 600).tried.get() >= 50);
}

#[test]
fn made_up_kinds_are_shared_in_the_best_way() {
    assert!(holds(Kinds::MadeUp, SMALL, 3_000).tried.get() >= 200);
}

#[test]
fn large_vehicles_are_shared_well() {
    holds(Kinds::BuiltIn, LARGE, 150);
}
