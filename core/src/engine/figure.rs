//! Numbers that only the people on board can tell: asked for, kept in the log, and given to what
//! reckons with them.

use super::Engine;
use super::loaded::Loaded;
use super::page::{Changes, FigureRow};
use super::words::Words;
use crate::catalogue;
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::reserve::water::Habits;
use crate::reserve::whole;
use crate::state::{Act, Entry, Figure, NewEntry};
use crate::units::Units;

const MILLI: u32 = 1_000;

impl Engine {
    /// Every number that this vehicle asks of the people on board, as far as they told it.
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn figures(&self, now: &Stamp) -> Result<Vec<FigureRow>> {
        let loaded = self.at(now)?;
        let words = loaded.words(&self.language)?;
        Ok(loaded.asked().map(|figure| loaded.figure_row(&words, figure, now)).collect())
    }

    /// Records such a number; `None` where it is no longer known.
    ///
    /// # Units
    /// `value`: the figure's own, as its row has it.
    ///
    /// # Errors
    /// [`Error::NotFound`] for a number that this vehicle does not ask for, [`Error::InvalidInput`] for
    /// one that is out of range or between two steps.
    pub fn tell_figure(&mut self, id: &str, value: Option<f64>, now: &Stamp) -> Result<Changes> {
        let loaded = self.at(now)?;
        let words = loaded.words(&self.language)?;
        let none = || Error::NotFound { kind: "figure", id: id.to_owned() };
        let figure = loaded.asked().find(|figure| figure.id == id).ok_or_else(none)?;
        let entry = loaded.tells(&words, figure, value, now)?;
        self.finish(&[entry], Vec::new(), now)
    }
}

/// A number in thousandths, if it is one of the figure's.
fn in_steps(words: &Words, figure: &catalogue::Figure, value: f64) -> Result<i64> {
    let catalogue::Figure { id, min, max, step, .. } = figure;
    let own = |value: f64| whole(id, value, MILLI, 0..=Figure::MILLI_MAX);
    let expected = || {
        let unit = words.typed_unit(id).map_or_else(String::new, |unit| format!(" {unit}"));
        Error::InvalidInput {
            field: words.figure_title(id),
            expected: format!("{min} to {max}{unit}, in steps of {step}"),
        }
    };
    let milli = own(value).map_err(|_| expected())?;
    let fits =
        (own(*min)?..=own(*max)?).contains(&milli) && milli.checked_rem(own(*step)?) == Some(0);
    fits.then_some(milli).ok_or_else(expected)
}

/// The number of so many thousandths.
pub(super) fn of_milli(milli: i64) -> f64 {
    f64::from(u32::try_from(milli).unwrap_or(u32::MAX)) / f64::from(MILLI)
}

impl Loaded {
    /// What this vehicle asks people for, in the catalogue's order.
    pub(super) fn asked(&self) -> impl Iterator<Item = &'static catalogue::Figure> {
        self.figures().filter(|one| !one.felt)
    }

    /// The same, with what a phone feels.
    pub(super) fn figures(&self) -> impl Iterator<Item = &'static catalogue::Figure> {
        let fitted = |kind: &String| self.vehicle.of_kind(kind).next().is_some();
        self.catalogue.figures.iter().filter(move |one| one.kinds.iter().any(fitted))
    }

    /// The entry that tells a number.
    ///
    /// # Errors
    /// [`Error::InvalidInput`] for one that is out of range or between two steps.
    pub(super) fn tells(
        &self,
        words: &Words,
        figure: &catalogue::Figure,
        value: Option<f64>,
        now: &Stamp,
    ) -> Result<NewEntry> {
        let value_milli = value.map(|value| in_steps(words, figure, value)).transpose()?;
        let told = Figure { figure: figure.id.clone(), value_milli };
        Ok(NewEntry { run: None, figure: Some(told), ..self.entry(Act::Report, now) })
    }

    /// Where a number was last told, and what.
    pub(super) fn told_figure(&self, id: &str) -> Option<(&Entry, i64)> {
        let told = self.counted().filter_map(|entry| Some((entry, entry.said.figure.as_ref()?)));
        let (entry, last) = told.rev().find(|(_, figure)| figure.figure == id)?;
        Some((entry, last.value_milli?))
    }

    /// The number that was last told.
    pub(super) fn told_number(&self, id: &str) -> Option<f64> {
        self.told_figure(id).map(|(_, milli)| of_milli(milli))
    }

    pub(super) fn figure_row(
        &self,
        words: &Words,
        figure: &catalogue::Figure,
        now: &Stamp,
    ) -> FigureRow {
        let told = self.told_figure(&figure.id);
        let value = told.map(|(_, milli)| of_milli(milli));
        let say = |it: &str| words.text.say(&format!("figure.{}.{it}", figure.id), &[]);
        FigureRow {
            id: figure.id.clone(),
            of_text: words.text.say(&format!("figures.{}", figure.of), &[]),
            title: say("title"),
            about: say("about"),
            value,
            value_text: value.map(|value| words.figure(&figure.id, value)),
            age_text: told.map(|(entry, _)| words.age(self.age_of_entry(entry, now))),
            value_min: figure.min,
            value_max: figure.max,
            value_step: figure.step,
            unit_text: words.typed_unit(&figure.id),
        }
    }

    /// What people told of themselves, as far as this vehicle has what it is about.
    pub(super) fn habits(&self) -> Habits {
        let told = |id: &str| self.told_figure(id).map(|(_, milli)| milli);
        let has = |kind: &str| self.vehicle.of_kind(kind).next().is_some();
        let from_fresh = |(_, toilet): (usize, &crate::vehicle::Fitting)| {
            toilet.word("flush_from") == Some("fresh_tank")
        };
        Habits {
            people: told("people").map(|milli| milli.div_euclid(i64::from(MILLI))),
            showers_milli: if has("shower") { told("showers_a_day") } else { Some(0) },
            shower_ml: told("shower_l"),
            flushes_milli: told("flushes_a_day"),
            flush_ml: told("flush_l"),
            flush_from_fresh: self.vehicle.of_kind("cassette_toilet").any(from_fresh),
        }
    }

    /// What an entry tells of a number.
    pub(super) fn figure_said(words: &Words, figure: &Figure) -> String {
        let said = match figure.value_milli {
            Some(milli) => words.figure(&figure.figure, of_milli(milli)),
            None => words.say("not_known", &[]),
        };
        let title = words.figure_title(&figure.figure);
        words.say("log.figure", &[("title", &title), ("what", &said)])
    }
}

impl Words<'_> {
    /// What a number is called that people tell.
    pub(in crate::engine) fn figure_title(&self, id: &str) -> String {
        self.text.say(&format!("figure.{id}.title"), &[])
    }

    /// The unit in which a number is typed and said back, whatever the units of the pages; a count has
    /// none.
    fn typed_unit(&self, id: &str) -> Option<String> {
        let endings = id.match_indices('_').filter_map(|(at, _)| id.get(at..)?.strip_prefix('_'));
        let mut keys = endings.map(|ending| format!("say.typed.{ending}"));
        keys.find(|key| self.text.has(key)).map(|key| self.text.say(&key, &[]))
    }

    /// A number as people told it, with what it counts.
    fn figure(&self, id: &str, value: f64) -> String {
        let n = match Units::Metric.quantity(id, value) {
            Some(written) => self.written(&written),
            None => value.to_string(),
        };
        let one = format!("figure.{id}.said_one");
        let key = if n == "1" && self.text.has(&one) { one } else { format!("figure.{id}.said") };
        self.text.say(&key, &[("n", &n)])
    }
}
