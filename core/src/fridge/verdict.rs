//! From every world that is possible to one answer.

use super::automaton::{State, World, next_change, step};
use super::because::because;
use super::{Advice, Age, Caution, Change, Feed, Hazard, Inputs, Known, Selector, Source};

/// The feeds that are a plain yes or no.
pub(super) const YES_NO: [Feed; 6] = [
    Feed::Mains,
    Feed::Engine,
    Feed::ChargeSignal,
    Feed::FlameForbidden,
    Feed::FlameOnRoad,
    Feed::Gas,
];

/// One world, the state of its automaton, and what follows there.
pub(super) struct Case {
    pub(super) world: World,
    pub(super) state: State,
    pub(super) outcome: Outcome,
}

/// What the advice would be in one world.
#[derive(PartialEq)]
pub(super) struct Outcome {
    source: Source,
    next: Option<Change>,
    by_hand: Option<Selector>,
    hazards: Vec<Hazard>,
}

/// The advice; `inputs` were checked.
pub(super) fn of(inputs: &Inputs) -> Advice {
    let cases = cases(inputs);
    let cautions = cautions(&cases);
    Advice {
        source: source_in(&cases, 0),
        because: because(inputs, &cases),
        next: next(&cases),
        by_hand: by_hand_in(&cases, &cautions),
        cautions,
    }
}

/// Where to set it to switch it on; `inputs` were checked.
pub(super) fn setting_for(inputs: &Inputs) -> Option<Selector> {
    agreed(worlds(inputs).iter().map(
        |world| {
            if may_choose(world) { Selector::Auto } else { world.best() }
        },
    ))
}

/// What serves best in every world; `inputs` were checked.
pub(super) fn best(inputs: &Inputs) -> Option<Selector> {
    agreed(worlds(inputs).iter().map(World::best))
}

fn agreed<T: PartialEq>(mut answers: impl Iterator<Item = T>) -> Option<T> {
    let first = answers.next()?;
    answers.all(|answer| answer == first).then_some(first)
}

fn worlds(inputs: &Inputs) -> Vec<World> {
    let any = World {
        automatic: inputs.automatic,
        selector: inputs.selector,
        mains: false,
        engine: false,
        charge: false,
        gas: false,
        flame_forbidden: false,
        flame_on_road: false,
        gas_delay_ms: inputs.gas_delay_ms,
    };
    YES_NO.iter().fold(vec![any], |worlds, &feed| {
        let answers = known(inputs, feed).possible();
        worlds
            .iter()
            .flat_map(|world| answers.iter().map(|&answer| with(*world, feed, answer)))
            .collect()
    })
}

/// What the inputs say of `feed`.
pub(super) fn known(inputs: &Inputs, feed: Feed) -> Known {
    match feed {
        Feed::Mains => inputs.mains,
        Feed::Engine => inputs.engine_running,
        Feed::ChargeSignal => inputs.charge_signal,
        Feed::FlameForbidden => inputs.flame_forbidden,
        Feed::FlameOnRoad => inputs.flame_on_road,
        Feed::Gas => inputs.gas,
        Feed::EngineStop => match inputs.engine_off {
            Age::Exactly(_) => Known::Yes,
            Age::AtLeast(_) => Known::Unknown,
        },
    }
}

/// The world that differs only in `feed`.
pub(super) fn with(mut world: World, feed: Feed, answer: bool) -> World {
    match feed {
        Feed::Mains => world.mains = answer,
        Feed::Engine => world.engine = answer,
        Feed::ChargeSignal => world.charge = answer,
        Feed::FlameForbidden => world.flame_forbidden = answer,
        Feed::FlameOnRoad => world.flame_on_road = answer,
        Feed::Gas => world.gas = answer,
        Feed::EngineStop => {}
    }
    world
}

fn cases(inputs: &Inputs) -> Vec<Case> {
    let mut cases = Vec::new();
    for world in worlds(inputs) {
        for gone_ms in signal_gone(inputs.engine_off, &world) {
            let state = State::start(&world, gone_ms);
            let outcome = Outcome {
                source: state.source(),
                next: next_change(state, &world),
                by_hand: by_hand(&world),
                hazards: hazards(&world, state),
            };
            cases.push(Case { world, state, outcome });
        }
    }
    cases
}

