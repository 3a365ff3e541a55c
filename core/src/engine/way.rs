//! The way to a target, or as far towards it as there is one.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, PoisonError};

use super::loaded::Loaded;
use super::now::brought;
use super::words::{Words, once};
use crate::catalogue::Target;
use crate::clock::Stamp;
use crate::error::Result;
use crate::interlock::{self, Clash, Fault, Goal, Refusal, Verdict, clash, must_hold, refusals};
use crate::routine::{Gesture, Outcome, Plan, Problem, gather, go_on, keep, plan};
use crate::vehicle::{Action, Clause, Literal, Settings, VariableId, Vehicle};

/// Everything that a way depends on: while this is the same, so is the way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Start {
    pub(super) beliefs: Vec<Settings>,
    pub(super) fresh: Vec<bool>,
    pub(super) stuck: BTreeSet<VariableId>,
    pub(super) ripens_s: BTreeMap<VariableId, u32>,
    pub(super) zone: usize,
    /// What the target asks, and the ways out of what is broken now.
    pub(super) goals: Vec<Goal>,
    /// What was knowingly left as it is.
    pub(super) left: BTreeSet<VariableId>,
    /// The order that the routine keeps to, if one is under way.
    pub(super) old: Vec<usize>,
    /// What is left of the plan that it follows.
    pub(super) rest: Vec<usize>,
}

/// A plan for all goals that can be met together with the rest, and the goals that cannot.
#[derive(Debug)]
pub(super) struct Way {
    pub(super) start: Start,
    /// What was planned for in the end.
    pub(super) goals: Vec<Goal>,
    /// The plan; `None` where none was found in the time allowed.
    pub(super) plan: Option<Plan>,
    /// The steps of the plan by what one gesture confirms.
    pub(super) gestures: Vec<Gesture>,
    /// Goals that keep there from being a way: the rest goes on without them.
    pub(super) given_up: Vec<Goal>,
    /// Of these, what no state satisfies, and the rules that forbid it.
    pub(super) clashes: Vec<Clash>,
}

impl Start {
    fn of(problem: &Problem, left: BTreeSet<VariableId>, old: &[usize], rest: &[usize]) -> Self {
        // Whatever else a problem comes to hold belongs here too.
        let Problem { vehicle: _, beliefs, fresh, stuck, ripens_s, zone, goals } = problem.clone();
        Self {
            beliefs,
            fresh,
            stuck,
            ripens_s,
            zone,
            goals,
            left,
            old: old.to_vec(),
            rest: rest.to_vec(),
        }
    }
}

