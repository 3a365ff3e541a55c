//! A lower bound on what is left to do: hands-on time for each task that is not done, and the
//! shortest walk through their zones that keeps the order which tasks must come in.
//!
//! A *task* is an aim, or a condition that every step which meets some task waits for. A task that
//! waits for another comes after it; a task that other tasks' steps throw back comes after those.

mod after;
mod conditions;
mod cuts;
mod ring;
mod stops;
#[cfg(test)]
mod tests;
mod walk;
mod ways;

use walk::{Parts, Walk};

use super::cost::Cost;
use super::form::{Aim, Beliefs, Compiled, Lit, NEVER, Step, at, is_fresh, settings_of};
use crate::vehicle::{Deed, Walks};

/// A set of tasks, bit by bit.
type Tasks = u128;
/// Most tasks that are kept count of; what is beyond only weakens the bound.
const TASKS_MAX: usize = 128;

/// Something that must come about.
struct Task {
    /// Of an aim, its number; of a condition, what must hold before `of` is met.
    what: What,
    /// Steps that bring it about.
    steps: Vec<usize>,
    /// What it takes at least, in whatever way; and where no look can do it.
    takes: [Least; 2],
    /// The only zone where it can be done.
    zone: Option<usize>,
    /// The zone of all its steps.
    steps_zone: Option<usize>,
    /// Tasks that must be done before, bit by bit.
    after: Tasks,
    /// Those, and the tasks that they wait for in turn.
    long_after: Tasks,
    /// The clock of the age that it waits for.
    clock: Option<usize>,
    /// Conditions that it cannot hold with: as long as one is to come, it is to do again.
    undone_by: Tasks,
}

/// What a task takes at least.
#[derive(Debug, Clone, Copy, Default)]
struct Least {
    /// Unit: s.
    hands_on_s: u32,
    /// Every way to do it disturbs what stood right, and none of them does another such task.
    disturbs: bool,
}

/// What is left to do.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Left {
    tasks: Tasks,
    /// Those of them that no look can do: the setting is another, or will be.
    by_move: Tasks,
}

enum What {
    Aim(usize),
    Condition { lit: Lit, of: usize },
}

/// What must come about: a literal, made fresh or only certain, and the steps that can bring it.
pub(super) struct Need<'a> {
    pub(super) lit: Lit,
    pub(super) fresh: bool,
    pub(super) steps: &'a [usize],
}

impl Need<'_> {
    pub(super) fn is_met(&self, beliefs: &[u8]) -> bool {
        self.is_met_by(at(beliefs, self.lit.var))
    }

    /// Whether what is believed of its variable meets it.
    pub(super) fn is_met_by(&self, belief: u8) -> bool {
        settings_of(belief) & !self.lit.set == 0 && (!self.fresh || is_fresh(belief))
    }
}

/// Lower bounds for one problem.
pub(super) struct Bound<'a> {
    compiled: &'a Compiled,
    tasks: Vec<Task>,
    walks: &'a Walks,
    /// Made once somebody asks.
    walk: Option<Walk<'a>>,
}

impl<'a> Bound<'a> {
    pub(super) fn new(compiled: &'a Compiled, walks: &'a Walks) -> Self {
        let mut bound = Self { compiled, tasks: Vec::new(), walks, walk: None };
        for (number, aim) in compiled.aims.iter().enumerate().take(TASKS_MAX) {
            bound.add(What::Aim(number), aim.steps.clone());
        }
        let mut next = 0;
        while next < bound.tasks.len() {
            for lit in bound.conditions(next) {
                if !lit.must_hold(&compiled.start) {
                    bound.wait_for(next, lit);
                }
            }
            next = next.saturating_add(1);
        }
        bound.wait_for_what_throws_back();
        bound.wait_for_what_undoes();
        bound.deal_out();
        bound
    }

    fn add(&mut self, what: What, steps: Vec<usize>) -> usize {
        let all = || steps.iter().filter_map(|step| self.step(*step));
        let waits = || all().filter(|step| step.deed == Deed::Wait);
        let steps_zone = only(all().map(|step| step.zone));
        // One waits where the next step is.
        let zone = steps_zone.filter(|_| waits().next().is_none());
        let clock = waits().find_map(|step| self.compiled.clock_of(step));
        self.tasks.push(Task {
            what,
            steps,
            takes: [Least::default(); 2],
            zone,
            steps_zone,
            after: 0,
            long_after: 0,
            clock,
            undone_by: 0,
        });
        self.tasks.len().saturating_sub(1)
    }

