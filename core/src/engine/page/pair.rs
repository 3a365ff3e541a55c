//! Rows of a way that two people share.

use serde::{Serialize, Serializer};

use super::{OrderProof, StepRow};

/// The way to a target, shared out between two people.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SharedPage {
    /// What it leads to.
    pub target_id: String,
    /// The same in words.
    pub target_title: String,
    /// What it takes for two and for one, or that it stays with one.
    pub headline: String,
    /// What to know on the way.
    pub warnings: Vec<String>,
    /// Why the target cannot be reached.
    pub impossible: Vec<String>,
    /// What each does: two lists, or one where nothing can be shared.
    pub people: Vec<PersonRow>,
    /// What it takes for two. Unit: s.
    pub elapsed_s: i32,
    /// What it takes for one. Unit: s.
    pub alone_s: i32,
    /// Walking of both. Unit: s.
    pub walk_s: i32,
    /// How far it is from the best way to share these steps: in JSON `order`, not `exact`, because
    /// other steps are not considered.
    #[serde(serialize_with = "of_these_steps")]
    pub proof: OrderProof,
}

/// What one person does.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PersonRow {
    /// Which of the two.
    pub title: String,
    /// In order.
    pub steps: Vec<SharedStepRow>,
}

/// One step of one person.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SharedStepRow {
    /// The step; its walk is that of this person.
    pub step: StepRow,
    /// When it starts, if all goes as planned. Unit: s from the start.
    pub start_s: i32,
    /// Names the step of the other whose end must be said before.
    pub word_id: Option<String>,
    /// The same in words.
    pub word_text: Option<String>,
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "as the derived code calls it")]
fn of_these_steps<S: Serializer>(proof: &OrderProof, to: S) -> Result<S::Ok, S::Error> {
    match proof {
        OrderProof::Exact => to.serialize_str("order"),
        OrderProof::Gap { .. } | OrderProof::None => proof.serialize(to),
    }
}