impl Way {
    /// The question that its plan answers.
    pub(super) fn problem<'a>(&self, vehicle: &'a Vehicle) -> Problem<'a> {
        let Start { beliefs, fresh, stuck, ripens_s, zone, .. } = self.start.clone();
        Problem { vehicle, beliefs, fresh, stuck, ripens_s, zone, goals: self.goals.clone() }
    }

    /// Whether its target is reached where it starts.
    pub(super) fn verdict(&self, vehicle: &Vehicle) -> Verdict {
        let fresh = |variable: usize| self.start.fresh.get(variable) == Some(&true);
        interlock::verdict(vehicle, &self.start.goals, &self.start.beliefs, fresh)
    }

    /// Plans; what was knowingly left is not asked for.
    fn find(mut problem: Problem, start: Start) -> Self {
        let is_left =
            |goal: &Goal| goal.any_of.iter().all(|one| start.left.contains(&one.variable));
        for number in 0..problem.goals.len() {
            if problem.goals.get(number).is_some_and(is_left) {
                problem.let_go(number);
            }
        }
        let (mut given_up, mut clashes) = (Vec::new(), Vec::new());
        let mut plan = loop {
            match plan(&problem) {
                Outcome::Plan(plan) => break Some(plan),
                Outcome::Impossible(numbers) if !numbers.is_empty() => {
                    let Some(number) = least(&problem, &numbers) else { continue };
                    clashes.extend(clash_of(&problem, &numbers));
                    given_up.extend(problem.goals.get(number).cloned());
                    if given_up.last().is_some_and(|goal| is_fact(problem.vehicle, goal)) {
                        // Facts that only a person can tell: nothing is begun without them.
                        break None;
                    }
                    // One that nothing is left of can only be dropped.
                    if problem.goals.get(number).is_some_and(|goal| goal.any_of.is_empty()) {
                        problem.goals.remove(number);
                    } else {
                        problem.let_go(number);
                    }
                }
                Outcome::Impossible(_) | Outcome::NotFound => {
                    break go_on(&problem, &start.rest, None);
                }
            }
        };
        // Why there is no way may have been too hard to tell in full: what the plan reaches all the
        // same is no reason.
        if let Some(end) = plan.as_ref().map(|plan| end_of(&problem, plan)) {
            let reached = |goal: &Goal| goal.any_of.iter().any(|literal| must_hold(&end, literal));
            given_up.retain(|goal| goal.fresh || !reached(goal));
        }
        let goes_on = |plan| go_on(&problem, &start.rest, Some(plan));
        let keeps = |plan| keep(&problem, &start.old, plan).or_else(|| goes_on(plan));
        let kept = plan.as_ref().and_then(keeps);
        let stands = kept.is_some();
        plan = kept.or(plan);
        let gestures = plan.as_ref().map_or_else(Vec::new, |plan| gather(&problem, plan, stands));
        if let Some(plan) = &mut plan {
            plan.steps = gestures.iter().flat_map(|one| &one.steps).copied().collect();
        }
        Self { start, goals: problem.goals, plan, gestures, given_up, clashes }
    }
}

/// The rules by which goals of a problem cannot hold together, while what is told or cannot be moved
/// stays as it is.
fn clash_of(problem: &Problem, numbers: &[usize]) -> Option<Clash> {
    let goals = numbers.iter().filter_map(|number| problem.goals.get(*number));
    let goals: Vec<_> = goals.cloned().collect();
    let numbered = problem.vehicle.variables.iter().enumerate();
    let stays = numbered.filter(|(number, known)| {
        known.age_of.is_none() && known.given || problem.stuck.contains(number)
    });
    let fixed = stays.filter_map(|(number, known)| {
        let settings = problem.beliefs.get(number).copied()?;
        (settings != known.all).then_some(Literal { variable: number, settings })
    });
    clash(problem.vehicle, &goals, &fixed.collect::<Vec<_>>())
}

/// Takes a fact as told, as choosing a variant tells it.
fn grant(problem: &mut Problem, fact: Literal) {
    if let Some(belief) = problem.beliefs.get_mut(fact.variable) {
        *belief = fact.settings;
    }
    if let Some(fresh) = problem.fresh.get_mut(fact.variable) {
        *fresh = true;
    }
}

/// What is believed once a plan is carried out.
fn end_of(problem: &Problem, plan: &Plan) -> Vec<Settings> {
    let mut beliefs = problem.beliefs.clone();
    let steps = plan.steps.iter().filter_map(|step| problem.vehicle.actions.get(*step));
    steps.for_each(|action| action.apply(&mut beliefs));
    beliefs
}

/// Which of some goals to give up: one that asks for a given fact first, then the least grave,
/// then the last.
fn least(problem: &Problem, numbers: &[usize]) -> Option<usize> {
    let goal = |number: usize| problem.goals.get(number);
    let fact = |number: usize| goal(number).is_some_and(|goal| is_fact(problem.vehicle, goal));
    let grave = |number: usize| goal(number).map(|goal| goal.severity);
    numbers.iter().copied().max_by_key(|number| (fact(*number), grave(*number), *number))
}

/// Whether a goal asks only for facts that no move changes.
fn is_fact(vehicle: &Vehicle, goal: &Goal) -> bool {
    let given =
        |one: &Literal| vehicle.variables.get(one.variable).is_some_and(|known| known.given);
    !goal.any_of.is_empty() && goal.any_of.iter().all(given)
}

