//! Every number of the catalogue is changed in a pack, and what it is for is seen to follow. A
//! number that no row names fails.

use std::collections::BTreeSet;

use stowfast_core::catalogue::{Catalogue, Datum, Kind};
use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Engine, GaugeUnit, Pick};
use stowfast_core::vehicle::Vehicle;

use crate::bench::{pack_of, vehicle, words};

mod dash;
mod questions;

use questions::{answer, power, supply};

/// What follows a number.
enum Follows {
    /// How long an age is young.
    Age,
    /// After how long something may have changed by itself.
    Settling,
    /// The words of a caution or a sign, by their key below the kind.
    Words(&'static str),
    /// What a reading of a gauge gives: how it shows, and what it shows.
    Reading(&'static str, GaugeUnit, f64),
    /// How long a battery rests before its volts count.
    Rest,
    /// How long the fridge waits before gas.
    FridgeWait,
    /// How long before a trip the fridge is switched on.
    FridgeChill,
    /// Whether it is too much for a post with 6 A.
    Draw,
    /// What is said of the pitch's supply.
    Supply,
    /// What is said of the battery ahead.
    Power,
    /// What a question of numbers is answered, with other values beside.
    Answer(&'static str, &'static str),
}
use Follows::{
    Age, Answer, Draw, FridgeChill, FridgeWait, Power, Reading, Rest, Settling, Supply, Words,
};

const PERCENT: &str = "gauge_shows = \"percent\", ";
const LITRES: &str = "gauge_shows = \"litres\", ";
const OF_VOLUME: &str = "gauge_shows = \"percent\", percent_of = \"volume\", ";
const CONTENTS: &str = "gauge_shows = \"weight\", contents_kg = 11, ";
const TARE: &str = "gauge_shows = \"weight\", tare_kg = 6, ";
const STAMPED: &str = "gauge_shows = \"weight\", tare_kg = 6, contents_kg = 11, ";
const LAMPS: &str = "gauge_shows = \"lamps\", ";

const BELOW: &str = "sits = \"underfloor\", insulated = \"yes\", ";
const PIPE: &str = "pipes_sit = \"underfloor\", pipe_bore_mm = 10, pipe_foam_mm = 9, ";
const PIPE_OUTER: &str = "pipes_sit = \"underfloor\", pipe_bore_mm = 10, pipe_outer_mm = 12, ";
/// `kind.value`, two numbers that a pack may give, and what follows.
const NUMBERS: &[(&str, [&str; 2], Follows)] = &[
    ("boiler.cool_min", ["30", "90"], Age),
    ("boiler.frost_min", ["30", "90"], Settling),
    ("boiler.mains_w", ["900", "1400"], Draw),
    ("boiler.capacity_l", ["8", "14"], Answer("boiler", "")),
    ("boiler.gas_w", ["1200", "4000"], Answer("boiler", "capacity_l = 10, ")),
    ("boiler.low_w", ["750", "900"], Answer("boiler", "capacity_l = 10, two_powers = true, ")),
    ("fresh_tank.heater_w", ["5", "500"], Answer("frost", BELOW)),
    ("waste_tank.heater_w", ["5", "500"], Answer("frost", BELOW)),
    (
        "pump.pipe_bore_mm",
        ["8", "30"],
        Answer("frost", "pipes_sit = \"underfloor\", pipe_outer_mm = 32, "),
    ),
    ("pump.pipe_outer_mm", ["14", "60"], Answer("frost", PIPE)),
    ("pump.pipe_foam_mm", ["0", "40"], Answer("frost", PIPE_OUTER)),
    ("boiler.dc_w", ["10", "40"], Power),
    ("brakes.stood_days", ["3", "9"], Settling),
    ("cassette_toilet.dose_ml", ["80", "150"], Words("caution.add_dose")),
    ("cassette_toilet.capacity_l", ["15", "40"], Reading(LITRES, GaugeUnit::Litres, 14.0)),
    (
        "cassette_toilet.band_edges_pct",
        ["[5, 85]", "[60, 85]"],
        Reading(PERCENT, GaugeUnit::Percent, 50.0),
    ),
    ("cassette_toilet.lamp_steps_pct", ["[10]", "[95]"], Reading(LAMPS, GaugeUnit::Lamps, 1.0)),
    ("cassette_toilet.gauge_error_pct", ["1", "20"], Reading(PERCENT, GaugeUnit::Percent, 75.0)),
    ("cassette_toilet.litres_error_l", ["1", "8"], Reading(LITRES, GaugeUnit::Litres, 12.0)),
    ("cassette_toilet.used_h", ["3", "9"], Settling),
    ("cassette_toilet.filled_up_h", ["3", "9"], Settling),
    ("charger.mains_w", ["200", "600"], Supply),
    ("co_alarm.test_days", ["3", "9"], Settling),
    ("co_alarm.date_days", ["3", "9"], Settling),
    ("extinguisher.check_days", ["3", "9"], Settling),
    ("extractor.dc_w", ["10", "40"], Power),
    ("flue.clearance_cm", ["30", "80"], Words("sign.outlet")),
    ("fresh_tank.capacity_l", ["60", "200"], Reading(LITRES, GaugeUnit::Litres, 50.0)),
    (
        "fresh_tank.band_edges_pct",
        ["[2, 15, 35, 90]", "[2, 15, 60, 90]"],
        Reading(PERCENT, GaugeUnit::Percent, 50.0),
    ),
    (
        "fresh_tank.lamp_steps_pct",
        ["[5, 33, 66, 95]", "[1, 5, 8, 12]"],
        Reading(LAMPS, GaugeUnit::Lamps, 2.0),
    ),
    ("fresh_tank.gauge_error_pct", ["1", "30"], Reading(PERCENT, GaugeUnit::Percent, 50.0)),
    ("fresh_tank.litres_error_l", ["1", "30"], Reading(LITRES, GaugeUnit::Litres, 50.0)),
    ("fresh_tank.fill_min", ["5", "20"], Age),
    ("fresh_tank.rises_min", ["3", "9"], Settling),
    ("fresh_tank.used_h", ["3", "9"], Settling),
    ("fresh_tank.used_up_h", ["3", "9"], Settling),
    ("fridge_compressor.dc_w", ["30", "60"], Power),
    ("fridge_three_way.dc_w", ["2", "9"], Power),
    ("fridge_three_way.dc_heat_w", ["90", "190"], Power),
    ("fridge_three_way.chill_h", ["3", "8"], FridgeChill),
    ("fridge_three_way.gas_delay_min", ["10", "40"], FridgeWait),
    ("fridge_three_way.mains_w", ["120", "250"], Supply),
    ("fridge_three_way.stays_cold_h", ["3", "8"], Words("caution.set_off")),
    ("fridge_vent_covers.below_c", ["2", "12"], Words("caution.fit")),
    ("frost_valve.opens_below_c", ["2", "5"], Words("sign.warmth")),
    ("frost_valve.closes_above_c", ["6", "9"], Words("sign.warmth")),
    ("frost_valve.frost_min", ["30", "90"], Settling),
    ("gas_alarm.test_days", ["3", "9"], Settling),
    ("gas_alarm.date_days", ["3", "9"], Settling),
    (
        "gas_cylinder.band_edges_pct",
        ["[5, 20, 90]", "[5, 60, 90]"],
        Reading(PERCENT, GaugeUnit::Percent, 50.0),
    ),
    ("gas_cylinder.gauge_error_pct", ["1", "30"], Reading(PERCENT, GaugeUnit::Percent, 50.0)),
    ("gas_cylinder.fill_limit_pct", ["70", "80"], Reading(OF_VOLUME, GaugeUnit::Percent, 35.0)),
    ("gas_cylinder.volume_l", ["20", "40"], Reading(PERCENT, GaugeUnit::Percent, 50.0)),
    ("gas_cylinder.tare_kg", ["5.5", "7.5"], Reading(CONTENTS, GaugeUnit::Kilograms, 14.0)),
    ("gas_cylinder.contents_kg", ["9", "20"], Reading(TARE, GaugeUnit::Kilograms, 14.0)),
    ("gas_cylinder.weight_error_kg", ["0.1", "2"], Reading(STAMPED, GaugeUnit::Kilograms, 14.0)),
    ("gas_cylinder.used_days", ["3", "9"], Settling),
    ("heater_diesel.after_run_min", ["2", "9"], Age),
    ("heater_diesel.fuel_floor_pct", ["10", "30"], Words("sign.fuel")),
    ("heater_diesel.dc_w", ["15", "60"], Power),
    ("heater_electric.after_run_min", ["2", "9"], Age),
    ("heater_electric.mains_w", ["900", "1400"], Draw),
    ("heater_electric.low_w", ["750", "900"], Supply),
    ("heater_gas.after_run_min", ["2", "9"], Age),
    ("heater_gas.dc_w", ["15", "60"], Power),
    ("height_note.height_m", ["2.8", "3.3"], Words("sign.note")),
    ("hob.cool_min", ["5", "25"], Age),
    ("inverter.standby_w", ["5", "25"], Power),
    ("leisure_battery.rest_h", ["3", "5"], Rest),
    (
        "leisure_battery.band_edges_pct",
        ["[10, 35, 65, 90]", "[2, 4, 6, 8]"],
        Reading("", GaugeUnit::Volts, 12.4),
    ),
    ("leisure_battery.drains_h", ["3", "9"], Settling),
    ("leisure_battery.charges_h", ["3", "9"], Settling),
    ("leisure_battery.full_h", ["3", "9"], Age),
    ("main_switch.breaker_a", ["10", "16"], Supply),
    ("mains_lead.length_m", ["10", "25"], Supply),
    ("mains_lead.section_mm2", ["1.5", "2.5"], Supply),
    ("leisure_battery.capacity_ah", ["80", "200"], Power),
    ("leisure_battery.rated_h", ["5", "100"], Power),
    ("leisure_battery.capacity_5h_ah", ["70", "90"], Power),
    ("leisure_battery.alternator_a", ["10", "40"], Power),
    ("leisure_battery.mains_a", ["10", "40"], Power),
    ("main_switch.rcd_days", ["3", "9"], Settling),
    ("pump.dc_w", ["20", "90"], Power),
    ("pump_line.purge_s", ["10", "20"], Words("caution.clear")),
    ("roof.snow_h", ["3", "9"], Settling),
    ("smoke_alarm.test_days", ["3", "9"], Settling),
    ("smoke_alarm.date_days", ["3", "9"], Settling),
    ("solar_regulator.panel_wp", ["100", "300"], Power),
    ("starter_battery.rest_h", ["3", "5"], Rest),
    (
        "starter_battery.band_edges_pct",
        ["[10, 35, 65, 90]", "[2, 4, 6, 8]"],
        Reading("", GaugeUnit::Volts, 12.4),
    ),
    ("starter_battery.drains_days", ["3", "9"], Settling),
    ("television.dc_w", ["20", "60"], Power),
    ("travel_drain.keeps_l", ["10", "30"], Words("caution.let_down")),
    ("tyres.age_years", ["5", "8"], Words("sign.age")),
    ("tyres.due_days", ["3", "9"], Settling),
    ("tyres.overdue_days", ["3", "9"], Settling),
    ("urea_tank.capacity_l", ["8", "20"], Words("caution.fill")),
    ("urea_tank.warning_km", ["800", "2400"], Words("sign.countdown")),
    ("waste_tank.capacity_l", ["60", "200"], Reading(LITRES, GaugeUnit::Litres, 55.0)),
    (
        "waste_tank.band_edges_pct",
        ["[5, 85]", "[60, 85]"],
        Reading(PERCENT, GaugeUnit::Percent, 50.0),
    ),
    ("waste_tank.lamp_steps_pct", ["[1]", "[95]"], Reading(LAMPS, GaugeUnit::Lamps, 1.0)),
    ("waste_tank.gauge_error_pct", ["1", "30"], Reading(PERCENT, GaugeUnit::Percent, 75.0)),
    ("waste_tank.litres_error_l", ["1", "30"], Reading(LITRES, GaugeUnit::Litres, 65.0)),
    ("waste_tank.filled_h", ["3", "9"], Settling),
    ("waste_tank.filled_up_h", ["3", "9"], Settling),
    ("water_system.soak_min", ["20", "90"], Age),
    ("water_system.due_days", ["3", "9"], Settling),
];
/// The question beside a reading speaks of "something big": nobody types amperes yet.
const NOT_ASKED_FOR: [&str; 2] = ["leisure_battery.rest_load_a", "starter_battery.rest_load_a"];

/// They count with the measures of the whole vehicle alone, so they are followed on one that has them.
const PLACES: [&str; 4] =
    ["cassette_toilet.at_m", "fresh_tank.at_m", "gas_cylinder.at_m", "waste_tank.at_m"];

/// Fittings that a kind's rules speak of, and that a pack with it therefore has.
const PARTNERS: [(&str, &[&str]); 7] = [
    ("boiler", &["frost_valve"]),
    ("frost_valve", &["boiler"]),
    ("gas_hose", &["gas_cylinder"]),
    ("pump_line", &["pump", "fresh_tank"]),
    ("travel_drain", &["fresh_tank"]),
    ("fridge_three_way", &["gas_cylinder", "mains_lead", "main_switch"]),
    ("leisure_battery", &["main_switch"]),
];

fn fitted<'a>(kind: &'a str, lines: &'a str) -> Vec<(&'a str, &'a str)> {
    let partners = PARTNERS.iter().filter(|(of, _)| *of == kind).flat_map(|(_, kinds)| *kinds);
    partners.map(|kind| (*kind, "")).chain([(kind, lines)]).collect()
}

fn with(kind: &str, value: &str, number: &str) -> Vehicle {
    vehicle(&fitted(kind, &format!("values = {{ {value} = {number} }}")))
}

fn at(minutes: i64) -> Stamp {
    Stamp::utc(1_800_000_000_000 + minutes * 60_000)
}

fn engine(kind: &str, values: &str) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    let lines = format!("values = {{ {values} }}");
    engine.add_pack(&pack_of(&fitted(kind, &lines)), "made up", &at(0)).unwrap();
    engine
}

