//! Which tasks must come after which.

use super::{Bound, TASKS_MAX, Task, What, bit};
use crate::routine::form::Lit;

impl Bound<'_> {
    /// Puts a task after the one that brings `lit` about: an aim that comes to the same, or a task
    /// of its own.
    pub(super) fn wait_for(&mut self, task: usize, lit: Lit) {
        let rests = self.rests(lit.var);
        let same = self.tasks.iter().position(|known| match known.what {
            What::Aim(number) => self.compiled.aims.get(number).is_some_and(|aim| {
                matches!(aim.lits.as_slice(), [one] if one.var == lit.var && rests & lit.set == rests & one.set)
            }),
            What::Condition { lit: one, of } => of == task && one.var == lit.var && one.set == lit.set,
        });
        let before = match same {
            Some(before) => before,
            None if self.tasks.len() < TASKS_MAX => {
                let steps = self.compiled.steps.iter().enumerate();
                let steps =
                    steps.filter(|(_, step)| step.may_bring_about(lit, false)).map(|(n, _)| n);
                self.add(What::Condition { lit, of: task }, steps.collect())
            }
            None => return,
        };
        self.put_after(task, before);
    }

    /// Puts a task after another, unless the other already comes after it; whether it did.
    fn put_after(&mut self, task: usize, before: usize) -> bool {
        let long_after = |number: usize| self.tasks.get(number).map_or(0, |one| one.long_after);
        if before == task || long_after(before) & bit(task) != 0 {
            return false;
        }
        let new = long_after(before) | bit(before);
        if let Some(task) = self.tasks.get_mut(task) {
            task.after |= bit(before);
        }
        for (number, one) in self.tasks.iter_mut().enumerate() {
            if number == task || one.long_after & bit(task) != 0 {
                one.long_after |= new;
            }
        }
        true
    }

    /// The literal of an aim that has just one.
    fn sole(&self, task: usize) -> Option<Lit> {
        match self.aim(task)?.lits.as_slice() {
            [lit] => Some(*lit),
            _ => None,
        }
    }

    /// Puts an aim after every task whose steps all throw it back.
    pub(super) fn wait_for_what_throws_back(&mut self) {
        for number in 0..self.tasks.len() {
            let Some(lit) = self.sole(number) else { continue };
            let throws_back = |step: &usize| {
                self.step(*step).is_some_and(|step| {
                    let mut brought = step.changes.iter().filter(|one| step.brings(one));
                    brought.any(|one| one.var == lit.var && one.to & lit.set == 0)
                })
            };
            let before = self.tasks.iter().enumerate().filter(|(other, task)| {
                *other != number && !task.steps.is_empty() && task.steps.iter().all(throws_back)
            });
            let before: Vec<usize> = before.map(|(other, _)| other).collect();
            for other in before {
                if self.put_after(number, other)
                    && let Some(task) = self.tasks.get_mut(number)
                {
                    task.undone_by |= bit(other);
                }
            }
        }
    }

    /// Puts an aim after each task that waits for what the aim cannot hold with: that holds when the
    /// task is done, so the aim is done later, or again.
    pub(super) fn wait_for_what_undoes(&mut self) {
        let against = |one: Lit, lit: Lit| one.var == lit.var && one.set & lit.set == 0;
        for other in 0..self.tasks.len() {
            for lit in self.conditions(other) {
                for number in 0..self.tasks.len() {
                    if self.sole(number).is_some_and(|one| against(one, lit)) {
                        self.put_after(number, other);
                    }
                }
            }
        }
        for number in 0..self.tasks.len() {
            let Some(one) = self.sole(number) else { continue };
            for other in 0..self.tasks.len() {
                if let Some(Task { what: What::Condition { lit, .. }, .. }) = self.tasks.get(other)
                    && against(one, *lit)
                    && self.put_after(number, other)
                    && let Some(task) = self.tasks.get_mut(number)
                {
                    task.undone_by |= bit(other);
                }
            }
        }
    }
}
