//! What was read days ago, in the questions that rest on it.

use super::{at, changed};
use crate::engine::{Engine, GaugeUnit, Mark, Pick, Reckoning, ReckoningLine};

const DAY: i64 = 24 * 60;

fn demo(id: &str) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo(id, &at(0)).unwrap();
    engine
}

fn ask(engine: &Engine, question: &str, picks: &[(&str, &str)], minute: i64) -> Reckoning {
    let pick =
        |(choice, value): &(&str, &str)| Pick { choice: (*choice).into(), value: (*value).into() };
    let picks: Vec<_> = picks.iter().map(pick).collect();
    engine.reckon(question, &picks, &at(minute)).unwrap()
}

fn lines<'p>(page: &'p Reckoning, id: &'p str) -> impl Iterator<Item = &'p ReckoningLine> {
    page.parts.iter().flat_map(|part| &part.lines).filter(move |line| line.id == id)
}

#[track_caller]
fn band(page: &Reckoning, id: &str) -> (f64, f64) {
    let band = lines(page, id).next().and_then(|line| line.lower.zip(line.upper));
    band.unwrap_or_else(|| panic!("no {id}: {page:?}"))
}

#[track_caller]
fn near((least, most): (f64, f64), lower: f64, upper: f64) {
    let off = (least - lower).abs().max((most - upper).abs());
    assert!(off < 1e-6, "{least} to {most}, not {lower} to {upper}");
}

/// Both cylinders of (a) with 8 kg in them, give or take half a kilogram, read at minute 1.
fn weighed() -> Engine {
    let mut engine = demo("a");
    for (variable, setting) in
        [("engine.wheels", "still"), ("gas_left.valve", "open"), ("gas_right.valve", "open")]
    {
        engine.report(variable, setting, &at(0)).unwrap();
    }
    for (id, kg) in [("gas_left", 20.4), ("gas_right", 19.9)] {
        engine.enter_reading(id, GaugeUnit::Kilograms, kg, &at(1)).unwrap();
    }
    engine
}

/// A fridge at 10 g an hour and half an hour of 4 kW in a day: 0.395 to 0.399 kg.
fn burns(engine: &mut Engine) -> (f64, f64) {
    for (figure, value) in
        [("boiler_gas_kw", 4.0), ("boiler_gas_h_a_day", 0.5), ("fridge_gas_a_h_g", 10.0)]
    {
        engine.tell_figure(figure, Some(value), &at(1)).unwrap();
    }
    (0.24 + 2.0 / 12.89, 0.24 + 2.0 / 12.58)
}

const PROPANE: [(&str, &str); 2] = [("mix", "propane"), ("low", "-5")];
const MIXED: [(&str, &str); 2] = [("mix", "mix60"), ("low", "-5")];

/// By hand: ten days take up to 3.99 kg of one cylinder or the other, so of 15 kg together 11 are left at
/// the least; of each 3.5. That anything was used nobody said, so the most stays.
#[test]
fn what_a_day_uses_is_taken_off_an_old_reading_once() {
    let mut engine = weighed();
    let (least, most) = burns(&mut engine);
    let now = ask(&engine, "gas", &PROPANE, 1);
    near(band(&now, "left"), 7.5, 8.5);
    near(band(&now, "days"), 15.0 / most, 17.0 / least);
    let later = ask(&engine, "gas", &PROPANE, 1 + 10 * DAY);
    for line in lines(&later, "left") {
        near((line.lower.unwrap(), line.upper.unwrap()), 7.5 - 10.0 * most, 8.5);
        let rests = line.detail.as_deref().unwrap_or_default();
        assert_eq!(rests, "Last said 10 days ago, less what a day uses.");
    }
    near(band(&later, "days"), 15.0 / most - 10.0, 17.0 / least);
    // It never comes to less than nothing.
    let year = ask(&engine, "gas", &PROPANE, 1 + 365 * DAY);
    near(band(&year, "left"), 0.0, 8.5);
    near(band(&year, "days"), 0.0, 17.0 / least);
}

/// Where nothing tells the use, an open cylinder may by now be as empty as is believed, and it is said.
#[test]
fn without_what_is_used_an_old_reading_may_be_much_less() {
    let engine = weighed();
    let now = ask(&engine, "gas", &PROPANE, 1);
    let line = lines(&now, "left").next().unwrap();
    near((line.lower.unwrap(), line.upper.unwrap()), 7.5, 8.5);
    assert_eq!(line.detail, None);
    let later = ask(&engine, "gas", &PROPANE, 1 + 10 * DAY);
    let line = lines(&later, "left").next().unwrap();
    near((line.lower.unwrap(), line.upper.unwrap()), 0.0, 8.5);
    assert!(line.detail.as_deref().unwrap().contains("so it may be much less"), "{line:?}");
    assert_eq!(lines(&later, "days").count(), 0);
}

/// What is told of one burner alone says how long it lasts at the most.
#[test]
fn a_use_that_was_told_in_part_gives_only_the_most() {
    let mut engine = weighed();
    engine.tell_figure("fridge_gas_a_h_g", Some(10.0), &at(1)).unwrap();
    let page = ask(&engine, "gas", &PROPANE, 1);
    let days = lines(&page, "days").next().unwrap();
    assert_eq!((days.lower, days.mark, &*days.text), (None, Some(Mark::Watch), "at most 60 days"));
    assert!(page.missing.iter().any(|line| line.contains("the gas may last less")));
    let later = ask(&engine, "gas", &PROPANE, 1 + 10 * DAY);
    near(band(&later, "left"), 0.0, 8.5);
}