/// What the engine makes of a reading on a battery or tank that is fit to be read, `after` so long.
fn reading(kind: &str, values: &str, unit: GaugeUnit, value: f64, after: i64) -> String {
    let mut engine = engine(kind, values);
    let facts = [
        ("engine.running", "off".to_owned()),
        ("pitch.ground", "level".to_owned()),
        (&format!("{kind}.power"), "on".to_owned()),
        (&format!("{kind}.load"), "little".to_owned()),
        ("main_switch.lever", "off".to_owned()),
    ];
    for (variable, setting) in facts {
        _ = engine.report(variable, &setting, &at(0));
    }
    let changes = engine.enter_reading(kind, unit, value, &at(after)).unwrap();
    let gauges = engine.gauges(&at(after)).unwrap();
    let row = gauges.iter().find(|row| row.id == kind).unwrap();
    format!("{:?} {}", changes.warnings, row.current_text)
}

fn ms_per_unit(value: &str) -> i64 {
    match value.rsplit('_').next().unwrap() {
        "min" => 60_000,
        "h" => 3_600_000,
        "days" => 86_400_000,
        other => panic!("{other}"),
    }
}

/// Whether something may have changed by itself after that long.
fn settles(kind: &str, value: &str, number: &str, limit_ms: i64) -> bool {
    let settlings = with(kind, value, number).settlings;
    settlings.iter().any(|one| one.after_ms == limit_ms || one.latest_ms == Some(limit_ms))
}

