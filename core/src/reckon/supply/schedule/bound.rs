//! What cannot be done, told at a glance.

use std::collections::BTreeSet;

use super::{JOBS_MAX, Job, bit, members};

/// What each job counts for, and what all together may count for at any tick. Every set of jobs that
/// stays below the limit stays below this one too.
#[derive(PartialEq, Eq)]
pub(super) struct Scale {
    pub(super) weights: Vec<u64>,
    pub(super) limit: u64,
}

/// The draw itself, and dual feasible functions of it: small draws count for nothing and large ones for
/// the whole; or a draw counts for the part of the whole that so many like it leave.
pub(super) fn scales(limit_ma: u32, jobs: &[Job]) -> Vec<Scale> {
    let limit = u64::from(limit_ma);
    let of = |limit: u64, weight: &dyn Fn(u64) -> u64| {
        let weights = jobs.iter().map(|job| weight(u64::from(job.draw_ma))).collect();
        Scale { weights, limit }
    };
    let half = limit.div_euclid(2);
    let mut small: Vec<u64> = jobs.iter().map(|job| u64::from(job.draw_ma)).collect();
    small.retain(|draw| *draw <= half && *draw > 0);
    small.push(half);
    small.sort_unstable();
    small.dedup();
    let cut = small.into_iter().map(|least| {
        of(limit, &|draw| match () {
            () if draw > limit.saturating_sub(least) => limit,
            () if draw < least => 0,
            () => draw,
        })
    });
    let parts = (1..=4_u64).map(|parts| {
        of(limit.saturating_mul(parts), &|draw| {
            let all = draw.saturating_mul(parts.saturating_add(1));
            let whole = all.checked_div(limit).unwrap_or(0).saturating_mul(limit);
            if whole == all { draw.saturating_mul(parts) } else { whole }
        })
    });
    let few = (1..=3).flat_map(|most| few(limit_ma, jobs, most));
    let mut all: Vec<Scale> = Vec::new();
    for scale in cut.chain(parts).chain(few) {
        if !all.contains(&scale) {
            all.push(scale);
        }
    }
    all
}

/// At most so many of some jobs at once: a small one, and those that are large enough beside it.
fn few(limit_ma: u32, jobs: &[Job], most: usize) -> impl Iterator<Item = Scale> {
    let mut order: Vec<(u32, usize)> =
        jobs.iter().enumerate().map(|(at, job)| (job.draw_ma, at)).collect();
    order.sort_unstable();
    let sum =
        |some: &[(u32, usize)]| some.iter().fold(0_u32, |sum, (draw, _)| sum.saturating_add(*draw));
    let with = move |small: usize| {
        let (one, above) = order.get(small..)?.split_first()?;
        let over = |large: &[(u32, usize)]| sum(large).saturating_add(one.0) > limit_ma;
        let from = above.windows(most).position(over)?;
        let mut weights = vec![0; order.len()];
        for (_, at) in above.iter().skip(from).chain([one]) {
            *weights.get_mut(*at)? = 1;
        }
        Some(Scale { weights, limit: u64::try_from(most).unwrap_or(u64::MAX) })
    };
    (0..jobs.len()).filter_map(with)
}

/// Sets of jobs that cannot all be done, whatever else is wanted.
pub(super) struct Cores<'a> {
    jobs: &'a [Job],
    scales: Vec<Scale>,
    known: Vec<u32>,
}

impl<'a> Cores<'a> {
    pub(super) fn of(limit_ma: u32, jobs: &'a [Job]) -> Self {
        Self { jobs, scales: scales(limit_ma, jobs), known: Vec::new() }
    }

    /// This set cannot be done.
    pub(super) fn add(&mut self, set: u32) {
        self.known.push(set);
    }

    /// The set has one in it, known before or found now.
    pub(super) fn forbid(&mut self, set: u32) -> bool {
        if self.known.iter().any(|core| core & !set == 0) {
            return true;
        }
        let core = overfull(&self.scales, self.jobs, set);
        self.known.extend(core);
        core.is_some()
    }
}

