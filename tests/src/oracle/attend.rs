//! Being there in time where something must not end alone.

use stowfast_core::routine::Problem;

use super::{Act, NEVER, Rules};

impl Rules {
    /// Whether somebody must be there once an age is old, and it counts.
    pub(super) fn is_attended(&self, state: &[u8], age: usize) -> bool {
        self.attended.get(age).is_some_and(Option::is_some) && self.left_s(state, age) != NEVER
    }

    /// For how long an age has been old by now, as far as one has only waited since.
    pub(super) fn late_s(&self, state: &[u8], age: usize) -> u32 {
        self.left_s(state, self.ages.len().saturating_add(1).saturating_add(age))
    }

    /// For how long nobody is where somebody must be, while an act is made: one sets out when the
    /// hands are free.
    pub(super) fn alone_s(&self, problem: &Problem, act: &Act, state: &[u8]) -> u32 {
        let from = state.last().map_or(0, |zone| *zone);
        let (idle_s, spent_s) = (self.idle_s(state), self.spent_s(problem, act, state));
        let walk_s = problem.vehicle.walks.between(usize::from(from), usize::from(act.zone));
        let alone = (0..self.ages.len()).filter(|age| self.is_attended(state, *age)).map(|age| {
            let there = self.attended.get(age).copied().flatten();
            let (was, is) = (there == Some(from), there == Some(act.zone));
            // Away until then, counted from when the hands were free; and from then on it is due.
            let away_s = match (was, is) {
                (true, true) => 0,
                (false, true) => walk_s,
                (true | false, false) => idle_s.saturating_add(spent_s),
            };
            let due_s = match self.left_s(state, age) {
                0 => idle_s.saturating_sub(self.late_s(state, age)),
                left_s => idle_s.saturating_add(left_s),
            };
            away_s.saturating_sub(due_s)
        });
        alone.sum()
    }
}
