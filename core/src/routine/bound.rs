//! A lower bound on what is left to do: hands-on time for each task that is not done, and the
//! shortest walk through their zones that keeps the order which tasks must come in.
//!
//! A *task* is an aim, or a condition that every step which meets some task waits for. A task that
//! waits for another comes after it; a task that other tasks' steps throw back comes after those.

mod after;
mod walk;

use walk::{Parts, Walk};

use super::cost::Cost;
use super::form::{Aim, Beliefs, Compiled, Lit, NEVER, Step, at, settings_of};
use crate::vehicle::{Deed, Walks};

/// A set of tasks, bit by bit.
type Tasks = u128;
/// Most tasks that are kept count of; what is beyond only weakens the bound.
const TASKS_MAX: usize = 128;
/// The shares of a second that hands-on time is dealt out in; few steps do more than eight tasks.
const SHARE: u64 = 840;

/// Something that must come about.
struct Task {
    /// Of an aim, its number; of a condition, what must hold before `of` is met.
    what: What,
    /// Steps that bring it about.
    steps: Vec<usize>,
    /// Unit: [`SHARE`] to a second.
    hands_on: u64,
    /// The only zone where it can be done.
    zone: Option<usize>,
    /// Tasks that must be done before, bit by bit.
    after: Tasks,
    /// Those, and the tasks that they wait for in turn.
    long_after: Tasks,
    /// The clock of the age that it waits for.
    clock: Option<usize>,
    /// Conditions that it cannot hold with: as long as one is to come, it is to do again.
    undone_by: Tasks,
    /// Every way to do it disturbs what stood right, and none of them does another such task.
    disturbs: bool,
}

enum What {
    Aim(usize),
    Condition { lit: Lit, of: usize },
}

/// Lower bounds for one problem.
pub(super) struct Bound<'a> {
    compiled: &'a Compiled,
    tasks: Vec<Task>,
    walk: Walk<'a>,
}

impl<'a> Bound<'a> {
    pub(super) fn new(compiled: &'a Compiled, walks: &'a Walks) -> Self {
        let mut bound = Self { compiled, tasks: Vec::new(), walk: Walk::new(&[], walks) };
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
        bound.share_out();
        bound.mark_disturbing();
        bound.walk = Walk::new(&bound.tasks, walks);
        bound
    }

    fn add(&mut self, what: What, steps: Vec<usize>) -> usize {
        let all = || steps.iter().filter_map(|step| self.step(*step));
        let waits = || all().filter(|step| step.deed == Deed::Wait);
        // One waits wherever one stands.
        let zone = only(all().map(|step| step.zone)).filter(|_| waits().next().is_none());
        let clock = waits().find_map(|step| self.compiled.clock_of(step));
        self.tasks.push(Task {
            what,
            steps,
            hands_on: 0,
            zone,
            after: 0,
            long_after: 0,
            clock,
            undone_by: 0,
            disturbs: false,
        });
        self.tasks.len().saturating_sub(1)
    }

