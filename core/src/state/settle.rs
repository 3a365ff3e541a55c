//! What time and temperature may have changed since somebody last said how it is.
//!
//! From its earliest on a settling only adds settings. At its latest it takes the old ones away,
//! but only where no danger clause hangs on the variable (the catalogue's check sees to that), so
//! that what has settled never makes a danger clause off. It never counts as looked.
//!
//! Everything is worked out from what was *said*, never from what has settled: so it does not
//! matter how often, nor at which moments in between, this is done.

use super::{Belief, How, Known, State};
use crate::clock::Stamp;
use crate::interlock::may_hold;
use crate::vehicle::{Literal, Settings, Settling, Vehicle};

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
        let said: Vec<_> = self.beliefs.iter().map(Belief::said).collect();
        for (number, one) in vehicle.settlings.iter().enumerate() {
            if !one.during.iter().all(|literal| may_hold(&said, literal)) {
                continue;
            }
            let told = self.last_told(&one.during);
            let clock_changed = self.clock_changed(now);
            if let Some(belief) = self.beliefs.get_mut(one.variable) {
                let known = belief.known.clone().or(told);
                // An age that cannot be told is past the earliest, and never past the latest.
                let age_ms = |known: &Known| known.at.age_ms(now).filter(|_| !clock_changed);
                if let Some(known) = known {
                    belief.settle(number, one, age_ms(&known), known);
                }
            }
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

    fn settle(&mut self, number: usize, one: &Settling, age_ms: Option<i64>, known: Known) {
        let said = self.said();
        if !said.meets(one.from) || age_ms.is_some_and(|age_ms| age_ms < one.after_ms) {
            return;
        }
        let over =
            one.latest_ms.is_some_and(|latest_ms| age_ms.is_some_and(|age| age >= latest_ms));
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