/// Whether a literal speaks of what only a person can tell: no step and no time changes it.
pub(super) fn is_told(vehicle: &Vehicle, literal: &Literal) -> bool {
    let known = vehicle.variables.get(literal.variable);
    known.is_some_and(|known| known.given && known.age_of.is_none())
}

impl Loaded {
    /// The way to a target from where everything stands at `now`. The last one to each target is
    /// kept, because every page asks again.
    pub(super) fn way(&self, target: &Target, now: &Stamp) -> Result<Arc<Way>> {
        let mut goals = self.goals(target)?;
        goals.extend(self.goals_found(target, &goals)?);
        let mut problem = self.problem(goals, now)?;
        self.see_since_opened(target, &mut problem, now);
        for fact in self.facts_said(target)? {
            if !must_hold(&problem.beliefs, &fact) {
                grant(&mut problem, fact);
            }
        }
        let left = self.state.left.keys().copied().collect();
        let key = target.key();
        let (old, rest) = self.followed_to(&key);
        let start = Start::of(&problem, left, old, rest);
        let mut ways = self.ways.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(way) = ways.get(&key).filter(|way| way.start == start) {
            return Ok(Arc::clone(way));
        }
        let way = Arc::new(Way::find(problem, start));
        ways.insert(key, Arc::clone(&way));
        Ok(way)
    }

    /// The way to some goals from where everything stands, whatever routine is under way and whatever
    /// else is wrong.
    pub(super) fn way_to(&self, goals: Vec<Goal>, now: &Stamp) -> Result<Way> {
        let problem = Problem { goals, ..self.problem(Vec::new(), now)? };
        let start = Start::of(&problem, BTreeSet::new(), &[], &[]);
        Ok(Way::find(problem, start))
    }

    /// Where there is no departure, what a routine asks to be looked at counts since it was opened.
    fn see_since_opened(&self, target: &Target, problem: &mut Problem, now: &Stamp) {
        let Some(run) = self.run_to(&target.key()).filter(|_| !target.road) else { return };
        for (number, fresh) in problem.fresh.iter_mut().enumerate() {
            *fresh |= self.state.is_seen_since(&self.vehicle, number, run.id, now);
        }
    }

    /// How many steps are left of a routine.
    pub(super) fn steps_left(&self, target: &Target, now: &Stamp) -> Result<usize> {
        let way = self.way(target, now)?;
        Ok(way.plan.as_ref().map_or(0, |plan| plan.steps.len()))
    }

    /// Why the target cannot be reached, in words.
    pub(super) fn impossible(&self, words: &Words, target: &Target, way: &Way) -> Vec<String> {
        if way.start.goals.iter().any(|goal| self.is_emergency(goal, &way.start.beliefs)) {
            return vec![words.say("impossible.emergency", &[])];
        }
        let goals = way.given_up.iter().map(|goal| {
            let stays = self.cannot_stay(words, goal, &way.start);
            if let Some(said) = stays.filter(|_| way.clashes.is_empty()) {
                return said;
            }
            let mut said = vec![self.given_up(words, target, goal)];
            said.extend(self.held(words, goal, &way.start.beliefs));
            said.join(" ")
        });
        let stuck = self.state.stuck.keys().map(|stuck| {
            let title = Words::sentence(&words.label(*stuck));
            let said = words.say("impossible.stuck", &[("title", &title)]);
            [said, words.instead(*stuck, target.road)].join(" ")
        });
        let fact = way.given_up.last().is_some_and(|goal| is_fact(&self.vehicle, goal));
        let key = if fact { "impossible.tell" } else { "impossible.not_found" };
        let not_found = way.plan.is_none().then(|| words.say(key, &[]));
        let facts = target.back_to.map_or_else(Vec::new, |entry| self.not_put_back(words, entry));
        if way.plan.is_some() && way.given_up.is_empty() {
            return facts;
        }
        let clashes = way.clashes.iter().flat_map(|one| self.clash(words, one));
        once(goals.chain(clashes).chain(stuck).chain(not_found).chain(facts))
    }

