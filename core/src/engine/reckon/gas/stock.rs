//! What is in the cylinders, for how long that lasts, and how far they may be filled.

use super::{Asked, Burns, Cold};
use crate::catalogue::Measured;
use crate::engine::gas::unit_of;
use crate::engine::page::{GaugeUnit, Mark, ReckoningLine};
use crate::engine::reckon::small::{days, small};
use crate::engine::reserve::{Known, MS_PER_H, Rate};
use crate::engine::words::Words;
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::gas::{LIQUID_C, comes_out, kg_per_l, stays};
use crate::reserve::Amount;

/// Beyond this nobody plans by a number. Unit: days. Common practice, no source.
const DAYS_MAX: f64 = 60.0;
/// Source: definition.
const SMALL_PER_UNIT: f64 = 1_000.0;
/// At which a limit in litres is told in kilograms: volumes of liquefied gas are told at 15 °C (ISO 5024),
/// and the limit is of volume, so no density enters it. A colder one would tell more than the filling
/// ratios allow: four fifths of propane at -20 °C are 0.44 kg for each litre of the whole, 0.42 is the most.
const FILLED_C: Between = Between { lower: 15.0, upper: 15.0 };
/// Less than this is not told of what stays. Unit: kg.
const TOLD_KG: f64 = 0.05;

/// One cylinder as far as it is known.
pub(super) struct Cylinder {
    pub(super) title: String,
    /// What it holds when full. Unit: kg.
    pub(super) full_kg: Option<Between>,
    /// What is in it now, of a full one.
    pub(super) left: Option<Between>,
    /// What was in it when that was told, and how many days ago, where what people tell of their use was
    /// taken off since.
    told: Option<(Between, f64)>,
    /// On what that rests, in words.
    rests: Option<String>,
}

impl Cylinder {
    fn kg(&self) -> Option<Between> {
        Some(self.left? * self.full_kg?)
    }

    /// What of so much comes out tonight; all of it where nobody picked how cold it gets. Unit: kg.
    fn out_kg(&self, left: Between, cold: Option<&Cold>) -> Option<Between> {
        let out = cold.map_or(left, |cold| comes_out(cold.share, left, cold.low_c));
        Some(out * self.full_kg?)
    }
}

/// Every cylinder, and what is missing for knowing more of them. `by_mass`: kg of propane in a kg.
pub(super) fn cylinders(
    asked: &mut Asked,
    burns: Option<&Burns>,
    by_mass: Option<f64>,
) -> Result<(Vec<Cylinder>, Vec<&'static str>)> {
    let known = asked.loaded.known_reserves(asked.words, asked.now)?;
    let (mut all, mut lacks) = (Vec::new(), Vec::new());
    for one in known.iter().filter(|one| one.gauge.of == Measured::Gas) {
        let whole = small(one.scale.capacity) / SMALL_PER_UNIT;
        let mix = by_mass.map_or(Between::of(0.0, 1.0), Between::exactly);
        let full_kg = match one.scale.amount {
            Amount::Grams => Some(Between::exactly(whole)),
            Amount::Millilitres => Some(kg_per_l(mix, LIQUID_C) * whole),
            Amount::Permille => one.fitting.number("contents_kg").map(Between::exactly),
        };
        let cylinder = cylinder(asked, one, full_kg, burns);
        lacks.extend(full_kg.is_none().then_some("contents"));
        lacks.extend(cylinder.left.is_none().then_some("level"));
        asked.rests_on(&one.fitting.id, cylinder.title.clone());
        all.push(cylinder);
    }
    lacks.sort_unstable();
    lacks.dedup();
    Ok((all, lacks))
}

/// How full it is by now: as its own readings show, else less what people say they use, else to where it
/// may have come.
fn cylinder(
    asked: &Asked,
    one: &Known,
    full_kg: Option<Between>,
    burns: Option<&Burns>,
) -> Cylinder {
    let share = |(lower, upper): (i64, i64)| {
        Between::of(small(lower), small(upper)) * (1.0 / small(one.scale.capacity).max(1.0))
    };
    let age_ms = one.last.as_ref().and_then(|last| last.at.age_ms(asked.now));
    let days = age_ms.map(days);
    let age = asked.words.age(age_ms);
    // What was told just now needs no word.
    let old = age_ms.is_none_or(|ms| ms >= MS_PER_H);
    let says = |key: &str| old.then(|| asked.say(&format!("say.{key}"), &[("age", &age)]));
    let by_readings = one.rate.as_ref().is_some_and(Rate::by_readings);
    let title = one.title(asked.words);
    let use_kg = burns.filter(|burns| burns.complete && !by_readings).map(|burns| burns.a_day);
    let told = one.level().map(|(_, lower, upper)| share((lower, upper))).zip(days);
    if let Some((((left, days), use_kg), full)) = told.zip(use_kg).zip(full_kg) {
        // Whether it was used at all since then nobody said.
        let lower = left.lower - use_kg.upper * days / full.lower;
        let left = Between::of(lower.max(0.0), left.upper);
        let shows = unit_of(one.fitting) != GaugeUnit::Words;
        let rests = says(if shows { "by_use" } else { "by_time" });
        return Cylinder { title, full_kg, left: Some(left), told, rests };
    }
    let left = asked.loaded.level_now(one, asked.now).map(share);
    let as_told = left == told.map(|(left, _)| left);
    let rests = match one.last {
        Some(_) if by_readings && days.is_some() => says("by_readings"),
        Some(_) if !as_told => says("since"),
        _ => None,
    };
    Cylinder { title, full_kg, left, told: None, rests }
}

