//! A quick order where the exact one takes too long.

use std::collections::BTreeSet;

use super::{Graph, Node, Question};

/// What a question is expected to tell for its time: the growth of the sum of squared chances, which
/// is 1 once the cause is known.
fn gain(node: &Node, question: &Question) -> f64 {
    let total = node.total();
    let squares = |weights: &[f64], whole: f64| {
        weights.iter().map(|weight| weight * weight).sum::<f64>() / (whole * total)
    };
    let after = question.chance.iter().map(|row| {
        let weights: Vec<f64> =
            node.weights.iter().zip(row).map(|(w, chance)| w * chance).collect();
        let whole: f64 = weights.iter().sum();
        if whole > 0.0 { squares(&weights, whole) } else { 0.0 }
    });
    after.sum::<f64>() - squares(&node.weights, total)
}

/// The next question by the greedy rule: zones are clusters that share the walk (Ottosen and Jensen,
/// arXiv 1203.3502). In each zone the questions stand by gain over time; the zone whose best first
/// few gain most for their time with the walk there is gone to, and its first question asked. The
/// order is not proven to be the best.
#[must_use]
pub fn choose(graph: &Graph, node: &Node) -> Option<usize> {
    let at_hand: Vec<_> = graph.open(node).collect();
    let place = |question: &Question| question.zone.unwrap_or(node.zone);
    let zones: BTreeSet<usize> = at_hand.iter().map(|(_, question)| place(question)).collect();
    let mut best: Option<(f64, usize)> = None;
    for zone in zones {
        let here = at_hand.iter().filter(|(_, question)| place(question) == zone);
        let mut here: Vec<_> = here
            .map(|(at, question)| (*at, gain(node, question), f64::from(question.seconds).max(1.0)))
            .collect();
        here.sort_by(|one, other| (other.1 / other.2).total_cmp(&(one.1 / one.2)));
        let Some(first) = here.first().map(|(at, ..)| *at) else { continue };
        let (mut told, mut time_s) = (0.0, f64::from(graph.walks.between(node.zone, zone)));
        for (_, gain, seconds) in here {
            told += gain;
            time_s += seconds;
            if best.is_none_or(|(rate, _)| told / time_s > rate) {
                best = Some((told / time_s, first));
            }
        }
    }
    best.map(|(_, at)| at)
}
