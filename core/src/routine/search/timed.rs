//! The whole question: without waiting where time must pass, then with it, and in haste where that
//! takes too long.

use super::anyhow::{Anyhow, anyhow};
use super::{ANYHOW_MAX, Ended, Found, HASTE, HASTY_MAX, Node, Search};
use crate::routine::form::{Compiled, Step};
use crate::routine::{Cost, Problem, Proof, compile, reach};
use crate::vehicle::Deed;

/// How much longer a search may be where something is broken: danger is worth it.
const IN_DANGER: usize = 3;

/// `reduced`: with the free-step reduction. Tests switch it off to hold the two against each other.
///
/// Where time must pass, the problem is first put without waiting: what that costs is a lower
/// bound, and its order, with the waits put in, may do already.
pub(in crate::routine) fn search_with(problem: &Problem, reduced: bool, work_max: usize) -> Found {
    let compiled = compile::compile(problem);
    if !reach::may_be_reached(&compiled) {
        return Found::Nothing;
    }
    let any = if reduced { anyhow(&compiled, ANYHOW_MAX) } else { Anyhow::CutShort };
    let mut orders = match any {
        Anyhow::Nothing => return Found::Nothing,
        Anyhow::Steps(steps) => vec![steps],
        Anyhow::CutShort => Vec::new(),
    };
    let mut plain = Search::new(problem, &compiled, reduced, 1);
    let waits = reduced && !compiled.clocks.is_empty();
    // It is asked twice where time must pass, and the first answer mostly does.
    let last = if waits { work_max / 4 } else { 0 };
    let mut asked = Asked::about(problem, reduced, work_max.saturating_sub(last));
    let timeless = waits.then(|| compiled.without_waiting());
    // Where that alone took too long, so does the whole.
    let mut too_long = false;
    if let Some(timeless) = &timeless {
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
        // How soon one is out of danger is known by now.
        asked.in_danger = 1;
        asked.work_max = last;
    }
    let whole = if too_long { Ended::CutShort(asked.floor) } else { asked.cheapest(&compiled) };
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
    match asked.in_haste(timeless.as_ref().unwrap_or(&compiled)) {
        Ended::Reached(steps) => orders.push(steps),
        Ended::Exhausted => return Found::Nothing,
        Ended::CutShort(_) => {}
    }
    let begun =
        |steps: &Vec<usize>| Search::new(problem, &compiled, reduced, 2).with_waits_begun(steps);
    let early = orders.iter().filter(|_| waits).filter_map(begun);
    let timed = orders.iter().filter_map(|steps| plain.with_waits_filled(steps));
    let Some(best) = timed.chain(early).min_by_key(|node| node.cost) else {
        return Found::CutShort;
    };
    let node = plain.without_idle(plain.put_together(best));
    let floor_s = if node.cost.is_as_grave_as(asked.floor) { asked.floor.elapsed_s } else { 0 };
    let seconds = node.cost.elapsed_s.saturating_sub(floor_s.max(plain.least_s()));
    Found::Plan(plain.plan_of(node, Proof::Gap { seconds }, asked.nodes))
}

/// A question, and what is known of its answer so far.
struct Asked<'a> {
    problem: &'a Problem<'a>,
    reduced: bool,
    work_max: usize,
    /// How much longer a search may be where something is broken.
    in_danger: usize,
    /// No plan costs less.
    floor: Cost,
    /// Nodes opened.
    nodes: usize,
}

impl<'a> Asked<'a> {
    fn about(problem: &'a Problem<'a>, reduced: bool, work_max: usize) -> Self {
        let floor = Cost::default();
        Self { problem, reduced, work_max, in_danger: IN_DANGER, floor, nodes: 0 }
    }

    /// A cheapest way, with its steps.
    fn cheapest(&mut self, compiled: &Compiled) -> Ended<(Vec<usize>, Cost)> {
        let waits_out = |step: &Step| step.deed == Deed::Wait && step.leads_out != [false; 2];
        let broken = compiled.rules.iter().any(|rule| rule.to_get_out_of)
            && !compiled.steps.iter().any(waits_out);
        let longer = if broken { self.in_danger } else { 1 };
        let work_max = self.work_max.saturating_mul(longer);
        let reduced = self.reduced;
        for straight in [true, false] {
            if straight && !(reduced && broken) {
                continue;
            }
            let plain = Search::new(self.problem, compiled, reduced, 1);
            let mut search = Search { straight, floor: self.floor, ..plain };
            let ended = search.run(work_max);
            self.nodes = self.nodes.saturating_add(search.nodes.len());
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
    fn in_haste(&self, compiled: &Compiled) -> Ended<Vec<usize>> {
        for haste in HASTE {
            let mut search = Search::new(self.problem, compiled, self.reduced, haste);
            match search.run(self.work_max.min(HASTY_MAX)) {
                Ended::Reached(node) => return Ended::Reached(search.steps_to(node)),
                Ended::Exhausted => return Ended::Exhausted,
                Ended::CutShort(_) => {}
            }
        }
        Ended::CutShort(self.floor)
    }
}
