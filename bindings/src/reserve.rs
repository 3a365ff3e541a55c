//! What is left and how long it lasts, and how quantities are written: the shapes that cross, as in
//! `page.rs`, and their calls.

use stowfast_core::engine::{Changes, ReservePage, ReserveRow};

use crate::{Engine, EngineError, Moment};

type Result<T> = std::result::Result<T, EngineError>;

/// One reserve: a tank, a cassette, a gas cylinder or a battery.
#[uniffi::remote(Record)]
pub struct ReserveRow {
    /// Names its gauge to the engine.
    pub id: String,
    /// What it is.
    pub title: String,
    /// The end that it runs towards, in words.
    pub end_text: String,
    /// What its gauge showed when it was last read; null while it never was.
    pub seen_text: Option<String>,
    /// How long ago that was.
    pub seen_age_text: Option<String>,
    /// True where that reading counts.
    pub seen_counts: bool,
    /// Why it does not.
    pub seen_note: Option<String>,
    /// What is believed now.
    pub level_text: String,
    /// How old that is.
    pub level_age_text: Option<String>,
    /// Between what it lay when that was last told.
    pub between_text: Option<String>,
    /// What is used in a day, as an average.
    pub used_text: Option<String>,
    /// On what that rests.
    pub rests_text: Option<String>,
    /// How long it lasts at that rate.
    pub left_text: Option<String>,
    /// How much more goes in for certain before it is full; null where there is nothing to say.
    pub room_text: Option<String>,
    /// What is missing for that, or did not count.
    pub missing: Vec<String>,
    /// The least used in a day. Unit: mL; of gas by weight g; of a battery, and of gas of which the
    /// pack says no amount, tenths of a per cent.
    pub used_lower_per_day: Option<i64>,
    /// The most.
    pub used_upper_per_day: Option<i64>,
    /// The least time that it lasts from now on. Unit: h.
    pub left_lower_h: Option<i64>,
    /// The most; null also where nothing says that it ends. Unit: h.
    pub left_upper_h: Option<i64>,
    /// True where it may be the first of all to run out.
    pub first: bool,
}

/// Every reserve, and which runs out first.
#[uniffi::remote(Record)]
pub struct ReservePage {
    /// Over `firsts`: which runs out first, as far as the ranges tell.
    pub first_text: String,
    /// Each that may come first.
    pub firsts: Vec<String>,
    /// Of which it cannot be told yet how long they last.
    pub unknown: Vec<String>,
    /// That this is so; empty where there is none.
    pub unknown_text: String,
    /// What all gas cylinders hold together; null where there is one, or one is not known.
    pub gas_text: Option<String>,
    /// In walking order of the pack.
    pub rows: Vec<ReserveRow>,
    /// On what the numbers rest.
    pub about: String,
}

#[uniffi::export]
impl Engine {
    /// Every tank, cassette, gas cylinder and battery: what is left, what is used and how long it lasts.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn reserves(&self, now: Moment) -> Result<ReservePage> {
        Ok(self.lock()?.reserves(&now.into())?)
    }

    /// How quantities are written on every page: `metric` or `imperial`.
    ///
    /// # Errors
    /// [`EngineError::Internal`] after a call that broke off.
    pub fn units(&self) -> Result<String> {
        Ok(self.lock()?.units().to_owned())
    }

    /// Sets that, for all vehicles alike.
    ///
    /// # Errors
    /// [`EngineError::InvalidInput`] for anything else.
    pub fn set_units(&self, units: String) -> Result<Changes> {
        Ok(self.lock()?.set_units(&units)?)
    }
}
