//! One reserve, with what is believed of its use.

use super::{BAND, lasts};
use crate::engine::reckon::asked::Asked;
use crate::engine::reckon::small::{days, small};
use crate::engine::reserve::Known;
use crate::reckon::Between;
use crate::reckon::first::{Curve, EVEN, HORIZON_DAYS, Left, Rate, Seen, UNEVEN, USUAL};

pub(super) const DAYS: &str = "days";

/// A reserve that is known.
#[derive(Clone)]
pub(super) struct Stock<'a> {
    pub(super) known: &'a Known<'a>,
    /// By uneven, usual and even days.
    pub(super) curves: [Curve; 3],
    /// The average use. Unit: its small unit, a day.
    pub(super) a_day: f64,
    left: Left,
    rates: [Rate; 3],
    published: bool,
    read: bool,
}

impl<'a> Stock<'a> {
    /// `None` while something is missing for it.
    pub(super) fn of(asked: &Asked, known: &'a Known<'a>) -> Option<Self> {
        let last = known.last.as_ref().filter(|_| known.lasting.is_some())?;
        let age_ms = last.at.age_ms(asked.now)?;
        let seen = known.rate.as_ref().filter(|rate| rate.by_readings()).map(|rate| Seen {
            used: Between::of(small(rate.used.lower), small(rate.used.upper)),
            days: days(rate.used.over_ms),
        });
        let told = asked.loaded.told_a_day(asked.words, known, asked.now);
        let published = told.filter(|range| range.0 > 0);
        let published = published.map(|(lower, upper)| Between::of(small(lower), small(upper)));
        let left = Left {
            amount: Between::of(small(last.lower), small(last.upper)),
            age_days: days(age_ms),
        };
        let rate = |even| Rate::new(published, seen, even);
        let rates = [rate(UNEVEN)?, rate(USUAL)?, rate(EVEN)?];
        let curves = rates.each_ref().map(|rate| Curve::new(left, rate));
        let [_, usual, _] = &rates;
        let a_day = usual.a_day();
        let (published, read) = (published.is_some(), seen.is_some());
        Some(Self { known, curves, a_day, left, rates, published, read })
    }

    /// The same with so much less in it. Unit: its small unit, ≥ 0.
    pub(super) fn without(&self, lost: f64) -> Self {
        let amount = self.left.amount - Between::exactly(lost);
        let left = Left { amount, ..self.left };
        let curves = self.rates.each_ref().map(|rate| Curve::new(left, rate));
        Self { curves, left, ..self.clone() }
    }

    fn usual(&self) -> &Curve {
        let [_, usual, _] = &self.curves;
        usual
    }

    /// The band of 80 %; without an upper end beyond what is told ahead. Unit: days.
    pub(super) fn ends(&self, pace: Option<f64>) -> (f64, Option<f64>) {
        let by = |chance| {
            let days = self.usual().ends_by(chance, pace.unwrap_or(1.0));
            days.filter(|days| *days <= HORIZON_DAYS)
        };
        (by(BAND.0).unwrap_or(HORIZON_DAYS), by(BAND.1))
    }

    /// Sooner as likely as later.
    pub(super) fn middle(&self, pace: f64) -> Option<f64> {
        self.usual().ends_by(0.5, pace).filter(|days| *days <= HORIZON_DAYS)
    }

    /// The band in words.
    pub(super) fn left(&self, asked: &Asked, pace: f64) -> String {
        let (lower, upper) = self.ends(Some(pace));
        lasts(asked, lower, upper)
    }

    /// "Fresh tank empty".
    pub(super) fn end(&self, asked: &Asked) -> String {
        let end = self.known.end_text(asked.words);
        asked.say("say.end", &[("what", &self.known.title(asked.words)), ("end", &end)])
    }

    /// On what it rests.
    pub(super) fn rests(&self) -> &'static str {
        match (self.published, self.read) {
            (true, true) => "both",
            (true, false) => "published",
            (false, _) => "read",
        }
    }
}
