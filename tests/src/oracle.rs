//! The oracle: a uniform-cost search (Dijkstra 1959) over the raw semantics. Every action of the
//! vehicle is tried in every state; nothing is left out, reduced or estimated. Slow on purpose.

mod act;
mod attend;

use std::cmp::Reverse;
use std::collections::{BinaryHeap, HashMap};

use act::{act, ages, attended, let_go};
use stowfast_core::catalogue::Severity;
use stowfast_core::routine::{Cost, Problem};
use stowfast_core::vehicle::{AgeOf, Literal};

/// What the oracle says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answer {
    /// There is a plan; none is cheaper than this.
    Possible {
        /// Its cost.
        cost: Cost,
        /// One of the cheapest plans.
        steps: Vec<usize>,
        /// States that were settled.
        states: usize,
    },
    /// There is none.
    Impossible {
        /// States that can be reached.
        states: usize,
    },
    /// More states than allowed.
    TooLarge,
}

/// One byte a variable (the settings that it may have; the top bit: fresh), four for each age (the
/// seconds until it is old), four for the seconds that one has only waited, four for each age again
/// (for how long it has been old, if it must not end alone, but no longer than one has only waited),
/// the zone last.
type State = Box<[u8]>;
/// A variable and a set of its settings.
type Bits = (usize, u8);

const FRESH: u8 = 0x80;
const SETTINGS: u8 = 0x7f;
/// The belief that an age is old.
const OLD: u8 = 1 << AgeOf::OLD;
/// The time of what does not come by itself.
const NEVER: u32 = u32::MAX;

struct Act {
    look: bool,
    /// The age that it waits for, by its place among the ages.
    waits_for: Option<usize>,
    before: Vec<Bits>,
    /// Variable, setting, spoilt.
    effects: Vec<(usize, u8, bool)>,
    /// What it acts on that no look shows: the act may be made to freshen it alone.
    freshens: Vec<usize>,
    /// Danger and damage clauses with, for each literal, what the act brings its variable to.
    rules: Vec<Vec<(Bits, u8)>>,
    /// It moves what could be looked at, is asked for, and stood as every goal on it asks.
    disturbs: bool,
    seconds: u32,
    zone: u8,
}

struct Rules {
    acts: Vec<Option<Act>>,
    /// Severity, to get out of, literals.
    clauses: Vec<(Severity, bool, Vec<Bits>)>,
    goals: Vec<(Vec<Bits>, bool)>,
    /// What must end within what it was found with.
    restore: Vec<Bits>,
    /// Age, what it is the age of, at which setting, and for how long. Unit: s.
    ages: Vec<(usize, usize, u8, u32)>,
    /// For each age, the zone where somebody must be once it is old.
    attended: Vec<Option<u8>>,
    /// Fresh bits that some goal asks for; the others make no difference and are not kept.
    asked: Vec<bool>,
}

/// Whether the goals of the problem, exactly as they stand, can be reached, and at what cost.
/// Gives up beyond `states_max` states.
#[must_use]
pub fn solve(problem: &Problem, states_max: usize) -> Answer {
    let rules = Rules::of(problem);
    let start = rules.start(problem);
    let mut nodes: Vec<(State, Option<(usize, usize)>)> = vec![(start.clone(), None)];
    let mut best: HashMap<State, Cost> = HashMap::from([(start, Cost::default())]);
    let mut open = BinaryHeap::from([Reverse((Cost::default(), 0_usize))]);
    let mut settled: HashMap<State, Vec<Vec<u32>>> = HashMap::new();
    let mut states = 0_usize;
    while let Some(Reverse((cost, node))) = open.pop() {
        let Some((state, _)) = nodes.get(node).cloned() else { continue };
        if best.get(&state).is_some_and(|known| *known < cost) {
            continue;
        }
        // The same, no dearer, with every age due no later and no less time to have walked in, can do
        // whatever this can.
        let same = settled.entry(rules.ageless(&state)).or_default();
        let mut left: Vec<u32> =
            (0..rules.ages.len()).map(|age| rules.left_s(&state, age)).collect();
        left.push(NEVER.saturating_sub(rules.idle_s(&state)));
        if same.iter().any(|known| known.iter().zip(&left).all(|(known, one)| known <= one)) {
            continue;
        }
        same.push(left);
        states = states.saturating_add(1);
        if rules.is_end(&state) {
            return Answer::Possible { cost, steps: path(&nodes, node), states };
        }
        if states > states_max {
            return Answer::TooLarge;
        }
        for (number, act) in rules.acts.iter().enumerate() {
            let Some(act) = act.as_ref().filter(|act| may(&rules, act, &state)) else { continue };
            let spent_s = rules.spent_s(problem, act, &state);
            let next = rules.after(act, &state, spent_s);
            let cost = cost.plus(rules.price(problem, act, &state, &next));
            if best.get(&next).is_none_or(|known| cost < *known) {
                best.insert(next.clone(), cost);
                open.push(Reverse((cost, nodes.len())));
                nodes.push((next, Some((node, number))));
            }
        }
    }
    Answer::Impossible { states }
}

