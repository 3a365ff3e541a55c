//! What runs when, so that everything wanted is done by its time and the supply is never asked for more
//! than its limit.
//!
//! # Model
//! Each appliance draws so much for so many ticks, between its earliest and its latest tick, in one go;
//! one that may pause can be switched off once and on again. What is always on is taken off the limit
//! beforehand. Of all ways in which everything is done, one with the fewest pauses is meant, and of
//! those one that ends first. Where there is none, as few appliances as can be are left out, of as many
//! those that need the least charge, and of the same charge those that were named last.
//!
//! The answer hangs on no clock: the search counts its work, and says where it came to the end of it.
//!
//! # Units
//! Ticks of one length, the caller's choice. Milliamperes.
//!
//! # Source
//! Definition. Bounds: energetic reasoning with dual feasible functions, Carlier and Néron, European
//! Journal of Operational Research 149(2), 2003.
//!
//! # Error band
//! None: whole numbers. `proven` and `soonest` say whether nothing better exists. What is left out and
//! paused matters more to whoever waits than the last five minutes, so less work goes into those.

mod bound;
mod search;
#[cfg(test)]
mod tests;

use serde::Serialize;

use bound::{Cores, soonest, unbound};
use search::{Found, Work, run};

/// How many appliances can be shared out at once.
pub const JOBS_MAX: usize = 16;
/// How often in all something is switched off and on again later: nobody is sent to the switches more
/// often for that. Common practice, no source.
pub const PAUSES_MAX: u32 = 2;
/// The last tick that a job may name.
pub const TICKS_MAX: u32 = 100_000;

/// An appliance that is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Job {
    /// Which one; different for each.
    pub id: u32,
    /// What it draws. Unit: mA.
    pub draw_ma: u32,
    /// For how long. Unit: ticks.
    pub ticks: u32,
    /// Not before this tick.
    pub earliest: u32,
    /// Done when this tick begins.
    pub latest: u32,
    /// It may be switched off once and on again.
    pub pauses: bool,
}

impl Job {
    /// Unit: mA times ticks.
    fn charge(&self) -> u64 {
        u64::from(self.draw_ma).saturating_mul(u64::from(self.ticks))
    }
}

/// A stretch of time in which an appliance runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Piece {
    /// From this tick on.
    pub from: u32,
    /// Until this tick begins.
    pub to: u32,
    /// Which appliance.
    pub id: u32,
}

/// Why an appliance is left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Why {
    /// It draws more than the limit by itself.
    TooMuch,
    /// It needs longer than there is.
    TooLong,
    /// With it not everything else could be done.
    NoRoom,
}

/// What runs when.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Day {
    /// In the order in which they begin.
    pub pieces: Vec<Piece>,
    /// What is left out, by `id`.
    pub left: Vec<(u32, Why)>,
    /// How often something is switched off and on again later.
    pub pauses: u32,
    /// When the last one is done. Unit: ticks.
    pub ends: u32,
    /// No less can be left out, with no fewer pauses; else the search came to the end of its work.
    pub proven: bool,
    /// So done, nothing ends sooner.
    pub soonest: bool,
}

