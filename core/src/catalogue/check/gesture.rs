//! What a gesture of its own asks of a variable.

use super::Check;
use crate::catalogue::kind::{Gesture, Kind, Variable};

/// Only what somebody sees to has a gesture.
pub(super) fn check(kind: &Kind, variable: &Variable) -> Check {
    let moved = kind.moves.iter().any(|step| step.set.contains_key(&variable.id));
    if variable.gesture == Gesture::Together || moved || variable.look_s.is_some() {
        return Ok(());
    }
    Err(format!("variable `{}`: nothing that a gesture could confirm", variable.id))
}
