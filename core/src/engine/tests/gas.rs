//! What is left in gas cylinders, as an owner reads it: by weight on (a), by gauges on (c).

use super::{at, changed, tell};
use crate::alert::Shown;
use crate::engine::{Engine, GaugeRow, GaugeUnit, ReserveRow, VerdictKind};
use crate::error::Error;

const DAY: i64 = 24 * 60;
/// A cylinder of (a) is weighed.
const WEIGHED: &str = ", gauge_shows = \"weight\", tare_kg = 12.4, contents_kg = 11";

fn demo(id: &str) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo(id, &at(0)).unwrap();
    engine
}

fn weigh(engine: &mut Engine, id: &str, kg: f64, minute: i64) -> Vec<String> {
    engine.enter_reading(id, GaugeUnit::Kilograms, kg, &at(minute)).unwrap().warnings
}

fn percent(engine: &mut Engine, id: &str, shown: f64, minute: i64) -> Vec<String> {
    engine.enter_reading(id, GaugeUnit::Percent, shown, &at(minute)).unwrap().warnings
}

fn gauge(engine: &Engine, id: &str) -> GaugeRow {
    engine.gauges(&at(1)).unwrap().into_iter().find(|row| row.id == id).unwrap()
}

fn row(engine: &Engine, id: &str, minute: i64) -> ReserveRow {
    let rows = engine.reserves(&at(minute)).unwrap().rows;
    rows.into_iter().find(|row| row.id == id).unwrap()
}

fn gas_text(engine: &Engine, minute: i64) -> Option<String> {
    engine.reserves(&at(minute)).unwrap().gas_text
}

/// By hand: 20.4 kg less 12.4 are 8, and half a kilogram either way.
#[test]
fn a_cylinder_on_a_scale_holds_what_it_weighs_above_its_tare() {
    let mut engine = demo("a");
    let about = gauge(&engine, "gas_left").about.unwrap();
    assert!(about.contains("Empty it weighs 12.4 kg, and it holds 11 kg."), "{about}");
    assert!(about.contains("every flame out and its valve shut"), "{about}");
    let said = weigh(&mut engine, "gas_left", 20.4, 1);
    assert_eq!(said, ["The reading gives: part full (between 7.5 and 8.5 kg)"]);
    assert_eq!(row(&engine, "gas_left", 1).seen_text.as_deref(), Some("20.4 kg, cylinder and gas"));
    assert_eq!(gauge(&engine, "gas_left").current_text, "Part full");
}

/// By hand: 23.4 kg are 10.5 to 11 kg of gas, 20.4 are 7.5 to 8.5; so 2 to 3.5 kg went in a day. Empty
/// begins below 0.55 kg: 6.95 kg at 3.5 a day are 47 hours, 7.95 kg at 2 a day just below four days.
#[test]
fn two_weighings_a_day_apart_give_a_range() {
    let mut engine = demo("a");
    weigh(&mut engine, "gas_left", 23.4, 1);
    weigh(&mut engine, "gas_left", 20.4, 1 + DAY);
    let row = row(&engine, "gas_left", 1 + DAY);
    assert_eq!(row.used_text.as_deref(), Some("about 2 to 3.5 kg a day"));
    assert_eq!((row.left_lower_h, row.left_upper_h), (Some(47), Some(96)));
    assert_eq!(row.left_text.as_deref(), Some("about 1 to 4 days"));
    assert_eq!((row.used_lower_per_day, row.used_upper_per_day), (Some(2_000), Some(3_500)));
    assert_eq!(row.end_text, "empty");
    engine.set_units("imperial").unwrap();
    let imperial = super::gas::row(&engine, "gas_left", 1 + DAY);
    assert_eq!(imperial.used_text, row.used_text, "a scale shows kilograms in either country");
}

