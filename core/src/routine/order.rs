//! The ordering core: the cheapest order of given steps, where the cost hangs on which step comes
//! after which and some steps must wait for others.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

/// An order and what it costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ordering {
    /// The steps, in order.
    pub steps: Vec<usize>,
    /// The sum of the arcs.
    pub cost: u64,
}

/// Most steps that one call orders.
const STEPS_MAX: usize = 128;

/// The cheapest order of steps `0..count`, exactly, or `None` where no order is permitted or the
/// search would open more than `nodes_max` nodes.
///
/// `permitted(done, step)` tells whether `step` may come once exactly the steps of `done` (bit by
/// bit) are behind it. `arc(from, to)` is what `to` costs straight after `from` (`None`: at the
/// start); it need not be symmetric. A fixed first or last step is a matter of `permitted`.
///
/// Best-first search over (steps done, last step), guided by the cheapest arc into each step still
/// to come, which never overestimates; so the first complete order is a cheapest one (Hart,
/// Nilsson and Raphael 1968). Among equals the order with the smaller step numbers is kept.
pub fn order(
    count: usize,
    nodes_max: usize,
    permitted: impl Fn(u128, usize) -> bool,
    arc: impl Fn(Option<usize>, usize) -> u64,
) -> Option<Ordering> {
    if count > STEPS_MAX {
        return None;
    }
    let cheapest_in: Vec<u64> = (0..count)
        .map(|to| {
            let from = (0..count).filter(|from| *from != to).map(Some).chain([None]);
            from.map(|from| arc(from, to)).min().unwrap_or(0)
        })
        .collect();
    let left = |done: u128| -> u64 {
        let to_come = (0..count).filter(|step| done & bit(*step) == 0);
        to_come.filter_map(|step| cheapest_in.get(step)).sum()
    };
    let mut best: BTreeMap<(u128, Option<usize>), u64> = BTreeMap::from([((0, None), 0)]);
    let mut open = BinaryHeap::from([Reverse((left(0), Vec::new(), 0_u64, 0_u128))]);
    let mut nodes = 0_usize;
    while let Some(Reverse((_, steps, cost, done))) = open.pop() {
        let last = steps.last().copied();
        if steps.len() == count {
            return Some(Ordering { steps, cost });
        }
        if best.get(&(done, last)).is_some_and(|known| *known < cost) {
            continue;
        }
        nodes = nodes.saturating_add(1);
        if nodes > nodes_max {
            return None;
        }
        for step in (0..count).filter(|step| done & bit(*step) == 0 && permitted(done, *step)) {
            let cost = cost.saturating_add(arc(last, step));
            let done = done | bit(step);
            let known = best.entry((done, Some(step))).or_insert(u64::MAX);
            if cost < *known {
                *known = cost;
                let mut longer = steps.clone();
                longer.push(step);
                open.push(Reverse((cost.saturating_add(left(done)), longer, cost, done)));
            }
        }
    }
    None
}

/// The bit of a step in a set of steps.
#[must_use]
fn bit(step: usize) -> u128 {
    u32::try_from(step).ok().and_then(|step| 1_u128.checked_shl(step)).unwrap_or(0)
}
