//! Where a search stands by what the vehicle's state tells and what was answered.

use std::collections::BTreeSet;

use super::{Graph, Node, Question, bit};
use crate::interlock::must_hold;
use crate::vehicle::{Fault, Literal, Settings, Walks};

/// What somebody said in a search, by number within its fault.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Said {
    /// A question was answered.
    Answer {
        /// The question.
        question: usize,
        /// What was seen.
        answer: usize,
    },
    /// It cannot be answered.
    Cannot {
        /// The question.
        question: usize,
    },
    /// What mends a cause was done, and the symptom remains: it was not that.
    Remains {
        /// The cause.
        cause: usize,
    },
    /// What mends a cause was done, and all is well.
    Mended {
        /// The cause.
        cause: usize,
    },
}

impl Said {
    /// The question, or else the cause, that it is about.
    #[must_use]
    pub fn about(self) -> (Option<usize>, Option<usize>) {
        match self {
            Self::Answer { question, .. } | Self::Cannot { question } => (Some(question), None),
            Self::Remains { cause } | Self::Mended { cause } => (None, Some(cause)),
        }
    }
}

/// Where a search stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Stand {
    /// What the causes weigh now.
    pub node: Node,
    /// Questions that the vehicle's state answers, each with its answer.
    pub settled: Vec<(usize, usize)>,
    /// Questions that the vehicle's state would answer if that led anywhere: they are asked all the
    /// same. Empty unless what was known leaves only "anything else" and asking may tell more.
    pub doubted: Vec<(usize, usize)>,
    /// What was known led nowhere, so it is asked all the same.
    pub anew: bool,
}

impl Fault {
    /// What the search sees of it.
    #[must_use]
    pub fn graph<'a>(&self, walks: &'a Walks) -> Graph<'a> {
        let questions = self.questions.iter().map(|one| Question {
            seconds: one.seconds,
            zone: one.zone,
            after: one.after.clone(),
            chance: one.answers.iter().map(|answer| answer.chance.clone()).collect(),
        });
        Graph { questions: questions.collect(), walks }
    }

    /// The cause that stands for all others, which a workshop finds.
    #[must_use]
    pub fn rest(&self) -> usize {
        self.causes.len().saturating_sub(1)
    }

    /// What each cause weighs before anything is known.
    #[must_use]
    pub fn weights(&self) -> Vec<f64> {
        self.causes.iter().map(|cause| cause.weight).collect()
    }
}

/// Where the search for the cause of a fault stands, for a person in `zone`.
///
/// What the vehicle's state tells counts like an answer, as long as it leads to a cause. Where only
/// "anything else" is left by it, somebody may be wrong about the state: it is asked anew. An answer
/// that only a cause explains which is already mended tells nothing of the others.
#[must_use]
pub fn stand(fault: &Fault, beliefs: &[Settings], said: &[Said], zone: usize) -> Stand {
    let with = fold(fault, Some(beliefs), said, zone);
    let only_rest = with.node.possible().eq([fault.rest()]);
    if !only_rest {
        return with;
    }
    let without = fold(fault, None, said, zone);
    let more = without.node.possible().ne([fault.rest()]);
    if more { Stand { anew: true, doubted: with.settled, ..without } } else { with }
}

/// Answers that contradict each other, each by its question and answer, the earliest first: those
/// that do not count because of a later one, and what they do not fit. A cause that was mended since
/// makes no contradiction.
#[must_use]
pub fn contrary(fault: &Fault, said: &[Said]) -> Vec<(usize, usize)> {
    let mut weights = fault.weights();
    let (mut counted, mut odd) = (Vec::new(), BTreeSet::new());
    for (place, question, answer) in answers(said) {
        let Some(answer) = answer else { continue };
        let next = weighed(fault, &weights, question, answer);
        if next.iter().any(|weight| *weight > 0.0) {
            weights = next;
            counted.push((place, question, answer));
            continue;
        }
        let alone = weighed(fault, &fault.weights(), question, answer);
        let clashes = |(_, other, said): &&(usize, usize, usize)| {
            weighed(fault, &alone, *other, *said).iter().all(|weight| *weight <= 0.0)
        };
        let with: Vec<_> = counted.iter().filter(clashes).copied().collect();
        // No single one: then it is all of them together.
        odd.extend(if with.is_empty() { counted.clone() } else { with });
        odd.insert((place, question, answer));
    }
    odd.into_iter().map(|(_, question, answer)| (question, answer)).collect()
}

