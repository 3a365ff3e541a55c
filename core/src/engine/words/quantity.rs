//! Quantities, ranges and what a gauge showed, in words.

use super::{MS_PER_MIN, Words};
use crate::reserve::Amount;
use crate::state::{GaugeUnit, Reading};
use crate::units::Written;
use crate::vehicle::Settings;

const MS_PER_H: i64 = 60 * MS_PER_MIN;
const MS_PER_DAY: i64 = 24 * MS_PER_H;
/// Beyond this a forecast names no number: nobody plans by it. Common practice, no source.
const DAYS_MAX: i64 = 60;
/// Up to here a time is told in hours. Common practice, no source.
const HOURS_TO_MS: i64 = 2 * MS_PER_DAY;
/// From here on days are told in steps of five. Common practice, no source.
const DAYS_FINE: i64 = 15;

impl Words<'_> {
    /// "between 20 and 50 litres", "between 4.5 and 6 kg" or "between 40 and 60 per cent", rounded
    /// outward.
    pub(in crate::engine) fn between(&self, amount: Amount, lower: i64, upper: i64) -> String {
        let (lower, upper) = self.ends(amount, lower, upper, true);
        self.say("gauge.between", &[("lower", &lower.n), ("upper", &self.written(&upper))])
    }

    /// The same of what a reserve holds: a mass is that of the gas alone, "between 4.5 and 6 kg of gas".
    pub(in crate::engine) fn contents(&self, amount: Amount, lower: i64, upper: i64) -> String {
        let between = self.between(amount, lower, upper);
        match amount {
            Amount::Grams => self.say("gauge.of_gas", &[("what", &between)]),
            Amount::Millilitres | Amount::Permille => between,
        }
    }

    /// "about 8 to 12 litres a day", rounded outward.
    pub(in crate::engine) fn a_day(&self, amount: Amount, lower: i64, upper: i64) -> String {
        let (lower, upper) = self.ends(amount, lower, upper, false);
        self.range("reserve.used", &lower.n, lower == upper, &self.written(&upper))
    }

    /// "cooking 6 to 12", or with the unit "cooking 6 to 12 litres", rounded outward.
    pub(in crate::engine) fn much(
        &self,
        what: &str,
        (amount, lower, upper): (Amount, i64, i64),
        unit: bool,
    ) -> String {
        let (lower, upper) = self.ends(amount, lower, upper, true);
        let most = if unit { self.written(&upper) } else { upper.n.clone() };
        let key = match &*lower.n {
            "0" => "most",
            n if n == upper.n => "one",
            _ => "range",
        };
        let slots = [("what", what), ("lower", &lower.n), ("upper", &most)];
        self.say(&format!("reserve.rests.{key}"), &slots)
    }

    /// Both ends in one unit, rounded outward; `fine` as of [`crate::units::Units::volumes`].
    fn ends(&self, amount: Amount, lower: i64, upper: i64, fine: bool) -> (Written, Written) {
        match amount {
            Amount::Millilitres => self.units.volumes(lower, upper, fine),
            Amount::Grams => self.units.masses(lower, upper),
            Amount::Permille => per_cent(lower, upper),
        }
    }

    /// "about 2 to 4 days", rounded outward: hours below two days, no number beyond two months.
    pub(in crate::engine) fn lasting(&self, lower_ms: i64, upper_ms: Option<i64>) -> String {
        let upper_ms = upper_ms.filter(|ms| *ms <= DAYS_MAX.saturating_mul(MS_PER_DAY));
        let hours_to =
            if upper_ms.is_none_or(|ms| ms < HOURS_TO_MS) { HOURS_TO_MS } else { MS_PER_DAY };
        let lower = Span::of(lower_ms.min(DAYS_MAX.saturating_mul(MS_PER_DAY)), hours_to, false);
        let upper = upper_ms.map(|ms| Span::of(ms, HOURS_TO_MS, true));
        let from = |upper: &Span| {
            if lower.unit == upper.unit || lower.n == 0 {
                lower.n.to_string()
            } else {
                self.span(&lower)
            }
        };
        match upper {
            None if lower.n == 0 => self.say("reserve.no_end", &[]),
            None => self.say("reserve.at_least", &[("time", &self.span(&lower))]),
            Some(Span { n: 0, .. }) => self.say("reserve.over", &[]),
            Some(upper) => {
                let same = lower == upper;
                let most = self.span(&upper);
                self.range("reserve.left", &from(&upper), same, &most)
            }
        }
    }

    fn span(&self, span: &Span) -> String {
        let one = if span.n == 1 { "_one" } else { "" };
        self.say(&format!("reserve.{}{one}", span.unit), &[("n", &span.n.to_string())])
    }

    /// What a gauge showed, as it showed it.
    pub(in crate::engine) fn shown(&self, reading: &Reading) -> String {
        let (whole, rest) = (reading.value_milli.div_euclid(1_000), reading.value_milli % 1_000);
        let digits = format!("{whole}.{rest:03}");
        let n = digits.trim_end_matches('0').trim_end_matches('.');
        match reading.unit {
            GaugeUnit::Lamps if whole == 0 => self.say("gauge.no_lamps", &[]),
            GaugeUnit::Lamps => self.say("gauge.lamps", &[("n", n)]),
            GaugeUnit::Percent => self.say("unit.per_cent", &[("n", n)]),
            GaugeUnit::Litres => self.say("unit.l", &[("n", n)]),
            GaugeUnit::Volts => self.say("unit.volts", &[("n", n)]),
            GaugeUnit::Kilograms => {
                self.say("gauge.whole", &[("what", &self.say("unit.kg", &[("n", n)]))])
            }
            GaugeUnit::Words => self.word(reading, whole).unwrap_or_else(|| n.to_owned()),
        }
    }

    /// The word by which a gauge was told.
    fn word(&self, reading: &Reading, place: i64) -> Option<String> {
        let fitting = self.vehicle.fittings.iter().find(|one| one.id == reading.gauge)?;
        let variable = fitting.gauge.as_ref()?.variable;
        Some(self.settings(variable, Settings::one(u8::try_from(place).ok()?)))
    }

    /// "about 2 to 4 …", "about 3 …" where both are the `same`, or "4 … at most" from 0; `most` says
    /// the upper end with its unit.
    fn range(&self, key: &str, lower: &str, same: bool, most: &str) -> String {
        let which = match lower {
            "0" => "most",
            _ if same => "one",
            _ => "range",
        };
        self.say(&format!("{key}.{which}"), &[("lower", lower), ("upper", most)])
    }
}

/// A time in whole hours or days.
#[derive(PartialEq, Eq)]
struct Span {
    n: i64,
    unit: &'static str,
}

impl Span {
    /// Below `hours_to` in hours, else in days, from [`DAYS_FINE`] on in fives; rounded `up` or down.
    fn of(ms: i64, hours_to: i64, up: bool) -> Self {
        let whole = |n: i64, per: i64| {
            let more = if up { per.saturating_sub(1) } else { 0 };
            n.saturating_add(more).div_euclid(per)
        };
        if ms < hours_to {
            return Self { n: whole(ms, MS_PER_H), unit: "hours" };
        }
        let days = whole(ms, MS_PER_DAY);
        let step = if days < DAYS_FINE { 1 } else { 5 };
        Self { n: whole(days, step).saturating_mul(step), unit: "days" }
    }
}

/// Whole per cents around tenths of them.
fn per_cent(lower: i64, upper: i64) -> (Written, Written) {
    let of = |n: i64| Written { unit: "per_cent", n: n.to_string(), m: String::new() };
    (of(lower.div_euclid(10)), of(upper.saturating_add(9).div_euclid(10)))
}
