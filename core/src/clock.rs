//! Time as an argument: nothing below the binary and the phone reads a clock.

mod named;

use serde::{Deserialize, Serialize};

pub use named::named;

/// Milliseconds since the device started, and which start that was.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Monotonic {
    /// Milliseconds since `boot`, never running back. Unit: ms, ≥ 0.
    pub ms: i64,
    /// Names one start of the device; two readings compare only within one.
    pub boot: String,
}

/// An instant as the platform tells it.
///
/// # Units
/// `utc_ms`: milliseconds since 1970-01-01 UTC.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stamp {
    /// Wall clock, which the owner or the network may set back or forward.
    pub utc_ms: i64,
    /// The clock that nobody can set, where the platform has one.
    pub monotonic: Option<Monotonic>,
}

impl Stamp {
    /// An instant known by its wall clock alone.
    #[must_use]
    pub fn utc(utc_ms: i64) -> Self {
        Self { utc_ms, monotonic: None }
    }

    /// An instant that is not known: nobody can say how long ago it was.
    #[must_use]
    pub fn unknown() -> Self {
        Self::utc(i64::MAX)
    }

    /// How long ago `self` was at `now`, or `None` where that cannot be known: the device was
    /// started anew between the two, or the wall clock ran back.
    ///
    /// # Units
    /// Milliseconds, ≥ 0.
    #[must_use]
    pub fn age_ms(&self, now: &Self) -> Option<i64> {
        let age_ms = match (&self.monotonic, &now.monotonic) {
            (Some(then), Some(now)) if then.boot == now.boot => now.ms.saturating_sub(then.ms),
            (Some(_), Some(_)) => return None,
            (None, _) | (_, None) => now.utc_ms.saturating_sub(self.utc_ms),
        };
        (age_ms >= 0 && self.utc_ms != i64::MAX).then_some(age_ms)
    }
}

impl Stamp {
    /// The least that `self`, said earlier, lies back at `now`: what came before the device's present
    /// start is older than that. 0 where nothing can be said.
    ///
    /// # Units
    /// Milliseconds, ≥ 0.
    #[must_use]
    pub fn least_age_ms(&self, now: &Self) -> i64 {
        match (&self.monotonic, &now.monotonic) {
            (Some(then), Some(now)) if then.boot != now.boot => now.ms.max(0),
            (Some(_), Some(_)) => self.age_ms(now).unwrap_or(0),
            (None, _) | (_, None) => 0,
        }
    }

    /// The instant that was `ms` earlier; by the wall clock alone where the device had not started.
    #[must_use]
    pub fn earlier(&self, ms: i64) -> Self {
        let since_start = self.monotonic.as_ref().filter(|known| known.ms >= ms);
        let monotonic = since_start
            .map(|known| Monotonic { ms: known.ms.saturating_sub(ms), boot: known.boot.clone() });
        Self { utc_ms: self.utc_ms.saturating_sub(ms), monotonic }
    }
}
