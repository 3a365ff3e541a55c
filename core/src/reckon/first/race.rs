//! Which of several ends first.

use libm::{exp, exp2};

use super::Curve;
use super::curve::{hazard_at, reached};

/// As far as anything is told ahead. Unit: days. Common practice, no source.
pub const HORIZON_DAYS: f64 = 64.0;
/// From 2^-6 of a day to 2^6 days, eight points to each doubling.
const PLACES: u32 = 97;

/// A reserve, and how much quicker or slower it is used from now on.
#[derive(Debug, Clone, Copy)]
pub struct Runner<'a> {
    /// Its chance over time.
    pub curve: &'a Curve,
    /// 1 as until now, > 0.
    pub pace: f64,
}

/// How they end.
#[derive(Debug, Clone, PartialEq)]
pub struct Race {
    /// The chance of each to be the first, in the order in which they were given.
    pub first: Vec<f64>,
    /// That none ends within [`HORIZON_DAYS`].
    pub none: f64,
    /// From now in days, with the sum of all hazards.
    points: Vec<(f64, f64)>,
}

impl Race {
    /// The chance that all of them still hold so many days from now; as at [`HORIZON_DAYS`] beyond it.
    #[must_use]
    pub fn holds(&self, days: f64) -> f64 {
        exp(-hazard_at(&self.points, days))
    }

    /// After how many days something has ended with that chance; `None` beyond [`HORIZON_DAYS`].
    #[must_use]
    pub fn ends_by(&self, chance: f64) -> Option<f64> {
        reached(&self.points, chance)
    }
}

/// The chances of each to end first; all of them and [`Race::none`] come to 1.
///
/// Between two points the hazards of all keep their shares, so that the chance that something ends there
/// is shared out by how much the hazard of each grows.
#[must_use]
pub fn race(runners: &[Runner]) -> Race {
    let mut first = vec![0.0; runners.len()];
    let mut before = vec![0.0; runners.len()];
    let (mut held, mut points) = (1.0, Vec::new());
    let at = |place| exp2(f64::from(place) / 8.0 - 6.0);
    for days in std::iter::once(0.0).chain((0..PLACES).map(at)) {
        let now: Vec<f64> = runners.iter().map(|one| one.curve.hazard(days, one.pace)).collect();
        let all: f64 = now.iter().sum();
        let grown: f64 = now.iter().zip(&before).map(|(now, before)| now - before).sum();
        let holds = exp(-all);
        if grown > 0.0 {
            let parts = first.iter_mut().zip(now.iter().zip(&before));
            parts.for_each(|(first, (now, before))| {
                *first += (held - holds) * (now - before) / grown;
            });
        }
        points.push((days, all));
        (held, before) = (holds, now);
    }
    Race { first, none: held, points }
}
