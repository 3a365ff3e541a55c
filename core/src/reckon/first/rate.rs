//! What is believed of a day's use: a published range first, then what was read.

use libm::{cbrt, exp, log, sqrt};

use crate::reckon::Between;

/// Of a normal variable, nine tenths lie below so many deviations. Source: any table of it.
const Z_90: f64 = 1.281_551_565_544_6;
/// A published range counts as no narrower than from so much to 1.5 times it, whatever was told, and as
/// no wider than eight times. Common practice, no source.
const RATIO: (f64, f64) = (1.5, 8.0);
/// The points of Gauss and Legendre between 0 and 1, with their weights. Source: any table of them.
const POINTS: [(f64, f64); 5] = [
    (0.046_910_077_030_668, 0.118_463_442_528_095),
    (0.230_765_344_947_158, 0.239_314_335_249_683),
    (0.5, 0.284_444_444_444_444),
    (0.769_234_655_052_842, 0.239_314_335_249_683),
    (0.953_089_922_969_332, 0.118_463_442_528_095),
];

/// What was used, and in how many days.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seen {
    /// Between what the readings allow, ≥ 0.
    pub used: Between,
    /// In which time, > 0.
    pub days: f64,
}

/// One of the amounts that may have been used.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Node {
    pub(super) weight: f64,
    /// `a + k d`, > 1.
    pub(super) shape: f64,
    /// `b + u`, > 0. Unit: of the amounts.
    pub(super) scale: f64,
}

/// What is believed of a day's use.
#[derive(Debug, Clone, PartialEq)]
pub struct Rate {
    pub(super) nodes: Vec<Node>,
    /// How even the days are.
    pub(super) even: f64,
}

impl Rate {
    /// From a published range of a day's use, from what was read, or from both; `None` from neither,
    /// and where what there is tells nothing (a range from 0 on, nothing used, too short a time).
    ///
    /// # Units
    /// `published`: amount a day. `even`: the shape of a day's use, as [`super::USUAL`].
    #[must_use]
    pub fn new(published: Option<Between>, seen: Option<Seen>, even: f64) -> Option<Self> {
        let told = published.filter(|range| range.lower > 0.0 && range.upper.is_finite());
        let prior = told.map(|range| prior(range, even));
        let seen = seen.filter(|seen| seen.used.upper > 0.0 && seen.days > 0.0);
        let nodes = match (prior, seen) {
            (None, None) => return None,
            (Some((shape, scale)), None) => vec![Node { weight: 1.0, shape, scale }],
            (prior, Some(seen)) => updated(prior, seen, even),
        };
        nodes
            .iter()
            .all(|node| node.shape > 1.0 && node.scale > 0.0)
            .then_some(Self { nodes, even })
    }

    /// The average of a day's use, as most likely stands.
    #[must_use]
    pub fn a_day(&self) -> f64 {
        let each = |node: &Node| node.weight * self.even * node.scale / (node.shape - 1.0);
        self.nodes.iter().map(each).sum()
    }
}

/// The gamma of which the range is the middle 80 %: by the cubes of its quantiles, in closed form.
fn prior(range: Between, even: f64) -> (f64, f64) {
    let middle = sqrt(range.lower * range.upper);
    let ratio = (range.upper / range.lower).clamp(RATIO.0, RATIO.1);
    let most = middle * sqrt(ratio);
    let root = cbrt(ratio);
    let (less, more) = (root - 1.0, Z_90 * (root + 1.0));
    let s = (sqrt(more * more + 4.0 * less * less) - more) / (2.0 * less);
    let shape = 1.0 / (9.0 * s * s);
    let cube = 1.0 - s * s - Z_90 * s;
    (shape, shape * cube * cube * cube * most / even)
}

/// After what was read.
fn updated(prior: Option<(f64, f64)>, seen: Seen, even: f64) -> Vec<Node> {
    let (shape, scale) = prior.unwrap_or((0.0, 0.0));
    let days = even * seen.days;
    let wide = seen.used.upper - seen.used.lower;
    let weigh = |(at, weight): (f64, f64)| {
        let used = seen.used.lower + at * wide;
        let likely = prior.map(|_| (days - 1.0) * log(used) - (shape + days) * log(scale + used));
        (used, weight, likely.unwrap_or(0.0))
    };
    let points = POINTS.map(weigh);
    let best = points.iter().fold(f64::NEG_INFINITY, |best, point| best.max(point.2));
    let weights = points.map(|(used, weight, likely)| (used, weight * exp(likely - best)));
    let all: f64 = weights.iter().map(|(_, weight)| weight).sum();
    let node = |(used, weight): (f64, f64)| Node {
        weight: weight / all,
        shape: shape + days,
        scale: scale + used,
    };
    weights.map(node).to_vec()
}
