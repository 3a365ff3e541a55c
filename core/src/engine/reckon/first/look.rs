//! For how long all that is known holds, drawn; and what to beware of.

use super::{Ahead, lasts, over, stock::DAYS};
use crate::catalogue::Measured;
use crate::engine::page::{Chart, ChartPoint, ReckoningLine, ReckoningPart};
use crate::engine::reckon::asked::Asked;
use crate::reckon::Between;

/// The most days that are drawn. Common practice, no source.
const DRAWN_MAX: u32 = 14;

pub(super) fn part(asked: &Asked, ahead: &Ahead) -> ReckoningPart {
    let (lower, upper) = ahead.band();
    let line = ReckoningLine {
        lower: Some(lower),
        upper,
        unit: Some(DAYS.to_owned()),
        ..asked.told("all", lasts(asked, lower, upper))
    };
    let none = ahead.stocks.is_empty();
    let lines = (!none).then_some(line).into_iter().collect();
    ReckoningPart { chart: (!none).then(|| chart(asked, ahead)), ..asked.part("all", lines) }
}

/// The chance that all of it still holds, day by day.
fn chart(asked: &Asked, ahead: &Ahead) -> Chart {
    let end = ahead.band().1.unwrap_or(f64::from(DRAWN_MAX));
    let days = (2..DRAWN_MAX).find(|day| f64::from(*day) >= end).unwrap_or(DRAWN_MAX);
    let point = |day: u32| {
        let holds = over(&ahead.races, |race| race.holds(f64::from(day)));
        ChartPoint {
            at: f64::from(day) / f64::from(days),
            label: if day == 0 { asked.say("chart.now", &[]) } else { day.to_string() },
            lower: holds.lower,
            middle: ahead.race().holds(f64::from(day)),
            upper: holds.upper,
        }
    };
    let points: Vec<_> = (0..=days).map(point).collect();
    let said = (0..=days).zip(&points).map(|(day, at)| {
        let band = asked.band("_pct", Between::of(at.lower, at.upper) * 100.0, 1.0);
        let key = match day {
            0 => "chart.told_now",
            1 => "chart.told_one",
            _ => "chart.told",
        };
        asked.say(key, &[("n", &day.to_string()), ("band", &band)])
    });
    let per_cent = |share: f64| asked.quantity("_pct", share);
    Chart {
        title: asked.say("chart.title", &[]),
        told: said.collect::<Vec<_>>().join(" "),
        bottom_text: per_cent(0.0),
        top_text: per_cent(100.0),
        limit: Some(0.5),
        limit_text: Some(asked.say("chart.half", &[])),
        points,
    }
}

pub(super) fn cautions(asked: &Asked, ahead: &Ahead) -> Vec<String> {
    let gas = ahead.stocks.iter().any(|stock| stock.known.gauge.of == Measured::Gas);
    gas.then(|| asked.say("caution.gas", &[])).into_iter().collect()
}