/// What is in each, what a day uses, and how long all of it lasts.
pub(super) fn left(
    asked: &Asked,
    all: &[Cylinder],
    burns: Option<&Burns>,
    cold: Option<&Cold>,
) -> Vec<ReckoningLine> {
    let each = all.iter().map(|one| {
        let line = match one.kg() {
            Some(kg) => asked.line("left", "_kg", kg, 0.1),
            None => asked.told("left", asked.words.say("not_known", &[])),
        };
        let (bar_from, bar_to) = (one.left.map(|left| left.lower), one.left.map(|left| left.upper));
        let stays = stays_text(asked, one, cold);
        let detail: Vec<_> = one.rests.clone().into_iter().chain(stays).collect();
        let detail = (!detail.is_empty()).then(|| detail.join(" "));
        ReckoningLine { title: one.title.clone(), detail, bar_from, bar_to, ..line }
    });
    let used = burns.map(|burns| {
        let line = asked.line("use", "_kg", burns.a_day, 0.01);
        let detail = (!burns.complete).then(|| asked.say("say.use_partly", &[]));
        ReckoningLine { detail, ..line }
    });
    let burns = burns.filter(|burns| burns.a_day.lower > 0.0);
    let out = out_kg(all, burns, cold);
    let lasts = out.zip(burns).map(|(out, burns)| lasts(asked, out, burns, cold.is_some()));
    each.chain(used).chain(lasts).collect()
}

/// What of one stays in it tonight, in words.
fn stays_text(asked: &Asked, one: &Cylinder, cold: Option<&Cold>) -> Option<String> {
    let (cold, full) = cold.zip(one.full_kg)?;
    let kg = stays(cold.share, one.left?, cold.low_c) * full;
    let text = asked.band("_kg", kg, 0.1);
    (kg.upper > TOLD_KG).then(|| asked.say("say.stays", &[("kg", &text)]))
}

/// What comes out of all of them; `None` where one is not known. What a day uses comes out of one or
/// the other, so it is taken off all of them together but once. Unit: kg.
fn out_kg(all: &[Cylinder], burns: Option<&Burns>, cold: Option<&Cold>) -> Option<Between> {
    let each: Option<Vec<Between>> =
        all.iter().map(|one| one.left.and_then(|left| one.out_kg(left, cold))).collect();
    let out: Between = each.filter(|each| !each.is_empty())?.into_iter().sum();
    let told: Option<Vec<_>> = all.iter().map(|one| one.told).collect();
    let together = told.zip(burns).and_then(|(told, burns)| {
        let days = told.iter().map(|(_, days)| *days).fold(0.0, f64::max);
        let then: Option<Vec<Between>> =
            all.iter().zip(&told).map(|(one, (left, _))| one.out_kg(*left, cold)).collect();
        let then: Between = then?.into_iter().sum();
        Some(then.lower - burns.a_day.upper * days)
    });
    let lower = together.map_or(out.lower, |together| together.max(out.lower));
    Some(Between::of(lower.min(out.upper), out.upper))
}

/// For how many days what comes out lasts.
fn lasts(asked: &Asked, out_kg: Between, burns: &Burns, cold: bool) -> ReckoningLine {
    let days = (out_kg / burns.a_day).at_least(0.0).at_most(DAYS_MAX);
    let (lower, upper) = (days.lower.floor(), days.upper.ceil());
    let slots = (lower.to_string(), upper.to_string());
    let text = match () {
        () if days.upper < 1.0 => asked.say("say.under", &[]),
        () if !burns.complete => asked.say("say.most", &[("upper", &slots.1)]),
        () if lower < upper => asked.say("say.days", &[("lower", &slots.0), ("upper", &slots.1)]),
        () => asked.say("say.day", &[("upper", &slots.1)]),
    };
    let mark = if !burns.complete || days.lower < 1.0 { Mark::Watch } else { Mark::Fine };
    let detail = Some(asked.say(if cold { "say.comes_out" } else { "say.all_of_it" }, &[]));
    let (lower, upper) = (Some(days.lower).filter(|_| burns.complete), Some(days.upper));
    let unit = Some("days".to_owned());
    let line = asked.told("days", text);
    ReckoningLine { mark: Some(mark), detail, lower, upper, unit, ..line }
}

/// How far each refillable one may be filled; what that weighs where it is picked what is filled.
pub(super) fn fill(asked: &Asked, by_mass: Option<f64>) -> Vec<ReckoningLine> {
    let refilled = asked.loaded.vehicle.of_kind("gas_cylinder");
    let lines = refilled.filter_map(|(_, cylinder)| {
        let volume_l = cylinder.number("volume_l")?;
        let limit_l = volume_l * cylinder.number("fill_limit_pct")? / 100.0;
        let litres = asked.line("fill", "_l", Between::exactly(limit_l), 0.1);
        let title = Words::sentence(&format!("{}: {}", cylinder.title, litres.title));
        let detail = by_mass.map(|by_mass| {
            let kg = kg_per_l(Between::exactly(by_mass), FILLED_C) * limit_l;
            let (mass, at) = (asked.band("_kg", kg, 0.1), asked.quantity("_c", FILLED_C.lower));
            asked.say("say.mass", &[("mass", &mass), ("at", &at)])
        });
        Some(ReckoningLine { title, detail, ..litres })
    });
    lines.collect()
}