    fn step(&self, number: usize) -> Option<&'a Step> {
        self.compiled.steps.get(number)
    }

    /// The literals that every step of a task waits for.
    fn conditions(&self, task: usize) -> Vec<Lit> {
        let Some(task) = self.tasks.get(task) else {
            return Vec::new();
        };
        let mut steps = task.steps.iter().filter_map(|step| self.step(*step));
        let Some(first) = steps.next() else {
            return Vec::new();
        };
        let mut shared = self.waits_for(first, task);
        for step in steps {
            let others = self.waits_for(step, task);
            shared.retain(|lit| others.iter().any(|one| one.var == lit.var && one.set == lit.set));
        }
        shared
    }

    /// What one step waits for: its conditions, and the way out of each rule that it bears on and
    /// that only one other literal can keep off.
    fn waits_for(&self, step: &Step, task: &Task) -> Vec<Lit> {
        let mut lits = step.before.clone();
        // An age grows only once its variable has come to the setting.
        if let Some(clock) = self.compiled.clock_of(step)
            && let Some(clock) = self.compiled.clocks.get(clock)
            && let Some(var) = clock.of
        {
            lits.push(Lit { var, set: clock.setting, attainable: true });
        }
        for rule in step.rules.iter().filter_map(|one| self.compiled.rules.get(*one)) {
            let own = |lit: &&Lit| {
                step.changes
                    .iter()
                    .any(|one| one.var == lit.var && (one.to | one.middle) & lit.set != 0)
            };
            let others: Vec<_> = rule.lits.iter().filter(|lit| !own(lit)).collect();
            if let [other] = others.as_slice()
                && rule.lits.iter().filter(own).any(|lit| self.makes_possible(step, *lit, task))
            {
                lits.push(Lit { set: !other.set & 0x3f, ..**other });
            }
        }
        lits
    }

    /// Whether a step that does a task makes a literal possible wherever the task is still to do:
    /// the literal is not yet certain there, since where its variable rests in it, the task is done.
    fn makes_possible(&self, step: &Step, lit: Lit, task: &Task) -> bool {
        let brought = step.changes.iter().filter(|one| one.var == lit.var);
        let brought = brought.fold(0, |set, one| set | one.to | one.middle);
        let done = match task.what {
            What::Aim(number) => self.compiled.aims.get(number).map(|aim| aim.lits.as_slice()),
            What::Condition { ref lit, .. } => Some(std::slice::from_ref(lit)),
        };
        let Some([done]) = done else { return false };
        let fresh =
            matches!(task.what, What::Aim(n) if self.compiled.aims.get(n).is_some_and(|a| a.fresh));
        brought & lit.set != 0
            && done.var == lit.var
            && !self.is_certain_outside(lit, *done)
            && (!fresh || !done.must_hold(&self.compiled.start))
    }

    /// Whether a literal can be certain where another on the same variable is not.
    fn is_certain_outside(&self, lit: Lit, done: Lit) -> bool {
        let changes = self.compiled.steps.iter().flat_map(|step| &step.changes);
        let mut found = changes.filter(|one| one.var == lit.var).map(|one| one.found);
        let start = settings_of(at(&self.compiled.start, lit.var));
        let outside = |known: u8| known & !lit.set == 0 && known & !done.set != 0;
        outside(start) || found.any(outside)
    }

    /// The settings that a variable can have between steps.
    fn rests(&self, var: usize) -> u8 {
        let changes = self.compiled.steps.iter().flat_map(|step| &step.changes);
        let brought = changes.filter(|one| one.var == var).fold(0, |set, one| set | one.to);
        settings_of(at(&self.compiled.start, var)) | brought
    }

    fn aim(&self, task: usize) -> Option<&'a Aim> {
        match self.tasks.get(task)?.what {
            What::Aim(number) => self.compiled.aims.get(number),
            What::Condition { .. } => None,
        }
    }

    /// Marks tasks that only disturbing steps do, each of them with steps of its own.
    fn mark_disturbing(&mut self) {
        let mut taken = vec![false; self.compiled.steps.len()];
        for task in &mut self.tasks {
            let disturbs =
                |step: &usize| self.compiled.steps.get(*step).is_some_and(|s| s.disturbs);
            let free = |step: &usize| taken.get(*step) == Some(&false);
            task.disturbs = !task.steps.is_empty()
                && task.steps.iter().all(disturbs)
                && task.steps.iter().all(free);
            if task.disturbs {
                for step in &task.steps {
                    if let Some(cell) = taken.get_mut(*step) {
                        *cell = true;
                    }
                }
            }
        }
    }

    /// Hands-on time at least: a step that does several tasks pays a share to each.
    fn share_out(&mut self) {
        let mut shared = vec![0_u64; self.compiled.steps.len()];
        for step in self.tasks.iter().flat_map(|task| &task.steps) {
            if let Some(count) = shared.get_mut(*step) {
                *count = count.saturating_add(1);
            }
        }
        let steps = &self.compiled.steps;
        for task in &mut self.tasks {
            let share = |number: &usize| {
                let seconds = u64::from(steps.get(*number)?.seconds);
                seconds.saturating_mul(SHARE).checked_div(*shared.get(*number)?)
            };
            task.hands_on = task.steps.iter().filter_map(share).min().unwrap_or(0);
        }
    }

    /// The least that is left from here.
    ///
    /// `ripen_s`: for each clock, in how many seconds its age is old. `at_a_glance`: without working
    /// out a walk anew.
    pub(super) fn left(
        &mut self,
        beliefs: &Beliefs,
        zone: usize,
        ripen_s: &[u32],
        at_a_glance: bool,
    ) -> Cost {
        let to_do = self.to_do(beliefs);
        let mut hands_on = 0_u64;
        let mut disturbed = 0_u32;
        for task in numbers(to_do).filter_map(|number| self.tasks.get(number)) {
            hands_on = hands_on.saturating_add(task.hands_on);
            disturbed = disturbed.saturating_add(u32::from(task.disturbs));
        }
        let Parts { walk_s, zone_changes, backward } = self.walk.shortest(to_do, zone, at_a_glance);
        Cost {
            disturbed,
            elapsed_s: in_seconds(hands_on).saturating_add(walk_s).max(self.wait_s(to_do, ripen_s)),
            walk_s,
            zone_changes,
            backward,
            ..Cost::default()
        }
    }

    /// The longest wait that is left, with what can only be done after it, and before it where its
    /// clock does not run yet.
    fn wait_s(&self, to_do: Tasks, ripen_s: &[u32]) -> u32 {
        let waits = numbers(to_do).filter_map(|number| {
            let clock = self.tasks.get(number)?.clock?;
            let limit_s = self.compiled.clocks.get(clock)?.limit_s;
            let left_s = *ripen_s.get(clock)?;
            let mut with_it = numbers(to_do)
                .filter(|other| {
                    self.tasks.get(*other).is_some_and(|task| task.after & bit(number) != 0)
                })
                .fold(0, |set, other| set | bit(other));
            if let Some(start) = self.start_of(number, clock).filter(|_| left_s == NEVER) {
                with_it |= (bit(start) & to_do) | self.before(start, to_do);
            }
            let hands_on = numbers(with_it).filter_map(|other| self.tasks.get(other));
            let hands_on = hands_on.fold(0_u64, |sum, task| sum.saturating_add(task.hands_on));
            Some(left_s.min(limit_s).saturating_add(in_seconds(hands_on)))
        });
        waits.max().unwrap_or(0)
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

    /// The tasks that are to do, bit by bit.
    fn to_do(&self, beliefs: &Beliefs) -> Tasks {
        let mut to_do = 0;
        for (number, task) in self.tasks.iter().enumerate() {
            let pending = match task.what {
                What::Aim(aim) => !self.compiled.aims.get(aim).is_none_or(|a| a.is_met(beliefs)),
                What::Condition { lit, of } => to_do & bit(of) != 0 && !lit.must_hold(beliefs),
            };
            if pending {
                to_do |= bit(number);
            }
        }
        let undone = self.tasks.iter().enumerate().filter(|(_, task)| task.undone_by & to_do != 0);
        undone.fold(to_do, |set, (number, _)| set | bit(number))
    }
}

/// Shares of a second as whole seconds: the whole that they are part of is one.
fn in_seconds(shares: u64) -> u32 {
    u32::try_from(shares.div_ceil(SHARE)).unwrap_or(u32::MAX)
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