#[test]
fn what_a_cylinder_cannot_weigh_is_refused_with_what_was_expected() {
    let mut engine = demo("a");
    let entries = engine.log(100).unwrap().len();
    let mut refused =
        |kg: f64| match engine.enter_reading("gas_left", GaugeUnit::Kilograms, kg, &at(1)) {
            Err(Error::InvalidInput { field, expected }) => (field, expected),
            other => panic!("{other:?}"),
        };
    let (field, below) = refused(11.8);
    assert_eq!(field, "left gas cylinder");
    assert!(below.starts_with("at least 11.9 kg. Empty it weighs 12.4 kg"), "{below}");
    let (_, above) = refused(24.0);
    assert!(above.starts_with("at most 23.9 kg. Empty it weighs 12.4 kg, and it holds 11 kg"));
    assert!(above.contains("it may be over-filled. Keep it shut and outdoors"), "{above}");
    for odd in [f64::NAN, f64::INFINITY, -1.0] {
        refused(odd);
    }
    let unit = engine.enter_reading("gas_left", GaugeUnit::Percent, 45.0, &at(1)).unwrap_err();
    let takes = "left gas cylinder: expected the weight of the whole cylinder in kg, 11.9 to 23.9";
    assert_eq!(unit.to_string(), takes);
    assert_eq!(engine.log(100).unwrap().len(), entries, "nothing was written");
    // What scale and stamp may be out is not refused.
    assert!(weigh(&mut engine, "gas_left", 11.9, 1)[0].contains("empty"));
    assert!(weigh(&mut engine, "gas_left", 23.9, 2)[0].contains("full"));
}

/// Nothing is reckoned without the numbers that are stamped on it, and it is said which are missing.
#[test]
fn without_tare_or_contents_it_is_told_by_a_word() {
    for (given, missing) in [
        ("", ["What it weighs empty is not in the pack", "How much gas it holds is not in"]),
        (", tare_kg = 12.4", ["How much gas it holds is not in the pack"; 2]),
        (", contents_kg = 11", ["What it weighs empty is not in the pack"; 2]),
    ] {
        let mut engine = changed(WEIGHED, &format!(", gauge_shows = \"weight\"{given}"));
        let row = gauge(&engine, "gas_left");
        assert_eq!((row.unit, row.value_min, row.value_max), (GaugeUnit::Words, 0.0, 3.0));
        let about = row.about.unwrap();
        assert!(missing.iter().all(|said| about.contains(said)), "{given}: {about}");
        let words: Vec<_> = row.choices.iter().map(|one| &*one.text).collect();
        assert_eq!(words, ["empty", "nearly empty", "part full", "full"]);
        engine.enter_reading("gas_left", GaugeUnit::Words, 1.0, &at(1)).unwrap();
        let row = super::gas::row(&engine, "gas_left", 1);
        assert_eq!(row.seen_text.as_deref(), Some("nearly empty"));
        assert_eq!(row.level_text, "Nearly empty");
        let of = if given.contains("contents") { "2.2 kg of gas" } else { "20 per cent" };
        assert!(row.between_text.as_deref().unwrap_or_default().ends_with(of), "{row:?}");
        assert_eq!(gas_text(&engine, 1), None, "the other one is not known");
        let odd = engine.enter_reading("gas_left", GaugeUnit::Words, 4.0, &at(1)).unwrap_err();
        assert!(odd.to_string().ends_with("empty, nearly empty, part full, full"), "{odd}");
    }
}

/// By hand: 27 L of which 80 % may be filled are 21.6 L. The gauge shows per cent of the whole, and
/// may be 3 out: 40 is 37 to 43 of 80, so 9.99 to 11.61 L.
#[test]
fn a_gauge_of_the_whole_volume_is_full_at_80_per_cent() {
    let mut engine = demo("c");
    let about = gauge(&engine, "gas_left").about.unwrap();
    assert!(about.contains("Per cent of its whole volume: 80 is full."), "{about}");
    engine.report("pitch.ground", "level", &at(1)).unwrap();
    let said = percent(&mut engine, "gas_left", 40.0, 1);
    assert_eq!(said, ["The reading gives: part full (between 9 and 12 litres)"]);
    assert!(percent(&mut engine, "gas_left", 80.0, 2)[0].contains("full (between 20 and 22"));
    let over = engine.enter_reading("gas_left", GaugeUnit::Percent, 84.0, &at(3)).unwrap_err();
    let over = over.to_string();
    assert!(over.contains("expected at most 83 per cent. Full is 80 per cent of"), "{over}");
    assert!(over.contains("it may be over-filled"), "{over}");
    engine.set_units("imperial").unwrap();
    let imperial = row(&engine, "gas_left", 3).between_text.unwrap();
    assert_eq!(imperial, "between 4.5 and 4.8 gallons", "20.79 to 21.6 L");
}

