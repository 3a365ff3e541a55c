//! What counts as done or looked at for this departure.

use super::{Belief, How, State};
use crate::clock::Stamp;
use crate::interlock::Goal;
use crate::vehicle::{VariableId, Vehicle};

impl State {
    /// Whether a variable was done or looked at since this departure opened, and not longer ago
    /// than its lapse time. A clock that was changed makes every look lapse.
    #[must_use]
    pub fn is_fresh(&self, vehicle: &Vehicle, variable: VariableId, now: &Stamp) -> bool {
        let Some(opened) = self.departure else {
            return false;
        };
        let lapse_ms = vehicle.variables.get(variable).map_or(0, |known| known.lapse_ms);
        let age_ms = self.belief(variable).and_then(|belief| seen_since(belief, opened, now));
        !self.clock_changed(now) && age_ms.is_some_and(|age_ms| age_ms <= lapse_ms)
    }

    /// The age of the oldest look that the goals rely on, in ms; `None` while there is none.
    #[must_use]
    pub fn oldest_look_ms(&self, goals: &[Goal], now: &Stamp) -> Option<i64> {
        let opened = self.departure?;
        let relied_on = goals.iter().filter(|goal| goal.fresh).flat_map(|goal| &goal.any_of);
        relied_on
            .filter_map(|literal| seen_since(self.belief(literal.variable)?, opened, now))
            .max()
    }

    /// Whether the departure under way has lapsed: its oldest look, or its opening where nothing
    /// was looked at yet, is older than the pack allows, or the clock was changed.
    #[must_use]
    pub fn has_lapsed(&self, vehicle: &Vehicle, goals: &[Goal], now: &Stamp) -> bool {
        let Some(departed) = &self.departed else {
            return false;
        };
        let oldest_ms = self.oldest_look_ms(goals, now).or_else(|| departed.age_ms(now));
        self.clock_changed(now)
            || oldest_ms.is_none_or(|age_ms| age_ms > vehicle.departure_lapse_ms)
    }
}

/// How long ago a belief was done or looked at, if since the entry `opened`.
fn seen_since(belief: &Belief, opened: i64, now: &Stamp) -> Option<i64> {
    let known = belief.known.as_ref()?;
    let seen = matches!(known.how, How::Done | How::Looked) && known.seq > opened;
    seen.then(|| known.at.age_ms(now)).flatten()
}
