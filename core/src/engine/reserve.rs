//! Reserves: from the log to what is left, what is used and how long it lasts.

mod level;
mod rate;
mod scale;
mod told;
mod uses;

pub(super) use rate::Rate;
pub(super) use scale::Scale;

use super::loaded::Loaded;
use super::page::{ReservePage, ReserveRow};
use super::reckon::likeliest;
use super::words::Words;
use crate::catalogue::Measured;
use crate::clock::Stamp;
use crate::error::Result;
use crate::reserve::Amount;
use crate::reserve::lasting::{Account, Lasting, Seen, account, lasting};
use crate::state::Act;
use crate::vehicle::{Drawn, Fitting, Gauge, Settings};

pub(super) const MS_PER_H: i64 = 3_600_000;
pub(super) const MS_PER_DAY: i64 = 24 * MS_PER_H;

/// One reserve, as far as it can be reckoned.
pub(super) struct Known<'a> {
    pub(super) fitting: &'a Fitting,
    pub(super) gauge: &'a Gauge,
    pub(super) scale: Scale,
    /// How fast it is used.
    pub(super) rate: Option<Rate>,
    /// When what was left was last told, and how much.
    pub(super) last: Option<Seen>,
    /// How long it lasts.
    pub(super) lasting: Option<Lasting>,
    /// What is missing for that, or did not count.
    pub(super) missing: Vec<String>,
}

impl Known<'_> {
    /// What was last told of its level.
    pub(super) fn level(&self) -> Option<(Amount, i64, i64)> {
        let last = self.last.as_ref()?;
        let (lower, upper) = self.scale.level((last.lower, last.upper));
        Some((self.scale.amount, lower, upper))
    }

    /// What is left now, used since it was last told as before.
    pub(super) fn left_now(&self, now: &Stamp) -> Option<(i64, i64)> {
        let (rate, last) = self.rate.as_ref().zip(self.last.as_ref())?;
        let since = rate.used.in_ms(last.at.age_ms(now)?);
        let lower = last.lower.saturating_sub(since.1).max(0);
        Some((lower, last.upper.saturating_sub(since.0).max(lower)))
    }

    /// Where use ends, in words: "empty", or where something that draws from it gets none.
    pub(super) fn end_text(&self, words: &Words) -> String {
        let drawn = self.gauge.drawn_by.iter().max_by_key(|drawn| drawn.down_to_permille);
        let ends = |drawn: &&Drawn| drawn.down_to_permille.is_some_and(|at| self.scale.ends_at(at));
        match drawn.filter(ends) {
            Some(drawn) => {
                let variable = words.vehicle.variables.get(drawn.variable);
                let what = variable.and_then(|one| words.vehicle.fittings.get(one.fitting));
                let what = what.map_or("", |what| words.title(what));
                words.say("reserve.ends_for", &[("what", what)])
            }
            None => words.settings(self.gauge.variable, Settings::one(self.gauge.end)),
        }
    }

    /// What it is called.
    pub(super) fn title(&self, words: &Words) -> String {
        Words::sentence(&words.label(self.gauge.variable))
    }
}

impl Loaded {
    pub(super) fn reserves(&self, language: &str, now: &Stamp) -> Result<ReservePage> {
        let words = self.words(language)?;
        let known = self.known_reserves(&words, now)?;
        let firsts = firsts(&known);
        let rows = known.iter().enumerate().map(|(number, one)| {
            let row = self.reserve_row(&words, one, now);
            ReserveRow { first: firsts.contains(&number), ..row }
        });
        let rows: Vec<_> = rows.collect();
        let (first_text, firsts) = first_text(&words, &rows);
        let likely = (firsts.len() > 1).then(|| likeliest(self, &words, &known, now)).flatten();
        let first_text = likely.unwrap_or(first_text);
        let unknown = rows.iter().filter(|row| row.left_text.is_none() && !firsts.is_empty());
        let unknown: Vec<_> = unknown.map(|row| row.title.clone()).collect();
        Ok(ReservePage {
            first_text,
            unknown_text: match unknown.len() {
                0 => String::new(),
                _ => words.say("reserve.unknown", &[]),
            },
            firsts,
            unknown,
            gas_text: gas_text(&words, &known),
            rows,
            about: words.say("reserve.about", &[]),
        })
    }

