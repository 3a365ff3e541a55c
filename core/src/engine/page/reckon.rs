//! One shape for every question that is answered with numbers: may I, how much, how long.

use serde::Serialize;

use super::FigureRow;

/// How something stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Mark {
    /// It holds, at either end of its band.
    Fine,
    /// It may not hold, or wants looking at.
    Watch,
    /// It does not hold.
    Wrong,
}

impl Mark {
    /// Names the words for it.
    pub(in crate::engine) fn key(self) -> &'static str {
        match self {
            Self::Fine => "fine",
            Self::Watch => "watch",
            Self::Wrong => "wrong",
        }
    }
}

/// A question that can be asked of this vehicle.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReckoningRow {
    /// Names it to the engine.
    pub id: String,
    /// The question.
    pub title: String,
    /// What it is about.
    pub about: String,
}

/// What is picked for one question, once: it is not kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pick {
    /// Which [`Choice`].
    pub choice: String,
    /// One of its options, or its number as digits; of several, `none` for none at all.
    pub value: String,
}

/// One way to choose.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ChoiceOption {
    /// Names it to the engine.
    pub id: String,
    /// What it is.
    pub title: String,
    /// It is chosen.
    pub chosen: bool,
}

/// What a question can be asked with.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Choice {
    /// Names it to the engine.
    pub id: String,
    /// What is chosen.
    pub title: String,
    /// Several can be chosen.
    pub many: bool,
    /// In order; none of a number.
    pub options: Vec<ChoiceOption>,
    /// It is a number: the least and the most that it can be, and its unit in words.
    pub number: Option<NumberChoice>,
}

/// A number that can be chosen.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct NumberChoice {
    /// What is chosen; `None` while nothing is.
    pub value: Option<f64>,
    /// The same with its unit.
    pub value_text: Option<String>,
    /// The least.
    pub value_min: f64,
    /// The most.
    pub value_max: f64,
    /// In words: "-40 °C to 40 °C".
    pub range_text: String,
}

/// One thing that was reckoned.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReckoningLine {
    /// Names it within its part.
    pub id: String,
    /// What it is.
    pub title: String,
    /// How much, with its band and unit; how it stands; what to do.
    pub text: String,
    /// More of it.
    pub detail: Option<String>,
    /// How it stands.
    pub mark: Option<Mark>,
    /// The least that it can be, in `unit`.
    pub lower: Option<f64>,
    /// The most.
    pub upper: Option<f64>,
    /// As the ending of a name: `w`, `min`, `c`.
    pub unit: Option<String>,
    /// Where its band lies on a bar: from 0 to 1.
    pub bar_from: Option<f64>,
    /// Where it ends.
    pub bar_to: Option<f64>,
}

/// One place of a chart.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ChartPoint {
    /// Where it stands along the chart, from 0 to 1.
    pub at: f64,
    /// What is written below it; empty for none.
    pub label: String,
    /// The least, from 0 (bottom) to 1 (top).
    pub lower: f64,
    /// What is most likely.
    pub middle: f64,
    /// The most.
    pub upper: f64,
}

/// A band over time, ready to be drawn.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Chart {
    /// What it shows, with its unit.
    pub title: String,
    /// The same in a sentence for who cannot see it.
    pub told: String,
    /// What the bottom of it is.
    pub bottom_text: String,
    /// What the top is.
    pub top_text: String,
    /// A line that matters, from 0 (bottom) to 1.
    pub limit: Option<f64>,
    /// What that line is.
    pub limit_text: Option<String>,
    /// From left to right.
    pub points: Vec<ChartPoint>,
}

/// Lines that belong together.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReckoningPart {
    /// What they have in common.
    pub title: String,
    /// In order.
    pub lines: Vec<ReckoningLine>,
    /// The same drawn.
    pub chart: Option<Chart>,
}

/// A gauge whose reading the answer rests on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReckoningGauge {
    /// Names it to the engine.
    pub id: String,
    /// What it is.
    pub title: String,
}

/// The answer to one question.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Reckoning {
    /// Names it to the engine.
    pub id: String,
    /// The question.
    pub title: String,
    /// How it stands; `None` where that cannot be told.
    pub mark: Option<Mark>,
    /// The answer.
    pub verdict_text: String,
    /// By when something must be done. Unit: ms since 1970-01-01 UTC; whoever shows it does so by the
    /// clock of who reads.
    pub by_utc_ms: Option<i64>,
    /// What must be done by then: "Drain by". There where the instant is.
    pub by_text: Option<String>,
    /// What to beware of.
    pub cautions: Vec<String>,
    /// What it can be asked with, and what is chosen.
    pub choices: Vec<Choice>,
    /// What leads to the same looked at live, by the phone's sensor; `None` where it cannot be.
    pub live_text: Option<String>,
    /// The numbers.
    pub parts: Vec<ReckoningPart>,
    /// What is missing for more.
    pub missing: Vec<String>,
    /// The numbers that only people can tell, on which it rests.
    pub asks: Vec<FigureRow>,
    /// The gauges on which it rests.
    pub gauges: Vec<ReckoningGauge>,
    /// How it is reckoned, how wrong it may be, and from what sources.
    pub about: Vec<String>,
}
