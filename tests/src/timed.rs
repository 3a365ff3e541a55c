//! The checker of time where two work: what is believed, and how old, at any moment of a schedule.
//! Shares no code with the planner.
#![allow(
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a wrong number must fail loudly"
)]

use stowfast_core::catalogue::Severity;
use stowfast_core::routine::{Plan, Problem, Turn};
use stowfast_core::vehicle::{AgeOf, Deed, Settings};

use crate::checker::{Replay, Violation, is_broken};

/// Steps of a plan that were made: the place, and when it ended.
pub type Made = [(usize, u32)];

/// What is believed at a moment, once what had ended by then was made.
fn at<'a>(problem: &Problem<'a>, plan: &Plan, made: &Made, now_s: u32) -> Replay<'a> {
    let mut replay = Replay::of(problem);
    let mut ended: Vec<_> = made.iter().filter(|(_, end_s)| *end_s <= now_s).collect();
    ended.sort_by_key(|(place, end_s)| (*end_s, *place));
    for (place, end_s) in ended {
        let action = &problem.vehicle.actions[plan.steps[*place]];
        let before = replay.beliefs.clone();
        replay.take(action);
        replay.let_pass(action, &before, *end_s);
    }
    let is_old = |one: &(&usize, &u32)| *one.1 <= now_s;
    let old: Vec<usize> = replay.ripe_s.iter().filter(is_old).map(|one| *one.0).collect();
    for age in old {
        replay.beliefs[age] = Settings::one(AgeOf::OLD);
    }
    replay
}

/// Moments from `from_s` on at which something may come to be permitted: then, when something has
/// ended, or when an age is old.
fn moments(problem: &Problem, plan: &Plan, made: &Made, from_s: u32) -> Vec<u32> {
    let mut all: Vec<_> = made.iter().map(|one| one.1).chain([from_s]).collect();
    let old = |now_s: &u32| at(problem, plan, made, *now_s).ripe_s.into_values();
    all = all.iter().flat_map(old).chain(all.iter().copied()).collect();
    all.retain(|one| *one >= from_s);
    all.sort_unstable();
    all.dedup();
    all
}

/// The nuisances that a step leads into and leaves broken, if it starts at a moment.
fn nuisances(problem: &Problem, plan: &Plan, made: &Made, place: usize, start_s: u32) -> u32 {
    let action = &problem.vehicle.actions[plan.steps[place]];
    let mut then = at(problem, plan, made, start_s);
    let before = then.beliefs.clone();
    then.take(action);
    then.let_pass(action, &before, start_s);
    let clauses = problem.vehicle.clauses.iter().filter(|one| one.severity == Severity::Nuisance);
    let led_into = clauses.filter(|one| {
        one.literals.iter().any(|it| then.brought(action, it).meets(it.settings))
            && is_broken(&then.beliefs, one)
    });
    u32::try_from(led_into.count()).unwrap_or(u32::MAX)
}

/// What is wrong with a step that starts at a moment.
fn wrong(
    problem: &Problem,
    plan: &Plan,
    made: &Made,
    place: usize,
    start_s: u32,
) -> Vec<Violation> {
    let mut then = at(problem, plan, made, start_s);
    then.judge(problem, place, &problem.vehicle.actions[plan.steps[place]]);
    then.found
}

/// What is wrong once all is made and the time is up.
fn wrong_in_the_end(problem: &Problem, plan: &Plan, made: &Made, end_s: u32) -> Vec<Violation> {
    let problem = &problem.with_ways_out();
    let mut then = at(problem, plan, made, end_s);
    // That it is old was seen where the plan waits for it.
    for step in &plan.steps {
        let action = &problem.vehicle.actions[*step];
        for effect in action.effects.iter().filter(|_| action.deed == Deed::Wait) {
            then.fresh[effect.variable] |=
                then.beliefs[effect.variable] == Settings::one(effect.to);
        }
    }
    then.finish(problem);
    then.found
}

/// The places of a plan that are somebody's work.
#[must_use]
pub fn work(problem: &Problem, plan: &Plan) -> Vec<usize> {
    let action = |place: &usize| &problem.vehicle.actions[plan.steps[*place]];
    (0..plan.steps.len()).filter(|place| action(place).deed != Deed::Wait).collect()
}

/// The nuisances that each step of the plan leads into, by place, where one person makes it in the
/// plan's times; `ends_s` tells when each ends.
#[must_use]
pub fn nuisances_alone(problem: &Problem, plan: &Plan, ends_s: &[u32]) -> Vec<u32> {
    let made: Vec<_> =
        work(problem, plan).into_iter().map(|place| (place, ends_s[place])).collect();
    let of = |place: usize| {
        let before: Vec<_> = made.iter().copied().filter(|one| one.0 < place).collect();
        nuisances(problem, plan, &before, place, ends_s[place])
    };
    (0..plan.steps.len()).map(of).collect()
}

/// The first moment from `from_s` on at which a step may be made after what was made, leading into no
/// more than so many nuisances; `None` where it may never.
#[must_use]
pub fn soonest(
    (problem, plan, made): (&Problem, &Plan, &Made),
    place: usize,
    from_s: u32,
    nuisances_max: u32,
) -> Option<u32> {
    moments(problem, plan, made, from_s).into_iter().find(|start_s| {
        wrong(problem, plan, made, place, *start_s).is_empty()
            && nuisances(problem, plan, made, place, *start_s) <= nuisances_max
    })
}