/// What was answered, the latest first, each with its place in `said`; `None` for what cannot be. Of
/// two answers to one question the later one counts.
fn answers(said: &[Said]) -> impl Iterator<Item = (usize, usize, Option<usize>)> {
    let mut asked = BTreeSet::new();
    let all = said.iter().enumerate().rev().filter_map(|(place, one)| match *one {
        Said::Answer { question, answer } => Some((place, question, Some(answer))),
        Said::Cannot { question } => Some((place, question, None)),
        Said::Remains { .. } | Said::Mended { .. } => None,
    });
    all.filter(move |(_, question, _)| asked.insert(*question))
}

/// `beliefs` is `None` where the vehicle's state does not count.
fn fold(fault: &Fault, beliefs: Option<&[Settings]>, said: &[Said], zone: usize) -> Stand {
    let holds = |ways: &[Vec<Literal>]| {
        beliefs.is_some_and(|all| {
            ways.iter().any(|way| way.iter().all(|literal| must_hold(all, literal)))
        })
    };
    // Whatever else it may be is never ruled out.
    let without = |weights: &[f64], gone: &dyn Fn(usize) -> bool| -> Vec<f64> {
        let left = |at: usize, weight: f64| {
            if at != fault.rest() && gone(at) { 0.0 } else { weight }
        };
        weights.iter().enumerate().map(|(at, weight)| left(at, *weight)).collect()
    };
    let mended = |cause: usize| said.contains(&Said::Remains { cause });
    let weights = without(&fault.weights(), &mended);
    let mut node = Node { weights, asked: 0, zone };
    // The later one counts, of two to one question and of two that only one can be true of.
    let mut answered = BTreeSet::new();
    for (_, question, answer) in answers(said) {
        answered.insert(question);
        take(fault, &mut node, question, answer);
    }
    // What was seen in the search outweighs what was said of the vehicle before it.
    let ruled_out = |cause: usize| fault.causes.get(cause).is_some_and(|one| holds(&one.unless));
    let left = without(&node.weights, &ruled_out);
    if left.iter().any(|weight| *weight > 0.0) {
        node.weights = left;
    }
    let mut settled = Vec::new();
    for (at, question) in fault.questions.iter().enumerate() {
        if answered.contains(&at) {
            continue;
        }
        if let Some(answer) = question.answers.iter().position(|one| holds(&one.known))
            && take(fault, &mut node, at, Some(answer))
        {
            settled.push((at, answer));
        }
    }
    Stand { node, settled, doubted: Vec::new(), anew: false }
}

/// Takes an answer, `None` for a question that cannot be answered; whether it told anything.
fn take(fault: &Fault, node: &mut Node, question: usize, answer: Option<usize>) -> bool {
    node.asked |= bit(question);
    let Some(answer) = answer else { return false };
    let weights = weighed(fault, &node.weights, question, answer);
    let tells = weights.iter().any(|weight| *weight > 0.0) && weights != node.weights;
    if tells {
        node.weights = weights;
    }
    tells
}

/// What the causes weigh after an answer; as before where there is no such answer.
fn weighed(fault: &Fault, weights: &[f64], question: usize, answer: usize) -> Vec<f64> {
    let seen = fault.questions.get(question).and_then(|asked| asked.answers.get(answer));
    let Some(seen) = seen else { return weights.to_vec() };
    weights.iter().zip(&seen.chance).map(|(weight, chance)| weight * chance).collect()
}
