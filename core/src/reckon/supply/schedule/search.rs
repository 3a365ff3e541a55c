//! The search for a way to do all jobs of a set with so many pauses, the earliest end of all.
//!
//! It goes through time. Each piece begins at the earliest of its job, or at a tick at which it has just
//! got room: else it could begin a tick sooner. A job is paused only for what else would have no room:
//! else it could run a tick longer and less later. Moving work to the front by either ends somewhere,
//! makes nothing late and adds no pause, so one of the best ways is of this form. From the same place
//! with the same work left the same follows, so no place is gone on from twice.

use rustc_hash::FxHashMap;

use super::bound::{Scale, scales};
use super::{JOBS_MAX, Job, Piece, bit, members};

/// How often in all something may be tried to be switched.
const WORK_MAX: u32 = 30_000;
/// How often of that for an end that is sooner still than one that was found.
const WORK_SOONER: u32 = 4_000;
/// How often for each set once that is used up: enough to come to an end once or twice.
const WORK_FEW: u32 = 60;

/// What may still be looked at.
pub(super) struct Work {
    left: u32,
    was_over: bool,
}

impl Work {
    pub(super) fn new() -> Self {
        Self { left: WORK_MAX, was_over: false }
    }

    /// Leaves a little for the next set, whatever was used up before it.
    pub(super) fn go_on(&mut self) {
        self.was_over |= self.left == 0;
        self.left = if self.was_over { WORK_FEW } else { self.left };
    }

    /// Something was not looked at to its end.
    pub(super) fn fell_short(&self) -> bool {
        self.was_over || self.left == 0
    }
}

/// A way to do them all.
#[derive(Debug, Default)]
pub(super) struct Found {
    pub(super) pieces: Vec<Piece>,
    pub(super) pauses: u32,
    /// One may end sooner: not all of them were tried.
    pub(super) sooner_untried: bool,
}

/// What a search came to.
pub(super) struct Ran {
    pub(super) found: Option<Found>,
    /// Something was not paused only because there were no more pauses.
    pub(super) more_pauses_might_do: bool,
}

/// The way with at most so many pauses that ends first; what ends by `ends` ends soon enough.
pub(super) fn run(limit_ma: u32, jobs: &[Job], pauses: u32, ends: u32, work: &mut Work) -> Ran {
    let latest: Vec<u32> = jobs.iter().map(|job| job.latest).collect();
    let scales = scales(limit_ma, jobs);
    let mut search = Search {
        limit_ma,
        jobs,
        again: vec![0; scales.len()],
        scales,
        latest,
        enough: ends,
        sooner: WORK_SOONER,
        ran: Ran { found: None, more_pauses_might_do: false },
        trail: Vec::new(),
        seen: FxHashMap::default(),
        work,
    };
    let begin = jobs.iter().map(|job| job.earliest).min().unwrap_or(0);
    let mut left = [0; JOBS_MAX];
    left.iter_mut().zip(jobs).for_each(|(left, job)| *left = job.ticks);
    let all = bit(jobs.len()).wrapping_sub(1);
    let place = Place { left, waiting: all, ..Place::default() };
    search.visit(begin, &place, pauses);
    let sooner_untried = search.sooner == 0 || search.work.left == 0;
    let found = search.ran.found.map(|found| Found { sooner_untried, ..found });
    Ran { found, ..search.ran }
}

/// Where the search stands at a tick.
#[derive(Debug, Clone, Default, PartialEq, Eq, Hash)]
struct Place {
    /// Ticks that each job still needs.
    left: [u32; JOBS_MAX],
    /// Not begun.
    waiting: u32,
    /// On in the tick before.
    running: u32,
    /// Paused.
    resting: u32,
    /// Has been paused.
    spent: u32,
    /// Not on, and without room in the tick before.
    shut_out: u32,
}

