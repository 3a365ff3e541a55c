//! The problem as the search sees it: only variables that an action of use can change, numbered
//! anew; every literal on the others settled once and for all.

use super::Problem;
use super::asked::Asked;
use super::form::{Aim, Beliefs, Change, Clock, Compiled, FRESH, Lit, NEVER, NOWHERE, Rule, Step};
use super::mark::{mark, mark_disputes};
use super::reach::may_be_reached;
use super::relevant::{is_possible, relevant};
use super::useful::useful;
use crate::catalogue::Severity;
use crate::interlock::{GoalOf, believed, new_settings};
use crate::vehicle::{Action, AgeOf, Deed, Effect, Literal, Settings};

/// Numbers the variables that some actions change.
struct Numbers<'a> {
    problem: &'a Problem<'a>,
    /// The number of each variable.
    of: Vec<Option<usize>>,
    /// The variable of each number.
    variables: Vec<usize>,
    /// What those actions bring each variable to, on the way and in the end.
    brought: Vec<Settings>,
    /// What each variable can come to for certain.
    certain: Vec<Settings>,
    /// What is asked of each variable.
    asked: Asked,
    /// That the wheels stand still.
    standing_still: Option<Literal>,
}

/// A literal once its variable is looked up.
enum Settled {
    Never,
    Always,
    Maybe,
    Open(Lit),
}

impl Numbers<'_> {
    fn lit(&self, literal: &Literal) -> Settled {
        let now = believed(&self.problem.beliefs, literal.variable);
        let Some(var) = self.var(literal.variable) else {
            return match (now.meets(literal.settings), now.is_within(literal.settings)) {
                (false, _) => Settled::Never,
                (true, true) => Settled::Always,
                (true, false) => Settled::Maybe,
            };
        };
        let brought = self.brought.get(literal.variable).copied().unwrap_or_default();
        if !now.or(brought).meets(literal.settings) {
            return Settled::Never;
        }
        Settled::Open(Lit { var, set: literal.settings.bits() })
    }
}

/// The problem with all that is possible, of use or not.
pub(super) fn whole(problem: &Problem) -> Compiled {
    let actions = &problem.vehicle.actions;
    let possible: Vec<bool> = actions.iter().map(|action| is_possible(problem, action)).collect();
    among(problem, &possible, all_certain(problem))
}

/// Compiles a problem: what is of use is found among all that is possible. `None` where that shows at
/// a glance that there is no way.
pub(super) fn compile(problem: &Problem) -> Option<Compiled> {
    let whole = whole(problem);
    may_be_reached(&whole).then(|| narrowed(problem, &whole))
}

/// The same with only what is of use.
fn narrowed(problem: &Problem, whole: &Compiled) -> Compiled {
    let relevant = relevant(problem, whole);
    let mut certain = vec![Settings::NONE; problem.beliefs.len()];
    for (variable, now) in problem.beliefs.iter().enumerate() {
        let var = whole.variables.iter().position(|known| *known == variable);
        let single = || now.single().map_or(Settings::NONE, Settings::one);
        let known = var.map(|var| settings(relevant.of(var).certain));
        if let Some(cell) = certain.get_mut(variable) {
            *cell = known.unwrap_or_else(single);
        }
    }
    let of_use = by_action(problem, whole, &relevant.steps);
    let mut compiled = among(problem, &of_use, certain);
    mark_disputes(&mut compiled);
    for (place, worst) in [Severity::Danger, Severity::Damage].into_iter().enumerate() {
        let out = leading_out(problem, worst, &of_use);
        for step in &mut compiled.steps {
            if let Some(leads_out) = step.leads_out.get_mut(place) {
                *leads_out = out.get(step.number) == Some(&true);
            }
        }
    }
    compiled
}

/// Settings from their bits.
fn settings(bits: u8) -> Settings {
    (0..6).filter(|place| bits >> place & 1 == 1).collect()
}

/// What some steps are marked with, by the numbers of their actions.
fn by_action(problem: &Problem, compiled: &Compiled, marked: &[bool]) -> Vec<bool> {
    let mut actions = vec![false; problem.vehicle.actions.len()];
    for (step, marked) in compiled.steps.iter().zip(marked) {
        if let Some(action) = actions.get_mut(step.number) {
            *action = *marked;
        }
    }
    actions
}

/// For each action of use, whether it is so in getting out of what is broken, down to a severity.
fn leading_out(problem: &Problem, worst: Severity, of_use: &[bool]) -> Vec<bool> {
    let mut goals = problem.ways_out();
    goals.retain(|goal| goal.severity <= worst);
    if goals.is_empty() {
        return Vec::new();
    }
    let out = Problem { goals, ..problem.clone() };
    let compiled = among(&out, of_use, all_certain(&out));
    by_action(problem, &compiled, &useful(&compiled, &compiled.start).steps)
}