/// Whether what the number is for follows it.
fn follows(kind: &str, value: &str, numbers: &[&str; 2], what: &Follows) -> bool {
    let [one, other] = numbers;
    let read = |values: &str, unit: GaugeUnit, shown: f64, number: &str, after: i64| {
        reading(kind, &format!("{values}{value} = {number}"), unit, shown, after)
    };
    let unit = |number: &str| number.parse::<i64>().unwrap() * ms_per_unit(value);
    match what {
        Age => [one, other].iter().all(|number| {
            let vehicle = with(kind, value, number);
            let limit = unit(number);
            vehicle.variables.iter().any(|known| {
                known.age_of.is_some_and(|age| age.limit_ms == limit)
                    && known.id.ends_with(&format!(".{value}"))
            })
        }),
        Settling => [one, other].iter().all(|number| settles(kind, value, number, unit(number))),
        Words(key) => words(&format!("{kind}.{key}")).contains(&format!("{{{value}}}")),
        Reading(values, unit, shown) => {
            read(values, *unit, *shown, one, 1_440) != read(values, *unit, *shown, other, 1_440)
        }
        Rest => {
            let early = unit(one) / 60_000;
            read("", GaugeUnit::Volts, 12.4, one, early)
                != read("", GaugeUnit::Volts, 12.4, other, early)
        }
        Draw => [one, other].iter().all(|number| {
            let rules = with(kind, value, number).clauses;
            let too_much = number.parse::<f64>().unwrap() > 6.0 * 230.0;
            rules.iter().any(|rule| rule.id.ends_with("r_above_6_a")) == too_much
        }),
        Supply => supply(kind, value, one) != supply(kind, value, other),
        Power => power(kind, value, one) != power(kind, value, other),
        Answer(question, values) => {
            let of = |number: &str| answer(kind, &format!("{values}{value} = {number}"), question);
            of(one) != of(other)
        }
        FridgeChill => [one, other].iter().all(|number| {
            let mut engine = engine(kind, &format!("{value} = {number}"));
            engine.report("fridge_three_way.selector", "auto", &at(0)).unwrap();
            let page = engine.fridge(&at(0)).unwrap().unwrap();
            page.ahead[0].lines[0].contains(&format!("{number} hours before you load it"))
        }),
        FridgeWait => [one, other].iter().all(|number| {
            let mut engine = engine(kind, &format!("{value} = {number}"));
            for (variable, setting) in [
                ("fridge_three_way.selector", "auto"),
                ("gas_cylinder.valve", "open"),
                ("mains_lead.vehicle_end", "out"),
                ("engine.running", "on"),
                ("engine.running", "off"),
            ] {
                engine.report(variable, setting, &at(0)).unwrap();
            }
            let page = engine.fridge(&at(0)).unwrap().unwrap();
            format!("{page:?}").contains(&format!("{number} min"))
        }),
    }
}

