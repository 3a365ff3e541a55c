//! What was measured against what is recorded, axle by axle; warmth and age. What pressure is right is
//! never reckoned.

use chrono::{DateTime, Datelike};

use super::asked::{Answer, Asked};
use crate::engine::page::{Mark, ReckoningLine};
use crate::engine::words::Words;
use crate::error::{Error, Result};
use crate::reckon::Between;
use crate::reckon::tyres::{Against, GAUGE_BAR, against, age_years, rise_bar};
use crate::units::Units;
use crate::vehicle::Axle;

/// What can be typed. Unit: bar.
const RANGE_BAR: (f64, f64) = (0.5, 12.0);
/// By their place from the front: more axles than a pack may have are not asked for.
const AXLES: [&str; 4] = ["axle_1", "axle_2", "axle_3", "axle_4"];
const WARMTH: [&str; 2] = ["cold", "warm"];
/// How many degrees of warmth are told. Unit: °C.
const WARMER_C: f64 = 10.0;
/// The digits after DOT: week and year. Unit: none.
const DOT: (f64, f64) = (100.0, 5_399.0);

pub(super) fn answer(asked: &mut Asked) -> Result<Answer> {
    let loaded = asked.loaded;
    let axles = &loaded.vehicle.measures.axles;
    let mut measured = Vec::new();
    for (id, axle) in AXLES.into_iter().zip(axles) {
        measured.push((id, axle, asked.number(id, "_bar", RANGE_BAR)?));
    }
    let options = WARMTH.map(|id| (id, asked.say(&format!("warmth.{id}"), &[])));
    let warmth = asked.one("warmth", &options, None)?;
    let old = age(asked)?;
    let lines: Vec<_> =
        measured.iter().map(|one| pressure(asked, one, warmth.as_deref())).collect();
    let mut missing = Vec::new();
    let typed = measured.iter().any(|(_, _, bar)| bar.is_some());
    let none = axles.is_empty() || axles.iter().any(|axle| axle.pressure_bar.is_none());
    missing.extend(none.then(|| asked.say("missing.recorded", &[])));
    missing.extend((!typed).then(|| asked.say("missing.measured", &[])));
    missing.extend((typed && warmth.is_none()).then(|| asked.say("missing.warmth", &[])));
    let (mark, verdict_text) = verdict(asked, &lines, old.as_ref());
    let warm = warmth.as_deref() == Some("warm");
    let rise: Vec<_> =
        measured.iter().filter(|_| warm).filter_map(|one| rise(asked, one)).collect();
    let parts = [("pressures", lines), ("warm", rise), ("age", old.into_iter().collect())];
    let parts = parts.into_iter().filter(|(_, lines)| !lines.is_empty());
    let parts = parts.map(|(id, lines)| asked.part(id, lines)).collect();
    let cautions = ["cold", "load", "look"].map(|key| asked.say(&format!("caution.{key}"), &[]));
    Ok(Answer { mark, verdict_text, cautions: cautions.into(), parts, missing })
}

/// An axle, and what was measured on it.
type Measured<'a> = (&'static str, &'a Axle, Option<f64>);

fn bar(asked: &Asked, bar: f64) -> String {
    asked.quantity("_bar", bar)
}

/// What a gauge is read to. Unit: that of the pages.
fn step(asked: &Asked) -> f64 {
    match asked.words.units {
        Units::Metric => 0.05,
        Units::Imperial => 0.5,
    }
}

/// What is recorded, and how what was measured stands to it.
fn pressure(asked: &Asked, (id, axle, measured): &Measured, warmth: Option<&str>) -> ReckoningLine {
    let own = |line: ReckoningLine| {
        let id = (*id).to_owned();
        ReckoningLine { id, title: Words::sentence(&axle.title), ..line }
    };
    let twin = |said: String| {
        let twin = axle.twin.then(|| asked.say("say.twin", &[]));
        twin.map_or_else(|| said.clone(), |twin| format!("{said} {twin}"))
    };
    let Some(recorded) = axle.pressure_bar else {
        let line = asked.told("pressure", twin(asked.say("say.not_recorded", &[])));
        let detail = measured
            .map(|measured| asked.say("say.measured_only", &[("bar", &bar(asked, measured))]));
        return own(ReckoningLine { detail, ..line });
    };
    let recorded_text = bar(asked, recorded);
    let text = twin(asked.say("say.recorded", &[("bar", &recorded_text)]));
    let line = own(asked.told("pressure", text));
    let Some(measured) = *measured else {
        return line;
    };
    let (mark, key) = stands(against(measured, recorded), warmth);
    let band = Between::of(measured - GAUGE_BAR, measured + GAUGE_BAR);
    let slots = [("bar", &*asked.band("_bar", band, step(asked))), ("recorded", &recorded_text)];
    let detail = Some(asked.say(&format!("say.{key}"), &slots));
    ReckoningLine {
        mark,
        detail,
        lower: Some(band.lower),
        upper: Some(band.upper),
        unit: Some("bar".to_owned()),
        ..line
    }
}

