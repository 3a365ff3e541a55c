//! Whether gas flows in the cold, how much at once, and for how long.

mod stock;

use super::asked::{Answer, Asked};
use crate::engine::loaded::Loaded;
use crate::engine::page::{Mark, ReckoningLine};
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::gas::{
    Draw, burns_kg_per_h, by_mole, by_mole_left, evaporates_w, flows, flows_between, flows_from_c,
    gauge_kpa, gives_kg_per_h, stays,
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
/// How full a full one is.
const FULL: Between = Between { lower: 1.0, upper: 1.0 };
const H_A_DAY: f64 = 24.0;
const G_A_KG: f64 = 1_000.0;

/// What burns gas, as far as it was told: all of it at once, and in a day. Unit: kg/h, kg.
struct Burns {
    at_once: Between,
    a_day: Between,
    /// Of everything that burns gas here it was told.
    complete: bool,
}

/// What is picked, and what follows from it alone.
struct Cold {
    /// Propane when full: kg in a kg, and moles in a mole.
    by_mass: f64,
    share: f64,
    low_c: f64,
}

pub(super) fn answer(asked: &mut Asked) -> Result<Answer> {
    let options: Vec<_> =
        MIXES.iter().map(|(id, _)| (*id, asked.say(&format!("mix.{id}"), &[]))).collect();
    let mix = asked.one("mix", &options, None)?;
    let low_c = asked.number("low", "_c", LOW_C)?;
    let by_mass = mix.and_then(|mix| MIXES.iter().find(|(id, _)| *id == mix)).map(|(_, kg)| *kg);
    let burns = burns(asked);
    let (cylinders, lacks) = cylinders(asked, burns.as_ref(), by_mass)?;
    let cold = by_mass.zip(low_c);
    let cold = cold.map(|(by_mass, low_c)| Cold { by_mass, share: by_mole(by_mass), low_c });

    let mut parts = Vec::new();
    let mut mark = None;
    let mut verdict_text = asked.say("verdict.unpicked", &[]);
    if let Some(cold) = &cold {
        let rate = rate(asked, cold, &cylinders, burns.as_ref());
        (mark, verdict_text) = verdict(asked, cold, &cylinders, &rate);
        parts.push(asked.part("flow", flow(asked, cold, &cylinders)));
        parts.extend((!rate.is_empty()).then(|| asked.part("rate", rate)));
    }
    parts.push(asked.part("left", stock::left(asked, &cylinders, burns.as_ref(), cold.as_ref())));
    let fill = stock::fill(asked, by_mass);
    parts.extend((!fill.is_empty()).then(|| asked.part("fill", fill)));
    parts.push(asked.part("carry", carry(asked, low_c)));

    let mut cautions = vec!["warm", "out"];
    cautions.extend(asked.loaded.vehicle.of_kind("gas_filling_point").next().map(|_| "fill"));
    let cautions =
        cautions.into_iter().map(|key| asked.say(&format!("caution.{key}"), &[])).collect();
    let use_unknown = match &burns {
        None => Some("use"),
        Some(burns) => (!burns.complete).then_some("use_all"),
    };
    let missing = lacks.into_iter().chain(use_unknown);
    let missing = missing.map(|key| asked.say(&format!("missing.{key}"), &[])).collect();
    Ok(Answer { mark, verdict_text, cautions, parts, missing })
}

/// One thing that burns gas, as far as it was told. Unit: kg/h, kg.
struct Burner {
    what: &'static str,
    at_once: Option<Between>,
    a_day: Option<Between>,
}

/// All that burns gas here, by what `told` knows of each figure, and which of them it does not know.
fn burners(
    loaded: &Loaded,
    mut told: impl FnMut(&'static str) -> Option<f64>,
) -> (Vec<Burner>, Vec<&'static str>) {
    let mut lacks = Vec::new();
    let mut number = |id: &'static str| {
        let number = told(id);
        let asked = number.is_none() && loaded.asked().any(|figure| figure.id == id);
        lacks.extend(asked.then_some(id));
        number
    };
    let mut all = Vec::new();
    for (what, power, hours) in BURNS {
        let (kilowatts, hours) = (number(power), number(hours));
        let at_once = kilowatts.map(|kilowatts| burns_kg_per_h(Between::exactly(kilowatts)));
        all.push(Burner { what, at_once, a_day: at_once.zip(hours).map(|(kg, hours)| kg * hours) });
    }
    let fridge = number(FRIDGE).map(|grams| Between::exactly(grams / G_A_KG));
    all.push(Burner { what: "fridge", at_once: fridge, a_day: fridge.map(|kg| kg * H_A_DAY) });
    (all, lacks)
}

/// What burns gas, as people told it; `None` where nothing was told.
fn burns(asked: &mut Asked) -> Option<Burns> {
    let (all, lacks) = burners(asked.loaded, |id| asked.figure(id));
    let at_once = all.iter().filter_map(|one| one.at_once).sum();
    let a_day: Vec<_> = all.iter().filter_map(|one| one.a_day).collect();
    let complete = lacks.is_empty();
    (!a_day.is_empty()).then(|| Burns { at_once, a_day: a_day.into_iter().sum(), complete })
}

/// What each thing that burns gas takes in a day, or which of their figures nobody told. Unit: kg.
pub(in crate::engine) fn burnt_kg(
    loaded: &Loaded,
) -> std::result::Result<Vec<(&'static str, Between)>, Vec<&'static str>> {
    let (all, lacks) = burners(loaded, |id| loaded.told_number(id));
    let burnt: Vec<_> = all.iter().filter_map(|one| Some((one.what, one.a_day?))).collect();
    if lacks.is_empty() && !burnt.is_empty() { Ok(burnt) } else { Err(lacks) }
}

impl Cold {
    /// The share of propane in what is left of a cylinder.
    fn share_of(&self, left: Between) -> Between {
        by_mole_left(self.share, left, self.low_c)
    }

    /// Whether gas flows from one that is so full, or from a full one.
    fn flows_from(&self, left: Option<Between>) -> Option<bool> {
        flows_between(self.share_of(left.unwrap_or(FULL)), self.low_c)
    }

    fn mixed(&self) -> bool {
        self.share > 0.0 && self.share < 1.0
    }
}

/// Those in which there may be gas.
fn not_empty(cylinders: &[Cylinder]) -> impl Iterator<Item = &Cylinder> {
    cylinders.iter().filter(|one| one.left.is_none_or(|left| left.upper > 0.0))
}

fn flow(asked: &Asked, cold: &Cold, cylinders: &[Cylinder]) -> Vec<ReckoningLine> {
    let pressure = |left: Option<Between>| {
        let share = cold.share_of(left.unwrap_or(FULL));
        let [low, high] = [share.lower, share.upper].map(|share| gauge_kpa(share, cold.low_c));
        let bar = Between::of(low.lower, high.upper) * (1.0 / KPA_PER_BAR);
        let mark = Some(stands(cold.flows_from(left)));
        ReckoningLine { mark, ..asked.line("pressure", "_bar", bar, 0.1) }
    };
    let known = not_empty(cylinders).filter_map(|one| Some((one, one.left?))).map(|(one, left)| {
        let title = asked.say("line.pressure_of", &[("what", &one.title)]);
        ReckoningLine { title, ..pressure(Some(left)) }
    });
    let open = cylinders.is_empty() || cylinders.iter().any(|one| one.left.is_none());
    let full = open.then(|| {
        let detail = cold.mixed().then(|| asked.say("say.falls", &[]));
        ReckoningLine { detail, ..pressure(None) }
    });
    let from = asked.line("from", "_c", flows_from_c(cold.share), 1.0);
    let over = over(cold).map(|over| {
        let bar = (Some(over.lower), Some(over.upper));
        let line = asked.line("over", "_pct", over * 100.0, 1.0);
        ReckoningLine { bar_from: bar.0, bar_to: bar.1, ..line }
    });
    known.chain(full).chain([from]).chain(over).collect()
}

/// What stays of a full cylinder of a mixture; `None` of a pure gas, and where none of it flows.
fn over(cold: &Cold) -> Option<Between> {
    let over = stays(cold.share, FULL, cold.low_c);
    (cold.mixed() && over.lower < 1.0 && over.upper > 0.0).then_some(over)
}

fn stands(holds: Option<bool>) -> Mark {
    match holds {
        Some(true) => Mark::Fine,
        None => Mark::Watch,
        Some(false) => Mark::Wrong,
    }
}

/// What one cylinder gives by what is left in it, that which gives least, and whether it is enough for all
/// at once.
fn rate(
    asked: &Asked,
    cold: &Cold,
    cylinders: &[Cylinder],
    burns: Option<&Burns>,
) -> Vec<ReckoningLine> {
    let gives = |full_kg: Between, left: Between, draw| {
        let share = cold.share_of(left);
        let at = |kg: f64, left: f64, share: f64| gives_kg_per_h(kg, left, share, cold.low_c, draw);
        let least = at(full_kg.lower, left.lower, share.lower).lower;
        Between::of(least, at(full_kg.upper, left.upper, share.upper).upper)
    };
    let rates = not_empty(cylinders).filter_map(|one| {
        let full_kg = one.full_kg?;
        Some((one, full_kg, gives(full_kg, one.left.unwrap_or(FULL), Draw::Steady)))
    });
    let least = rates.min_by(|one, two| one.2.upper.total_cmp(&two.2.upper));
    let Some((one, full_kg, steady)) = least else { return Vec::new() };
    let burst = gives(full_kg, one.left.unwrap_or(FULL), Draw::Burst);
    let grams = |id, rate: Between| asked.line(id, "_g_an_hour", rate * G_A_KG, 10.0);
    let how = match one.left {
        Some(_) => asked.say("say.as_full", &[("what", &one.title)]),
        None => asked.say("say.gives_less", &[]),
    };
    let together = (cylinders.len() > 1).then(|| asked.say("say.together", &[]));
    let detail = Some([Some(how), together].into_iter().flatten().collect::<Vec<_>>().join(" "));
    let mut lines =
        vec![ReckoningLine { detail, ..grams("steady", steady) }, grams("burst", burst)];
    if let Some(burns) = burns {
        // Where nobody read it, it may be nearly empty.
        let surely = gives(full_kg, one.left.unwrap_or(Between::of(0.0, 1.0)), Draw::Steady);
        let mark = match () {
            () if burns.at_once.lower > burst.upper => Mark::Wrong,
            () if burns.complete && burns.at_once.upper <= surely.lower => Mark::Fine,
            () => Mark::Watch,
        };
        let heat = evaporates_w(burns.at_once, cold.by_mass, cold.low_c);
        let heat = asked.say("say.heat", &[("heat", &asked.band("_w", heat, 1.0))]);
        let detail = Some([heat, asked.say("say.frost", &[])].join(" "));
        lines.push(ReckoningLine { mark: Some(mark), detail, ..grams("wanted", burns.at_once) });
    }
    lines
}

fn verdict(
    asked: &Asked,
    cold: &Cold,
    cylinders: &[Cylinder],
    rate: &[ReckoningLine],
) -> (Option<Mark>, String) {
    let say = |mark, key: &str, slots: &[(&str, &str)]| {
        (Some(mark), asked.say(&format!("verdict.{key}"), slots))
    };
    let each: Vec<_> = not_empty(cylinders).map(|one| (one, cold.flows_from(one.left))).collect();
    let poor = each.iter().filter(|(_, flows)| *flows != Some(true));
    let what = poor.map(|(one, _)| one.title.as_str()).collect::<Vec<_>>().join(", ");
    let much = rate.iter().any(|line| line.id == "wanted" && line.mark != Some(Mark::Fine));
    match (cold.flows_from(None), over(cold)) {
        (Some(false), _) => say(Mark::Wrong, "wrong", &[]),
        _ if each.is_empty() && !cylinders.is_empty() => say(Mark::Wrong, "empty", &[]),
        (None, _) => say(Mark::Watch, "close", &[]),
        _ if !each.is_empty() && each.iter().all(|(_, flows)| *flows == Some(false)) => {
            say(Mark::Wrong, "poor", &[])
        }
        _ if !what.is_empty() => say(Mark::Watch, "poor_of", &[("what", &what)]),
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
