//! What to fill or empty soon: the shapes that cross, as in `page.rs`, and their calls.

use stowfast_core::engine::{Changes, RemindChoice, ReminderRow};

use crate::{Engine, EngineError};

type Result<T> = std::result::Result<T, EngineError>;

/// Something to fill or empty soon.
#[uniffi::remote(Record)]
pub struct ReminderRow {
    /// Names its gauge to the engine.
    pub id: String,
    /// What to do.
    pub do_text: String,
    /// By when; null for now. Unit: ms since 1970-01-01 UTC.
    pub by_utc_ms: Option<i64>,
    /// What that rests on.
    pub about_text: String,
}

/// How long before to remind.
#[uniffi::remote(Record)]
pub struct RemindChoice {
    /// So many hours; 0 for never.
    pub hours: i64,
    /// The same in words.
    pub text: String,
    /// True where it is so now.
    pub chosen: bool,
}

#[uniffi::export]
impl Engine {
    /// How long before water runs out, or waste or a cassette is full, the first page says so.
    ///
    /// # Errors
    /// [`EngineError::Internal`] alone.
    pub fn remind_choices(&self) -> Result<Vec<RemindChoice>> {
        Ok(self.lock()?.remind_choices()?)
    }

    /// Sets that, for all vehicles alike. `hours`: 0 (never) to 168.
    ///
    /// # Errors
    /// [`EngineError::InvalidInput`] for anything else.
    pub fn set_remind_h(&self, hours: i64) -> Result<Changes> {
        Ok(self.lock()?.set_remind_h(hours)?)
    }
}
