//! Best-first search over what is believed and where one stands (Hart, Nilsson and Raphael 1968).
//!
//! One reduction (semantics 16, *free step*): a step is taken at once, where one stands, if it is
//! permitted, is the cheapest way to an aim that is not met, and nothing waits for its changes to
//! be otherwise. *Argument:* some step must meet that aim. Take a cheapest plan in which this step
//! comes later or another of the same zone and outcome, at no less time, meets the aim. Moving it here breaks
//! no condition (none waits for the old setting), no clause (each of which it makes a literal
//! possible is off for good), adds no walking (one stands here) and no nuisance, and shortens no
//! exposure's end (it is not done while a clause is broken). So a cheapest plan takes it now.
//!
//! Where something is broken at the start, the search first goes *straight*: as long as it is
//! broken, only what can be of use in getting out is tried. *Argument:* exposure weighs most, every
//! step takes time, and a step that is of no use there can be struck from the way out, which stays
//! one. Such a plan counts only if its exposure is the least that getting out alone takes: else a
//! step of no use there is what keeps the rest possible, and the search starts anew without this.

use std::cmp::Reverse;
use std::collections::{BinaryHeap, HashMap};

use super::bound::Bound;
use super::compile::{self, Aim, Beliefs, Change, Compiled, Lit, Rule, Step, at};
use super::{Cost, Plan, Problem, Proof, useful};
use crate::catalogue::Severity;

/// Nodes opened before the search is cut short. A count, not a clock, so that every platform gives
/// the same answer.
pub(super) const NODES_MAX: usize = 20_000;
/// Nodes opened to find that there is nothing.
const REFUTE_MAX: usize = 2_000;
/// How much the bound is overstated in the second, hasty search.
const HASTE: u32 = 3;

pub(super) enum Found {
    Plan(Plan),
    Nothing,
    CutShort,
}

struct Node {
    beliefs: Beliefs,
    zone: usize,
    cost: Cost,
    parent: usize,
    /// Steps taken from the parent to here.
    taken: Vec<usize>,
}

/// Searches for a cheapest plan; where that takes too long, hastily for any plan.
pub(super) fn search(problem: &Problem) -> Found {
    search_with(problem, true, NODES_MAX)
}

/// A quick look whether there is nothing at all: for the reasons why, where many are asked.
pub(super) fn refute(problem: &Problem) -> Found {
    search_with(problem, true, REFUTE_MAX)
}

/// `reduced`: with the free-step reduction. Tests switch it off to hold the two against each other.
pub(super) fn search_with(problem: &Problem, reduced: bool, nodes_max: usize) -> Found {
    let compiled = compile::compile(problem);
    if compiled.hopeless || !may_be_reached(&compiled) {
        return Found::Nothing;
    }
    let broken = compiled.rules.iter().any(|rule| rule.to_get_out_of);
    let new =
        |straight, haste| Search { straight, ..Search::new(problem, &compiled, reduced, haste) };
    let mut least = None;
    for straight in [true, false].into_iter().filter(|straight| !straight || (reduced && broken)) {
        let mut exact = new(straight, 1);
        match exact.run(nodes_max) {
            Ended::Reached(node) if !straight || exact.is_least_exposed(node) => {
                return Found::Plan(exact.plan(node, Proof::Exact));
            }
            Ended::Reached(_) => {}
            Ended::Exhausted if straight => {}
            Ended::Exhausted => return Found::Nothing,
            Ended::CutShort(known) => {
                least = Some((straight, known));
                break;
            }
        }
    }
    let (straight, least) = least.unwrap_or_default();
    let mut hasty = new(straight, HASTE);
    match hasty.run(nodes_max) {
        Ended::Reached(node) => {
            let plan = hasty.plan(node, Proof::Exact);
            let seconds = plan.cost.elapsed_s.saturating_sub(least.elapsed_s);
            Found::Plan(Plan { proof: Proof::Gap { seconds }, ..plan })
        }
        Ended::Exhausted if !straight => Found::Nothing,
        Ended::Exhausted | Ended::CutShort(_) => Found::CutShort,
    }
}

