//! A lower bound on what is left to do: hands-on time for each task that is not done, and the
//! shortest walk through their zones that keeps the order which tasks must come in.
//!
//! A *task* is an aim, or a condition that every step which meets some task waits for. A task that
//! waits for another comes after it; a task that other tasks' steps throw back comes after those.

mod after;

use std::collections::HashMap;

use super::cost::Cost;
use super::form::{Aim, Beliefs, Compiled, Lit, Step, at, settings_of};
use crate::vehicle::{Deed, Walks};

/// Most tasks that the walk keeps in order; more are bounded by their zones alone.
const TASKS_MAX: usize = 64;
/// Most tasks that are walked exactly; beyond it, those that wait for nothing are left out.
const WALKED_MAX: u32 = 20;

/// Something that must come about.
struct Task {
    /// Of an aim, its number; of a condition, what must hold before `of` is met.
    what: What,
    /// Steps that bring it about.
    steps: Vec<usize>,
    hands_on_s: u32,
    /// The only zone where it can be done.
    zone: Option<usize>,
    /// Tasks that must be done before, bit by bit.
    after: u64,
    /// The clock of the age that it waits for.
    clock: Option<usize>,
    /// Conditions that it cannot hold with: as long as one is to come, it is to do again.
    undone_by: u64,
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
    walks: &'a Walks,
    tasks: Vec<Task>,
    known: HashMap<(u64, usize), u32>,
}

impl<'a> Bound<'a> {
    pub(super) fn new(compiled: &'a Compiled, walks: &'a Walks) -> Self {
        let mut bound = Self { compiled, walks, tasks: Vec::new(), known: HashMap::new() };
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
            hands_on_s: 0,
            zone,
            after: 0,
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
        let mut shared = vec![0_u32; self.compiled.steps.len()];
        for step in self.tasks.iter().flat_map(|task| &task.steps) {
            if let Some(count) = shared.get_mut(*step) {
                *count = count.saturating_add(1);
            }
        }
        let steps = &self.compiled.steps;
        for task in &mut self.tasks {
            let share = |number: &usize| {
                steps.get(*number)?.seconds.checked_div(shared.get(*number).copied().unwrap_or(1))
            };
            task.hands_on_s = task.steps.iter().filter_map(share).min().unwrap_or(0);
        }
    }

    /// The least that is left from here.
    ///
    /// `ripen_s`: for each clock, in how many seconds its age is old.
    pub(super) fn left(&mut self, beliefs: &Beliefs, zone: usize, ripen_s: &[u32]) -> Cost {
        let to_do = self.to_do(beliefs);
        let mut hands_on_s = 0_u32;
        let mut disturbed = 0_u32;
        let mut zones = Vec::new();
        for (number, task) in self.tasks.iter().enumerate() {
            if to_do & bit(number) != 0 {
                hands_on_s = hands_on_s.saturating_add(task.hands_on_s);
                disturbed = disturbed.saturating_add(u32::from(task.disturbs));
                zones.extend(task.zone.filter(|known| *known != zone));
            }
        }
        zones.sort_unstable();
        zones.dedup();
        let walk_s = self.walk_s(self.thinned(to_do), zone);
        Cost {
            disturbed,
            elapsed_s: hands_on_s.saturating_add(walk_s).max(self.wait_s(to_do, ripen_s)),
            walk_s,
            zone_changes: u32::try_from(zones.len()).unwrap_or(0),
            ..Cost::default()
        }
    }

    /// The longest wait that is left, with what can only be done after it.
    fn wait_s(&self, to_do: u64, ripen_s: &[u32]) -> u32 {
        let waits = self.tasks.iter().enumerate().filter_map(|(number, task)| {
            let clock = task.clock.filter(|_| to_do & bit(number) != 0)?;
            let limit_s = self.compiled.clocks.get(clock)?.limit_s;
            let later =
                self.tasks.iter().enumerate().filter(|(other, task)| {
                    to_do & bit(*other) != 0 && task.after & bit(number) != 0
                });
            let later_s = later.fold(0_u32, |sum, (_, task)| sum.saturating_add(task.hands_on_s));
            Some(ripen_s.get(clock)?.min(&limit_s).saturating_add(later_s))
        });
        waits.max().unwrap_or(0)
    }

    /// The tasks that are to do, bit by bit.
    fn to_do(&self, beliefs: &Beliefs) -> u64 {
        let mut to_do = 0_u64;
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

    /// Tasks that the walk is bounded over: without those that can be done in several zones, and
    /// without the last ones where there are too many, which only weakens the bound.
    fn thinned(&self, to_do: u64) -> u64 {
        let mut kept = 0_u64;
        for (number, task) in self.tasks.iter().enumerate() {
            let same_zone = self.tasks.iter().enumerate().take(number).any(|(other, known)| {
                kept & bit(other) != 0 && known.zone == task.zone && known.after == task.after
            });
            let plain =
                task.after == 0 && self.tasks.iter().all(|one| one.after & bit(number) == 0);
            if to_do & bit(number) != 0
                && task.zone.is_some()
                && !(plain && same_zone)
                && kept.count_ones() < WALKED_MAX
            {
                kept |= bit(number);
            }
        }
        kept
    }

    /// The shortest walk from `zone` that does all of `to_do` in order, ending anywhere (Held and
    /// Karp 1962, over the orders that precedence leaves), kept for the next time. What can be done
    /// where one stands is done first.
    fn walk_s(&mut self, to_do: u64, zone: usize) -> u32 {
        let mut to_do = to_do;
        while let Some(here) = self.ready(to_do).find(|task| self.zone_of(*task) == Some(zone)) {
            to_do &= !bit(here);
        }
        if to_do == 0 {
            return 0;
        }
        if let Some(known) = self.known.get(&(to_do, zone)) {
            return *known;
        }
        let mut zones: Vec<usize> =
            self.ready(to_do).filter_map(|task| self.zone_of(task)).collect();
        zones.sort_unstable();
        zones.dedup();
        let mut shortest = u32::MAX;
        for next in zones {
            let step_s = self.walks.between(zone, next);
            if step_s < shortest {
                shortest = shortest.min(step_s.saturating_add(self.walk_s(to_do, next)));
            }
        }
        self.known.insert((to_do, zone), shortest);
        shortest
    }

    fn zone_of(&self, task: usize) -> Option<usize> {
        self.tasks.get(task).and_then(|task| task.zone)
    }

    /// Tasks of `to_do` that wait for none of it.
    fn ready(&self, to_do: u64) -> impl Iterator<Item = usize> {
        let tasks = self.tasks.iter().enumerate();
        tasks
            .filter(move |(number, task)| to_do & bit(*number) != 0 && task.after & to_do == 0)
            .map(|(number, _)| number)
    }
}

fn bit(task: usize) -> u64 {
    u32::try_from(task).ok().and_then(|task| 1_u64.checked_shl(task)).unwrap_or(0)
}

/// The value that all have, if any.
fn only(mut values: impl Iterator<Item = usize>) -> Option<usize> {
    let first = values.next()?;
    values.all(|value| value == first).then_some(first)
}
