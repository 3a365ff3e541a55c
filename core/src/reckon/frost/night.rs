//! The air of one night, outside and inside.
//!
//! # Model
//! The air outside is now as it was told, and falls evenly to the forecast low at the coldest hour. For
//! the earliest end it falls by [`FALLS_K_PER_H`] to the lowest that the forecast may mean, and stays
//! there; for the latest it falls evenly to the highest. A room without heating comes nearer to the air
//! outside by a factor e in [`ROOM_H`]; with heating it stays as warm as it is.
//!
//! # Error band
//! The forecast low of a place may be off by [`FORECAST_K`].

use crate::reckon::Between;

/// One step of a night's course. Unit: h.
pub const STEP_H: f64 = 1.0 / 30.0;

/// How far a forecast low may be off where one stands: hollows are colder. Unit: K. Common practice, no
/// source.
pub const FORECAST_K: f64 = 2.0;

/// How fast the air falls at the most, when a cold front comes through. Unit: K/h. Common practice, no
/// source.
pub const FALLS_K_PER_H: f64 = 5.0;

/// In what time an unheated vehicle comes nearer to the air outside by a factor e. Unit: h. Common
/// practice, no source.
pub const ROOM_H: Between = Between { lower: 1.5, upper: 8.0 };

/// How far a floor space that the heating warms comes from the air outside to that inside. Common
/// practice, no source.
pub const FLOOR: Between = Between { lower: 0.3, upper: 0.9 };

/// A heated vehicle, from a heater's frost setting to a warm evening. Unit: °C. Common practice, no
/// source.
pub const HEATED_C: Between = Between { lower: 5.0, upper: 22.0 };

/// The longest night that is reckoned. Unit: h.
const NIGHT_MAX_H: f64 = 48.0;

/// Where water stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Place {
    /// In the living space.
    Inside,
    /// In a floor space that the heating warms.
    HeatedFloor,
    /// Below the floor, in the wind.
    Underfloor,
}

/// The living space.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Inside {
    /// How warm it is now; `None` where nobody said: heated, it is then in [`HEATED_C`]. Unit: °C.
    pub now_c: Option<f64>,
    /// The heating is on and stays on.
    pub heated: bool,
}

/// What is known of one night.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Night {
    /// The air outside, now. Unit: °C.
    pub outside_c: f64,
    /// The forecast low. Unit: °C.
    pub low_c: f64,
    /// When it is coldest. Unit: hours from now.
    pub coldest_in_h: Between,
    /// When the night is over. Unit: hours from now, up to 48.
    pub lasts_h: f64,
    /// The living space.
    pub inside: Inside,
}

/// Which end of all bands, or their middle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// The earliest that something may be.
    Earliest,
    /// As a night mostly goes.
    Usual,
    /// The latest.
    Latest,
}

impl End {
    /// What of a band belongs to it, where less means earlier.
    #[must_use]
    pub fn of(self, band: Between) -> f64 {
        match self {
            Self::Earliest => band.lower,
            Self::Usual => band.middle(),
            Self::Latest => band.upper,
        }
    }
}

impl Night {
    /// The air outside after some hours. Units: h; °C.
    #[must_use]
    pub fn outside(&self, end: End, hours: f64) -> f64 {
        let usual_c = self.evenly(self.low_c, self.coldest_in_h.middle(), hours);
        match end {
            End::Earliest => (self.outside_c - FALLS_K_PER_H * hours)
                .max(self.low_c - FORECAST_K)
                .min(self.outside_c)
                .min(usual_c),
            End::Usual => usual_c,
            End::Latest => {
                self.evenly(self.low_c + FORECAST_K, self.coldest_in_h.upper, hours).max(usual_c)
            }
        }
    }

    /// On the way to a low, which it keeps.
    fn evenly(&self, low_c: f64, coldest_in_h: f64, hours: f64) -> f64 {
        let part = if coldest_in_h > 0.0 { (hours / coldest_in_h).min(1.0) } else { 1.0 };
        self.outside_c + (low_c - self.outside_c) * part
    }

    /// The air round what stands there, each step in its middle; `None` where that hangs on how warm it
    /// is inside, and nobody said. Unit: °C.
    #[must_use]
    pub fn air(&self, place: Place, end: End) -> Option<Vec<f64>> {
        let outside = self.outsides(end);
        match place {
            Place::Underfloor => Some(outside),
            Place::Inside => self.room(&outside, end),
            Place::HeatedFloor => {
                let share = end.of(FLOOR);
                let room = self.room(&outside, end)?;
                let between = |(room, outside): (&f64, &f64)| outside + (room - outside) * share;
                Some(room.iter().zip(&outside).map(between).collect())
            }
        }
    }

    fn outsides(&self, end: End) -> Vec<f64> {
        let mut passed_h = STEP_H / 2.0;
        let lasts_h = self.lasts_h.min(NIGHT_MAX_H);
        let mut outside = Vec::new();
        while passed_h < lasts_h {
            outside.push(self.outside(end, passed_h));
            passed_h += STEP_H;
        }
        outside
    }

    /// A heated room is never colder than it would be without.
    fn room(&self, outside: &[f64], end: End) -> Option<Vec<f64>> {
        let (slow_h, heated_c) = (end.of(ROOM_H), end.of(HEATED_C));
        let start_c = self.inside.now_c.or(self.inside.heated.then_some(heated_c))?;
        let nearer = 1.0 - libm::exp(-STEP_H / slow_h);
        let mut room_c = start_c;
        let cooled = outside.iter().map(|outside_c| {
            room_c += (outside_c - room_c) * nearer;
            if self.inside.heated { room_c.max(start_c) } else { room_c }
        });
        Some(cooled.collect())
    }
}
