//! Everything in one file, and back.

use stowfast_core::engine::Changes;

use crate::{Engine, EngineError, Moment};

type Result<T> = std::result::Result<T, EngineError>;

#[uniffi::export]
impl Engine {
    /// Everything on this phone, as the text of one file: the same text for the same state.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where it holds more than a file may.
    pub fn export_text(&self) -> Result<String> {
        Ok(self.lock()?.export_text()?)
    }

    /// Adds what such a file holds to what is here; the warnings tell of each vehicle what became of
    /// it, and of which it cannot be known at `now` how long ago things were said.
    ///
    /// # Errors
    /// [`EngineError::BrokenPack`] where the file does not read, [`EngineError::Conflict`] where a
    /// vehicle went on differently here. Nothing was changed then.
    pub fn import_text(&self, text: String, file_name: String, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.import(text.as_bytes(), &file_name, &now.into())?)
    }
}
