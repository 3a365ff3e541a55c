//! How fast a reserve is used: as its readings show, or else as people told.

use super::MS_PER_DAY;
use super::uses::{ADay, Told, sum};
use crate::engine::words::Words;
use crate::reserve::Amount;
use crate::reserve::lasting::{Missing, Used};
use crate::vehicle::Gauge;

/// How fast a reserve is used, and on what that rests.
pub(in crate::engine) struct Rate {
    pub(in crate::engine) used: Used,
    /// Use by use, where it is by what people said; empty where it is by readings.
    uses: Vec<ADay>,
    amount: Amount,
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
        let some: Vec<_> = self.uses.iter().filter(|one| one.upper > 0).collect();
        let said = some.iter().enumerate().map(|(number, one)| {
            let what = words.say(&format!("reserve.use.{}", one.what), &[]);
            let last = number.saturating_add(1) == some.len();
            words.much(&what, (self.amount, one.lower, one.upper), last)
        });
        let what = said.collect::<Vec<_>>().join(", ");
        words.say("reserve.rests.habits", &[("what", &what)])
    }
}

/// How fast a reserve is used, or else everything that is missing for telling it: its own readings go before
/// what people say.
pub(super) fn rate(
    words: &Words,
    gauge: &Gauge,
    amount: Amount,
    measured: Result<Used, Missing>,
    told: impl FnOnce() -> Option<Told>,
) -> (Option<Rate>, Vec<String>) {
    let why = match measured {
        Ok(used) => return (Some(Rate { used, uses: Vec::new(), amount }), Vec::new()),
        Err(_) if gauge.driving_only && gauge.used_by_driving => {
            return (None, vec![words.say("reserve.missing.road", &[])]);
        }
        Err(why) => missing_text(words, why),
    };
    match told() {
        None => (None, vec![why]),
        Some(Ok(all)) => {
            let (lower, upper) = sum(&all);
            let used = Used { lower, upper, over_ms: MS_PER_DAY };
            (Some(Rate { used, uses: all, amount }), Vec::new())
        }
        Some(Err(unsaid)) => {
            let what = unsaid.join(", ");
            (None, vec![why, words.say("reserve.missing.habits", &[("what", &what)])])
        }
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
