//! Gauges: what each can show, what a reading gives, and why one does not count.

mod shows;

pub(super) use shows::unit_of;

use super::gas;
use super::loaded::Loaded;
use super::page::{GaugeRow, GaugeUnit, QuestionRow};
use super::reserve::Scale;
use super::words::Words;
use crate::catalogue::Measured;
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::fridge::{Age, Known};
use crate::reserve::battery::{self, Doubt};
use crate::reserve::chemistry::{Chemistry, Table};
use crate::reserve::tank::{self, Tank};
use crate::reserve::{Amount, Bands, Validity, whole};
use crate::vehicle::{Fitting, Gauge, Literal, Settings, Variable};
use shows::VOLTS;

const PERMILLE: u32 = 10;
const MILLI: u32 = 1_000;
const MS_PER_H: f64 = 3_600_000.0;

/// What a reading gives: the bands it touches, in words what it says, and whether it counts.
pub(super) struct Read {
    pub(super) settings: Settings,
    /// What it says of what else draws from the tank.
    pub(super) beside: Vec<(usize, Settings)>,
    pub(super) said: String,
    pub(super) trust: Trust,
}

/// How far a reading counts, in words.
pub(super) struct Trust {
    /// Everything that keeps it from counting.
    pub(super) against: Vec<String>,
    /// What nobody has said and is taken for granted.
    assumed: Vec<String>,
}

impl Trust {
    /// Why a reading does not count, else what it takes for granted, else nothing.
    pub(super) fn note(&self, words: &Words) -> Option<String> {
        let assumed = self.assumed.join(&words.say("gauge.tank.and", &[]));
        match (self.against.is_empty(), assumed.is_empty()) {
            (false, _) => Some(self.against.join("; ")),
            (true, false) => Some(words.say("gauge.tank.assumed", &[("what", &assumed)])),
            (true, true) => None,
        }
    }
}

impl Loaded {
    pub(super) fn gauges(&self, language: &str, now: &Stamp) -> Result<Vec<GaugeRow>> {
        let words = self.words(language)?;
        let fitted = self.vehicle.fittings.iter();
        fitted
            .filter_map(|fitting| Some((fitting, fitting.gauge.as_ref()?)))
            .map(|(fitting, gauge)| self.gauge(&words, fitting, gauge, now))
            .collect()
    }

    fn gauge(
        &self,
        words: &Words,
        fitting: &Fitting,
        gauge: &Gauge,
        now: &Stamp,
    ) -> Result<GaugeRow> {
        let unit = unit_of(fitting, gauge)?;
        let (value_min, value_max) = shows::range(fitting, gauge)?;
        let belief = self.state.belief(gauge.variable);
        let settings = belief.map_or(Settings::NONE, |belief| belief.settings);
        let known = belief.and_then(|belief| belief.known.as_ref());
        let trust = self.trust(words, fitting, gauge, None, now)?;
        Ok(GaugeRow {
            id: fitting.id.clone(),
            title: Words::sentence(&words.label(gauge.variable)),
            unit,
            expects: shows::expects(words, fitting, gauge)?,
            variable: known_as(self.vehicle.variables.get(gauge.variable)),
            choices: shows::choices(words, fitting, gauge)?,
            value_min,
            value_max,
            current_text: Words::sentence(&words.settings(gauge.variable, settings)),
            age_text: known.map(|known| words.known(known, now)),
            about: (gauge.of == Measured::Gas).then(|| gas::about(words, fitting)),
            counts: trust.against.is_empty(),
            note: trust.note(words).map(|note| Words::sentence(&note)),
            questions: gauge.asks.iter().map(|asked| self.question(words, *asked)).collect(),
        })
    }

    fn question(&self, words: &Words, number: usize) -> QuestionRow {
        let variable = self.vehicle.variables.get(number);
        let known = self.state.belief(number).and_then(|belief| belief.settings.single());
        QuestionRow {
            variable: known_as(variable),
            title: Words::sentence(&words.label(number)),
            choices: self.choices(words, number, Settings::NONE),
            chosen: known.and_then(|at| Some(variable?.name_of(at)?.to_owned())),
        }
    }

