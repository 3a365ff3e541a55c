//! What a country or a carrier forbids or allows, as dated rows: one file for each.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

/// How long a row counts. Unit: ms; 365 days.
const COUNTS_MS: i64 = 365 * 86_400_000;

/// The files by name: an ISO 3166-1 code, or `carrier_` and a sort of carrier.
pub type Local = BTreeMap<String, Vec<Row>>;

/// What a row says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Says {
    /// It is allowed.
    Allowed,
    /// Nobody here knows: ask.
    Ask,
    /// It is forbidden.
    Forbidden,
}

/// One rule of one country or carrier.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Row {
    /// The rule, by its id: a variable of `local_rules`, or words alone.
    pub rule: String,
    /// What it says while it counts.
    pub says: Says,
    /// Where it comes from.
    pub source: String,
    /// The day on which it was so, as `2026-07-14`.
    pub date: NaiveDate,
}

/// A file of rows.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct File {
    #[serde(rename = "row")]
    pub(super) rows: Vec<Row>,
}

impl Row {
    /// What it says at `now_ms`: a row that is a year old, or of a day to come, says ask.
    ///
    /// # Units
    /// Milliseconds since 1970-01-01 UTC.
    #[must_use]
    pub fn says_at(&self, now_ms: i64) -> Says {
        let day_ms = self.date.and_time(chrono::NaiveTime::MIN).and_utc().timestamp_millis();
        let counts = (0..COUNTS_MS).contains(&now_ms.saturating_sub(day_ms));
        if counts { self.says } else { Says::Ask }
    }
}

/// What rows say together of a rule: whatever forbids it forbids it, and it is allowed only where
/// every one of them allows it. One that has no row of it says ask.
#[must_use]
pub fn strictest<'a>(files: impl Iterator<Item = &'a [Row]>, rule: &str, now_ms: i64) -> Says {
    let says = |rows: &[Row]| {
        let row = rows.iter().find(|row| row.rule == rule);
        row.map_or(Says::Ask, |row| row.says_at(now_ms))
    };
    files.map(says).max().unwrap_or(Says::Ask)
}
