//! Where tasks are done, and which must come before which: as much as the walk needs to know.
//!
//! Tasks are numbered so that none comes before one that it waits for. A task can be *left out* of
//! the walk if another of its zone can stand for it: whenever that one is done, all that it waits for
//! is done, and all that waits for it waits for the other too. A walk for the rest does it there. So
//! what is left to do is told by far fewer sets, and those that come to the same are one.

use super::{Task, Tasks, bit, numbers};

/// Zones that the walk knows; what is to do in any beyond counts as if done anywhere.
pub(super) const ZONES_MAX: usize = 64;

#[derive(Debug, Clone, Copy)]
pub(super) struct Stop {
    pub(super) zone: Option<usize>,
    /// Tasks that it waits for.
    pub(super) after: Tasks,
    /// Tasks that wait for it.
    before: Tasks,
}

#[derive(Debug, Clone)]
pub(super) struct Stops {
    stops: Vec<Stop>,
    /// For each zone, the tasks that can be done there alone.
    zones: Vec<Tasks>,
}

/// A task by itself: its zone, and what it waits for straight away.
pub(super) type Direct = (Option<usize>, Tasks);

/// The number of each task in an order in which none comes before one that it waits for, and the
/// tasks in that order.
pub(super) fn placed(tasks: &[Task]) -> (Vec<usize>, Vec<Direct>) {
    let mut places = vec![0; tasks.len()];
    let (mut seen, mut sorted): (Tasks, Vec<Direct>) = (0, Vec::new());
    loop {
        let before = sorted.len();
        for (number, task) in tasks.iter().enumerate() {
            if seen & bit(number) == 0 && task.after & !seen == 0 {
                seen |= bit(number);
                if let Some(place) = places.get_mut(number) {
                    *place = sorted.len();
                }
                let zone = task.zone.filter(|zone| *zone < ZONES_MAX);
                sorted.push((zone, renamed(task.after, &places)));
            }
        }
        if sorted.len() == before {
            return (places, sorted); // There is no cycle: see `after.rs`.
        }
    }
}

/// Some tasks by other numbers.
pub(super) fn renamed(tasks: Tasks, names: &[usize]) -> Tasks {
    numbers(tasks).filter_map(|task| names.get(task)).fold(0, |all, name| all | bit(*name))
}

impl Stops {
    /// Each task after all that it waits for in turn; but what one waits for only through one of
    /// `skipped` it does not wait for.
    pub(super) fn new(tasks: &[Direct], skipped: Tasks) -> Self {
        let mut stops: Vec<Stop> = Vec::new();
        for (number, (zone, direct)) in tasks.iter().enumerate() {
            let through = numbers(direct & !skipped).filter_map(|one| stops.get(one));
            let after = through.fold(*direct, |set, stop| set | stop.after);
            for one in numbers(after) {
                if let Some(stop) = stops.get_mut(one) {
                    stop.before |= bit(number);
                }
            }
            stops.push(Stop { zone: *zone, after, before: 0 });
        }
        Self::of(stops)
    }

    fn of(stops: Vec<Stop>) -> Self {
        let mut zones = vec![0; ZONES_MAX];
        for (number, stop) in stops.iter().enumerate() {
            if let Some(there) = stop.zone.and_then(|zone| zones.get_mut(zone)) {
                *there |= bit(number);
            }
        }
        while zones.pop_if(|there| *there == 0).is_some() {}
        Self { stops, zones }
    }

    /// The same with each zone taken for another.
    pub(super) fn with_zones(&self, zone: impl Fn(usize) -> usize) -> Self {
        let with_zone = |stop: &Stop| Stop { zone: stop.zone.map(&zone), ..*stop };
        Self::of(self.stops.iter().map(with_zone).collect())
    }

    pub(super) fn stop(&self, task: usize) -> Option<&Stop> {
        self.stops.get(task)
    }

    /// The tasks of one zone.
    pub(super) fn in_zone(&self, zone: usize) -> Tasks {
        self.zones.get(zone).copied().unwrap_or(0)
    }