    /// The place of a setting that is told of a variable. Who tells something else is told what it
    /// takes, of what has a gauge also how that is read.
    pub(super) fn setting(&self, words: &Words, number: usize, name: &str) -> Result<u8> {
        let read = |fitting: &Fitting| {
            let gauge = fitting.gauge.as_ref().filter(|gauge| gauge.variable == number)?;
            let by_word = unit_of(fitting, gauge).ok()? == GaugeUnit::Words;
            (!by_word).then(|| shows::expects(words, fitting, gauge).ok())?
        };
        self.vehicle.setting(number, name).map_err(|error| {
            let Error::InvalidInput { expected, .. } = error else { return error };
            let field = words.label(number);
            let Some(how) = self.vehicle.fittings.iter().find_map(read) else {
                return Error::InvalidInput { field, expected };
            };
            let slots = [("settings", expected.as_str()), ("expects", &how)];
            let expected = words.say("gauge.expects.or_told", &slots);
            Error::InvalidInput { field, expected }
        })
    }

    /// Reads a gauge: `value` in its `unit`.
    pub(super) fn read(
        &self,
        words: &Words,
        fitting: &Fitting,
        unit: GaugeUnit,
        value: f64,
        now: &Stamp,
    ) -> Result<Read> {
        let missing = || Error::NotFound { kind: "gauge", id: fitting.id.clone() };
        let gauge = fitting.gauge.as_ref().ok_or_else(missing)?;
        if !shows::may_be(fitting, gauge, unit, value)? {
            let expected = shows::expects(words, fitting, gauge)?;
            return Err(Error::InvalidInput { field: words.title(fitting).to_owned(), expected });
        }
        let mut beside = Vec::new();
        let (bands, said) = match gauge.of {
            Measured::Tank => {
                let level = self.read_tank(fitting, unit, value)?;
                beside = Scale::of(fitting, gauge)?.drawn(gauge, (level.lower_ml, level.upper_ml));
                let said = words.between(Amount::Millilitres, level.lower_ml, level.upper_ml);
                (level.bands, said)
            }
            Measured::Battery => {
                let charge = self.read_battery(fitting, value, now)?;
                let (lower, upper) = (charge.lower_permille, charge.upper_permille);
                (charge.bands, words.between(Amount::Permille, lower, upper))
            }
            Measured::Gas => {
                let level = self.read_gas(words, fitting, Some(value))?;
                let said = words.between(gas::holds(fitting)?.1, level.lower, level.upper);
                (level.bands, said)
            }
        };
        let places = bands.into_iter().filter_map(|band| u8::try_from(band).ok());
        let trust = self.trust(words, fitting, gauge, Some(value), now)?;
        Ok(Read { settings: places.collect(), beside, said, trust })
    }

    /// How far a reading taken now counts; `value` where one was taken. What is not known spoils a
    /// battery's: it is asked for. A tank's counts, and it is said what that takes for granted.
    fn trust(
        &self,
        words: &Words,
        fitting: &Fitting,
        gauge: &Gauge,
        value: Option<f64>,
        now: &Stamp,
    ) -> Result<Trust> {
        match gauge.of {
            Measured::Tank | Measured::Gas => {
                let (unit, least) = (unit_of(fitting, gauge)?, value.unwrap_or(0.0));
                let all = all_of(&if gauge.of == Measured::Gas {
                    self.read_gas(words, fitting, value)?.validity
                } else {
                    self.read_tank(fitting, unit, least)?.validity
                });
                let said = |wanted: bool| {
                    let of = all.iter().filter(move |(_, sure)| *sure == wanted);
                    of.map(|(doubt, sure)| tank_doubt(words, *doubt, *sure)).collect()
                };
                Ok(Trust { against: said(true), assumed: said(false) })
            }
            Measured::Battery => {
                let charge = self.read_battery(fitting, value.unwrap_or(VOLTS.0), now)?;
                let all = all_of(&charge.validity);
                let said = all.iter().map(|(doubt, sure)| battery_doubt(words, doubt, *sure));
                Ok(Trust { against: said.collect(), assumed: Vec::new() })
            }
        }
    }