fn numbers(kind: &Kind) -> impl Iterator<Item = String> {
    let numbers = kind
        .values
        .iter()
        .filter(|value| matches!(value.default, Some(Datum::Number(_) | Datum::Numbers(_)) | None));
    numbers.map(move |value| format!("{}.{}", kind.id, value.id))
}

#[test]
fn every_number_of_a_pack_is_followed() {
    let unfollowed = NUMBERS.iter().chain(&dash::ROWS).filter(|(path, pair, what)| {
        let (kind, value) = path.split_once('.').unwrap();
        !follows(kind, value, pair, what)
    });
    let unfollowed: Vec<_> = unfollowed.map(|(path, ..)| path).collect();
    assert!(unfollowed.is_empty(), "{unfollowed:?}");
}

#[test]
fn no_number_of_the_catalogue_goes_without_its_row() {
    let all: BTreeSet<_> =
        Catalogue::built_in().unwrap().kinds.values().flat_map(numbers).collect();
    let named = NUMBERS.iter().chain(&dash::ROWS).map(|(path, ..)| *path);
    let named = named.chain(NOT_ASKED_FOR).chain(PLACES);
    assert_eq!(all, named.map(str::to_owned).collect());
}

/// What stands elsewhere along the vehicle loads its axles otherwise.
#[test]
fn every_place_along_the_vehicle_is_followed() {
    let pack = include_str!("../../../demo-data/c/pack.toml");
    let load = |pack: &str| {
        let mut engine = Engine::in_memory("en").unwrap();
        engine.add_pack(pack, "moved", &at(0)).unwrap();
        for row in engine.gauges(&at(0)).unwrap() {
            _ = engine.report(&format!("{}.level", row.id), "full", &at(0));
        }
        let told = [("people_front", 2.0), ("people_rear", 0.0), ("lockers_kg", 120.0)];
        for (figure, value) in told.into_iter().chain([("garage_kg", 150.0), ("rack_kg", 55.0)]) {
            engine.tell_figure(figure, Some(value), &at(0)).unwrap();
        }
        let fuel = Pick { choice: "fuel".to_owned(), value: "80".to_owned() };
        format!("{:?}", engine.reckon("load", &[fuel], &at(0)).unwrap().parts)
    };
    let parts: Vec<_> = pack.split(" at_m = ").collect();
    assert!(parts.len() > PLACES.len(), "{}", parts.len());
    for moved in 1..parts.len() {
        let mut parts: Vec<_> = parts.iter().map(|part| (*part).to_owned()).collect();
        let (_, rest) = parts[moved].split_once([',', ' ']).unwrap();
        parts[moved] = format!("2.2, {}", rest.trim_start());
        assert_ne!(load(pack), load(&parts.join(" at_m = ").replace("2.2, }", "2.2 }")), "{moved}");
    }
}

/// Each says that it is a default where it is one, and where that comes from.
#[test]
fn every_number_has_a_source_and_a_default_unless_it_is_stamped_on() {
    for kind in Catalogue::built_in().unwrap().kinds.values() {
        for value in &kind.values {
            assert!(!value.source.is_empty(), "{}.{}", kind.id, value.id);
            let stamped = value.source == "on its plate or in its manual"
                || value.source == "stamped on the cylinder"
                || value.source.ends_with("; no default");
            assert_eq!(value.default.is_none(), stamped, "{}.{}", kind.id, value.id);
        }
    }
}