fn path(nodes: &[(State, Option<(usize, usize)>)], node: usize) -> Vec<usize> {
    let mut steps = Vec::new();
    let mut at = node;
    while let Some((_, Some((from, act)))) = nodes.get(at) {
        steps.push(*act);
        at = *from;
    }
    steps.reverse();
    steps
}

fn byte(state: &[u8], variable: usize) -> u8 {
    state.get(variable).copied().unwrap_or(0)
}

fn sure(state: &[u8], (variable, bits): Bits) -> bool {
    byte(state, variable) & SETTINGS & !bits == 0
}

fn broken(state: &[u8], clause: &[Bits]) -> bool {
    clause.iter().all(|literal| sure(state, *literal))
}

/// Whether the act is permitted and is an act at all.
fn may(rules: &Rules, act: &Act, state: &[u8]) -> bool {
    let not_fresh =
        |v: &usize| rules.asked.get(*v).is_some_and(|asked| *asked) && byte(state, *v) & FRESH == 0;
    let changed = |(v, to, spoilt): &(usize, u8, bool)| {
        let known = byte(state, *v) & SETTINGS;
        !spoilt && if act.look { !known.is_power_of_two() || not_fresh(v) } else { known != *to }
    };
    let is_act = act.freshens.iter().any(not_fresh) || act.effects.iter().any(changed);
    is_act
        && act.waits_for.is_none_or(|age| rules.left_s(state, age) != NEVER)
        && act.before.iter().all(|literal| sure(state, *literal))
        && !act.rules.iter().any(|rule| {
            let possible =
                |((v, bits), new): &(Bits, u8)| (byte(state, *v) & SETTINGS | new) & bits != 0;
            let made = |(literal, new): &(Bits, u8)| new & literal.1 != 0 && !sure(state, *literal);
            rule.iter().all(possible) && rule.iter().any(made)
        })
}

impl Rules {
    fn of(problem: &Problem) -> Self {
        let vehicle = problem.vehicle;
        let bits = |one: &Literal| (one.variable, one.settings.bits());
        let goals: Vec<(Vec<Bits>, bool)> = problem
            .goals
            .iter()
            .map(|goal| (goal.any_of.iter().map(bits).collect(), goal.fresh))
            .collect();
        let named = |v: usize| goals.iter().flat_map(|(any_of, _)| any_of).any(|one| one.0 == v);
        let asked = |v: usize| {
            goals.iter().any(|(any_of, fresh)| *fresh && any_of.iter().any(|one| one.0 == v))
        };
        let variables = vehicle.variables.iter().enumerate();
        let let_go: Vec<usize> = let_go(problem);
        let found: Vec<u8> = problem.beliefs.iter().map(|known| known.bits()).collect();
        Self {
            acts: (0..vehicle.actions.len()).map(|number| act(problem, number)).collect(),
            clauses: vehicle
                .clauses
                .iter()
                .enumerate()
                .map(|(number, clause)| {
                    let literals: Vec<Bits> = clause.literals.iter().map(bits).collect();
                    let first = broken(&found, &literals) && !let_go.contains(&number);
                    (clause.severity, first, literals)
                })
                .collect(),
            restore: variables
                .filter(|(v, known)| !known.dont_care && !named(*v))
                .filter_map(|(v, _)| Some((v, problem.beliefs.get(v)?.bits())))
                .collect(),
            asked: (0..vehicle.variables.len()).map(asked).collect(),
            ages: ages(problem),
            attended: attended(problem),
            goals,
        }
    }