    /// What cannot be together, and each rule that forbids it.
    fn clash(&self, words: &Words, clash: &Clash) -> Vec<String> {
        let own = clash.goals.iter().filter(|goal| goal.clause(&self.vehicle).is_none());
        let asked = own.map(|goal| {
            let said: Vec<_> = goal.any_of.iter().map(|one| words.literal(one)).collect();
            words.any_of(&said)
        });
        let fixed = clash.fixed.iter().map(|one| words.literal(one));
        let what = Words::sentence(&asked.chain(fixed).collect::<Vec<_>>().join("; "));
        let rules = clash.clauses.iter().filter_map(|number| self.vehicle.clauses.get(*number));
        let say = |rule| {
            words.say("impossible.clash", &[("what", &what), ("reason", &words.clause(rule))])
        };
        rules.map(say).collect()
    }

    /// What is stuck and by which rule it forbids every move that would meet a goal.
    fn held(&self, words: &Words, goal: &Goal, beliefs: &[Settings]) -> Vec<String> {
        let stuck = |clause: &Clause| {
            let mut literals = clause.literals.iter().map(|one| one.variable);
            let held = literals.find(|one| self.state.stuck.contains_key(one))?;
            let all = beliefs.get(held).copied().unwrap_or_default();
            let seen = Words::sentence(&words.literal(&Literal { variable: held, settings: all }));
            let slots = [("stuck", seen.as_str()), ("reason", &words.clause(clause))];
            Some(words.say("impossible.held", &slots))
        };
        let meets =
            |action: &&Action| goal.any_of.iter().any(|literal| brought(action, literal).is_some());
        let mut by_move = self.vehicle.actions.iter().filter(meets).map(|action| {
            let refused = refusals(&self.vehicle, beliefs, action);
            let clauses = refused.iter().filter_map(|one| match one {
                Refusal::Clause(number) => self.vehicle.clauses.get(*number),
                Refusal::Before(_) => None,
            });
            once(clauses.filter_map(stuck))
        });
        let first = by_move.next().unwrap_or_default();
        if by_move.all(|said| !said.is_empty()) { first } else { Vec::new() }
    }

    /// Why what is so already may not stay so: each rule that a fact nobody has told, or told
    /// otherwise, keeps from being off.
    fn cannot_stay(&self, words: &Words, goal: &Goal, start: &Start) -> Option<String> {
        let so = goal.any_of.iter().filter(|one| must_hold(&start.beliefs, one));
        let so: Vec<_> = so.map(|one| one.variable).collect();
        let given = |one: &Literal| is_told(&self.vehicle, one);
        let speaks = |other: &&Goal| {
            let fact = other.any_of.iter().any(given);
            fact && other.any_of.iter().any(|one| so.contains(&one.variable))
                && !other.any_of.iter().any(|one| must_hold(&start.beliefs, one))
        };
        let line = |other: &Goal| {
            let known = |one: &Literal| {
                let all = start.beliefs.get(one.variable).copied().unwrap_or_default();
                words.literal(&Literal { settings: all, ..*one })
            };
            let facts: Vec<_> = other.any_of.iter().filter(|one| given(one)).map(known).collect();
            let reason = words.clause(other.clause(&self.vehicle)?);
            let fact = Words::sentence(&facts.join("; "));
            Some(words.say("impossible.stays", &[("reason", &reason), ("fact", &fact)]))
        };
        let said = once(start.goals.iter().filter(speaks).filter_map(line));
        (!said.is_empty()).then(|| said.join(" "))
    }

    fn given_up(&self, words: &Words, target: &Target, goal: &Goal) -> String {
        let reason = self.reason(words, target, goal);
        let key = match goal.any_of.as_slice() {
            [] => return reason,
            [_] if target.back_to.is_some() => "impossible.back",
            [_] => "impossible.goal",
            _ => "impossible.rule",
        };
        let slots = [
            ("title", self.title(words, target, goal)),
            ("wanted", Self::wanted(words, goal)),
            ("seen", self.seen(words, goal, Fault::Broken)),
            ("reason", reason),
        ];
        words.say(key, &slots.each_ref().map(|(slot, said)| (*slot, said.as_str())))
    }
}
