//! One question as it is asked: what was picked for it, what it asks of people and of gauges, and its
//! words.

use std::collections::BTreeSet;
use std::ops::Deref;

use super::small::small;
use super::speech::Speech;
use crate::catalogue::Figure;
use crate::clock::Stamp;
use crate::engine::loaded::Loaded;
use crate::engine::page::{
    Choice, ChoiceOption, Mark, NumberChoice, Pick, Reckoning, ReckoningGauge, ReckoningPart,
};
use crate::engine::reserve::Known;
use crate::engine::words::Words;
use crate::error::{Error, Result};
use crate::reckon::Between;
use crate::vehicle::{Fitting, Gauge, Settings};

/// What stands for choosing none of several.
const NONE: &str = "none";
const ML_PER_L: f64 = 1_000.0;

/// A question while it is answered. What it is asked with is noted as it is looked up.
pub(super) struct Asked<'a> {
    speech: Speech<'a>,
    pub(super) loaded: &'a Loaded,
    pub(super) words: &'a Words<'a>,
    pub(super) now: &'a Stamp,
    picks: &'a [Pick],
    choices: Vec<Choice>,
    asks: Vec<&'static Figure>,
    gauges: Vec<ReckoningGauge>,
    by_utc_ms: Option<i64>,
}

/// What was found.
pub(super) struct Answer {
    pub(super) mark: Option<Mark>,
    pub(super) verdict_text: String,
    pub(super) cautions: Vec<String>,
    pub(super) parts: Vec<ReckoningPart>,
    pub(super) missing: Vec<String>,
}

/// A question says what its words say.
impl<'a> Deref for Asked<'a> {
    type Target = Speech<'a>;

    fn deref(&self) -> &Speech<'a> {
        &self.speech
    }
}

impl<'a> Asked<'a> {
    pub(super) fn new(
        id: &'static str,
        loaded: &'a Loaded,
        words: &'a Words<'a>,
        picks: &'a [Pick],
        now: &'a Stamp,
    ) -> Self {
        let (choices, asks, gauges) = (Vec::new(), Vec::new(), Vec::new());
        let speech = Speech { id, text: words.text, units: words.units };
        Self { speech, loaded, words, now, picks, choices, asks, gauges, by_utc_ms: None }
    }

