//! How fast a reserve is used: as its readings show, or else as people say of themselves.

use super::MS_PER_DAY;
use crate::catalogue::Habit;
use crate::engine::loaded::Loaded;
use crate::engine::words::Words;
use crate::reserve::lasting::{Missing, Used};
use crate::reserve::water::{PerDay, Unsaid, cassette, fresh, total, waste};
use crate::vehicle::Gauge;

/// How fast a reserve is used, and on what that rests.
pub(in crate::engine) struct Rate {
    pub(in crate::engine) used: Used,
    /// Use by use, where it is by what people said; empty where it is by readings.
    uses: Vec<PerDay>,
}

impl Rate {
    pub(in crate::engine) fn by_readings(&self) -> bool {
        self.uses.is_empty()
    }

    /// On what it rests, in words.
    pub(in crate::engine) fn text(&self, words: &Words) -> String {
        if self.by_readings() {
            return words.say("reserve.rests.readings", &[]);
        }
        let some: Vec<_> = self.uses.iter().filter(|one| one.upper_ml > 0).collect();
        let said = some.iter().enumerate().map(|(number, one)| {
            let what = words.say(&format!("reserve.use.{}", key(one)), &[]);
            let last = number.saturating_add(1) == some.len();
            words.much(&what, one.lower_ml, one.upper_ml, last)
        });
        let what = said.collect::<Vec<_>>().join(", ");
        words.say("reserve.rests.habits", &[("what", &what)])
    }
}

fn key(one: &PerDay) -> &'static str {
    use crate::reserve::water::Use;
    match one.of {
        Use::Drink => "drink",
        Use::Cook => "cook",
        Use::Wash => "wash",
        Use::Shower => "shower",
        Use::Flush => "flush",
        Use::Body => "body",
    }
}

/// The figure that says what was not said.
fn figure(unsaid: Unsaid) -> &'static str {
    match unsaid {
        Unsaid::People => "people",
        Unsaid::Showers => "showers_a_day",
        Unsaid::Shower => "shower_l",
        Unsaid::Flushes => "flushes_a_day",
        Unsaid::Flush => "flush_l",
    }
}

impl Loaded {
    /// How fast a reserve is used, or else everything that is missing for telling it: its own readings
    /// go before what people say of themselves.
    pub(super) fn rate(
        &self,
        words: &Words,
        gauge: &Gauge,
        measured: Result<Used, Missing>,
    ) -> (Option<Rate>, Vec<String>) {
        let why = match measured {
            Ok(used) => return (Some(Rate { used, uses: Vec::new() }), Vec::new()),
            Err(why) => missing_text(words, why),
        };
        match self.by_habit(gauge) {
            None => (None, vec![why]),
            Some(Ok(uses)) => {
                let (lower, upper) = total(&uses);
                (Some(Rate { used: Used { lower, upper, over_ms: MS_PER_DAY }, uses }), Vec::new())
            }
            Some(Err(unsaid)) => {
                let titles = unsaid.into_iter().map(|one| words.figure_title(figure(one)));
                let what = titles.collect::<Vec<_>>().join(", ");
                (None, vec![why, words.say("reserve.missing.habits", &[("what", &what)])])
            }
        }
    }

    /// What people use of it, by what they say; `None` where habits say nothing of it. Of several tanks
    /// that share a use any may have all of it or none.
    pub(in crate::engine) fn by_habit(
        &self,
        gauge: &Gauge,
    ) -> Option<Result<Vec<PerDay>, Vec<Unsaid>>> {
        let habit = gauge.used_by?;
        let all = self.vehicle.fittings.iter().filter_map(|one| one.gauge.as_ref());
        let shared = all.filter(|one| one.used_by == Some(habit)).count() > 1;
        let habits = self.habits();
        let uses = match habit {
            Habit::Fresh => fresh(&habits),
            Habit::Waste => waste(&habits),
            Habit::Cassette => cassette(&habits),
        };
        let part = |one: PerDay| PerDay { lower_ml: if shared { 0 } else { one.lower_ml }, ..one };
        Some(uses.map(|uses| uses.into_iter().map(part).collect()))
    }
}

fn missing_text(words: &Words, why: Missing) -> String {
    let say =
        |key: &str, time: &str| words.say(&format!("reserve.missing.{key}"), &[("time", time)]);
    match why {
        Missing::Reading => say("reading", ""),
        Missing::Second => say("second", ""),
        Missing::Clock => say("clock", ""),
        Missing::Time { over_ms } => say("time", &words.time(over_ms)),
        Missing::Use => say("use", ""),
    }
}
