//! What the goals ask of each variable, and what a move disturbs.

use super::Problem;
use crate::interlock::believed;
use crate::vehicle::{Action, Deed, VariableId};

/// What is asked of a variable.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct OfOne {
    /// Some goal asks for it to be fresh.
    pub(super) fresh: bool,
    /// Where goals speak of it, whether what it is now meets all of them.
    pub(super) right: Option<bool>,
    /// A look could show it.
    pub(super) can_look: bool,
}

/// What is asked of each variable.
#[derive(Debug)]
pub(super) struct Asked(Vec<OfOne>);

impl Asked {
    pub(super) fn by(problem: &Problem) -> Self {
        let mut asked = vec![OfOne::default(); problem.beliefs.len()];
        for goal in &problem.goals {
            for literal in &goal.any_of {
                if let Some(one) = asked.get_mut(literal.variable) {
                    let now = believed(&problem.beliefs, literal.variable);
                    one.fresh |= goal.fresh;
                    one.right = Some(one.right != Some(false) && now.is_within(literal.settings));
                }
            }
        }
        let looks = problem.vehicle.actions.iter().filter(|action| action.deed == Deed::Look);
        for effect in looks.flat_map(|look| &look.effects).filter(|effect| !effect.spoilt) {
            if let Some(one) = asked.get_mut(effect.variable) {
                one.can_look = true;
            }
        }
        Self(asked)
    }

    pub(super) fn of(&self, variable: VariableId) -> OfOne {
        self.0.get(variable).copied().unwrap_or_default()
    }

    /// Whether it moves what goals speak of, met them all at the start, and could be looked at
    /// instead.
    pub(super) fn is_disturbed_by(&self, action: &Action) -> bool {
        let stood_right = |variable: VariableId| {
            let one = self.of(variable);
            one.can_look && one.right == Some(true)
        };
        let mut own = action.effects.iter().filter(|effect| !effect.spoilt);
        action.deed == Deed::Move && own.any(|one| stood_right(one.variable))
    }
}