/// How long the charge signal may have been gone.
///
/// Of a range the two ends are enough: at any time a clock in between has either run past the
/// delay, as the upper end has, or not yet, and then the lower end has not either.
fn signal_gone(engine_off: Age, world: &World) -> Vec<i64> {
    match engine_off {
        _ if world.charging() => vec![0],
        _ if world.engine => vec![0, world.gas_delay_ms],
        Age::Exactly(ms) if world.charge => vec![ms],
        // The signal may have gone before the engine stopped.
        Age::Exactly(ms) | Age::AtLeast(ms) => vec![ms, ms.max(world.gas_delay_ms)],
    }
}

fn source_in(cases: &[Case], in_ms: i64) -> Source {
    let sources = cases.iter().map(|case| step(case.state, &case.world, in_ms).source());
    agreed(sources).unwrap_or(Source::Unknown)
}

/// The first change of the common answer. Every clock that still runs shows the same time, so
/// there is one moment at which anything can change.
fn next(cases: &[Case]) -> Option<Change> {
    let in_ms =
        cases.iter().filter_map(|case| case.outcome.next).map(|change| change.in_ms).min()?;
    let source = source_in(cases, in_ms);
    (source != source_in(cases, 0)).then_some(Change { source, in_ms })
}

/// An automatic model may be left to choose: it can light no flame that must not burn.
fn may_choose(world: &World) -> bool {
    let dropped = world.engine && !world.charge && !world.flame_on_road;
    world.automatic && !world.flame_forbidden && !dropped
}

fn by_hand(world: &World) -> Option<Selector> {
    let best = world.best();
    match world.selector {
        Selector::Off => None,
        Selector::Auto => lights_unasked(world).then_some(best),
        Selector::Mains | Selector::Dc | Selector::Gas if best == world.selector => None,
        Selector::Mains | Selector::Dc | Selector::Gas if may_choose(world) => Some(Selector::Auto),
        // Nothing to run on, and on mains it does no harm and is ready for the next hook-up.
        Selector::Mains if best == Selector::Off => None,
        Selector::Mains | Selector::Dc | Selector::Gas => Some(best),
    }
}

/// `Auto` left as it is comes to light a flame that must not burn.
fn lights_unasked(world: &World) -> bool {
    let lights = world.gas && !world.mains && !world.charging();
    lights && (world.flame_forbidden || (world.engine && !world.flame_on_road))
}

fn hazards(world: &World, state: State) -> Vec<Hazard> {
    let mut hazards = Vec::new();
    let on_gas = world.selector == Selector::Gas;
    let auto = world.selector == Selector::Auto;
    if on_gas && world.flame_forbidden {
        hazards.push(Hazard::FlameForbidden);
    }
    let unasked = auto && lights_unasked(world);
    if unasked && world.flame_forbidden {
        hazards.push(Hazard::LightsByItself { in_ms: state.delay_left_ms(world) });
    }
    if world.engine && !world.flame_on_road && (unasked || (on_gas && world.gas)) {
        hazards.push(Hazard::FlameOnRoad);
    }
    if world.selector == Selector::Dc && !world.charging() {
        hazards.push(Hazard::FlatBattery);
    }
    if state.source() == Source::Dc {
        hazards.push(Hazard::HoldsOnly);
    }
    hazards
}

fn cautions(cases: &[Case]) -> Vec<Caution> {
    let mut cautions: Vec<Caution> = Vec::new();
    let mut hazards: Vec<Hazard> =
        cases.iter().flat_map(|case| case.outcome.hazards.iter().copied()).collect();
    // In this order the earliest of two times comes first and is the one that is kept.
    hazards.sort_unstable();
    for hazard in hazards {
        if cautions.iter().any(|caution| alike(caution.hazard, hazard)) {
            continue;
        }
        let sure =
            cases.iter().all(|case| case.outcome.hazards.iter().any(|&other| alike(other, hazard)));
        cautions.push(Caution { hazard, sure });
    }
    cautions
}

fn alike(one: Hazard, other: Hazard) -> bool {
    std::mem::discriminant(&one) == std::mem::discriminant(&other)
}

/// What all worlds agree on. Where they do not, off is safe in each: it is said where harm is
/// certain, and where a flame is certainly forbidden and one may light itself.
fn by_hand_in(cases: &[Case], cautions: &[Caution]) -> Option<Selector> {
    let forbidden = cases.iter().all(|case| case.world.flame_forbidden);
    let harm = cautions.iter().any(|caution| match caution.hazard {
        Hazard::LightsByItself { .. } => caution.sure || forbidden,
        Hazard::FlameForbidden | Hazard::FlameOnRoad | Hazard::FlatBattery => caution.sure,
        Hazard::HoldsOnly => false,
    });
    agreed(cases.iter().map(|case| case.outcome.by_hand)).unwrap_or(harm.then_some(Selector::Off))
}
