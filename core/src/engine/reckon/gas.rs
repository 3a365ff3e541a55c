//! Whether gas flows in the cold, how much at once, and for how long.

mod stock;

use super::asked::{Answer, Asked};
use crate::engine::figure::of_milli;
use crate::engine::loaded::Loaded;
use crate::engine::page::{Mark, ReckoningLine};
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::gas::{
    Draw, NET_KWH_PER_KG, by_mole, flows, flows_from_c, gauge_kpa, gives_kg_per_h, left_over,
    needs_by_mole,
};
use stock::{Cylinder, cylinders};

/// What is sold, and how much propane is in a kilogram of it.
const MIXES: [(&str, f64); 5] =
    [("propane", 1.0), ("mix60", 0.6), ("mix40", 0.4), ("mix30", 0.3), ("butane", 0.0)];
/// Those that are told of where nothing is picked.
const CARRIED: [&str; 4] = ["propane", "mix60", "mix30", "butane"];
/// What can be typed. Unit: °C.
const LOW_C: (f64, f64) = (-45.0, 40.0);
const KPA_PER_BAR: f64 = 100.0;
/// What burns gas: pairs of power and hours that people tell; the power of heat in kW.
const BURNS: [(&str, &str, &str); 3] = [
    ("heating", "heating_gas_kw", "heating_gas_h_a_day"),
    ("boiler", "boiler_gas_kw", "boiler_gas_h_a_day"),
    ("cook", "cooking_gas_kw", "cooking_gas_h_a_day"),
];
const FRIDGE: &str = "fridge_gas_a_h_g";
const H_A_DAY: f64 = 24.0;
const G_A_KG: f64 = 1_000.0;

/// What burns gas: all of it at once, and in a day. Unit: kg/h, kg.
struct Burns {
    at_once: Between,
    a_day: Between,
}

/// What is picked, and what follows from it alone.
struct Cold {
    share: f64,
    low_c: f64,
}

pub(super) fn answer(asked: &mut Asked) -> Result<Answer> {
    let options: Vec<_> =
        MIXES.iter().map(|(id, _)| (*id, asked.say(&format!("mix.{id}"), &[]))).collect();
    let mix = asked.one("mix", &options, None)?;
    let low_c = asked.number("low", "_c", LOW_C)?;
    let share =
        mix.and_then(|mix| MIXES.iter().find(|(id, _)| *id == mix)).map(|(_, kg)| by_mole(*kg));
    let burns = burns(asked);
    let (cylinders, lacks) = cylinders(asked)?;
    let cold = share.zip(low_c).map(|(share, low_c)| Cold { share, low_c });

    let mut parts = Vec::new();
    let mut mark = None;
    let mut verdict_text = asked.say("verdict.unpicked", &[]);
    if let Some(cold) = &cold {
        let rate = rate(asked, cold, &cylinders, burns.as_ref());
        (mark, verdict_text) = verdict(asked, cold, &rate);
        parts.push(asked.part("flow", flow(asked, cold)));
        parts.extend((!rate.is_empty()).then(|| asked.part("rate", rate)));
    }
    parts.push(asked.part("left", stock::left(asked, &cylinders, burns.as_ref())));
    let fill = stock::fill(asked);
    parts.extend((!fill.is_empty()).then(|| asked.part("fill", fill)));
    parts.push(asked.part("carry", carry(asked, low_c)));

    let mut cautions = vec!["warm", "out"];
    cautions.extend(asked.loaded.vehicle.of_kind("gas_filling_point").next().map(|_| "fill"));
    let cautions =
        cautions.into_iter().map(|key| asked.say(&format!("caution.{key}"), &[])).collect();
    let use_unknown = burns.is_none().then_some("use");
    let missing = lacks.into_iter().chain(use_unknown);
    let missing = missing.map(|key| asked.say(&format!("missing.{key}"), &[])).collect();
    Ok(Answer { mark, verdict_text, cautions, parts, missing })
}

/// What burns gas, as people told it; `None` where nothing was told.
fn burns(asked: &mut Asked) -> Option<Burns> {
    let told: Vec<_> =
        BURNS.iter().map(|(_, power, hours)| (asked.figure(power), asked.figure(hours))).collect();
    let fridge = asked.figure(FRIDGE).map(|grams| Between::exactly(grams / G_A_KG));
    let kg = |kilowatts: f64| Between::exactly(kilowatts) / NET_KWH_PER_KG;
    let at_once = told.iter().filter_map(|(power, _)| *power).map(kg).chain(fridge);
    let a_day = told.iter().filter_map(|(power, hours)| Some(kg((*power)?) * (*hours)?));
    let a_day: Vec<_> = a_day.chain(fridge.map(|kg| kg * H_A_DAY)).collect();
    (!a_day.is_empty()).then(|| Burns { at_once: at_once.sum(), a_day: a_day.into_iter().sum() })
}

