//! A way that begins its waits as early as can be, so that the rest is done while they last.

use super::{Ended, Node, Search};

/// How much the bound is overstated.
const HASTE_EARLY: u32 = 2;

impl Search<'_> {
    /// Where some steps lead if what begins each wait comes first, with only the steps that it needs,
    /// and the rest is put in order anew from there.
    pub(super) fn with_waits_begun(&mut self, steps: &[usize], work_max: usize) -> Option<Node> {
        let places = self.begin(steps);
        let last = *places.last()?;
        let begun: Vec<&usize> = places.iter().filter_map(|place| steps.get(*place)).collect();
        let mut first = steps.get(..=last)?.to_vec();
        for step in first.clone().into_iter().rev().filter(|step| !begun.contains(&step)) {
            let fewer: Vec<usize> = first.iter().copied().filter(|one| *one != step).collect();
            if self.at(&fewer).is_some() {
                first = fewer;
            }
        }
        let start = self.at(&first)?;
        self.begin_anew(false, HASTE_EARLY);
        let order = match self.run_from(start, work_max) {
            Ended::Reached(number) => self.steps_to(number),
            Ended::Exhausted | Ended::CutShort(_) => {
                let rest = steps.iter().copied().filter(|step| !first.contains(step));
                [first.clone(), rest.collect()].concat()
            }
        };
        self.with_waits_filled(&order)
    }

    /// The same steps with each that begins a wait sooner, where that costs less: what it can do without,
    /// and brings no nuisance by coming later, is put off until the wait has begun.
    pub(super) fn with_waits_sooner(&self, mut best: Node) -> Node {
        let begins = self.begin(&best.taken).into_iter();
        let begins: Vec<usize> = begins.filter_map(|at| best.taken.get(at).copied()).collect();
        for step in begins {
            let Some(place) = best.taken.iter().position(|one| *one == step) else { continue };
            let (before, rest) = best.taken.split_at(place);
            let rest = rest.get(1..).unwrap_or_default();
            let (mut needed, mut put_off) = (before.to_vec(), Vec::new());
            for number in (0..before.len()).rev() {
                let mut fewer = needed.clone();
                let without = fewer.remove(number);
                let then = self.at(&[fewer.as_slice(), &[step]].concat());
                if then.is_some_and(|node| node.cost.nuisances <= best.cost.nuisances) {
                    needed = fewer;
                    put_off.insert(0, without);
                }
            }
            let tried = [needed.as_slice(), &[step], put_off.as_slice(), rest].concat();
            if let Some(node) = self.follow(&tried).filter(|node| node.cost < best.cost) {
                best = node;
            }
        }
        best
    }

    /// The places of those of some steps that begin a wait, as far as each is permitted.
    fn begin(&self, steps: &[usize]) -> Vec<usize> {
        let (mut node, mut places) = (self.start(), Vec::new());
        for (place, step) in steps.iter().enumerate() {
            let ripe_s = node.ripe_s.clone();
            if self.go_if_can(&mut node, *step).is_none() {
                break;
            }
            if node.ripe_s != ripe_s {
                places.push(place);
            }
        }
        places
    }

    /// Where some steps lead, each of them permitted.
    fn at(&self, steps: &[usize]) -> Option<Node> {
        let mut node = self.start();
        steps.iter().try_for_each(|step| self.go_if_can(&mut node, *step))?;
        Some(node)
    }

    fn go_if_can(&self, node: &mut Node, next: usize) -> Option<()> {
        self.compiled.steps.get(next).filter(|step| self.can_go(node, step))?;
        self.go(node, next)
    }
}
