//! Which of two ways to the same beliefs and zone is kept.

use super::Node;
use crate::routine::Cost;

/// How somewhere was reached.
#[derive(PartialEq)]
pub(super) struct Reached {
    /// What it took.
    cost: Cost,
    /// When each age will be old, counted from the start. Unit: s.
    ripe_s: Vec<u32>,
    /// In how many seconds from there.
    ripen_s: Vec<u32>,
    /// When the last step ended, counted from the start. Unit: s.
    free_s: u32,
    /// How long that is ago.
    idle_s: u32,
    /// What must not end alone and runs, and since when it may have ended, counted back. Unit: s.
    since_s: Vec<(usize, i64)>,
}

impl Reached {
    pub(super) fn at(node: &Node, since_s: Vec<(usize, i64)>) -> Self {
        let (cost, free_s, idle_s) = (node.cost, node.free_s, node.idle_s());
        let ripe_s = node.ripe_s.clone();
        Self { cost, ripe_s, ripen_s: node.ripen_s(), free_s, idle_s, since_s }
    }

    /// Whether whatever follows where another reached the same, follows here at no more cost: for
    /// all that it hangs on comes no later, counted from there. Counted from the start it will do
    /// too, if no time is exposure: then what is ahead stays ahead until a wait evens it out. What
    /// must not end alone is no better for coming sooner: it must come at the same time.
    pub(super) fn outdoes(&self, other: &Self, exposed: bool) -> bool {
        let runs = !self.since_s.is_empty();
        if self.since_s != other.since_s || runs && self.idle_s != other.idle_s {
            return false;
        }
        let is_no_later =
            |one: &[u32], other: &[u32]| one.iter().zip(other).all(|(one, other)| one <= other);
        let from_there = self.cost <= other.cost
            && self.idle_s >= other.idle_s
            && is_no_later(&self.ripen_s, &other.ripen_s);
        from_there
            || !exposed
                && !runs
                && self.cost.is_no_more_in_any_part(other.cost)
                && self.free_s <= other.free_s
                && is_no_later(&self.ripe_s, &other.ripe_s)
    }
}
