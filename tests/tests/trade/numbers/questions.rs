//! What questions of numbers are answered where a number is in the pack.

use stowfast_core::engine::{Engine, Pick};

use super::{at, engine, fitted};
use crate::bench::pack_of;

/// A frosty evening.
const EVENING: [(&str, &str); 3] = [("low", "-6"), ("outside", "3"), ("sunrise_h", "12")];

/// What is said of the pitch's supply where a number of a kind is in the pack.
pub(super) fn supply(kind: &str, value: &str, number: &str) -> String {
    let other = match value {
        "length_m" => "section_mm2 = 2.5, ",
        "section_mm2" => "length_m = 25, ",
        "low_w" => "two_powers = true, ",
        _ => "",
    };
    let own = format!("values = {{ {other}{value} = {number} }}");
    let mut fitted = fitted(kind, &own);
    if !fitted.iter().any(|(fitted, _)| *fitted == "mains_lead") {
        fitted.push(("mains_lead", ""));
    }
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_pack(&pack_of(&fitted), "made up", &at(0)).unwrap();
    engine.tell_figure("kettle_w", Some(900.0), &at(0)).unwrap();
    let post = Pick { choice: "post".to_owned(), value: "a10".to_owned() };
    format!("{:?}", engine.reckon("supply", &[post], &at(0)).unwrap().parts)
}

/// What a question is answered, with full tanks and their heaters on.
pub(super) fn answer(kind: &str, values: &str, question: &str) -> String {
    let mut engine = engine(kind, values);
    _ = engine.report(&format!("{kind}.level"), "full", &at(0));
    let pick =
        |(choice, value): (&str, &str)| Pick { choice: choice.to_owned(), value: value.to_owned() };
    let frost = EVENING.into_iter().map(pick);
    let heater = values.contains("heater_w").then(|| pick(("tank_heater", "on")));
    let picks: Vec<_> = frost.chain(heater).filter(|_| question == "frost").collect();
    format!("{:?}", engine.reckon(question, &picks, &at(1)).unwrap().parts)
}

/// What is said of the battery ahead, with everything told that is asked for.
pub(super) fn power(kind: &str, value: &str, number: &str) -> String {
    let battery = match (kind, value) {
        ("leisure_battery", "capacity_ah") => format!("{value} = {number}"),
        ("leisure_battery", _) => format!("capacity_ah = 100, {value} = {number}"),
        _ => "capacity_ah = 100".to_owned(),
    };
    let battery = format!("values = {{ {battery} }}");
    let own = format!("values = {{ {value} = {number} }}");
    let mut fitted: Vec<(&str, &str)> = fitted(kind, &own);
    fitted.retain(|(fitted, _)| *fitted != "leisure_battery");
    fitted.push(("leisure_battery", &battery));
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_pack(&pack_of(&fitted), "made up", &at(0)).unwrap();
    for figure in engine.figures(&at(0)).unwrap() {
        engine.tell_figure(&figure.id, Some(figure.value_max.min(20.0)), &at(0)).unwrap();
    }
    let sun = [("latitude", "50"), ("sky", "broken")].into_iter();
    let sun = sun.filter(|_| kind == "solar_regulator");
    let picks = [("charge", "90"), ("cells", "cool")].into_iter().chain(sun);
    let pick = |(choice, value): (&str, &str)| Pick { choice: choice.into(), value: value.into() };
    let picks: Vec<_> = picks.map(pick).collect();
    format!("{:?}", engine.reckon("power", &picks, &at(0)).unwrap().parts)
}