    fn start(&self, problem: &Problem) -> State {
        let bytes = problem.beliefs.iter().zip(&problem.fresh).zip(&self.asked);
        let mut state: Vec<u8> = bytes
            .map(|((known, fresh), asked)| known.bits() | if *fresh && *asked { FRESH } else { 0 })
            .collect();
        for ((age, of, setting, limit_s), attended) in self.ages.iter().zip(&self.attended) {
            let known = |v: usize| byte(&state, v) & SETTINGS;
            let left_s = match (known(*age), known(*of)) {
                (_, at) if attended.is_some() && at != *setting => NEVER,
                (OLD, _) => 0,
                (_, at) if at == *setting => problem.ripens_s.get(age).copied().unwrap_or(*limit_s),
                _ => NEVER,
            };
            state.extend(left_s.to_be_bytes());
        }
        state.extend(0_u32.to_be_bytes());
        state.extend(self.ages.iter().flat_map(|_| 0_u32.to_be_bytes()));
        state.push(u8::try_from(problem.zone).unwrap_or(u8::MAX));
        state.into()
    }

    fn is_end(&self, state: &[u8]) -> bool {
        let met = |one: &Bits, fresh: bool| {
            sure(state, *one) && (!fresh || byte(state, one.0) & FRESH != 0)
        };
        self.goals.iter().all(|(any_of, fresh)| any_of.iter().any(|one| met(one, *fresh)))
            && self.restore.iter().all(|one| sure(state, *one))
    }

    /// Where the bytes of an age stand.
    fn place(&self, age: usize) -> std::ops::Range<usize> {
        let start = self.asked.len().saturating_add(age.saturating_mul(4));
        start..start.saturating_add(4)
    }

    /// A state without the time that its ages take, and that one has waited. As long as somebody
    /// must be somewhere in time, all times tell states apart.
    fn ageless(&self, state: &State) -> State {
        let mut state = state.clone();
        if (0..self.ages.len()).any(|age| self.is_attended(&state, age)) {
            return state;
        }
        for age in 0..=self.ages.len() {
            if let Some(bytes) = state.get_mut(self.place(age)) {
                bytes.fill(0);
            }
        }
        state
    }

    fn left_s(&self, state: &[u8], age: usize) -> u32 {
        let bytes = state.get(self.place(age)).and_then(|bytes| bytes.try_into().ok());
        bytes.map_or(NEVER, u32::from_be_bytes)
    }

    /// For how long one has only waited: who goes on to somewhere may have walked for so long. It
    /// stands where the bytes of one more age would.
    fn idle_s(&self, state: &[u8]) -> u32 {
        self.left_s(state, self.ages.len())
    }

    fn spent_s(&self, problem: &Problem, act: &Act, state: &[u8]) -> u32 {
        if let Some(age) = act.waits_for {
            return self.left_s(state, age);
        }
        let from = state.last().map_or(0, |zone| *zone);
        let walk_s = problem.vehicle.walks.between(usize::from(from), usize::from(act.zone));
        walk_s.saturating_sub(self.idle_s(state)).saturating_add(act.seconds)
    }

