//! What shows red: the shapes that cross, as in `page.rs`, and their calls.

use stowfast_core::engine::{
    ActionRow, AlertPage, AlertRow, LinkRow, MeaningRow, ReportRow, Seen, Shown, Symbol,
};

use crate::{Engine, EngineError, Moment};

type Result<T> = std::result::Result<T, EngineError>;

/// Whether an alert shows, as far as is known.
#[uniffi::remote(Enum)]
pub enum Shown {
    /// It must.
    Yes,
    /// It may.
    Unknown,
    /// It cannot.
    No,
}

/// What an indication is drawn as: it stands for its subject.
#[uniffi::remote(Enum)]
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
#[uniffi::remote(Enum)]
pub enum Seen {
    /// On the dash, or while driving.
    Dash,
    /// On the panel of the living area, or at the fitting itself.
    Inside,
    /// It is an alarm that sounds.
    Heard,
}

/// Something to report: see [`Engine::report`].
#[uniffi::remote(Record)]
pub struct ReportRow {
    /// Names the variable to the engine.
    pub variable: String,
    /// Names the setting to the engine.
    pub setting: String,
    /// Both in words.
    pub text: String,
}

/// Something that leads on: a routine, an alert, a fault or a card, as the field says that it stands in.
#[uniffi::remote(Record)]
pub struct LinkRow {
    /// Names it to the engine.
    pub id: String,
    /// The same in words.
    pub title: String,
}

/// An indication that this vehicle's fittings can show.
#[uniffi::remote(Record)]
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
    /// True where, as things stand, it says nothing bad.
    pub normal: bool,
    /// What it means as things stand, as far as is known.
    pub means: String,
    /// That it shows, to be reported, where that is a fact of its own.
    pub report: Option<ReportRow>,
}

/// What an alert means, and what to do then.
#[uniffi::remote(Record)]
pub struct MeaningRow {
    /// Names it.
    pub id: String,
    /// The same in words.
    pub text: String,
    /// True where it is known to be so, false where it may be.
    pub certain: bool,
    /// True where nothing is wrong then.
    pub normal: bool,
    /// What to do now, in order.
    pub do_now: Vec<String>,
    /// What to stop now.
    pub stop_now: Vec<String>,
    /// What it does to the trip.
    pub trip: String,
    /// The routine that leads out of it.
    pub routine: Option<LinkRow>,
    /// Steps that mend it.
    pub steps: Vec<ActionRow>,
    /// What somebody who goes and looks may find, to be reported.
    pub finds: Vec<ReportRow>,
}

/// One alert as things stand.
#[uniffi::remote(Record)]
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

#[uniffi::export]
impl Engine {
    /// Everything that this vehicle can show: what shows and is not as it should be first.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn alerts(&self, now: Moment) -> Result<Vec<AlertRow>> {
        Ok(self.lock()?.alerts(&now.into())?)
    }

    /// What one of [`Engine::alerts`] means as things stand, whether it shows or not.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] where there is no such alert.
    pub fn alert(&self, alert_id: String, now: Moment) -> Result<AlertPage> {
        Ok(self.lock()?.alert(&alert_id, &now.into())?)
    }
}
