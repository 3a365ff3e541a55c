//! By which clock whoever types names times, and reads them.

use chrono::{DateTime, FixedOffset, Local};
use stowfast_core::Result;
use stowfast_core::clock::{self, Stamp};

#[derive(Debug, Clone, Copy)]
pub(crate) enum Zone {
    /// That of this machine.
    Here,
    /// That of the moment that was given.
    Given(FixedOffset),
}

impl Zone {
    /// An instant as the clock shows it. `utc_ms`: ms since 1970-01-01 UTC.
    pub(crate) fn local(self, utc_ms: i64) -> DateTime<FixedOffset> {
        let at = DateTime::from_timestamp_millis(utc_ms).unwrap_or_default();
        match self {
            Self::Here => at.with_timezone(&Local).fixed_offset(),
            Self::Given(offset) => at.with_timezone(&offset),
        }
    }

    /// As [`clock::named`]. Unit: ms since 1970-01-01 UTC.
    pub(crate) fn named(self, text: &str, now: &Stamp) -> Result<i64> {
        match self {
            Self::Here => clock::named(text, &Local, now.utc_ms),
            Self::Given(offset) => clock::named(text, &offset, now.utc_ms),
        }
    }
}

/// The moment that `--now` names, and its zone.
pub(crate) fn given(text: &str) -> std::result::Result<(Stamp, Zone), lexopt::Error> {
    let expected = || format!("--now: expected a time like 2026-07-14T08:00:00Z, not `{text}`");
    let at = DateTime::parse_from_rfc3339(text).map_err(|_| expected())?;
    Ok((Stamp::utc(at.timestamp_millis()), Zone::Given(*at.offset())))
}
