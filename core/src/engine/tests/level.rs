//! The level by a phone, from what its sensor feels to the answer and back.

use super::{at, changed};
use crate::engine::{Engine, Level, LevelPage, LevelRest, Mark};
use crate::error::Error;
use crate::reckon::level::Lean;

fn coach() -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("c", &at(0)).unwrap();
    for (figure, value) in [("ramps_count", 2.0), ("ramp_low_mm", 40.0), ("ramp_high_mm", 80.0)] {
        engine.tell_figure(figure, Some(value), &at(0)).unwrap();
    }
    engine
}

/// What a phone feels that lies straight in a vehicle that leans so.
fn felt(pitch_deg: f64, roll_deg: f64) -> [f64; 3] {
    let [ahead, left, over] = Lean { pitch_deg, roll_deg }.up().parts().map(|part| part * 9.81);
    [-left, ahead, over]
}

fn still(level: &mut Level, pitch_deg: f64, roll_deg: f64) -> LevelPage {
    (0..60).map(|_| level.feel(felt(pitch_deg, roll_deg))).last().unwrap()
}

fn look(engine: &Engine, pitch_deg: f64, roll_deg: f64) -> LevelPage {
    still(&mut engine.level(&at(5)).unwrap(), pitch_deg, roll_deg)
}

/// The engine after the phone was set while it lay askew by so much.
fn set(engine: &mut Engine, pitch_deg: f64, roll_deg: f64, minute: i64) {
    let rest = look(engine, pitch_deg, roll_deg).rest;
    engine.set_level(rest, &at(minute)).unwrap();
}

#[test]
fn a_phone_on_its_spot_says_level_enough_and_which_wheels_go_on_which_step() {
    let mut engine = coach();
    set(&mut engine, 0.0, 0.0, 2);
    let level = look(&engine, 0.1, -0.2);
    assert_eq!((level.mark, &*level.verdict_text), (Some(Mark::Fine), "Level enough."));
    assert!(level.cautions.is_empty() && level.wheels.iter().all(|wheel| wheel.detail.is_none()));
    let leans = look(&engine, 1.1, 0.05);
    assert_eq!((leans.mark, leans.cautions.len()), (Some(Mark::Watch), 2));
    assert_eq!(leans.verdict_text, "Drive up: rear left on 80 mm, rear right on 80 mm.");
    let raised: Vec<_> = leans.wheels.iter().map(|wheel| wheel.detail.as_deref()).collect();
    assert_eq!(raised, [None, None, Some("Raise: on 80 mm"), Some("Raise: on 80 mm")]);
    let said = |id: &str| leans.lean.iter().find(|line| line.id == id).unwrap().text.clone();
    assert_eq!((&*said("pitch"), &*said("roll")), ("0.7 to 1.5° up", "up or down by at most 0.5°"));
    assert!(leans.lean.iter().any(|line| line.id == "then"));
    let steep = look(&engine, -6.0, 0.0);
    let fridge = steep.lean.iter().find(|line| line.id == "fridge").unwrap();
    assert_eq!((steep.mark, fridge.mark), (Some(Mark::Wrong), Some(Mark::Wrong)));
    assert_eq!(steep.bubble_ahead, Some(-1.0));
}

#[test]
fn the_question_asked_with_what_was_felt_gives_the_same_answer() {
    let mut engine = coach();
    for is_set in [false, true] {
        if is_set {
            set(&mut engine, 0.0, 0.0, 2);
        }
        let live = look(&engine, 2.4, -1.2);
        let asked = engine.reckon("level", &live.picks, &at(5)).unwrap();
        assert_eq!((live.is_set, asked.mark), (is_set, live.mark));
        let lines: Vec<_> = asked.parts.iter().flat_map(|part| &part.lines).collect();
        for own in live.lean.iter().chain(&live.wheels).filter(|line| line.lower.is_some()) {
            let same = lines.iter().any(|line| line.id == own.id && line.text == own.text);
            assert!(same, "{own:?} is not in {lines:?}");
        }
        assert_eq!(asked.live_text.as_deref(), Some("Use this phone"));
    }
}

#[test]
fn a_phone_that_was_not_set_says_so_and_claims_less() {
    let page = look(&coach(), 0.0, 0.0);
    assert_eq!((page.mark, &*page.verdict_text), (Some(Mark::Watch), "It may stand level."));
    assert!(!page.is_set && page.set_text.contains("1°"), "{}", page.set_text);
    assert!(page.wheels.iter().all(|wheel| wheel.detail.is_none()), "nothing is driven up for it");
}

