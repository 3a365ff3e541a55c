//! From a symptom to its cause: which question to ask next, so that the cause is known soonest.
//!
//! One cause is taken to be at work. A question has a chance of each answer under each cause; the
//! search asks in the order of least expected time, walking included, until no question that can
//! still be asked would tell the causes apart. See [`plan`].

mod exact;
mod greedy;
mod stand;

pub use stand::{Said, Stand, contrary, stand};

use crate::vehicle::Walks;

/// Most states that the exact search looks at; beyond it the greedy rule answers. The largest fault of
/// the catalogue, a fridge with twelve causes, takes 16,000 to 33,000; all others 1,000 at most.
pub const STATES_MAX: usize = 60_000;

/// Most questions of one symptom: a set of them is one number.
pub const QUESTIONS_MAX: usize = 64;

/// What may be asked.
#[derive(Debug, Clone)]
pub struct Graph<'a> {
    /// The questions, in the order in which they are written.
    pub questions: Vec<Question>,
    /// Walking times.
    pub walks: &'a Walks,
}

/// One thing that somebody can look at, listen to or try.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// How long it takes, without the walk. Unit: s.
    pub seconds: u32,
    /// Where it is; anywhere, if `None`.
    pub zone: Option<usize>,
    /// Questions that come before it, as long as they still tell anything.
    pub after: Vec<usize>,
    /// For each answer, its chance under each cause, 0 to 1. Under a cause they add up to 1.
    pub chance: Vec<Vec<f64>>,
}

/// Where a search stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    /// What each cause weighs by all that is known; their sum is the chance of having come here.
    pub weights: Vec<f64>,
    /// Questions that are not asked any more, as a set of bits.
    pub asked: u64,
    /// Where the person is.
    pub zone: usize,
}

/// What to ask next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plan {
    /// The question; `None` where none tells anything more.
    pub question: Option<usize>,
    /// The expected time from here until nothing more is to be asked. Unit: s.
    pub expected_s: f64,
    /// How far above the least possible that may be. Unit: s; 0 where it is proven to be the least.
    pub gap_s: f64,
}

/// Whether two chances are not the same but for rounding.
fn differ(one: f64, other: f64) -> bool {
    (one - other).abs() > 1e-9
}

/// A set of one.
pub(crate) fn bit(question: usize) -> u64 {
    u32::try_from(question).ok().and_then(|by| 1_u64.checked_shl(by)).unwrap_or(0)
}

impl Question {
    /// Whether each cause gives one answer for sure.
    #[must_use]
    pub fn is_perfect(&self) -> bool {
        self.chance.iter().flatten().all(|chance| *chance <= 0.0 || *chance >= 1.0)
    }

    /// Whether its answer would change what the causes weigh against each other.
    fn tells(&self, weights: &[f64]) -> bool {
        self.chance.iter().any(|row| {
            let mut possible = row.iter().zip(weights).filter(|(_, weight)| **weight > 0.0);
            let first = possible.next().map_or(0.0, |(chance, _)| *chance);
            possible.any(|(chance, _)| differ(*chance, first))
        })
    }
}

impl Node {
    /// The chance of having come here.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.weights.iter().sum()
    }

    /// The causes that are still possible.
    pub fn possible(&self) -> impl Iterator<Item = usize> {
        self.weights.iter().enumerate().filter(|(_, weight)| **weight > 0.0).map(|(at, _)| at)
    }
}

