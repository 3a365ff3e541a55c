//! What an owner sets for all vehicles alike.

use std::sync::Arc;

use super::Engine;
use super::page::Changes;
use crate::error::{Error, Result};
use crate::units::Units;

/// Names the setting of [`Units`] to the store.
const UNITS: &str = "units";

impl Engine {
    /// How quantities are written on every page: `metric` or `imperial`.
    #[must_use]
    pub fn units(&self) -> &'static str {
        self.units.code()
    }

    /// Sets how quantities are written on every page from now on. What gauges show is typed as they
    /// show it all the same, and what the log keeps stays as it is.
    ///
    /// # Errors
    /// [`Error::InvalidInput`] for anything but `metric` and `imperial`; else as
    /// [`crate::store::Store::put`].
    pub fn set_units(&mut self, units: &str) -> Result<Changes> {
        let known = Units::of(units).ok_or_else(|| Error::InvalidInput {
            field: UNITS.to_owned(),
            expected: Units::ALL.map(Units::code).join(" or "),
        })?;
        self.store.put(UNITS, known.code())?;
        self.units = known;
        if let Some(loaded) = &mut self.loaded {
            loaded.units = known;
            // Its lines say quantities as they were written before.
            loaded.finder = Arc::default();
        }
        Ok(Changes::default())
    }

    /// Takes the setting from the store; metric where there is none that is known.
    pub(super) fn load_units(&mut self) -> Result<()> {
        self.units = self.store.get(UNITS)?.and_then(|code| Units::of(&code)).unwrap_or_default();
        Ok(())
    }
}
