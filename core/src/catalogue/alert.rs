//! A red indication as the owner sees it: what it means here, and what to do. One file for each
//! kind of fitting that shows some.

use serde::{Deserialize, Serialize};

use super::kind::Literal;
use super::value::When;

/// Something that a fitting's panel, lamp or gauge can show.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Alert {
    /// The kind of fitting, the name of its file.
    #[serde(skip)]
    pub kind: String,
    /// Its id within the kind.
    pub id: String,
    /// The order in which alerts are listed.
    pub rank: u32,
    /// What it is drawn as.
    pub symbol: Symbol,
    /// Where somebody meets it.
    pub seen: Seen,
    /// One for the vehicle, however many such fittings there are.
    #[serde(default)]
    pub once: bool,
    /// Only where the pack says so.
    #[serde(default)]
    pub when: Vec<When>,
    /// That it shows, as a fact about the fitting: one setting of one of its variables.
    pub report: Option<Literal>,
    /// From what else it follows that it shows.
    #[serde(default)]
    pub shows: Vec<Condition>,
    /// Other kinds whose cards help.
    #[serde(default)]
    pub cards: Vec<String>,
    /// Where it comes from, or "common practice, no source".
    pub source: String,
    /// What it can mean, the most telling first. The last one hangs on nothing.
    #[serde(rename = "meaning")]
    pub meanings: Vec<Meaning>,
}

/// What an indication is drawn as: it stands for its subject, not for anybody's panel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Symbol {
    /// Something that burns gas to heat.
    Flame,
    /// Something that blows warm air.
    Fan,
    /// Fresh water.
    Water,
    /// Waste water.
    Waste,
    /// The toilet.
    Cassette,
    /// A battery.
    Battery,
    /// What charges, feeds or guards the electrics.
    Bolt,
    /// Mains from outside.
    Plug,
    /// A gas cylinder and what hangs on it.
    Gas,
    /// Carbon monoxide.
    Monoxide,
    /// Smoke.
    Smoke,
    /// An extinguisher.
    Extinguisher,
    /// An alarm that asks to be seen to.
    Chirp,
    /// A fridge.
    Fridge,
    /// Frost.
    Snow,
    /// Oil of the engine.
    Oil,
    /// The engine is hot.
    Thermometer,
    /// A tyre.
    Tyre,
    /// The brakes.
    Brake,
    /// The engine.
    Engine,
    /// Fuel.
    Fuel,
    /// Urea for the exhaust.
    Urea,
    /// A door or step that is open.
    Door,
    /// Something on the roof that is open or up.
    Roof,
    /// The lamps for the road.
    Lamp,
}

/// Where somebody meets an indication.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Seen {
    /// On the dash, or while driving.
    Dash,
    /// On the panel of the living area, or at the fitting itself.
    Inside,
    /// It is an alarm that sounds.
    Heard,
}

/// Something that is so where all of the one and any of the other hold.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Condition {
    /// All of them.
    #[serde(default)]
    pub only_if: Vec<Literal>,
    /// Any one of them, where there are some.
    #[serde(default)]
    pub any_of: Vec<Literal>,
}

/// What an alert means where its condition holds.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Meaning {
    /// Its id within the alert.
    pub id: String,
    /// Where it means that; anywhere, without this.
    pub so: Option<Condition>,
    /// Nothing is wrong then.
    #[serde(default)]
    pub normal: bool,
    /// What leads out of it: `target` or `target/part`.
    pub routine: Option<String>,
    /// Steps that mend it: `kind.move` or `kind.variable.look`; of the alert's own kind they are
    /// those of its fitting.
    #[serde(default)]
    pub steps: Vec<String>,
    /// What somebody who goes and looks may find, to be reported.
    #[serde(default)]
    pub finds: Vec<Literal>,
}

/// A file of alerts.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct File {
    #[serde(rename = "alert")]
    pub(super) alerts: Vec<Alert>,
}

impl Alert {
    /// What its words stand under, below those of its kind.
    #[must_use]
    pub fn words(&self) -> String {
        format!("alert.{}", self.id)
    }

    /// What tells that it shows.
    pub fn signs(&self) -> impl Iterator<Item = &Literal> {
        let shows = self.shows.iter().flat_map(|one| one.only_if.iter().chain(&one.any_of));
        shows.chain(&self.report)
    }

    /// Everything that it speaks of.
    pub fn literals(&self) -> impl Iterator<Item = &Literal> {
        let so = self.meanings.iter().filter_map(|meaning| meaning.so.as_ref());
        let conditions = self.shows.iter().chain(so);
        let asked = conditions.flat_map(|one| one.only_if.iter().chain(&one.any_of));
        let found = self.meanings.iter().flat_map(|meaning| &meaning.finds);
        asked.chain(found).chain(&self.report)
    }
}
