//! Questions that are answered with numbers, asked of each invented vehicle, word for word as the
//! command answers them.
//!
//! Golden files stand in `tests/golden/reckon/`; `UPDATE_GOLDEN=1 cargo test --test reckon` writes them
//! anew.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails loudly")]

mod call;

use std::path::Path;

use call::stowfast;

/// What a question is asked with, and the figures told before.
type Case = (&'static [&'static str], &'static [(&'static str, &'static str)]);

const ASKED: [Case; 12] = [
    (
        &["gas", "--mix", "mix60", "--low", "-5"],
        &[
            ("heating_gas_kw", "2"),
            ("heating_gas_h_a_day", "10"),
            ("cooking_gas_kw", "1.8"),
            ("cooking_gas_h_a_day", "0.8"),
        ],
    ),
    (
        &["fuel", "--gauge", "60", "--trip", "200"],
        &[("fuel_l_100km", "11"), ("heating_diesel_kw", "2"), ("heating_diesel_h_a_night", "8")],
    ),
    (
        &[
            "urea",
            "--countdown",
            "600",
            "--gauge",
            "30",
            "--trip",
            "550",
            "--can",
            "10",
            "--low",
            "-14",
        ],
        &[],
    ),
    (&["tyres", "--axle_1", "4.2", "--axle_2", "3.4", "--warmth", "cold", "--dot", "2321"], &[]),
    (&["wind", "--beaufort", "b5", "--gust", "12"], &[("awning_m2", "7.5")]),
    (
        &["supply", "--post", "a10", "--by", "18:00"],
        &[
            ("boiler_mains_min", "60"),
            ("heater_mains_min", "120"),
            ("kettle_w", "1800"),
            ("kettle_min", "10"),
            ("vacuum_w", "700"),
            ("vacuum_min", "15"),
            ("e_bike_w", "240"),
            ("e_bike_min", "240"),
        ],
    ),
    (&["frost", "--low", "-6", "--outside", "3", "--inside", "18", "--heating", "off"], &[]),
    (&["boiler", "--cold", "12", "--room", "16", "--source", "gas"], &[("shower_l", "12")]),
    (&["power", "--nights", "3", "--charge", "85", "--cells", "cool"], &TOLD_OF_LOADS),
    (
        &["first", "--change", "one_fewer"],
        &[
            ("people", "2"),
            ("showers_a_day", "2"),
            ("shower_l", "12"),
            ("flushes_a_day", "5"),
            ("flush_l", "0.5"),
        ],
    ),
    (
        &["load", "--fuel", "80"],
        &[
            ("people_front", "2"),
            ("people_rear", "0"),
            ("lockers_kg", "120"),
            ("garage_kg", "150"),
            ("rack_kg", "55"),
        ],
    ),
    (
        &["level", "--pitch", "1.5", "--roll", "-0.8"],
        &[
            ("ramps_count", "2"),
            ("ramp_low_mm", "40"),
            ("ramp_middle_mm", "80"),
            ("ramp_high_mm", "120"),
        ],
    ),
];

/// What draws on the battery.
const TOLD_OF_LOADS: [(&str, &str); 14] = [
    ("lights_w", "12"),
    ("lights_h_a_day", "4"),
    ("pump_min_a_day", "15"),
    ("heater_fan_h_a_day", "0"),
    ("boiler_fan_h_a_day", "1"),
    ("fridge_runs_pct", "35"),
    ("tv_h_a_day", "2"),
    ("router_w", "0"),
    ("phones_w", "20"),
    ("phones_h_a_day", "3"),
    ("breathing_aid_w", "0"),
    ("inverter_w", "60"),
    ("inverter_h_a_day", "1"),
    ("other_w", "0"),
];

fn run(folder: &Path, args: &[&str]) -> (Option<i32>, String, String) {
    let mut command = stowfast(folder);
    let output = command.args(["--now", "2026-07-14T08:00:00Z"]).args(args).output().unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (output.status.code(), text(output.stdout), text(output.stderr))
}

fn says(folder: &Path, args: &[&str]) -> String {
    let (code, said, error) = run(folder, args);
    assert_eq!(code, Some(0), "{args:?}: {error}");
    said
}

fn refuses(args: &[&str], code: i32, with: &str) {
    refuses_of("c", args, code, with);
}

fn refuses_of(vehicle: &str, args: &[&str], code: i32, with: &str) {
    let folder = tempfile::tempdir().unwrap();
    says(folder.path(), &["demo", vehicle]);
    let (was, _, error) = run(folder.path(), args);
    assert_eq!(was, Some(code), "{args:?}: {error}");
    assert!(error.contains(with), "{args:?}: {error}");
}