/// What each variable is certain to be now, or may be once it is looked at or moved.
fn all_certain(problem: &Problem) -> Vec<Settings> {
    let single = |now: &Settings| now.single().map_or(Settings::NONE, Settings::one);
    let mut certain: Vec<Settings> = problem.beliefs.iter().map(single).collect();
    for action in &problem.vehicle.actions {
        for effect in &action.effects {
            let outcome = action.outcome(effect, believed(&problem.beliefs, effect.variable));
            let passed = new_settings(problem.vehicle, action, effect.variable);
            if let Some(known) = certain.get_mut(effect.variable) {
                *known = known.or(outcome).or(passed);
            }
        }
    }
    certain
}

/// The problem with some of its actions.
fn among(problem: &Problem, allowed: &[bool], certain: Vec<Settings>) -> Compiled {
    let actions = problem.vehicle.actions.iter().enumerate();
    let actions: Vec<_> =
        actions.filter(|(number, _)| allowed.get(*number) == Some(&true)).collect();
    let numbers = Numbers::new(problem, &actions, certain);
    let mut compiled = Compiled {
        variables: numbers.variables.clone(),
        start: numbers.start(),
        zone: problem.zone,
        steps: actions
            .iter()
            .filter_map(|(number, action)| step(&numbers, *number, action))
            .collect(),
        rules: rules(&numbers),
        aims: Vec::new(),
        clocks: clocks(&numbers, &actions),
        hopeless: false,
    };
    add_aims(&mut compiled, &numbers);
    mark(&mut compiled);
    compiled
}

/// For each variable, whether rules, goals or the conditions of some actions speak of it.
fn mentioned(problem: &Problem, actions: &[(usize, &Action)]) -> Vec<bool> {
    let rules = problem.vehicle.clauses.iter().flat_map(|clause| &clause.literals);
    let goals = problem.goals.iter().flat_map(|goal| &goal.any_of);
    let before = actions.iter().flat_map(|(_, action)| &action.before);
    let mut mentioned = vec![false; problem.beliefs.len()];
    for literal in rules.chain(goals).chain(before) {
        if let Some(cell) = mentioned.get_mut(literal.variable) {
            *cell = true;
        }
    }
    mentioned
}

impl<'a> Numbers<'a> {
    fn new(problem: &'a Problem<'a>, actions: &[(usize, &Action)], certain: Vec<Settings>) -> Self {
        let mut numbers = Self {
            problem,
            of: vec![None; problem.beliefs.len()],
            variables: Vec::new(),
            brought: vec![Settings::NONE; problem.beliefs.len()],
            certain,
            asked: Asked::by(problem),
            standing_still: problem.vehicle.standing_still(),
        };
        let mentioned = mentioned(problem, actions);
        let variables = &problem.vehicle.variables;
        // An age that nothing here asks for tells states apart that are alike.
        let counts = |effect: &&Effect| {
            let known = variables.get(effect.variable);
            known.is_none_or(|known| known.age_of.is_none())
                || mentioned.get(effect.variable) == Some(&true)
        };
        for (_, action) in actions {
            for effect in action.effects.iter().filter(counts) {
                numbers.add(action, effect);
            }
        }
        numbers
    }

    fn add(&mut self, action: &Action, effect: &Effect) {
        if let Some(of) = self.of.get_mut(effect.variable).filter(|of| of.is_none()) {
            *of = Some(self.variables.len());
            self.variables.push(effect.variable);
        }
        let now = believed(&self.problem.beliefs, effect.variable);
        let new = match action.deed {
            Deed::Move | Deed::Wait => new_settings(self.problem.vehicle, action, effect.variable),
            Deed::Look => now.or(Settings::one(effect.to)),
        };
        if let Some(cell) = self.brought.get_mut(effect.variable) {
            *cell = cell.or(new);
        }
    }

    fn var(&self, variable: usize) -> Option<usize> {
        self.of.get(variable).copied().flatten()
    }

    fn start(&self) -> Beliefs {
        let now = |variable: &usize| {
            let fresh = self.problem.fresh.get(*variable) == Some(&true);
            let belief = believed(&self.problem.beliefs, *variable).bits();
            belief | if fresh && self.asked.of(*variable).fresh { FRESH } else { 0 }
        };
        self.variables.iter().map(now).collect()
    }
}

fn rules(numbers: &Numbers) -> Vec<Rule> {
    let mut rules = Vec::new();
    let ways_out = numbers.problem.ways_out();
    'clauses: for (number, clause) in numbers.problem.vehicle.clauses.iter().enumerate() {
        let mut rule = Rule {
            lits: Vec::new(),
            severity: clause.severity,
            only_open: false,
            to_get_out_of: ways_out.iter().any(|goal| goal.of == GoalOf::Clause(number)),
            on: 0,
        };
        for literal in &clause.literals {
            match numbers.lit(literal) {
                Settled::Never => continue 'clauses,
                Settled::Always => {}
                Settled::Maybe => rule.only_open = true,
                Settled::Open(lit) => rule.lits.push(lit),
            }
        }
        // What can never be broken costs nothing; a nuisance does nothing else.
        let breaks = |one: &Literal| {
            believed(&numbers.problem.beliefs, one.variable).is_within(one.settings)
                || believed(&numbers.certain, one.variable).meets(one.settings)
        };
        let idle = rule.severity == Severity::Nuisance && !clause.literals.iter().all(breaks);
        if !rule.lits.is_empty() && !idle {
            rules.push(rule);
        }
    }
    rules
}

