//! Being there in time where what runs by itself must not end alone: a tank that fills.
//!
//! From when it may end somebody is in its zone; for how long nobody was is part of the cost, and
//! weighs more than all but danger and damage. So an order in which somebody is always there is the
//! cheapest wherever there is one, and where there is none (the routine begins far away, and too
//! late) the cheapest is there soonest.

use super::{Node, Search};
use crate::routine::form::{NEVER, Step};

impl Search<'_> {
    /// When each thing that is attended and runs may end, with its zone and its clock.
    fn running(&self, ripe_s: &[u32]) -> impl Iterator<Item = (u32, usize, usize)> {
        let clocks = self.compiled.clocks.iter().enumerate();
        clocks.zip(ripe_s).filter_map(|((number, clock), ripe_s)| {
            (*ripe_s != NEVER).then_some((*ripe_s, clock.attended?, number))
        })
    }

    /// For how long nobody is there while a person whose hands are free goes to `zone`, arrives
    /// `there_s` and is done `ends_s`, both from the start. Unit: s.
    pub(super) fn alone_s(&self, from: &Node, zone: usize, there_s: u32, ends_s: u32) -> u32 {
        let alone = self.running(&from.ripe_s).map(|(ripe_s, there, _)| {
            let away_s = match (from.zone == there, zone == there) {
                (true, true) => return 0,
                (false, true) => there_s,
                (true | false, false) => ends_s,
            };
            away_s.saturating_sub(ripe_s.max(from.free_s))
        });
        alone.fold(0, u32::saturating_add)
    }

    /// For how long nobody can be there any more, from a node on, whatever follows. Unit: s.
    pub(super) fn alone_ahead_s(&self, node: &Node) -> u32 {
        let alone = self.running(&node.ripe_s).map(|(ripe_s, there, _)| {
            let walk_s = self.problem.vehicle.walks.between(node.zone, there);
            let there_s = node.free_s.saturating_add(walk_s);
            if node.zone == there { 0 } else { there_s.saturating_sub(ripe_s.max(node.free_s)) }
        });
        alone.fold(0, u32::saturating_add)
    }

    /// Since when each of them may have ended, counted back from a node; the time that is still to
    /// come is below zero. Unit: s.
    pub(super) fn since_s(&self, node: &Node) -> Vec<(usize, i64)> {
        let since = |(ripe_s, _, clock): (u32, usize, usize)| {
            let from_s = i64::from(ripe_s.max(node.free_s));
            (clock, i64::from(node.cost.elapsed_s).saturating_sub(from_s))
        };
        self.running(&node.ripe_s).map(since).collect()
    }

    /// Ends first what would have nobody there if a step were taken now; whether it ended anything.
    pub(super) fn see_to_ends(&self, node: &mut Node, step: &Step) -> bool {
        let mut ended = false;
        while self.running(&node.ripe_s).next().is_some() {
            let alone_s = |node: &Node| node.cost.alone_s.saturating_add(self.alone_ahead_s(node));
            let then = self.take(node, step, step.apply(&node.beliefs));
            let Some(then) = then.filter(|then| alone_s(then) > alone_s(node)) else { break };
            let late = |(ripe_s, there, clock): (u32, usize, usize)| {
                let walk_s = self.problem.vehicle.walks.between(then.zone, there);
                (then.zone != there && then.free_s.saturating_add(walk_s) > ripe_s).then_some(clock)
            };
            let late: Vec<usize> = self.running(&node.ripe_s).filter_map(late).collect();
            if !late.into_iter().any(|clock| self.end(node, clock).is_some()) {
                break;
            }
            ended = true;
        }
        ended
    }

    /// Waits until what a clock runs for can be ended, and ends it. Nothing is done where it cannot.
    fn end(&self, node: &mut Node, clock: usize) -> Option<()> {
        let clock = self.compiled.clocks.get(clock)?;
        let ends = |step: &Step| {
            clock.of.is_some_and(|of| step.new_settings(of) & !clock.setting != 0)
                && step.before.iter().any(|lit| lit.var == clock.var)
        };
        let step = self.compiled.steps.iter().position(ends)?;
        let mut then = node.clone();
        while !self.can_go(&then, self.compiled.steps.get(step)?) {
            self.wait(&mut then)?;
        }
        self.go(&mut then, step)?;
        *node = then;
        Some(())
    }
}
