//! Fuel, urea and tyres as an owner asks of them: (b) heats with diesel, (c) has urea and twin tyres.

use super::{at, tell};
use crate::engine::{Engine, Mark, Pick, Reckoning};

fn demo(id: &str) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo(id, &at(0)).unwrap();
    engine
}

fn ask(engine: &Engine, question: &str, picks: &[(&str, &str)]) -> Reckoning {
    let pick =
        |(choice, value): &(&str, &str)| Pick { choice: (*choice).into(), value: (*value).into() };
    engine.reckon(question, &picks.iter().map(pick).collect::<Vec<_>>(), &at(1)).unwrap()
}

fn told(engine: &mut Engine, figures: &[(&str, f64)]) {
    for (figure, value) in figures {
        engine.tell_figure(figure, Some(*value), &at(0)).unwrap();
    }
}

fn band(page: &Reckoning, id: &str) -> Option<(f64, f64)> {
    let line = page.parts.iter().flat_map(|part| &part.lines).find(|line| line.id == id)?;
    line.lower.zip(line.upper)
}

fn near(was: Option<(f64, f64)>, lower: f64, upper: f64) {
    let (least, most) = was.unwrap();
    assert!((least - lower).abs() < 1e-6 && (most - upper).abs() < 1e-6, "{was:?}");
}

/// By hand: 40 L give or take 5 per cent are 38 to 42; at 8.5 to 11.5 L that is 330 to 494 km. The floor
/// is 20 per cent of 70 L, a night takes 1.8 to 2.2 L.
#[test]
fn litres_are_told_as_distance_and_as_nights() {
    let mut engine = demo("b");
    told(
        &mut engine,
        &[
            ("fuel_l_100km", 10.0),
            ("heating_diesel_l_an_hour", 0.2),
            ("heating_diesel_h_a_night", 10.0),
        ],
    );
    let page = ask(&engine, "fuel", &[("left", "40"), ("nights", "20")]);
    near(band(&page, "reaches"), 3_800.0 / 11.5, 4_200.0 / 8.5);
    near(band(&page, "floor"), 14.0, 14.0);
    near(band(&page, "nights"), 24.0 / 2.2, 28.0 / 1.8);
    // Twenty nights take all above the floor, whatever a night takes.
    near(band(&page, "after"), 1_400.0 / 11.5, 1_400.0 / 8.5);
    assert_eq!(page.mark, Some(Mark::Wrong));
    assert_eq!(page.verdict_text, "Not enough for: the nights. Fill up first.");
}

/// Who drives first has less for the nights.
#[test]
fn a_drive_before_takes_from_the_nights() {
    let mut engine = demo("b");
    told(
        &mut engine,
        &[("fuel_l_100km", 10.0), ("heating_diesel_kw", 2.0), ("heating_diesel_h_a_night", 8.0)],
    );
    let nights = |picks: &[(&str, &str)]| band(&ask(&engine, "fuel", picks), "nights").unwrap();
    let (stands, drives) = (nights(&[("left", "60")]), nights(&[("left", "60"), ("trip", "200")]));
    assert!(drives.0 < stands.0 && drives.1 < stands.1);
    // What burns nothing lasts no number of nights.
    told(&mut engine, &[("heating_diesel_h_a_night", 0.0)]);
    assert_eq!(band(&ask(&engine, "fuel", &[("left", "60")]), "nights"), None);
}

/// Nothing is made up: what is not known is named, and no line stands for it.
#[test]
fn without_figures_nothing_is_told() {
    for (vehicle, question, least) in [("b", "fuel", 3), ("c", "fuel", 4), ("c", "urea", 1)] {
        let page = ask(&demo(vehicle), question, &[]);
        assert_eq!(page.mark, None);
        assert_eq!(band(&page, "reaches"), None);
        assert!(page.missing.len() >= least, "{:?}", page.missing);
    }
    // The pack of (c) leaves the heater's floor at its default, which is no fact.
    let page = ask(&demo("c"), "fuel", &[("gauge", "50")]);
    assert!(page.missing.iter().any(|line| line.contains("below which level the heater stops")));
    assert_eq!(band(&page, "floor"), None);
}

/// By hand: 600 km of a countdown are 480 to 600; 30 per cent of 20 L are 4 to 8 L, so 12 to 16 fit in.
#[test]
fn the_countdown_decides_how_far_one_comes() {
    let mut engine = demo("c");
    told(&mut engine, &[("fuel_l_100km", 11.0)]);
    let page = ask(&engine, "urea", &[("countdown", "600"), ("gauge", "30"), ("can", "12.5")]);
    near(band(&page, "countdown"), 480.0, 600.0);
    near(band(&page, "fits"), 12.0, 16.0);
    assert_eq!(
        (page.mark, &*page.verdict_text),
        (Some(Mark::Watch), "Fill it before zero: 480 to 600 kilometres are left.")
    );
    for (trip, mark) in [("480", Mark::Fine), ("550", Mark::Watch), ("601", Mark::Wrong)] {
        let page = ask(&engine, "urea", &[("countdown", "600"), ("trip", trip)]);
        assert_eq!(page.mark, Some(mark), "{trip}");
    }
}

/// At zero with the engine on it stays on until one may stay; off, it is filled before it is started.
#[test]
fn at_zero_it_says_what_to_do_with_the_engine() {
    let mut engine = demo("c");
    let zero = [("dash", "zero")];
    assert!(ask(&engine, "urea", &zero).verdict_text.contains("before you start the engine"));
    tell(&mut engine, &[("engine.running", "on"), ("urea.countdown", "at_zero")], &at(0));
    let page = ask(&engine, "urea", &[]);
    assert!(page.verdict_text.contains("Leave the engine on"), "{}", page.verdict_text);
    assert_eq!(page.mark, Some(Mark::Wrong));
    assert!(page.parts.iter().any(|part| {
        part.lines
            .iter()
            .any(|line| line.id == "zero" && line.text.contains("does not start again"))
    }));
}