#[test]
fn a_gauge_on_a_slope_does_not_count_and_a_scale_asks_for_no_level_ground() {
    let mut slope = demo("c");
    slope.report("pitch.ground", "sloping", &at(1)).unwrap();
    assert!(percent(&mut slope, "gas_left", 40.0, 1)[0].contains("does not stand level"));
    assert_eq!(row(&slope, "gas_left", 1).between_text, None);
    let mut scale = demo("a");
    scale.report("pitch.ground", "sloping", &at(1)).unwrap();
    assert_eq!(gauge(&scale, "gas_left").questions, []);
    assert!(weigh(&mut scale, "gas_left", 20.4, 1)[0].contains("The reading gives"));
    scale.drive_off(&at(2)).unwrap();
    assert!(weigh(&mut scale, "gas_left", 20.4, 2)[0].contains("the vehicle moves"));
}

#[test]
fn the_sum_is_told_where_each_cylinder_is_known() {
    let mut engine = demo("a");
    weigh(&mut engine, "gas_left", 20.4, 1);
    assert_eq!(gas_text(&engine, 1), None);
    weigh(&mut engine, "gas_right", 22.9, 2);
    let sum = "Gas in 2 cylinders together, as last said: between 18 and 19.5 kg of gas.";
    assert_eq!(gas_text(&engine, 2).as_deref(), Some(sum), "7.5 to 8.5 and 10.5 to 11");
}

/// Its average so far stays; nothing is counted across the change.
#[test]
fn a_changed_cylinder_starts_anew() {
    let mut engine = demo("a");
    weigh(&mut engine, "gas_left", 23.4, 1);
    weigh(&mut engine, "gas_left", 12.4, 1 + 5 * DAY);
    let used = row(&engine, "gas_left", 1 + 5 * DAY).used_text;
    assert!(used.is_some());
    let now = 2 + 5 * DAY;
    engine.open_run("cylinder_changed", &at(now)).unwrap();
    let steps = engine.routine(&at(now)).unwrap().unwrap().steps.len();
    assert_eq!(super::carry_out(&mut engine, &at(now)), steps, "each step once, to the end");
    let full = row(&engine, "gas_left", now);
    assert_eq!((full.level_text.as_str(), &full.used_text), ("Full", &used));
    assert_eq!(
        full.between_text.as_deref(),
        Some("between 9.9 and 11 kg of gas"),
        "from 90 per cent on"
    );
    weigh(&mut engine, "gas_left", 23.4, now + 1);
    assert_eq!(row(&engine, "gas_left", now + 1).used_text, used);
}

/// One filling point fills both; only at a pump, where no flame may burn.
#[test]
fn a_refillable_cylinder_is_full_once_it_was_filled_at_a_pump() {
    let mut engine = demo("c");
    engine.report("pitch.ground", "level", &at(1)).unwrap();
    percent(&mut engine, "gas_left", 0.0, 1);
    percent(&mut engine, "gas_right", 40.0, 1);
    assert_eq!(row(&engine, "gas_left", 1).level_text, "Empty");
    let page = engine.alert("gas_cylinder.low", &at(2)).unwrap();
    let first = &page.meanings[0];
    assert_eq!((first.id.as_str(), first.certain), ("to_fill", true));
    assert_eq!(first.routine.as_ref().unwrap().id, "ready_to_refuel");
    let may = |engine: &Engine| engine.preview("cylinder_changed", &at(2)).unwrap();
    assert!(may(&engine).steps.iter().all(|step| step.id != "gas_filling.fill"));
    tell(&mut engine, &[("pitch.kind", "fuel_station"), ("pitch.flame", "forbidden")], &at(2));
    let steps = may(&engine).steps;
    assert!(steps.iter().any(|step| step.id == "gas_filling.fill"), "{steps:?}");
    for step in &steps {
        let lit = ["fridge.set_auto", "fridge.set_gas", "boiler.heat_gas"];
        assert!(!lit.contains(&step.id.as_str()), "nothing is lit at the pump: {}", step.id);
    }
    engine.open_run("cylinder_changed", &at(3)).unwrap();
    super::carry_out(&mut engine, &at(3));
    for id in ["gas_left", "gas_right"] {
        assert_eq!(row(&engine, id, 3).level_text, "Full", "{id}");
    }
    assert_eq!(engine.alert("gas_cylinder.low", &at(3)).unwrap().alert.shown, Shown::No);
}

