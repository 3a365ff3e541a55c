//! The shapes that cross for the fridge, the gauges and what a command changed.

use stowfast_core::engine::{
    Changes, ChoiceRow, FridgeAheadRow, FridgePage, FridgeSource, GaugeChoice, GaugeRow, GaugeUnit,
    LeaveRow, QuestionRow,
};

/// What a fridge can run on.
#[uniffi::remote(Enum)]
pub enum FridgeSource {
    /// The pitch's supply.
    Mains,
    /// The vehicle's own 12 V.
    Dc,
    /// Gas.
    Gas,
    /// Nothing.
    None,
    /// It cannot be told.
    Unknown,
}

/// What the fridge should run on.
#[uniffi::remote(Record)]
pub struct FridgePage {
    /// The fridge, as the pack calls it.
    pub title: String,
    /// What it draws on now.
    pub source: FridgeSource,
    /// The same in words.
    pub headline: String,
    /// All reasons, in a fixed order.
    pub why: Vec<String>,
    /// What comes next by itself.
    pub next_source: Option<FridgeSource>,
    /// When. Unit: ms since 1970-01-01 UTC.
    pub next_change_utc_ms: Option<i64>,
    /// The same in words.
    pub next_text: Option<String>,
    /// What to set by hand.
    pub by_hand: Option<String>,
    /// The usual cautions.
    pub cautions: Vec<String>,
    /// True where the selector is set by hand.
    pub manual: bool,
    /// What the selector can be set to.
    pub choices: Vec<ChoiceRow>,
    /// The one of them that it is believed to be set to.
    pub chosen: Option<String>,
    /// A trip, the pump, a ferry: what to do then. Empty on the first page, and where it is not
    /// known what the selector is set to.
    pub ahead: Vec<FridgeAheadRow>,
}

/// Something that lies ahead, and what the fridge needs then.
#[uniffi::remote(Record)]
pub struct FridgeAheadRow {
    /// Names it: `chill`, `fuel` or `ferry`.
    pub id: String,
    /// What lies ahead.
    pub title: String,
    /// What it does and what to do, in order.
    pub lines: Vec<String>,
    /// Of a cool-down that begins now, or in time for the departure that was named: when it is done.
    /// Unit: ms since 1970-01-01 UTC.
    pub ready_utc_ms: Option<i64>,
    /// Of a trip: when they leave, and by when to begin.
    pub leave: Option<LeaveRow>,
    /// The target that leads there with everything else.
    pub target_id: Option<String>,
}

/// A departure that a fridge is to be cold for. All times in ms since 1970-01-01 UTC.
#[uniffi::remote(Record)]
pub struct LeaveRow {
    /// Departures to choose from, at full hours of UTC.
    pub choices_utc_ms: Vec<i64>,
    /// The one that was named.
    pub chosen_utc_ms: Option<i64>,
    /// An hour before that, where it is still to come.
    pub earlier_utc_ms: Option<i64>,
    /// An hour after that.
    pub later_utc_ms: Option<i64>,
    /// By when to begin. `None` where nothing cools it, it runs already, or it is too late to be in
    /// time: the words say then to begin now.
    pub start_utc_ms: Option<i64>,
    /// What to know of that start, in words: that it is late, that it rests on how things stand now,
    /// or that it runs already.
    pub start_text: Option<String>,
}

/// How a gauge is read.
#[uniffi::remote(Enum)]
pub enum GaugeUnit {
    /// A count of lamps.
    Lamps,
    /// Percent.
    Percent,
    /// Litres.
    Litres,
    /// Volts.
    Volts,
    /// Kilograms, of a whole cylinder on a scale.
    Kilograms,
    /// What was seen, by the place of its word.
    Words,
}

/// One value that a gauge can show.
#[uniffi::remote(Record)]
pub struct GaugeChoice {
    /// In the gauge's unit.
    pub value: f64,
    /// In words.
    pub text: String,
}

/// Something that only a person knows and that bears on whether a reading counts.
#[uniffi::remote(Record)]
pub struct QuestionRow {
    /// Names the variable to the engine.
    pub variable: String,
    /// What is asked.
    pub title: String,
    /// What the answer may be.
    pub choices: Vec<ChoiceRow>,
    /// The answer given, where it is known.
    pub chosen: Option<String>,
}

/// One gauge and what it last said.
#[uniffi::remote(Record)]
pub struct GaugeRow {
    /// Names it to the engine.
    pub id: String,
    /// As the pack calls it.
    pub title: String,
    /// How it is read.
    pub unit: GaugeUnit,
    /// The values that it can show, or none where any in the range can be typed.
    pub choices: Vec<GaugeChoice>,
    /// The least that can be entered, in `unit`.
    pub value_min: f64,
    /// The most that can be entered, in `unit`.
    pub value_max: f64,
    /// What is believed now, as a range where it is one.
    pub current_text: String,
    /// How old that is.
    pub age_text: Option<String>,
    /// How it is read, what that is of, and what to mind; null where that needs no word.
    pub about: Option<String>,
    /// True where a reading taken now would count.
    pub counts: bool,
    /// Why it would not, or what that takes for granted.
    pub note: Option<String>,
    /// What only a person can tell.
    pub questions: Vec<QuestionRow>,
    /// The variable that a reading tells of, as one may also be told it.
    pub variable: String,
    /// What is to be said of it, and within which limits, in words.
    pub expects: String,
}

/// What one command wrote.
#[uniffi::remote(Record)]
pub struct Changes {
    /// The entries written to the record.
    pub entries: Vec<i64>,
    /// What to tell the owner about them.
    pub warnings: Vec<String>,
}
