//! What a three-way (absorption) fridge runs on now, what next and when, and what to set by hand.
//!
//! [`automaton`] tells what happens in a vehicle of which all is known. [`advise`] asks every
//! world that the inputs allow and answers [`Source::Unknown`] where they differ. [`chill`] and
//! [`standing`] look ahead: to the trip, the pump and the ferry.

mod ahead;
pub mod automaton;
mod because;
mod known;
mod verdict;

#[cfg(test)]
mod tests;

use serde::{Deserialize, Serialize};

pub use ahead::{Begin, Chill, LEAVE_MS_MAX, Standing, Stop, begin_by, chill, standing};
pub use known::{Age, Known};

use crate::error::{Error, Result};

/// Where the fridge's selector stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Selector {
    /// Switched off.
    Off,
    /// The fridge chooses; automatic models only.
    Auto,
    /// Mains.
    Mains,
    /// 12 V.
    Dc,
    /// Gas.
    Gas,
}

/// What the fridge draws on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Source {
    /// Mains.
    Mains,
    /// 12 V: it holds the cold, it does not cool down.
    Dc,
    /// Gas: a flame.
    Gas,
    /// Nothing.
    None,
    /// It cannot be told; `because` names what to look at.
    Unknown,
}

/// What is known of the fridge and of what feeds it.
///
/// # Units
/// `engine_off` and `gas_delay_ms`: milliseconds, ≥ 0.
///
/// # Source
/// A delay of 20 min is common practice, no source: the pack says.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Inputs {
    /// Whether the model can choose for itself (pack).
    pub automatic: bool,
    /// Where the selector stands.
    pub selector: Selector,
    /// Mains reaches the vehicle.
    pub mains: Known,
    /// The engine runs. It also stands for driving.
    pub engine_running: Known,
    /// Whether the engine's running brings the charge signal (pack): `Unknown` where the
    /// alternator may drop it, `No` where it is known to have done so. Not whether the signal is
    /// there now: a stopped engine gives none.
    pub charge_signal: Known,
    /// Gas reaches the fridge: something in the cylinder, every valve on the way open.
    pub gas: Known,
    /// How long the engine has been off. Not read while it runs. After a restart or a clock
    /// change: at least for as long as it has been off since then.
    pub engine_off: Age,
    /// How long after the charge signal an automatic model waits before it lights gas (pack).
    pub gas_delay_ms: i64,
    /// No flame may burn here: fuel station, ferry, tunnel.
    pub flame_forbidden: Known,
    /// A flame may burn while driving: `Yes` only where the fitted protection and the maker's
    /// manual allow it and the owner chose it; `Unknown` where a rule is missing or old.
    pub flame_on_road: Known,
}

/// Something about which a source or a setting depends.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Feed {
    /// Whether mains reaches the vehicle.
    Mains,
    /// Whether the engine runs.
    Engine,
    /// Whether the alternator keeps the charge signal.
    ChargeSignal,
    /// Whether a flame is forbidden here.
    FlameForbidden,
    /// Whether a flame may burn while driving.
    FlameOnRoad,
    /// Whether gas reaches the fridge.
    Gas,
    /// When the engine was stopped.
    EngineStop,
}

/// One reason for the advice. The order of the variants is the order in which they are given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Because {
    /// The fridge is switched off.
    SwitchedOff,
    /// The selector was set by hand, and the fridge stays with it.
    SetByHand(Selector),
    /// Mains reaches the vehicle.
    MainsReaches,
    /// It does not.
    NoMains,
    /// The engine runs.
    EngineRuns,
    /// It does not.
    EngineStopped,
    /// The engine's charge signal is there.
    ChargeStands,
    /// The alternator drops the charge signal: it is not there, and when it went is not known.
    ChargeDropped,
    /// No flame may burn here.
    FlameForbidden,
    /// No flame may burn while driving.
    NoFlameOnRoad,
    /// Gas reaches the fridge.
    GasReaches,
    /// It does not.
    NoGas,
    /// An automatic model still waits after the engine stopped.
    GasDelay {
        /// What is left of the delay. Unit: ms, > 0.
        left_ms: i64,
    },
    /// The delay after the engine stopped is over.
    DelayOver,
    /// This is not known, and another answer could change the advice.
    Unknown(Feed),
}

