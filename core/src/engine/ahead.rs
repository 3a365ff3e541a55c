//! What lies ahead of the fridge, in words: a trip, the pump, a ferry.

use super::advice::{asked, hazard, named, setting};
use super::page::{FridgeAheadRow, LeaveRow};
use super::words::Words;
use crate::clock::Stamp;
use crate::error::Result;
use crate::fridge::{
    Hazard, Inputs, LEAVE_MS_MAX, Selector, Standing, Stop, advise, begin_by, chill, standing,
};
use crate::vehicle::{Fitting, PackValue};

const MS_PER_H: f64 = 3_600_000.0;
const H_MS: i64 = 3_600_000;
/// The departures that are offered, from now. Unit: h.
const LEAVE_H: [i64; 7] = [6, 12, 18, 24, 36, 48, 72];

/// A cool-down before a trip, a stop at the pump and a crossing, in this order. `leave`: when the
/// trip begins, in ms since 1970-01-01 UTC, where that was named.
pub(super) fn ahead(
    words: &Words,
    fridge: &Fitting,
    inputs: &Inputs,
    leave: Option<i64>,
    now: &Stamp,
) -> Result<Vec<FridgeAheadRow>> {
    let fuel = stop_row(words, fridge, &standing(inputs, Stop::Fuel)?, "fuel");
    let ferry = stop_row(words, fridge, &standing(inputs, Stop::Ferry)?, "ferry");
    Ok(vec![chill_row(words, fridge, inputs, leave, now)?, fuel, ferry])
}

fn say(words: &Words, key: &str) -> String {
    words.say(&format!("fridge.ahead.{key}"), &[])
}

fn chill_row(
    words: &Words,
    fridge: &Fitting,
    inputs: &Inputs,
    leave: Option<i64>,
    now: &Stamp,
) -> Result<FridgeAheadRow> {
    let chill = chill(inputs)?;
    let cools = chill.set.is_some_and(|set| set != Selector::Off);
    let mut lines = vec![begin(words, fridge)];
    lines.push(match chill.set {
        Some(_) => say(words, &format!("chill_{}", named(chill.source))),
        None => say(words, "chill_unknown"),
    });
    let ask = |feed| words.say(&format!("fridge.ask.{}", asked(feed)), &[]);
    lines.extend(chill.asks.into_iter().map(ask));
    let runs = cools && advise(inputs)?.source == chill.source;
    let to_set = chill.set.filter(|set| cools && !runs && *set != inputs.selector);
    lines.extend(to_set.map(|set| words.say(&format!("fridge.set_{}", setting(set)), &[])));
    lines.push(say(words, "chill_how"));
    let hours_ms = fridge.number("chill_h").unwrap_or(0.0) * MS_PER_H;
    let takes_ms = crate::reserve::whole("chill_h", hours_ms, 1, 0..=i64::from(u32::MAX))?;
    let leave = leave_row(words, leave, cools.then_some(takes_ms), runs, now)?;
    let start_utc_ms = leave.start_utc_ms.unwrap_or(now.utc_ms);
    Ok(FridgeAheadRow {
        id: "chill".to_owned(),
        title: say(words, "chill"),
        lines,
        ready_utc_ms: cools.then(|| start_utc_ms.saturating_add(takes_ms)),
        leave: Some(leave),
        target_id: None,
    })
}

/// When to begin for a departure; `takes_ms` is `None` where nothing cools it down. What `runs` on
/// what cools it is left so: for how long it has run nobody knows.
fn leave_row(
    words: &Words,
    leave: Option<i64>,
    takes_ms: Option<i64>,
    runs: bool,
    now: &Stamp,
) -> Result<LeaveRow> {
    let begin =
        leave.map(|leave| begin_by(leave, takes_ms.unwrap_or(0), now.utc_ms)).transpose()?;
    let begin = begin.filter(|_| takes_ms.is_some());
    let is_ahead = |leave: &i64| {
        let away_ms = leave.saturating_sub(now.utc_ms);
        (1..=LEAVE_MS_MAX).contains(&away_ms)
    };
    let from_now = |hours: i64| {
        // To the next full hour: nobody leaves by the second. Who shows it makes it one of the clock there.
        let full = now.utc_ms.saturating_add(H_MS - 1).div_euclid(H_MS);
        full.saturating_add(hours).saturating_mul(H_MS)
    };
    let start_text = begin.map(|begin| {
        let time = words.time(begin.short_ms);
        let key = match (runs, begin.short_ms) {
            (false, 0) => "chill_then",
            (false, _) => "chill_late",
            (true, 0) => "chill_runs",
            (true, _) => "chill_runs_late",
        };
        words.say(&format!("fridge.ahead.{key}"), &[("time", &time)])
    });
    Ok(LeaveRow {
        choices_utc_ms: LEAVE_H.map(from_now).into(),
        chosen_utc_ms: leave,
        earlier_utc_ms: leave.map(|leave| leave.saturating_sub(H_MS)).filter(is_ahead),
        later_utc_ms: leave.map(|leave| leave.saturating_add(H_MS)).filter(is_ahead),
        start_utc_ms: begin
            .filter(|begin| !runs && begin.short_ms == 0)
            .map(|begin| begin.start_utc_ms),
        start_text,
    })
}

fn stop_row(words: &Words, fridge: &Fitting, stop: &Standing, id: &str) -> FridgeAheadRow {
    let own = |key: &str| say(words, &format!("{id}_{key}"));
    let mut lines = vec![own("there")];
    lines.extend(stop.left.iter().map(|caution| {
        let said = left(words, caution.hazard);
        if caution.sure { said } else { words.say("fridge.hazard.unsure", &[("hazard", &said)]) }
    }));
    lines.push(own(if stop.switch_off { "switch_off" } else { "stands" }));
    lines.push(cold(words, fridge));
    lines.extend(match stop.after {
        Some(set) => Some(say(words, &format!("after_{}", setting(set)))),
        None => stop.switch_off.then(|| say(words, "after_open")),
    });
    let target = if id == "fuel" { "ready_to_refuel" } else { "ready_to_board" };
    FridgeAheadRow {
        id: id.to_owned(),
        title: say(words, id),
        lines,
        ready_utc_ms: None,
        leave: None,
        target_id: Some(target.to_owned()),
    }
}

/// What can go wrong there with the fridge left as it is set.
fn left(words: &Words, what: Hazard) -> String {
    match what {
        Hazard::LightsByItself { in_ms } => {
            let time = words.time(in_ms);
            words.say("fridge.ahead.left_lights_by_itself", &[("time", &time)])
        }
        Hazard::FlameForbidden | Hazard::FlameOnRoad | Hazard::FlatBattery | Hazard::HoldsOnly => {
            say(words, &format!("left_{}", hazard(what)))
        }
    }
}

/// How long it stays cold with nothing running it. A default is no knowledge of this one.
fn cold(words: &Words, fridge: &Fitting) -> String {
    let told = |key: &str, value: &PackValue| {
        words.say(&format!("fridge.ahead.{key}"), &[("hours", &value.datum.to_string())])
    };
    fridge.values.get("stays_cold_h").map_or_else(String::new, |value| {
        told(if value.defaulted { "cold_unknown" } else { "cold" }, value)
    })
}

/// How long it takes to get cold; that this is a default, where it is one.
fn begin(words: &Words, fridge: &Fitting) -> String {
    fridge.values.get("chill_h").map_or_else(String::new, |value| {
        let hours = value.datum.to_string();
        let said = words.say("fridge.ahead.chill_begin", &[("hours", &hours)]);
        if value.defaulted { format!("{said} {}", words.say("default_value", &[])) } else { said }
    })
}