/// Jobs of the set that ask for more between two ticks than there is.
fn overfull(scales: &[Scale], jobs: &[Job], set: u32) -> Option<u32> {
    let within: Vec<(usize, &Job)> =
        members(set).filter_map(|at| Some((at, jobs.get(at)?))).collect();
    let ticks =
        |of: fn(&Job) -> u32| within.iter().map(|(_, job)| of(job)).collect::<BTreeSet<_>>();
    let (begins, ends) = (ticks(|job| job.earliest), ticks(|job| job.latest));
    for from in &begins {
        for to in ends.iter().filter(|to| *to > from) {
            let asks = |(at, job): &(usize, &Job)| (*at, must(job, *from, *to));
            let asked: Vec<(usize, u64)> =
                within.iter().map(asks).filter(|(_, ticks)| *ticks > 0).collect();
            let span = u64::from(to.saturating_sub(*from));
            let over = |scale: &Scale| {
                let weight = |at: usize| scale.weights.get(at).copied().unwrap_or(0);
                let sum = asked.iter().map(|(at, ticks)| weight(*at).saturating_mul(*ticks));
                sum.fold(0, u64::saturating_add) > scale.limit.saturating_mul(span)
            };
            if scales.iter().any(over) {
                return Some(asked.iter().fold(0, |core, (at, _)| core | bit(*at)));
            }
        }
    }
    None
}

/// Before this tick they cannot all be done.
pub(super) fn soonest(limit_ma: u32, jobs: &[Job]) -> u32 {
    let alone = jobs.iter().map(|job| job.earliest.saturating_add(job.ticks)).max().unwrap_or(0);
    let by = |tick: u32| -> Vec<Job> {
        jobs.iter().map(|job| Job { latest: job.latest.min(tick), ..*job }).collect()
    };
    let all = bit(jobs.len()).wrapping_sub(1);
    let scales = scales(limit_ma, jobs);
    let latest = jobs.iter().map(|job| job.latest).max().unwrap_or(0);
    let (mut from, mut to) = (alone, latest.max(alone));
    while from < to {
        let half = from.midpoint(to);
        if overfull(&scales, &by(half), all).is_some() {
            from = half.saturating_add(1);
        } else {
            to = half;
        }
    }
    from
}

/// How long a job must run between two ticks, whenever it runs.
fn must(job: &Job, from: u32, to: u32) -> u64 {
    let before = from.saturating_sub(job.earliest);
    let after = job.latest.saturating_sub(to);
    let outside = if job.pauses { before.saturating_add(after) } else { before.max(after) };
    let span = to.saturating_sub(from);
    u64::from(job.ticks.saturating_sub(outside).min(span))
}

/// Those that fit beside whatever runs of the others, and the rest.
pub(super) fn unbound(limit_ma: u32, jobs: &[Job]) -> (Vec<Job>, Vec<Job>) {
    let (mut free, mut rest) = (Vec::new(), jobs.to_vec());
    loop {
        let fits = |job: &&Job| {
            let others: Vec<u32> =
                rest.iter().filter(|other| other.id != job.id).map(|other| other.draw_ma).collect();
            fullest(limit_ma, &others).saturating_add(job.draw_ma) <= limit_ma
        };
        let Some(job) = rest.iter().find(fits).copied() else { return (free, rest) };
        rest.retain(|other| other.id != job.id);
        free.push(job);
    }
}

/// The most that some of them come to without going over the limit.
fn fullest(limit_ma: u32, draws: &[u32]) -> u32 {
    let mut sums = vec![0_u32];
    for draw in draws.iter().take(JOBS_MAX) {
        let more: Vec<u32> = sums.iter().map(|sum| sum.saturating_add(*draw)).collect();
        sums.extend(more.into_iter().filter(|sum| *sum <= limit_ma));
        sums.sort_unstable();
        sums.dedup();
    }
    sums.last().copied().unwrap_or(0)
}