/// What can go wrong.
///
/// # Units
/// `in_ms`: milliseconds, ≥ 0, at the earliest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Hazard {
    /// Set to gas where no flame may burn. Its igniter sparks even where no gas comes.
    FlameForbidden,
    /// Left to itself it lights gas where no flame may burn.
    LightsByItself {
        /// The earliest that it can; 0 where it may burn already.
        in_ms: i64,
    },
    /// On gas, or free to light it, while driving without leave to.
    FlameOnRoad,
    /// On 12 V with nothing charging the battery.
    FlatBattery,
    /// On 12 V it holds the cold, it does not cool down.
    HoldsOnly,
}

/// A hazard, and whether it is certain or only not ruled out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Caution {
    /// What can go wrong.
    pub hazard: Hazard,
    /// It is so in every world that is possible, not only in some.
    pub sure: bool,
}

/// A change that time alone brings.
///
/// # Units
/// `in_ms`: milliseconds from now, > 0. Before it the present source holds; from it on, the new.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Change {
    /// What it then draws on; `Unknown` where it can no longer be told.
    pub source: Source,
    /// When.
    pub in_ms: i64,
}

/// What the fridge draws on, what comes next, what to do by hand, and why.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Advice {
    /// What it draws on as it is set. One exception: `Auto` where a flame is forbidden never says
    /// `Gas`; what the fridge then does if left to itself is in [`Hazard::LightsByItself`].
    pub source: Source,
    /// Every reason, in the order of [`Because`].
    pub because: Vec<Because>,
    /// The first change of `source` if everything else stays as it is.
    pub next: Option<Change>,
    /// Where the owner should set the selector. `None`: it stands right, or is off, or it cannot
    /// be told (then `because` has an [`Because::Unknown`]).
    pub by_hand: Option<Selector>,
    /// Every hazard, in the order of [`Hazard`].
    pub cautions: Vec<Caution>,
}

/// What the fridge draws on now and next, and what to set by hand.
///
/// # Units
/// See [`Inputs`] and [`Change`].
///
/// # Errors
/// [`Error::InvalidInput`] for a time below 0, or `Auto` on a model that cannot choose.
///
/// # Source
/// Mains, then 12 V from the running engine, then gas after a delay: common practice, no source.
///
/// # Example
/// ```
/// use stowfast_core::fridge::{Age, Change, Inputs, Known, Selector, Source, advise};
///
/// // Off the mains, the engine stopped five minutes ago, and the pack's delay is twenty.
/// let parked = Inputs {
///     automatic: true,
///     selector: Selector::Auto,
///     mains: Known::No,
///     engine_running: Known::No,
///     charge_signal: Known::Yes,
///     gas: Known::Yes,
///     engine_off: Age::Exactly(300_000),
///     gas_delay_ms: 1_200_000,
///     flame_forbidden: Known::No,
///     flame_on_road: Known::No,
/// };
/// let advice = advise(&parked)?;
/// assert_eq!(advice.source, Source::None);
/// assert_eq!(advice.next, Some(Change { source: Source::Gas, in_ms: 900_000 }));
/// # Ok::<(), stowfast_core::error::Error>(())
/// ```
pub fn advise(inputs: &Inputs) -> Result<Advice> {
    check(inputs)?;
    Ok(verdict::of(inputs))
}

/// Where to set a fridge that is to be switched on now, whatever its selector shows.
///
/// `None` where it cannot be told. `Off` where nothing may feed it. An automatic model is left to
/// choose, except where it could light a flame that must not burn.
///
/// # Units
/// See [`Inputs`].
///
/// # Errors
/// As [`advise`].
///
/// # Source
/// Common practice, no source.
pub fn setting_for(inputs: &Inputs) -> Result<Option<Selector>> {
    check(inputs)?;
    Ok(verdict::setting_for(inputs))
}

fn check(inputs: &Inputs) -> Result<()> {
    not_negative("engine_off_ms", inputs.engine_off.least_ms())?;
    not_negative("gas_delay_ms", inputs.gas_delay_ms)?;
    if inputs.selector == Selector::Auto && !inputs.automatic {
        return Err(Error::InvalidInput {
            field: "selector".to_owned(),
            expected: "off, mains, dc or gas on a manual model".to_owned(),
        });
    }
    Ok(())
}

fn not_negative(field: &str, value_ms: i64) -> Result<()> {
    if value_ms >= 0 {
        return Ok(());
    }
    Err(Error::InvalidInput { field: field.to_owned(), expected: "0 ms or more".to_owned() })
}