/// Whether every aim can be met when what is in the way is looked at one literal at a time: quick
/// to refute, never wrong when it does.
fn may_be_reached(compiled: &Compiled) -> bool {
    let mut seen = compiled.start.iter().map(|one| compile::settings_of(*one)).collect::<Vec<_>>();
    let mut taken = vec![false; compiled.steps.len()];
    let can = |seen: &[u8], lit: &Lit| at(seen, lit.var) & lit.set != 0;
    let can_fail = |seen: &[u8], lit: &Lit| at(seen, lit.var) & !lit.set != 0;
    let brings = |step: &Step, lit: &Lit| step.new_settings(lit.var) & lit.set != 0;
    loop {
        let mut grown = false;
        for (step, taken) in compiled.steps.iter().zip(&mut taken) {
            let clear = |rule: &usize| {
                compiled.rules.get(*rule).is_none_or(|rule| {
                    let off = |lit: &Lit| !brings(step, lit) && can_fail(&seen, lit);
                    let held = |lit: &Lit| !brings(step, lit) || can(&seen, lit);
                    rule.lits.iter().any(off) || rule.lits.iter().all(held)
                })
            };
            if *taken
                || !step.before.iter().all(|lit| can(&seen, lit))
                || !step.rules.iter().all(clear)
            {
                continue;
            }
            *taken = true;
            grown = true;
            for change in &step.changes {
                if let Some(cell) = seen.get_mut(change.var) {
                    *cell |= change.to;
                }
            }
        }
        if !grown {
            break;
        }
    }
    let taken = |number: &usize| taken.get(*number) == Some(&true);
    compiled.aims.iter().all(|aim| aim.is_met(&compiled.start) || aim.steps.iter().any(taken))
}

enum Ended {
    Reached(usize),
    Exhausted,
    /// With the least that any plan can cost.
    CutShort(Cost),
}

struct Search<'a> {
    problem: &'a Problem<'a>,
    compiled: &'a Compiled,
    bound: Bound<'a>,
    reduced: bool,
    haste: u32,
    /// While something is broken, only what can lead out of it is tried.
    straight: bool,
    /// The first node at which nothing was broken any more.
    out: Option<usize>,
    nodes: Vec<Node>,
    best: HashMap<(Beliefs, usize), Cost>,
    open: BinaryHeap<Reverse<(Cost, Reverse<usize>)>>,
}

impl<'a> Search<'a> {
    fn new(problem: &'a Problem, compiled: &'a Compiled, reduced: bool, haste: u32) -> Self {
        Self {
            problem,
            compiled,
            bound: Bound::new(compiled, &problem.vehicle.walks),
            reduced,
            haste,
            straight: false,
            out: None,
            nodes: Vec::new(),
            best: HashMap::new(),
            open: BinaryHeap::new(),
        }
    }

