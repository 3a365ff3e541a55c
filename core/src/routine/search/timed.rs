//! The whole question: without waiting where time must pass, then with it, and in haste where that
//! takes too long.

use super::anyhow::{Anyhow, anyhow};
use super::{ANYHOW_MAX, Ended, Found, HASTE, HASTY, Node, Search};
use crate::routine::form::Step;
use crate::routine::{Cost, Problem, Proof, compile};
use crate::vehicle::Deed;

/// `reduced`: with the free-step reduction. Tests switch it off to hold the two against each other.
///
/// Where time must pass, the problem is first put without waiting: what that costs is a lower
/// bound, and its order, with the waits put in, may do already.
pub(in crate::routine) fn search_with(problem: &Problem, reduced: bool, work_max: usize) -> Found {
    let Some(compiled) = compile::compile(problem) else { return Found::Nothing };
    let any = if reduced { anyhow(&compiled, ANYHOW_MAX) } else { Anyhow::CutShort };
    let mut orders = match any {
        Anyhow::Nothing => return Found::Nothing,
        Anyhow::Steps(steps) => vec![steps],
        Anyhow::CutShort => Vec::new(),
    };
    let mut plain = Search::new(problem, &compiled, reduced);
    let waits = reduced && !compiled.clocks.is_empty();
    let mut asked = Asked::about(reduced, work_max);
    let without = waits.then(|| compiled.without_waiting());
    let mut timeless = without.as_ref().map(|without| Search::new(problem, without, reduced));
    // Where that alone took too long, so does the whole.
    let mut too_long = false;
    if let Some(timeless) = &mut timeless {
        match asked.cheapest(timeless) {
            Ended::Reached((steps, cost)) => {
                let timed = plain.with_waits_filled(&steps);
                if let Some(node) = timed.filter(|node| node.cost == cost) {
                    let node = plain.without_idle(node);
                    return Found::Plan(plain.plan_of(node, Proof::Exact, asked.nodes));
                }
                orders.push(steps);
            }
            Ended::Exhausted => return Found::Nothing,
            Ended::CutShort(_) => too_long = true,
        }
        // The first answer mostly does: the second is asked for with less.
        asked.left = asked.left.min(work_max / 2);
    }
    let whole = if too_long { Ended::CutShort(asked.floor) } else { asked.cheapest(&mut plain) };
    match whole {
        Ended::Reached((steps, cost)) => {
            let mut node = Node { taken: steps, cost, ..plain.start() };
            if waits {
                node = plain.without_idle(node);
            }
            return Found::Plan(plain.plan_of(node, Proof::Exact, asked.nodes));
        }
        Ended::Exhausted => return Found::Nothing,
        Ended::CutShort(_) => {}
    }
    match asked.in_haste(timeless.as_mut().unwrap_or(&mut plain)) {
        Ended::Reached(steps) => orders.push(steps),
        Ended::Exhausted => return Found::Nothing,
        Ended::CutShort(_) => {}
    }
    let each = asked.left.checked_div(orders.len()).unwrap_or(0);
    let begun = |steps: &Vec<usize>| plain.with_waits_begun(steps, each);
    let early: Vec<Node> = orders.iter().filter(|_| waits).filter_map(begun).collect();
    let timed = orders.iter().filter_map(|steps| plain.with_waits_filled(steps));
    let Some(best) = timed.chain(early).min_by_key(|node| node.cost) else {
        return Found::CutShort;
    };
    let sooner = waits.then(|| plain.put_together(plain.with_waits_sooner(best.clone())));
    let best = plain.put_together(best);
    let best = sooner.into_iter().chain([best]).min_by_key(|node| node.cost).unwrap_or_default();
    let node = plain.without_idle(best);
    let floor_s = if node.cost.is_as_grave_as(asked.floor) { asked.floor.elapsed_s } else { 0 };
    let seconds = node.cost.elapsed_s.saturating_sub(floor_s.max(plain.least_s()));
    Found::Plan(plain.plan_of(node, Proof::Gap { seconds }, asked.nodes))
}

/// A question, and what is known of its answer so far.
struct Asked {
    /// Work that may still be done.
    left: usize,
    /// What of it is kept for each hasty search.
    hasty: usize,
    /// No plan costs less.
    floor: Cost,
    /// Nodes opened.
    nodes: usize,
}

impl Asked {
    fn about(reduced: bool, work_max: usize) -> Self {
        let hasty = if reduced { work_max / HASTY } else { 0 };
        Self { left: work_max, hasty, floor: Cost::default(), nodes: 0 }
    }

    /// A cheapest way, with its steps.
    fn cheapest(&mut self, search: &mut Search) -> Ended<(Vec<usize>, Cost)> {
        let compiled = search.compiled;
        let waits_out = |step: &Step| step.deed == Deed::Wait && step.leads_out != [false; 2];
        let broken = compiled.rules.iter().any(|rule| rule.to_get_out_of)
            && !compiled.steps.iter().any(waits_out);
        for straight in [true, false] {
            if straight && !(search.reduced && broken) {
                continue;
            }
            search.begin_anew(straight, 1);
            search.floor = self.floor;
            let kept = self.hasty.saturating_mul(HASTE.len());
            let ended = search.run(self.left.saturating_sub(kept));
            self.nodes = self.nodes.saturating_add(search.nodes.len());
            self.left = self.left.saturating_sub(search.work());
            match ended {
                Ended::Reached(node) if !straight || search.is_least_exposed(node) => {
                    let cost = search.nodes.get(node).map(|node| node.cost).unwrap_or_default();
                    self.floor = self.floor.max(cost);
                    return Ended::Reached((search.steps_to(node), cost));
                }
                Ended::CutShort(least) => {
                    self.floor = self.floor.max(least);
                    return Ended::CutShort(least);
                }
                Ended::Exhausted if !straight => return Ended::Exhausted,
                Ended::Reached(_) | Ended::Exhausted => {}
            }
        }
        Ended::Exhausted
    }

    /// Any way, sooner found.
    fn in_haste(&mut self, search: &mut Search) -> Ended<Vec<usize>> {
        for haste in HASTE {
            search.begin_anew(false, haste);
            let ended = search.run(self.left.min(self.hasty));
            self.left = self.left.saturating_sub(search.work());
            match ended {
                Ended::Reached(node) => return Ended::Reached(search.steps_to(node)),
                Ended::Exhausted => return Ended::Exhausted,
                Ended::CutShort(_) => {}
            }
        }
        Ended::CutShort(self.floor)
    }
}
