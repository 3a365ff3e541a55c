//! What an instrument shows that is looked at without end: smoothed, and put right for how it is
//! mounted.

use super::Up;

/// How much of what was felt before stays at each look. Source: the usual low-pass of motion sensors.
const KEEPS: f64 = 0.8;

/// What is felt, smoothed.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Smooth {
    felt: Option<[f64; 3]>,
}

impl Smooth {
    /// After one more look; one that is no number is left out. The first counts as it is.
    #[must_use]
    pub fn then(self, felt: [f64; 3]) -> Self {
        if !felt.iter().all(|part| part.is_finite()) {
            return self;
        }
        let Some([x, y, z]) = self.felt else { return Self { felt: Some(felt) } };
        let mix = |was: f64, is: f64| KEEPS * was + (1.0 - KEEPS) * is;
        Self { felt: Some([mix(x, felt[0]), mix(y, felt[1]), mix(z, felt[2])]) }
    }

    /// The way up as it is felt; `None` before the first look.
    #[must_use]
    pub fn up(self) -> Option<Up> {
        self.felt.and_then(Up::of)
    }
}

/// The way up of the vehicle, by an instrument that shows `level` while the vehicle stands level: turned
/// the shortest way that brings `level` upright. `None` of an instrument that is mounted upside down.
#[must_use]
pub fn mounted(shown: Up, level: Up) -> Option<Up> {
    let [x, y, z] = level.parts();
    let [ahead, left, over] = shown.parts();
    let beside = 1.0 + z;
    if beside <= f64::EPSILON {
        return None;
    }
    let along = ahead * x + left * y;
    let turned =
        [ahead - x * (over + along / beside), left - y * (over + along / beside), over * z + along];
    Up::of(turned)
}