/// For how many ticks a scale could stay without any use and all would still be done by it; `None` where
/// it will not. The jobs stand in the order of their latest ticks.
fn spare(scale: &Scale, tick: u32, left: &[u32], latest: &[u32]) -> Option<u32> {
    let (mut sum, mut least) = (0_u64, u64::MAX);
    for ((left, latest), weight) in left.iter().zip(latest).zip(&scale.weights) {
        sum = sum.saturating_add(weight.saturating_mul(u64::from(*left)));
        if *left > 0 {
            let span = u64::from(latest.saturating_sub(tick));
            least = least.min(scale.limit.saturating_mul(span).checked_sub(sum)?);
        }
    }
    let ticks = least.checked_div(scale.limit).and_then(|ticks| u32::try_from(ticks).ok());
    Some(ticks.unwrap_or(u32::MAX))
}

struct Search<'a> {
    limit_ma: u32,
    jobs: &'a [Job],
    scales: Vec<Scale>,
    /// From which tick on each of them must be looked at again: until then it is kept, whatever follows.
    again: Vec<u32>,
    /// When each must be done: in its time, and sooner than the best way so far.
    latest: Vec<u32>,
    /// What ends by then cannot be bettered.
    enough: u32,
    /// How often more it is tried to end sooner.
    sooner: u32,
    ran: Ran,
    /// What was switched on and off on the way here: when, which, on.
    trail: Vec<(u32, usize, bool)>,
    /// With how many pauses to spare a place was come to.
    seen: FxHashMap<(u32, Place), u32>,
    work: &'a mut Work,
}

