//! May I? Of every move of a card, whether a plan has it or not.

use super::{at, demo, tell};
use crate::engine::{Engine, MoveRow, StepKind};

fn row(engine: &Engine, step: &str) -> MoveRow {
    let (fitting, _) = step.split_once('.').unwrap();
    let page = engine.card(fitting, &at(1)).unwrap();
    page.steps.into_iter().find(|row| row.id == step).unwrap()
}

#[test]
fn a_card_says_of_each_move_whether_it_may_be_made_as_things_stand() {
    let mut engine = demo();
    let gas = "boiler.heat_gas";
    tell(&mut engine, &[("boiler.cover", "on")], &at(0));
    let covered = engine.may(gas, &at(1)).unwrap();
    assert!(covered.refused && row(&engine, gas).refused);
    assert_eq!(row(&engine, gas).stands_text, "not now");
    assert!(covered.against.iter().any(|row| row.text.contains("cover")), "{:?}", covered.against);
    assert_eq!(covered.answer, "Not now.");
    let facts = [("boiler.cover", "off"), ("boiler.drain", "shut"), ("boiler.water", "full")];
    tell(&mut engine, &facts, &at(1));
    tell(&mut engine, &[("gas_left.valve", "open"), ("pitch.flame", "allowed")], &at(1));
    let free = engine.may(gas, &at(1)).unwrap();
    assert_eq!((free.refused, free.against.as_slice()), (false, [].as_slice()));
    assert_eq!((free.first.as_slice(), &free.routine), ([].as_slice(), &None));
    assert!(!row(&engine, gas).refused && row(&engine, gas).stands_text.is_empty());
    assert!(!free.step.cautions.is_empty(), "gas is lit: its cautions are said with the answer");
}

#[test]
fn a_move_that_was_made_is_said_to_be_so_already() {
    let mut engine = demo();
    assert!(!row(&engine, "boiler.try_burner").is_so, "nobody has said so");
    tell(&mut engine, &[("pump.power", "off")], &at(0));
    assert_eq!(row(&engine, "pump.switch_off").stands_text, "so already");
    assert!(engine.may("pump.switch_off", &at(1)).unwrap().answer.contains("so already"));
    engine.tick("pump.switch_on", &at(1)).unwrap();
    assert!(!row(&engine, "pump.switch_off").is_so);
}

#[test]
fn every_row_of_every_card_has_the_answer_that_asking_gives() {
    for vehicle in ["a", "b", "c"] {
        let mut engine = Engine::in_memory("en").unwrap();
        engine.add_demo(vehicle, &at(0)).unwrap();
        let (mut refused, mut free) = (0, 0);
        for card in engine.cards().unwrap() {
            for row in engine.card(&card.id, &at(1)).unwrap().steps {
                let page = engine.may(&row.id, &at(1)).unwrap();
                assert_eq!(row.refused, page.refused, "{}", row.id);
                assert_eq!(page.refused, !page.against.is_empty(), "{}", row.id);
                assert!(!row.is_so || row.kind == StepKind::Move, "{}", row.id);
                *(if row.refused { &mut refused } else { &mut free }) += 1;
            }
        }
        assert!(refused > 5 && free > 5, "{vehicle}: {refused} and {free}");
    }
}

#[test]
fn what_stands_in_no_plan_can_be_asked_too() {
    let engine = demo();
    let planned = engine.preview("ready_to_drive", &at(1)).unwrap().steps;
    let steps = engine.steps().unwrap();
    let other = steps.iter().filter(|row| planned.iter().all(|step| step.id != row.id));
    let answers: Vec<_> = other.map(|row| engine.may(&row.id, &at(1)).unwrap().answer).collect();
    assert!(answers.len() > 50 && answers.iter().all(|answer| !answer.is_empty()));
    assert!(engine.may("boiler.fly", &at(1)).is_err());
}

/// Whoever is refused is told what to do first, and then may.
#[test]
fn what_speaks_against_a_move_comes_with_the_steps_that_remove_it() {
    let mut engine = demo();
    let page = engine.may("lead.unplug", &at(1)).unwrap();
    let removed: Vec<_> = page.against.iter().map(|row| row.removed_text.as_deref()).collect();
    let [Some(post), Some(switch)] = removed.as_slice() else { panic!("{removed:?}") };
    assert!(post.contains("Switch off at the post"), "{post}");
    assert!(switch.contains("main switch by the door off"), "{switch}");
    for step in &page.first {
        let before = engine.may(&step.id, &at(1)).unwrap();
        assert!(!before.refused, "{}: {:?}", step.id, before.against);
        engine.tick(&step.id, &at(1)).unwrap();
    }
    assert!(!engine.may("lead.unplug", &at(1)).unwrap().refused);
}

#[test]
fn what_only_time_removes_says_how_long_to_wait() {
    let engine = demo();
    let page = engine.may("boiler.open_drain", &at(1)).unwrap();
    let hot = page.against.iter().find(|row| row.text.contains("scalds")).unwrap();
    let wait = hot.removed_text.as_deref().unwrap();
    assert!(wait.contains("60 min"), "{wait}");
    assert!(page.first.iter().any(|row| row.kind == StepKind::Wait && wait.contains(&row.text)));
}

#[test]
fn what_no_step_changes_is_only_told_and_what_a_routine_makes_ready_for_names_it() {
    let engine = demo();
    let page = engine.may("engine.drive_off", &at(1)).unwrap();
    assert_eq!(page.routine.map(|link| link.id), Some("ready_to_drive".to_owned()));
    assert_eq!(page.first, []);
}

/// Of every move of every vehicle: the steps that are named can be made in their order, and an
/// objection that is said to be removed no longer stands.
#[test]
fn the_steps_before_any_move_remove_what_they_say_they_do() {
    for vehicle in ["a", "b", "c"] {
        let mut engine = Engine::in_memory("en").unwrap();
        engine.add_demo(vehicle, &at(0)).unwrap();
        let (mut ways, mut left) = (0, 0);
        for row in engine.steps().unwrap() {
            let page = engine.may(&row.id, &at(1)).unwrap();
            if page.first.is_empty() || page.first.iter().any(|step| step.kind == StepKind::Wait) {
                left += usize::from(page.refused && page.routine.is_none());
                continue;
            }
            let mut tried = Engine::in_memory("en").unwrap();
            tried.add_demo(vehicle, &at(0)).unwrap();
            // A look is told in a routine only.
            tried.open_run("ready_to_drive", &at(1)).unwrap();
            for step in &page.first {
                let now = tried.may(&step.id, &at(1)).unwrap();
                assert!(!now.refused, "{}: {} {:?}", row.id, step.id, now.against);
                tried.tick(&step.id, &at(1)).unwrap();
            }
            let after = tried.may(&row.id, &at(1)).unwrap().against;
            let still = |text: &String| after.iter().any(|row| row.text == *text);
            let by_step = |text: &String| text.starts_with("This removes it: ");
            let removed = page.against.iter().filter(|row| row.removed_text.iter().any(by_step));
            removed.for_each(|one| assert!(!still(&one.text), "{}: {}", row.id, one.text));
            ways += 1;
        }
        assert!(ways > 2 && left < 2 * ways, "{vehicle}: {ways} ways, {left} without");
    }
}
