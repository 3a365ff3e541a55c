//! What a tank or a boiler loses to the air round it.
//!
//! # Model
//! U = 1 / (1/h + R): a film of air outside and what the wall and its insulation withstand, over the
//! surface of a box of that volume.
//!
//! # Units
//! W/(m² K), m² K/W, m², W/K; wind m/s.
//!
//! # Source
//! Film: 4 + 4 v and up to 5 of radiation, the form of ISO 6946, annex A (from memory, to be checked).
//! Wind: [`crate::reckon::wind`]. Walls and shapes: common practice, no source.
//!
//! # Error band
//! In each band below.

use super::night::Place;
use crate::reckon::Between;
use crate::reckon::wind::mean_ms;

/// How windy it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wind {
    /// Up to Beaufort 3.
    Calm,
    /// From Beaufort 4 to 8.
    Strong,
    /// Nobody said.
    Unknown,
}

impl Wind {
    /// Mean speed. Unit: m/s.
    #[must_use]
    pub fn speed_ms(self) -> Between {
        let (least, most) = match self {
            Self::Calm => (0, 3),
            Self::Strong => (4, 8),
            Self::Unknown => (0, 8),
        };
        Between::of(mean_ms(least).lower, mean_ms(most).upper)
    }
}

/// Round what stands inside. Unit: W/(m² K). Common practice, no source.
const STILL: Between = Between { lower: 5.0, upper: 10.0 };
/// How much of the wind comes to what hangs below a floor, near the ground. Common practice, no source.
const SHELTER: Between = Between { lower: 0.2, upper: 0.6 };
/// What radiates. Unit: W/(m² K). From memory, to be checked.
const RADIATES: Between = Between { lower: 0.0, upper: 5.0 };
/// A plastic wall of 3 to 6 mm and the water that moves inside it. Unit: m² K/W. Common practice, no
/// source.
const WALL: Between = Between { lower: 0.01, upper: 0.04 };
/// 20 to 40 mm of foam. Unit: m² K/W. Common practice, no source.
const FOAM: Between = Between { lower: 0.4, upper: 1.2 };
/// Surface of a box by its volume to the two thirds: 6 of a cube, 9 of a flat one. Common practice, no
/// source.
const BOX: Between = Between { lower: 6.0, upper: 9.0 };

/// The film of air round what stands there. Unit: W/(m² K).
#[must_use]
pub fn film(place: Place, wind: Wind) -> Between {
    match place {
        Place::Inside | Place::HeatedFloor => STILL,
        Place::Underfloor => {
            (wind.speed_ms() * SHELTER).through(|speed_ms| 4.0 + 4.0 * speed_ms) + RADIATES
        }
    }
}

/// What a tank loses. `insulated`: `None` where nobody said; the band is then that of both.
///
/// # Units
/// `capacity_l` > 0. `full`: how full it is, 0 to 1: at least that part of the surface is wet. W/K.
#[must_use]
pub fn tank(
    capacity_l: f64,
    full: Between,
    place: Place,
    insulated: Option<bool>,
    wind: Wind,
) -> Between {
    let edge_m = libm::cbrt(capacity_l.max(0.0) / 1_000.0);
    let resists = match insulated {
        Some(true) => WALL + FOAM,
        Some(false) => WALL,
        None => Between::of(WALL.lower, (WALL + FOAM).upper),
    };
    let film = film(place, wind);
    let wet = libm::cbrt(full.lower.clamp(0.0, 1.0));
    let of = |film: f64, resists: f64, shape: f64| shape * edge_m * edge_m / (1.0 / film + resists);
    Between::of(
        of(film.lower, resists.upper, BOX.lower) * wet * wet,
        of(film.upper, resists.lower, BOX.upper),
    )
}