/// What is low while warm is lower still when cold; nothing else can be told of a warm tyre.
fn stands(how: Against, warmth: Option<&str>) -> (Option<Mark>, &'static str) {
    match (how, warmth) {
        (Against::Low, Some("warm")) => (Some(Mark::Wrong), "low_warm"),
        (Against::Low, _) => (Some(Mark::Wrong), "low"),
        (_, Some("warm")) => (None, "warm"),
        (Against::Same, Some(_)) => (Some(Mark::Fine), "same"),
        (Against::High, Some(_)) => (Some(Mark::Watch), "high"),
        (Against::Same | Against::High, None) => (None, "unsure"),
    }
}

/// What ten degrees of warmth add to what is recorded.
fn rise(asked: &Asked, (id, axle, _): &Measured) -> Option<ReckoningLine> {
    let by = asked.line("rise", "_bar", rise_bar(axle.pressure_bar?, WARMER_C), step(asked));
    let title = Words::sentence(&axle.title);
    Some(ReckoningLine { id: format!("{id}_rise"), title, ..by })
}

/// How old they are, by the digits after DOT; `None` while none are typed.
fn age(asked: &mut Asked) -> Result<Option<ReckoningLine>> {
    let code = asked.number("dot", "_dot", DOT)?;
    let today = DateTime::from_timestamp_millis(asked.now.utc_ms);
    let Some((code, today)) = code.zip(today) else {
        return Ok(None);
    };
    let wrong = || Error::InvalidInput {
        field: asked.say("choice.dot", &[]),
        expected: asked.say("say.dot", &[]),
    };
    let whole = (100..=5_399_u32).find(|one| (f64::from(*one) - code).abs() < 1e-9);
    let year = u32::try_from(today.year()).unwrap_or_default();
    let years = whole.and_then(|code| age_years(code, year, today.ordinal())).ok_or_else(wrong)?;
    let most = asked.loaded.vehicle.of_kind("tyres").next();
    let most = most.and_then(|(_, tyres)| tyres.number("age_years"));
    let past = most.is_some_and(|most| years.upper >= most);
    let text = asked.say("say.years", &[("years", &format!("{:.1}", years.middle()))]);
    let (mark, key) = if past { (Mark::Watch, "old") } else { (Mark::Fine, "young") };
    let most = most.map_or_else(String::new, |most| most.to_string());
    let detail = Some(asked.say(&format!("say.{key}"), &[("most", &most)]));
    let (lower, upper) = (Some(years.lower), Some(years.upper));
    let unit = Some("years".to_owned());
    let line = asked.told("age", text);
    Ok(Some(ReckoningLine { mark: Some(mark), detail, lower, upper, unit, ..line }))
}

fn verdict(
    asked: &Asked,
    lines: &[ReckoningLine],
    old: Option<&ReckoningLine>,
) -> (Option<Mark>, String) {
    // An age alone says nothing of the air.
    let tells = |line: &&ReckoningLine| line.mark != Some(Mark::Fine);
    let all = || lines.iter().chain(old.filter(tells));
    let Some(worst) = all().filter_map(|line| line.mark).max() else {
        return (None, asked.say("verdict.unknown", &[]));
    };
    let of = all().filter(|line| line.mark == Some(worst));
    let what = of.map(|line| line.title.as_str()).collect::<Vec<_>>().join(", ");
    (Some(worst), asked.say(&format!("verdict.{}", worst.key()), &[("what", &what)]))
}
