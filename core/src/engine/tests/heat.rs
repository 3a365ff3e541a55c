//! Frost and hot water on the demo vehicles: what the pages make of state, pack and picks.

use super::{at, changed};
use crate::engine::{Engine, Mark, Pick, Reckoning, ReckoningLine};

fn coach() -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("c", &at(0)).unwrap();
    for (variable, setting) in [
        ("fresh.level", "full"),
        ("waste.level", "full"),
        ("waste_bath.level", "part"),
        ("boiler.heat", "off"),
        ("heater.heat", "off"),
    ] {
        engine.report(variable, setting, &at(0)).unwrap();
    }
    engine
}

fn ask(engine: &Engine, question: &str, picks: &[(&str, &str)]) -> Reckoning {
    let pick = |(choice, value): &(&str, &str)| Pick {
        choice: (*choice).to_owned(),
        value: (*value).to_owned(),
    };
    let picks: Vec<_> = picks.iter().map(pick).collect();
    engine.reckon(question, &picks, &at(1)).unwrap()
}

#[track_caller]
fn line(page: &Reckoning, id: &str) -> ReckoningLine {
    let mut lines = page.parts.iter().flat_map(|part| &part.lines);
    lines.find(|line| line.id == id).unwrap_or_else(|| panic!("no {id}: {page:?}")).clone()
}

const COLD: [(&str, &str); 3] = [("low", "-8"), ("outside", "0"), ("sunrise_h", "12")];

fn with<'a>(more: &[(&'a str, &'a str)]) -> Vec<(&'a str, &'a str)> {
    COLD.iter().chain(more).copied().collect()
}

#[test]
fn without_a_forecast_nothing_is_said_of_the_night() {
    let page = ask(&coach(), "frost", &[("low", "-8")]);
    assert_eq!((page.mark, page.parts.len()), (None, 0));
    assert!(page.verdict_text.starts_with("Not known"));
}

/// Its own words: warm inside is no proof. The tank below the floor freezes with the heating on.
#[test]
fn a_warm_inside_does_not_hold_the_tank_below_the_floor() {
    let page = ask(&coach(), "frost", &with(&[("inside", "20"), ("heating", "on")]));
    assert!(line(&page, "waste_bath").mark > Some(Mark::Fine));
    assert!(page.verdict_text.contains("Washroom waste tank"), "{}", page.verdict_text);
    assert!(page.cautions.iter().any(|said| said.contains("does not prove")));
}

#[test]
fn what_the_heating_holds_says_so() {
    let warm = ask(&coach(), "frost", &with(&[("inside", "20"), ("heating", "on")]));
    assert!(line(&warm, "boiler").text.contains("while the heating runs"));
    let cold = ask(&coach(), "frost", &with(&[("inside", "5"), ("heating", "off")]));
    assert!(line(&cold, "boiler").mark > Some(Mark::Fine), "{:?}", line(&cold, "boiler"));
}

#[test]
fn an_empty_tank_is_fine_and_one_that_nobody_placed_is_not_known() {
    let mut engine = coach();
    engine.report("waste_bath.level", "empty", &at(0)).unwrap();
    let page = ask(&engine, "frost", &with(&[("inside", "20"), ("heating", "on")]));
    assert_eq!(line(&page, "waste_bath").mark, Some(Mark::Fine));
    let engine = changed("sits = \"inside\"", "sits = \"unknown\"");
    let page = ask(&engine, "frost", &with(&[("inside", "20"), ("heating", "on")]));
    assert_eq!(line(&page, "fresh").mark, None);
    assert!(page.verdict_text.contains("Not known: Fresh tank"), "{}", page.verdict_text);
    assert!(page.missing.iter().any(|said| said.contains("Fresh tank")), "{:?}", page.missing);
}

#[test]
fn a_mild_night_holds_for_certain() {
    let mild = [("low", "5"), ("outside", "9"), ("inside", "15"), ("heating", "off")];
    let page = ask(&coach(), "frost", &mild);
    assert_eq!(page.mark, Some(Mark::Fine), "{}", page.verdict_text);
    assert!(page.verdict_text.starts_with("Holds tonight for certain"), "{}", page.verdict_text);
}

#[test]
fn the_frost_valve_is_said_to_save_the_boiler_alone() {
    let valve = line(&ask(&coach(), "frost", &COLD), "valve");
    assert!(valve.text.contains("the boiler alone. Not pipes, pump, tank or toilet"));
    assert!(valve.detail.unwrap().contains("without 12 V"));
}

#[test]
fn what_the_post_does_not_give_is_not_reckoned_as_hot() {
    let mut engine = changed("gas_w = 1500", "gas_w = 1500, mains_w = 1850");
    engine.report("post.supply", "live", &at(0)).unwrap();
    engine.report("post.rating", "a6", &at(0)).unwrap();
    let page = ask(&engine, "boiler", &[("source", "electric")]);
    assert_eq!(page.mark, Some(Mark::Wrong));
    assert!(page.verdict_text.contains("1850 watts"), "{}", page.verdict_text);
    engine.report("post.rating", "a10", &at(0)).unwrap();
    assert_eq!(ask(&engine, "boiler", &[("source", "electric")]).mark, Some(Mark::Fine));
}

