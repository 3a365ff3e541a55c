//! The fridge as a timed automaton: one place to be, one clock, one step function.
//!
//! Everything here is about a vehicle of which all is known ([`World`]). What may be one way or
//! the other is the business of [`super::advise`], which asks every world that is possible.

use serde::{Deserialize, Serialize};

use super::{Change, Selector, Source};

/// One vehicle of which everything that bears on its fridge is known.
///
/// # Units
/// `gas_delay_ms`: milliseconds, ≥ 0.
#[allow(clippy::struct_excessive_bools, reason = "each is a fact of its own; none is a mode")]
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct World {
    /// Whether the model chooses for itself when set to do so.
    pub automatic: bool,
    /// Where the selector stands.
    pub selector: Selector,
    /// Mains reaches the vehicle.
    pub mains: bool,
    /// The engine runs.
    pub engine: bool,
    /// The charge signal stands whenever the engine runs.
    pub charge: bool,
    /// Gas reaches the fridge.
    pub gas: bool,
    /// No flame may burn here.
    pub flame_forbidden: bool,
    /// A flame may burn while driving.
    pub flame_on_road: bool,
    /// How long the charge signal must have been gone before an automatic model lights gas.
    pub gas_delay_ms: i64,
}

impl World {
    /// The charge signal is there now.
    #[must_use]
    pub fn charging(&self) -> bool {
        self.engine && self.charge
    }

    /// The setting that serves best with the selector out of the owner's hands but for this one
    /// choice: mains, else 12 V from a running engine, else gas where a flame may burn, else off.
    ///
    /// # Source
    /// Common practice, no source.
    #[must_use]
    pub fn best(&self) -> Selector {
        if self.mains {
            Selector::Mains
        } else if self.charging() {
            Selector::Dc
        } else if self.gas && !self.flame_forbidden && (self.flame_on_road || !self.engine) {
            Selector::Gas
        } else {
            Selector::Off
        }
    }
}

/// Where the automaton is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    /// Switched off.
    Off,
    /// On mains.
    Mains,
    /// On 12 V.
    Dc,
    /// An automatic model that would light gas, and waits.
    Waiting,
    /// On gas.
    Gas,
    /// Switched on, and nothing to run on.
    Without,
}

/// Where the automaton is and what its clock shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct State {
    /// Where it is.
    pub stage: Stage,
    /// How long the charge signal has been gone, and no more than the delay. Unit: ms, ≥ 0.
    pub signal_gone_ms: i64,
}

impl State {
    /// The state in `world` when the charge signal has been gone for so long.
    ///
    /// # Units
    /// `signal_gone_ms`: milliseconds; below 0 counts as 0.
    #[must_use]
    pub fn start(world: &World, signal_gone_ms: i64) -> Self {
        let clock = Self { stage: Stage::Off, signal_gone_ms };
        step(clock, world, 0)
    }

    /// What the fridge draws on.
    #[must_use]
    pub fn source(&self) -> Source {
        match self.stage {
            Stage::Mains => Source::Mains,
            Stage::Dc => Source::Dc,
            Stage::Gas => Source::Gas,
            Stage::Off | Stage::Waiting | Stage::Without => Source::None,
        }
    }

    /// How much of the delay is left.
    ///
    /// # Units
    /// Milliseconds, ≥ 0.
    #[must_use]
    pub fn delay_left_ms(&self, world: &World) -> i64 {
        world.gas_delay_ms.saturating_sub(self.signal_gone_ms).max(0)
    }
}

/// The state after `elapsed_ms` in a world that stays as it is.
///
/// The fridge sees the charge signal, not the engine. The clock stands at 0 while the signal is
/// there, and runs while the engine is off. While the engine runs without the signal the clock
/// stands still: an alternator that drops the signal may give it back at any time, so no
/// amount of waiting makes anything certain.
///
/// # Units
/// `elapsed_ms`: milliseconds; below 0 counts as 0.
///
/// # Source
/// Common practice, no source.
#[must_use]
pub fn step(state: State, world: &World, elapsed_ms: i64) -> State {
    let before_ms = state.signal_gone_ms.max(0);
    let gone_ms = if world.charging() {
        0
    } else if world.engine {
        before_ms
    } else {
        before_ms.saturating_add(elapsed_ms.max(0))
    };
    let signal_gone_ms = gone_ms.min(world.gas_delay_ms.max(0));
    State { stage: stage(world, signal_gone_ms), signal_gone_ms }
}

/// The change that time alone brings, if any.
///
/// # Units
/// `in_ms` of the change: milliseconds, > 0.
#[must_use]
pub fn next_change(state: State, world: &World) -> Option<Change> {
    let waits = state.stage == Stage::Waiting && !world.engine;
    waits.then(|| Change { source: Source::Gas, in_ms: state.delay_left_ms(world) })
}

fn stage(world: &World, signal_gone_ms: i64) -> Stage {
    let fed = |reaches: bool, there: Stage| if reaches { there } else { Stage::Without };
    match world.selector {
        Selector::Off => Stage::Off,
        Selector::Mains => fed(world.mains, Stage::Mains),
        // Set by hand it draws on the battery when nothing charges it.
        Selector::Dc => Stage::Dc,
        Selector::Gas => fed(world.gas, Stage::Gas),
        Selector::Auto if world.mains => Stage::Mains,
        Selector::Auto if world.charging() => Stage::Dc,
        Selector::Auto if world.flame_forbidden || !world.gas => Stage::Without,
        Selector::Auto if signal_gone_ms < world.gas_delay_ms => Stage::Waiting,
        Selector::Auto => Stage::Gas,
    }
}
