//! What a driver must know of the vehicle: the shapes that cross, as in `page.rs`, and their call.

use stowfast_core::engine::{DriveCardPage, DriveCardRow};

use crate::{Engine, EngineError};

/// One measure of the vehicle.
#[uniffi::remote(Record)]
pub struct DriveCardRow {
    /// Names it: `height`, `width`, `length`, `mass_permissible`, `mass_running`, or `axle_1` and
    /// so on from the front.
    pub id: String,
    /// What it is.
    pub title: String,
    /// With its unit; where it is not in the pack, that.
    pub text: String,
    /// How it was taken or what to do about it.
    pub note: String,
    /// It is in the pack.
    pub known: bool,
}

/// What a driver must know of the vehicle before a bridge, a barrier or a scale does.
#[uniffi::remote(Record)]
pub struct DriveCardPage {
    /// The vehicle.
    pub vehicle_title: String,
    /// The height, which stands largest.
    pub height: DriveCardRow,
    /// The rest, in order.
    pub rows: Vec<DriveCardRow>,
    /// The usual cautions.
    pub cautions: Vec<String>,
}

#[uniffi::export]
impl Engine {
    /// What a driver must know of the vehicle.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn drive_card(&self) -> Result<DriveCardPage, EngineError> {
        Ok(self.lock()?.drive_card()?)
    }
}
