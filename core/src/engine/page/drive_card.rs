//! What a driver must know of the vehicle.

use serde::Serialize;

/// One measure of the vehicle.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
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
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
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