    /// What was picked of a choice, offered or not.
    pub(super) fn wished(&self, choice: &str) -> impl Iterator<Item = &'a str> {
        let picks = self.picks.iter().filter(move |pick| pick.choice == choice);
        picks.map(|pick| pick.value.as_str())
    }

    /// Which of some options is chosen; `None` where nothing was picked and there is no `usual` one.
    ///
    /// # Errors
    /// [`Error::InvalidInput`] for another.
    pub(super) fn one(
        &mut self,
        choice: &str,
        options: &[(&str, String)],
        usual: Option<&str>,
    ) -> Result<Option<String>> {
        let picked = self.picked(choice, options)?;
        let chosen = picked.last().map(|id| (*id).to_owned()).or_else(|| usual.map(str::to_owned));
        self.offer(choice, false, options, chosen.as_deref().as_slice());
        Ok(chosen)
    }

    /// Which of some options are chosen; the `usual` ones where nothing was picked.
    ///
    /// # Errors
    /// [`Error::InvalidInput`] for another.
    #[allow(dead_code, reason = "for the questions that are asked of several")]
    pub(super) fn some(
        &mut self,
        choice: &str,
        options: &[(&str, String)],
        usual: &[&str],
    ) -> Result<Vec<String>> {
        let with_none: Vec<_> = options.iter().cloned().chain([(NONE, String::new())]).collect();
        let picked = self.picked(choice, &with_none)?;
        let chosen: Vec<&str> = if picked.is_empty() { usual.to_vec() } else { picked };
        let of = options.iter().map(|(id, _)| *id).filter(|id| chosen.contains(id));
        let chosen: Vec<&str> = of.collect();
        self.offer(choice, true, options, &chosen);
        Ok(chosen.into_iter().map(str::to_owned).collect())
    }

    /// A number that is chosen; `None` while none is. It is typed in the unit in which it is read: where
    /// that is not the one of `ending` it is another choice, whose name ends with its unit.
    ///
    /// # Units
    /// `range`, and what is given back: as `ending` names it, as `_c`.
    ///
    /// # Errors
    /// [`Error::InvalidInput`] for none, or one out of range.
    pub(super) fn number(
        &mut self,
        choice: &str,
        ending: &'static str,
        range: (f64, f64),
    ) -> Result<Option<f64>> {
        let typed = self.words.units.typed(ending);
        let (id, range) = if typed.ending == ending {
            (choice.to_owned(), range)
        } else {
            (format!("{choice}{}", typed.ending), typed.range(range))
        };
        let range_text = self.range(typed.ending, range);
        let title = self.say(&format!("choice.{choice}"), &[]);
        let wrong = || Error::InvalidInput { field: title.clone(), expected: range_text.clone() };
        let picked = self.picks.iter().rfind(|pick| pick.choice == id);
        let value =
            picked.map(|pick| pick.value.parse::<f64>().map_err(|_| wrong())).transpose()?;
        if value.is_some_and(|value| !(range.0..=range.1).contains(&value)) {
            return Err(wrong());
        }
        let value_text = value.map(|value| self.quantity(typed.ending, value));
        let (value_min, value_max) = range;
        let number = NumberChoice { value, value_text, value_min, value_max, range_text };
        self.choices.push(Choice {
            id,
            title,
            many: false,
            options: Vec::new(),
            number: Some(number),
        });
        Ok(value.map(|value| typed.own(value)))
    }

    /// A number that people told; asked for where they did not.
    pub(super) fn figure(&mut self, id: &str) -> Option<f64> {
        let figure = self.loaded.asked().find(|figure| figure.id == id)?;
        self.asks.push(figure);
        self.loaded.told_number(id)
    }

    /// Whether a fitting certainly is in one of some settings, or certainly is not; `None` where it may
    /// be, and where it has no such variable.
    pub(super) fn stands(&self, fitting: &Fitting, name: &str, settings: &[&str]) -> Option<bool> {
        let vehicle = &self.loaded.vehicle;
        let variable = vehicle.variable_of(fitting, name)?;
        let places = settings.iter().filter_map(|one| vehicle.setting(variable, one).ok());
        let wanted = places.fold(Settings::NONE, |all, one| all.or(Settings::one(one)));
        let believed = self.loaded.state.belief(variable)?.settings;
        match (believed.is_within(wanted), believed.meets(wanted)) {
            (true, _) => Some(true),
            (false, false) => Some(false),
            (false, true) => None,
        }
    }

    /// What may be in a tank by now; noted as what the answer rests on. `None` where it has no gauge, and
    /// where nobody knows. Unit: L.
    ///
    /// # Errors
    /// As of the reserves.
    pub(super) fn read_l(&mut self, kind: &str) -> Result<Option<Between>> {
        let own = |fitting: &Fitting, _: &Gauge| fitting.kind == kind;
        let known = self.loaded.known_where(self.words, self.now, own)?;
        let Some(one) = known.first() else { return Ok(None) };
        self.rests_on(&one.fitting.id, one.title(self.words));
        Ok(self.litres(one))
    }

    /// What may be in a tank by now; `None` where nobody knows. Unit: L.
    pub(super) fn litres(&self, tank: &Known) -> Option<Between> {
        let (lower, upper) = self.loaded.level_now(tank, self.now)?;
        Some(Between::of(small(lower) / ML_PER_L, small(upper) / ML_PER_L))
    }

    /// Notes that the answer rests on a gauge.
    pub(super) fn rests_on(&mut self, gauge: &str, title: String) {
        self.gauges.push(ReckoningGauge { id: gauge.to_owned(), title });
    }

    /// Notes by when something must be done, which the words `until` of this question name. Unit: ms from
    /// now, ≥ 0.
    pub(super) fn by(&mut self, in_ms: f64) {
        let in_ms = crate::reserve::whole("by", in_ms, 1, 0..=i64::from(u32::MAX)).ok();
        self.by_utc_ms = in_ms.map(|ms| self.now.utc_ms.saturating_add(ms));
    }

    /// What was picked of a choice, in its order.
    fn picked(&self, choice: &str, options: &[(&str, String)]) -> Result<Vec<&'a str>> {
        let of = self.picks.iter().filter(|pick| pick.choice == choice);
        let known = |pick: &&Pick| options.iter().any(|(id, _)| *id == pick.value);
        if of.clone().all(|pick| known(&pick)) {
            return Ok(of.map(|pick| pick.value.as_str()).collect());
        }
        let expected = options.iter().map(|(id, _)| *id).collect::<Vec<_>>().join(", ");
        Err(Error::InvalidInput { field: self.say(&format!("choice.{choice}"), &[]), expected })
    }

    fn offer(&mut self, choice: &str, many: bool, options: &[(&str, String)], chosen: &[&str]) {
        let option = |(id, title): &(&str, String)| ChoiceOption {
            id: (*id).to_owned(),
            title: title.clone(),
            chosen: chosen.contains(id),
        };
        let title = self.say(&format!("choice.{choice}"), &[]);
        let options = options.iter().map(option).collect();
        self.choices.push(Choice { id: choice.to_owned(), title, many, options, number: None });
    }

    /// The page.
    ///
    /// # Errors
    /// [`Error::NotFound`] for a pick of a choice that this question does not have on this vehicle.
    pub(super) fn close(self, mut answer: Answer) -> Result<Reckoning> {
        // What several lines lack is said once.
        let mut said = BTreeSet::new();
        answer.parts.retain(|part| !part.lines.is_empty() || part.chart.is_some());
        answer.missing.retain(|line| said.insert(line.clone()));
        let offered = |pick: &&Pick| self.choices.iter().any(|choice| choice.id == pick.choice);
        if let Some(odd) = self.picks.iter().find(|pick| !offered(pick)) {
            return Err(Error::NotFound { kind: "choice", id: odd.choice.clone() });
        }
        let row = |figure: &&Figure| self.loaded.figure_row(self.words, figure, self.now);
        let asks = self.asks.iter().map(row).collect();
        let start = format!("reckon.{}.source.", self.id);
        let sources = self.words.text.below(&start).map(|said| self.filled(said));
        let live = format!("reckon.{}.live.open", self.id);
        Ok(Reckoning {
            id: self.id.to_owned(),
            title: self.say("title", &[]),
            mark: answer.mark,
            verdict_text: answer.verdict_text,
            by_text: self.by_utc_ms.map(|_| self.say("until", &[])),
            by_utc_ms: self.by_utc_ms,
            cautions: answer.cautions,
            live_text: self.text.get(&live).map(str::to_owned),
            parts: answer.parts,
            missing: answer.missing,
            about: std::iter::once(self.say("model", &[])).chain(sources).collect(),
            choices: self.choices,
            asks,
            gauges: self.gauges,
        })
    }
}