    fn step(&self, number: usize) -> Option<&'a Step> {
        self.compiled.steps.get(number)
    }

    fn aim(&self, task: usize) -> Option<&'a Aim> {
        match self.tasks.get(task)?.what {
            What::Aim(number) => self.compiled.aims.get(number),
            What::Condition { .. } => None,
        }
    }

    /// The steps of a task; without looks where `by_move`.
    fn ways(&self, task: usize, by_move: bool) -> Vec<usize> {
        let steps = self.tasks.get(task).map_or(&[][..], |task| task.steps.as_slice());
        let is_look = |step: &usize| self.step(*step).is_none_or(|step| step.deed == Deed::Look);
        steps.iter().copied().filter(|step| !by_move || !is_look(step)).collect()
    }

    /// What tasks take at least: the time of each step is dealt out to what it does, and each
    /// disturbance is counted once; first what can be done in the fewest ways (dual ascent for
    /// covering: Bar-Yehuda and Even 1981).
    fn deal_out(&mut self) {
        let mut left_s: Vec<u32> = self.compiled.steps.iter().map(|step| step.seconds).collect();
        let mut disturbing: Vec<bool> =
            self.compiled.steps.iter().map(|step| step.disturbs).collect();
        for by_move in [false, true] {
            let mut ways: Vec<(usize, Vec<usize>)> =
                (0..self.tasks.len()).map(|task| (task, self.ways(task, by_move))).collect();
            ways.sort_by_key(|(_, steps)| steps.len());
            for (number, steps) in ways {
                let Some(task) = self.tasks.get_mut(number) else { continue };
                let [mut takes, _] = task.takes;
                let least_s = steps.iter().filter_map(|step| left_s.get(*step)).min();
                let least_s = least_s.copied().unwrap_or(0);
                let disturbs = !steps.is_empty()
                    && !takes.disturbs
                    && steps.iter().all(|step| disturbing.get(*step) == Some(&true));
                for step in steps {
                    if let Some(left_s) = left_s.get_mut(step) {
                        *left_s = left_s.saturating_sub(least_s);
                    }
                    if let Some(disturbing) = disturbing.get_mut(step).filter(|_| disturbs) {
                        *disturbing = false;
                    }
                }
                takes.hands_on_s = takes.hands_on_s.saturating_add(least_s);
                takes.disturbs |= disturbs;
                task.takes = if by_move { [task.takes[0], takes] } else { [takes; 2] };
            }
        }
    }

    /// How many tasks there are.
    pub(super) fn tasks(&self) -> usize {
        self.tasks.len()
    }

    /// How many places were opened to work out walks.
    pub(super) fn walked(&self) -> usize {
        self.walk.as_ref().map_or(0, Walk::opened)
    }

    fn walk(&mut self) -> &mut Walk<'a> {
        let new = || Walk::new(&self.tasks, self.walks, self.compiled.zone);
        self.walk.get_or_insert_with(new)
    }

    /// The least that `to_do` takes from here.
    ///
    /// `ripen_s`: for each clock, in how many seconds its age is old. `idle_s`: for how long one has
    /// waited; the next walk began then. `at_a_glance`: without working out a walk anew.
    pub(super) fn left(
        &mut self,
        to_do: Left,
        zone: usize,
        ripen_s: &[u32],
        idle_s: u32,
        at_a_glance: bool,
    ) -> Cost {
        let disturbed = self.least(to_do, to_do.tasks).filter(|least| least.disturbs).count();
        let hands_on_s = self.hands_on_s(to_do, to_do.tasks);
        let Parts { walk_s, zone_changes, backward } =
            self.walk().shortest(to_do.tasks, zone, at_a_glance);
        let wait_s = self.wait_s(to_do, zone, ripen_s, idle_s, at_a_glance);
        Cost {
            disturbed: u32::try_from(disturbed).unwrap_or(u32::MAX),
            elapsed_s: hands_on_s.saturating_add(walk_s.saturating_sub(idle_s)).max(wait_s),
            walk_s,
            zone_changes,
            backward,
            ..Cost::default()
        }
    }

    /// What some of the tasks that are left take at least.
    fn least(&self, left: Left, some: Tasks) -> impl Iterator<Item = Least> {
        numbers(some & left.tasks).filter_map(move |number| {
            let [anyhow, by_move] = self.tasks.get(number)?.takes;
            Some(if left.by_move & bit(number) == 0 { anyhow } else { by_move })
        })
    }

    fn hands_on_s(&self, left: Left, some: Tasks) -> u32 {
        self.least(left, some).fold(0, |sum, least| sum.saturating_add(least.hands_on_s))
    }

    /// The longest wait that is left, with what can only be done after it, and before it where its
    /// clock does not run yet; with the walk to that. The walk to what is done after it falls within
    /// it.
    fn wait_s(
        &mut self,
        left: Left,
        zone: usize,
        ripen_s: &[u32],
        idle_s: u32,
        at_a_glance: bool,
    ) -> u32 {
        let mut longest_s = 0;
        for number in numbers(left.tasks) {
            let Some(clock) = self.tasks.get(number).and_then(|task| task.clock) else { continue };
            let limit_s = self.compiled.clocks.get(clock).map_or(0, |clock| clock.limit_s);
            let left_s = ripen_s.get(clock).copied().unwrap_or(0);
            let later = self.later(number, left.tasks);
            let start = self.start_of(number, clock).filter(|_| left_s == NEVER);
            let before =
                start.map_or(0, |start| (bit(start) | self.before(start, left.tasks)) & left.tasks);
            let walk_s = self.walk().shortest(before, zone, at_a_glance).walk_s;
            let all_s = left_s
                .min(limit_s)
                .saturating_add(walk_s.saturating_sub(idle_s))
                .saturating_add(self.walk().joined_s(later))
                .saturating_add(self.hands_on_s(left, before | later));
            longest_s = longest_s.max(all_s);
        }
        longest_s
    }

    /// The task that starts the clock which a task waits for.
    fn start_of(&self, task: usize, clock: usize) -> Option<usize> {
        let clock = self.compiled.clocks.get(clock)?;
        let starts = |number: &usize| {
            let what = self.tasks.get(*number).map(|task| &task.what);
            matches!(what, Some(What::Condition { lit, of })
                if *of == task && Some(lit.var) == clock.of && lit.set == clock.setting)
        };
        numbers(self.tasks.get(task)?.after).find(starts)
    }

    /// The tasks of `to_do` that a task waits for, and those that they wait for in turn.
    fn before(&self, task: usize, to_do: Tasks) -> Tasks {
        let after = |number: usize| self.tasks.get(number).map_or(0, |task| task.after & to_do);
        let mut found = after(task);
        loop {
            let more = numbers(found).fold(found, |set, number| set | after(number));
            if more == found {
                return found;
            }
            found = more;
        }
    }

    /// The tasks of `to_do` that wait for a task, and those that wait for them in turn. What waited for
    /// it through a task that is done by now waits no more.
    fn later(&self, task: usize, to_do: Tasks) -> Tasks {
        let waits_for = |number: &usize, found: Tasks| {
            self.tasks.get(*number).is_some_and(|one| one.after & found != 0)
        };
        let mut found = bit(task);
        loop {
            let more = numbers(to_do).filter(|number| waits_for(number, found));
            let more = more.fold(found, |set, number| set | bit(number));
            if more == found {
                return found & !bit(task);
            }
            found = more;
        }
    }

    /// What must come about from here on, by steps of one zone.
    pub(super) fn needs(&self, to_do: Left, beliefs: &Beliefs, zone: usize) -> Vec<Need<'_>> {
        let tasks = numbers(to_do.tasks).filter_map(|number| self.tasks.get(number));
        let needs = tasks.filter(|task| task.steps_zone == Some(zone)).filter_map(|task| {
            let (lit, fresh) = self.done(task)?;
            Some(Need { lit, fresh, steps: &task.steps })
        });
        needs.filter(|need| !need.is_met(beliefs)).collect()
    }

    /// The tasks that are to do.
    pub(super) fn to_do(&self, beliefs: &Beliefs) -> Left {
        let mut left = Left::default();
        for (number, task) in self.tasks.iter().enumerate() {
            let is_left = match task.what {
                What::Aim(aim) => !self.compiled.aims.get(aim).is_none_or(|a| a.is_met(beliefs)),
                What::Condition { lit, of } => left.tasks & bit(of) != 0 && !lit.must_hold(beliefs),
            };
            if is_left {
                left.tasks |= bit(number);
                let is_otherwise = self.done(task).is_some_and(|(lit, _)| !lit.may_hold(beliefs));
                left.by_move |= if is_otherwise { bit(number) } else { 0 };
            }
        }
        let tasks = self.tasks.iter().enumerate();
        let undone = tasks.filter(|(_, task)| task.undone_by & left.tasks != 0);
        let undone = undone.fold(0, |set, (number, _)| set | bit(number));
        Left { tasks: left.tasks | undone, by_move: left.by_move | undone }
    }
}

fn bit(task: usize) -> Tasks {
    u32::try_from(task).ok().and_then(|task| 1_u128.checked_shl(task)).unwrap_or(0)
}

/// The members of a set, in order.
fn numbers(set: Tasks) -> impl Iterator<Item = usize> {
    let mut left = set;
    std::iter::from_fn(move || {
        let next = usize::try_from(left.trailing_zeros()).ok().filter(|_| left != 0)?;
        left &= left.wrapping_sub(1);
        Some(next)
    })
}

/// The value that all have, if any.
fn only(mut values: impl Iterator<Item = usize>) -> Option<usize> {
    let first = values.next()?;
    values.all(|value| value == first).then_some(first)
}
