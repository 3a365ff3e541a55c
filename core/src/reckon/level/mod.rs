//! Level: how far a standing vehicle leans, what each wheel lacks, and what its ramps make of it.
//!
//! # Model
//! The four wheels stand on the corners of a rectangle. `up` is the way up, in the axes of the vehicle:
//! x forward, y to the left, z through the roof. A wheel stands as high as its corner along `up`.
//! Ramps under single wheels twist the body; it settles half-way.
//!
//! # Units
//! Angles: degrees, nose up and left side up are positive. Lengths: mm.
//!
//! # Source
//! Geometry. The smoothing: the usual low-pass of motion sensors, α = 0.8.
//!
//! # Error band
//! None of the geometry; what was read is as exact as its instrument. Tyres and springs give a little:
//! not reckoned.

mod look;
mod phone;
mod ramp;
#[cfg(test)]
mod tests;

pub use look::{Smooth, mounted};
pub use phone::{Phone, Rest, STEEP_DEG, Sight, of_phone};
pub use ramp::{Stand, best, settled};

use super::Between;

/// The most that an absorption fridge leans and still works: a rule of thumb. Unit: degrees.
///
/// # Source
/// A technical article of an owners' magazine.
pub const FRIDGE_DEG: f64 = 3.0;

/// How many wheels are reckoned with: front left, front right, rear left, rear right.
pub const WHEELS: usize = 4;

/// Where the wheels stand. Unit: mm, > 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Base {
    /// From the front axle to the rear one.
    pub wheelbase_mm: f64,
    /// From the left wheels to the right ones.
    pub track_mm: f64,
}

/// How a vehicle leans. Unit: degrees, between -90 and 90.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lean {
    /// Nose up is positive.
    pub pitch_deg: f64,
    /// Left side up is positive.
    pub roll_deg: f64,
}

/// The way up, one long, in the axes of the vehicle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Up([f64; 3]);

impl Up {
    /// What an instrument at rest feels, of whatever length; `None` of nothing at all and of what is no
    /// number.
    #[must_use]
    pub fn of(felt: [f64; 3]) -> Option<Self> {
        let long = libm::sqrt(felt.iter().map(|part| part * part).sum());
        (long.is_finite() && long > 0.0).then(|| Self(felt.map(|part| part / long)))
    }

    /// Its three parts: forward, left, through the roof.
    #[must_use]
    pub fn parts(self) -> [f64; 3] {
        self.0
    }

    /// How the vehicle leans.
    #[must_use]
    pub fn lean(self) -> Lean {
        let [x, y, z] = self.0;
        Lean {
            pitch_deg: libm::atan2(x, libm::sqrt(y * y + z * z)).to_degrees(),
            roll_deg: libm::atan2(y, z).to_degrees(),
        }
    }

    /// How far from upright in all. Unit: degrees, 0 to 180.
    #[must_use]
    pub fn tilt_deg(self) -> f64 {
        let [x, y, z] = self.0;
        libm::atan2(libm::sqrt(x * x + y * y), z).to_degrees()
    }
}

impl Lean {
    /// The way up of a vehicle that leans so.
    #[must_use]
    pub fn up(self) -> Up {
        let (pitch, roll) = (self.pitch_deg.to_radians(), self.roll_deg.to_radians());
        let flat = libm::cos(pitch);
        Up([libm::sin(pitch), flat * libm::sin(roll), flat * libm::cos(roll)])
    }
}

impl Base {
    /// How high each wheel stands over the middle. Unit: mm.
    #[must_use]
    pub fn heights_mm(self, up: Up) -> [f64; WHEELS] {
        let [x, y, _] = up.0;
        let (ahead, left) = (x * self.wheelbase_mm / 2.0, y * self.track_mm / 2.0);
        [ahead + left, ahead - left, left - ahead, -ahead - left]
    }
}

/// What each wheel lacks to stand as high as the highest. Unit: mm, ≥ 0; one of them is 0.
#[must_use]
pub fn lifts_mm(base: Base, up: Up) -> [f64; WHEELS] {
    let heights = base.heights_mm(up);
    let highest = heights.into_iter().fold(f64::NEG_INFINITY, f64::max);
    heights.map(|height| highest - height)
}

/// The same where both angles may be wrong.
///
/// # Units
/// `error_deg`: degrees either way, ≥ 0. Result: mm.
#[must_use]
pub fn lifts_between_mm(base: Base, lean: Lean, error_deg: f64) -> [Between; WHEELS] {
    let ways = [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)];
    let corners = ways.map(|(pitch, roll)| {
        let pitch_deg = lean.pitch_deg + pitch * error_deg;
        let roll_deg = lean.roll_deg + roll * error_deg;
        base.heights_mm(Lean { pitch_deg, roll_deg }.up())
    });
    let mut wheel = 0..WHEELS;
    [(); WHEELS].map(|()| wheel.next().map_or(Between::exactly(0.0), |wheel| lack(&corners, wheel)))
}

/// What one wheel lacks: at least so much as to each other wheel anywhere, at most so much as to any.
fn lack(corners: &[[f64; WHEELS]], wheel: usize) -> Between {
    let to = |other: usize| {
        let lacks =
            corners.iter().filter_map(move |corner| Some(corner.get(other)? - corner.get(wheel)?));
        lacks.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), lack| {
            (least.min(lack), most.max(lack))
        })
    };
    (0..WHEELS).map(to).fold(Between::exactly(0.0), |all, (least, most)| Between {
        lower: all.lower.max(least),
        upper: all.upper.max(most),
    })
}
