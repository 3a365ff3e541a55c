//! The log: what was said to have happened, in the order it was said. State is its fold.

use serde::{Deserialize, Serialize};

use crate::clock::Stamp;
use crate::vehicle::{Fault, Vehicle};

/// How something is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum How {
    /// The owner made the move and said so.
    Done,
    /// The owner looked and said what was seen.
    Looked,
    /// Somebody said so.
    Told,
    /// A gauge or instrument showed it.
    Reading,
    /// Time or temperature may have changed it.
    Settled,
    /// Nobody has said anything yet.
    Assumed,
}

/// One variable and what it was said to be.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fact {
    /// The variable, as `fitting.variable`.
    pub variable: String,
    /// The settings that it may have: one, or more where a reading straddles bands.
    pub settings: Vec<String>,
    /// How this is known.
    pub how: How,
}

/// How a gauge is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum GaugeUnit {
    /// A count of lamps.
    Lamps,
    /// Per cent.
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

/// What a gauge showed. It counts in an [`Act::Report`], which has what it gave among its facts; in
/// an [`Act::Note`] it does not, and the note says why.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reading {
    /// The fitting whose gauge it is.
    pub gauge: String,
    /// How the gauge was read.
    pub unit: GaugeUnit,
    /// What it showed. Unit: thousandths of `unit`, 0 to [`Reading::MILLI_MAX`].
    pub value_milli: i64,
}

impl Reading {
    /// The most that a gauge shows: 10 000 L, the largest tank. Unit: thousandths of its unit.
    pub const MILLI_MAX: i64 = 10_000_000;
}

/// What somebody said in the search for the cause of a fault. It counts in an [`Act::Report`].
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Finding {
    /// The symptom.
    pub symptom: String,
    /// The fitting that shows it.
    pub fitting: String,
    /// What was asked: a question, `cause.…` for what was done against a cause, or
    /// [`Finding::AGAIN`].
    pub asked: String,
    /// What was answered.
    pub answer: String,
}

impl Finding {
    /// Asked and answered where a search begins anew: what was said before counts no more.
    pub const AGAIN: &str = "again";

    /// Whether it was said in the search for the cause of a fault of this vehicle.
    pub(crate) fn is_of(&self, vehicle: &Vehicle, fault: &Fault) -> bool {
        let fitting = vehicle.fittings.get(fault.fitting);
        self.symptom == fault.symptom && fitting.is_some_and(|one| one.id == self.fitting)
    }
}

/// A number that only the people on board can tell. It counts in an [`Act::Report`].
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Figure {
    /// What it is of, as the catalogue calls it.
    pub figure: String,
    /// The number; `None` where it is no longer known. Unit: thousandths of the figure's own,
    /// 0 to [`Figure::MILLI_MAX`].
    pub value_milli: Option<i64>,
}

impl Figure {
    /// The most that a figure can be. Unit: thousandths of its unit.
    pub const MILLI_MAX: i64 = 1_000_000_000;
}

/// What an entry does.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "act")]
pub enum Act {
    /// Facts reported outside a routine.
    Report,
    /// A move of the run was made.
    Tick {
        /// The move, as `fitting.move`.
        step: String,
    },
    /// A look of the run was taken.
    Look {
        /// The variable looked at, as `fitting.variable`.
        step: String,
    },
    /// An earlier entry no longer counts.
    Void {
        /// The sequence number of that entry.
        entry: i64,
    },
    /// A move cannot be made: its variable stays as it is until this entry is voided.
    Cannot {
        /// The move, as `fitting.move`.
        step: String,
    },
    /// A step was knowingly left undone. It changes no verdict.
    LeftAnyway {
        /// The move or variable.
        step: String,
    },
    /// A routine was opened. The run is named by this entry's sequence number.
    Open {
        /// The target.
        target: String,
    },
    /// The run was laid aside.
    Pause,
    /// The run was taken up again.
    Resume,
    /// The run ended, finished or not.
    Close,
    /// Something to remember.
    Note,
}

/// An entry before the log has numbered it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewEntry {
    /// When it was said.
    pub at: Stamp,
    /// The run that it belongs to; `None` outside a run and for [`Act::Open`].
    pub run: Option<i64>,
    /// What it does.
    pub act: Act,
    /// What it says about the vehicle.
    pub facts: Vec<Fact>,
    /// What a gauge showed, where it was read.
    pub reading: Option<Reading>,
    /// What it adds to the search for the cause of a fault.
    pub finding: Option<Finding>,
    /// The number that it tells, where it does.
    pub figure: Option<Figure>,
    /// The owner's own words, or empty.
    pub note: String,
}

/// One line of a vehicle's log.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// Its place in the order of the log; rises by any amount, never falls.
    pub seq: i64,
    /// What was said.
    pub said: NewEntry,
}
