//! For how many nights the battery lasts, on the demo vehicles.

use super::{at, changed, demo};
use crate::engine::{Engine, GaugeUnit, Mark, Pick, Reckoning, ReckoningLine};

const DAY: i64 = 24 * 60;

/// Vehicle (a), with a lead battery of 95 Ah and no panels; all told that it asks for, at half past.
fn told() -> Engine {
    tell_all(demo())
}

fn tell_all(mut engine: Engine) -> Engine {
    for (figure, value) in [
        ("lights_w", 10.0),
        ("lights_h_a_day", 4.0),
        ("pump_min_a_day", 12.0),
        ("boiler_fan_h_a_day", 0.0),
        ("router_w", 0.0),
        ("phones_h_a_day", 0.0),
        ("breathing_aid_w", 0.0),
        ("other_w", 0.0),
    ] {
        engine.tell_figure(figure, Some(value), &at(0)).unwrap();
    }
    engine
}

fn asked(engine: &Engine, picks: &[(&str, &str)], minutes: i64) -> Reckoning {
    let pick = |(choice, value): &(&str, &str)| Pick {
        choice: (*choice).to_owned(),
        value: (*value).to_owned(),
    };
    let picks: Vec<_> = picks.iter().map(pick).collect();
    engine.reckon("power", &picks, &at(minutes)).unwrap()
}

#[track_caller]
fn line(page: &Reckoning, id: &str) -> ReckoningLine {
    let mut lines = page.parts.iter().flat_map(|part| &part.lines);
    lines.find(|line| line.id == id).unwrap().clone()
}

fn ends(line: &ReckoningLine) -> (f64, f64) {
    (line.lower.unwrap(), line.upper.unwrap())
}

const FULL: &[(&str, &str)] = &[("charge", "100"), ("cells", "warm")];

#[test]
fn what_nobody_told_is_asked_for_and_no_night_is_made_up() {
    let engine = demo();
    let page = asked(&engine, &[], 0);
    assert_eq!(page.mark, None);
    assert!(page.verdict_text.starts_with("Read the battery at rest"), "{}", page.verdict_text);
    assert!(page.parts.iter().flat_map(|part| &part.lines).all(|line| line.id != "lasts"));
    assert_eq!(page.gauges.len(), 1);
    assert!(page.asks.iter().any(|ask| ask.id == "lights_w" && ask.value.is_none()));
    assert!(page.missing.iter().any(|said| said.contains("Lights")), "{:?}", page.missing);
}

/// By hand: fridge 4 W all day, lights 40 Wh, pump 12 Wh: 148 Wh, 11.65 to 12.34 Ah at 12.7 and 12 V.
/// Full and at 20 °C or more a battery of 95 Ah gives 0.8 × 0.8965 of it to all of it, and half of that
/// stands above the floor: 34.07 to 47.5 Ah, so 2 nights and at most 4.
#[test]
fn the_nights_are_those_by_hand() {
    let page = asked(&told(), FULL, 0);
    let drawn = ends(&line(&page, "drawn"));
    assert!((drawn.0 - 148.0 / 12.7).abs() < 0.01 && drawn.1 < 12.6, "{drawn:?}");
    let usable = ends(&line(&page, "usable"));
    assert!((usable.0 - 34.07).abs() < 0.01 && (usable.1 - 47.5).abs() < 0.01, "{usable:?}");
    assert_eq!(page.verdict_text, "It lasts 2 to 4 nights, about 3.");
    assert_eq!(page.mark, Some(Mark::Fine));
    let five = asked(&told(), &[("charge", "100"), ("cells", "warm"), ("nights", "5")], 0);
    assert_eq!(five.mark, Some(Mark::Wrong));
    assert!(five.verdict_text.ends_with("That is not enough for 5."));
}

#[test]
fn where_not_all_is_told_there_is_only_a_most() {
    let mut engine = told();
    engine.tell_figure("other_w", None, &at(1)).unwrap();
    let page = asked(&engine, FULL, 1);
    assert!(page.verdict_text.starts_with("It lasts at most 4 nights"), "{}", page.verdict_text);
    assert_eq!(page.mark, Some(Mark::Watch));
    assert_eq!(line(&page, "lasts").lower, None);
}

