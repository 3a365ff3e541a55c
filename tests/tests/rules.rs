//! Laws of the rules themselves, held against every world one by one; and of the log's fold.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::print_stdout,
    reason = "a test may fail loudly"
)]

use std::cell::Cell;

use stowfast_core::catalogue::{Catalogue, Severity};
use stowfast_core::clock::{Monotonic, Stamp};
use stowfast_core::interlock::{
    Goal, Standing, VerdictKind, goals, is_permitted, refusals, standing, verdict,
};
use stowfast_core::routine::{Outcome, Problem, plan};
use stowfast_core::state::{Act, Entry, Fact, How, NewEntry, State};
use stowfast_core::vehicle::{Action, Clause, Literal, Settings, Vehicle};
use stowfast_tests::cases::{self, Case, Kinds};
use stowfast_tests::checker::end_of;
use stowfast_tests::choices::Choices;
use stowfast_tests::draw::{Effort, law};
use stowfast_tests::packs::Size;
use stowfast_tests::worlds::{holds_everywhere, holds_somewhere, met_everywhere, permitted};

const SMALL: Size = Size { least: 1, most: 6, own_seconds: false };

fn effort(cases: u32) -> Effort {
    Effort { cases, numbers_max: 400 }
}

/// A case, and more choices that do not follow from those that made it.
fn drawn(list: &[u16], kinds: Kinds) -> Option<(Case, Vec<u16>)> {
    let case = Case::drawn(list, kinds, SMALL).ok()?;
    Some((case, list.iter().rev().map(|number| number.rotate_left(5)).collect()))
}

/// Permission, refusals and standing are what they are world by world.
fn permission_is_as_in_every_world(kinds: Kinds, cases: u32) {
    let seen = Cell::new((0_u32, 0_u32));
    let held = law(
        effort(cases),
        |list| Case::drawn(list, kinds, SMALL).ok(),
        |case| {
            let (vehicle, beliefs) = (&case.vehicle, &case.beliefs);
            for action in &vehicle.actions {
                let may = permitted(vehicle, beliefs, action);
                let (yes, no) = seen.get();
                seen.set(if may { (yes + 1, no) } else { (yes, no + 1) });
                if is_permitted(vehicle, beliefs, action) != may
                    || refusals(vehicle, beliefs, action).is_empty() != may
                {
                    return Err(format!("{}: {may} in every world", action.id));
                }
            }
            for clause in &vehicle.clauses {
                let everywhere = holds_everywhere(beliefs, &clause.literals);
                let somewhere = holds_somewhere(beliefs, &clause.literals);
                let expected = match (everywhere, somewhere) {
                    (true, _) => Standing::Broken,
                    (false, true) => Standing::Open,
                    (false, false) => Standing::Off,
                };
                if standing(beliefs, clause) != expected {
                    return Err(format!("{}: {expected:?}", clause.id));
                }
            }
            Ok(())
        },
    );
    held.unwrap_or_else(|why| panic!("{why}"));
    let (yes, no) = seen.get();
    println!("{yes} permitted, {no} refused");
    assert!(yes > cases && no > cases, "{yes} permitted, {no} refused");
}

#[test]
fn permission_on_vehicles_is_as_in_every_world() {
    permission_is_as_in_every_world(Kinds::BuiltIn, 200);
}

#[test]
fn permission_on_made_up_kinds_is_as_in_every_world() {
    permission_is_as_in_every_world(Kinds::MadeUp, 600);
}

fn clause(choices: &mut Choices, vehicle: &Vehicle) -> Clause {
    let mut literals: Vec<Literal> = Vec::new();
    for _ in 0..choices.between(1, 3) {
        let variable = choices.below(vehicle.variables.len());
        let settings = cases::belief(choices, vehicle, variable);
        if !literals.iter().any(|one| one.variable == variable) {
            literals.push(Literal { variable, settings });
        }
    }
    let severities = [Severity::Danger, Severity::Damage, Severity::Nuisance];
    let severity = *choices.one_of(&severities).unwrap();
    let id = "made_up.rule".to_owned();
    Clause { id, fitting: 0, severity, literals, source: "made up".to_owned() }
}

