//! A stay without services: whether a reserve holds for it, and what to take on before.
//!
//! # Model
//! Use is steady, between the two ends of its rate. Every answer is rounded to the safe side: what is
//! needed up, what holds down.

use serde::Serialize;

/// Whether a reserve holds for a stay.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Holds {
    /// It ends before the stay does, however little is used.
    No,
    /// It depends on what is used, or on what there really is.
    Perhaps,
    /// It holds, however much is used.
    Yes,
}

/// Whether what is `left` holds for what is `used`.
///
/// # Units
/// The least and the most of each, in one unit.
#[must_use]
pub fn holds(left: (i64, i64), used: (i64, i64)) -> Holds {
    match () {
        () if left.0 >= used.1 => Holds::Yes,
        () if left.1 < used.0 => Holds::No,
        () => Holds::Perhaps,
    }
}

/// What to take on before a stay.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Fill {
    /// What the stay uses, the least and the most.
    pub used: (i64, i64),
    /// What has to go in: nothing, where the least is enough; never more than there is room for.
    pub add: (i64, i64),
    /// How much there is room for.
    pub room: (i64, i64),
    /// To what level it is filled so that it holds for certain: the brim, where even that may not do.
    pub to: i64,
    /// Whether a full tank holds.
    pub full_holds: Holds,
}

/// What to take on so that a tank holds for a stay.
///
/// # Units
/// One unit (mL). `level`: what is in the tank, the least and the most, 0 to `capacity`. `end`: what
/// cannot be used, 0 to `capacity`. `used`: what the stay uses.
///
/// # Example
/// ```
/// use stowfast_core::reserve::water::{Holds, fill};
///
/// let plan = fill((20_000, 30_000), 2_000, 100_000, (30_000, 60_000));
/// assert_eq!(plan.add, (2_000, 42_000));
/// assert_eq!(plan.to, 62_000);
/// assert_eq!(plan.full_holds, Holds::Yes);
/// ```
#[must_use]
pub fn fill(level: (i64, i64), end: i64, capacity: i64, used: (i64, i64)) -> Fill {
    let capacity = capacity.max(0);
    let end = end.clamp(0, capacity);
    let level = (level.0.clamp(0, capacity), level.1.clamp(0, capacity));
    let room = (capacity.saturating_sub(level.1), capacity.saturating_sub(level.0));
    let to = |used: i64| if used == 0 { 0 } else { used.saturating_add(end).min(capacity) };
    let lacks = |used: i64, level: i64| to(used).saturating_sub(level).max(0);
    let usable = capacity.saturating_sub(end);
    Fill {
        used,
        add: (lacks(used.0, level.1), lacks(used.1, level.0)),
        room,
        to: to(used.1),
        full_holds: holds((usable, usable), used),
    }
}
