//! Where a level may be by now.

use super::{Known, MS_PER_H};
use crate::clock::Stamp;
use crate::engine::loaded::Loaded;

/// For so long a reading counts as what is there, where nothing tells what was used since. Unit: ms.
/// Common practice, no source.
const AS_READ_MS: i64 = MS_PER_H;

impl Loaded {
    /// The level as it may be now, in the small unit of its scale; `None` where nobody knows.
    ///
    /// As used since it was told, where the use is known. Else as told for an hour, and then as far the
    /// way of its use as what is believed goes; the other way only where that is believed.
    pub(in crate::engine) fn level_now(&self, known: &Known, now: &Stamp) -> Option<(i64, i64)> {
        let scale = &known.scale;
        if let Some(level) = used_since(known, now) {
            return Some(level);
        }
        let told = known.level().map(|(_, lower, upper)| (lower, upper));
        let age_ms = known.last.as_ref().and_then(|last| last.at.age_ms(now));
        if age_ms.is_some_and(|ms| ms <= AS_READ_MS) {
            return told;
        }
        let all = self.vehicle.variables.get(known.gauge.variable)?.all;
        let believed = self.state.belief(known.gauge.variable)?.settings;
        let hull = |one: (i64, i64), two: (i64, i64)| (one.0.min(two.0), one.1.max(two.1));
        let (lower, upper) = believed
            .places()
            .map(|place| scale.band(place))
            .reduce(hull)
            .filter(|_| believed != all)?;
        let Some(told) = told else { return Some((lower, upper)) };
        let touched = scale.bands.touched(told.0, told.1, scale.capacity).into_iter();
        let within = touched.map(|band| scale.bands.stretch(band, scale.capacity)).reduce(hull)?;
        Some(if known.gauge.fills {
            (if lower < within.0 { lower } else { told.0 }, upper.max(told.1))
        } else {
            (lower.min(told.0), if upper > within.1 { upper } else { told.1 })
        })
    }
}

/// The level with what was used since it was told, to the bottom of a tank or to its brim: beyond where
/// its use ends there is room still.
fn used_since(known: &Known, now: &Stamp) -> Option<(i64, i64)> {
    let (rate, last) = known.rate.as_ref().zip(known.last.as_ref())?;
    let since = rate.used.in_ms(last.at.age_ms(now)?);
    let left = (last.lower.saturating_sub(since.1), last.upper.saturating_sub(since.0));
    let (lower, upper) = known.scale.level(left);
    let whole = |end: i64| end.clamp(0, known.scale.capacity);
    Some((whole(lower), whole(upper)))
}