#[test]
fn gas_and_mains_together_are_quicker_than_either() {
    let pack = "mixes = true, two_powers = true, mains_w = 1850, low_w = 750, gas_w = 1500";
    let page = ask(&changed("gas_w = 1500", pack), "boiler", &[("cold", "10")]);
    let most = |id: &str| line(&page, id).upper.unwrap();
    assert!(most("mixed") < most("mixed_low") && most("mixed_low") < most("electric_low"));
    assert!(most("mixed") < most("electric") && most("mixed") < most("gas"));
}

#[test]
fn a_shower_soon_says_when_to_switch_on_and_one_at_once_that_it_is_late() {
    let at = |min: &'static str| {
        ask(&coach(), "boiler", &[("cold", "10"), ("source", "gas"), ("in_min", min)])
    };
    assert_eq!(at("90").mark, Some(Mark::Fine));
    assert!(at("90").verdict_text.starts_with("Switch on within"), "{}", at("90").verdict_text);
    assert_eq!(at("5").mark, Some(Mark::Watch));
}

#[test]
fn a_boiler_whose_size_nobody_gave_is_not_known() {
    let page = ask(&changed("capacity_l = 10, gas_w", "gas_w"), "boiler", &[]);
    assert_eq!((page.mark, page.parts.len()), (None, 0));
    assert!(page.missing[0].contains("technician"));
}

/// With water that was measured, so that some time is left.
fn measured() -> Reckoning {
    let picks = [("inside", "20"), ("heating", "on"), ("water", "10"), ("outside", "6")];
    ask(&coach(), "frost", &with(&picks))
}

/// What holds water and freezes first.
fn first_to_freeze(page: &Reckoning) -> ReckoningLine {
    let freezes = page.parts[0].lines.iter().filter(|line| line.lower.is_some());
    freezes.min_by(|one, other| one.lower.partial_cmp(&other.lower).unwrap()).unwrap().clone()
}

/// The instant is the earliest end of the first to freeze, rounded down as it is said: by up to a quarter
/// of an hour.
#[test]
fn by_when_to_drain_is_an_instant_that_any_clock_can_show() {
    let page = measured();
    let earliest_ms = first_to_freeze(&page).lower.unwrap() * 60_000.0;
    let by_ms = page.by_utc_ms.unwrap() - at(1).utc_ms;
    let early_ms = earliest_ms - f64::from(i32::try_from(by_ms).unwrap());
    assert!((0.0..15.0 * 60_000.0).contains(&early_ms), "{by_ms} {earliest_ms}");
    assert_eq!(page.by_text.as_deref(), Some("Drain by"));
    let mild = [("low", "5"), ("outside", "9"), ("inside", "15"), ("heating", "off")];
    let page = ask(&coach(), "frost", &mild);
    assert_eq!((page.by_utc_ms, page.by_text), (None, None));
}

#[test]
fn by_when_to_switch_on_is_an_instant_only_while_there_is_time() {
    let asked = |min: &'static str| {
        ask(&coach(), "boiler", &[("cold", "10"), ("source", "gas"), ("in_min", min)])
    };
    let page = asked("90");
    let most_min = line(&page, "gas").upper.unwrap();
    let spare_ms = page.by_utc_ms.unwrap() - at(1).utc_ms;
    assert_eq!(spare_ms % 60_000, 0);
    let spare_min = f64::from(i32::try_from(spare_ms / 60_000).unwrap());
    assert!((0.0..1.0).contains(&(90.0 - most_min - spare_min)), "{most_min} {spare_min}");
    assert_eq!(page.by_text.as_deref(), Some("Switch on by"));
    assert_eq!(asked("5").by_utc_ms, None);
}

#[track_caller]
fn charts(page: &Reckoning) -> Vec<crate::engine::Chart> {
    let charts: Vec<_> = page.parts.iter().filter_map(|part| part.chart.clone()).collect();
    for point in charts.iter().flat_map(|chart| &chart.points) {
        let ordered = point.lower <= point.middle + 1e-9 && point.middle <= point.upper + 1e-9;
        assert!(ordered && (0.0..=1.0).contains(&point.at), "{point:?}");
    }
    charts
}

#[test]
fn the_night_is_drawn_with_the_water_that_freezes_first_and_the_air() {
    let page = measured();
    let charts = charts(&page);
    let [water, air] = &charts[..] else { panic!("{charts:?}") };
    assert!(water.title.contains(&first_to_freeze(&page).title), "{}", water.title);
    assert!(air.told.starts_with("Now 6 °C."), "{}", air.told);
    let zero = water.limit.unwrap();
    assert!(water.points[0].lower >= zero && water.points.last().unwrap().lower <= zero + 1e-9);
}

#[test]
fn hot_water_is_drawn_by_the_way_that_is_picked_up_to_what_is_wanted() {
    let picks = [("cold", "10"), ("room", "15"), ("source", "gas"), ("to", "c60")];
    let page = ask(&coach(), "boiler", &picks);
    let charts = charts(&page);
    let [chart] = &charts[..] else { panic!("{charts:?}") };
    assert!(chart.told.starts_with("At first 10 °C."), "{}", chart.told);
    let last = chart.points.last().unwrap();
    let (lower, limit) = (last.lower, chart.limit.unwrap());
    assert!((lower - limit).abs() < 1e-3, "the slowest has come to it: {lower} {limit}");
    assert!(chart.points.windows(2).all(|pair| pair[0].lower <= pair[1].lower + 1e-9));
    assert!(self::charts(&ask(&coach(), "boiler", &[("cold", "10")])).is_empty());
}
