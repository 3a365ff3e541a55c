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
    if more { Stand { anew: true, ..without } } else { with }
}

/// `beliefs` is `None` where the vehicle's state does not count.
fn fold(fault: &Fault, beliefs: Option<&[Settings]>, said: &[Said], zone: usize) -> Stand {
    let holds = |ways: &[Vec<Literal>]| {
        beliefs.is_some_and(|all| {
            ways.iter().any(|way| way.iter().all(|literal| must_hold(all, literal)))
        })
    };
    let gone = |cause: usize| {
        // Whatever else it may be is never ruled out.
        let ruled_out = fault.causes.get(cause).is_some_and(|known| holds(&known.unless));
        cause != fault.rest() && (ruled_out || said.contains(&Said::Remains { cause }))
    };
    let weights = fault.weights().into_iter().enumerate();
    let weights = weights.map(|(at, weight)| if gone(at) { 0.0 } else { weight });
    let mut node = Node { weights: weights.collect(), asked: 0, zone };
    // The later one counts, of two to one question and of two that only one can be true of.
    let mut answers = BTreeSet::new();
    for one in said.iter().rev() {
        let (question, answer) = match *one {
            Said::Answer { question, answer } => (question, Some(answer)),
            Said::Cannot { question } => (question, None),
            Said::Remains { .. } | Said::Mended { .. } => continue,
        };
        if answers.insert(question) {
            take(fault, &mut node, question, answer);
        }
    }
    let mut settled = Vec::new();
    for (at, question) in fault.questions.iter().enumerate() {
        if answers.contains(&at) {
            continue;
        }
        if let Some(answer) = question.answers.iter().position(|one| holds(&one.known))
            && take(fault, &mut node, at, Some(answer))
        {
            settled.push((at, answer));
        }
    }
    Stand { node, settled, anew: false }
}

/// Takes an answer, `None` for a question that cannot be answered; whether it told anything.
fn take(fault: &Fault, node: &mut Node, question: usize, answer: Option<usize>) -> bool {
    node.asked |= bit(question);
    let asked = fault.questions.get(question);
    let Some(seen) = asked.and_then(|asked| asked.answers.get(answer?)) else { return false };
    let weights = node.weights.iter().zip(&seen.chance).map(|(weight, chance)| weight * chance);
    let weights: Vec<f64> = weights.collect();
    let tells = weights.iter().any(|weight| *weight > 0.0) && weights != node.weights;
    if tells {
        node.weights = weights;
    }
    tells
}