    /// Lets the ages grow while an act is made, or begin.
    fn let_pass(&self, act: &Act, state: &[u8], next: &mut State, spent_s: u32) {
        for (number, (age, of, setting, limit_s)) in self.ages.iter().enumerate() {
            let rests = |state: &[u8]| byte(state, *of) & SETTINGS == *setting;
            let moved = !act.look && act.effects.iter().any(|(v, _, _)| v == of);
            let was_left_s = self.left_s(state, number);
            let mut left_s = match was_left_s {
                NEVER => NEVER,
                left_s => left_s.saturating_sub(spent_s),
            };
            if !rests(next) {
                left_s = NEVER;
            } else if moved || !rests(state) {
                left_s = *limit_s;
            }
            if let Some(bytes) = next.get_mut(self.place(number)) {
                bytes.copy_from_slice(&left_s.to_be_bytes());
            }
            let late_s = match (act.waits_for, was_left_s) {
                (Some(_), 0) => self.late_s(state, number).saturating_add(spent_s),
                (Some(_), left_s) => spent_s.saturating_sub(left_s),
                (None, _) => 0,
            };
            let counts = left_s == 0 && self.attended.get(number).is_some_and(Option::is_some);
            let place = self.ages.len().saturating_add(1).saturating_add(number);
            if let Some(bytes) = next.get_mut(self.place(place)) {
                bytes.copy_from_slice(&if counts { late_s } else { 0 }.to_be_bytes());
            }
            if left_s == 0
                && let Some(cell) = next.get_mut(*age)
            {
                *cell = (*cell & FRESH) | OLD;
            }
        }
    }

    fn after(&self, act: &Act, state: &[u8], spent_s: u32) -> State {
        let mut next: State = state.into();
        for (variable, to, spoilt) in &act.effects {
            let was = byte(state, *variable);
            let found =
                if act.look && !*spoilt && was & to == 0 { lowest(was & SETTINGS) } else { *to };
            let kept = was & FRESH != 0 && was & SETTINGS == found;
            let asked = self.asked.get(*variable).is_some_and(|asked| *asked);
            let fresh = asked && (!spoilt || kept);
            if let Some(cell) = next.get_mut(*variable) {
                *cell = found | if fresh { FRESH } else { 0 };
            }
        }
        if let Some(zone) = next.last_mut()
            && act.waits_for.is_none()
        {
            *zone = act.zone;
        }
        let idle_s = act.waits_for.map_or(0, |_| self.idle_s(state).saturating_add(spent_s));
        if let Some(bytes) = next.get_mut(self.place(self.ages.len())) {
            bytes.copy_from_slice(&idle_s.to_be_bytes());
        }
        self.let_pass(act, state, &mut next, spent_s);
        next
    }

    fn price(&self, problem: &Problem, act: &Act, state: &[u8], next: &[u8]) -> Cost {
        let (from, to) = (state.last().map_or(0, |z| *z), next.last().map_or(0, |z| *z));
        let walk_s = problem.vehicle.walks.between(usize::from(from), usize::from(to));
        let elapsed_s = self.spent_s(problem, act, state);
        let exposed = |severity: Severity| {
            let mut all = self.clauses.iter().filter(|(known, _, _)| *known == severity);
            if all.any(|(_, first, one)| *first && broken(state, one)) { elapsed_s } else { 0 }
        };
        let turned = self.clauses.iter().filter(|(severity, _, clause)| {
            let brings = |(v, bits): &Bits| {
                let effects = act.effects.iter().filter(|(_, _, spoilt)| *spoilt || !act.look);
                effects.filter(|(on, _, _)| on == v).any(|(_, to, _)| to & bits != 0)
            };
            *severity == Severity::Nuisance && clause.iter().any(brings) && broken(next, clause)
        });
        Cost {
            danger_s: exposed(Severity::Danger),
            damage_s: exposed(Severity::Damage),
            alone_s: act.waits_for.map_or_else(|| self.alone_s(problem, act, state), |_| 0),
            nuisances: u32::try_from(turned.count()).unwrap_or(u32::MAX),
            disturbed: u32::from(act.disturbs),
            elapsed_s,
            walk_s,
            zone_changes: u32::from(from != to),
            backward: u32::from(to < from),
        }
    }
}

fn lowest(bits: u8) -> u8 {
    bits & bits.wrapping_neg()
}
