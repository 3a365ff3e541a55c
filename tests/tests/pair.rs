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

use stowfast_core::routine::{Outcome, Plan, Problem, Proof, Schedule, plan, share};
use stowfast_core::vehicle::{Deed, Settings};
use stowfast_tests::cases::{Case, Kinds};
use stowfast_tests::conflict::in_order;
use stowfast_tests::draw::{Effort, law};
use stowfast_tests::packs::Size;
use stowfast_tests::pair::{Price, chain_of, faults};
use stowfast_tests::small;
use stowfast_tests::timed::{self, met, nuisances_alone, soonest};

const SMALL: Size = Size { least: 1, most: 5, own_seconds: true };
const LARGE: Size = Size { least: 8, most: 20, own_seconds: true };
/// Most steps of a plan of which every way to share it is tried.
const TRIED_MAX: usize = 7;

/// A partial way to share a plan.
#[derive(Clone)]
struct Way {
    end_s: Vec<Option<u32>>,
    zone: [usize; 2],
    free_s: [u32; 2],
    open: [Option<usize>; 2],
    /// When each came to the zone.
    since_s: [u32; 2],
    /// For how long who ends what must not end alone comes too late.
    alone_s: u32,
    price: Price,
}

struct Every<'a> {
    problem: &'a Problem<'a>,
    plan: &'a Plan,
    order: Vec<(usize, usize)>,
    /// The nuisances that each step of the plan leads into, by place.
    nuisances: Vec<u32>,
    /// Too late by, and what it takes.
    best: (u32, Price),
}

impl Every<'_> {
    /// Tries every step next, by either person.
    fn go_on(&mut self, way: &Way) {
        let work = timed::work(self.problem, self.plan);
        let left: Vec<_> =
            work.iter().copied().filter(|place| way.end_s[*place].is_none()).collect();
        if left.is_empty() && self.holds(way) {
            let end_s = met(self.problem, self.plan, &way.made());
            let price = (end_s.unwrap_or(u32::MAX), way.price.1, way.price.2);
            self.best = self.best.min((way.alone_s, price));
        }
        let ended = |place: usize| {
            if work.contains(&place) { way.end_s[place] } else { Some(0) }
        };
        for place in left {
            let ready = self.order.iter().filter(|(_, b)| *b == place).map(|(a, _)| ended(*a));
            let Some(ready) = ready.collect::<Option<Vec<u32>>>() else { continue };
            for person in 0..2 {
                self.give(way, place, person, ready.iter().copied().max().unwrap_or(0));
            }
        }
    }

    /// Whether what was given to somebody later leaves every step permitted.
    fn holds(&self, way: &Way) -> bool {
        let made = way.made();
        made.iter().all(|(place, end_s)| {
            let start_s = end_s - self.problem.vehicle.actions[self.plan.steps[*place]].seconds;
            let others: Vec<_> = made.iter().copied().filter(|one| one.0 != *place).collect();
            let known = (self.problem, self.plan, others.as_slice());
            soonest(known, *place, start_s, self.nuisances[*place]) == Some(start_s)
        })
    }

    fn give(&mut self, way: &Way, place: usize, person: usize, ready_s: u32) {
        let action = &self.problem.vehicle.actions[self.plan.steps[place]];
        let chain = chain_of(self.problem, self.plan, place);
        let work = timed::work(self.problem, self.plan);
        let of = |other: usize| {
            work.contains(&other) && chain_of(self.problem, self.plan, other) == chain
        };
        let begun =
            chain.is_some() && (0..way.end_s.len()).any(|p| of(p) && way.end_s[p].is_some());
        if way.open[person] != chain.filter(|_| begun) {
            return;
        }
        let mut next = way.clone();
        let walk_s = self.problem.vehicle.walks.between(way.zone[person], action.zone);
        let from_s = ready_s.max(way.free_s[person] + walk_s);
        let made = way.made();
        let known = (self.problem, self.plan, made.as_slice());
        let Some(start_s) = soonest(known, place, from_s, self.nuisances[place]) else { return };
        let end_s = start_s + action.seconds;
        next.end_s[place] = Some(end_s);
        next.open[person] =
            chain.filter(|_| (0..way.end_s.len()).any(|p| of(p) && next.end_s[p].is_none()));
        next.price.0 = next.price.0.max(end_s);
        next.price.1 += walk_s;
        next.price.2 += u32::from(way.zone[person] != action.zone);
        if next.zone[person] != action.zone {
            next.since_s[person] = way.free_s[person] + walk_s;
        }
        let due_s = timed::due_s(known, place, start_s);
        next.alone_s += due_s.map_or(0, |due_s| next.since_s[person].saturating_sub(due_s));
        next.zone[person] = action.zone;
        next.free_s[person] = end_s;
        if (next.alone_s, next.price.0) <= (self.best.0, self.best.1.0) {
            self.go_on(&next);
        }
    }
}