impl Search<'_> {
    fn draw(&self, at: usize) -> u32 {
        self.jobs.get(at).map_or(0, |job| job.draw_ma)
    }

    fn drawn(&self, set: u32) -> u32 {
        members(set).fold(0, |sum, at| sum.saturating_add(self.draw(at)))
    }

    fn fits(&self, drawn_ma: u32, at: usize) -> bool {
        drawn_ma.saturating_add(self.draw(at)) <= self.limit_ma
    }

    fn is_done(&self) -> bool {
        let good = self.latest.iter().all(|latest| *latest < self.enough);
        self.work.left == 0 || (self.ran.found.is_some() && (good || self.sooner == 0))
    }

    /// Goes on from a place, unless nothing better can come of it.
    fn visit(&mut self, tick: u32, place: &Place, pauses: u32) {
        if self.is_done() {
            return;
        }
        if place.waiting | place.running | place.resting == 0 {
            return self.keep(tick);
        }
        let key = (tick, place.clone());
        if self.seen.get(&key).is_some_and(|spare| *spare >= pauses) {
            return;
        }
        let (again, latest) = (self.again.clone(), self.latest.clone());
        if !self.too_late(tick, place) {
            self.seen.insert(key, pauses);
            self.choose(tick, place, pauses);
        }
        // What was told of a scale is told of what follows from here, with the ends of then.
        self.again = if self.latest == latest { again } else { vec![0; again.len()] };
    }

    /// Notes a way that ends now; from here on only sooner ones count.
    fn keep(&mut self, tick: u32) {
        let mut pieces = Vec::new();
        for (number, (from, at, on)) in self.trail.iter().enumerate() {
            let mut later = self.trail.iter().skip(number);
            let off = later.find(|(_, other, on)| other == at && !on);
            if let (true, Some((to, ..)), Some(job)) = (*on, off, self.jobs.get(*at)) {
                pieces.push(Piece { from: *from, to: *to, id: job.id });
            }
        }
        let pauses = pieces.len().saturating_sub(self.jobs.len());
        let pauses = u32::try_from(pauses).unwrap_or(0);
        self.ran.found = Some(Found { pieces, pauses, sooner_untried: false });
        let sooner = tick.saturating_sub(1);
        self.latest.iter_mut().for_each(|latest| *latest = sooner.min(*latest));
        self.again.fill(0);
    }

    /// Some job, or what is left by some tick, can no longer be done.
    fn too_late(&mut self, tick: u32, place: &Place) -> bool {
        let each = || self.jobs.iter().zip(place.left.iter().zip(&self.latest));
        let late = |(job, (left, latest)): (&Job, (&u32, &u32))| {
            *left > 0 && tick.max(job.earliest).saturating_add(*left) > *latest
        };
        if each().any(late) {
            return true;
        }
        let told = self.scales.iter().zip(&mut self.again);
        let mut asked = told.filter(|(_, again)| **again <= tick);
        asked.any(|(scale, again)| match spare(scale, tick, &place.left, &self.latest) {
            Some(spare) => {
                *again = tick.saturating_add(spare).saturating_add(1);
                false
            }
            None => true,
        })
    }

    /// Tries everything that may be switched at a tick.
    fn choose(&mut self, tick: u32, place: &Place, pauses: u32) {
        let off = place.waiting | place.resting;
        let comes = |at: &usize| self.jobs.get(*at).is_some_and(|job| job.earliest == tick);
        let may_begin = |at: &usize| place.shut_out & bit(*at) != 0 || comes(at);
        let ready: Vec<usize> = members(off).filter(may_begin).collect();
        self.begin(tick, place, pauses, 0, &ready, 0);
        let can = if ready.is_empty() { 0 } else { self.can_pause(place) };
        let mut set = can;
        while set != 0 {
            match pauses.checked_sub(set.count_ones()) {
                Some(spare) => self.begin(tick, place, spare, set, &ready, 0),
                None => self.ran.more_pauses_might_do = true,
            }
            set = set.wrapping_sub(1) & can;
        }
    }

    /// What runs and may be paused.
    fn can_pause(&self, place: &Place) -> u32 {
        let may_pause = |at: &usize| self.jobs.get(*at).is_some_and(|job| job.pauses);
        let can = members(place.running & !place.spent).filter(may_pause);
        can.fold(0, |set, at| set | bit(at))
    }

    /// Switches off `paused` and on `begun` and some of `ready`, all in turn, most of them first; so
    /// many pauses are to `spare` then.
    fn begin(
        &mut self,
        tick: u32,
        place: &Place,
        spare: u32,
        paused: u32,
        ready: &[usize],
        begun: u32,
    ) {
        let drawn_ma = self.drawn(place.running & !paused | begun);
        if let Some((at, others)) = ready.split_first() {
            if self.fits(drawn_ma, *at) {
                self.begin(tick, place, spare, paused, others, begun | bit(*at));
            }
            return self.begin(tick, place, spare, paused, others, begun);
        }
        self.work.left = self.work.left.saturating_sub(1);
        if self.ran.found.is_some() {
            self.sooner = self.sooner.saturating_sub(1);
        }
        if members(paused).any(|at| self.fits(drawn_ma, at)) {
            return;
        }
        let (waiting, resting) = (place.waiting & !begun, place.resting & !begun | paused);
        let here = |at: &usize| self.jobs.get(*at).is_some_and(|job| job.earliest <= tick);
        let no_room = members(waiting | resting).filter(|at| here(at) && !self.fits(drawn_ma, *at));
        let next = Place {
            left: place.left,
            waiting,
            running: place.running & !paused | begun,
            resting,
            spent: place.spent | paused,
            shut_out: no_room.fold(0, |set, at| set | bit(at)),
        };
        let length = self.trail.len();
        self.trail.extend(members(paused).map(|at| (tick, at, false)));
        self.trail.extend(members(begun).map(|at| (tick, at, true)));
        self.advance(tick, next, spare);
        self.trail.truncate(length);
    }

    /// Goes on to the next tick at which something may be switched.
    fn advance(&mut self, tick: u32, mut place: Place, pauses: u32) {
        let left = |at: usize| place.left.get(at).copied();
        let ends = members(place.running).filter_map(left).map(|left| tick.saturating_add(left));
        let earliest = |at: usize| self.jobs.get(at).map(|job| job.earliest);
        let comes = members(place.waiting).filter_map(earliest).filter(|from| *from > tick);
        let Some(event) = ends.chain(comes).min() else { return };
        // Between two events something may be paused for what waits for room.
        let waits = place.shut_out != 0 && self.can_pause(&place) != 0;
        let may_pause = event > tick.saturating_add(1) && waits;
        self.ran.more_pauses_might_do |= may_pause && pauses == 0;
        let next = if may_pause && pauses > 0 { tick.saturating_add(1) } else { event };
        let past = next.saturating_sub(tick);
        for at in members(place.running) {
            if let Some(left) = place.left.get_mut(at) {
                *left = left.saturating_sub(past);
                if *left == 0 {
                    place.running &= !bit(at);
                    self.trail.push((next, at, false));
                }
            }
        }
        self.visit(next, &place, pauses);
    }
}
