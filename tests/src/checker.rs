//! The checker: replays a plan against the rules of the semantics and lists what it breaks. It
//! reads nothing but the problem and the plan, and shares no code with the planner or the
//! interlocks.

mod changes;

mod alone;

use std::collections::BTreeMap;

pub use changes::changes;

use stowfast_core::catalogue::Severity;
use stowfast_core::interlock::{Goal, GoalOf};
use stowfast_core::routine::{Cost, Plan, Problem};
use stowfast_core::vehicle::{Action, AgeOf, Clause, Deed, Effect, Literal, Settings, Vehicle};

/// What a plan breaks; steps are counted from 0 within the plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Violation {
    /// The vehicle has no such action.
    NoSuchAction(usize),
    /// A condition of the step does not hold in every world.
    Before(usize),
    /// The step makes a danger or damage clause possible, by the clause's number.
    Possible(usize, usize),
    /// The step breaks a danger or damage clause that was not broken.
    Broken(usize, usize),
    /// The step waits for what does not come by itself.
    NothingToWaitFor(usize),
    /// The plan says that something else is left of a wait, once one is where it is waited. Unit: s.
    Left(usize, u32),
    /// The step moves what is stuck.
    Stuck(usize),
    /// The step leaves the place.
    Leaves(usize),
    /// The step changes no setting that it acts on, nor freshens what no look shows; or it is a look
    /// at what is known and fresh.
    Idle(usize),
    /// The goal, by number, is not met in the end.
    Goal(usize),
    /// The clause, by number, was broken at the start and is not off in the end.
    NoWayOut(usize),
    /// The variable is in no goal and not as it was found.
    NotRestored(usize),
    /// The plan says that it costs something else.
    Cost(Box<Cost>),
}

/// What is believed on the way.
#[derive(Debug, Clone)]
pub(crate) struct Replay<'a> {
    pub(crate) vehicle: &'a Vehicle,
    pub(crate) beliefs: Vec<Settings>,
    pub(crate) fresh: Vec<bool>,
    zone: usize,
    /// For each age, by its variable, at what time it is old; those that do not run have none.
    pub(crate) ripe_s: BTreeMap<usize, u32>,
    /// When the hands were last busy.
    free_s: u32,
    /// Waits since then, by their place, with when each is over.
    waits: Vec<(usize, u32)>,
    /// What is left of each wait on arriving.
    left_s: BTreeMap<usize, u32>,
    cost: Cost,
    pub(crate) found: Vec<Violation>,
}

/// Everything that `plan` breaks as an answer to `problem`; empty for a good plan.
#[must_use]
pub fn check(problem: &Problem, plan: &Plan) -> Vec<Violation> {
    let problem = &problem.with_ways_out();
    let mut replay = Replay::of(problem);
    for (place, number) in plan.steps.iter().enumerate() {
        match problem.vehicle.actions.get(*number) {
            Some(action) => replay.step(problem, place, action),
            None => replay.found.push(Violation::NoSuchAction(*number)),
        }
    }
    replay.arrive(replay.free_s);
    replay.finish(problem);
    for (place, left_s) in &replay.left_s {
        if plan.wait_s.get(place) != Some(left_s) {
            replay.found.push(Violation::Left(*place, *left_s));
        }
    }
    if replay.cost != plan.cost {
        replay.found.push(Violation::Cost(Box::new(replay.cost)));
    }
    replay.found
}

/// What is believed and fresh, and where the person stands, once the steps are made.
#[must_use]
pub fn end_of(problem: &Problem, steps: &[usize]) -> (Vec<Settings>, Vec<bool>, usize) {
    let mut replay = Replay::of(problem);
    for action in steps.iter().filter_map(|number| problem.vehicle.actions.get(*number)) {
        replay.step(problem, 0, action);
    }
    (replay.beliefs, replay.fresh, replay.zone)
}

