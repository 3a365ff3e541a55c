//! When: the phone's two clocks, as one argument.

use stowfast_core::clock::{Monotonic, Stamp};

/// An instant as the phone tells it.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct Moment {
    /// The wall clock. Unit: ms since 1970-01-01 UTC.
    pub utc_ms: i64,
    /// The clock that nobody can set. Unit: ms since the phone started.
    pub monotonic_ms: Option<i64>,
    /// Names this start of the phone. Both clocks count only together.
    pub boot_id: Option<String>,
}

impl From<Moment> for Stamp {
    fn from(Moment { utc_ms, monotonic_ms, boot_id }: Moment) -> Self {
        let monotonic = monotonic_ms.zip(boot_id).map(|(ms, boot)| Monotonic { ms, boot });
        Self { utc_ms, monotonic }
    }
}