    fn run(&mut self, nodes_max: usize) -> Ended {
        let start = Node {
            beliefs: self.compiled.start.clone(),
            zone: self.compiled.zone,
            cost: Cost::default(),
            parent: 0,
            taken: Vec::new(),
        };
        self.reach(start);
        let mut opened = 0_usize;
        while let Some(Reverse((least, Reverse(number)))) = self.open.pop() {
            let Some(node) = self.nodes.get(number) else {
                break;
            };
            let (beliefs, zone, cost) = (node.beliefs.clone(), node.zone, node.cost);
            if self.compiled.aims.iter().all(|aim| aim.is_met(&beliefs)) {
                return Ended::Reached(number);
            }
            if self.best.get(&(beliefs.clone(), zone)).is_some_and(|known| *known < cost) {
                continue;
            }
            opened = opened.saturating_add(1);
            if opened > nodes_max {
                return Ended::CutShort(least);
            }
            let broken = self.broken(&beliefs);
            if broken == (false, false) {
                self.out = self.out.or(Some(number));
            }
            let useful = self.reduced.then(|| {
                let permitted = |step: &Step| self.is_permitted(&beliefs, step);
                useful::useful(self.compiled, &beliefs, broken != (false, false), &permitted)
            });
            let is_useful =
                |step: usize| useful.as_ref().is_none_or(|all| all.get(step) == Some(&true));
            // The last one opened is looked at first among equals: so the first step is.
            for (next, step) in self.compiled.steps.iter().enumerate().rev() {
                let after = step.apply(&beliefs);
                if is_useful(next)
                    && !(self.straight && strays(step, broken))
                    && step.is_of_effect(&beliefs, &after)
                    && self.is_permitted(&beliefs, step)
                {
                    let cost = cost.plus(self.price(&beliefs, &after, zone, step));
                    let zone = step.zone;
                    let taken = vec![next];
                    self.reach(Node { beliefs: after, zone, cost, parent: number, taken });
                }
            }
        }
        Ended::Exhausted
    }

    /// Whether no plan gets out of what is broken sooner than the one that ends here.
    fn is_least_exposed(&self, node: usize) -> bool {
        let exposure = |number: usize| {
            self.nodes.get(number).map(|node| (node.cost.danger_s, node.cost.damage_s))
        };
        self.out.is_some_and(|out| exposure(node) <= exposure(out))
    }

    /// Takes the free steps of a node's zone and opens it, unless it was reached more cheaply.
    fn reach(&mut self, mut node: Node) {
        while let Some(next) = self.free_step(&node) {
            let Some(step) = self.compiled.steps.get(next) else {
                break;
            };
            let after = step.apply(&node.beliefs);
            node.cost = node.cost.plus(self.price(&node.beliefs, &after, node.zone, step));
            node.beliefs = after;
            node.taken.push(next);
        }
        let known = self.best.entry((node.beliefs.clone(), node.zone));
        match known {
            std::collections::hash_map::Entry::Occupied(known) if *known.get() <= node.cost => {
                return;
            }
            std::collections::hash_map::Entry::Occupied(mut known) => {
                known.insert(node.cost);
            }
            std::collections::hash_map::Entry::Vacant(free) => {
                free.insert(node.cost);
            }
        }
        let left = self.bound.left(&node.beliefs, node.zone);
        let least = (0..self.haste).fold(node.cost, |sum, _| sum.plus(left));
        self.open.push(Reverse((least, Reverse(self.nodes.len()))));
        self.nodes.push(node);
    }

    fn free_step(&self, node: &Node) -> Option<usize> {
        if !self.reduced || self.broken(&node.beliefs) != (false, false) {
            return None;
        }
        let steps = self.compiled.steps.iter().enumerate();
        let here = steps.filter(|(_, step)| step.harmless && step.zone == node.zone);
        here.filter(|(_, step)| self.is_free(&node.beliefs, step)).map(|(next, _)| next).next()
    }

    fn is_free(&self, beliefs: &[u8], step: &Step) -> bool {
        let after = step.apply(beliefs);
        let only_own = |one: &Step, after: &[u8], var: usize| {
            let changed = |change: &&Change| at(after, change.var) != at(beliefs, change.var);
            one.changes.iter().filter(changed).all(|change| change.var == var)
        };
        let sole = |aim: &Aim, var: usize| {
            aim.steps.iter().filter_map(|other| self.compiled.steps.get(*other)).all(|other| {
                let then = other.apply(beliefs);
                !aim.is_met(&then)
                    || (other.zone == step.zone
                        && at(&then, var) == at(&after, var)
                        && (other.disturbs, other.seconds) >= (step.disturbs, step.seconds)
                        && only_own(other, &then, var))
            })
        };
        let serves = |aim: &Aim| match aim.lits.as_slice() {
            [lit] => {
                !aim.is_met(beliefs)
                    && aim.is_met(&after)
                    && only_own(step, &after, lit.var)
                    && sole(aim, lit.var)
            }
            _ => false,
        };
        let for_good = |rule: &Rule| {
            rule.lits.iter().any(|lit| {
                !lit.attainable
                    && !lit.may_hold(beliefs)
                    && !step.changes.iter().any(|change| change.var == lit.var)
            })
        };
        step.is_of_effect(beliefs, &after)
            && self.compiled.aims.iter().any(serves)
            && self.is_permitted(beliefs, step)
            && step.burdens.iter().filter_map(|one| self.compiled.rules.get(*one)).all(for_good)
    }