/// Asked with nothing told, and with what [`ASKED`] has.
#[test]
fn reckon_golden_files_hold() {
    for vehicle in ["a", "b", "c"] {
        let folder = tempfile::tempdir().unwrap();
        let folder = folder.path();
        says(folder, &["demo", vehicle]);
        let list = says(folder, &["reckon"]);
        call::golden(&format!("reckon/{vehicle}.txt"), &list);
        for (asked, figures) in ASKED {
            let question = asked[0];
            if !list.contains(&format!("stowfast {question}\n")) {
                continue;
            }
            let file = |rest: &str| format!("reckon/{vehicle}_{question}{rest}");
            call::golden(&file("_bare.txt"), &says(folder, &[question]));
            for (figure, value) in figures {
                run(folder, &["figure", figure, value]);
            }
            call::golden(&file(".txt"), &says(folder, asked));
            let json: Vec<&str> = asked.iter().copied().chain(["--json"]).collect();
            call::golden(&file(".json"), &says(folder, &json));
        }
    }
}

/// Vehicles with panels, in July and in January.
#[test]
fn where_there_are_panels_the_sun_counts() {
    for vehicle in ["b", "c"] {
        let folder = tempfile::tempdir().unwrap();
        let folder = folder.path();
        says(folder, &["demo", vehicle]);
        for (figure, value) in TOLD_OF_LOADS {
            run(folder, &["figure", figure, value]);
        }
        for (month, now) in [("july", "2026-07-14T08:00:00Z"), ("january", "2027-01-14T08:00:00Z")]
        {
            let asked = ["power", "--charge", "85", "--latitude", "48", "--sky", "broken"];
            let said = says(folder, &[&["--now", now], &asked[..]].concat());
            call::golden(&format!("reckon/{vehicle}_power_{month}.txt"), &said);
        }
        let asked = ["power", "--charge", "85", "--latitude", "48", "--sky", "broken"];
        let said = says(folder, &[&asked[..], &["--month", "nov"]].concat());
        call::golden(&format!("reckon/{vehicle}_power_november.txt"), &said);
    }
}

/// A vehicle with a diesel heater, and how many nights are wanted of it; in miles and psi as well.
#[test]
fn where_a_heater_burns_diesel_nights_count() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    says(folder, &["demo", "b"]);
    for (figure, value) in [
        ("fuel_l_100km", "9"),
        ("heating_diesel_l_an_hour", "0.2"),
        ("heating_diesel_h_a_night", "10"),
    ] {
        says(folder, &["figure", figure, value]);
    }
    let said = says(folder, &["fuel", "--left", "35", "--trip", "120", "--nights", "4"]);
    call::golden("reckon/b_fuel_nights.txt", &said);
    says(folder, &["units", "imperial"]);
    let said =
        says(folder, &["fuel", "--left_gallons", "7.7", "--trip_miles", "75", "--nights", "12"]);
    call::golden("reckon/b_fuel_imperial.txt", &said);
    let said =
        says(folder, &["tyres", "--axle_1_psi", "47", "--axle_2_psi", "57", "--warmth", "warm"]);
    call::golden("reckon/b_tyres_imperial.txt", &said);
    let said = says(folder, &["tyres", "--axle_1_psi", "49", "--warmth", "cold"]);
    call::golden("reckon/b_tyres_imperial_cold.txt", &said);
}

/// A boiler and a heater with two powers on a weak post, and gas and mains together.
#[test]
fn what_has_two_powers_is_set_low_where_that_leaves_less_out() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    says(folder, &["demo", "c"]);
    for (figure, value) in [("boiler_mains_min", "30"), ("heater_mains_min", "60")] {
        says(folder, &["figure", figure, value]);
    }
    let said = says(folder, &["supply", "--post", "a6", "--by", "180"]);
    call::golden("reckon/c_supply_low.txt", &said);
    let mixed = ["boiler", "--cold", "12", "--room", "16", "--source", "mixed"];
    call::golden("reckon/c_boiler_mixed.txt", &says(folder, &mixed));
}

/// In °F, miles an hour, gallons and feet, where that is what is read.
#[test]
fn where_pages_are_imperial_so_is_what_is_picked() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    says(folder, &["demo", "c"]);
    says(folder, &["units", "imperial"]);
    for asked in [
        &["frost", "--low_f", "20", "--outside_f", "36", "--inside_f", "40"][..],
        &["wind", "--gust_mph", "40"],
        &["boiler", "--cold_f", "50", "--room_f", "60"],
        &["urea", "--can_gallons", "2.2", "--low_f", "10", "--trip_miles", "300"],
        &["supply", "--boiler_gallons", "2.2", "--cold_f", "50", "--hot_f", "140"],
        &["supply", "--lead_length_ft", "82", "--lead_section", "1.5", "--post", "a10"],
    ] {
        let which = if asked.contains(&"--lead_length_ft") { "lead" } else { asked[0] };
        call::golden(&format!("reckon/c_{which}_imperial.txt"), &says(folder, asked));
    }
    let (code, _, error) = run(folder, &["frost", "--low", "20"]);
    assert_eq!(code, Some(3), "{error}");
    assert!(error.contains("It can be asked here with: low_f, outside_f, inside_f"), "{error}");
}