impl Way {
    fn made(&self) -> Vec<(usize, u32)> {
        let all = self.end_s.iter().enumerate();
        all.filter_map(|(place, end_s)| Some((place, (*end_s)?))).collect()
    }
}

/// When each step ends where one person carries the plan out.
fn ends_alone(problem: &Problem, plan: &Plan) -> Vec<u32> {
    let (mut zone, mut now_s, mut ends_s) = (problem.zone, 0, Vec::new());
    for (place, step) in plan.steps.iter().enumerate() {
        let action = &problem.vehicle.actions[*step];
        if let Some(wait_s) = plan.wait_s.get(&place) {
            now_s += wait_s;
        } else {
            now_s += problem.vehicle.walks.between(zone, action.zone) + action.seconds;
            zone = action.zone;
        }
        ends_s.push(now_s);
    }
    ends_s
}

/// The least price of all ways to share a plan, or to leave it with one person.
fn least(problem: &Problem, plan: &Plan) -> (u32, Price) {
    let cost = plan.cost;
    let best = (cost.alone_s, (cost.elapsed_s, cost.walk_s, cost.zone_changes));
    let nuisances = nuisances_alone(problem, plan, &ends_alone(problem, plan));
    let mut every = Every { problem, plan, order: in_order(problem, plan), nuisances, best };
    every.go_on(&Way {
        end_s: vec![None; plan.steps.len()],
        zone: [problem.zone; 2],
        free_s: [0; 2],
        open: [None; 2],
        since_s: [0; 2],
        alone_s: 0,
        price: (0, 0, 0),
    });
    every.best
}

/// No schedule is quicker: the longest line of steps that wait for each other, half of all hands-on
/// time, the furthest step.
fn bound(problem: &Problem, plan: &Plan) -> u32 {
    let seconds = |place: usize| problem.vehicle.actions[plan.steps[place]].seconds;
    let order = in_order(problem, plan);
    let mut ends: Vec<u32> = Vec::new();
    for place in 0..plan.steps.len() {
        let action = &problem.vehicle.actions[plan.steps[place]];
        let is_wait = action.deed == Deed::Wait;
        let to = if is_wait { problem.zone } else { action.zone };
        let walk_s = problem.vehicle.walks.between(problem.zone, to);
        let told = order.iter().filter(|(a, b)| *b == place && !is_wait && *a < ends.len());
        let told = told.map(|(a, _)| ends[*a]).max();
        ends.push(told.unwrap_or(0).max(walk_s) + seconds(place));
    }
    let hands: u32 = timed::work(problem, plan).into_iter().map(seconds).sum();
    ends.into_iter().max().unwrap_or(0).max(hands.div_ceil(2))
}

/// What has come up among the cases.
#[derive(Default)]
struct Seen {
    plans: Cell<u32>,
    shared: Cell<u32>,
    tried: Cell<u32>,
    /// Of the shared, those in which time must pass.
    waiting: Cell<u32>,
    /// Of those of which every way was tried, the same.
    tried_waiting: Cell<u32>,
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
    if elapsed_s > plan.cost.elapsed_s && plan.cost.alone_s == 0 {
        return Err(format!("slower than one\n{}", shown()));
    }
    if elapsed_s < bound(&problem, &plan) {
        return Err(format!("quicker than can be: {}\n{}", bound(&problem, &plan), shown()));
    }
    let waits = !plan.wait_s.is_empty();
    count(&seen.waiting, waits && schedule.turns.iter().any(|turn| turn.person == 1));
    if timed::work(&problem, &plan).len() <= TRIED_MAX - usize::from(waits) {
        let shared = schedule.turns.iter().any(|turn| turn.person == 1);
        let late_s = || timed::alone_s(&problem, &plan, &schedule.turns);
        let alone_s = if shared { late_s() } else { plan.cost.alone_s };
        let own = (alone_s, (elapsed_s, walk_s, zone_changes));
        let best = least(&problem, &plan);
        if best != own || proof != Proof::Exact {
            return Err(format!("best is {best:?}, own {own:?}, {proof:?}\n{}", shown()));
        }
        count(&seen.tried, plan.steps.len() > 1);
        count(&seen.tried_waiting, waits && plan.steps.len() > 2);
    }
    Ok(())
}