/// Where to ask for verdicts: the beliefs of the case, and where a plan to the target leads.
fn places(case: &Case, goals: &[Goal]) -> Vec<(Vec<Settings>, Vec<bool>)> {
    let problem = Problem { goals: goals.to_vec(), ..case.problem() };
    let mut places = vec![(case.beliefs.clone(), case.fresh.clone())];
    if let Outcome::Plan(plan) = plan(&problem) {
        let (beliefs, fresh, _) = end_of(&problem, &plan.steps);
        places.push((beliefs, fresh));
    }
    places
}

/// A further clause never turns Blocked or Unknown into something better.
#[test]
fn a_further_rule_never_makes_a_verdict_better() {
    let worse = Cell::new(0_u32);
    let held = law(
        effort(200),
        |list| drawn(list, Kinds::BuiltIn),
        |(case, more)| {
            let choices = &mut Choices::new(more);
            let mut stricter = case.vehicle.clone();
            stricter.clauses.push(clause(choices, &case.vehicle));
            for target in &case.catalogue.targets {
                let before = goals(&case.vehicle, target, &[]).unwrap();
                let after = goals(&stricter, target, &[]).unwrap();
                for (beliefs, fresh) in places(case, &before) {
                    let was = verdict(&case.vehicle, &before, &beliefs, |one| fresh[one]).kind;
                    let is = verdict(&stricter, &after, &beliefs, |one| fresh[one]).kind;
                    worse.set(worse.get() + u32::from(is > was));
                    if is < was {
                        return Err(format!("{}: {was:?}, then {is:?}", target.id));
                    }
                }
            }
            Ok(())
        },
    );
    held.unwrap_or_else(|why| panic!("{why}"));
    println!("{} verdicts became worse", worse.get());
    assert!(worse.get() > 10);
}

/// Clear means that every goal holds in every world, and is fresh where that is asked; clear to
/// drive, that driving off breaks no rule in any world.
#[test]
fn clear_means_clear_in_every_world() {
    let clear = Cell::new(0_u32);
    let held = law(
        effort(150),
        |list| Case::drawn(list, Kinds::BuiltIn, SMALL).ok(),
        |case| {
            let (_, drive_off) = case.vehicle.action("engine.drive_off").unwrap();
            for target in &case.catalogue.targets {
                let asked = goals(&case.vehicle, target, &[]).unwrap();
                for (beliefs, fresh) in places(case, &asked) {
                    let found = verdict(&case.vehicle, &asked, &beliefs, |one| fresh[one]);
                    if found.kind != VerdictKind::Clear {
                        continue;
                    }
                    clear.set(clear.get() + 1);
                    if let Some(goal) = asked.iter().find(|goal| !is_met(&beliefs, &fresh, goal)) {
                        return Err(format!("{}: Clear, yet {goal:?}", target.id));
                    }
                    let drives = target.ready_for.as_deref() == Some("engine.drive_off");
                    if drives && !permitted(&case.vehicle, &beliefs, drive_off) {
                        return Err("clear to drive, yet driving off is not permitted".to_owned());
                    }
                }
            }
            Ok(())
        },
    );
    held.unwrap_or_else(|why| panic!("{why}"));
    println!("{} times Clear", clear.get());
    assert!(clear.get() > 50, "only {} times Clear", clear.get());
}

fn is_met(beliefs: &[Settings], fresh: &[bool], goal: &Goal) -> bool {
    let seen = |one: &&Literal| {
        fresh[one.variable] && holds_everywhere(beliefs, std::slice::from_ref(*one))
    };
    met_everywhere(beliefs, goal) && (!goal.fresh || goal.any_of.iter().any(|one| seen(&one)))
}

