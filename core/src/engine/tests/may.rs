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
    assert!(covered.against.concat().contains("cover"), "{:?}", covered.against);
    assert_eq!(covered.answer, "Not now.");
    let facts = [("boiler.cover", "off"), ("boiler.drain", "shut"), ("boiler.water", "full")];
    tell(&mut engine, &facts, &at(1));
    tell(&mut engine, &[("gas_left.valve", "open"), ("pitch.flame", "allowed")], &at(1));
    let free = engine.may(gas, &at(1)).unwrap();
    assert_eq!((free.refused, free.against.as_slice()), (false, [].as_slice()));
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
