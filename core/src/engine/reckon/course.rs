//! A temperature over time, drawn.

use super::asked::Asked;
use crate::engine::page::{Chart, ChartPoint};
use crate::reckon::Between;

/// One place of it.
pub(super) struct At {
    /// From 0 to 1 along the chart.
    pub(super) along: f64,
    /// What is written below it; empty for none.
    pub(super) label: String,
    /// From the coldest to the warmest that it may be, with what is most likely between. Unit: °C.
    pub(super) band_c: Between,
    pub(super) usual_c: f64,
}

/// Drawn on whole degrees, with a line at one that matters. In words each place that has a label.
pub(super) fn chart(
    asked: &Asked,
    title: String,
    all: &[At],
    (limit_c, limit_text): (f64, String),
) -> Chart {
    let least = all.iter().map(|at| at.band_c.lower).fold(limit_c, f64::min).floor() - 1.0;
    let most = all.iter().map(|at| at.band_c.upper).fold(limit_c, f64::max).ceil() + 1.0;
    let share = |celsius: f64| ((celsius - least) / (most - least)).clamp(0.0, 1.0);
    let point = |at: &At| ChartPoint {
        at: at.along,
        label: at.label.clone(),
        lower: share(at.band_c.lower),
        middle: share(at.usual_c),
        upper: share(at.band_c.upper),
    };
    let labelled = all.iter().filter(|at| !at.label.is_empty());
    let said = labelled.map(|at| {
        let band = asked.band("_c", at.band_c, 1.0);
        let key = if at.along > 0.0 { "chart.told" } else { "chart.told_now" };
        asked.say(key, &[("n", &at.label), ("band", &band)])
    });
    Chart {
        title,
        told: said.collect::<Vec<_>>().join(" "),
        bottom_text: asked.quantity("_c", least),
        top_text: asked.quantity("_c", most),
        limit: Some(share(limit_c)),
        limit_text: Some(limit_text),
        points: all.iter().map(point).collect(),
    }
}
