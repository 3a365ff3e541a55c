//! What charges the battery again, and for how long: mains, the engine, the sun.

use super::bank::Bank;
use super::{Power, time};
use crate::engine::page::{Mark, ReckoningLine, ReckoningPart};
use crate::engine::reckon::asked::Asked;
use crate::fridge::Known;
use crate::reckon::Between;
use crate::reckon::battery::{
    Day, absorption_v, acceptance, charge_days, charge_h, is_lead, level_after,
};

/// Source, its pack value.
const SOURCES: [(&str, &str); 2] = [("mains", "mains_a"), ("alternator", "alternator_a")];

pub(super) fn part(asked: &Asked, power: &Power) -> ReckoningPart {
    let lines = power.bank.as_ref().map_or_else(Vec::new, |bank| lines(asked, power, bank));
    asked.part("charge", lines)
}

fn lines(asked: &Asked, power: &Power, bank: &Bank) -> Vec<ReckoningLine> {
    let drawn_a = power.drawn_ah.unwrap_or(Between::exactly(0.0)) * (1.0 / 24.0);
    let from = bank.level.unwrap_or(Between::exactly(bank.floor));
    let mut lines = Vec::new();
    for (source, value) in SOURCES {
        let line = match bank.fitting.number(value) {
            Some(amps) => {
                let current = Between::exactly(amps) - drawn_a;
                by_source(
                    asked,
                    bank,
                    source,
                    from,
                    current,
                    power.drawn_ah.filter(|_| power.loads.complete()),
                )
            }
            None => asked.told(source, asked.say(&format!("missing.{value}"), &[])),
        };
        lines.push(line);
    }
    lines.extend(by_sun(asked, power, bank, from));
    lines.extend(in_frost(asked, bank));
    if is_lead(bank.chemistry) {
        let volts = Between::of(absorption_v(bank.cells_c.lower), absorption_v(bank.cells_c.upper));
        let detail = Some(asked.say("absorption_detail", &[]));
        lines.push(ReckoningLine { detail, ..asked.line("absorption", "_v", volts, 0.1) });
    }
    lines
}

/// How long to full, and what one hour brings.
fn by_source(
    asked: &Asked,
    bank: &Bank,
    source: &str,
    from: Between,
    current_a: Between,
    drawn_ah: Option<Between>,
) -> ReckoningLine {
    let takes = |to: f64| charge_h(bank.chemistry, bank.full_ah, from, to, current_a);
    let Some(full) = takes(1.0) else {
        return asked.told(source, asked.say("charge.never", &[]));
    };
    let all_to = acceptance(bank.chemistry).all_to;
    let hour_ah = in_an_hour(bank, from, current_a);
    let to = asked.quantity("_pct", (all_to * 100.0).round());
    let bulk = takes(all_to).map_or_else(String::new, |hours| time(asked, hours));
    let hour = asked.band("_ah", hour_ah, 0.1);
    let nights = drawn_ah.filter(|drawn| drawn.lower > 0.0).map(|drawn| {
        let share = hour_ah / drawn * 100.0;
        asked.say("charge.of_a_day", &[("share", &asked.band("_pct", share, 1.0))])
    });
    let key = if from.upper < all_to { "charge.detail" } else { "charge.detail_full" };
    let detail = asked.say(key, &[("to", &to), ("time", &bulk), ("hour", &hour)]);
    let detail = [Some(detail), nights].into_iter().flatten().collect::<Vec<_>>().join(" ");
    let key = if bank.level.is_some() { "charge.to_full" } else { "charge.from_floor" };
    let full_text = asked.say(key, &[("time", &time(asked, full))]);
    let (lower, upper, unit) = (Some(full.lower), Some(full.upper), Some("h".to_owned()));
    ReckoningLine { lower, upper, unit, detail: Some(detail), ..asked.told(source, full_text) }
}

