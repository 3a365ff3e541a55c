//! What is to be done with the fridge before a trip, at the pump and on a ferry.

use super::{
    Advice, Age, Because, Caution, Feed, Hazard, Inputs, Known, Selector, Source, advise,
    setting_for, verdict,
};
use crate::error::{Error, Result};

/// On what to cool a warm fridge down, standing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chill {
    /// Where to set it. `Off`: nothing here cools it down. `None`: it cannot be told.
    pub set: Option<Selector>,
    /// What it then draws on: mains, gas, nothing or not known. Never 12 V, which only holds.
    pub source: Source,
    /// What is not known and could change that, in the order of [`Feed`].
    pub asks: Vec<Feed>,
}

/// When a cool-down begins, to be cold at a departure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Begin {
    /// By when to switch it on; now, where that should have been before. Unit: ms since 1970-01-01
    /// UTC, from now to the departure.
    pub start_utc_ms: i64,
    /// For how long after the departure it is not cold yet; 0 where it is in time. Unit: ms, ≥ 0.
    pub short_ms: i64,
}

/// A stop where no flame may burn and the engine is off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stop {
    /// At the pump, for some minutes, with the gas as it is.
    Fuel,
    /// On a ferry's deck, for the crossing: the carrier asks for everything off.
    Ferry,
}

/// What the fridge does at such a stop, and what to do before and after it. Whatever was set,
/// nothing runs it meanwhile once this was followed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Standing {
    /// What can go wrong if it is left as it is set.
    pub left: Vec<Caution>,
    /// It is to be switched off before.
    pub switch_off: bool,
    /// Where to set it afterwards, with the engine running. `None`: as it then stands, or it
    /// cannot be told.
    pub after: Option<Selector>,
}

/// On what to cool a warm fridge down here, standing, with the engine off.
///
/// # Errors
/// As [`advise`].
///
/// # Source
/// Cooling down on mains or gas, never on 12 V: common practice, no source.
pub fn chill(inputs: &Inputs) -> Result<Chill> {
    // The wait after the engine is short beside the hours that it takes.
    let engine_off = Age::AtLeast(inputs.gas_delay_ms.max(0));
    let standing = Inputs { engine_running: Known::No, engine_off, ..inputs.clone() };
    let chosen = setting_for(&standing)?.filter(|set| *set == Selector::Auto);
    let best = verdict::best(&standing);
    let (set, source) = match best {
        Some(Selector::Mains) => (chosen.or(best), Source::Mains),
        Some(Selector::Gas) => (chosen.or(best), Source::Gas),
        Some(_) => (best, Source::None),
        None => (None, Source::Unknown),
    };
    // A manual model on mains needs to know all that bears on what is best.
    let by_hand = Inputs { automatic: false, selector: Selector::Mains, ..standing };
    let asks = if set.is_some() { Vec::new() } else { advise(&by_hand)?.asks() };
    Ok(Chill { set, source, asks })
}

/// The furthest departure that is asked for. Unit: ms.
pub const LEAVE_MS_MAX: i64 = 60 * 24 * 3_600_000;

/// By when to begin cooling down for a departure.
///
/// # Units
/// `leave_utc_ms`, `now_utc_ms`: ms since 1970-01-01 UTC. `takes_ms`: ms, ≥ 0.
///
/// # Errors
/// [`Error::InvalidInput`] for a departure that is not still to come, or further than
/// [`LEAVE_MS_MAX`] away.
///
/// # Source
/// Definition.
pub fn begin_by(leave_utc_ms: i64, takes_ms: i64, now_utc_ms: i64) -> Result<Begin> {
    let away_ms = leave_utc_ms.saturating_sub(now_utc_ms);
    if !(1..=LEAVE_MS_MAX).contains(&away_ms) {
        let expected = "a time that is still to come, within 60 days".to_owned();
        return Err(Error::InvalidInput { field: "when you leave".to_owned(), expected });
    }
    let takes_ms = takes_ms.max(0);
    let start_utc_ms = leave_utc_ms.saturating_sub(takes_ms).max(now_utc_ms);
    let short_ms = start_utc_ms.saturating_add(takes_ms).saturating_sub(leave_utc_ms);
    Ok(Begin { start_utc_ms, short_ms })
}

/// What the fridge does at a stop as it is set, and what to do about it.
///
/// # Errors
/// As [`advise`].
///
/// # Source
/// Every flame out at the pump and on board, and nothing that can light one by itself: common
/// practice, no source.
pub fn standing(inputs: &Inputs, stop: Stop) -> Result<Standing> {
    let there = Inputs {
        mains: Known::No,
        gas: match stop {
            Stop::Fuel => inputs.gas,
            Stop::Ferry => Known::No,
        },
        engine_running: Known::No,
        engine_off: Age::Exactly(0),
        flame_forbidden: Known::Yes,
        ..inputs.clone()
    };
    let advice = advise(&there)?;
    let is_off = inputs.selector == Selector::Off;
    let switch_off = match stop {
        Stop::Fuel => advice.by_hand == Some(Selector::Off),
        Stop::Ferry => !is_off,
    };
    let after = Inputs {
        engine_running: Known::Yes,
        flame_forbidden: Known::No,
        selector: if switch_off { Selector::Off } else { inputs.selector },
        ..there
    };
    let after = match (is_off, switch_off) {
        (true, _) => None,
        (false, true) => setting_for(&after)?,
        (false, false) => advise(&after)?.by_hand,
    };
    let harmful = |caution: &Caution| caution.hazard != Hazard::HoldsOnly;
    let left = advice.cautions.into_iter().filter(harmful).collect();
    Ok(Standing { left, switch_off, after })
}

impl Advice {
    fn asks(self) -> Vec<Feed> {
        let asked = |because| if let Because::Unknown(feed) = because { Some(feed) } else { None };
        self.because.into_iter().filter_map(asked).collect()
    }
}
