//! A plan that was found in haste, put together by zone.

use super::{Node, Search};

impl Search<'_> {
    /// The same steps in an order that costs less, as far as one step put next to another of its
    /// zone, or one visit of a zone made elsewhere, leads to it.
    pub(super) fn put_together(&self, best: Node) -> Node {
        let mut best = self.steps_moved(self.with_fewer_nuisances(best));
        while let Some(better) = self.with_a_visit_moved(&best) {
            best = better;
        }
        best
    }

    /// The same steps with what ends a nuisance put before what leads into it, where that may be.
    fn with_fewer_nuisances(&self, mut best: Node) -> Node {
        let step = |taken: &[usize], place: usize| self.compiled.steps.get(*taken.get(place)?);
        for later in 1..best.taken.len() {
            if best.cost.nuisances == 0 {
                break;
            }
            let Some(ends) = step(&best.taken, later) else { continue };
            let leads_in = |place: &usize| {
                let mut rules =
                    step(&best.taken, *place).into_iter().flat_map(|one| &one.nuisances);
                rules.any(|rule| {
                    self.compiled.rules.get(*rule).is_some_and(|rule| rule.on & ends.acts_on != 0)
                })
            };
            let mut better = (0..later).filter(leads_in).filter_map(|place| {
                let mut tried = best.taken.clone();
                tried.get_mut(place..=later)?.rotate_right(1);
                self.follow(&tried).filter(|node| node.cost < best.cost)
            });
            if let Some(node) = better.next() {
                best = node;
            }
        }
        best
    }

    /// The same steps with each put next to another of its zone where that costs less.
    fn steps_moved(&self, mut best: Node) -> Node {
        let zone = |step: usize| self.compiled.steps.get(step).map(|step| step.zone);
        for step in best.taken.clone() {
            for place in 0..best.taken.len() {
                let Some(from) = best.taken.iter().position(|one| *one == step) else { break };
                if place == from || best.taken.get(place).copied().and_then(zone) != zone(step) {
                    continue;
                }
                for to in [place, place.saturating_add(1)] {
                    let mut tried = best.taken.clone();
                    tried.remove(from);
                    tried.insert(to.min(tried.len()), step);
                    if let Some(node) = self.follow(&tried).filter(|node| node.cost < best.cost) {
                        best = node;
                        break;
                    }
                }
            }
        }
        best
    }

    /// With all that is done on one visit of a zone done before or after another visit. Waits are
    /// put in anew where they are needed. Only what walks less is followed.
    fn with_a_visit_moved(&self, best: &Node) -> Option<Node> {
        let zone = |number: &usize| {
            self.compiled.steps.get(*number).map_or(self.compiled.zone, |step| step.zone)
        };
        let steps: Vec<usize> =
            best.taken.iter().copied().filter(|step| !self.is_wait(*step)).collect();
        let visits: Vec<&[usize]> = steps.chunk_by(|one, next| zone(one) == zone(next)).collect();
        let walk_s = |visits: &[&[usize]]| {
            let zones = visits.iter().filter_map(|visit| visit.first()).map(zone);
            let from = |(at, sum): (usize, u32), to: usize| {
                (to, sum.saturating_add(self.problem.vehicle.walks.between(at, to)))
            };
            zones.fold((self.compiled.zone, 0), from).1
        };
        let mut orders: Vec<(u32, Vec<&[usize]>)> = Vec::new();
        for from in 0..visits.len() {
            for to in (0..visits.len()).filter(|to| *to != from) {
                let mut order = visits.clone();
                let moved = order.remove(from);
                order.insert(to, moved);
                orders.push((walk_s(&order), order));
            }
        }
        orders.retain(|(walk_s, _)| *walk_s < best.cost.walk_s);
        orders.sort_by_key(|(walk_s, _)| *walk_s);
        let mut found = orders.iter().filter_map(|(_, visits)| self.follow(&visits.concat()));
        found.find(|node| node.cost < best.cost)
    }
}
