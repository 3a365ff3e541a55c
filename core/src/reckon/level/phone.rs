//! A phone that lies in the vehicle: its axes, how it lies where the vehicle stands level, and what its
//! motion sensor makes of how it leans.

use super::{Smooth, Up, mounted};

/// What a body at rest feels. Unit: m/s². Source: standard gravity, 3rd CGPM, 1901.
const STANDARD: f64 = 9.806_65;
/// How far from it a sensor at rest may be. Unit: m/s². Common practice, no source.
const OFF_BY: f64 = 1.0;
/// How far apart the last looks may be in any direction, for a phone that is held still. Unit: m/s².
/// Common practice, no source.
const SPREAD: f64 = 0.5;
/// How many looks those are.
const LOOKS: usize = 8;
/// Less than this moves nothing that is shown: numbers that twitch are not read. Unit: degrees.
const MOVES_DEG: f64 = 0.1;
/// Beyond this it lies on no floor. Unit: degrees either way.
pub const STEEP_DEG: f64 = 15.0;

/// What a motion sensor feels along the axes of its phone, along those of the vehicle: forward, left,
/// through the roof. The phone lies with its screen up and its top edge forward.
///
/// # Units
/// m/s², or any other; both alike.
///
/// # Source
/// Android, `SensorEvent`: x points to the right, y to the top edge, z out of the screen, whichever way
/// the page is turned; flat on a table it feels +9.81 along z.
#[must_use]
pub fn of_phone([x, y, z]: [f64; 3]) -> [f64; 3] {
    [y, -x, z]
}

/// How a phone lies while its vehicle stands level.
///
/// # Units
/// Degrees from straight up: 90 where that edge is as high as the middle, less where it is higher.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rest {
    /// Of its top edge, which points forward.
    pub ahead_deg: f64,
    /// Of its left edge.
    pub left_deg: f64,
}

impl Rest {
    /// Of a phone that feels so.
    #[must_use]
    pub fn of(up: Up) -> Self {
        let [x, y, _] = up.parts();
        Self { ahead_deg: libm::acos(x).to_degrees(), left_deg: libm::acos(y).to_degrees() }
    }

    /// What it feels, with its screen up; `None` where no phone can lie so.
    #[must_use]
    pub fn up(self) -> Option<Up> {
        let [x, y] = [self.ahead_deg, self.left_deg].map(|deg| libm::cos(deg.to_radians()));
        let over = 1.0 - x * x - y * y;
        (over > 0.0).then(|| Up::of([x, y, libm::sqrt(over)])).flatten()
    }
}

/// What one more look tells.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Sight {
    /// The sensor gave what is no number.
    Broken,
    /// It was moved, or is being moved.
    Shaken,
    /// Its screen looks down.
    FaceDown,
    /// It leans more than [`STEEP_DEG`].
    Steep,
    /// It lies still.
    Still {
        /// The way up, in the axes of the phone as it lies.
        lies: Up,
        /// The way up, in the axes of the vehicle.
        up: Up,
    },
}

/// A phone that is looked at without end.
#[derive(Debug, Clone, PartialEq)]
pub struct Phone {
    level: Option<Up>,
    smooth: Smooth,
    last: Vec<[f64; 3]>,
    shown: Option<Up>,
}

impl Phone {
    /// `level`: how it lies while the vehicle stands level; `None` where nobody has said, then it is
    /// taken to lie straight.
    #[must_use]
    pub fn new(level: Option<Rest>) -> Self {
        let level = level.and_then(Rest::up);
        Self { level, smooth: Smooth::default(), last: Vec::new(), shown: None }
    }

    /// How it leans after one more look. After a jolt it is smoothed anew.
    ///
    /// # Units
    /// `felt`: m/s², along the axes of the phone, as [`of_phone`] has them.
    pub fn feel(&mut self, felt: [f64; 3]) -> Sight {
        if !felt.iter().all(|part| part.is_finite()) {
            return Sight::Broken;
        }
        let felt = of_phone(felt);
        if self.last.len() >= LOOKS {
            self.last.remove(0);
        }
        self.last.push(felt);
        if !self.lies_still(felt) {
            self.smooth = Smooth::default();
            return Sight::Shaken;
        }
        let fresh = self.smooth.up().is_none();
        let looks = if fresh { self.last.as_slice() } else { core::slice::from_ref(&felt) };
        self.smooth = looks.iter().fold(self.smooth, |smooth, felt| smooth.then(*felt));
        self.smooth.up().map_or(Sight::Broken, |lies| self.sees(lies))
    }

    fn lies_still(&self, felt: [f64; 3]) -> bool {
        let long = libm::sqrt(felt.iter().map(|part| part * part).sum());
        let apart = |(look, felt): (&f64, &f64)| (look - felt).abs() <= SPREAD;
        (long - STANDARD).abs() <= OFF_BY
            && self.last.iter().all(|look| look.iter().zip(&felt).all(apart))
    }

    fn sees(&mut self, lies: Up) -> Sight {
        let up = self.level.map_or(Some(lies), |level| mounted(lies, level));
        let Some(up) = up.filter(|_| lies.parts().last().is_some_and(|over| *over > 0.0)) else {
            return Sight::FaceDown;
        };
        let beyond = |from: Up, deg: f64| {
            let (from, to) = (from.lean(), up.lean());
            (to.pitch_deg - from.pitch_deg).abs() > deg || (to.roll_deg - from.roll_deg).abs() > deg
        };
        if beyond(LEVEL, STEEP_DEG) {
            return Sight::Steep;
        }
        if self.shown.is_none_or(|shown| beyond(shown, MOVES_DEG)) {
            self.shown = Some(up);
        }
        Sight::Still { lies, up: self.shown.unwrap_or(up) }
    }
}

/// Straight up.
const LEVEL: Up = Up([0.0, 0.0, 1.0]);