/// The first moment at which all goals are met, once all is made.
#[must_use]
pub fn met(problem: &Problem, plan: &Plan, made: &Made) -> Option<u32> {
    let last_s = made.iter().map(|one| one.1).max().unwrap_or(0);
    let moments = moments(problem, plan, made, last_s);
    moments.into_iter().find(|end_s| wrong_in_the_end(problem, plan, made, *end_s).is_empty())
}

/// For how long something is broken that was broken at the start: danger, damage. Unit: s.
fn exposed_s(problem: &Problem, plan: &Plan, made: &Made, end_s: u32) -> (u32, u32) {
    let mut times: Vec<_> = made.iter().map(|one| one.1).collect();
    times.extend(made.iter().flat_map(|one| at(problem, plan, made, one.1).ripe_s.into_values()));
    times.extend(at(problem, plan, made, 0).ripe_s.into_values());
    times.extend([0, end_s]);
    times.retain(|one| *one <= end_s);
    times.sort_unstable();
    times.dedup();
    let mut sum = (0, 0);
    for pair in times.windows(2) {
        let then = at(problem, plan, made, pair[0]);
        let lasts_s = |severity| {
            if then.is_exposed(problem, severity) { pair[1] - pair[0] } else { 0 }
        };
        sum.0 += lasts_s(Severity::Danger);
        sum.1 += lasts_s(Severity::Damage);
    }
    sum
}

/// From when on somebody must be where a step ends what must not end alone, if it starts at a moment
/// after what was made.
#[must_use]
pub fn due_s(
    (problem, plan, made): (&Problem, &Plan, &Made),
    place: usize,
    start_s: u32,
) -> Option<u32> {
    let is_attended = |variable: &usize| {
        problem.vehicle.variables[*variable].age_of.is_some_and(|age| age.attended)
    };
    let before = &problem.vehicle.actions[plan.steps[place]].before;
    let age = before.iter().map(|one| one.variable).find(is_attended)?;
    at(problem, plan, made, start_s).ripe_s.get(&age).copied()
}

/// For how long who ends what must not end alone comes too late. Unit: s.
#[must_use]
pub fn alone_s(problem: &Problem, plan: &Plan, turns: &[Turn]) -> u32 {
    let zone = |turn: &Turn| problem.vehicle.actions[plan.steps[turn.place]].zone;
    let made: Vec<_> = turns.iter().map(|turn| (turn.place, turn.end_s)).collect();
    let late_s = |turn: &Turn| {
        let others: Vec<_> = made.iter().copied().filter(|one| one.0 != turn.place).collect();
        let due_s = due_s((problem, plan, &others), turn.place, turn.start_s)?;
        // Back to where this person came to the zone.
        let mut came = (problem.zone, 0, 0);
        let own = turns.iter().filter(|one| one.person == turn.person);
        for one in own.take_while(|one| one.place != turn.place).chain([turn]) {
            let (at, since_s, free_s) = came;
            let since_s = if zone(one) == at { since_s } else { free_s + one.walk_s };
            came = (zone(one), since_s, one.end_s);
        }
        Some(came.1.saturating_sub(due_s))
    };
    turns.iter().filter_map(late_s).sum()
}

/// What time makes wrong with a schedule, and when it is all over. Where one does it all, a step may
/// also be judged when that person leaves for it: what is young and broken may grow old on the walk.
#[must_use]
pub fn check(problem: &Problem, plan: &Plan, turns: &[Turn], elapsed_s: u32) -> Vec<String> {
    let made: Vec<_> = turns.iter().map(|turn| (turn.place, turn.end_s)).collect();
    let is_alone = turns.iter().all(|turn| turn.person == 0);
    let mut found = Vec::new();
    let mut bothers = 0;
    for Turn { place, start_s, end_s, walk_s, .. } in turns.iter().copied() {
        let others: Vec<_> = made.iter().copied().filter(|one| one.0 != place).collect();
        let wrong = |now_s: u32| wrong(problem, plan, &others, place, now_s);
        if !(is_alone && wrong(start_s - walk_s).is_empty()) {
            let wrong = wrong(start_s).into_iter();
            found.extend(wrong.map(|wrong| format!("{place} at {start_s} s: {wrong:?}")));
        }
        bothers += nuisances(problem, plan, &others, place, end_s);
    }
    for wrong in wrong_in_the_end(problem, plan, &made, elapsed_s) {
        found.push(format!("in the end, {elapsed_s} s: {wrong:?}"));
    }
    let (danger_s, damage_s) = exposed_s(&problem.with_ways_out(), plan, &made, elapsed_s);
    let cost = plan.cost;
    let alone_s = alone_s(problem, plan, turns);
    if !is_alone && alone_s > cost.alone_s {
        found.push(format!("nobody there for {alone_s} s, not {} s", cost.alone_s));
    }
    if (danger_s, damage_s, bothers) > (cost.danger_s, cost.damage_s, cost.nuisances) {
        found.push(format!("graver: {danger_s} s, {damage_s} s, {bothers} nuisances; {cost:?}"));
    }
    found
}
