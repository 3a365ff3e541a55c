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
    /// Words of this question, by their key below its own. A number in a slot, as in `{50_c}`, is a
    /// quantity of the sentence itself.
    pub(super) fn say(&self, key: &str, slots: &[(&str, &str)]) -> String {
        self.filled(&self.text.say(&format!("reckon.{}.{key}", self.id), slots))
    }

    /// Words with their own quantities.
    pub(super) fn filled(&self, said: &str) -> String {
        let mut parts = said.split('{');
        let first = parts.next().unwrap_or_default().to_owned();
        parts.fold(first, |said, part| said + &self.own(part))
    }

    /// What follows a brace, with its quantity.
    fn own(&self, part: &str) -> String {
        let quantity = part.split_once('}').and_then(|(id, rest)| {
            let (value, _) = id.split_once('_')?;
            let ending = id.strip_prefix(value)?;
            Some(self.quantity(ending, value.parse().ok()?) + rest)
        });
        quantity.unwrap_or_else(|| format!("{{{part}"))
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

    /// What may be typed, with the unit of each end.
    pub(super) fn range(&self, ending: &str, (least, most): (f64, f64)) -> String {
        let ends = [self.quantity(ending, least), self.quantity(ending, most)];
        self.text.say("say.reckon.to", &[("lower", &ends[0]), ("upper", &ends[1])])
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
