//! Rows of what is forecast to run out or to be full soon.

use serde::Serialize;

/// Something to fill or empty soon.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReminderRow {
    /// Names its gauge to the engine.
    pub id: String,
    /// What to do.
    pub do_text: String,
    /// By when; `None` for now. Unit: ms since 1970-01-01 UTC.
    pub by_utc_ms: Option<i64>,
    /// What that rests on.
    pub about_text: String,
}

/// How long before to remind.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RemindChoice {
    /// So many hours; 0 for never.
    pub hours: i64,
    /// The same in words.
    pub text: String,
    /// It is so now.
    pub chosen: bool,
}
