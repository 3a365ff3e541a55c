//! What people tell of themselves, and a stay without services: the shapes that cross, as in `page.rs`,
//! and their calls.

use stowfast_core::engine::{Changes, FigureRow, Holds, StayPage, StayRow};

use crate::{Engine, EngineError, Moment};

type Result<T> = std::result::Result<T, EngineError>;

/// A number that only the people on board can tell.
#[uniffi::remote(Record)]
pub struct FigureRow {
    /// Names it to the engine.
    pub id: String,
    /// What it is told for, in words: neighbours of one use have the same.
    pub of_text: String,
    /// What it is.
    pub title: String,
    /// What it is for, or how to find it out.
    pub about: String,
    /// As it was last told; null where it is not known. In the unit that ends `id`, or a count.
    pub value: Option<f64>,
    /// The same in words.
    pub value_text: Option<String>,
    /// How long ago that was.
    pub age_text: Option<String>,
    /// The least that it can be.
    pub value_min: f64,
    /// The most.
    pub value_max: f64,
    /// How far apart two neighbours are.
    pub value_step: f64,
    /// The unit in which it is typed, in words; null for a count.
    pub unit_text: Option<String>,
}

/// Whether a reserve holds for a stay.
#[uniffi::remote(Enum)]
pub enum Holds {
    /// It ends before the stay does.
    No,
    /// It depends.
    Perhaps,
    /// It holds.
    Yes,
}

/// One reserve over a stay.
#[uniffi::remote(Record)]
pub struct StayRow {
    /// Names its gauge to the engine.
    pub id: String,
    /// What it is.
    pub title: String,
    /// Whether it holds as it is; null where that cannot be told.
    pub holds: Option<Holds>,
    /// The same in words.
    pub holds_text: String,
    /// What the stay uses.
    pub used_text: Option<String>,
    /// How long it lasts as it is.
    pub left_text: Option<String>,
    /// What to see to before; null where nothing is needed, or nothing can be told.
    pub do_text: Option<String>,
    /// On what that rests.
    pub rests_text: Option<String>,
    /// What is missing for telling it.
    pub missing: Vec<String>,
    /// What the stay uses, at the least. Unit: mL; of gas by weight g; of a battery, and of gas of which
    /// the pack says no amount, tenths of a per cent.
    pub used_lower: Option<i64>,
    /// At the most.
    pub used_upper: Option<i64>,
    /// What has to go in before, at the least; null for what fills.
    pub add_lower: Option<i64>,
    /// At the most.
    pub add_upper: Option<i64>,
}

/// All reserves over a stay.
#[uniffi::remote(Record)]
pub struct StayPage {
    /// How long. Unit: nights.
    pub nights: i64,
    /// What is asked.
    pub title: String,
    /// Whether all of it holds as it is: the worst that is known; null where nothing is, and where what is
    /// known holds but not all is known.
    pub holds: Option<Holds>,
    /// The same in words.
    pub holds_text: String,
    /// In walking order of the pack.
    pub rows: Vec<StayRow>,
    /// On what the numbers rest.
    pub about: String,
}

#[uniffi::export]
impl Engine {
    /// Every number that this vehicle asks of the people on board.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn figures(&self, now: Moment) -> Result<Vec<FigureRow>> {
        Ok(self.lock()?.figures(&now.into())?)
    }

    /// Records such a number; null where it is no longer known.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] for one that this vehicle does not ask for,
    /// [`EngineError::InvalidInput`] for one out of range or between two steps.
    pub fn tell_figure(&self, id: String, value: Option<f64>, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.tell_figure(&id, value, &now.into())?)
    }

    /// Whether every reserve holds for so many nights without services, and what to see to before.
    ///
    /// # Errors
    /// [`EngineError::InvalidInput`] for anything but 1 to 60 nights, [`EngineError::Conflict`] where no
    /// vehicle is chosen.
    pub fn stay(&self, nights: i64, now: Moment) -> Result<StayPage> {
        Ok(self.lock()?.stay(nights, &now.into())?)
    }
}
