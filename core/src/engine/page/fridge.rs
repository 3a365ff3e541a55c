//! What the fridge draws on, what to set, and what lies ahead of it.

use serde::Serialize;

use super::ChoiceRow;

/// What a fridge can draw on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FridgeSource {
    /// The pitch's supply.
    Mains,
    /// The vehicle's 12 V while the engine runs.
    Dc,
    /// Gas.
    Gas,
    /// Nothing.
    None,
    /// It cannot be told.
    Unknown,
}

/// What the fridge draws on and what to set.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FridgePage {
    /// The fridge.
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
    /// The selector is set by hand.
    pub manual: bool,
    /// What the selector can be set to.
    pub choices: Vec<ChoiceRow>,
    /// The one of them that it is believed to be set to.
    pub chosen: Option<String>,
    /// A trip, the pump, a ferry: what to do then. Empty on the first page, and where it is not
    /// known what the selector is set to.
    pub ahead: Vec<FridgeAheadRow>,
}

impl FridgePage {
    /// What the first page shows of it.
    pub(in crate::engine) fn of_now(self) -> Self {
        Self { ahead: Vec::new(), ..self }
    }
}

/// Something that lies ahead, and what the fridge needs then.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
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
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
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
