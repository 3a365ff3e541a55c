//! Questions that are answered with numbers: the shapes that cross, as in `page.rs`, and their calls.

use stowfast_core::engine::{
    Chart, ChartPoint, Choice, ChoiceOption, FigureRow, Mark, NumberChoice, Pick, Reckoning,
    ReckoningGauge, ReckoningLine, ReckoningPart, ReckoningRow,
};

use crate::{Engine, EngineError, Moment};

type Result<T> = std::result::Result<T, EngineError>;

/// How something stands.
#[uniffi::remote(Enum)]
pub enum Mark {
    /// It holds.
    Fine,
    /// It may not hold.
    Watch,
    /// It does not hold.
    Wrong,
}

/// A question that can be asked of this vehicle.
#[uniffi::remote(Record)]
pub struct ReckoningRow {
    /// Names it to the engine.
    pub id: String,
    /// The question.
    pub title: String,
    /// What it is about.
    pub about: String,
}

/// What is picked for one question, once: it is not kept.
#[uniffi::remote(Record)]
pub struct Pick {
    /// Which choice.
    pub choice: String,
    /// One of its options, or its number as digits; of several, `none` for none at all.
    pub value: String,
}

/// One way to choose.
#[uniffi::remote(Record)]
pub struct ChoiceOption {
    /// Names it to the engine.
    pub id: String,
    /// What it is.
    pub title: String,
    /// It is chosen.
    pub chosen: bool,
}

/// A number that can be chosen.
#[uniffi::remote(Record)]
pub struct NumberChoice {
    /// What is chosen; null while nothing is.
    pub value: Option<f64>,
    /// The same with its unit.
    pub value_text: Option<String>,
    /// The least.
    pub value_min: f64,
    /// The most.
    pub value_max: f64,
    /// In words.
    pub range_text: String,
}

/// What a question can be asked with.
#[uniffi::remote(Record)]
pub struct Choice {
    /// Names it to the engine.
    pub id: String,
    /// What is chosen.
    pub title: String,
    /// Several can be chosen.
    pub many: bool,
    /// In order; none of a number.
    pub options: Vec<ChoiceOption>,
    /// It is a number.
    pub number: Option<NumberChoice>,
}

/// One thing that was reckoned.
#[uniffi::remote(Record)]
pub struct ReckoningLine {
    /// Names it within its part.
    pub id: String,
    /// What it is.
    pub title: String,
    /// How much, how it stands, what to do.
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
#[uniffi::remote(Record)]
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
#[uniffi::remote(Record)]
pub struct Chart {
    /// What it shows, with its unit.
    pub title: String,
    /// The same in a sentence.
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
#[uniffi::remote(Record)]
pub struct ReckoningPart {
    /// What they have in common.
    pub title: String,
    /// In order.
    pub lines: Vec<ReckoningLine>,
    /// The same drawn.
    pub chart: Option<Chart>,
}

/// A gauge whose reading the answer rests on.
#[uniffi::remote(Record)]
pub struct ReckoningGauge {
    /// Names it to the engine.
    pub id: String,
    /// What it is.
    pub title: String,
}

/// The answer to one question.
#[uniffi::remote(Record)]
pub struct Reckoning {
    /// Names it to the engine.
    pub id: String,
    /// The question.
    pub title: String,
    /// How it stands; null where that cannot be told.
    pub mark: Option<Mark>,
    /// The answer.
    pub verdict_text: String,
    /// By when something must be done, to be shown by the clock here. Unit: ms since 1970-01-01 UTC.
    pub by_utc_ms: Option<i64>,
    /// What must be done by then: "Drain by". There where the instant is.
    pub by_text: Option<String>,
    /// What to beware of.
    pub cautions: Vec<String>,
    /// What it can be asked with, and what is chosen.
    pub choices: Vec<Choice>,
    /// What leads to the same looked at live, by the phone's sensor; null where it cannot be.
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

#[uniffi::export]
impl Engine {
    /// Every question that can be asked of this vehicle.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn reckonings(&self) -> Result<Vec<ReckoningRow>> {
        Ok(self.lock()?.reckonings()?)
    }

    /// The answer to one of them.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] for a question, or a choice of it, that cannot be asked of this vehicle,
    /// [`EngineError::InvalidInput`] for a pick that does not fit, [`EngineError::Conflict`] where no
    /// vehicle is chosen.
    pub fn reckon(&self, id: String, picks: Vec<Pick>, now: Moment) -> Result<Reckoning> {
        Ok(self.lock()?.reckon(&id, &picks, &now.into())?)
    }
}