    pub(super) fn read_tank(
        &self,
        fitting: &Fitting,
        unit: GaugeUnit,
        value: f64,
    ) -> Result<tank::Level> {
        // Whatever shows something has power.
        let dark = unit == GaugeUnit::Lamps && value <= 0.0;
        let conditions = tank::Conditions {
            powered: if dark { self.own(fitting, "power", "on") } else { Known::Yes },
            still: self.is("engine", "wheels", "still"),
            level: self.is("pitch", "ground", "level"),
        };
        read_tank(fitting, unit, value, conditions)
    }

    pub(super) fn read_battery(
        &self,
        fitting: &Fitting,
        volts: f64,
        now: &Stamp,
    ) -> Result<battery::Charge> {
        let volts_mv = whole("volts", volts, MILLI, millis(VOLTS.0)..=millis(VOLTS.1))?;
        let table = Table::published(chemistry(fitting));
        battery::read(&table, &bands(fitting)?, volts_mv, &self.battery_conditions(fitting, now))
    }

    fn battery_conditions(&self, fitting: &Fitting, now: &Stamp) -> battery::Conditions {
        let solar = match fitting.flag("has_solar") {
            Some(true) => self.own(fitting, "sun", "on_panels"),
            _ => Known::No,
        };
        let much = self.own(fitting, "load", "much");
        let load_max_ma = milliamps(fitting, "rest_load_a");
        let rest_ms = fitting.number("rest_h").unwrap_or(0.0) * MS_PER_H;
        battery::Conditions {
            mains_charging: self.mains(),
            alternator_charging: self.is("engine", "running", "on"),
            solar_charging: solar,
            rested: self.rested(fitting, now),
            rest_needed_ms: whole("rest_h", rest_ms, 1, 0..=i64::from(u32::MAX)).unwrap_or(0),
            load_ma: match much {
                Known::No => Some(0),
                Known::Yes => Some(load_max_ma.saturating_add(1)),
                Known::Unknown => None,
            },
            load_max_ma,
        }
    }

    /// How long the battery has been neither charged nor loaded: since the last of what could
    /// charge or load it ended, as far as anybody said when.
    fn rested(&self, fitting: &Fitting, now: &Stamp) -> Age {
        let engine = self.age_of("engine", "running", now);
        let load = self.vehicle.variable_of(fitting, "load");
        let load = load.map_or(0, |load| self.age(load, now).least_ms());
        // Only a link that breaks the chain now, and that nobody but the owner mends, tells for how
        // long no mains has come.
        let given = |link: &Literal| {
            self.vehicle.variables.get(link.variable).is_none_or(|known| known.given)
        };
        let unplugged = self.mains_links().map_or(i64::MAX, |links| {
            let broken = links.iter().filter(|one| !given(one) && self.holds(one) == Known::No);
            broken.map(|one| self.age(one.variable, now).least_ms()).max().unwrap_or(0)
        });
        Age::AtLeast(engine.least_ms().min(unplugged).min(load))
    }
}

fn known_as(variable: Option<&Variable>) -> String {
    variable.map_or_else(String::new, |one| one.id.clone())
}

/// How a battery is made.
pub(super) fn chemistry(fitting: &Fitting) -> Chemistry {
    match fitting.word("chemistry") {
        Some("agm") => Chemistry::Agm,
        Some("gel") => Chemistry::Gel,
        Some("lifepo4") => Chemistry::Lifepo4,
        _ => Chemistry::Flooded,
    }
}

pub(super) fn bands(fitting: &Fitting) -> Result<Bands> {
    let edges = fitting.numbers("band_edges_pct").unwrap_or_default();
    let edges: Result<Vec<_>> =
        edges.iter().map(|edge| whole("band_edges_pct", *edge, PERMILLE, 0..=1_000)).collect();
    Bands::new(edges?)
}

