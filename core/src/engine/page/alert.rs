//! Rows of alerts: what shows red, what it means here, and what to do.

use serde::Serialize;

use super::ActionRow;
pub use crate::alert::Shown;
pub use crate::catalogue::{Seen, Symbol};

/// Something to report.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReportRow {
    /// Names the variable to the engine.
    pub variable: String,
    /// Names the setting to the engine.
    pub setting: String,
    /// Both in words.
    pub text: String,
}

/// Something that leads on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LinkRow {
    /// Names it to the engine.
    pub id: String,
    /// In words.
    pub title: String,
}

/// An indication that this vehicle's fittings can show.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct AlertRow {
    /// Names it to the engine.
    pub id: String,
    /// What it is.
    pub title: String,
    /// How it is to be seen, in words.
    pub sign: String,
    /// What it is drawn as.
    pub symbol: Symbol,
    /// Where somebody meets it.
    pub seen: Seen,
    /// Names the place.
    pub zone_id: String,
    /// The place, in words.
    pub zone_title: String,
    /// Whether it shows, as far as is known.
    pub shown: Shown,
    /// As things stand it says nothing bad.
    pub normal: bool,
    /// What it means as things stand, as far as is known.
    pub means: String,
    /// That it shows, to be reported, where that is a fact of its own.
    pub report: Option<ReportRow>,
}

/// What an alert means, and what to do then.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct MeaningRow {
    /// Names it.
    pub id: String,
    /// In words.
    pub text: String,
    /// It is known to be so, rather than possible.
    pub certain: bool,
    /// Nothing is wrong then.
    pub normal: bool,
    /// What to do now, in order.
    pub do_now: Vec<String>,
    /// What to stop now.
    pub stop_now: Vec<String>,
    /// What it does to the trip.
    pub trip: String,
    /// The routine that leads out of it.
    pub routine: Option<LinkRow>,
    /// Steps that mend it, of those that would change something.
    pub steps: Vec<ActionRow>,
    /// What somebody who goes and looks may find, to be reported.
    pub finds: Vec<ReportRow>,
}

/// One alert, in the vehicle's present state.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct AlertPage {
    /// What it is.
    pub alert: AlertRow,
    /// What it means: the first is the answer, the others may be so as well. Never empty.
    pub meanings: Vec<MeaningRow>,
    /// While it shows: that it no longer does, to be reported, where that is one fact.
    pub cleared: Option<ReportRow>,
    /// When to call for help, and whom.
    pub help: Vec<String>,
    /// The usual cautions.
    pub cautions: Vec<String>,
    /// The cards that help, by fitting.
    pub cards: Vec<LinkRow>,
    /// The searches for a cause that begin from it.
    pub faults: Vec<LinkRow>,
    /// Where it comes from.
    pub source: String,
}