/// How many days of that sun charge it, beside what is drawn; `None` where there are no panels.
fn by_sun(asked: &Asked, power: &Power, bank: &Bank, from: Between) -> Option<ReckoningLine> {
    let sun = &power.sun;
    if let Some(key) = sun.lacks {
        return Some(asked.told("sun", asked.say(&format!("missing.{key}"), &[])));
    }
    let gained_ah = sun.gained_ah.filter(|_| sun.fitted)?;
    let drawn_ah = power.drawn_ah.unwrap_or(Between::exactly(0.0));
    let day_h = sun.day_h.unwrap_or(Between::exactly(0.0));
    let takes = charge_days(bank.chemistry, bank.full_ah, from, Day { drawn_ah, gained_ah }, day_h);
    let Some(least) = takes.least else {
        return Some(asked.told("sun", asked.say("charge.never", &[])));
    };
    // Where not all that draws is told, it may take longer than any number here.
    let most = takes.most.filter(|_| power.loads.complete());
    let key = if bank.level.is_some() { "charge.to_full" } else { "charge.from_floor" };
    let text = asked.say(key, &[("time", &days(asked, least, most))]);
    let share = (power.loads.complete() && drawn_ah.lower > 0.0).then(|| {
        let share = gained_ah / drawn_ah * 100.0;
        asked.say("charge.of_a_day", &[("share", &asked.band("_pct", share, 1.0))])
    });
    let brings = asked.say("charge.day", &[("gained", &asked.band("_ah", gained_ah, 1.0))]);
    let detail = [Some(brings), share].into_iter().flatten().collect::<Vec<_>>().join(" ");
    let unit = Some("days".to_owned());
    let (lower, upper) = (Some(least), most);
    Some(ReckoningLine { lower, upper, unit, detail: Some(detail), ..asked.told("sun", text) })
}

/// "2 to 4 days", rounded outward.
fn days(asked: &Asked, least: f64, most: Option<f64>) -> String {
    let (lower, upper) = (least.floor().to_string(), most.map(|most| most.ceil().to_string()));
    let key = match (&*lower, upper.as_deref()) {
        ("0", None) => "at_best",
        ("0" | "1", Some("0" | "1")) => "within",
        ("0", Some(_)) => "up_to",
        ("1", None) => "least_one",
        (_, None) => "least",
        (lower, Some(upper)) if lower == upper => "one",
        (_, Some(_)) => "range",
    };
    let slots = [("lower", &*lower), ("upper", upper.as_deref().unwrap_or_default())];
    asked.say(&format!("days.{key}"), &slots)
}

/// What an hour brings, whatever of its charge and its size may be so. Unit: Ah.
fn in_an_hour(bank: &Bank, from: Between, current_a: Between) -> Between {
    let gain = |from: f64, full_ah: f64| {
        let (from_only, full_only) = (Between::exactly(from), Between::exactly(full_ah));
        let after = level_after(bank.chemistry, full_only, from_only, 1.0, current_a);
        after.through(|level| (level - from).max(0.0) * full_ah)
    };
    let ends = [from.lower, from.upper];
    let sizes = [bank.full_ah.lower, bank.full_ah.upper];
    let all = ends.into_iter().flat_map(|from| sizes.map(|full_ah| gain(from, full_ah)));
    all.reduce(Between::hull).unwrap_or(Between::exactly(0.0))
}

/// Lithium is not charged below zero, unless something guards it.
fn in_frost(asked: &Asked, bank: &Bank) -> Option<ReckoningLine> {
    if is_lead(bank.chemistry) || bank.fitting.flag("guarded_in_frost") == Some(true) {
        return None;
    }
    let frost = asked.loaded.is("pitch", "tonight", "frost") != Known::No;
    let cold = bank.cells_c.lower < 0.0 && (bank.cells_told || frost);
    let mark = if cold { Mark::Watch } else { Mark::Fine };
    let said = asked.words.text.say("kind.leisure_battery.clause.charged_in_frost", &[]);
    let said = said.replace("{0_c}", &asked.quantity("_c", 0.0));
    Some(ReckoningLine { mark: Some(mark), ..asked.told("in_frost", said) })
}
