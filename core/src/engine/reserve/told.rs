//! What the log tells of a reserve.

use super::scale::Scale;
use crate::catalogue::Measured;
use crate::clock::Stamp;
use crate::engine::gauge::unit_of;
use crate::engine::loaded::Loaded;
use crate::engine::words::Words;
use crate::reserve::lasting::{Seen, Told};
use crate::state::{Act, Entry, Fact, How, Reading};
use crate::vehicle::{Fitting, Gauge, Settings};

impl Loaded {
    /// What the log tells of a reserve, as what is left of it until its end.
    pub(super) fn told(
        &self,
        words: &Words,
        scale: &Scale,
        fitting: &Fitting,
        gauge: &Gauge,
        now: &Stamp,
    ) -> Vec<Told> {
        let mut told = Vec::new();
        let mut before: Option<&Stamp> = None;
        for entry in self.counted() {
            let at = &entry.said.at;
            if before.is_some_and(|before| before.age_ms(at).is_none()) {
                told.push(Told::Clock);
            }
            before = Some(at);
            if self.begins_anew(entry, fitting, gauge) {
                told.push(Told::Anew);
            }
            let level = match read_of(entry, fitting, gauge) {
                Some(reading) => self.level(words, fitting, gauge, reading),
                None => self.band_of(entry, gauge).map(|settings| {
                    let ends = settings.places().map(|place| scale.band(place));
                    let ends = ends.reduce(|one, two| (one.0.min(two.0), one.1.max(two.1)));
                    ends.unwrap_or((0, scale.capacity))
                }),
            };
            told.extend(level.map(|level| {
                let (lower, upper) = scale.turned(level);
                Told::Seen(Seen { at: at.clone(), lower, upper })
            }));
        }
        if before.is_some_and(|before| before.age_ms(now).is_none()) {
            told.push(Told::Clock);
        }
        told
    }

    /// Between what a reading that counted says the level lies, with the pack as it is now.
    fn level(
        &self,
        words: &Words,
        fitting: &Fitting,
        gauge: &Gauge,
        reading: &Reading,
    ) -> Option<(i64, i64)> {
        let value = f64::from(u32::try_from(reading.value_milli).ok()?) / 1_000.0;
        match gauge.of {
            Measured::Tank => {
                let level = self.read_tank(fitting, reading.unit, value).ok()?;
                Some((level.lower_ml, level.upper_ml))
            }
            Measured::Battery => {
                let charge = self.read_battery(fitting, value, &Stamp::unknown()).ok()?;
                Some((charge.lower_permille, charge.upper_permille))
            }
            Measured::Gas => {
                let level = self.read_gas(words, fitting, Some(value)).ok()?;
                Some((level.lower, level.upper))
            }
        }
    }

    /// The bands that an entry tells of, where it tells anything.
    fn band_of(&self, entry: &Entry, gauge: &Gauge) -> Option<Settings> {
        let variable = self.vehicle.variables.get(gauge.variable)?;
        let fact = entry.said.facts.iter().rfind(|fact| fact.variable == variable.id)?;
        let seen = match fact.how {
            How::Done | How::Looked | How::Told | How::Reading => true,
            How::Settled | How::Assumed => false,
        };
        let places = fact.settings.iter();
        let places = places.filter_map(|one| self.vehicle.setting(gauge.variable, one).ok());
        let settings: Settings = places.collect();
        (seen && !settings.is_empty() && settings != variable.all).then_some(settings)
    }

    /// Whether an entry tells that the reserve was filled, emptied or charged, or driven with.
    fn begins_anew(&self, entry: &Entry, fitting: &Fitting, gauge: &Gauge) -> bool {
        let Some(variable) = self.vehicle.variables.get(gauge.variable) else { return false };
        let moved = |fact: &Fact| {
            fact.variable == variable.id && matches!(fact.how, How::Done | How::Settled)
        };
        let charged = |fact: &Fact| {
            gauge.of == Measured::Battery
                && self.charges(fitting).any(|(id, setting)| {
                    fact.variable == id && fact.settings.iter().any(|one| one == setting)
                })
        };
        let driven = |fact: &Fact| gauge.used_by_driving && self.drives(fact);
        entry.said.facts.iter().any(|fact| moved(fact) || charged(fact) || driven(fact))
    }

    /// Whether somebody says that the vehicle moves.
    fn drives(&self, fact: &Fact) -> bool {
        let engine = self.vehicle.of_kind("engine").next();
        engine.is_some_and(|(_, engine)| fact.variable == format!("{}.wheels", engine.id))
            && fact.settings.iter().any(|one| one == "moving")
    }

    /// Whether it was driven since something was last said of what is left.
    pub(super) fn driven_since_told(&self, fitting: &Fitting, gauge: &Gauge) -> bool {
        for entry in self.counted().rev() {
            if read_of(entry, fitting, gauge).is_some() || self.band_of(entry, gauge).is_some() {
                return false;
            }
            if entry.said.facts.iter().any(|fact| self.drives(fact)) {
                return true;
            }
        }
        false
    }

    /// What charges a battery where it is so: the engine, mains and the sun.
    fn charges(&self, fitting: &Fitting) -> impl Iterator<Item = (String, &'static str)> {
        let of = |kind: &str, name: &str, setting| {
            let found = self.vehicle.of_kind(kind).next();
            found.map(|(_, one)| (format!("{}.{name}", one.id), setting))
        };
        let own = Some((format!("{}.sun", fitting.id), "on_panels"));
        let engine = of("engine", "running", "on");
        let wheels = of("engine", "wheels", "moving");
        let mains = of("main_switch", "lever", "on");
        [engine, wheels, mains, own].into_iter().flatten()
    }

    /// When something was last said of what is left of a reserve, by the wall clock.
    pub(in crate::engine) fn told_utc_ms(&self, fitting: &Fitting, gauge: &Gauge) -> Option<i64> {
        let tells = |entry: &&Entry| {
            read_of(entry, fitting, gauge).is_some() || self.band_of(entry, gauge).is_some()
        };
        self.counted().rfind(tells).map(|entry| entry.said.at.utc_ms)
    }

    /// What was last read of a gauge, whether it counts or not.
    pub(super) fn last_read(&self, id: &str) -> Option<(&Entry, &Reading)> {
        let read = self.counted().filter_map(|entry| Some((entry, entry.said.reading.as_ref()?)));
        read.rev().find(|(_, reading)| reading.gauge == id)
    }

    /// How long ago an entry was, where nothing since then changed the clock.
    pub(in crate::engine) fn age_of_entry(&self, entry: &Entry, now: &Stamp) -> Option<i64> {
        let mut last = &entry.said.at;
        let later = self.entries.iter().filter(|one| one.seq > entry.seq);
        for one in later.filter(|one| !self.voided.contains(&one.seq)) {
            last.age_ms(&one.said.at)?;
            last = &one.said.at;
        }
        last.age_ms(now)?;
        entry.said.at.age_ms(now)
    }
}

/// A reading of this gauge that counts.
fn read_of<'e>(entry: &'e Entry, fitting: &Fitting, gauge: &Gauge) -> Option<&'e Reading> {
    let unit = unit_of(fitting, gauge).ok()?;
    let own = |reading: &&Reading| reading.gauge == fitting.id && reading.unit == unit;
    entry.said.reading.as_ref().filter(own).filter(|_| entry.said.act == Act::Report)
}
