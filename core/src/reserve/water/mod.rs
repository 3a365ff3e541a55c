//! Water, waste and cassette ahead: what people use in a day, and what a stay without services asks
//! for.
//!
//! # Units
//! Amounts: mL, both ends of an interval possible. Rates: mL per day. Times: ms.

mod habit;
mod stay;
#[cfg(test)]
mod tests;

pub use habit::{Habits, PerDay, Unsaid, Use, cassette, fresh, total, waste};
pub use stay::{Fill, Holds, fill, holds};