    fn is_permitted(&self, beliefs: &[u8], step: &Step) -> bool {
        step.before.iter().all(|lit| lit.must_hold(beliefs))
            && !step.rules.iter().filter_map(|one| self.compiled.rules.get(*one)).any(|rule| {
                let mut made_possible = false;
                rule.lits.iter().all(|lit| {
                    let new = step.new_settings(lit.var);
                    made_possible |= new & lit.set != 0 && !lit.must_hold(beliefs);
                    (compile::settings_of(at(beliefs, lit.var)) | new) & lit.set != 0
                }) && made_possible
            })
    }

    /// What one step adds to the cost: it takes its time and the walk there; while a clause of the
    /// start is still broken that time is exposure; each nuisance clause that it leads into, and leaves
    /// broken, counts. What a look only finds was so before: to see it costs nothing.
    fn price(&self, before: &[u8], after: &[u8], zone: usize, step: &Step) -> Cost {
        let walk_s = self.problem.vehicle.walks.between(zone, step.zone);
        let elapsed_s = walk_s.saturating_add(step.seconds);
        let (danger, damage) = self.broken(before);
        let nuisances = self.compiled.rules.iter().filter(|rule| {
            rule.severity == Severity::Nuisance
                && rule.lits.iter().any(|lit| step.new_settings(lit.var) & lit.set != 0)
                && is_broken(rule, after)
        });
        Cost {
            danger_s: if danger { elapsed_s } else { 0 },
            damage_s: if damage { elapsed_s } else { 0 },
            nuisances: u32::try_from(nuisances.count()).unwrap_or(u32::MAX),
            disturbed: u32::from(step.disturbs),
            elapsed_s,
            walk_s,
            zone_changes: u32::from(zone != step.zone),
            backward: u32::from(step.zone < zone),
        }
    }

    /// Whether a danger clause, and whether a damage clause, that was broken at the start still is.
    fn broken(&self, beliefs: &[u8]) -> (bool, bool) {
        let any = |severity: Severity| {
            let mut rules = self.compiled.rules.iter();
            rules.any(|rule| {
                rule.to_get_out_of && rule.severity == severity && is_broken(rule, beliefs)
            })
        };
        (any(Severity::Danger), any(Severity::Damage))
    }

    fn plan(&self, node: usize, proof: Proof) -> Plan {
        let mut steps = Vec::new();
        let cost = self.nodes.get(node).map(|node| node.cost).unwrap_or_default();
        let mut next = Some(node);
        while let Some(node) = next.and_then(|number| self.nodes.get(number)) {
            let taken = node.taken.iter().rev().filter_map(|one| self.compiled.steps.get(*one));
            steps.extend(taken.map(|step| step.number));
            next = (next != Some(0)).then_some(node.parent);
        }
        steps.reverse();
        Plan { steps, cost, proof, nodes: self.nodes.len() }
    }
}

/// Whether a step can be of no use in getting out of danger, or of damage, that is still broken.
fn strays(step: &Step, (danger, damage): (bool, bool)) -> bool {
    let [out_of_danger, out_of_damage] = step.leads_out;
    if danger { !out_of_danger } else { damage && !out_of_damage }
}

fn is_broken(rule: &Rule, beliefs: &[u8]) -> bool {
    !rule.only_open && rule.lits.iter().all(|lit| lit.must_hold(beliefs))
}