/// What runs when; the order of `jobs` does not matter. `None` for more than [`JOBS_MAX`] of them, or a
/// tick beyond [`TICKS_MAX`].
///
/// # Units
/// `limit_ma`: mA, what is always on taken off.
///
/// # Example
/// ```
/// use stowfast_core::reckon::supply::schedule::{Job, plan};
///
/// let job = |id, draw_ma| Job { id, draw_ma, ticks: 2, earliest: 0, latest: 4, pauses: false };
/// let day = plan(6_000, &[job(1, 4_000), job(2, 3_000)]).unwrap();
/// assert_eq!((day.left.len(), day.ends), (0, 4));
/// ```
#[must_use]
pub fn plan(limit_ma: u32, jobs: &[Job]) -> Option<Day> {
    if jobs.len() > JOBS_MAX || jobs.iter().any(|job| job.latest > TICKS_MAX) {
        return None;
    }
    let mut left: Vec<(u32, Why)> = Vec::new();
    let mut able: Vec<Job> = Vec::new();
    for job in jobs.iter().filter(|job| job.ticks > 0) {
        match () {
            () if job.draw_ma > limit_ma => left.push((job.id, Why::TooMuch)),
            () if job.earliest.saturating_add(job.ticks) > job.latest => {
                left.push((job.id, Why::TooLong));
            }
            () => able.push(*job),
        }
    }
    able.sort_by_key(|job| (job.latest, std::cmp::Reverse(job.charge()), job.id));
    let mut work = Work::new();
    let (kept, found) = most(limit_ma, &able, &mut work);
    let without = able.iter().enumerate().filter(|(at, _)| kept & bit(*at) == 0);
    left.extend(without.map(|(_, job)| (job.id, Why::NoRoom)));
    left.sort_unstable_by_key(|(id, _)| *id);
    let mut pieces = found.pieces;
    pieces.sort_unstable();
    let ends = pieces.iter().map(|piece| piece.to).max().unwrap_or(0);
    let proven = !work.fell_short();
    let soonest = proven && !found.sooner_untried;
    Some(Day { pieces, left, pauses: found.pauses, ends, proven, soonest })
}

/// The set of one.
fn bit(at: usize) -> u32 {
    u32::try_from(at).ok().and_then(|at| 1_u32.checked_shl(at)).unwrap_or(0)
}

/// The members of a set, as numbers.
fn members(set: u32) -> impl Iterator<Item = usize> {
    std::iter::successors(Some(set), |rest| Some(rest & rest.wrapping_sub(1)))
        .take_while(|rest| *rest != 0)
        .filter_map(|rest| usize::try_from(rest.trailing_zeros()).ok())
}

/// The jobs of a set.
fn of(jobs: &[Job], set: u32) -> Vec<Job> {
    members(set).filter_map(|at| jobs.get(at).copied()).collect()
}

/// As many as can be done, and how. What is left out is tried from the fewest and smallest on, so the
/// first that works is the one that is meant.
fn most(limit_ma: u32, jobs: &[Job], work: &mut Work) -> (u32, Found) {
    let all = bit(jobs.len()).wrapping_sub(1);
    let mut cores = Cores::of(limit_ma, jobs);
    for count in 0..=all.count_ones() {
        for without in least_first(jobs, all, count) {
            let kept = all & !without;
            if cores.forbid(kept) {
                continue;
            }
            work.go_on();
            if let Some(found) = done(limit_ma, &of(jobs, kept), work) {
                return (kept, found);
            }
            cores.add(kept);
        }
    }
    (0, Found::default())
}

/// All sets of so many, those first that are missed least.
fn least_first(jobs: &[Job], all: u32, count: u32) -> Vec<u32> {
    let mut sets: Vec<u32> = (0..=all).filter(|set| set.count_ones() == count).collect();
    sets.sort_by_cached_key(|set| {
        let mut ids: Vec<u32> = of(jobs, *set).iter().map(|job| job.id).collect();
        ids.sort_unstable_by(|one, other| other.cmp(one));
        let charge = of(jobs, *set).iter().map(Job::charge).fold(0, u64::saturating_add);
        (charge, std::cmp::Reverse(ids))
    });
    sets
}

/// How all of them are done, if they can be: the fewest pauses, then the earliest end.
fn done(limit_ma: u32, jobs: &[Job], work: &mut Work) -> Option<Found> {
    let (free, bound) = unbound(limit_ma, jobs);
    let at_once = |job: &Job| {
        let to = job.earliest.saturating_add(job.ticks);
        Piece { from: job.earliest, to, id: job.id }
    };
    let pieces: Vec<Piece> = free.iter().map(at_once).collect();
    let ends = pieces.iter().map(|piece| piece.to).max().unwrap_or(0);
    let ends = ends.max(soonest(limit_ma, &bound));
    for pauses in 0..=PAUSES_MAX {
        let ran = run(limit_ma, &bound, pauses, ends, work);
        if let Some(found) = ran.found {
            let pieces = found.pieces.into_iter().chain(pieces).collect();
            return Some(Found { pieces, ..found });
        }
        if !ran.more_pauses_might_do {
            return None;
        }
    }
    None
}
