//! A way that begins its waits as early as can be, so that the rest is done while they last.

use super::{Ended, HASTY_MAX, Node, Search};

impl Search<'_> {
    /// Where some steps lead if what begins each wait comes first, with only the steps that it needs,
    /// and the rest is put in order anew from there.
    pub(super) fn with_waits_begun(&mut self, steps: &[usize]) -> Option<Node> {
        let begins = |place: usize, step: usize| {
            let (before, after) = (self.at(steps.get(..place)?)?, self.at(steps.get(..=place)?)?);
            let mut clocks = before.ripe_s.iter().zip(&after.ripe_s);
            clocks.any(|(before, after)| before != after).then_some((place, step))
        };
        let places = steps.iter().enumerate().filter_map(|(place, step)| begins(place, *step));
        let begun: Vec<usize> = places.map(|(place, _)| place).collect();
        let last = *begun.last()?;
        let mut first = steps.get(..=last)?.to_vec();
        let needed: Vec<usize> =
            begun.iter().filter_map(|place| steps.get(*place)).copied().collect();
        for place in (0..first.len()).rev() {
            let Some(step) = first.get(place).filter(|step| !needed.contains(step)) else {
                continue;
            };
            let mut tried = first.clone();
            let step = *step;
            tried.retain(|one| *one != step);
            if self.at(&tried).is_some() {
                first = tried;
            }
        }
        let start = self.at(&first)?;
        let rest = steps.iter().copied().filter(|step| !first.contains(step));
        let mut order = [first.clone(), rest.collect()].concat();
        if let Ended::Reached(number) = self.run_from(start, HASTY_MAX) {
            order = self.steps_to(number);
        }
        self.with_waits_filled(&order)
    }

    /// Where some steps lead, each of them permitted.
    fn at(&self, steps: &[usize]) -> Option<Node> {
        let take = |node: Node, next: &usize| {
            let step = self.compiled.steps.get(*next)?;
            let can = step.is_of_effect(&node.beliefs, &step.apply(&node.beliefs))
                && self.compiled.is_permitted(&node.beliefs, step);
            if can { self.then(node, *next) } else { None }
        };
        steps.iter().try_fold(self.start(), take)
    }
}