impl Graph<'_> {
    /// Whether a question is still of use.
    #[must_use]
    pub fn tells(&self, node: &Node, question: usize) -> bool {
        let known = self.questions.get(question);
        node.asked & bit(question) == 0 && known.is_some_and(|known| known.tells(&node.weights))
    }

    /// The questions that may be asked now, in their order: those of use for which nothing of use
    /// comes first.
    pub fn open<'b>(&'b self, node: &'b Node) -> impl Iterator<Item = (usize, &'b Question)> {
        let of_use = move |(at, one): &(usize, &Question)| {
            self.tells(node, *at) && !one.after.iter().any(|first| self.tells(node, *first))
        };
        self.questions.iter().enumerate().filter(of_use)
    }

    /// The time for a question, with the walk to it. Unit: s.
    #[must_use]
    pub fn time_s(&self, node: &Node, question: &Question) -> f64 {
        let walk = question.zone.map_or(0, |zone| self.walks.between(node.zone, zone));
        f64::from(question.seconds) + f64::from(walk)
    }

    /// Where the search stands after each answer that may come.
    pub fn answers<'b>(
        &'b self,
        node: &'b Node,
        at: usize,
        question: &'b Question,
    ) -> impl Iterator<Item = Node> + 'b {
        let after = move |row: &Vec<f64>| {
            let weights = node.weights.iter().zip(row).map(|(weight, chance)| weight * chance);
            // After a perfect answer a question tells nothing more, and needs no mark.
            let mark = if question.is_perfect() { 0 } else { bit(at) };
            Node {
                weights: weights.collect(),
                asked: node.asked | mark,
                zone: question.zone.unwrap_or(node.zone),
            }
        };
        question.chance.iter().map(after).filter(|next| next.total() > 0.0)
    }

    /// The expected time that a way of choosing takes from here. Unit: s.
    pub fn expected_s(&self, node: &Node, choose: &impl Fn(&Node) -> Option<usize>) -> f64 {
        let total = node.total();
        if total > 0.0 { self.weighed_s(node, choose) / total } else { 0.0 }
    }

    fn weighed_s(&self, node: &Node, choose: &impl Fn(&Node) -> Option<usize>) -> f64 {
        let chosen = choose(node).and_then(|at| Some((at, self.questions.get(at)?)));
        let Some((at, question)) = chosen else { return 0.0 };
        let rest: f64 =
            self.answers(node, at, question).map(|next| self.weighed_s(&next, choose)).sum();
        node.total() * self.time_s(node, question) + rest
    }

    /// A time that no order can do better than: to know a cause from another, one of the questions
    /// that tell the two apart has to be gone to and asked. Unit: s.
    #[must_use]
    pub fn least_s(&self, node: &Node) -> f64 {
        let apart = |one: usize, other: usize| {
            let chance = |row: &Vec<f64>, cause: usize| row.get(cause).copied().unwrap_or(0.0);
            let differs = |row: &Vec<f64>| differ(chance(row, one), chance(row, other));
            let telling = self.questions.iter().enumerate().filter(|(at, question)| {
                node.asked & bit(*at) == 0 && question.chance.iter().any(differs)
            });
            let times = telling.map(|(_, question)| self.time_s(node, question));
            times.min_by(f64::total_cmp).unwrap_or(0.0)
        };
        let of_cause = |one: usize| {
            let others = node.possible().filter(|other| *other != one);
            let longest = others.map(|other| apart(one, other)).max_by(f64::total_cmp);
            node.weights.get(one).copied().unwrap_or(0.0) * longest.unwrap_or(0.0)
        };
        let total = node.total();
        if total > 0.0 { node.possible().map(of_cause).sum::<f64>() / total } else { 0.0 }
    }
}

/// What to ask next so that the expected time until nothing more is to be asked is least: exact,
/// by dynamic programming over what may be the cause and where one stands, as long as that takes no
/// more than `states_max` states; else by the greedy rule of [`greedy()`], with its gap to
/// [`Graph::least_s`].
///
/// Of equals the one that is written first comes first.
#[must_use]
pub fn plan(graph: &Graph, node: &Node, states_max: usize) -> Plan {
    if let Some((question, expected_s)) = exact::search(graph, node, states_max) {
        return Plan { question, expected_s, gap_s: 0.0 };
    }
    let expected_s = graph.expected_s(node, &|at| greedy::choose(graph, at));
    let gap_s = (expected_s - graph.least_s(node)).max(0.0);
    Plan { question: greedy::choose(graph, node), expected_s, gap_s }
}

/// The next question of a list that is always worked through as it is written, leaving out what
/// tells nothing more: what a printed page can do at best.
#[must_use]
pub fn printed(graph: &Graph, node: &Node) -> Option<usize> {
    graph.open(node).map(|(at, _)| at).next()
}

pub use greedy::choose as greedy;