/// What stays in a mixed cylinder is taken off, at the most of one drawn in the same cold: 0.25 of a full one.
#[test]
fn what_the_cold_keeps_in_does_not_last() {
    let mut engine = weighed();
    burns(&mut engine);
    let [all, cold, colder] = ["30", "-5", "-15"].map(|low| {
        let page = ask(&engine, "gas", &[("mix", "mix60"), ("low", low)], 1);
        band(&page, "days")
    });
    let propane = band(&ask(&engine, "gas", &PROPANE, 1), "days");
    near(all, propane.0, propane.1);
    assert!(cold.0 < all.0 && cold.1 < all.1 && colder.0 < cold.0 && colder.1 < cold.1);
    let page = ask(&engine, "gas", &MIXED, 1);
    let detail = lines(&page, "left").next().unwrap().detail.clone().unwrap();
    assert!(detail.starts_with("Of that") && detail.contains("stay in it"), "{detail}");
}

/// A part full cylinder of a mixture presses less and gives less than a full one, and of one nearly empty
/// nothing may come.
#[test]
fn a_mixture_flows_worse_as_it_empties() {
    let mut engine = weighed();
    let full = ask(&demo("a"), "gas", &MIXED, 1);
    let part = ask(&engine, "gas", &MIXED, 1);
    for id in ["pressure", "steady", "burst"] {
        let (part, full) = (band(&part, id), band(&full, id));
        assert!(part.0 < full.0 && part.1 < full.1, "{id}: {part:?} {full:?}");
    }
    assert!(lines(&full, "pressure").next().unwrap().detail.as_deref().unwrap().contains("falls"));
    for (id, kg) in [("gas_left", 13.0), ("gas_right", 12.5)] {
        engine.enter_reading(id, GaugeUnit::Kilograms, kg, &at(2)).unwrap();
    }
    let page = ask(&engine, "gas", &MIXED, 2);
    assert_eq!(page.mark, Some(Mark::Wrong), "{}", page.verdict_text);
    assert!(page.verdict_text.contains("too rich in butane"), "{}", page.verdict_text);
    let propane = ask(&engine, "gas", &PROPANE, 2);
    assert_eq!(propane.mark, Some(Mark::Fine), "propane flows to the last");
}

/// A cylinder that shows nothing and is not weighed: full, five days ago, less what five days use.
#[test]
fn by_time_a_cylinder_that_was_full_has_what_was_not_used() {
    let mut engine = changed(
        ", gauge_shows = \"weight\", tare_kg = 12.4, contents_kg = 11",
        ", contents_kg = 11",
    );
    engine.enter_reading("gas_left", GaugeUnit::Words, 3.0, &at(1)).unwrap();
    let (_, most) = burns(&mut engine);
    let page = ask(&engine, "gas", &PROPANE, 1 + 5 * DAY);
    let line = lines(&page, "left").next().unwrap();
    near((line.lower.unwrap(), line.upper.unwrap()), 0.9 * 11.0 - 5.0 * most, 11.0);
    assert!(line.detail.as_deref().unwrap().starts_with("By time: last said 5 days ago"));
}

/// By hand: a waste tank of 100 L that shows 0, give or take 5 per cent, holds at most 5 L. A week later with the
/// pump on it may have filled to its brim, whether or not people told what they use.
#[test]
fn a_tank_read_a_week_ago_weighs_what_may_have_come_since() {
    let mut engine = demo("c");
    for (figure, value) in [
        ("people_front", 2.0),
        ("people_rear", 0.0),
        ("lockers_kg", 120.0),
        ("garage_kg", 150.0),
        ("rack_kg", 55.0),
    ] {
        engine.tell_figure(figure, Some(value), &at(0)).unwrap();
    }
    for (variable, setting) in
        [("pump.power", "on"), ("engine.wheels", "still"), ("pitch.ground", "level")]
    {
        engine.report(variable, setting, &at(0)).unwrap();
    }
    engine.enter_reading("waste", GaugeUnit::Percent, 0.0, &at(1)).unwrap();
    let waste =
        |engine: &Engine, minute| band(&ask(engine, "load", &[("fuel", "80")], minute), "waste");
    assert_eq!(waste(&engine, 2), (0.0, 5.0));
    assert_eq!(waste(&engine, 1 + 7 * DAY), (0.0, 100.0));
    // Two people at 10 L a day and more fill it beyond where it counts as full.
    for (figure, value) in [("people", 2.0), ("showers_a_day", 2.0), ("shower_l", 12.0)] {
        engine.tell_figure(figure, Some(value), &at(2)).unwrap();
    }
    let (least, most) = waste(&engine, 1 + 7 * DAY);
    assert!(least >= 0.0 && (most - 100.0).abs() < 1e-9, "{least} {most}");
    // What it showed at the least does not go by itself.
    engine.enter_reading("waste", GaugeUnit::Percent, 40.0, &at(3)).unwrap();
    assert!(waste(&engine, 3 + 7 * DAY).0 >= 35.0);
}
