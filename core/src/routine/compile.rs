//! The problem as the search sees it: only variables that an action of use can change, numbered
//! anew; every literal on the others settled once and for all.

use std::collections::BTreeMap;

use super::Problem;
use super::form::{Aim, Change, Clock, Compiled, FRESH, Lit, NEVER, Rule, Step};
use super::mark::mark;
use super::relevant::{
    Relevant, asks_only_to_stand, can_look, is_free_to_end, relevant, relevant_among,
};
use crate::catalogue::Severity;
use crate::interlock::{GoalOf, believed, new_settings};
use crate::vehicle::{Action, AgeOf, Deed, Effect, Literal, Settings};

/// Numbers the variables that actions of use change.
struct Numbers<'a> {
    problem: &'a Problem<'a>,
    of: BTreeMap<usize, usize>,
    /// What actions of use bring each variable to, on the way and in the end.
    brought: Vec<Settings>,
    /// What each variable can come to for certain.
    certain: Vec<Settings>,
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
        let Some(var) = self.of.get(&literal.variable) else {
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
        let attainable = brought.meets(literal.settings);
        Settled::Open(Lit { var: *var, set: literal.settings.bits(), attainable })
    }
}

/// Compiles a problem.
pub(super) fn compile(problem: &Problem) -> Compiled {
    let Relevant { of_use, certain } = relevant(problem);
    let vehicle = problem.vehicle;
    let actions: Vec<_> = vehicle.actions.iter().enumerate().collect();
    let actions: Vec<_> =
        actions.into_iter().filter(|(number, _)| of_use.get(*number) == Some(&true)).collect();
    let mut brought = vec![Settings::NONE; problem.beliefs.len()];
    let mut of = BTreeMap::new();
    for effect in actions.iter().flat_map(|(_, action)| &action.effects) {
        let next = of.len();
        of.entry(effect.variable).or_insert(next);
    }
    for (_, action) in &actions {
        for effect in &action.effects {
            let now = believed(&problem.beliefs, effect.variable);
            let new = match action.deed {
                Deed::Move | Deed::Wait => new_settings(vehicle, action, effect.variable),
                Deed::Look => now.or(Settings::one(effect.to)),
            };
            if let Some(cell) = brought.get_mut(effect.variable) {
                *cell = cell.or(new);
            }
        }
    }
    let numbers = Numbers { problem, of, brought, certain };
    let mut start = vec![0; numbers.of.len()];
    for (variable, var) in &numbers.of {
        let fresh = problem.fresh.get(*variable) == Some(&true) && is_asked(problem, *variable);
        let belief = believed(&problem.beliefs, *variable).bits();
        if let Some(cell) = start.get_mut(*var) {
            *cell = belief | if fresh { FRESH } else { 0 };
        }
    }
    let mut compiled = Compiled {
        start,
        zone: problem.zone,
        steps: Vec::new(),
        rules: rules(&numbers),
        aims: Vec::new(),
        clocks: clocks(&numbers, &actions),
        hopeless: false,
    };
    let leads_out =
        [Severity::Danger, Severity::Damage].map(|worst| leading_out(problem, worst, &of_use));
    compiled.steps = actions
        .iter()
        .filter_map(|(number, action)| {
            let leads_out = leads_out.each_ref().map(|all| all.get(*number) == Some(&true));
            Some(Step { leads_out, ..step(&numbers, *number, action)? })
        })
        .collect();
    add_aims(&mut compiled, &numbers);
    mark(&mut compiled);
    compiled
}

/// For each action of use, whether it is so in getting out of what is broken, down to a severity.
fn leading_out(problem: &Problem, worst: Severity, of_use: &[bool]) -> Vec<bool> {
    let goals = problem.ways_out().into_iter().filter(|goal| goal.severity <= worst).collect();
    relevant_among(&Problem { goals, ..problem.clone() }, of_use)
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

fn clocks(numbers: &Numbers, actions: &[(usize, &Action)]) -> Vec<Clock> {
    let problem = numbers.problem;
    let waits = actions.iter().filter(|(_, action)| action.deed == Deed::Wait);
    let clock = |variable: usize| {
        let age = problem.vehicle.variables.get(variable)?.age_of?;
        let limit_s = seconds(age.limit_ms);
        let setting = Settings::one(age.setting);
        let left_s = if believed(&problem.beliefs, variable) == Settings::one(AgeOf::OLD) {
            0
        } else if believed(&problem.beliefs, age.variable) == setting {
            problem.ripens_s.get(&variable).copied().unwrap_or(limit_s)
        } else {
            NEVER
        };
        let of = numbers.of.get(&age.variable).copied();
        let var = *numbers.of.get(&variable)?;
        Some(Clock { var, of, setting: setting.bits(), limit_s, left_s })
    };
    waits.flat_map(|(_, wait)| &wait.effects).filter_map(|effect| clock(effect.variable)).collect()
}

fn seconds(ms: i64) -> u32 {
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
            var: *numbers.of.get(&effect.variable)?,
            to: Settings::one(effect.to).bits(),
            found: action
                .outcome(effect, believed(&numbers.problem.beliefs, effect.variable))
                .bits(),
            middle,
            spoilt: effect.spoilt,
            can_look: can_look(numbers.problem, effect),
            asked: is_asked(numbers.problem, effect.variable),
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
        asks_only_to_stand: asks_only_to_stand(vehicle, action),
        disturbs: action.deed == Deed::Move
            && action.effects.iter().any(|one| !one.spoilt && stood_right(numbers.problem, one)),
        harmless: false,
        burdens: Vec::new(),
        leads_out: [false; 2],
    })
}

/// Whether some goal asks for a variable to be fresh.
fn is_asked(problem: &Problem, variable: usize) -> bool {
    let goals = problem.goals.iter().filter(|goal| goal.fresh);
    goals.flat_map(|goal| &goal.any_of).any(|literal| literal.variable == variable)
}

/// Whether goals speak of what a move changes, it met them all, and it can be looked at instead.
fn stood_right(problem: &Problem, effect: &Effect) -> bool {
    let now = believed(&problem.beliefs, effect.variable);
    let literals = problem.goals.iter().flat_map(|goal| &goal.any_of);
    let mut of_it = literals.filter(|literal| literal.variable == effect.variable).peekable();
    can_look(problem, effect)
        && of_it.peek().is_some()
        && of_it.all(|literal| now.is_within(literal.settings))
}

/// The goals; and what no goal speaks of and no kind lets go must end as it was found.
fn add_aims(compiled: &mut Compiled, numbers: &Numbers) {
    let problem = numbers.problem;
    for goal in problem.telling() {
        let mut aim = Aim { lits: Vec::new(), fresh: goal.fresh, steps: Vec::new() };
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
    for (variable, var) in &numbers.of {
        if !is_free_to_end(problem, *variable) {
            let set = believed(&problem.beliefs, *variable).bits();
            let lits = vec![Lit { var: *var, set, attainable: true }];
            compiled.aims.push(Aim { lits, fresh: false, steps: Vec::new() });
        }
    }
}
