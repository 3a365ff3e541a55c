//! What a question says: sentences, quantities with their units, bands and lines.

use crate::catalogue::Text;
use crate::engine::page::{ReckoningLine, ReckoningPart};
use crate::engine::words::Words;
use crate::reckon::Between;
use crate::units::Units;

/// The words of one question. It needs no vehicle.
#[derive(Debug, Clone, Copy)]
pub(super) struct Speech<'a> {
    pub(super) id: &'static str,
    pub(super) text: &'a Text,
    pub(super) units: Units,
}

impl Speech<'_> {
    /// Words of this question, by their key below its own.
    pub(super) fn say(&self, key: &str, slots: &[(&str, &str)]) -> String {
        self.text.say(&format!("reckon.{}.{key}", self.id), slots)
    }

    /// One quantity with its unit, as it was given.
    pub(super) fn quantity(&self, ending: &str, value: f64) -> String {
        let written = self.units.quantity(ending, value);
        written.map_or_else(|| value.to_string(), |written| Words::in_text(self.text, &written))
    }

    /// A band, rounded outward to whole steps: "1550 to 2010 watts", or one quantity.
    pub(super) fn band(&self, ending: &str, band: Between, step: f64) -> String {
        let Some((lower, upper)) = self.units.band(ending, band.lower, band.upper, step) else {
            return String::new();
        };
        let most = Words::in_text(self.text, &upper);
        if lower.n == upper.n {
            return most;
        }
        self.text.say("say.reckon.to", &[("lower", &lower.n), ("upper", &most)])
    }

    /// A range in the unit in which it is typed, whatever the units of the pages.
    pub(super) fn typed(&self, ending: &str, (least, most): (f64, f64)) -> String {
        let said = |value: f64| match Units::Metric.quantity(ending, value) {
            Some(written) => Words::in_text(self.text, &written),
            None => value.to_string(),
        };
        self.text.say("say.reckon.to", &[("lower", &said(least)), ("upper", &said(most))])
    }

    /// A line that says how much something is.
    pub(super) fn line(&self, id: &str, ending: &str, band: Between, step: f64) -> ReckoningLine {
        let unit = ending.trim_start_matches('_').to_owned();
        let (lower, upper) = (Some(band.lower), Some(band.upper));
        ReckoningLine {
            lower,
            upper,
            unit: Some(unit),
            ..self.told(id, self.band(ending, band, step))
        }
    }

    /// Lines under the title that this question has for them.
    pub(super) fn part(&self, id: &str, lines: Vec<ReckoningLine>) -> ReckoningPart {
        ReckoningPart { title: self.say(&format!("part.{id}"), &[]), lines, chart: None }
    }

    /// A line that says something in words.
    pub(super) fn told(&self, id: &str, text: String) -> ReckoningLine {
        ReckoningLine {
            id: id.to_owned(),
            title: self.say(&format!("line.{id}"), &[]),
            text,
            detail: None,
            mark: None,
            lower: None,
            upper: None,
            unit: None,
            bar_from: None,
            bar_to: None,
        }
    }
}