/// A wrong liquid outweighs every number.
#[test]
fn a_wrong_liquid_comes_before_any_distance() {
    let mut engine = demo("c");
    tell(&mut engine, &[("urea.liquid", "wrong"), ("diesel.liquid", "wrong")], &at(0));
    for (question, pick) in [("urea", ("countdown", "600")), ("fuel", ("gauge", "90"))] {
        let page = ask(&engine, question, &[pick]);
        assert_eq!(page.mark, Some(Mark::Wrong));
        assert!(page.verdict_text.contains("Do not start the engine"), "{}", page.verdict_text);
    }
}

/// By hand: a weighbridge may be 20 kg out. What was weighed holds, whatever is said to be aboard.
#[test]
fn what_was_weighed_counts_before_what_is_reckoned() {
    let mut engine = demo("a");
    told(
        &mut engine,
        &[("people_front", 2.0), ("lockers_kg", 400.0), ("weighed_front_kg", 1_500.0)],
    );
    let one_axle = ask(&engine, "load", &[]);
    assert!(band(&one_axle, "front") != Some((1_480.0, 1_520.0)), "one axle alone tells nothing");
    told(&mut engine, &[("weighed_rear_kg", 1_700.0)]);
    let page = ask(&engine, "load", &[("fuel", "10")]);
    near(band(&page, "front"), 1_480.0, 1_520.0);
    near(band(&page, "rear"), 1_680.0, 1_720.0);
    near(band(&page, "total"), 3_160.0, 3_240.0);
    assert_eq!(page.missing, [""; 0]);
    assert!(page.cautions.iter().any(|line| line.contains("with all that was aboard then")));
}

/// Below what is recorded is low, warm or cold; of a warm tyre nothing else is told.
#[test]
fn a_warm_tyre_is_only_ever_low_or_not_told() {
    let engine = demo("b");
    for (measured, cold, warm) in [
        ("3.2", Some(Mark::Wrong), Some(Mark::Wrong)),
        ("3.3", Some(Mark::Fine), None),
        ("3.5", Some(Mark::Fine), None),
        ("3.6", Some(Mark::Watch), None),
    ] {
        let mark =
            |warmth: &str| ask(&engine, "tyres", &[("axle_1", measured), ("warmth", warmth)]).mark;
        assert_eq!((mark("cold"), mark("warm")), (cold, warm), "{measured}");
        let unsaid = ask(&engine, "tyres", &[("axle_1", measured)]);
        assert_eq!(unsaid.mark, warm, "{measured}");
        assert!(unsaid.missing.iter().any(|line| line == "Say whether the tyres were cold."));
    }
}

/// Where none is recorded no pressure is made up, and the plate is named; twins are four tyres.
#[test]
fn a_pressure_that_is_not_recorded_is_not_made_up() {
    let page = ask(&demo("c"), "tyres", &[("axle_2", "3"), ("warmth", "cold")]);
    let rear = page.parts[0].lines.iter().find(|line| line.id == "axle_2").unwrap();
    assert_eq!((rear.mark, rear.lower), (None, None));
    assert!(rear.text.contains("plate by the door") && rear.text.contains("measure all four"));
    assert_eq!(page.mark, None);
}

/// Six years by the pack, on 15 January 2027: week 3 of 2021 is just about that, week 4 is not.
#[test]
fn the_oldest_tyre_is_told_by_its_week() {
    let engine = demo("a");
    assert_eq!(ask(&engine, "tyres", &[("dot", "0221")]).mark, Some(Mark::Watch));
    let young = ask(&engine, "tyres", &[("dot", "0521")]);
    assert_eq!((young.mark, young.parts.len()), (None, 2), "an age says nothing of the air");
}

/// What the pack says of warning, zero and heat is said; what it leaves at its default is not.
#[test]
fn the_urea_tank_is_told_as_the_pack_has_it() {
    const PACK: &str = include_str!("../../../../demo-data/c/pack.toml");
    const OWN: &str = "capacity_l = 20, at_zero = \"no_restart\", heated = \"yes\"";
    assert!(PACK.contains(OWN));
    let said = |values: &str| {
        let mut engine = Engine::in_memory("en").unwrap();
        engine.add_pack(&PACK.replace(OWN, values), "changed.toml", &at(0)).unwrap();
        let page = ask(&engine, "urea", &[("dash", "quiet"), ("low", "-10")]);
        assert_eq!(page.parts.last().unwrap().lines[0].mark, Some(Mark::Watch), "2 °C either way");
        (format!("{:?}", page.parts), page.missing)
    };
    let (parts, missing) =
        said("capacity_l = 18, warning_km = 1500, at_zero = \"speed_limit\", heated = \"no\"");
    assert!(parts.contains("The first comes about 1500 kilometres before zero."), "{parts}");
    assert!(parts.contains("The engine runs only slowly.") && parts.contains("is not heated"));
    assert!(parts.contains("0 to 18 litres"), "{parts}");
    assert_eq!(missing.len(), 2, "the gauge, and what is used on the road: {missing:?}");
    let (parts, missing) = said("");
    assert!(!parts.contains("The first comes") && parts.contains("may refuse to restart"));
    assert!(!parts.contains("Room in the tank") && missing.len() == 5, "{missing:?}");
}