impl<'a> Replay<'a> {
    pub(crate) fn of(problem: &Problem<'a>) -> Self {
        Self {
            vehicle: problem.vehicle,
            beliefs: problem.beliefs.clone(),
            fresh: problem.fresh.clone(),
            zone: problem.zone,
            ripe_s: ripe_s(problem),
            free_s: 0,
            waits: Vec::new(),
            left_s: BTreeMap::new(),
            cost: Cost::default(),
            found: Vec::new(),
        }
    }

    fn step(&mut self, problem: &Problem, place: usize, action: &Action) {
        self.judge(problem, place, action);
        let waits = action.deed == Deed::Wait;
        let zone = if waits { self.zone } else { action.zone };
        let walk_s = self.vehicle.walks.between(self.zone, zone);
        let spent_s = if waits {
            self.wait_s(place, action)
        } else {
            self.begin_s(walk_s).saturating_add(action.seconds)
        };
        let exposed = |severity| if self.is_exposed(problem, severity) { spent_s } else { 0 };
        let mut cost = Cost {
            danger_s: exposed(Severity::Danger),
            damage_s: exposed(Severity::Damage),
            alone_s: if waits { 0 } else { self.alone_s(action.zone, walk_s, spent_s) },
            nuisances: 0,
            disturbed: u32::from(self.disturbs(problem, action)),
            elapsed_s: spent_s,
            walk_s,
            zone_changes: u32::from(zone != self.zone),
            backward: u32::from(zone < self.zone),
        };
        let before = self.beliefs.clone();
        self.take(action);
        self.zone = zone;
        let now_s = self.cost.elapsed_s.saturating_add(spent_s);
        if waits {
            self.waits.push((place, now_s));
        } else {
            self.free_s = now_s;
        }
        self.let_pass(action, &before, now_s);
        for (number, clause) in self.vehicle.clauses.iter().enumerate() {
            let mut literals = clause.literals.iter();
            let leads_in = literals.any(|one| self.brought(action, one).meets(one.settings));
            match clause.severity {
                _ if !is_broken(&self.beliefs, clause) => {}
                Severity::Nuisance => {
                    cost.nuisances = cost.nuisances.saturating_add(u32::from(leads_in));
                }
                Severity::Danger | Severity::Damage => {
                    if action.deed == Deed::Move && !is_broken(&before, clause) {
                        self.found.push(Violation::Broken(place, number));
                    }
                }
            }
        }
        self.cost = self.cost.plus(cost);
    }

    pub(crate) fn judge(&mut self, problem: &Problem, place: usize, action: &Action) {
        if !action.before.iter().all(|literal| is_sure(&self.beliefs, literal)) {
            self.found.push(Violation::Before(place));
        }
        let mut own = action.effects.iter().filter(|effect| !effect.spoilt);
        if action.deed == Deed::Move
            && own.clone().any(|effect| problem.stuck.contains(&effect.variable))
        {
            self.found.push(Violation::Stuck(place));
        }
        if action.leaves {
            self.found.push(Violation::Leaves(place));
        }
        let looks = self.vehicle.actions.iter().filter(|other| other.deed == Deed::Look);
        let looked_at = |variable| {
            looks
                .clone()
                .any(|look| look.effects.iter().any(|one| one.variable == variable && !one.spoilt))
        };
        let fresh = |variable| self.fresh.get(variable).is_some_and(|fresh| *fresh);
        let idle = |effect: &Effect| {
            let (known, is_fresh) = (self.belief(effect.variable), fresh(effect.variable));
            match action.deed {
                Deed::Move => {
                    known == Settings::one(effect.to) && (is_fresh || looked_at(effect.variable))
                }
                Deed::Look => known.single().is_some() && is_fresh,
                Deed::Wait => known == Settings::one(effect.to),
            }
        };
        if own.all(idle) {
            self.found.push(Violation::Idle(place));
        }
        for (number, clause) in self.vehicle.clauses.iter().enumerate() {
            let may = |one: &Literal| {
                self.belief(one.variable).or(self.brought(action, one)).meets(one.settings)
            };
            let makes = |one: &Literal| {
                self.brought(action, one).meets(one.settings) && !is_sure(&self.beliefs, one)
            };
            if clause.severity != Severity::Nuisance
                && clause.literals.iter().all(may)
                && clause.literals.iter().any(makes)
            {
                self.found.push(Violation::Possible(place, number));
            }
        }
    }