/// What each thing that burns gas takes in a day, or which of their figures nobody told. Unit: kg.
pub(in crate::engine) fn burnt_kg(
    loaded: &Loaded,
) -> std::result::Result<Vec<(&'static str, Between)>, Vec<&'static str>> {
    let (mut burnt, mut lacks) = (Vec::new(), Vec::new());
    let mut told = |id: &'static str| {
        let asked = loaded.asked().any(|figure| figure.id == id);
        let number = loaded.told_figure(id).map(|(_, milli)| of_milli(milli));
        lacks.extend((asked && number.is_none()).then_some(id));
        number
    };
    for (what, power, hours) in BURNS {
        let kg = told(power).zip(told(hours));
        let kg = kg.map(|(kw, hours)| Between::exactly(kw * hours) / NET_KWH_PER_KG);
        burnt.extend(kg.map(|kg| (what, kg)));
    }
    let fridge = told(FRIDGE).map(|grams| Between::exactly(grams * H_A_DAY / G_A_KG));
    burnt.extend(fridge.map(|kg| ("fridge", kg)));
    if lacks.is_empty() && !burnt.is_empty() { Ok(burnt) } else { Err(lacks) }
}

fn flow(asked: &Asked, cold: &Cold) -> Vec<ReckoningLine> {
    let bar = gauge_kpa(cold.share, cold.low_c) * (1.0 / KPA_PER_BAR);
    let pressure = ReckoningLine {
        mark: Some(stands(flows(cold.share, cold.low_c))),
        ..asked.line("pressure", "_bar", bar, 0.1)
    };
    let from = asked.line("from", "_c", flows_from_c(cold.share), 1.0);
    [pressure, from]
        .into_iter()
        .chain(over(cold).map(|over| {
            let bar = (Some(over.lower), Some(over.upper));
            let line = asked.line("over", "_pct", over * 100.0, 1.0);
            ReckoningLine { bar_from: bar.0, bar_to: bar.1, ..line }
        }))
        .collect()
}

/// What stays of a full cylinder of a mixture; `None` of a pure gas, and where none of it flows.
fn over(cold: &Cold) -> Option<Between> {
    let mixed = cold.share > 0.0 && cold.share < 1.0;
    let over =
        needs_by_mole(cold.low_c).through(|needed| left_over(cold.share, needed, cold.low_c));
    (mixed && over.lower < 1.0 && over.upper > 0.0).then_some(over)
}

fn stands(holds: Option<bool>) -> Mark {
    match holds {
        Some(true) => Mark::Fine,
        None => Mark::Watch,
        Some(false) => Mark::Wrong,
    }
}

/// What one cylinder gives, the smallest of them, and whether that is enough for all at once.
fn rate(
    asked: &Asked,
    cold: &Cold,
    cylinders: &[Cylinder],
    burns: Option<&Burns>,
) -> Vec<ReckoningLine> {
    let full = cylinders.iter().filter_map(|one| Some((one, one.full_kg?)));
    let Some((one, full_kg)) = full.min_by(|a, b| a.1.upper.total_cmp(&b.1.upper)) else {
        return Vec::new();
    };
    // Where nobody read it, it may be full or nearly empty.
    let left = one.left_kg.map_or(Between::of(0.0, 1.0), |left| (left / full_kg).at_most(1.0));
    let gives = |draw| {
        let at = |kg: f64, left: f64| gives_kg_per_h(kg, left, cold.share, cold.low_c, draw);
        Between::of(at(full_kg.lower, left.lower).lower, at(full_kg.upper, left.upper).upper)
    };
    let (steady, burst) = (gives(Draw::Steady), gives(Draw::Burst));
    let grams = |id, rate: Between| asked.line(id, "_g_an_hour", rate * G_A_KG, 10.0);
    let mut lines = vec![grams("steady", steady), grams("burst", burst)];
    if let Some(burns) = burns {
        let mark = match () {
            () if burns.at_once.upper <= steady.lower => Mark::Fine,
            () if burns.at_once.lower > burst.upper => Mark::Wrong,
            () => Mark::Watch,
        };
        let detail = Some(asked.say("say.frost", &[]));
        lines.push(ReckoningLine { mark: Some(mark), detail, ..grams("wanted", burns.at_once) });
    }
    if cylinders.len() > 1
        && let Some(first) = lines.first_mut()
    {
        first.detail = Some(asked.say("say.together", &[]));
    }
    lines
}

fn verdict(asked: &Asked, cold: &Cold, rate: &[ReckoningLine]) -> (Option<Mark>, String) {
    let say = |mark, key: &str, slots: &[(&str, &str)]| {
        (Some(mark), asked.say(&format!("verdict.{key}"), slots))
    };
    let much = rate.iter().any(|line| line.id == "wanted" && line.mark != Some(Mark::Fine));
    match (flows(cold.share, cold.low_c), over(cold)) {
        (Some(false), _) => say(Mark::Wrong, "wrong", &[]),
        (None, _) => say(Mark::Watch, "close", &[]),
        (Some(true), Some(over)) => {
            let share = asked.band("_pct", over * 100.0, 1.0);
            say(Mark::Watch, "over", &[("share", &share)])
        }
        (Some(true), None) if much => say(Mark::Watch, "draw", &[]),
        (Some(true), None) => say(Mark::Fine, "fine", &[]),
    }
}

/// What is worth carrying, each with the cold down to which it flows.
fn carry(asked: &Asked, low_c: Option<f64>) -> Vec<ReckoningLine> {
    let line = |id: &&str| {
        let share = MIXES.iter().find(|(one, _)| one == id).map(|(_, kg)| by_mole(*kg))?;
        let from = asked.line(id, "_c", flows_from_c(share), 1.0);
        let text = asked.say("say.flows_from", &[("from", &from.text)]);
        let mark = low_c.map(|low_c| stands(flows(share, low_c)));
        Some(ReckoningLine { text, mark, ..from })
    };
    CARRIED.iter().filter_map(line).collect()
}