/// The ages that some action waits for, and those of what must not end alone and runs, or may come to.
fn clocks(numbers: &Numbers, actions: &[(usize, &Action)]) -> Vec<Clock> {
    let problem = numbers.problem;
    let waits = actions.iter().filter(|(_, action)| action.deed == Deed::Wait);
    let waited: Vec<usize> =
        waits.flat_map(|(_, wait)| &wait.effects).map(|effect| effect.variable).collect();
    let clock = |variable: usize| {
        let age = problem.vehicle.variables.get(variable)?.age_of?;
        let limit_s = seconds(age.limit_ms);
        let setting = Settings::one(age.setting);
        let runs = believed(&problem.beliefs, age.variable) == setting;
        let left_s = if age.attended && !runs {
            NEVER
        } else if believed(&problem.beliefs, variable) == Settings::one(AgeOf::OLD) {
            0
        } else if runs {
            problem.ripens_s.get(&variable).copied().unwrap_or(limit_s)
        } else {
            NEVER
        };
        let of = numbers.var(age.variable);
        let zone = problem.vehicle.variables.get(age.variable)?.zone;
        let attended = (age.attended && (runs || of.is_some())).then_some(zone);
        let waited = numbers.var(variable).filter(|_| waited.contains(&variable));
        if attended.is_none() && waited.is_none() {
            return None;
        }
        let var = numbers.var(variable).unwrap_or(NOWHERE);
        Some(Clock { var, of, setting: setting.bits(), limit_s, left_s, attended })
    };
    (0..problem.vehicle.variables.len()).filter_map(clock).collect()
}

/// Begun seconds.
pub(super) fn seconds(ms: i64) -> u32 {
    u32::try_from(ms.saturating_add(999).div_euclid(1_000)).unwrap_or(NEVER)
}

fn step(numbers: &Numbers, number: usize, action: &Action) -> Option<Step> {
    let mut before = Vec::new();
    for literal in &action.before {
        match numbers.lit(literal) {
            Settled::Never | Settled::Maybe => return None,
            Settled::Always => {}
            Settled::Open(lit) => before.push(lit),
        }
    }
    let vehicle = numbers.problem.vehicle;
    let variables = &vehicle.variables;
    let changes = action.effects.iter().filter_map(|effect| {
        let middle = variables.get(effect.variable)?.middle.bits();
        Some(Change {
            var: numbers.var(effect.variable)?,
            to: Settings::one(effect.to).bits(),
            seen: action
                .outcome(effect, believed(&numbers.problem.beliefs, effect.variable))
                .bits(),
            middle,
            spoilt: effect.spoilt,
            can_look: numbers.asked.of(effect.variable).can_look,
            asked: numbers.asked.of(effect.variable).fresh,
        })
    });
    Some(Step {
        number,
        deed: action.deed,
        before,
        changes: changes.collect(),
        seconds: action.seconds,
        zone: action.zone,
        rules: Vec::new(),
        nuisances: Vec::new(),
        asks_only_to_stand: action.before.iter().all(|one| Some(*one) == numbers.standing_still),
        disturbs: numbers.asked.is_disturbed_by(action),
        unwanted: false,
        disputed_by: Vec::new(),
        burdens: Vec::new(),
        leads_out: [false; 2],
        acts_on: 0,
        hangs_on: 0,
    })
}

/// The goals; and what no goal speaks of and no kind lets go must end as it was found.
fn add_aims(compiled: &mut Compiled, numbers: &Numbers) {
    let problem = numbers.problem;
    for goal in problem.telling() {
        let mut aim = Aim { lits: Vec::new(), fresh: goal.fresh, steps: Vec::new(), on: 0 };
        let mut met = false;
        for literal in &goal.any_of {
            match numbers.lit(literal) {
                Settled::Always => {
                    let fresh = problem.fresh.get(literal.variable) == Some(&true);
                    met |= !goal.fresh || fresh;
                }
                Settled::Never | Settled::Maybe => {}
                Settled::Open(lit) => aim.lits.push(lit),
            }
        }
        if !met {
            compiled.hopeless |= aim.lits.is_empty();
            compiled.aims.push(aim);
        }
    }
    // A plan may leave otherwise than it found it what the goals speak of or its kind does not
    // care about.
    let variables = &problem.vehicle.variables;
    for (var, variable) in numbers.variables.iter().enumerate() {
        let dont_care = variables.get(*variable).is_none_or(|known| known.dont_care);
        if !dont_care && numbers.asked.of(*variable).right.is_none() {
            let set = believed(&problem.beliefs, *variable).bits();
            let lits = vec![Lit { var, set }];
            compiled.aims.push(Aim { lits, fresh: false, steps: Vec::new(), on: 0 });
        }
    }
}
