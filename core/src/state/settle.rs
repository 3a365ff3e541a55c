//! What time and temperature may have changed since somebody last said how it is.
//!
//! From its earliest on a settling only adds settings. At its latest it takes the old ones away,
//! but only where no danger clause hangs on the variable (the catalogue's check sees to that), so
//! that what has settled never makes a danger clause off. It never counts as looked.
//!
//! The time that counts is that for which all that a settling hangs on may have held since its
//! variable was last said, in sum: a pump that was switched on a minute ago has drawn no tank down,
//! and one that is off at night draws on by day.
//!
//! Everything is worked out from what was *said*, never from what has settled: so it does not
//! matter how often, nor at which moments in between, this is done.

use super::{Belief, Entry, How, Known, State};
use crate::clock::Stamp;
use crate::interlock::may_hold;
use crate::vehicle::{Literal, Settings, Settling, VariableId, Vehicle};

/// For how long all that one settling hangs on may have held, since its variable was last said.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Held {
    /// Since when it may hold, while it may; `None` while it certainly does not, or while nothing
    /// that was said tells since when.
    since: Option<Stamp>,
    /// For how long it did before that; `None` where that cannot be told. Unit: ms, ≥ 0.
    before_ms: Option<i64>,
}

impl Held {
    /// Nothing was said yet.
    pub(super) const NEVER: Self = Self { since: None, before_ms: Some(0) };

    /// For how long in all, at `now`; `None` where that cannot be told. Unit: ms, ≥ 0.
    fn for_ms(&self, now: &Stamp) -> Option<i64> {
        let lately_ms = self.since.as_ref().map_or(Some(0), |since| since.age_ms(now));
        Some(self.before_ms?.saturating_add(lately_ms?))
    }

    /// Takes in whether it may hold from `at` on.
    fn go_on(&mut self, may_hold: bool, at: &Stamp) {
        match (&self.since, may_hold) {
            (Some(_), false) => *self = Self { before_ms: self.for_ms(at), since: None },
            (None, true) => self.since = Some(at.clone()),
            (Some(_), true) | (None, false) => {}
        }
    }

    /// How long ago anything was can no longer be told.
    pub(super) fn lose_time(&mut self) {
        self.since = self.since.take().map(|_| Stamp::unknown());
    }
}

impl State {
    /// What is believed at `now`: what was said, and what may have settled since.
    #[must_use]
    pub fn at(&self, vehicle: &Vehicle, now: &Stamp) -> Self {
        let mut state = self.clone();
        state.settle(vehicle, now);
        state
    }

    /// Takes in what may have settled up to `now`.
    pub(super) fn settle(&mut self, vehicle: &Vehicle, now: &Stamp) {
        self.apply_local_rules(vehicle, now);
        let clock_changed = self.clock_changed(now);
        for (number, one) in vehicle.settlings.iter().enumerate() {
            let Some(held) = self.held.get(number).filter(|held| held.since.is_some()) else {
                continue;
            };
            // A time that cannot be told is past the earliest, and never past the latest.
            let held_ms = held.for_ms(now).filter(|_| !clock_changed);
            let told = self.last_told(&one.during);
            if let Some(belief) = self.beliefs.get_mut(one.variable)
                && let Some(known) = belief.known.clone().or(told)
            {
                belief.settle(number, one, held_ms, known);
            }
        }
    }

    /// Takes in, of what an entry said, since when each settling may be under way.
    pub(super) fn count_from(&mut self, vehicle: &Vehicle, entry: &Entry) {
        let said: Vec<_> = self.beliefs.iter().map(Belief::said).collect();
        let known = |variable: VariableId| self.beliefs.get(variable)?.known.as_ref();
        for (held, one) in self.held.iter_mut().zip(&vehicle.settlings) {
            let its_own = known(one.variable);
            if its_own.is_some_and(|known| known.seq == entry.seq) {
                *held = Held::NEVER;
            }
            let told =
                its_own.is_some() || one.during.iter().any(|it| known(it.variable).is_some());
            let may = told && one.during.iter().all(|literal| may_hold(&said, literal));
            held.go_on(may, &entry.said.at);
        }
    }

    /// What was last told of some literals' variables, for what nobody has said anything of.
    fn last_told(&self, literals: &[Literal]) -> Option<Known> {
        let known = literals.iter().filter_map(|one| self.belief(one.variable)?.known.as_ref());
        let last = known.max_by_key(|known| known.seq)?;
        Some(Known { how: How::Assumed, began: false, said: None, settled: None, ..last.clone() })
    }
}

impl Belief {
    /// The settings that were said, whatever has settled since.
    #[must_use]
    pub fn said(&self) -> Settings {
        self.known.as_ref().and_then(|known| known.said).unwrap_or(self.settings)
    }

    fn settle(&mut self, number: usize, one: &Settling, held_ms: Option<i64>, known: Known) {
        let said = self.said();
        if !said.meets(one.from) || held_ms.is_some_and(|held_ms| held_ms < one.after_ms) {
            return;
        }
        let over =
            one.latest_ms.is_some_and(|latest_ms| held_ms.is_some_and(|held| held >= latest_ms));
        let gone = if over { one.from.minus(one.adds) } else { Settings::NONE };
        if one.adds.is_within(said) && gone.is_empty() {
            return;
        }
        // However often this is worked out, the last of those that add something is named.
        let settled = known.settled.max(Some(number));
        self.settings = self.settings.or(one.adds).minus(gone);
        self.known = Some(Known { how: How::Settled, said: Some(said), settled, ..known });
    }
}