    /// Every reserve, in walking order of the pack.
    pub(super) fn known_reserves(&self, words: &Words, now: &Stamp) -> Result<Vec<Known<'_>>> {
        self.known_where(words, now, |_, _| true)
    }

    /// Those alone that are asked about.
    pub(super) fn known_where(
        &self,
        words: &Words,
        now: &Stamp,
        asked: impl Fn(&Fitting, &Gauge) -> bool,
    ) -> Result<Vec<Known<'_>>> {
        let fitted = self.vehicle.fittings.iter();
        let gauges = fitted.filter_map(|fitting| Some((fitting, fitting.gauge.as_ref()?)));
        let gauges = gauges.filter(|(fitting, gauge)| asked(fitting, gauge));
        gauges.map(|(fitting, gauge)| self.known(words, fitting, gauge, now)).collect()
    }

    fn known<'a>(
        &'a self,
        words: &Words,
        fitting: &'a Fitting,
        gauge: &'a Gauge,
        now: &Stamp,
    ) -> Result<Known<'a>> {
        let scale = Scale::of(fitting, gauge)?;
        let Account { used, clock_changed, last } =
            account(&self.told(words, &scale, fitting, gauge, now));
        let driven = gauge.used_by_driving && self.driven_since_told(fitting, gauge);
        let last = last.filter(|_| !driven);
        let told = || self.uses(words, fitting, gauge, &scale, now);
        let (rate, why) = rate::rate(words, gauge, scale.amount, used, told);
        let ends = gauge.drawn_by.iter().all(|drawn| drawn.down_to_permille.is_some());
        let lasting = rate
            .as_ref()
            .zip(last.as_ref().filter(|_| ends))
            .and_then(|(rate, last)| lasting(&rate.used, last, now));
        let say = |key: &str| words.say(&format!("reserve.missing.{key}"), &[]);
        let missing = match &rate {
            _ if driven => vec![say("driven")],
            _ if !ends => vec![say("floor")],
            Some(_) if last.is_none() => vec![say("reading")],
            Some(_) if lasting.is_none() => vec![say("age")],
            Some(rate) if clock_changed && rate.by_readings() => vec![say("clock_changed")],
            Some(_) => Vec::new(),
            None => why,
        };
        Ok(Known { fitting, gauge, scale, rate, last, lasting, missing })
    }

    fn reserve_row(&self, words: &Words, known: &Known, now: &Stamp) -> ReserveRow {
        let Known { fitting, gauge, scale, rate, lasting, missing, .. } = known;
        let per_day = rate.as_ref().map(|rate| rate.used.in_ms(MS_PER_DAY));
        let belief = self.state.belief(gauge.variable);
        let settings = belief.map_or(Settings::NONE, |belief| belief.settings);
        let known_since = belief.and_then(|belief| belief.known.as_ref());
        let seen = self.last_read(&fitting.id);
        let note = seen.map(|(entry, _)| entry.said.note.clone()).filter(|note| !note.is_empty());
        let in_h = |ms: i64, up: i64| ms.saturating_add(up).div_euclid(MS_PER_H);
        let between = |(amount, lower, upper)| words.contents(amount, lower, upper);
        ReserveRow {
            id: fitting.id.clone(),
            title: known.title(words),
            end_text: known.end_text(words),
            seen_text: seen.map(|(_, reading)| words.shown(reading)),
            seen_age_text: seen.map(|(entry, _)| words.age(self.age_of_entry(entry, now))),
            seen_counts: seen.is_none_or(|(entry, _)| entry.said.act == Act::Report),
            seen_note: note,
            level_text: Words::sentence(&words.settings(gauge.variable, settings)),
            level_age_text: known_since.map(|known| words.known(known, now)),
            between_text: known.level().map(between),
            used_text: per_day.map(|(lower, upper)| words.a_day(scale.amount, lower, upper)),
            rests_text: rate.as_ref().map(|rate| rate.text(words)),
            left_text: lasting.map(|left| words.lasting(left.lower_ms, left.upper_ms)),
            room_text: known.left_now(now).filter(|_| gauge.fills).and_then(|(least, _)| {
                let (much, _) = words.units.volumes(least, least, true);
                let some = (much.n != "0").then(|| words.written(&much))?;
                Some(words.say("reserve.room", &[("much", &some)]))
            }),
            missing: missing.clone(),
            used_lower_per_day: per_day.map(|(lower, _)| lower),
            used_upper_per_day: per_day.map(|(_, upper)| upper),
            left_lower_h: lasting.map(|left| in_h(left.lower_ms, 0)),
            left_upper_h: lasting.and_then(|left| Some(in_h(left.upper_ms?, MS_PER_H - 1))),
            first: false,
        }
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

/// Which runs out first, and a line for each that may.
fn first_text(words: &Words, rows: &[ReserveRow]) -> (String, Vec<String>) {
    let line = |row: &ReserveRow| {
        let left = row.left_text.as_deref().unwrap_or_default();
        words.say("reserve.line", &[("what", &row.title), ("end", &row.end_text), ("left", left)])
    };
    let firsts: Vec<_> = rows.iter().filter(|row| row.first).map(line).collect();
    let key = match firsts.len() {
        0 => "none",
        1 => "first",
        _ => "overlap",
    };
    (words.say(&format!("reserve.{key}"), &[]), firsts)
}

/// What all gas cylinders hold together, where that is known of each.
fn gas_text(words: &Words, known: &[Known]) -> Option<String> {
    let all = known.iter().filter(|one| one.gauge.of == Measured::Gas);
    let levels: Vec<_> = all.map(Known::level).collect::<Option<_>>()?;
    let (first, others) = levels.split_first().filter(|(_, others)| !others.is_empty())?;
    let alike = |one: &(Amount, i64, i64)| one.0 == first.0 && one.0 != Amount::Permille;
    let add = |one: (Amount, i64, i64), other: &(Amount, i64, i64)| {
        (one.0, one.1.saturating_add(other.1), one.2.saturating_add(other.2))
    };
    let (amount, lower, upper) = others.iter().fold(*first, add);
    let between = words.contents(amount, lower, upper);
    let slots = [("n", &*levels.len().to_string()), ("between", &*between)];
    levels.iter().all(alike).then(|| words.say("reserve.gas", &slots))
}