#[test]
fn what_draws_most_comes_first_and_says_what_it_saves() {
    let page = asked(&told(), FULL, 0);
    let part = page.parts.iter().find(|part| part.title.starts_with("What draws")).unwrap();
    let first = part.lines.first().unwrap();
    assert_eq!(first.title, "Fridge");
    assert!(first.detail.as_ref().unwrap().contains("Without it: "), "{first:?}");
    assert!(part.lines.is_sorted_by(|one, other| one.upper >= other.upper));
}

/// A reading of yesterday leaves at least a day's use less.
#[test]
fn since_a_reading_it_may_have_been_used() {
    let mut engine = told();
    for (variable, setting) in [
        ("engine.running", "off"),
        ("lead.post_end", "out"),
        ("mains_switch.lever", "off"),
        ("battery.load", "little"),
    ] {
        engine.report(variable, setting, &at(0)).unwrap();
    }
    let read = engine.enter_reading("battery", GaugeUnit::Volts, 12.7, &at(600)).unwrap();
    assert!(!format!("{:?}", read.warnings).contains("does not count"), "{:?}", read.warnings);
    let at_once = ends(&line(&asked(&engine, &[("cells", "warm")], 600), "charge"));
    let later = ends(&line(&asked(&engine, &[("cells", "warm")], 600 + DAY), "charge"));
    let used = 12.3 / 95.0 * 100.0;
    assert!(later.0 <= at_once.0 - used, "{at_once:?} {later:?}");
    assert!(later.1 >= at_once.1);
}

#[test]
fn in_frost_a_flat_lead_battery_is_warned_of_and_a_full_one_not() {
    let frost =
        |charge: &'static str| asked(&told(), &[("charge", charge), ("cells", "hard_frost")], 0);
    let warns = |page: &Reckoning| page.cautions.iter().any(|said| said.contains("may freeze"));
    assert!(warns(&frost("10")));
    assert_eq!(line(&frost("10"), "freezes").mark, Some(Mark::Watch));
    assert_eq!(line(&frost("100"), "freezes").mark, Some(Mark::Fine));
    assert!(!warns(&asked(&told(), &[("charge", "10"), ("cells", "warm")], 0)));
}

#[test]
fn lithium_in_frost_is_led_to_its_rule() {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("b", &at(0)).unwrap();
    let said = line(&asked(&engine, &[("cells", "frost")], 0), "in_frost");
    assert_eq!(said.mark, Some(Mark::Watch));
    assert!(said.text.starts_with("Lithium cells below 0 °C are ruined"), "{}", said.text);
    assert_eq!(line(&asked(&engine, &[("cells", "warm")], 0), "in_frost").mark, Some(Mark::Fine));
    let page = asked(&engine, FULL, 0);
    assert!(page.parts.iter().flat_map(|part| &part.lines).all(|line| line.id != "freezes"));
}

/// 135 W at 12 to 12.7 V are 10.6 to 11.3 A: some four hours from full to half, less by Peukert.
#[test]
fn the_fridge_on_12_v_with_the_engine_off_is_warned_of() {
    let mut engine = told();
    let spare = line(&asked(&engine, FULL, 0), "fridge_on_12_v");
    assert_eq!(spare.mark, Some(Mark::Fine));
    assert!(spare.text.starts_with("2 to 5 hours with the engine off"), "{}", spare.text);
    engine.report("engine.running", "off", &at(1)).unwrap();
    engine.report("fridge.selector", "dc", &at(1)).unwrap();
    let page = asked(&engine, FULL, 1);
    assert_eq!(line(&page, "fridge_on_12_v").mark, Some(Mark::Wrong));
    assert!(page.cautions.iter().any(|said| said.contains("on 12 V with the engine off")));
}

