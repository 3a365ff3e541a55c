//! What lies ahead of the fridge, in words.

use super::{at, changed, demo, tell};
use crate::engine::{Engine, FridgeAheadRow};

fn ahead(engine: &Engine, id: &str) -> FridgeAheadRow {
    let page = engine.fridge(&at(10)).unwrap().unwrap();
    page.ahead.into_iter().find(|row| row.id == id).unwrap()
}

fn with_values(values: &str) -> Engine {
    let mut engine = changed(
        "values = { gas_delay_min = 20, dc_w = 4, dc_heat_w = 135 }",
        &format!("values = {{ {values} }}"),
    );
    tell(&mut engine, &[("fridge.selector", "auto")], &at(0));
    engine
}

#[test]
fn the_hours_to_cool_it_down_are_the_packs_and_a_default_says_so() {
    let default = ahead(&demo(), "chill");
    assert_eq!(
        default.lines[0],
        "Switch it on at least 12 hours before you load it. Usual value: check your manual."
    );
    let mut engine = with_values("chill_h = 8");
    tell(&mut engine, &[("gas_left.valve", "open"), ("lead.post_end", "out")], &at(0));
    let told = ahead(&engine, "chill");
    assert_eq!(told.lines[0], "Switch it on at least 8 hours before you load it.");
    assert_eq!(told.ready_utc_ms, Some(at(10 + 8 * 60).utc_ms));
}

#[test]
fn where_nothing_cools_it_no_hour_is_promised() {
    let mut engine = with_values("chill_h = 8");
    let shut = [("gas_left.valve", "shut"), ("gas_right.valve", "shut"), ("lead.post_end", "out")];
    tell(&mut engine, &shut, &at(0));
    let row = ahead(&engine, "chill");
    assert_eq!(row.ready_utc_ms, None);
    assert!(row.lines[1].starts_with("Nothing here cools it down."), "{:?}", row.lines);
}

#[test]
fn how_long_it_stays_cold_on_a_ferry_is_told_only_where_the_pack_says_so() {
    let unknown = ahead(&with_values("gas_delay_min = 20"), "ferry").lines.join(" ");
    assert!(unknown.contains("is not in the pack"), "{unknown}");
    for hours in [3, 9] {
        let told = ahead(&with_values(&format!("stays_cold_h = {hours}")), "ferry").lines.join(" ");
        assert!(told.contains(&format!("stays cold for about {hours} hours.")), "{told}");
        assert!(!told.contains("not in the pack"), "{told}");
    }
}

#[test]
fn a_manual_fridge_is_told_of_no_minutes_at_the_pump() {
    let mut engine = changed(
        "values = { gas_delay_min = 20, dc_w = 4, dc_heat_w = 135 }",
        "values = { gas_delay_min = 20, dc_w = 4, dc_heat_w = 135 }\nwithout = { selector = [\"auto\"] }",
    );
    tell(&mut engine, &[("fridge.selector", "gas"), ("gas_left.valve", "open")], &at(0));
    let fuel = ahead(&engine, "fuel").lines.join(" ");
    assert!(fuel.contains("Left on gas, it burns or sparks there."), "{fuel}");
    assert!(fuel.contains("Switch it off before you drive in."), "{fuel}");
    assert!(!fuel.contains("min") && !fuel.contains("automatic"), "{fuel}");
}

#[test]
fn each_stop_leads_to_the_routine_that_sees_to_the_rest() {
    let engine = demo();
    for (id, target) in [("fuel", "ready_to_refuel"), ("ferry", "ready_to_board")] {
        assert_eq!(ahead(&engine, id).target_id.as_deref(), Some(target));
        assert!(engine.targets().unwrap().iter().any(|row| row.id == target));
    }
}

#[test]
fn where_nobody_knows_what_it_is_set_to_it_says_what_to_set() {
    let mut engine = changed("gas_delay_min = 20", "gas_delay_min = 20");
    let facts = [
        ("lead.post_end", "out"),
        ("gas_left.valve", "open"),
        ("engine.running", "off"),
        ("pitch.flame", "allowed"),
    ];
    tell(&mut engine, &facts, &at(0));
    let page = engine.fridge(&at(1)).unwrap().unwrap();
    assert_eq!(page.by_hand.as_deref(), Some("Set it to automatic."), "{page:?}");
    assert!(page.ahead.is_empty());
}

fn for_departure(engine: &Engine, minutes: i64) -> FridgeAheadRow {
    let page = engine.fridge_for(at(10 + minutes).utc_ms, &at(10)).unwrap().unwrap();
    page.ahead.into_iter().find(|row| row.id == "chill").unwrap()
}

fn on_gas() -> Engine {
    let mut engine = with_values("chill_h = 8");
    let facts = [("gas_left.valve", "open"), ("lead.post_end", "out"), ("fridge.selector", "off")];
    tell(&mut engine, &facts, &at(0));
    engine
}

