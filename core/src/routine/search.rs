//! Best-first search over what is believed and where one stands (Hart, Nilsson and Raphael 1968).
//!
//! One reduction (semantics 16, *free step*): a step is taken at once, where one stands, if it is
//! permitted, is the cheapest way to what must come about and is not so (an aim, or a condition that
//! every way to an aim waits for), and nothing of use waits for its changes to be otherwise or throws
//! them back. *Argument:* some step must bring that about, and a cheapest plan takes only steps of
//! use. Take one in which this step comes later or another of the same zone and outcome, at no less
//! time, does it. Moving it here breaks no condition (none waits for the old setting), no clause (each
//! of which it makes a literal possible is off for good), adds no walking (one stands here) and no
//! nuisance, and shortens no exposure's end (it is not done while a clause is broken). So a cheapest
//! plan takes it now. What starts a clock would be put off by it: as long as one is to start, nothing
//! is free.
//!
//! A wait takes no hands: once they are free one walks to the next step and waits there for what is
//! left. So a wait only says *not before*: a step begins when one is there (`free_s`, when the last
//! step ended, and the walk) and no sooner than all waits since are over (`elapsed_s`). A plan says of
//! a wait what is left of it once one is there. Straight after a wait nothing is free: what is done
//! where one stands would have to be walked away from once the wait is over, not while it lasts.
//!
//! Where something is broken at the start, the search first goes *straight*: as long as it is
//! broken, only what can be of use in getting out is tried. *Argument:* exposure weighs most, every
//! step takes time, and a step that is of no use there can be struck from the way out, which stays
//! one. Such a plan counts only if its exposure is the least that getting out alone takes: else a
//! step of no use there is what keeps the rest possible, and the search starts anew without this.
//! Where the way out is a wait, other work costs no exposure, and the search does not go straight.

mod anyhow;
mod attend;
mod early;
mod free;
mod reached;
mod resume;
mod timed;
mod together;
mod trace;

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use anyhow::Anyhow;
use reached::Reached;
pub(super) use resume::resume;
use rustc_hash::FxHashMap;
pub(super) use timed::search_with;

use super::bound::{Bound, Left};
use super::form::{Beliefs, Compiled, NEVER, OfUse, Step};
use super::{Cost, Plan, Problem, compile, reach, useful};
use crate::vehicle::AgeOf;

/// Work done on one question before it is answered as well as can be by then: tasks gone through for
/// what is left of them at each place that was come to, steps looked at where it was gone on from,
/// and [`WALK`] for each place of a walk that was worked out. A count, not a clock, so that every
/// platform gives the same answer; chosen for the limit of 100 ms (semantics 17) where it was
/// measured.
pub(super) const WORK_MAX: usize = 1_600_000;
/// What a place of a walk takes, in tasks gone through.
const WALK: usize = 32;
/// Part of all work that each hasty search may take; as much is kept for them as two take.
const HASTY: usize = 8;
/// Places opened to find whether there is a way at all.
const ANYHOW_MAX: usize = 10_000;
/// Places opened to find that there is nothing, where many such questions are asked.
const REFUTE_MAX: usize = 1_000;
/// How much the bound is overstated in the hasty searches: each is tried where the one before was
/// cut short.
const HASTE: [u32; 2] = [2, 6];
/// The setting of an age that is not old yet.
const YOUNG: u8 = 1 << AgeOf::YOUNG;

pub(super) enum Found {
    Plan(Plan),
    Nothing,
    CutShort,
}

#[derive(Clone, Default)]
struct Node {
    beliefs: Beliefs,
    zone: usize,
    cost: Cost,
    /// When the last step ended that was no wait, counted from the start. Unit: s.
    free_s: u32,
    /// When each age will be old, counted from the start. Unit: s.
    ripe_s: Vec<u32>,
    parent: usize,
    /// Steps taken from the parent to here.
    taken: Vec<usize>,
    /// What is left to do, once it was reached.
    to_do: Left,
    /// What is left was worked out, not only judged at a glance.
    weighed: bool,
}

/// Searches for a cheapest plan; where that takes too long, hastily for any plan.
pub(super) fn search(problem: &Problem) -> Found {
    search_with(problem, true, WORK_MAX)
}

/// Whether there is nothing at all, as far as that is told at once: for the reasons why, where many
/// are asked.
pub(super) fn is_refuted(problem: &Problem) -> bool {
    compile::compile(problem)
        .is_none_or(|compiled| matches!(anyhow::anyhow(&compiled, REFUTE_MAX), Anyhow::Nothing))
}

/// The same where what any order leads to is told without trying one.
pub(super) fn is_refuted_at_a_glance(problem: &Problem) -> bool {
    !reach::may_be_reached(&compile::whole(problem))
}

impl Node {
    /// For each clock, in how many seconds from here its age is old.
    fn ripen_s(&self) -> Vec<u32> {
        let left = |ripe_s: &u32| match *ripe_s {
            NEVER => NEVER,
            ripe_s => ripe_s.saturating_sub(self.cost.elapsed_s),
        };
        self.ripe_s.iter().map(left).collect()
    }

