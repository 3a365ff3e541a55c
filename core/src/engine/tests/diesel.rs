//! Reserves whose use people tell in power and hours: diesel and gas that burn, what draws on the battery.
//! And what the road alone uses: urea.

use super::{at, tell};
use crate::engine::{Engine, GaugeUnit, ReserveRow};

const DAY: i64 = 24 * 60;

fn demo(id: &str) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo(id, &at(0)).unwrap();
    engine
}

fn told(engine: &mut Engine, figures: &[(&str, f64)]) {
    for (figure, value) in figures {
        engine.tell_figure(figure, Some(*value), &at(0)).unwrap();
    }
}

fn read(engine: &mut Engine, gauge: &str, percent: f64, at_min: i64) {
    engine.enter_reading(gauge, GaugeUnit::Percent, percent, &at(at_min)).unwrap();
}

fn row(engine: &Engine, id: &str, at_min: i64) -> ReserveRow {
    engine.reserves(&at(at_min)).unwrap().rows.into_iter().find(|row| row.id == id).unwrap()
}

const HEAT: [(&str, f64); 2] =
    [("heating_diesel_l_an_hour", 0.2), ("heating_diesel_h_a_night", 10.0)];

/// By hand: half of 70 L, a tenth of the tank either way, are 28 to 42 L; the heater draws down to a fifth,
/// 14 L, so 14 to 28 L are left. Ten hours at 0.18 to 0.22 L are 1.8 to 2.2 L a day.
#[test]
fn diesel_lasts_until_the_heater_gets_none() {
    let mut engine = demo("b");
    told(&mut engine, &HEAT);
    read(&mut engine, "diesel", 50.0, 1);
    let row = row(&engine, "diesel", 1);
    assert_eq!(row.title, "Diesel in the tank");
    assert_eq!(row.between_text.as_deref(), Some("between 28 and 42 litres"));
    assert_eq!((row.used_lower_per_day, row.used_upper_per_day), (Some(1_800), Some(2_200)));
    // 14 / 2.2 days are 152.7 hours, 28 / 1.8 are 373.3.
    assert_eq!((row.left_lower_h, row.left_upper_h), (Some(152), Some(374)));
    assert_eq!(row.end_text, "too low for the diesel heater");
    let stay = engine.stay(3, &at(1)).unwrap();
    assert!(stay.rows.iter().any(|row| row.id == "diesel" && row.holds.is_some()));
    let first = engine.reckon("first", &[], &at(1)).unwrap();
    assert!(first.parts.iter().flat_map(|part| &part.lines).any(|line| line.id == "diesel"));
}

#[test]
fn a_day_later_less_is_left_and_after_a_drive_nothing_is_told() {
    let mut engine = demo("b");
    told(&mut engine, &HEAT);
    read(&mut engine, "diesel", 50.0, 1);
    let left = |at_min| row(&engine, "diesel", at_min).left_lower_h;
    assert_eq!(left(1 + DAY), Some(128));
    tell(&mut engine, &[("engine.wheels", "moving")], &at(DAY + 2));
    let row = row(&engine, "diesel", DAY + 3);
    assert_eq!(row.left_text, None);
    assert_eq!(row.missing, ["It was driven since it was read. Read it again."]);
}

/// What was read before a drive and after it is no use of a day's heat.
#[test]
fn a_drive_between_two_readings_is_no_use_of_a_day() {
    let mut engine = demo("b");
    told(&mut engine, &HEAT);
    read(&mut engine, "diesel", 80.0, 1);
    tell(&mut engine, &[("engine.wheels", "moving")], &at(60));
    tell(&mut engine, &[("engine.wheels", "still")], &at(120));
    read(&mut engine, "diesel", 40.0, DAY + 60);
    let used = row(&engine, "diesel", DAY + 60).used_upper_per_day;
    assert_eq!(used, Some(2_200), "what was told, not what the road took");
}