#[test]
fn what_runs_already_is_left_on_and_nothing_is_said_of_when_to_begin() {
    let mut engine = on_gas();
    let facts = [("fridge.selector", "gas"), ("pitch.flame", "allowed"), ("engine.running", "off")];
    tell(&mut engine, &facts, &at(0));
    let text = |minutes: i64| {
        let leave = for_departure(&engine, minutes).leave.unwrap();
        assert_eq!(leave.start_utc_ms, None);
        leave.start_text.unwrap()
    };
    assert_eq!(text(20 * 60), "It runs on that already: leave it on.");
    assert!(text(60).contains("From warm it would take 7 h longer"), "{}", text(60));
}

#[test]
fn a_departure_says_by_when_to_switch_it_on_and_on_what() {
    let row = for_departure(&on_gas(), 20 * 60);
    assert!(row.lines[1].starts_with("Gas can feed it here: cool it down"), "{:?}", row.lines);
    let leave = row.leave.unwrap();
    assert_eq!(leave.chosen_utc_ms, Some(at(10 + 20 * 60).utc_ms));
    assert_eq!(leave.start_utc_ms, Some(at(10 + 12 * 60).utc_ms));
    assert_eq!(row.ready_utc_ms, leave.chosen_utc_ms, "cold when they leave");
    assert!(leave.start_text.unwrap().starts_with("As things stand here now."));
    assert_eq!(leave.earlier_utc_ms, Some(at(10 + 19 * 60).utc_ms));
    assert_eq!(leave.later_utc_ms, Some(at(10 + 21 * 60).utc_ms));
}

#[test]
fn who_leaves_too_soon_is_told_to_begin_now_and_what_is_missing() {
    let row = for_departure(&on_gas(), 5 * 60 + 30);
    let leave = row.leave.unwrap();
    assert_eq!(leave.start_utc_ms, None, "it should have begun before: no time is named");
    let text = leave.start_text.unwrap();
    assert!(text.starts_with("Begin now."), "{text}");
    assert!(text.contains("takes 2 h 30 min longer than you have"), "{text}");
    assert_eq!(row.ready_utc_ms, Some(at(10 + 8 * 60).utc_ms));
    let soon = for_departure(&on_gas(), 40).leave.unwrap();
    assert_eq!(soon.earlier_utc_ms, None, "an hour before that is over");
}

#[test]
fn where_nothing_cools_it_no_start_is_named_for_a_departure() {
    let mut engine = on_gas();
    tell(&mut engine, &[("gas_left.valve", "shut"), ("gas_right.valve", "shut")], &at(0));
    let row = for_departure(&engine, 20 * 60);
    let leave = row.leave.unwrap();
    assert_eq!((leave.start_utc_ms, leave.start_text, row.ready_utc_ms), (None, None, None));
    assert!(leave.chosen_utc_ms.is_some());
    assert!(engine.fridge_for(at(10).utc_ms, &at(10)).is_err(), "over");
}

#[test]
fn departures_are_offered_at_full_hours_that_are_still_to_come() {
    let leave = ahead(&on_gas(), "chill").leave.unwrap();
    assert_eq!((leave.chosen_utc_ms, leave.start_utc_ms), (None, None));
    assert!(leave.choices_utc_ms.is_sorted() && leave.choices_utc_ms.len() > 4);
    for choice in leave.choices_utc_ms {
        assert!(choice > at(10).utc_ms && choice % 3_600_000 == 0);
        assert!(on_gas().fridge_for(choice, &at(10)).is_ok());
    }
}

/// By hand it stays where it was set: mains that is there comes first of nothing.
#[test]
fn what_was_set_by_hand_has_no_reason_of_the_automatic() {
    let mut engine = demo();
    tell(&mut engine, &[("fridge.selector", "gas")], &at(0));
    let why = engine.fridge(&at(10)).unwrap().unwrap().why;
    assert!(why.contains(&"Mains reaches the vehicle.".to_owned()), "{why:?}");
    assert!(why.iter().all(|one| !one.contains("comes first")), "{why:?}");
    tell(&mut engine, &[("fridge.selector", "auto")], &at(11));
    let why = engine.fridge(&at(12)).unwrap().unwrap().why;
    assert!(why[0].ends_with("mains comes first."), "{why:?}");
}

/// Whoever waits for gas at a pump is told before it lights by itself.
#[test]
fn before_gas_lights_by_itself_the_page_says_to_switch_it_off() {
    let mut engine = demo();
    tell(&mut engine, &[("fridge.selector", "auto"), ("lead.post_end", "out")], &at(0));
    tell(&mut engine, &[("gas_left.valve", "open"), ("engine.running", "on")], &at(0));
    tell(&mut engine, &[("engine.running", "off")], &at(5));
    let page = engine.fridge(&at(6)).unwrap().unwrap();
    assert!(page.next_text.is_some_and(|next| next.starts_with("Then gas")));
    assert!(page.cautions[0].starts_with("It lights gas by itself then."), "{:?}", page.cautions);
}