/// Cylinders weighed on the first of the month, part full of a mixture: asked the same day and nine days
/// later; nothing told of the use, then all of it.
#[test]
fn cylinders_read_days_ago_hold_less() {
    let first = "2026-07-01T08:00:00Z";
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    says(folder, &["demo", "a"]);
    let at = |now: &str, args: &[&str]| says(folder, &[&["--now", now], args].concat());
    for told in
        [["engine.wheels", "still"], ["gas_left.valve", "open"], ["gas_right.valve", "shut"]]
    {
        at(first, &["report", told[0], told[1]]);
    }
    at(first, &["read", "gas_left", "20.4"]);
    at(first, &["read", "gas_right", "22.9"]);
    let asked = ["gas", "--mix", "mix60", "--low", "-5"];
    let later = "2026-07-10T08:00:00Z";
    call::golden("reckon/a_gas_read_untold.txt", &at(later, &asked));
    for (figure, value) in
        [("boiler_gas_kw", "4"), ("boiler_gas_h_a_day", "0.5"), ("fridge_gas_a_h_g", "10")]
    {
        at(first, &["figure", figure, value]);
    }
    call::golden("reckon/a_gas_read.txt", &at(first, &asked));
    call::golden("reckon/a_gas_read_later.txt", &at(later, &asked));
}

/// Every question is asked of one vehicle at least, and is a command of its own in the help.
#[test]
fn every_question_is_asked() {
    let help = says(Path::new("."), &["help"]);
    for question in stowfast_core::engine::reckonings() {
        assert!(ASKED.iter().any(|(asked, _)| asked[0] == question), "{question}");
        assert!(help.contains(&format!("\n  {question} ")), "{question}");
    }
}

#[test]
fn a_pick_that_does_not_fit_is_refused_with_what_was_expected() {
    refuses(
        &["wind", "--gust", "fast"],
        3,
        "if it names them: expected 0 metres a second to 80 metres",
    );
    refuses(&["wind", "--beaufort", "13"], 3, "Wind in the forecast: expected b0, b1");
    refuses(&["wind", "--gusts", "12"], 3, "It can be asked here with: beaufort, gust");
    refuses(&["tyres", "--dot", "5398"], 3, "week and year of a tyre");
    refuses(&["urea", "--countdown_miles", "300"], 3, "It can be asked here with: dash, countdown");
    refuses(&["now", "--gust", "12"], 2, "--gust");
    refuses_of("b", &["gas"], 3, "nothing to ask that of. What can be asked: stowfast reckon");
    let yet = "Nothing can be picked yet. What it needs told: stowfast first";
    refuses_of("a", &["first", "--change", "two_showers"], 3, yet);
}

/// A battery that was read on two evenings, on the vehicle with panels: a grey day is one of the changes
/// once place and sky are picked; before, it is said what is missing.
#[test]
fn a_grey_day_can_be_asked_of_a_battery_under_panels() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    says(folder, &["demo", "b"]);
    let told = [
        ("engine.running", "off"),
        ("engine.wheels", "still"),
        ("battery.load", "little"),
        ("battery.sun", "dark"),
        ("mains_switch.lever", "off"),
    ];
    for (what, setting) in told {
        says(folder, &["--now", "2026-07-14T16:00:00Z", "report", what, setting]);
    }
    for (now, volts) in [("2026-07-14T22:00:00Z", "13.40"), ("2026-07-15T22:00:00Z", "13.30")] {
        says(folder, &["--now", now, "read", "battery", volts]);
    }
    let asks = |picks: &[&str]| {
        says(folder, &[&["--now", "2026-07-15T22:00:00Z", "first"], picks].concat())
    };
    call::golden("reckon/b_first_battery.txt", &asks(&[]));
    let place = ["--latitude", "48", "--sky", "broken"];
    call::golden("reckon/b_first_grey.txt", &asks(&place));
    let chosen = asks(&[&place[..], &["--change", "grey_day"]].concat());
    call::golden("reckon/b_first_grey_day.txt", &chosen);
    assert!(!asks(&["--latitude", "48", "--sky", "overcast"]).contains("grey_day"));
}
