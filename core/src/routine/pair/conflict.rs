//! Which steps of a plan may not change places, nor be under way at once.

use crate::interlock::{Standing, standing};
use crate::routine::{Plan, Problem};
use crate::vehicle::{Action, Clause, Deed, Effect, Vehicle};

/// For each step of the plan, by place, the earlier ones that must have ended before it starts.
pub(super) fn before(problem: &Problem, plan: &Plan) -> Vec<Vec<usize>> {
    let vehicle = problem.vehicle;
    let out = leading_out(problem, plan);
    let steps: Vec<_> = plan.steps.iter().map(|step| vehicle.actions.get(*step)).collect();
    let earlier = |place: usize, later: Option<&Action>| {
        let kept = steps.iter().enumerate().take(place).filter(|(other, earlier)| {
            let conflict = earlier.zip(later).is_none_or(|(a, b)| conflict(vehicle, a, b));
            *other < out || conflict
        });
        kept.map(|(other, _)| other).collect()
    };
    steps.iter().enumerate().map(|(place, step)| earlier(place, *step)).collect()
}

/// How many steps it takes until nothing is broken that was broken at the start, or only time can
/// lead out of it: work meanwhile keeps nobody in danger.
fn leading_out(problem: &Problem, plan: &Plan) -> usize {
    let vehicle = problem.vehicle;
    let ways_out = problem.ways_out();
    let bears = |step: &usize| {
        let action = vehicle.actions.get(*step).filter(|action| action.deed != Deed::Wait);
        let mut told = ways_out.iter().flat_map(|goal| &goal.any_of);
        action.is_some_and(|action| told.any(|literal| changes(action, literal.variable)))
    };
    let steps = plan.steps.get(..exposed(problem, plan)).unwrap_or_default();
    steps.iter().rposition(bears).map_or(0, |last| last.saturating_add(1))
}

/// How many steps it takes until nothing is broken that was broken at the start.
pub(in crate::routine) fn exposed(problem: &Problem, plan: &Plan) -> usize {
    let vehicle = problem.vehicle;
    let ways_out = problem.ways_out();
    let broken: Vec<&Clause> = ways_out.iter().filter_map(|goal| goal.clause(vehicle)).collect();
    let mut beliefs = problem.beliefs.clone();
    let mut count = 0_usize;
    for step in &plan.steps {
        if !broken.iter().any(|one| standing(&beliefs, one) == Standing::Broken) {
            break;
        }
        if let Some(action) = vehicle.actions.get(*step) {
            action.apply(&mut beliefs);
        }
        count = count.saturating_add(1);
    }
    count
}

/// Whether one of two steps bears on the other: they change the same, unless both only throw it
/// back; one changes what the other asks for; or what one brings about and what the other changes
/// stand in one clause. What a look shows is changed but not brought about, so two looks meet in no
/// clause.
pub(in crate::routine) fn conflict(vehicle: &Vehicle, a: &Action, b: &Action) -> bool {
    let asks = |one: &Action, other: &Action| {
        other.before.iter().any(|literal| changes(one, literal.variable))
    };
    let mut pairs = a.effects.iter().flat_map(|one| b.effects.iter().map(move |two| (one, two)));
    let thrown_back = |one: &Effect, two: &Effect| one.spoilt && two.spoilt && one.to == two.to;
    pairs.any(|(one, two)| one.variable == two.variable && !thrown_back(one, two))
        || asks(a, b)
        || asks(b, a)
        || vehicle.clauses.iter().any(|clause| meet(clause, a, b) || meet(clause, b, a))
}

/// Whether `one` brings a literal of the clause about and `other` changes another of them.
fn meet(clause: &Clause, one: &Action, other: &Action) -> bool {
    let brings = |variable: usize| {
        let mut effects = one.effects.iter().filter(|effect| effect.variable == variable);
        effects.any(|effect| one.brings(effect))
    };
    clause.literals.iter().filter(|literal| brings(literal.variable)).any(|literal| {
        let mut others = clause.literals.iter().filter(|two| two.variable != literal.variable);
        others.any(|two| changes(other, two.variable))
    })
}

fn changes(action: &Action, variable: usize) -> bool {
    action.effects.iter().any(|effect| effect.variable == variable)
}