/// The heater draws down to a fifth: half is enough, a twentieth is not, and a fifth says nothing.
#[test]
fn the_gauge_tells_whether_the_heater_has_enough() {
    for (percent, known) in [(50.0, Some("enough")), (5.0, Some("below")), (20.0, None)] {
        let mut engine = demo("b");
        read(&mut engine, "diesel", percent, 1);
        let loaded = engine.at(&at(1)).unwrap();
        let number = loaded.vehicle.variable("heater.fuel").unwrap();
        let belief = loaded.state.belief(number).unwrap();
        let read = belief.known.as_ref().is_some_and(|known| known.at == at(1));
        let variable = loaded.vehicle.variables.get(number).unwrap();
        assert_eq!(read, known.is_some(), "{percent}");
        let names = variable.names_of(belief.settings);
        assert!(known.is_none_or(|known| names == [known]), "{percent}: {names:?}");
    }
}

/// A floor that the pack does not give is no fact.
#[test]
fn without_the_floor_of_the_heater_no_end_is_told() {
    let mut engine = demo("c");
    told(&mut engine, &HEAT);
    read(&mut engine, "diesel", 50.0, 1);
    let row = row(&engine, "diesel", 1);
    assert_eq!((row.left_text.as_deref(), row.between_text.is_some()), (None, true));
    assert!(row.missing[0].starts_with("Not in the pack: below which level"), "{:?}", row.missing);
}

#[test]
fn urea_is_read_for_the_road_and_never_ends_a_stay() {
    let mut engine = demo("c");
    told(&mut engine, &[("fuel_l_100km", 11.0)]);
    read(&mut engine, "urea", 50.0, 1);
    let page = engine.reckon("urea", &[], &at(1)).unwrap();
    assert!(page.parts.iter().flat_map(|part| &part.lines).any(|line| line.id == "reaches"));
    assert!(page.gauges.iter().any(|gauge| gauge.id == "urea"));
    assert_eq!(row(&engine, "urea", 1).missing, ["Only the road uses it: see how far it goes."]);
    assert!(engine.stay(3, &at(1)).unwrap().rows.iter().all(|row| row.id != "urea"));
}

/// By hand: 3 kW for 6 hours are 18 kWh, at 12.7 to 12.9 kWh a kilogram about 1.4 kg.
#[test]
fn gas_lasts_by_what_was_told_of_all_that_burns_it() {
    let mut engine = demo("a");
    let gas = |row: &ReserveRow| row.id.starts_with("gas");
    let burners: Vec<_> = engine.figures(&at(0)).unwrap();
    let burners = burners.into_iter().map(|one| one.id);
    let burners: Vec<_> = burners.filter(|id| id.contains("_gas_")).collect();
    for id in &burners {
        let value = if id.ends_with("_kw") {
            3.0
        } else if id.ends_with("_g") {
            10.0
        } else {
            1.0
        };
        let some = engine.reserves(&at(1)).unwrap().rows.into_iter().find(gas).unwrap();
        assert_eq!(some.used_text, None, "before {id} is told");
        engine.tell_figure(id, Some(value), &at(0)).unwrap();
    }
    let some = engine.reserves(&at(1)).unwrap().rows.into_iter().find(gas).unwrap();
    assert!(some.used_text.is_some() && burners.len() > 2, "{burners:?} {some:?}");
}

/// The sun may bring all that is drawn: then only the least time can be told.
#[test]
fn a_battery_lasts_at_least_as_long_as_what_draws_on_it_was_told_to() {
    let mut engine = demo("b");
    let asks = engine.reckon("power", &[], &at(0)).unwrap().asks;
    for ask in &asks {
        let step = |value: f64| (value / ask.value_step).round() * ask.value_step;
        let value = if ask.id.ends_with("_w") { step(10.0) } else { ask.value_min.max(step(1.0)) };
        engine.tell_figure(&ask.id, Some(value), &at(0)).unwrap();
    }
    let row = row(&engine, "battery", 1);
    assert_eq!(row.used_lower_per_day, Some(0), "{row:?}");
    assert!(row.used_upper_per_day.is_some_and(|most| most > 0), "{row:?}");
}
