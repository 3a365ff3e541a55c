//! Reserves: from the log to what is left, what is used and how long it lasts.

use super::gas;
use super::gauge::{bands, unit_of};
use super::loaded::Loaded;
use super::page::{ReservePage, ReserveRow};
use super::words::Words;
use crate::catalogue::Measured;
use crate::clock::Stamp;
use crate::error::Result;
use crate::reserve::lasting::{Account, Lasting, Missing, Seen, Told, account, lasting};
use crate::reserve::{Amount, Bands, whole};
use crate::state::{Act, Entry, Fact, How, Reading};
use crate::vehicle::{Fitting, Gauge, Settings};

const MS_PER_H: i64 = 3_600_000;
const MS_PER_DAY: i64 = 24 * MS_PER_H;

/// One reserve, and how long it lasts where that can be told.
struct Known {
    row: ReserveRow,
    lasting: Option<Lasting>,
    measured: Measured,
    /// What was last told of its level.
    level: Option<(Amount, i64, i64)>,
}

impl Loaded {
    pub(super) fn reserves(&self, language: &str, now: &Stamp) -> Result<ReservePage> {
        let words = self.words(language)?;
        let fitted = self.vehicle.fittings.iter();
        let gauges = fitted.filter_map(|fitting| Some((fitting, fitting.gauge.as_ref()?)));
        let known = gauges.map(|(fitting, gauge)| self.reserve(&words, fitting, gauge, now));
        let mut known = known.collect::<Result<Vec<_>>>()?;
        let firsts = firsts(&known);
        for (number, known) in known.iter_mut().enumerate() {
            known.row.first = firsts.contains(&number);
        }
        let gas_text = gas_text(&words, &known);
        let rows: Vec<_> = known.into_iter().map(|known| known.row).collect();
        let about = words.say("reserve.about", &[]);
        Ok(ReservePage { first_text: first_text(&words, &rows), gas_text, rows, about })
    }

    fn reserve(
        &self,
        words: &Words,
        fitting: &Fitting,
        gauge: &Gauge,
        now: &Stamp,
    ) -> Result<Known> {
        let scale = Scale::of(fitting, gauge)?;
        let told = self.told(words, &scale, fitting, gauge, now);
        let Account { used, clock_changed, last } = account(&told);
        let lasting = match (&used, &last) {
            (Ok(used), Some(last)) => lasting(used, last, now),
            (Ok(_) | Err(_), _) => None,
        };
        let mut missing = Vec::new();
        let say = |key: &str| words.say(&format!("reserve.missing.{key}"), &[]);
        match used {
            Ok(_) if lasting.is_none() => missing.push(say("age")),
            Ok(_) if clock_changed => missing.push(say("clock_changed")),
            Ok(_) => {}
            Err(why) => missing.push(missing_text(words, why)),
        }
        let per_day = used.ok().map(|used| used.in_ms(MS_PER_DAY));
        let level = last.map(|last| {
            let (lower, upper) = scale.level((last.lower, last.upper));
            (scale.amount, lower, upper)
        });
        let belief = self.state.belief(gauge.variable);
        let settings = belief.map_or(Settings::NONE, |belief| belief.settings);
        let known = belief.and_then(|belief| belief.known.as_ref());
        let seen = self.last_read(&fitting.id);
        let note = seen.map(|(entry, _)| entry.said.note.clone()).filter(|note| !note.is_empty());
        let in_h = |ms: i64, up: i64| ms.saturating_add(up).div_euclid(MS_PER_H);
        let row = ReserveRow {
            id: fitting.id.clone(),
            title: Words::sentence(&words.label(gauge.variable)),
            end_text: words.settings(gauge.variable, Settings::one(gauge.end)),
            seen_text: seen.map(|(_, reading)| words.shown(reading)),
            seen_age_text: seen.map(|(entry, _)| words.age(self.age_of_entry(entry, now))),
            seen_counts: seen.is_none_or(|(entry, _)| entry.said.act == Act::Report),
            seen_note: note,
            level_text: Words::sentence(&words.settings(gauge.variable, settings)),
            level_age_text: known.map(|known| words.known(known, now)),
            between_text: level.map(|(amount, lower, upper)| words.between(amount, lower, upper)),
            used_text: per_day.map(|(lower, upper)| words.a_day(scale.amount, lower, upper)),
            left_text: lasting.map(|left| words.lasting(left.lower_ms, left.upper_ms)),
            missing,
            used_lower_per_day: per_day.map(|(lower, _)| lower),
            used_upper_per_day: per_day.map(|(_, upper)| upper),
            left_lower_h: lasting.map(|left| in_h(left.lower_ms, 0)),
            left_upper_h: lasting.and_then(|left| Some(in_h(left.upper_ms?, MS_PER_H - 1))),
            first: false,
        };
        Ok(Known { row, lasting, measured: gauge.of, level })
    }