    /// Whether a move changes what can be looked at, some goal speaks of, and met, at the start,
    /// every goal literal on it.
    fn disturbs(&self, problem: &Problem, action: &Action) -> bool {
        let seen = |v: usize| {
            let looks = self.vehicle.actions.iter().filter(|other| other.deed == Deed::Look);
            looks.flat_map(|look| &look.effects).any(|one| one.variable == v && !one.spoilt)
        };
        let right = |v: usize| {
            let literals = problem.goals.iter().flat_map(|goal| &goal.any_of);
            let asked: Vec<_> = literals.filter(|one| one.variable == v).collect();
            !asked.is_empty() && asked.iter().all(|one| is_sure(&problem.beliefs, one))
        };
        let mut own = action.effects.iter().filter(|effect| !effect.spoilt);
        action.deed == Deed::Move && own.any(|one| seen(one.variable) && right(one.variable))
    }

    /// What the action brings the literal's variable to, on the way and in the end.
    pub(crate) fn brought(&self, action: &Action, literal: &Literal) -> Settings {
        let brings = |one: &&Effect| one.spoilt || action.deed != Deed::Look;
        let effects = action.effects.iter().filter(|one| one.variable == literal.variable);
        let mut effects = effects.filter(brings);
        let middle = self.vehicle.variables.get(literal.variable).map(|known| known.middle);
        effects.next().map_or(Settings::NONE, |effect| {
            Settings::one(effect.to).or(middle.unwrap_or(Settings::NONE))
        })
    }

    pub(crate) fn take(&mut self, action: &Action) {
        for effect in &action.effects {
            let (was, to) = (self.belief(effect.variable), Settings::one(effect.to));
            let (Some(belief), Some(fresh)) =
                (self.beliefs.get_mut(effect.variable), self.fresh.get_mut(effect.variable))
            else {
                continue;
            };
            *belief = match action.deed {
                Deed::Look if !effect.spoilt && !was.meets(to) => Settings::one(was.first()),
                Deed::Look | Deed::Move | Deed::Wait => to,
            };
            *fresh = !effect.spoilt || (*fresh && was == to);
        }
    }

    /// How long it takes until a step begins: one sets out when the hands are free, and begins when
    /// one is there and no wait is left.
    fn begin_s(&mut self, walk_s: u32) -> u32 {
        let there_s = self.free_s.saturating_add(walk_s);
        self.arrive(there_s);
        there_s.saturating_sub(self.cost.elapsed_s)
    }

    /// Works out what is left of the waits on arriving.
    fn arrive(&mut self, there_s: u32) {
        let mut now_s = there_s;
        for (place, over_s) in self.waits.drain(..) {
            self.left_s.insert(place, over_s.saturating_sub(now_s));
            now_s = now_s.max(over_s);
        }
    }

    /// How long a wait lasts, for who stays where one is.
    fn wait_s(&mut self, place: usize, action: &Action) -> u32 {
        let age = action.effects.first().map_or(usize::MAX, |effect| effect.variable);
        let Some(ripe_s) = self.ripe_s.get(&age) else {
            self.found.push(Violation::NothingToWaitFor(place));
            return 0;
        };
        ripe_s.saturating_sub(self.cost.elapsed_s)
    }

    /// Every age grows; one begins when its variable comes to its setting, or is found there.
    pub(crate) fn let_pass(&mut self, action: &Action, before: &[Settings], now_s: u32) {
        for (number, variable) in self.vehicle.variables.iter().enumerate() {
            let Some(age) = variable.age_of else { continue };
            let setting = Settings::one(age.setting);
            let moved = action.deed == Deed::Move
                && action.effects.iter().any(|one| one.variable == age.variable);
            let rested = before.get(age.variable) == Some(&setting);
            if self.belief(age.variable) != setting {
                self.ripe_s.remove(&number);
            } else if moved || !rested {
                let limit_s = u32::try_from(age.limit_ms / 1_000).unwrap_or(u32::MAX);
                self.ripe_s.insert(number, now_s.saturating_add(limit_s));
            }
            if self.ripe_s.get(&number).is_some_and(|ripe_s| *ripe_s <= now_s)
                && let Some(belief) = self.beliefs.get_mut(number)
            {
                *belief = Settings::one(AgeOf::OLD);
            }
        }
    }

