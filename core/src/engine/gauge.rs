//! Gauges: what each can show, what a reading gives, and why one does not count.

use super::loaded::Loaded;
use super::page::{GaugeChoice, GaugeRow, GaugeUnit, QuestionRow};
use super::words::Words;
use crate::catalogue::Measured;
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::fridge::{Age, Known};
use crate::reserve::battery::{self, Doubt};
use crate::reserve::chemistry::{Chemistry, Table};
use crate::reserve::tank::{self, Tank};
use crate::reserve::{Bands, Validity, whole};
use crate::vehicle::{Fitting, Gauge, Settings};

const PERMILLE: u32 = 10;
const MILLI: u32 = 1_000;
const MS_PER_H: f64 = 3_600_000.0;
/// The least and most that a 12 V battery shows. Unit: V.
const VOLTS: (f64, f64) = (8.0, 16.0);

/// What a reading gives: the bands it touches, in words what it says, and why it may not count.
pub(super) struct Read {
    pub(super) settings: Settings,
    pub(super) said: String,
    /// Everything that spoils it, or may.
    pub(super) doubts: Vec<String>,
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
        let steps = fitting.numbers("lamp_steps_pct").unwrap_or_default().len();
        let lamps = || {
            (0..=u32::try_from(steps).unwrap_or(0)).map(|lit| GaugeChoice {
                value: f64::from(lit),
                text: match lit {
                    0 => words.say("gauge.no_lamps", &[]),
                    _ => words.say("gauge.lamps", &[("n", &lit.to_string())]),
                },
            })
        };
        let (value_min, value_max) = match unit {
            GaugeUnit::Lamps => (0.0, f64::from(u32::try_from(steps).unwrap_or(0))),
            GaugeUnit::Percent => (0.0, 100.0),
            GaugeUnit::Litres => (0.0, fitting.number("capacity_l").unwrap_or(0.0)),
            GaugeUnit::Volts => VOLTS,
        };
        let belief = self.state.belief(gauge.variable);
        let settings = belief.map_or(Settings::NONE, |belief| belief.settings);
        let age_ms = belief.and_then(|belief| Some(belief.known.as_ref()?.at.age_ms(now)));
        let doubts = self.doubts(words, fitting, gauge, None, now)?;
        Ok(GaugeRow {
            id: fitting.id.clone(),
            title: Words::sentence(&words.label(gauge.variable)),
            unit,
            choices: if unit == GaugeUnit::Lamps { lamps().collect() } else { Vec::new() },
            value_min,
            value_max,
            current_text: Words::sentence(&words.settings(gauge.variable, settings)),
            age_text: age_ms.map(|age_ms| words.age(age_ms)),
            counts: doubts.is_empty(),
            note: (!doubts.is_empty()).then(|| Words::sentence(&doubts.join("; "))),
            questions: gauge.asks.iter().map(|asked| self.question(words, *asked)).collect(),
        })
    }

    fn question(&self, words: &Words, number: usize) -> QuestionRow {
        let variable = self.vehicle.variables.get(number);
        let known = self.state.belief(number).and_then(|belief| belief.settings.single());
        QuestionRow {
            variable: variable.map_or_else(String::new, |one| one.id.clone()),
            title: Words::sentence(&words.label(number)),
            choices: self.choices(words, number, Settings::NONE),
            chosen: known.and_then(|at| Some(variable?.name_of(at)?.to_owned())),
        }
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
        let own = unit_of(fitting, gauge)?;
        if unit != own {
            let expected = format!("{own:?}").to_lowercase();
            return Err(Error::InvalidInput { field: fitting.id.clone(), expected });
        }
        let (bands, said) = match gauge.of {
            Measured::Tank => {
                let level = read_tank(fitting, unit, value, self.tank_conditions())?;
                let litres = |ml: i64| (ml / 1_000).to_string();
                let (lower, upper) = (litres(level.lower_ml), litres(level.upper_ml));
                (level.bands, words.say("gauge.volume", &[("lower", &lower), ("upper", &upper)]))
            }
            Measured::Battery => {
                let charge = self.read_battery(fitting, value, now)?;
                let pct = |permille: i64| (permille / 10).to_string();
                let (lower, upper) = (pct(charge.lower_permille), pct(charge.upper_permille));
                (charge.bands, words.say("gauge.charge", &[("lower", &lower), ("upper", &upper)]))
            }
        };
        let places = bands.into_iter().filter_map(|band| u8::try_from(band).ok());
        let doubts = self.doubts(words, fitting, gauge, Some(value), now)?;
        Ok(Read { settings: places.collect(), said, doubts })
    }

    /// Why a reading taken now does not count, or may not; `value` where one was taken.
    fn doubts(
        &self,
        words: &Words,
        fitting: &Fitting,
        gauge: &Gauge,
        value: Option<f64>,
        now: &Stamp,
    ) -> Result<Vec<String>> {
        match gauge.of {
            Measured::Tank => {
                let (unit, least) = (unit_of(fitting, gauge)?, value.unwrap_or(0.0));
                let level = read_tank(fitting, unit, least, self.tank_conditions())?;
                let name = |doubt: &tank::Doubt| match doubt {
                    tank::Doubt::Unpowered => "gauge.tank.unpowered",
                    tank::Doubt::Moving => "gauge.tank.moving",
                    tank::Doubt::OffLevel => "gauge.tank.off_level",
                };
                let all = all_of(&level.validity);
                Ok(all.iter().map(|(doubt, _)| words.say(name(doubt), &[])).collect())
            }
            Measured::Battery => {
                let charge = self.read_battery(fitting, value.unwrap_or(VOLTS.0), now)?;
                let all = all_of(&charge.validity);
                Ok(all.iter().map(|(doubt, sure)| battery_doubt(words, doubt, *sure)).collect())
            }
        }
    }

    fn tank_conditions(&self) -> tank::Conditions {
        // The gauge's power and the vehicle's level are not described yet.
        let still = self.is("engine", "wheels", "still");
        tank::Conditions { powered: Known::Yes, still, level: Known::Yes }
    }

    fn read_battery(&self, fitting: &Fitting, volts: f64, now: &Stamp) -> Result<battery::Charge> {
        let chemistry = match fitting.word("chemistry") {
            Some("agm") => Chemistry::Agm,
            Some("gel") => Chemistry::Gel,
            Some("lifepo4") => Chemistry::Lifepo4,
            _ => Chemistry::Flooded,
        };
        let volts_mv = whole("volts", volts, MILLI, millis(VOLTS.0)..=millis(VOLTS.1))?;
        let table = Table::published(chemistry);
        battery::read(&table, &bands(fitting)?, volts_mv, &self.battery_conditions(fitting, now))
    }

    fn battery_conditions(&self, fitting: &Fitting, now: &Stamp) -> battery::Conditions {
        let solar = match fitting.flag("has_solar") {
            Some(true) => self.is("leisure_battery", "sun", "on_panels"),
            _ => Known::No,
        };
        let much = self.is("leisure_battery", "load", "much");
        let load_max_ma = milliamps(fitting, "rest_load_a");
        let rest_ms = fitting.number("rest_h").unwrap_or(0.0) * MS_PER_H;
        battery::Conditions {
            mains_charging: self.mains(),
            alternator_charging: self.is("engine", "running", "on"),
            solar_charging: solar,
            rested: self.rested(now),
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
    fn rested(&self, now: &Stamp) -> Age {
        let engine = self.age_of("engine", "running", now);
        // Only a link that breaks the chain now tells for how long no mains has come.
        let links = [
            ("mains_lead", "vehicle_end", "in"),
            ("mains_lead", "post_end", "in"),
            ("main_switch", "lever", "on"),
            ("post", "switch", "on"),
        ];
        let broken = links.iter().filter(|(kind, name, on)| self.is(kind, name, on) == Known::No);
        let ages = broken.map(|(kind, name, _)| self.age_of(kind, name, now).least_ms());
        let unplugged = ages.max().unwrap_or(0);
        let load = self.age_of("leisure_battery", "load", now).least_ms();
        let unplugged =
            if self.vehicle.of_kind("mains_lead").next().is_none() { i64::MAX } else { unplugged };
        Age::AtLeast(engine.least_ms().min(unplugged).min(load))
    }
}

/// How a gauge is read, as the pack says.
fn unit_of(fitting: &Fitting, gauge: &Gauge) -> Result<GaugeUnit> {
    match (gauge.of, fitting.word("gauge_shows")) {
        (Measured::Battery, _) => Ok(GaugeUnit::Volts),
        (Measured::Tank, Some("lamps")) => Ok(GaugeUnit::Lamps),
        (Measured::Tank, Some("percent")) => Ok(GaugeUnit::Percent),
        (Measured::Tank, Some("litres")) => Ok(GaugeUnit::Litres),
        (Measured::Tank, _) => Err(Error::Internal(format!("{}: no gauge", fitting.id))),
    }
}

fn bands(fitting: &Fitting) -> Result<Bands> {
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
        GaugeUnit::Lamps | GaugeUnit::Volts => {
            let most = i64::try_from(thresholds.len()).unwrap_or(0);
            tank::Reading::Lamps {
                lit: whole("lamps", value, 1, 0..=most)?,
                thresholds_permille: &thresholds,
                error_permille: 0,
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