    /// What the log tells of a reserve, as what is left of it until its end.
    fn told(
        &self,
        words: &Words,
        scale: &Scale,
        fitting: &Fitting,
        gauge: &Gauge,
        now: &Stamp,
    ) -> Vec<Told> {
        let mut told = Vec::new();
        let mut before: Option<&Stamp> = None;
        for entry in self.entries.iter().filter(|entry| !self.voided.contains(&entry.seq)) {
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

    /// Whether an entry tells that the reserve was filled, emptied or charged.
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
        entry.said.facts.iter().any(|fact| moved(fact) || charged(fact))
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

    /// What was last read of a gauge, whether it counts or not.
    fn last_read(&self, id: &str) -> Option<(&Entry, &Reading)> {
        let counted = self.entries.iter().filter(|entry| !self.voided.contains(&entry.seq));
        let read = counted.filter_map(|entry| Some((entry, entry.said.reading.as_ref()?)));
        read.rev().find(|(_, reading)| reading.gauge == id)
    }

    /// How long ago an entry was, where nothing since then changed the clock.
    fn age_of_entry(&self, entry: &Entry, now: &Stamp) -> Option<i64> {
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

/// What a gauge measures, and where it ends.
struct Scale {
    bands: Bands,
    /// The whole, in the unit of `amount`.
    capacity: i64,
    amount: Amount,
    /// Where use ends.
    end: i64,
    fills: bool,
}

impl Scale {
    fn of(fitting: &Fitting, gauge: &Gauge) -> Result<Self> {
        let (capacity, amount) = match gauge.of {
            Measured::Tank => {
                let litres = fitting.number("capacity_l").unwrap_or(0.0);
                let whole = whole("capacity_l", litres, 1_000, 0..=Reading::MILLI_MAX)?;
                (whole, Amount::Millilitres)
            }
            Measured::Battery => (Amount::WHOLE_PERMILLE, Amount::Permille),
            Measured::Gas => gas::holds(fitting)?,
        };
        let bands = bands(fitting)?;
        let (lower, upper) = bands.stretch(usize::from(gauge.end), capacity);
        let end = if gauge.fills { lower } else { upper };
        Ok(Self { bands, capacity, amount, end, fills: gauge.fills })
    }

    fn band(&self, place: u8) -> (i64, i64) {
        self.bands.stretch(usize::from(place), self.capacity)
    }

    /// What is left of a level, until the end.
    fn turned(&self, (lower, upper): (i64, i64)) -> (i64, i64) {
        if self.fills {
            (self.end.saturating_sub(upper), self.end.saturating_sub(lower))
        } else {
            (lower.saturating_sub(self.end), upper.saturating_sub(self.end))
        }
    }

    /// The level of what is left.
    fn level(&self, (lower, upper): (i64, i64)) -> (i64, i64) {
        if self.fills {
            return self.turned((lower, upper));
        }
        (lower.saturating_add(self.end), upper.saturating_add(self.end))
    }
}

fn missing_text(words: &Words, why: Missing) -> String {
    let say =
        |key: &str, time: &str| words.say(&format!("reserve.missing.{key}"), &[("time", time)]);
    match why {
        Missing::Reading => say("reading", ""),
        Missing::Second => say("second", ""),
        Missing::Clock => say("clock", ""),
        Missing::Time { over_ms } => say("time", &words.time(over_ms)),
        Missing::Use => say("use", ""),
    }
}

/// Those that may be the first to run out: nothing else must have run out before they may.
fn firsts(known: &[Known]) -> Vec<usize> {
    let lasting = |known: &Known| known.lasting;
    let ends = known.iter().filter_map(lasting).map(|left| left.upper_ms.unwrap_or(i64::MAX));
    let Some(earliest) = ends.min() else { return Vec::new() };
    let may = known
        .iter()
        .enumerate()
        .filter(|(_, one)| lasting(one).is_some_and(|left| left.lower_ms <= earliest));
    may.map(|(number, _)| number).collect()
}

fn first_text(words: &Words, rows: &[ReserveRow]) -> String {
    let line = |row: &ReserveRow| {
        let left = row.left_text.as_deref().unwrap_or_default();
        words.say("reserve.line", &[("what", &row.title), ("end", &row.end_text), ("left", left)])
    };
    let list = |rows: Vec<String>| rows.join("; ");
    let first: Vec<_> = rows.iter().filter(|row| row.first).map(line).collect();
    let unknown = rows.iter().filter(|row| row.left_text.is_none());
    let unknown: Vec<_> = unknown.map(|row| row.title.clone()).collect();
    let said = match first.len() {
        0 => return words.say("reserve.none", &[]),
        1 => words.say("reserve.first", &[("what", &list(first))]),
        _ => words.say("reserve.overlap", &[("what", &list(first))]),
    };
    if unknown.is_empty() {
        return said;
    }
    format!("{said} {}", words.say("reserve.unknown", &[("what", &list(unknown))]))
}

/// What all gas cylinders hold together, where that is known of each.
fn gas_text(words: &Words, known: &[Known]) -> Option<String> {
    let all = known.iter().filter(|one| one.measured == Measured::Gas);
    let levels: Vec<_> = all.map(|one| one.level).collect::<Option<_>>()?;
    let (first, others) = levels.split_first().filter(|(_, others)| !others.is_empty())?;
    let alike = |one: &(Amount, i64, i64)| one.0 == first.0 && one.0 != Amount::Permille;
    let add = |one: (Amount, i64, i64), other: &(Amount, i64, i64)| {
        (one.0, one.1.saturating_add(other.1), one.2.saturating_add(other.2))
    };
    let (amount, lower, upper) = others.iter().fold(*first, add);
    let between = words.between(amount, lower, upper);
    let slots = [("n", &*levels.len().to_string()), ("between", &*between)];
    levels.iter().all(alike).then(|| words.say("reserve.gas", &slots))
}