/// A log made up at random, numbered from 10 by tens.
fn log(choices: &mut Choices, vehicle: &Vehicle, catalogue: &Catalogue) -> Vec<Entry> {
    let mut at_ms = 1_000_000;
    let mut log = Vec::new();
    for number in 0..choices.between(0, 8) {
        at_ms += i64::try_from(choices.below(5_000_000)).unwrap() - 60_000;
        let action = choices.one_of(&vehicle.actions).unwrap();
        let said = match choices.below(7) {
            0 => report(choices, vehicle),
            1 => ticked(action, vehicle),
            2 => (Act::Cannot { step: action.id.clone() }, Vec::new()),
            3 => (Act::Pause, Vec::new()),
            4 => (Act::Resume, Vec::new()),
            5 => (Act::LeftAnyway { step: action.id.clone() }, Vec::new()),
            _ => {
                let target = choices.one_of(&catalogue.targets).map(|one| one.id.clone());
                (Act::Open { target: target.unwrap_or_default() }, Vec::new())
            }
        };
        log.push(entry(10 * (i64::try_from(number).unwrap() + 1), at_ms, said));
    }
    log
}

fn entry(seq: i64, at_ms: i64, (act, facts): (Act, Vec<Fact>)) -> Entry {
    let monotonic = (at_ms % 3 == 0).then(|| Monotonic { ms: at_ms, boot: "a".to_owned() });
    let at = Stamp { utc_ms: at_ms, monotonic };
    Entry {
        seq,
        said: NewEntry {
            at,
            run: None,
            act,
            facts,
            reading: None,
            finding: None,
            figure: None,
            note: String::new(),
        },
    }
}

fn report(choices: &mut Choices, vehicle: &Vehicle) -> (Act, Vec<Fact>) {
    let variable = choices.below(vehicle.variables.len());
    let settings = cases::belief(choices, vehicle, variable);
    let how = *choices.one_of(&[How::Told, How::Reading, How::Looked, How::Done]).unwrap();
    let known = &vehicle.variables[variable];
    let settings = known.names_of(settings);
    (Act::Report, vec![Fact { variable: known.id.clone(), settings, how }])
}

/// A tick with what the move changes.
fn ticked(action: &Action, vehicle: &Vehicle) -> (Act, Vec<Fact>) {
    let facts = action.effects.iter().map(|effect| {
        let known = &vehicle.variables[effect.variable];
        let how = if effect.spoilt { How::Settled } else { How::Done };
        let settings = known.names_of(Settings::one(effect.to));
        Fact { variable: known.id.clone(), settings, how }
    });
    (Act::Tick { step: action.id.clone() }, facts.collect())
}

fn without_last(state: State) -> State {
    State { last: None, ..state }
}

/// Unmark takes a tick back wherever it stands in the log: everything is as if it had never been
/// said. Taking the unmark back brings it again.
#[test]
fn unmark_restores_everything() {
    let changed = Cell::new(0_u32);
    let held = law(
        effort(300),
        |list| drawn(list, Kinds::BuiltIn),
        |(case, more)| {
            let choices = &mut Choices::new(more);
            let fold = |log: &[Entry]| {
                let state = State::fold(&case.vehicle, &case.catalogue, log);
                without_last(state.at(&case.vehicle, &Stamp::utc(91_000_000)))
            };
            let plain = log(choices, &case.vehicle, &case.catalogue);
            let place = choices.between(0, plain.len());
            let action = choices.one_of(&case.vehicle.actions).unwrap();
            let seq = i64::try_from(place).unwrap() * 10 + 5;
            let tick = entry(seq, 2_000_000, ticked(action, &case.vehicle));
            let mut with = plain.clone();
            with.insert(place, tick);
            let then = |log: &[Entry], seq: i64, entry_of: i64| {
                let void = entry(seq, 90_000_000, (Act::Void { entry: entry_of }, Vec::new()));
                [log, &[void]].concat()
            };
            let unmarked = then(&with, 1_000, seq);
            let again = then(&unmarked, 1_010, 1_000);
            changed.set(changed.get() + u32::from(fold(&with) != fold(&plain)));
            if fold(&unmarked) != fold(&plain) {
                return Err(format!("unmarking {} leaves a trace: {with:?}", action.id));
            }
            if fold(&again) != fold(&with) {
                return Err(format!("{} does not come back: {with:?}", action.id));
            }
            Ok(())
        },
    );
    held.unwrap_or_else(|why| panic!("{why}"));
    println!("{} ticks made a difference", changed.get());
    assert!(changed.get() > 100);
}