#[test]
fn a_reading_that_says_empty_shows_gas_low_and_leads_to_the_change() {
    let mut engine = demo("a");
    let shown = |engine: &Engine, minute| {
        engine.alert("gas_cylinder.low", &at(minute)).unwrap().alert.shown
    };
    weigh(&mut engine, "gas_right", 22.9, 1);
    weigh(&mut engine, "gas_left", 23.4, 1);
    assert_eq!(shown(&engine, 1), Shown::No);
    for (kg, means) in [(14.0, "running_out"), (12.3, "one_empty")] {
        weigh(&mut engine, "gas_left", kg, 2);
        assert_eq!(shown(&engine, 2), Shown::Yes);
        let first = engine.alert("gas_cylinder.low", &at(2)).unwrap().meanings.remove(0);
        assert_eq!(first.id, means);
        assert_eq!(first.routine.unwrap().id, "cylinder_changed");
        let steps = engine.preview("cylinder_changed", &at(2)).unwrap().steps;
        assert!(steps.iter().any(|step| step.id == "hose_left.exchange"), "{kg}");
        assert!(steps.iter().all(|step| step.id != "hose_right.exchange"), "{kg}");
    }
    weigh(&mut engine, "gas_left", 23.4, 3);
    assert_eq!(shown(&engine, 3), Shown::No);
}

/// A full cylinder is no safer than an empty one.
#[test]
fn no_reading_clears_a_danger() {
    let mut engine = demo("a");
    tell(&mut engine, &[("hose_left.joint", "off")], &at(1));
    let dangers = |engine: &Engine| {
        let page = engine.now_page(&at(1)).unwrap();
        let items = page.items.into_iter().map(|item| (item.variable, item.severity));
        (page.verdict, items.collect::<Vec<_>>())
    };
    let before = dangers(&engine);
    assert_eq!(before.0, VerdictKind::Blocked);
    for kg in [11.9, 12.4, 14.0, 20.0, 23.9] {
        weigh(&mut engine, "gas_left", kg, 1);
        assert_eq!(dangers(&engine), before, "{kg}");
    }
}

#[test]
fn what_a_scale_showed_goes_into_a_file_and_back() {
    let mut engine = demo("a");
    weigh(&mut engine, "gas_left", 20.4, 1);
    let text = engine.export_text().unwrap();
    assert!(text.contains("\"unit\":\"kilograms\""), "as data");
    let mut other = Engine::in_memory("en").unwrap();
    other.import(text.as_bytes(), "kept.json", &at(2)).unwrap();
    assert_eq!(row(&other, "gas_left", 2).seen_text.as_deref(), Some("20.4 kg, cylinder and gas"));
    assert_eq!(other.export_text().unwrap(), text);
}

/// A pack from before cylinders were read: nothing of what they hold, nor of which are filled where.
#[test]
fn an_old_pack_is_read_and_its_cylinders_are_told_by_a_word() {
    const C: &str = include_str!("../../../../demo-data/c/pack.toml");
    let links = "links = { first = \"gas_left\", second = \"gas_right\" }\n";
    assert!(C.contains(links));
    let mut large = Engine::in_memory("en").unwrap();
    large.add_pack(&C.replace(links, ""), "c.toml", &at(0)).unwrap();
    tell(&mut large, &[("pitch.kind", "fuel_station"), ("pitch.flame", "forbidden")], &at(1));
    assert_eq!(row(&large, "gas_left", 1).level_text, "Not known", "filled where is not told");
    let engine = changed(WEIGHED, "");
    let row = gauge(&engine, "gas_left");
    assert_eq!((row.unit, row.current_text.as_str()), (GaugeUnit::Words, "Not known"));
    assert!(row.about.unwrap().starts_with("Nothing measures it: say what you see"));
}

/// Two pounds and seventeen in kilograms: what may be entered is what can be read, to the gram.
#[test]
fn a_tare_of_odd_grams_is_read_at_both_ends_of_its_range() {
    for (tare, contents, error) in [("7.7106", "11", "0.9072"), ("7.7114", "9.0714", "0.5")] {
        let values = format!(
            ", gauge_shows = \"weight\", tare_kg = {tare}, contents_kg = {contents}, weight_error_kg = {error}"
        );
        let mut engine = changed(WEIGHED, &values);
        let row = gauge(&engine, "gas_left");
        for end in [row.value_min, row.value_max] {
            weigh(&mut engine, "gas_left", end, 1);
        }
    }
}

#[test]
fn a_word_or_a_lamp_is_whole() {
    let mut engine = changed(WEIGHED, "");
    for (id, unit, takes) in [
        ("gas_left", GaugeUnit::Words, "a word for it: empty, nearly empty, part full, full"),
        ("fresh", GaugeUnit::Lamps, "how many lamps are lit, 0 to 4"),
    ] {
        let said = engine.enter_reading(id, unit, 1.6, &at(1));
        assert!(matches!(said, Err(Error::InvalidInput { expected, .. }) if expected == takes));
        assert_eq!(gauge(&engine, id).expects, takes);
    }
}
