//! How fast a reserve is used, and how long it lasts: a plain average of what was read.
//!
//! # Model
//! Use is taken as steady. Everything is an interval: a lamp gives the stretch between two
//! thresholds, a needle its reading give or take the gauge's error. Within one *filling* (from one
//! filling, emptying or charging to the next) what was used lies between what the first reading
//! allows at least and the last at most, and the other way round; the sum over all fillings, over
//! the time that they cover, is the average. No decimal is made up: whole numbers, rounded outward,
//! so that for steady use the true rate and the true time lie within what is told.
//!
//! A rise of what is left starts a new filling, however small, and so does [`Told::Anew`]: nothing
//! is counted across either. Where the time between two readings cannot be told (the clock ran back,
//! the device was started anew) nothing is counted across it.
//!
//! # Units
//! Amounts: whole small units of the caller's choice (mL, tenths of a per cent), as *what is left*
//! until the end; below 0 beyond it. Times: ms.
//!
//! # Source
//! Definition (mass balance). That an average of days past tells the days to come: common practice,
//! no source. What may differ from it (guests, heat, a cloudy week) is in no band here.

use crate::clock::Stamp;

/// The least time that an average is made of: a night and a day, short of some hours.
///
/// # Units
/// ms.
///
/// # Source
/// Common practice, no source: water is used by day and heat by night.
pub const SPAN_MIN_MS: i64 = 20 * 3_600_000;

/// What was seen to be left, as far as the gauge tells.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Seen {
    /// When.
    pub at: Stamp,
    /// The least that was left.
    pub lower: i64,
    /// The most.
    pub upper: i64,
}

/// What the log tells of a reserve, in its order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Told {
    /// So much is left.
    Seen(Seen),
    /// It was filled, emptied or charged.
    Anew,
    /// The clock changed: how long ago anything was before can no longer be told.
    Clock,
}

/// How much was used, and in which time: the average rate is one over the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Used {
    /// The least that was used, ≥ 0.
    pub lower: i64,
    /// The most, > 0.
    pub upper: i64,
    /// In which time, ≥ [`SPAN_MIN_MS`].
    pub over_ms: i64,
}

/// Why there is no average.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Missing {
    /// Nothing was seen yet.
    Reading,
    /// No filling was seen twice.
    Second,
    /// The clock changed between each two.
    Clock,
    /// They lie too close together.
    Time {
        /// How much time they cover.
        over_ms: i64,
    },
    /// Nothing was used, as far as they tell.
    Use,
}

/// How long a reserve lasts from now on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Lasting {
    /// The least time, rounded down; 0 where it may have come to its end already.
    pub lower_ms: i64,
    /// The most, rounded up; `None` where nothing says that it ends at all.
    pub upper_ms: Option<i64>,
}

/// What everything told gives.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Account {
    /// The average, or what is missing for one.
    pub used: Result<Used, Missing>,
    /// Somewhere between two sightings the clock changed, so that they do not count together.
    pub clock_changed: bool,
    /// The last sighting.
    pub last: Option<Seen>,
}

/// The average use that the log tells.
///
/// Sightings of one instant are taken together: what all allow or, where they contradict each
/// other, what any does; so their order is of no matter.
///
/// # Example
/// ```
/// use stowfast_core::clock::Stamp;
/// use stowfast_core::reserve::lasting::{Seen, Told, account, lasting};
///
/// const DAY_MS: i64 = 86_400_000;
/// let seen = |day: i64, lower, upper| Seen { at: Stamp::utc(day * DAY_MS), lower, upper };
/// let told = [seen(0, 60_000, 70_000), seen(1, 50_000, 55_000)].map(Told::Seen);
/// let account = account(&told);
/// let used = account.used.unwrap();
/// assert_eq!((used.lower, used.upper, used.over_ms), (5_000, 20_000, DAY_MS));
/// let left = lasting(&used, &account.last.unwrap(), &Stamp::utc(DAY_MS)).unwrap();
/// assert_eq!(left.lower_ms, 5 * DAY_MS / 2);
/// assert_eq!(left.upper_ms, Some(11 * DAY_MS));
/// ```
#[must_use]
pub fn account(told: &[Told]) -> Account {
    let (moments, clock_changed) = moments(told);
    let mut sum = Sum::default();
    let mut filling: Option<Filling> = None;
    for moment in &moments {
        let (lower, upper) = moment.ends();
        match (&mut filling, moment.since_ms) {
            (Some(known), Some(ms)) if known.may_go_on(lower, upper) => {
                known.go_on(lower, upper, ms);
            }
            (known, _) => sum.add(known.replace(Filling::new(lower, upper))),
        }
    }
    sum.add(filling);
    let last = moments.last().map(|moment| {
        let (lower, upper) = moment.ends();
        Seen { at: moment.at.clone(), lower, upper }
    });
    let used = match sum {
        _ if moments.is_empty() => Err(Missing::Reading),
        Sum { over_ms: 0, .. } if clock_changed => Err(Missing::Clock),
        Sum { over_ms: 0, .. } => Err(Missing::Second),
        Sum { over_ms, .. } if over_ms < SPAN_MIN_MS => Err(Missing::Time { over_ms }),
        Sum { upper: 0, .. } => Err(Missing::Use),
        Sum { lower, upper, over_ms } => Ok(Used { lower, upper, over_ms }),
    };
    Account { used, clock_changed, last }
}

