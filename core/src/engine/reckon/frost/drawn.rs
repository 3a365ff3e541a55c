//! The night drawn: what freezes first, and the air outside.

use super::stand::Stand;
use crate::engine::page::{Chart, ReckoningPart};
use crate::engine::reckon::asked::Asked;
use crate::engine::reckon::course::{At, chart};
use crate::reckon::Between;
use crate::reckon::frost::night::{FORECAST_K, STEP_H};
use crate::reckon::frost::{End, Night, course};

/// Every so many hours the time is written below. Common practice, no source.
const LABEL_H: u32 = 4;
/// The most hours that are drawn.
const DRAWN_MAX_H: u32 = 48;

/// Each full hour of the night, with how warm it is then: coldest, usual, warmest.
fn hours(asked: &Asked, night: &Night, warm: impl Fn(f64) -> Option<[f64; 3]>) -> Vec<At> {
    let whole = (1..DRAWN_MAX_H).find(|hour| f64::from(*hour) >= night.lasts_h);
    let last = whole.unwrap_or(DRAWN_MAX_H);
    let at = |hour: u32| {
        let [lower, usual_c, upper] = warm(f64::from(hour).min(night.lasts_h))?;
        let label = match hour {
            0 => asked.say("chart.now", &[]),
            hour if hour.is_multiple_of(LABEL_H) => hour.to_string(),
            _ => String::new(),
        };
        let along = f64::from(hour) / f64::from(last);
        Some(At { along, label, band_c: Between::of(lower, upper), usual_c })
    };
    (0..=last).filter_map(at).collect()
}

fn drawn(asked: &Asked, title: String, all: &[At]) -> Option<Chart> {
    let zero = (0.0, asked.quantity("_c", 0.0));
    (!all.is_empty()).then(|| chart(asked, title, all, zero))
}

/// The water that comes to 0 °C first; where none does, the one that may be coldest in the end.
pub(super) fn water(asked: &Asked, stands: &[Stand], night: &Night) -> Option<Chart> {
    let known = stands.iter().filter_map(|one| Some((one, course(one.part()?, night)?)));
    let coldness = |(one, course): &(&Stand, Vec<[f64; 3]>)| {
        let ends = course.last().map_or(f64::INFINITY, |[lower, ..]| *lower);
        (one.earliest_h().unwrap_or(f64::INFINITY), ends)
    };
    let (first, course) = known.min_by(|one, other| {
        let ((one_h, one_c), (other_h, other_c)) = (coldness(one), coldness(other));
        one_h.total_cmp(&other_h).then(one_c.total_cmp(&other_c))
    })?;
    let step =
        |hours: f64| crate::reserve::whole("step", hours / STEP_H, 1, 0..=i64::from(u16::MAX));
    let warm = |hours: f64| {
        let place = step(hours).ok().and_then(|step| usize::try_from(step).ok())?;
        course.get(place).or(course.last()).copied()
    };
    let title = asked.say("chart.water", &[("what", &first.title)]);
    drawn(asked, title, &hours(asked, night, warm))
}

/// The air outside.
pub(super) fn air(asked: &Asked, night: &Night) -> ReckoningPart {
    let warm =
        |hours| Some([End::Earliest, End::Usual, End::Latest].map(|end| night.outside(end, hours)));
    let low = Between::of(night.low_c - FORECAST_K, night.low_c + FORECAST_K);
    let low = low.at_most(night.outside_c);
    let title = asked.say("chart.air", &[]);
    let chart = drawn(asked, title, &hours(asked, night, warm));
    ReckoningPart { chart, ..asked.part("air", vec![asked.line("air", "_c", low, 1.0)]) }
}