    /// The zones of some tasks.
    pub(super) fn zones(&self, to_do: Tasks) -> u64 {
        let zones = self.zones.iter().enumerate().filter(|(_, there)| *there & to_do != 0);
        zones.fold(0, |set, (zone, _)| set | place(zone))
    }

    /// The zones where something can be done at once.
    pub(super) fn zones_of_ready(&self, to_do: Tasks) -> u64 {
        let ready = numbers(to_do).filter_map(|task| self.stop(task));
        let ready = ready.filter(|stop| stop.after & to_do == 0).filter_map(|stop| stop.zone);
        ready.fold(0, |set, zone| set | place(zone))
    }

    /// Tasks that are done while others of `to_do` stand before and after them.
    pub(super) fn skipped(&self, to_do: Tasks) -> Tasks {
        let stops = self.stops.iter().enumerate();
        let skipped = stops.filter(|(number, stop)| {
            to_do & bit(*number) == 0 && stop.after & to_do != 0 && stop.before & to_do != 0
        });
        skipped.fold(0, |set, (number, _)| set | bit(number))
    }

    /// What is left once all that can be done in a zone is done, without what can be left out.
    pub(super) fn left(&self, to_do: Tasks, zone: usize) -> Tasks {
        let left = self.done_in(to_do, zone);
        self.without(left, left)
    }

    /// The same where nothing more of `to_do` can be left out.
    pub(super) fn then_left(&self, to_do: Tasks, zone: usize) -> Tasks {
        let left = self.done_in(to_do, zone);
        self.without(left, self.tied_to(to_do & !left))
    }

    /// Some tasks of known zones without those that can be left out.
    pub(super) fn essential(&self, to_do: Tasks) -> Tasks {
        self.without(to_do, to_do)
    }

    /// What is left of some tasks once all that can be done in a zone is done.
    fn done_in(&self, to_do: Tasks, zone: usize) -> Tasks {
        let mut left = to_do;
        for task in numbers(to_do & self.in_zone(zone)) {
            if self.stop(task).is_some_and(|stop| stop.after & left == 0) {
                left &= !bit(task);
            }
        }
        left
    }

    /// What waits for some tasks, and what these wait for.
    fn tied_to(&self, tasks: Tasks) -> Tasks {
        let stops = numbers(tasks).filter_map(|task| self.stop(task));
        stops.fold(0, |all, stop| all | stop.after | stop.before)
    }

    /// Some tasks without those `doubtful` ones that can be left out.
    fn without(&self, tasks: Tasks, doubtful: Tasks) -> Tasks {
        numbers(doubtful & tasks).fold(tasks, |left, task| {
            if self.another_stands_for(task, left) { left & !bit(task) } else { left }
        })
    }

    /// Whether a task can be left out of some.
    fn another_stands_for(&self, task: usize, tasks: Tasks) -> bool {
        let Some((stop, zone)) = self.stop(task).and_then(|stop| Some((stop, stop.zone?))) else {
            return false;
        };
        let (after, before) = (stop.after & tasks, stop.before & tasks);
        numbers(self.in_zone(zone) & tasks & !bit(task)).any(|other| {
            let is_within = |tasks: Tasks, of: Tasks| tasks & !(of | bit(other)) == 0;
            self.stop(other)
                .is_some_and(|one| is_within(before, one.before) && is_within(after, one.after))
        })
    }

    /// The tasks that are done in known zones.
    pub(super) fn known(&self) -> Tasks {
        self.zones.iter().fold(0, |all, there| all | there)
    }
}

/// A zone in a set of zones; none beyond the last that a set holds.
pub(super) fn place(zone: usize) -> u64 {
    u32::try_from(zone).ok().and_then(|zone| 1_u64.checked_shl(zone)).unwrap_or(0)
}

/// The zones of a set, in order.
pub(super) fn zones(set: u64) -> impl Iterator<Item = usize> {
    numbers(Tasks::from(set))
}
