//! Why: the facts that the advice rests on, and what is not known and could change it.

use super::automaton::{State, World};
use super::verdict::{Case, Outcome, YES_NO, known, with};
use super::{Because, Feed, Inputs, Known, Selector};

/// Every reason in every world, and what is not known and matters, in the order of [`Because`].
pub(super) fn because(inputs: &Inputs, cases: &[Case]) -> Vec<Because> {
    let mut facts: Vec<Because> =
        cases.iter().flat_map(|case| facts(&case.world, case.state)).collect();
    facts.sort_unstable();
    facts.dedup();
    let stops = facts.iter().filter(|fact| fact.feed() == Some(Feed::EngineStop)).count();
    facts.retain(|fact| match fact.feed() {
        Some(Feed::EngineStop) => stops == 1,
        Some(feed) => known(inputs, feed) != Known::Unknown,
        None => true,
    });
    let open = YES_NO.into_iter().filter(|&feed| matters(inputs, cases, feed));
    facts.extend(open.map(Because::Unknown));
    if known(inputs, Feed::EngineStop) == Known::Unknown && stop_matters(cases) {
        facts.push(Because::Unknown(Feed::EngineStop));
    }
    facts
}

impl Because {
    fn feed(self) -> Option<Feed> {
        match self {
            Self::SwitchedOff | Self::SetByHand(_) => None,
            Self::MainsReaches | Self::NoMains => Some(Feed::Mains),
            Self::EngineRuns | Self::EngineStopped => Some(Feed::Engine),
            Self::ChargeStands | Self::ChargeDropped => Some(Feed::ChargeSignal),
            Self::FlameForbidden => Some(Feed::FlameForbidden),
            Self::NoFlameOnRoad => Some(Feed::FlameOnRoad),
            Self::GasReaches | Self::NoGas => Some(Feed::Gas),
            Self::GasDelay { .. } | Self::DelayOver => Some(Feed::EngineStop),
            Self::Unknown(feed) => Some(feed),
        }
    }
}

/// Another answer to `feed` could change the advice.
fn matters(inputs: &Inputs, cases: &[Case], feed: Feed) -> bool {
    let yes = cases.iter().map(|case| case.world).filter(|&world| with(world, feed, true) == world);
    known(inputs, feed) == Known::Unknown
        && yes.into_iter().any(|world| !same(cases, &world, &with(world, feed, false)))
}

/// Two worlds come to the same outcomes.
fn same(cases: &[Case], one: &World, other: &World) -> bool {
    let within = |outcome: &Outcome, world: &World| {
        cases.iter().any(|case| case.world == *world && case.outcome == *outcome)
    };
    let covers = |from: &World, to: &World| {
        cases.iter().filter(|case| case.world == *from).all(|case| within(&case.outcome, to))
    };
    covers(one, other) && covers(other, one)
}

/// Another time of the engine's stop could change the advice.
fn stop_matters(cases: &[Case]) -> bool {
    let stopped = || cases.iter().filter(|case| !case.world.engine);
    stopped()
        .any(|one| stopped().any(|other| one.world == other.world && one.outcome != other.outcome))
}

/// Why things are as they are in one world: the way down from mains to gas, as far as it goes.
fn facts(world: &World, state: State) -> Vec<Because> {
    let choose = |answer: bool, yes: Because, no: Because| if answer { yes } else { no };
    let selector = world.selector;
    if selector == Selector::Off {
        return vec![Because::SwitchedOff];
    }
    let mut facts = Vec::new();
    if selector != Selector::Auto {
        facts.push(Because::SetByHand(selector));
    }
    facts.push(choose(world.mains, Because::MainsReaches, Because::NoMains));
    if !world.mains || matches!(selector, Selector::Dc | Selector::Gas) {
        facts.push(choose(world.engine, Because::EngineRuns, Because::EngineStopped));
        if world.engine {
            facts.push(choose(world.charge, Because::ChargeStands, Because::ChargeDropped));
        }
    }
    if (world.mains || world.charging()) && selector != Selector::Gas {
        return facts;
    }
    facts.push(choose(world.gas, Because::GasReaches, Because::NoGas));
    if world.flame_forbidden {
        facts.push(Because::FlameForbidden);
    }
    if world.engine && !world.flame_on_road {
        facts.push(Because::NoFlameOnRoad);
    }
    if selector == Selector::Auto && !world.engine {
        if !world.charge {
            facts.push(Because::ChargeDropped);
        }
        let left_ms = state.delay_left_ms(world);
        facts.push(choose(left_ms > 0, Because::GasDelay { left_ms }, Because::DelayOver));
    }
    facts
}
