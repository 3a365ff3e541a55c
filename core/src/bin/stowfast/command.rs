//! What can be asked for.

use std::path::PathBuf;

use stowfast_core::engine::Line;

use crate::ahead::Ahead;
use crate::fault::Fault;
use crate::photo::Photo;

/// One command.
#[derive(Debug)]
pub(crate) enum Command {
    /// All of it, or of one command.
    Help(Option<String>),
    Version,
    /// What to do in danger: of everything, or of one peril.
    Emergency(Option<String>),
    /// Every kind of fitting.
    Kinds,
    /// Check a pack without adding it.
    Check(PathBuf),
    Show(Show),
    /// Carry a routine out.
    Walk(Option<String>),
    Say(Say),
    Bring(Bring),
    /// Say something in the search for a cause.
    Fault(Fault),
    /// Photos of fittings.
    Photo(Photo),
    /// Tell or ask of what lies ahead.
    Ahead(Ahead),
}

/// Asks for a page.
#[derive(Debug)]
pub(crate) enum Show {
    Now,
    Targets,
    Plan(String),
    /// The same for two people.
    Shared(String),
    Routine,
    May(String),
    Steps,
    Things,
    /// With when they leave, as they named it.
    Fridge(Option<String>),
    Gauges,
    Reserves,
    Units,
    Alerts,
    Alert(String),
    Faults,
    Fault(String),
    Cards,
    Card(String),
    Find(String),
    /// Rules of countries and carriers.
    Rules,
    Log(i32),
    Vehicles,
    Places,
    DriveCard,
}

/// Says what has happened.
#[derive(Debug)]
pub(crate) enum Say {
    Open(String),
    Tick(String),
    Confirm(Vec<Line>),
    Look(String, String),
    Undo(Vec<i64>),
    Cannot(String, String),
    Left(String, String),
    Freed(i64),
    Note(String),
    Pause,
    Resume,
    Close,
    Drive,
    Arrive,
    ArriveAt(String),
    Report(String, String),
    Country(String),
    Carrier(String),
    Fridge(String),
    Read(String, String),
    Units(String),
}

/// Brings a vehicle in or to the fore.
#[derive(Debug)]
pub(crate) enum Bring {
    Add(PathBuf),
    Replace(PathBuf),
    Demo(String),
    Choose(i64),
    Export { file: PathBuf, overwrite: bool },
    Import(PathBuf),
}
