//! What must hold before a task is done.

use super::{Bound, Task, What};
use crate::routine::form::{Lit, Step, at, settings_of};

impl Bound<'_> {
    /// The literals that every step of a task waits for.
    pub(super) fn conditions(&self, task: usize) -> Vec<Lit> {
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
            lits.push(Lit { var, set: clock.setting });
        }
        for rule in step.rules.iter().filter_map(|one| self.compiled.rules.get(*one)) {
            let own = |lit: &&Lit| {
                step.changes
                    .iter()
                    .any(|one| one.var == lit.var && (one.to | one.middle) & lit.set != 0)
            };
            let others = rule.lits.iter().filter(|lit| !own(lit));
            let others: Vec<_> = others.filter(|lit| !self.holds_until(**lit, task)).collect();
            if let [other] = others.as_slice()
                && rule.lits.iter().filter(own).any(|lit| self.makes_possible(step, *lit, task))
            {
                lits.push(Lit { set: !other.set & 0x3f, ..**other });
            }
        }
        lits
    }

    /// The literal that a task brings about, and whether it must be fresh too; none where there are
    /// several.
    pub(super) fn done(&self, task: &Task) -> Option<(Lit, bool)> {
        match task.what {
            What::Aim(number) => {
                let aim = self.compiled.aims.get(number)?;
                let [lit] = aim.lits.as_slice() else { return None };
                Some((*lit, aim.fresh))
            }
            What::Condition { lit, .. } => Some((lit, false)),
        }
    }

    /// Whether a literal is possible as long as a task is to do: all other settings of its variable
    /// are in it.
    fn holds_until(&self, lit: Lit, task: &Task) -> bool {
        self.done(task).is_some_and(|(done, fresh)| {
            !fresh && done.var == lit.var && self.rests(lit.var) & !done.set & !lit.set == 0
        })
    }

    /// Whether a step that does a task makes a literal possible wherever the task is still to do:
    /// the literal is not yet certain there, since where its variable rests in it, the task is done.
    fn makes_possible(&self, step: &Step, lit: Lit, task: &Task) -> bool {
        let brought = step.changes.iter().filter(|one| one.var == lit.var);
        let brought = brought.fold(0, |set, one| set | one.to | one.middle);
        let Some((done, fresh)) = self.done(task) else { return false };
        let on_the_same = done.var == lit.var
            && !self.is_certain_outside(lit, done)
            && (!fresh || !done.must_hold(&self.compiled.start));
        brought & lit.set != 0 && (on_the_same || (!fresh && self.is_new_to(lit, task, done)))
    }

    /// Whether only the steps that do a task, and some that wait for it, can make a literal certain,
    /// and what they do is never undone: so that it is not certain where the task is still to do.
    fn is_new_to(&self, lit: Lit, task: &Task, done: Lit) -> bool {
        let comes_later = |step: &Step| {
            step.before.iter().any(|one| one.var == done.var && one.set & !done.set == 0)
        };
        let mut steps = self.compiled.steps.iter().enumerate();
        !lit.must_hold(&self.compiled.start)
            && steps.all(|(number, step)| {
                let known = task.steps.contains(&number) || comes_later(step);
                step.changes.iter().all(|one| {
                    (one.var != lit.var || known || one.seen & !lit.set != 0)
                        && (one.var != done.var || one.seen & !done.set == 0)
                })
            })
    }

    /// Whether a literal can be certain where another on the same variable is not.
    fn is_certain_outside(&self, lit: Lit, done: Lit) -> bool {
        let changes = self.compiled.steps.iter().flat_map(|step| &step.changes);
        let mut found = changes.filter(|one| one.var == lit.var).map(|one| one.seen);
        let start = settings_of(at(&self.compiled.start, lit.var));
        let outside = |known: u8| known & !lit.set == 0 && known & !done.set != 0;
        outside(start) || found.any(outside)
    }

    /// The settings that a variable can have between steps.
    pub(super) fn rests(&self, var: usize) -> u8 {
        let changes = self.compiled.steps.iter().flat_map(|step| &step.changes);
        let brought = changes.filter(|one| one.var == var).fold(0, |set, one| set | one.to);
        settings_of(at(&self.compiled.start, var)) | brought
    }
}