    pub(crate) fn finish(&mut self, problem: &Problem) {
        let mut named: Vec<usize> = Vec::new();
        for (number, goal) in problem.goals.iter().enumerate() {
            named.extend(goal.any_of.iter().map(|literal| literal.variable));
            if !self.is_met(goal) {
                self.found.push(Violation::Goal(number));
            }
        }
        for (number, clause) in self.vehicle.clauses.iter().enumerate() {
            let asked = problem.goals.iter().any(|goal| goal.of == GoalOf::Clause(number));
            if clause.severity == Severity::Nuisance || !is_broken(&problem.beliefs, clause) {
                continue;
            }
            if !asked {
                named.extend(clause.literals.iter().map(|literal| literal.variable));
            }
            if clause.literals.iter().all(|one| self.belief(one.variable).meets(one.settings)) {
                self.found.push(Violation::NoWayOut(number));
            }
        }
        for (number, variable) in self.vehicle.variables.iter().enumerate() {
            let found = problem.beliefs.get(number).copied().unwrap_or(Settings::NONE);
            if !variable.dont_care
                && !named.contains(&number)
                && !self.belief(number).is_within(found)
            {
                self.found.push(Violation::NotRestored(number));
            }
        }
    }

    fn is_met(&self, goal: &Goal) -> bool {
        let seen = |one: &Literal| self.fresh.get(one.variable).is_some_and(|fresh| *fresh);
        goal.any_of.iter().any(|one| is_sure(&self.beliefs, one) && (!goal.fresh || seen(one)))
    }

    /// Whether a clause of the start, unless its goal was let go, is still broken.
    pub(crate) fn is_exposed(&self, problem: &Problem, severity: Severity) -> bool {
        let whole = |one: &Literal| {
            self.vehicle.variables.get(one.variable).is_some_and(|v| v.all == one.settings)
        };
        let let_go = |number: usize| {
            let mut goals = problem.goals.iter();
            goals.any(|goal| goal.of == GoalOf::Clause(number) && goal.any_of.iter().all(whole))
        };
        let known = self.vehicle.clauses.iter().enumerate();
        let mut known = known.filter(|(_, clause)| clause.severity == severity);
        known.any(|(number, one)| {
            is_broken(&problem.beliefs, one) && is_broken(&self.beliefs, one) && !let_go(number)
        })
    }

    fn belief(&self, variable: usize) -> Settings {
        self.beliefs.get(variable).copied().unwrap_or(Settings::NONE)
    }
}

/// At what time each age is old, from the start of the plan.
fn ripe_s(problem: &Problem) -> BTreeMap<usize, u32> {
    let known = |variable: usize| problem.beliefs.get(variable).copied();
    let ages = problem.vehicle.variables.iter().enumerate();
    let ripe = ages.filter_map(|(number, variable)| {
        let age = variable.age_of?;
        if age.attended && known(age.variable) != Some(Settings::one(age.setting)) {
            return None;
        }
        if known(number) == Some(Settings::one(AgeOf::OLD)) {
            return Some((number, 0));
        }
        let rests = known(age.variable) == Some(Settings::one(age.setting));
        let limit_s = u32::try_from(age.limit_ms / 1_000).unwrap_or(u32::MAX);
        rests.then(|| (number, problem.ripens_s.get(&number).copied().unwrap_or(limit_s)))
    });
    ripe.collect()
}

fn is_sure(beliefs: &[Settings], literal: &Literal) -> bool {
    beliefs.get(literal.variable).is_some_and(|known| known.is_within(literal.settings))
}

pub(crate) fn is_broken(beliefs: &[Settings], clause: &Clause) -> bool {
    clause.literals.iter().all(|literal| is_sure(beliefs, literal))
}
