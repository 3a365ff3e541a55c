//! What counts as done or looked at for this departure.

use super::{How, State};
use crate::clock::Stamp;
use crate::interlock::Goal;
use crate::vehicle::{VariableId, Vehicle};

impl State {
    /// Whether a variable was done or looked at since this departure opened, and not longer ago
    /// than its lapse time; what nobody can do or look at, because it is given, was told. A clock
    /// that was changed makes every look lapse.
    #[must_use]
    pub fn is_fresh(&self, vehicle: &Vehicle, variable: VariableId, now: &Stamp) -> bool {
        if vehicle.local_rules().any(|(number, _)| number == variable) {
            // What is forbidden here lapses by the date of its row, and with the trip.
            return self.belief(variable).is_some_and(|belief| belief.known.is_some());
        }
        self.departure.is_some_and(|opened| self.is_seen_since(vehicle, variable, opened, now))
    }

    /// Whether a variable was done, looked at or, where it is given, told since the entry `opened`,
    /// and not longer ago than its lapse time.
    #[must_use]
    pub fn is_seen_since(
        &self,
        vehicle: &Vehicle,
        variable: VariableId,
        opened: i64,
        now: &Stamp,
    ) -> bool {
        let lapse_ms = vehicle.variables.get(variable).map_or(0, |known| known.lapse_ms);
        let age_ms = self.seen_since(vehicle, variable, opened, now);
        !self.clock_changed(now) && age_ms.is_some_and(|age_ms| age_ms <= lapse_ms)
    }

    /// The age of the oldest look that the goals rely on, in ms; `None` while there is none.
    #[must_use]
    pub fn oldest_look_ms(&self, vehicle: &Vehicle, goals: &[Goal], now: &Stamp) -> Option<i64> {
        let opened = self.departure?;
        let relied_on = goals.iter().filter(|goal| goal.fresh).flat_map(|goal| &goal.any_of);
        relied_on
            .filter_map(|literal| self.seen_since(vehicle, literal.variable, opened, now))
            .max()
    }

    /// Whether the departure under way has lapsed: its oldest look, or its opening where nothing
    /// was looked at yet, is older than the pack allows, or the clock was changed.
    #[must_use]
    pub fn has_lapsed(&self, vehicle: &Vehicle, goals: &[Goal], now: &Stamp) -> bool {
        let Some(departed) = &self.departed else {
            return false;
        };
        let oldest_ms = self.oldest_look_ms(vehicle, goals, now).or_else(|| departed.age_ms(now));
        self.clock_changed(now)
            || oldest_ms.is_none_or(|age_ms| age_ms > vehicle.departure_lapse_ms)
    }

    /// How long ago a variable was done, looked at or, where it is given, told, if since the entry
    /// `opened`.
    fn seen_since(
        &self,
        vehicle: &Vehicle,
        variable: VariableId,
        opened: i64,
        now: &Stamp,
    ) -> Option<i64> {
        let known = self.belief(variable)?.known.as_ref()?;
        let told = known.how == How::Told && vehicle.variables.get(variable)?.given;
        let seen = told || matches!(known.how, How::Done | How::Looked);
        (seen && known.seq > opened).then(|| known.at.age_ms(now)).flatten()
    }
}