/// How long what was `last` seen still lasts at `now`, used as before; `None` where it cannot be
/// told how long ago that was. Falls as more is used, and rises with what is left.
#[must_use]
pub fn lasting(used: &Used, last: &Seen, now: &Stamp) -> Option<Lasting> {
    let age_ms = last.at.age_ms(now)?;
    let lower_ms = share(last.lower.max(0), used.over_ms, used.upper, false).unwrap_or(0);
    let upper_ms = share(last.upper.max(0), used.over_ms, used.lower, true);
    let from_now = |ms: i64| ms.saturating_sub(age_ms).max(0);
    Some(Lasting { lower_ms: from_now(lower_ms), upper_ms: upper_ms.map(from_now) })
}

impl Used {
    /// The average of so much time, rounded outward: the least and the most.
    ///
    /// # Units
    /// `ms`: ms. The result: the unit of the amounts.
    #[must_use]
    pub fn in_ms(&self, ms: i64) -> (i64, i64) {
        let lower = share(self.lower, ms, self.over_ms, false).unwrap_or(0);
        (lower, share(self.upper, ms, self.over_ms, true).unwrap_or(i64::MAX))
    }
}

/// `amount × by / of`, all ≥ 0, rounded `up` or down; `None` where `of` is 0.
fn share(amount: i64, by: i64, of: i64, up: bool) -> Option<i64> {
    let product = i128::from(amount).saturating_mul(i128::from(by));
    let of = i128::from(of);
    let rest = product.checked_rem_euclid(of)?;
    let whole = product.checked_div_euclid(of)?;
    let whole = whole.saturating_add(i128::from(up && rest > 0));
    Some(i64::try_from(whole).unwrap_or(i64::MAX))
}

/// All that was seen at one instant.
struct Moment {
    at: Stamp,
    /// How long after the moment before, where both may be of one filling.
    since_ms: Option<i64>,
    /// What all sightings allow; crossed where they contradict each other.
    all: (i64, i64),
    /// What any allows.
    any: (i64, i64),
}

impl Moment {
    fn ends(&self) -> (i64, i64) {
        if self.all.0 <= self.all.1 { self.all } else { self.any }
    }
}

/// The moments of a log, and whether the clock changed between two of them.
fn moments(told: &[Told]) -> (Vec<Moment>, bool) {
    let mut moments: Vec<Moment> = Vec::new();
    let (mut clock_changed, mut anew) = (false, false);
    for told in told {
        let seen = match told {
            Told::Seen(seen) => seen,
            Told::Anew => {
                anew = true;
                continue;
            }
            Told::Clock => {
                for moment in &mut moments {
                    moment.at = Stamp::unknown();
                }
                continue;
            }
        };
        let ends = (seen.lower.min(seen.upper), seen.upper.max(seen.lower));
        let before = moments.last_mut();
        let age_ms = before.as_ref().map(|last| last.at.age_ms(&seen.at));
        clock_changed |= age_ms == Some(None) && !anew;
        let since_ms = age_ms.flatten().filter(|_| !anew);
        match before {
            Some(last) if since_ms == Some(0) => {
                last.all = (last.all.0.max(ends.0), last.all.1.min(ends.1));
                last.any = (last.any.0.min(ends.0), last.any.1.max(ends.1));
            }
            Some(_) | None => {
                moments.push(Moment { at: seen.at.clone(), since_ms, all: ends, any: ends });
            }
        }
        anew = false;
    }
    (moments, clock_changed)
}

/// One filling, as far as it was seen.
struct Filling {
    /// The most that was left at its first moment.
    first_upper: i64,
    /// What was left then is at least what any later moment shows.
    first_lower: i64,
    /// What is left in the end is at most what any earlier moment shows.
    last_upper: i64,
    /// The least that was left at its last moment.
    last_lower: i64,
    /// Twice the middle of the last moment.
    middle: i64,
    over_ms: i64,
}

impl Filling {
    fn new(lower: i64, upper: i64) -> Self {
        Self {
            first_upper: upper,
            first_lower: lower,
            last_upper: upper,
            last_lower: lower,
            middle: lower.saturating_add(upper),
            over_ms: 0,
        }
    }

    /// What is left did not rise, and there was something to use: at its end nothing runs any more.
    fn may_go_on(&self, lower: i64, upper: i64) -> bool {
        lower.saturating_add(upper) <= self.middle && self.last_upper > 0
    }

    fn go_on(&mut self, lower: i64, upper: i64, ms: i64) {
        self.first_lower = self.first_lower.max(lower);
        self.last_upper = self.last_upper.min(upper);
        self.last_lower = lower;
        self.middle = lower.saturating_add(upper);
        self.over_ms = self.over_ms.saturating_add(ms);
    }
}

/// What all fillings come to.
#[derive(Default)]
struct Sum {
    lower: i64,
    upper: i64,
    over_ms: i64,
}

impl Sum {
    fn add(&mut self, filling: Option<Filling>) {
        let Some(filling) = filling.filter(|known| known.over_ms > 0) else { return };
        let least = filling.first_lower.saturating_sub(filling.last_upper).max(0);
        let most = filling.first_upper.saturating_sub(filling.last_lower).max(0);
        self.lower = self.lower.saturating_add(least);
        self.upper = self.upper.saturating_add(most);
        self.over_ms = self.over_ms.saturating_add(filling.over_ms);
    }
}