#[test]
fn how_the_phone_lies_is_kept_undone_and_forgotten() {
    let mut engine = coach();
    set(&mut engine, 4.0, -3.0, 2);
    let page = look(&engine, 4.0, -3.0);
    assert!(page.is_set && page.set_text.contains("3 min ago"), "{}", page.set_text);
    assert_eq!(page.verdict_text, "Level enough.");
    let carried = engine.export_text().unwrap();
    set(&mut engine, 0.0, 0.0, 3);
    assert_eq!(look(&engine, 0.0, 0.0).mark, Some(Mark::Fine));
    let last: Vec<_> = engine.log(2).unwrap().iter().map(|row| row.entry).collect();
    assert!(engine.log(1).unwrap()[0].text.contains("Phone set as level"));
    engine.unmark(last[0], &at(4)).unwrap();
    assert!(!look(&engine, 0.0, 0.0).is_set, "no half of one with half of another");
    engine.unmark(last[1], &at(4)).unwrap();
    assert_eq!(look(&engine, 4.0, -3.0).verdict_text, "Level enough.");
    engine.set_level(None, &at(4)).unwrap();
    assert!(!look(&engine, 4.0, -3.0).is_set);
    assert!(engine.figures(&at(5)).unwrap().iter().all(|row| !row.id.starts_with("phone_")));

    let mut other = Engine::in_memory("en").unwrap();
    other.import(carried.as_bytes(), "kept.json", &at(6)).unwrap();
    assert!(look(&other, 4.0, -3.0).is_set);

    assert!(carried.contains("86000"), "4° nose up, as it is kept");
    let odd = carried.replace("86000", "100");
    let mut third = Engine::in_memory("en").unwrap();
    third.import(odd.as_bytes(), "kept.json", &at(6)).unwrap();
    assert!(!look(&third, 0.0, 0.0).is_set, "no phone lies so");
}

#[test]
fn what_cannot_be_level_is_not_set() {
    let mut engine = coach();
    for ahead_deg in [20.0, 110.0, f64::NAN] {
        let refused = engine.set_level(Some(LevelRest { ahead_deg, left_deg: 90.0 }), &at(2));
        assert!(matches!(refused, Err(Error::InvalidInput { .. })), "{refused:?}");
    }
    assert_eq!(engine.log(1).unwrap().len(), 1);
    assert!(!look(&engine, 0.0, 0.0).is_set);
    let none = Engine::in_memory("en").unwrap();
    assert!(matches!(none.level(&at(0)), Err(Error::Conflict { .. })));
}

#[test]
fn a_phone_in_the_hand_is_told_what_to_do_and_offers_nothing() {
    let mut level = coach().level(&at(1)).unwrap();
    let still = still(&mut level, 1.0, 0.0);
    assert_eq!((still.picks.len(), still.rest.is_some()), (3, true));
    for (felt, said) in
        [([3.0, 0.0, 9.8], "Hold still."), ([f64::NAN, 0.0, 9.8], "The sensor gives no number.")]
    {
        let page = level.feel(felt);
        assert_eq!((page.mark, &*page.verdict_text), (None, said));
        assert!(page.rest.is_none() && page.picks.is_empty());
        assert_eq!(page.wheels, still.wheels, "it stays as it last lay still");
    }
    for (felt, said) in
        [([0.0, 0.1, -9.8], "Turn the screen up."), ([0.0, 9.8, 0.1], "Lay the phone flat.")]
    {
        let page = coach().level(&at(1)).unwrap().feel(felt);
        assert_eq!((&*page.verdict_text, page.bubble_ahead), (said, None));
    }
}

#[test]
fn without_measures_or_ramps_it_says_what_is_missing() {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("c", &at(0)).unwrap();
    assert!(
        look(&engine, 3.0, 0.0).missing.iter().any(|line| line.contains("steps of your ramps"))
    );
    let low = "Low at the rear. Low wheels: rear left, rear right. Raise it there, or turn round.";
    assert_eq!(look(&engine, 3.0, 0.0).verdict_text, low);
    let bare = changed("wheelbase_m", "# wheelbase_m");
    let page = look(&bare, 3.0, 0.0);
    assert!(page.missing.iter().any(|line| line.contains("wheelbase")) && page.wheels.is_empty());
    assert!(!page.lean.is_empty());
    assert_eq!(page.verdict_text, "Low at the rear. Raise it there, or turn round.");
    let page = look(&bare, -3.0, 3.0);
    assert!(page.verdict_text.contains("Low at the front and the right."), "{page:?}");
}
