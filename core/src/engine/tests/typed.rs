//! In which unit a number is typed: the one in which it is read, of every question and on every vehicle.

use super::at;
use crate::engine::{Choice, Engine, NumberChoice, Pick, Reckoning};
use crate::units::Units;

/// What a unit is of the metric one of the same quantity: its words, how many make one, where it begins.
const OWN: [(&str, f64, f64); 6] = [
    ("°F", 1.0 / 1.8, 32.0),
    ("mile an hour", 0.447_04, 0.0),
    ("mile", 1.609_344, 0.0),
    ("gallon", 4.546_09, 0.0),
    ("feet", 0.304_8, 0.0),
    ("psi", 0.068_947_57, 0.0),
];
/// None of these stands in imperial pages where a number is typed.
const METRIC: [&str; 8] =
    ["°C", "metre a", "metres", "kilometre", "litre", "millilitre", "centimetre", "bar"];

fn engine(vehicle: &str, units: Units) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo(vehicle, &at(0)).unwrap();
    engine.set_units(units.code()).unwrap();
    engine
}

fn ask(engine: &Engine, question: &str, picks: &[(&str, f64)]) -> Reckoning {
    let pick = |(choice, value): &(&str, f64)| Pick {
        choice: (*choice).to_owned(),
        value: value.to_string(),
    };
    let picks: Vec<_> = picks.iter().map(pick).collect();
    engine.reckon(question, &picks, &at(1)).unwrap_or_else(|error| panic!("{picks:?}: {error}"))
}

fn numbers(page: &Reckoning) -> Vec<(&Choice, &NumberChoice)> {
    page.choices.iter().filter_map(|one| Some((one, one.number.as_ref()?))).collect()
}

/// What stands after the number, of one as of many.
fn unit(said: &str) -> String {
    let unit = said.split_once(' ').map_or("", |(_, unit)| unit).replace("foot", "feet");
    unit.split(' ').map(|word| word.trim_end_matches('s')).collect::<Vec<_>>().join(" ")
}

/// Each question of each vehicle.
fn questions(mut of: impl FnMut(&str, &str)) {
    for vehicle in ["a", "b", "c"] {
        for row in engine(vehicle, Units::Metric).reckonings().unwrap() {
            of(vehicle, &row.id);
        }
    }
}

/// Where each number stands in a range, with its unit.
fn ends(number: &NumberChoice) -> [f64; 3] {
    let middle = f64::midpoint(number.value_min, number.value_max);
    [number.value_min, (middle * 10.0).round() / 10.0, number.value_max]
}

#[test]
fn a_number_is_typed_and_said_back_in_the_unit_of_its_range() {
    for units in Units::ALL {
        questions(|vehicle, question| {
            let engine = engine(vehicle, units);
            let bare = ask(&engine, question, &[]);
            for (choice, number) in numbers(&bare) {
                let told = format!("{vehicle} {question} {} {}", choice.id, number.range_text);
                let (least, most) = number.range_text.split_once(" to ").unwrap();
                assert_eq!(unit(least), unit(most), "{told}");
                if choice.id == "dot" {
                    continue;
                }
                for value in ends(number) {
                    let page = ask(&engine, question, &[(&choice.id, value)]);
                    let all = numbers(&page);
                    let (_, now) = all.iter().find(|(one, _)| one.id == choice.id).unwrap();
                    assert_eq!((now.value, &now.range_text), (Some(value), &number.range_text));
                    let said = now.value_text.as_deref().unwrap();
                    assert_eq!(unit(said), unit(most), "{told}: {said}");
                    let first = said.split([' ', '°']).next();
                    assert_eq!(first, Some(&*value.to_string()), "{told}");
                }
                if units == Units::Imperial {
                    let typed = [&*choice.title, &number.range_text].join(" ");
                    assert!(!METRIC.iter().any(|word| typed.contains(word)), "{told}");
                }
            }
        });
    }
}