fn holds(kinds: Kinds, size: Size, cases: u32) -> Seen {
    let seen = Seen::default();
    let effort = Effort { cases, numbers_max: 400 };
    let held = law(effort, |list| Case::drawn(list, kinds, size).ok(), |case| judge(case, &seen));
    held.unwrap_or_else(|why| panic!("{why}"));
    let Seen { plans, shared, tried, waiting, tried_waiting, exact } = &seen;
    let numbers = [plans, shared, tried, exact, waiting, tried_waiting].map(Cell::get);
    println!("plans, shared, every way tried, exact, shared waiting, tried: {numbers:?}");
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
fn what_must_grow_old_between_two_is_shared_in_the_best_way() {
    let seen = holds(Kinds::Timed, SMALL, 6_000);
    assert!(seen.waiting.get() >= 40 && seen.tried_waiting.get() >= 80);
}

/// A thing that some work throws back.
fn thrown_back(to: &str, by: &str) -> String {
    format!(
        "[[variable]]\nid = \"v\"\nsettings = [\"due\", \"done\"]\nusual = \"done\"\n\
         spoilt_to = \"{to}\"\nspoilt_by = [{by}]\ndont_care = true\n"
    )
}

fn work(seconds: u32, more: &str) -> String {
    format!(
        "[[variable]]\nid = \"w\"\nsettings = [\"due\", \"done\"]\nusual = \"due\"\n\
         [[move]]\nid = \"m\"\nset = {{ w = \"done\" }}\nseconds = {seconds}\n{more}"
    )
}

const MINUTE: &str = "[[value]]\nid = \"d_min\"\ndefault = 1\nmin = 1\nmax = 9\nsource = \"-\"\n";

/// The way to have all work done, shared out with nothing wrong; the age is young at first.
fn shared(kinds: &[(&str, &str, &str)], age: &str, goals: &[(&str, &str)]) -> Schedule {
    let vehicle = small::vehicle(kinds);
    let mut problem = small::problem(&vehicle, goals);
    problem.beliefs[vehicle.variable(age).unwrap()] = Settings::one(1);
    let Outcome::Plan(plan) = plan(&problem) else { panic!("no plan") };
    let schedule = share(&problem, &plan);
    assert_eq!(faults(&problem, &plan, &schedule), Vec::<String>::new(), "{plan:?}, {schedule:#?}");
    schedule
}

/// The rule counts from whichever of the two ends later, though either may come first.
#[test]
fn an_age_that_two_steps_begin_counts_from_the_later() {
    let thing = thrown_back("due", "\"p.m\", \"q.m\"");
    let rule = "[[clause]]\nid = \"c\"\nseverity = \"danger\"\nsource = \"-\"\nnever = [\
                { all = \"a.v\", in = [\"due\"], not_yet_for = \"d_min\" }, \
                { own = \"w\", in = [\"done\"] }]\n";
    let asks = work(5, &format!("{MINUTE}{rule}"));
    for (one_s, other_s) in [(100, 10), (10, 100)] {
        let (one, other) = (work(one_s, ""), work(other_s, ""));
        let kinds = [
            ("a", "in", thing.as_str()),
            ("p", "in", one.as_str()),
            ("q", "in", other.as_str()),
            ("x", "in", asks.as_str()),
        ];
        let goals = [("p.w", "done"), ("q.w", "done"), ("x.w", "done")];
        let schedule = shared(&kinds, "a.v.x.d_min", &goals);
        assert_eq!(schedule.elapsed_s, 100 + 60 + 5, "{schedule:#?}");
    }
}

/// Done sooner, it would throw back what has to stay until it is old.
#[test]
fn what_throws_a_thing_back_comes_after_the_step_that_needs_it_old() {
    let thing = thrown_back("due", "\"p.m\"");
    let asks = work(
        5,
        &format!("before = [{{ all = \"a.v\", in = [\"done\"], held_for = \"d_min\" }}]\n{MINUTE}"),
    );
    let throws = work(20, "");
    let kinds =
        [("a", "in", thing.as_str()), ("p", "in", throws.as_str()), ("x", "in", asks.as_str())];
    let schedule = shared(&kinds, "a.v.x.d_min", &[("p.w", "done"), ("x.w", "done")]);
    assert_eq!(schedule.elapsed_s, 60 + 5 + 20, "{schedule:#?}");
}

#[test]
fn large_vehicles_are_shared_well() {
    holds(Kinds::BuiltIn, LARGE, 150);
}