    /// How long one has had no hands on anything. Unit: s.
    fn idle_s(&self) -> u32 {
        self.cost.elapsed_s.saturating_sub(self.free_s)
    }
}

enum Ended<T> {
    Reached(T),
    Exhausted,
    /// With the least that any plan can cost.
    CutShort(Cost),
}

struct Search<'a> {
    problem: &'a Problem<'a>,
    compiled: &'a Compiled,
    bound: Bound<'a>,
    /// The steps that begin each clock.
    begins: Vec<Vec<usize>>,
    reduced: bool,
    haste: u32,
    /// While something is broken, only what can lead out of it is tried.
    straight: bool,
    /// Something is broken at the start, so time may be exposure.
    exposed: bool,
    /// What every plan costs at least.
    floor: Cost,
    /// The first node at which nothing was broken any more.
    out: Option<usize>,
    /// Work done, apart from walks.
    work: usize,
    /// Places of walks that were worked out before it began.
    walked: usize,
    nodes: Vec<Node>,
    best: FxHashMap<(Beliefs, usize), Vec<Reached>>,
    open: BinaryHeap<Reverse<(Cost, Reverse<usize>)>>,
}

impl<'a> Search<'a> {
    fn new(problem: &'a Problem, compiled: &'a Compiled, reduced: bool) -> Self {
        Self {
            problem,
            compiled,
            bound: Bound::new(compiled, &problem.vehicle.walks),
            begins: compiled.clocks.iter().map(|clock| compiled.beginning(clock)).collect(),
            reduced,
            haste: 1,
            straight: false,
            exposed: compiled.rules.iter().any(|rule| rule.to_get_out_of),
            floor: Cost::default(),
            out: None,
            work: 0,
            walked: 0,
            nodes: Vec::new(),
            best: FxHashMap::default(),
            open: BinaryHeap::new(),
        }
    }

    /// Begins anew, with what is known of walks by now.
    fn begin_anew(&mut self, straight: bool, haste: u32) {
        (self.straight, self.haste) = (straight, haste);
        (self.out, self.work, self.walked) = (None, 0, self.bound.walked());
        self.nodes.clear();
        self.best.clear();
        self.open.clear();
    }

    fn start(&self) -> Node {
        Node {
            beliefs: self.compiled.start.clone(),
            zone: self.compiled.zone,
            cost: Cost::default(),
            free_s: 0,
            ripe_s: self.compiled.clocks.iter().map(|clock| clock.left_s).collect(),
            ..Node::default()
        }
    }

    fn run(&mut self, work_max: usize) -> Ended<usize> {
        self.run_from(self.start(), work_max)
    }

    fn run_from(&mut self, start: Node, work_max: usize) -> Ended<usize> {
        let of_use = useful::useful(self.compiled, &start.beliefs);
        self.reach(start, &of_use);
        while let Some(Reverse((least, Reverse(number)))) = self.open.pop() {
            let Some(node) = self.nodes.get(number) else {
                break;
            };
            let (beliefs, zone) = (node.beliefs.clone(), node.zone);
            if self.compiled.aims.iter().all(|aim| aim.is_met(&beliefs)) {
                return Ended::Reached(number);
            }
            let reached = Reached::at(node, self.since_s(node));
            if self.best.get(&(beliefs.clone(), zone)).is_some_and(|all| !all.contains(&reached)) {
                continue; // It was outdone.
            }
            if !node.weighed {
                let anew = self.least(number, false);
                if let Some(node) = self.nodes.get_mut(number) {
                    node.weighed = true;
                }
                if anew > least {
                    self.open.push(Reverse((anew, Reverse(number))));
                    continue;
                }
            }
            self.work = self.work.saturating_add(self.compiled.steps.len());
            if self.work() > work_max {
                return Ended::CutShort(least);
            }
            let broken = self.compiled.broken(&beliefs);
            if broken == (false, false) {
                self.out = self.out.or(Some(number));
            }
            let of_use = useful::useful(self.compiled, &beliefs);
            let only = self.free_step_at(number, &of_use);
            let is_tried = |step: &usize| {
                only.is_none_or(|only| only == *step)
                    && (!self.reduced || of_use.steps.get(*step) == Some(&true))
            };
            let compiled = self.compiled;
            let tried: Vec<usize> = (0..compiled.steps.len()).filter(is_tried).collect();
            // The last one opened is looked at first among equals: so the first step is.
            for next in tried.into_iter().rev() {
                let Some(step) = compiled.steps.get(next) else { continue };
                if self.straight && strays(step, broken) {
                    continue;
                }
                let after = step.apply(&beliefs);
                if step.is_of_effect(&beliefs, &after)
                    && self.compiled.is_permitted(&beliefs, step)
                    && let Some(then) =
                        self.nodes.get(number).and_then(|node| self.take(node, step, after))
                {
                    self.reach(Node { parent: number, taken: vec![next], ..then }, &of_use);
                }
            }
        }
        Ended::Exhausted
    }

    /// Work done so far.
    fn work(&self) -> usize {
        let walked = self.bound.walked().saturating_sub(self.walked);
        self.work.saturating_add(walked.saturating_mul(WALK))
    }