fn read_tank(
    fitting: &Fitting,
    unit: GaugeUnit,
    value: f64,
    conditions: tank::Conditions,
) -> Result<tank::Level> {
    let litres = |name: &str| fitting.number(name).unwrap_or(0.0);
    let capacity_ml = whole("capacity_l", litres("capacity_l"), MILLI, 0..=10_000_000)?;
    let error_permille = whole("gauge_error_pct", litres("gauge_error_pct"), PERMILLE, 0..=1_000)?;
    let tank = Tank::new(capacity_ml, bands(fitting)?)?;
    let steps = fitting.numbers("lamp_steps_pct").unwrap_or_default();
    let thresholds: Result<Vec<_>> =
        steps.iter().map(|step| whole("lamp_steps_pct", *step, PERMILLE, 0..=1_000)).collect();
    let thresholds = thresholds?;
    let reading = match unit {
        GaugeUnit::Percent => tank::Reading::Percent {
            level_permille: whole("percent", value, PERMILLE, 0..=1_000)?,
            error_permille,
        },
        GaugeUnit::Litres => tank::Reading::Volume {
            volume_ml: whole("litres", value, MILLI, 0..=capacity_ml)?,
            error_ml: whole("litres_error_l", litres("litres_error_l"), MILLI, 0..=capacity_ml)?,
        },
        GaugeUnit::Lamps | GaugeUnit::Volts | GaugeUnit::Kilograms | GaugeUnit::Words => {
            let most = i64::try_from(thresholds.len()).unwrap_or(0);
            tank::Reading::Lamps {
                lit: whole("lamps", value, 1, 0..=most)?,
                thresholds_permille: &thresholds,
                error_permille,
            }
        }
    };
    tank.read(&reading, conditions)
}

fn millis(volts: f64) -> i64 {
    whole("volts", volts, MILLI, 0..=i64::from(u32::MAX)).unwrap_or(0)
}

fn milliamps(fitting: &Fitting, value: &str) -> i64 {
    let amps = fitting.number(value).unwrap_or(0.0);
    whole(value, amps, MILLI, 0..=i64::from(u32::MAX)).unwrap_or(0)
}

/// Everything that spoils a reading (sure) or may (not sure).
fn all_of<D: Clone>(validity: &Validity<D>) -> Vec<(D, bool)> {
    let (because, check) = match validity {
        Validity::Counts => (&Vec::new(), &Vec::new()),
        Validity::DoesNotCount { because, check } => (because, check),
        Validity::CannotTell { check } => (&Vec::new(), check),
    };
    let sure = because.iter().map(|doubt| (doubt.clone(), true));
    sure.chain(check.iter().map(|doubt| (doubt.clone(), false))).collect()
}

/// What spoils a tank's reading for certain, or what it takes for granted.
fn tank_doubt(words: &Words, doubt: tank::Doubt, sure: bool) -> String {
    let key = match (doubt, sure) {
        (tank::Doubt::Unpowered, true) => "unpowered",
        (tank::Doubt::Unpowered, false) => "assumed_unpowered",
        (tank::Doubt::Moving, true) => "moving",
        (tank::Doubt::Moving, false) => "assumed_moving",
        (tank::Doubt::OffLevel, true) => "off_level",
        (tank::Doubt::OffLevel, false) => "assumed_off_level",
    };
    words.say(&format!("gauge.tank.{key}"), &[])
}

fn battery_doubt(words: &Words, doubt: &Doubt, sure: bool) -> String {
    let key = match (doubt, sure) {
        (Doubt::MainsCharging, true) => "mains_charging",
        (Doubt::MainsCharging, false) => "check_mains",
        (Doubt::AlternatorCharging, true) => "alternator_charging",
        (Doubt::AlternatorCharging, false) => "check_engine",
        (Doubt::SolarCharging, true) => "solar_charging",
        (Doubt::SolarCharging, false) => "check_sun",
        (Doubt::TooSoon { left_ms }, sure) => {
            let key = if sure { "too_soon" } else { "check_rest" };
            return words.say(&format!("gauge.battery.{key}"), &[("time", &words.time(*left_ms))]);
        }
        (Doubt::Loaded { .. }, true) => "loaded",
        (Doubt::Loaded { .. }, false) => "check_load",
        (Doubt::TooHighForRest { .. }, _) => "too_high",
    };
    words.say(&format!("gauge.battery.{key}"), &[])
}
