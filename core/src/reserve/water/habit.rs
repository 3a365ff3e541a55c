//! How much people use in a day, from what they say of their habits.
//!
//! # Model
//! People times a published range for each use, and what they said of showers and of flushing. Every
//! use is an interval, and they add up; nothing that must be said is made up where it was not.
//!
//! All that is washed with ends in the waste tank, and what is cooked with may; what is drunk does
//! not. Everybody on board uses the toilet on board.
//!
//! # Source
//! Drinking and food 2.5 to 3 L, basic hygiene 2 to 6 L, cooking 3 to 6 L, together 7.5 to 15 L per
//! person and day: Sphere handbook 2011, table of basic survival water needs, as on a university's
//! course page. Urine 0.6 to 1.1 L per person and day as a rule, designed for 1.2 L, and 120 g of
//! faeces: WHO, A guide to the development of on-site sanitation, 1992, chapter 5. What a shower and a
//! flush take differs from one vehicle and person to the next: no source, so it is asked for.

use serde::Serialize;

const PER_MILLE: i64 = 1_000;
/// Each person, each day. Unit: mL.
const DRINK_ML: (i64, i64) = (2_500, 3_000);
const WASH_ML: (i64, i64) = (2_000, 6_000);
const COOK_ML: (i64, i64) = (3_000, 6_000);
/// Urine and faeces, at 1 g to the mL.
const EXCRETA_ML: (i64, i64) = (720, 1_320);

/// What people said of themselves; `None` where they did not.
///
/// # Units
/// Times: thousandths of one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Habits {
    /// How many live on board, ≥ 0.
    pub people: Option<i64>,
    /// Showers on board a day, of all together. Unit: thousandths, ≥ 0.
    pub showers_milli: Option<i64>,
    /// What one takes. Unit: mL, ≥ 0.
    pub shower_ml: Option<i64>,
    /// Flushes a day, of each person. Unit: thousandths, ≥ 0.
    pub flushes_milli: Option<i64>,
    /// What one takes. Unit: mL, ≥ 0.
    pub flush_ml: Option<i64>,
    /// The flush takes its water from the fresh tank, not from one of its own (pack).
    pub flush_from_fresh: bool,
}

/// What was not said and has to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Unsaid {
    /// How many live on board.
    People,
    /// How many showers a day.
    Showers,
    /// What one takes.
    Shower,
    /// How many flushes a day.
    Flushes,
    /// What one takes.
    Flush,
}

/// What water is used for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Use {
    /// Drinking, and what goes into food.
    Drink,
    /// Cooking and what it makes dirty.
    Cook,
    /// Washing.
    Wash,
    /// Showers.
    Shower,
    /// Flushing.
    Flush,
    /// What the body gives.
    Body,
}

/// How much one use takes in a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct PerDay {
    /// What for.
    pub of: Use,
    /// The least. Unit: mL, ≥ 0.
    pub lower_ml: i64,
    /// The most.
    pub upper_ml: i64,
}

/// What is taken from the fresh tank in a day, use by use.
///
/// # Errors
/// Everything that was not said and has to be.
///
/// # Example
/// ```
/// use stowfast_core::reserve::water::{Habits, fresh, total};
///
/// let two = Habits { people: Some(2), showers_milli: Some(0), ..Habits::default() };
/// let uses = fresh(&two).unwrap();
/// assert_eq!(total(&uses), (15_000, 30_000));
/// ```
pub fn fresh(habits: &Habits) -> Result<Vec<PerDay>, Vec<Unsaid>> {
    let flushes = if habits.flush_from_fresh { flushes(habits).map(Some) } else { Ok(None) };
    let people = people(habits);
    let (people, showers, flushes) = all(people, showers(habits), flushes)?;
    let own = [(Use::Drink, DRINK_ML), (Use::Cook, COOK_ML), (Use::Wash, WASH_ML)];
    let own = own.map(|(of, each)| for_each(of, people, each));
    Ok(own.into_iter().chain([showers]).chain(flushes).collect())
}

/// What runs into the waste tank in a day, use by use.
///
/// # Errors
/// Everything that was not said and has to be.
pub fn waste(habits: &Habits) -> Result<Vec<PerDay>, Vec<Unsaid>> {
    let (people, showers, ()) = all(people(habits), showers(habits), Ok(()))?;
    let cooked = (0, COOK_ML.1);
    Ok(vec![for_each(Use::Cook, people, cooked), for_each(Use::Wash, people, WASH_ML), showers])
}

/// What comes into the cassette in a day, use by use.
///
/// # Errors
/// Everything that was not said and has to be.
pub fn cassette(habits: &Habits) -> Result<Vec<PerDay>, Vec<Unsaid>> {
    let (people, flushes, ()) = all(people(habits), flushes(habits), Ok(()))?;
    Ok(vec![for_each(Use::Body, people, EXCRETA_ML), flushes])
}

/// What all uses come to.
///
/// # Units
/// The least and the most, mL per day.
#[must_use]
pub fn total(uses: &[PerDay]) -> (i64, i64) {
    let add = |sum: (i64, i64), one: &PerDay| {
        (sum.0.saturating_add(one.lower_ml), sum.1.saturating_add(one.upper_ml))
    };
    uses.iter().fold((0, 0), add)
}

fn people(habits: &Habits) -> Result<i64, Vec<Unsaid>> {
    habits.people.map(|people| people.max(0)).ok_or_else(|| vec![Unsaid::People])
}

fn showers(habits: &Habits) -> Result<PerDay, Vec<Unsaid>> {
    let times = habits.showers_milli.ok_or_else(|| vec![Unsaid::Showers])?;
    times_of(Use::Shower, times, habits.shower_ml).ok_or_else(|| vec![Unsaid::Shower])
}

/// Of everybody together.
fn flushes(habits: &Habits) -> Result<PerDay, Vec<Unsaid>> {
    let people = people(habits);
    let times = habits.flushes_milli.ok_or_else(|| vec![Unsaid::Flushes]);
    let (people, times, ()) = all(people, times, Ok(()))?;
    let times = people.saturating_mul(times);
    times_of(Use::Flush, times, habits.flush_ml).ok_or_else(|| vec![Unsaid::Flush])
}

/// So many times so much; nothing need be said of what is never done.
fn times_of(of: Use, times_milli: i64, each_ml: Option<i64>) -> Option<PerDay> {
    let each_ml = if times_milli == 0 { 0 } else { each_ml? };
    let thousandths = times_milli.max(0).saturating_mul(each_ml.max(0));
    let upper_ml = thousandths.saturating_add(PER_MILLE - 1).div_euclid(PER_MILLE);
    Some(PerDay { of, lower_ml: thousandths.div_euclid(PER_MILLE), upper_ml })
}

fn for_each(of: Use, people: i64, each_ml: (i64, i64)) -> PerDay {
    let lower_ml = people.saturating_mul(each_ml.0);
    PerDay { of, lower_ml, upper_ml: people.saturating_mul(each_ml.1) }
}

/// All three, or everything that is missing of any, said once.
fn all<A, B, C>(
    a: Result<A, Vec<Unsaid>>,
    b: Result<B, Vec<Unsaid>>,
    c: Result<C, Vec<Unsaid>>,
) -> Result<(A, B, C), Vec<Unsaid>> {
    match (a, b, c) {
        (Ok(a), Ok(b), Ok(c)) => Ok((a, b, c)),
        (a, b, c) => {
            let missing = [a.err(), b.err(), c.err()].into_iter().flatten().flatten();
            let mut missing: Vec<_> = missing.collect();
            missing.sort_unstable();
            missing.dedup();
            Err(missing)
        }
    }
}