/// Vehicle (c) has panels of 240 Wp: under a clear sky in January they bring more than under a grey one,
/// and switched off nothing.
#[test]
fn the_sun_counts_once_place_and_sky_are_picked() {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("c", &at(0)).unwrap();
    let bare = asked(&engine, FULL, 0);
    assert!(bare.missing.iter().any(|said| said.contains("how far north")));
    let under = |engine: &Engine, sky: &'static str| {
        asked(engine, &[("latitude", "48"), ("sky", sky), ("charge", "60")], 0)
    };
    let (clear, grey) = (under(&engine, "clear"), under(&engine, "overcast"));
    assert!(ends(&line(&clear, "gained")).0 > ends(&line(&grey, "gained")).1);
    engine.report("solar.panels", "off", &at(1)).unwrap();
    assert_eq!(ends(&line(&asked(&engine, &[("sky", "clear")], 1), "gained")), (0.0, 0.0));
}

/// Planned in the month of another season the sun brings what it does then: within what the page says when
/// that month has come, and less in winter.
#[test]
fn another_month_has_the_sun_of_all_its_days() {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("c", &at(0)).unwrap();
    let picks = |month: &'static str| {
        [("latitude", "48"), ("sky", "broken"), ("charge", "60"), ("month", month)]
    };
    let (day_ms, now) = (86_400_000, at(0).utc_ms);
    let on = |day: i64| {
        let at = crate::clock::Stamp::utc(now + day * day_ms);
        let pick = |(choice, value): &(&str, &str)| Pick {
            choice: (*choice).to_owned(),
            value: (*value).to_owned(),
        };
        let picks: Vec<_> = picks("jan")[..3].iter().map(pick).collect();
        engine.reckon("power", &picks, &at).unwrap()
    };
    let chosen = |page: &Reckoning| {
        let month = page.choices.iter().find(|one| one.id == "month").unwrap();
        month.options.iter().find(|one| one.chosen).unwrap().id.clone()
    };
    let mut seen = 0;
    for day in (0..365).step_by(9) {
        let page = on(day);
        let month: &'static str = chosen(&page).leak();
        let planned = asked(&engine, &picks(month), 0);
        let (all, one) = (ends(&line(&planned, "gained")), ends(&line(&page, "gained")));
        // The month in which it is asked means that day.
        if month != chosen(&on(0)) {
            assert!(all.0 <= one.0 + 1e-9 && one.1 <= all.1 + 1e-9, "{month} {all:?} {one:?}");
            assert_ne!(all, one, "a month is wider than a day of it");
            seen += 1;
        }
    }
    assert!(seen > 30, "{seen}");
    let gained = |month| ends(&line(&asked(&engine, &picks(month), 0), "gained"));
    assert!(gained("dec").1 < gained("jun").0);
    assert_eq!(chosen(&asked(&engine, &picks("jun"), 0)), "jun");
}

/// Vehicle (c), with nothing drawn that people tell of: what the sun brings in June fills 210 Ah from 60 per
/// cent sooner than in December, and where nobody said how much is drawn there is no most.
#[test]
fn the_sun_is_a_source_of_charge_with_its_band() {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo("c", &at(0)).unwrap();
    let unknown = line(&asked(&engine, &FULL[..1], 0), "sun");
    assert!(unknown.text.contains("how far north") && unknown.lower.is_none(), "{unknown:?}");
    let under = |engine: &Engine, month: &'static str| {
        let picks = [("latitude", "48"), ("sky", "clear"), ("charge", "60"), ("month", month)];
        line(&asked(engine, &picks, 0), "sun")
    };
    assert_eq!(under(&engine, "jun").upper, None, "not all is told");
    for ask in asked(&engine, &[], 0).asks.into_iter().filter(|ask| ask.value.is_none()) {
        engine.tell_figure(&ask.id, Some(ask.value_min), &at(0)).unwrap();
    }
    for ask in asked(&engine, &[], 0).asks.into_iter().filter(|ask| ask.value.is_none()) {
        engine.tell_figure(&ask.id, Some(ask.value_min), &at(0)).unwrap();
    }
    let (june, december) = (under(&engine, "jun"), under(&engine, "dec"));
    assert_eq!(june.unit.as_deref(), Some("days"));
    assert!(june.text.ends_with(" days to full"), "{june:?}");
    assert!(ends(&june).0 > 0.0 && ends(&june).0 <= ends(&june).1, "{june:?}");
    assert!(june.detail.clone().unwrap().contains("of a day's use"), "{june:?}");
    assert!(december.lower.is_none_or(|least| least > ends(&june).0), "{december:?}");
    assert!(december.upper.is_none_or(|most| most > ends(&june).1), "{december:?}");
    engine.report("solar.panels", "off", &at(1)).unwrap();
    assert_eq!(under(&engine, "jun").text, "It brings no more than is drawn.");
    let without = asked(&told(), FULL, 0);
    assert!(without.parts.iter().flat_map(|part| &part.lines).all(|line| line.id != "sun"));
}

