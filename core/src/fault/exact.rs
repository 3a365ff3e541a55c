//! The least expected time, by dynamic programming.

use rustc_hash::FxHashMap;

use super::{Graph, Node, bit};

/// What a state is known by: the weights to the last bit, the imperfect questions asked, the zone.
type Key = (Vec<u64>, u64, usize);

struct Exact<'a> {
    graph: &'a Graph<'a>,
    /// The least expected time from a state, times its chance, and the question that leads there.
    best: FxHashMap<Key, (f64, Option<usize>)>,
    states_max: usize,
}

/// The best question and the expected time; `None` beyond `states_max` states.
pub(super) fn search(
    graph: &Graph,
    node: &Node,
    states_max: usize,
) -> Option<(Option<usize>, f64)> {
    let mut exact = Exact { graph, best: FxHashMap::default(), states_max };
    let (weighed_s, question) = exact.value(node)?;
    let total = node.total();
    Some((question, if total > 0.0 { weighed_s / total } else { 0.0 }))
}

impl Exact<'_> {
    fn value(&mut self, node: &Node) -> Option<(f64, Option<usize>)> {
        let key = self.key(node);
        if let Some(known) = self.best.get(&key) {
            return Some(*known);
        }
        if self.best.len() >= self.states_max {
            return None;
        }
        let graph = self.graph;
        let mut best: Option<(f64, usize)> = None;
        for (at, question) in graph.open(node) {
            let mut weighed_s = node.total() * graph.time_s(node, question);
            for next in graph.answers(node, at, question) {
                if best.is_some_and(|(least_s, _)| weighed_s >= least_s) {
                    break;
                }
                weighed_s += self.value(&next)?.0;
            }
            if best.is_none_or(|(least_s, _)| weighed_s < least_s) {
                best = Some((weighed_s, at));
            }
        }
        let value = best.map_or((0.0, None), |(weighed_s, at)| (weighed_s, Some(at)));
        self.best.insert(key, value);
        Some(value)
    }

    fn key(&self, node: &Node) -> Key {
        let imperfect = self.graph.questions.iter().enumerate();
        let imperfect = imperfect.filter(|(_, question)| !question.is_perfect());
        let marks = imperfect.fold(0, |marks, (at, _)| marks | bit(at));
        let weights = node.weights.iter().map(|weight| weight.to_bits()).collect();
        (weights, node.asked & marks, node.zone)
    }
}
