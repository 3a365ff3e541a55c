//! What a move takes for granted: it may rest on a belief, but the owner is told where that is old.

use super::loaded::Loaded;
use super::words::{Words, once};
use crate::catalogue::Severity;
use crate::clock::Stamp;
use crate::interlock::{bears_on, may_hold};
use crate::vehicle::{Action, Deed, Literal, Settings, VariableId};

impl Loaded {
    /// What keeps a danger clause off that a hazardous move bears on, where nobody has seen it for longer than
    /// it counts as fresh and no step of `before` sees to it: to be looked at first.
    pub(super) fn old_grounds(
        &self,
        words: &Words,
        action: &Action,
        beliefs: &[Settings],
        before: &[usize],
        now: &Stamp,
    ) -> Vec<String> {
        let actions = before.iter().filter_map(|step| self.vehicle.actions.get(*step));
        let seen_to: Vec<VariableId> =
            actions.flat_map(|one| &one.effects).map(|effect| effect.variable).collect();
        let changed = |one: &&Literal| action.effects.iter().any(|it| it.variable == one.variable);
        let clauses = self.vehicle.clauses.iter().filter(|clause| {
            action.hazard
                && action.deed == Deed::Move
                && clause.severity == Severity::Danger
                && bears_on(&self.vehicle, action, clause)
        });
        once(clauses.flat_map(|clause| {
            let literals = clause.literals.iter().filter(|one| !changed(one));
            let kept_off = literals.filter(|one| !may_hold(beliefs, one));
            let grounds: Option<Vec<String>> = kept_off
                .map(|one| {
                    let age = self.long_unseen(words, one, now)?;
                    let settings = beliefs.get(one.variable).copied().unwrap_or_default();
                    let seen = words.literal(&Literal { settings, ..*one });
                    let slots = [("seen", Words::sentence(&seen)), ("age", age)];
                    let slots = slots.each_ref().map(|(slot, said)| (*slot, said.as_str()));
                    (!seen_to.contains(&one.variable)).then(|| words.say("warn.old", &slots))
                })
                .collect();
            grounds.unwrap_or_default()
        }))
    }

    /// How long ago something that can be looked at was last known, where that is longer than it
    /// counts as fresh. What is only so while it is handled is not: one would know.
    fn long_unseen(&self, words: &Words, literal: &Literal, now: &Stamp) -> Option<String> {
        let number = literal.variable;
        let variable = self.vehicle.variables.get(number)?;
        let age = self.state.belief(number)?.known.as_ref()?.at.age_ms(now);
        let looks = |one: &Action| {
            one.deed == Deed::Look && one.effects.iter().any(|it| it.variable == number)
        };
        let looked_at =
            self.vehicle.actions.iter().any(looks) && !literal.settings.is_within(variable.middle);
        (looked_at && age.is_none_or(|age_ms| age_ms > variable.lapse_ms)).then(|| words.age(age))
    }
}