/// Every place of the chart lies in its band, and the band on the paper.
#[test]
fn the_nights_are_drawn_within_their_band() {
    let chart = asked(&told(), FULL, 0).parts[0].chart.clone().unwrap();
    assert_eq!(chart.limit, Some(0.5));
    assert_eq!(chart.points.len(), 6);
    assert!(chart.told.starts_with("Now 100 per cent. After 1: "), "{}", chart.told);
    for point in &chart.points {
        assert!(0.0 <= point.lower && point.lower <= point.middle);
        assert!(point.middle <= point.upper && point.upper <= 1.0);
    }
}

/// By hand, beside 52 Wh of lights and pump: 0 to 5 W of electronics that its pack does not give are 0 to
/// 120 Wh; on 12 V with the engine off 135 W more, off nothing.
#[test]
fn a_three_way_fridge_draws_on_the_battery_only_on_12_v_with_the_engine_off() {
    let mut engine = tell_all(changed("dc_w = 4, dc_heat_w", "dc_heat_w"));
    engine.report("engine.running", "off", &at(1)).unwrap();
    let mut drawn = |selector: &str| {
        engine.report("fridge.selector", selector, &at(1)).unwrap();
        let page = asked(&engine, FULL, 1);
        assert!(page.verdict_text.starts_with("It lasts"), "{selector}: {}", page.verdict_text);
        assert!(!page.verdict_text.contains("at most"), "{selector}: {}", page.verdict_text);
        (ends(&line(&page, "drawn")), page)
    };
    let ((least, most), page) = drawn("off");
    assert!((least - 52.0 / 12.7).abs() < 0.01 && most < 4.5, "{least} {most}");
    assert!(page.parts.iter().flat_map(|part| &part.lines).all(|line| line.id != "fridge"));
    for selector in ["gas", "mains"] {
        let ((least, most), _) = drawn(selector);
        assert!((least - 52.0 / 12.7).abs() < 0.01 && most > 172.0 / 12.0, "{least} {most}");
    }
    let (on_12_v, _) = drawn("dc");
    assert!(on_12_v.0 > (52.0 + 24.0 * 135.0) / 12.7 - 0.01, "{on_12_v:?}");
    engine.report("engine.running", "on", &at(2)).unwrap();
    let driving = ends(&line(&asked(&engine, FULL, 2), "drawn"));
    assert!(driving.1 < 20.0, "the alternator feeds it: {driving:?}");
}

#[test]
fn what_a_fridge_on_12_v_draws_is_asked_for_where_its_pack_does_not_say() {
    let mut engine = tell_all(changed("dc_w = 4, dc_heat_w = 135", "dc_w = 4"));
    engine.report("engine.running", "off", &at(1)).unwrap();
    engine.report("fridge.selector", "dc", &at(1)).unwrap();
    let page = asked(&engine, FULL, 1);
    assert!(page.verdict_text.contains("not all that draws"), "{}", page.verdict_text);
    engine.report("fridge.selector", "gas", &at(2)).unwrap();
    assert!(!asked(&engine, FULL, 2).verdict_text.contains("not all that draws"));
}