/// The same quantity, typed in either unit, has the same answer; and whatever can be typed in one can be
/// typed in the other.
#[test]
fn an_answer_hangs_on_the_quantity_not_on_its_unit() {
    let mut others = 0;
    questions(|vehicle, question| {
        let [metric, imperial] = Units::ALL.map(|units| engine(vehicle, units));
        let (here, there) = (ask(&metric, question, &[]), ask(&imperial, question, &[]));
        let (here, there) = (numbers(&here), numbers(&there));
        assert_eq!(here.len(), there.len());
        for ((choice, number), (typed, shown)) in here.into_iter().zip(there) {
            if choice.id == typed.id {
                assert_eq!(number.range_text, shown.range_text, "one name, one unit");
                continue;
            }
            others += 1;
            let (_, most) = shown.range_text.split_once(" to ").unwrap();
            let (_, per, zero) = OWN.iter().find(|(words, ..)| *words == unit(most)).unwrap();
            let own = |value: f64| (value - zero) * per;
            assert!(own(shown.value_min) <= number.value_min + 1e-9, "{} {typed:?}", choice.id);
            assert!(own(shown.value_max) >= number.value_max - 1e-9, "{} {typed:?}", choice.id);
            let [_, middle, _] = ends(shown);
            let one = ask(&metric, question, &[(&choice.id, own(middle))]);
            let other = ask(&imperial, question, &[(&typed.id, middle)]);
            same(&one, &other);
        }
    });
    assert!(others >= 30, "{others} choices have another unit");
}

fn same(one: &Reckoning, other: &Reckoning) {
    assert_eq!((one.mark, one.missing.len()), (other.mark, other.missing.len()), "{}", one.id);
    let lines = |page: &Reckoning| {
        let lines = page.parts.iter().flat_map(|part| part.lines.clone()).collect::<Vec<_>>();
        lines.into_iter().filter(|line| !line.id.starts_with("use_")).collect::<Vec<_>>()
    };
    for (a, b) in lines(one).into_iter().zip(lines(other)) {
        assert_eq!((&a.id, a.mark, a.lower.is_some()), (&b.id, b.mark, b.lower.is_some()));
        for (a, b) in [(a.lower, b.lower), (a.upper, b.upper)] {
            let (a, b) = (a.unwrap_or_default(), b.unwrap_or_default());
            assert!((a - b).abs() <= 1e-6 * a.abs().max(1.0), "{a} {b}");
        }
    }
}

/// 20 °F are a hard frost, not a warm night; and in imperial units nothing is read as °C.
#[test]
fn a_night_told_in_fahrenheit_is_that_night() {
    let engine = engine("c", Units::Imperial);
    let page = ask(&engine, "frost", &[("low_f", 20.0), ("outside_f", 36.0), ("inside_f", 40.0)]);
    assert!(!page.verdict_text.contains("Holds tonight"), "{}", page.verdict_text);
    let low = Pick { choice: "low".into(), value: "20".into() };
    assert!(engine.reckon("frost", &[low], &at(1)).is_err());
}

/// What people tell is a count, or names its unit where it is typed, and is said back in it.
#[test]
fn a_figure_names_the_unit_in_which_it_is_typed() {
    const COUNTS: [&str; 6] =
        ["people", "showers_a_day", "flushes_a_day", "people_front", "people_rear", "ramps_count"];
    for vehicle in ["a", "b", "c"] {
        let said = |units| {
            let mut engine = engine(vehicle, units);
            for row in engine.figures(&at(1)).unwrap() {
                assert_eq!(row.unit_text.is_none(), COUNTS.contains(&&*row.id), "{}", row.id);
                engine.tell_figure(&row.id, Some(row.value_max), &at(2)).unwrap();
            }
            let rows = engine.figures(&at(3)).unwrap();
            rows.into_iter().map(|row| row.value_text.unwrap()).collect::<Vec<_>>()
        };
        let [metric, imperial] = Units::ALL.map(said);
        assert_eq!(metric, imperial);
    }
}