    /// Whether no plan gets out of what is broken sooner than the one that ends here.
    fn is_least_exposed(&self, node: usize) -> bool {
        let exposure = |number: usize| {
            self.nodes.get(number).map(|node| (node.cost.danger_s, node.cost.damage_s))
        };
        self.out.is_some_and(|out| exposure(node) <= exposure(out))
    }

    /// Takes the free steps of a node's zone and opens it, unless it was reached more cheaply.
    fn reach(&mut self, mut node: Node, of_use: &OfUse) {
        self.work = self.work.saturating_add(self.bound.tasks());
        let to_do = self.bound.to_do(&node.beliefs);
        let needs = self.bound.needs(to_do, &node.beliefs, node.zone);
        let taken = node.taken.len();
        while let Some(next) = self.free_step(&node, of_use, &needs) {
            if self.go(&mut node, next).is_none() {
                break;
            }
        }
        let (reached, exposed) = (Reached::at(&node, self.since_s(&node)), self.exposed);
        let known = self.best.entry((node.beliefs.clone(), node.zone)).or_default();
        if known.iter().any(|one| one.outdoes(&reached, exposed)) {
            return;
        }
        known.retain(|one| !reached.outdoes(one, exposed));
        known.push(reached);
        let has_moved = node.taken.len() > taken;
        node.to_do = if has_moved { self.bound.to_do(&node.beliefs) } else { to_do };
        let number = self.nodes.len();
        self.nodes.push(node);
        let least = self.least(number, true);
        self.open.push(Reverse((least, Reverse(number))));
    }

    /// The least time that any plan takes. Unit: s.
    fn least_s(&mut self) -> u32 {
        let start = self.start();
        self.bound
            .left(self.bound.to_do(&start.beliefs), start.zone, &start.ripe_s, 0, false)
            .elapsed_s
    }

    /// The least that a plan through a node costs, overstated where it hastens.
    fn least(&mut self, number: usize, at_a_glance: bool) -> Cost {
        let Some(node) = self.nodes.get(number) else { return Cost::default() };
        let (ripen_s, idle_s) = (node.ripen_s(), node.idle_s());
        let alone_s = self.alone_ahead_s(node);
        let left = self.bound.left(node.to_do, node.zone, &ripen_s, idle_s, at_a_glance);
        let left = Cost { alone_s, ..left };
        (0..self.haste).fold(node.cost, |sum, _| sum.plus(left)).no_less_grave_than(self.floor)
    }

    /// What one step makes of a node, with what it makes of the beliefs there; `None` for a wait for
    /// what does not come by itself.
    fn take(&self, node: &Node, step: &Step, mut beliefs: Beliefs) -> Option<Node> {
        let clock = self.compiled.clock_of(step);
        let zone = if clock.is_some() { node.zone } else { step.zone };
        let walk_s = self.problem.vehicle.walks.between(node.zone, zone);
        let (ends_s, free_s, alone_s) = if let Some(clock) = clock {
            let ripe_s = node.ripe_s.get(clock).filter(|ripe_s| **ripe_s != NEVER)?;
            (node.cost.elapsed_s.max(*ripe_s), node.free_s, 0)
        } else {
            let there_s = node.free_s.saturating_add(walk_s);
            let ends_s = there_s.max(node.cost.elapsed_s).saturating_add(step.seconds);
            (ends_s, ends_s, self.alone_s(node, zone, there_s, ends_s))
        };
        let elapsed_s = ends_s.saturating_sub(node.cost.elapsed_s);
        let (danger, damage) = self.compiled.broken(&node.beliefs);
        let cost = node.cost.plus(Cost {
            danger_s: if danger { elapsed_s } else { 0 },
            damage_s: if damage { elapsed_s } else { 0 },
            alone_s,
            nuisances: self.nuisances(&beliefs, step),
            disturbed: u32::from(step.disturbs),
            elapsed_s,
            walk_s,
            zone_changes: u32::from(zone != node.zone),
            backward: u32::from(zone < node.zone),
        });
        let mut ripe_s = node.ripe_s.clone();
        self.compiled.let_pass(step, &node.beliefs, &mut beliefs, &mut ripe_s, cost.elapsed_s);
        Some(Node { beliefs, zone, cost, free_s, ripe_s, ..Node::default() })
    }

    /// Nuisance clauses that a step leads into and leaves broken. What a look only finds was so
    /// before: to see it costs nothing.
    fn nuisances(&self, after: &[u8], step: &Step) -> u32 {
        let led_into = step.nuisances.iter().filter_map(|one| self.compiled.rules.get(*one));
        let broken = led_into.filter(|rule| rule.is_broken(after));
        u32::try_from(broken.count()).unwrap_or(u32::MAX)
    }
}

/// Whether a step can be of no use in getting out of danger, or of damage, that is still broken.
fn strays(step: &Step, (danger, damage): (bool, bool)) -> bool {
    let [out_of_danger, out_of_damage] = step.leads_out;
    if danger { !out_of_danger } else { damage && !out_of_damage }
}
