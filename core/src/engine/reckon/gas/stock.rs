//! What is in the cylinders, for how long that lasts, and how far they may be filled.

use super::{Asked, Burns};
use crate::catalogue::Measured;
use crate::engine::page::{Mark, ReckoningLine};
use crate::engine::words::Words;
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::gas::{BUTANE_KG_PER_L, PROPANE_KG_PER_L};
use crate::reserve::Amount;

/// Beyond this nobody plans by a number. Unit: days. Common practice, no source.
const DAYS_MAX: f64 = 60.0;
/// Source: definition.
const SMALL_PER_UNIT: f64 = 1_000.0;

/// One cylinder as far as it is known. Unit: kg.
pub(super) struct Cylinder {
    pub(super) title: String,
    /// What it holds when full.
    pub(super) full_kg: Option<Between>,
    /// What is in it.
    pub(super) left_kg: Option<Between>,
}

/// A kilogram of whatever is sold takes this much room. Unit: kg/L.
fn kg_per_l() -> Between {
    Between::of(PROPANE_KG_PER_L.lower, BUTANE_KG_PER_L.upper)
}

/// Every cylinder, and what is missing for knowing more of them.
pub(super) fn cylinders(asked: &mut Asked) -> Result<(Vec<Cylinder>, Vec<&'static str>)> {
    let known = asked.loaded.known_reserves(asked.words, asked.now)?;
    let (mut all, mut lacks) = (Vec::new(), Vec::new());
    for one in known.iter().filter(|one| one.gauge.of == Measured::Gas) {
        let mass = |small: (i64, i64)| {
            let band = Between::of(of(small.0), of(small.1)) * (1.0 / SMALL_PER_UNIT);
            match one.scale.amount {
                Amount::Grams => Some(band),
                Amount::Millilitres => Some(band * kg_per_l()),
                Amount::Permille => one.fitting.number("contents_kg").map(|kg| band * kg),
            }
        };
        let level = one
            .left_now(asked.now)
            .or_else(|| one.last.as_ref().map(|last| (last.lower, last.upper)));
        let level = level.map(|left| one.scale.level(left));
        let title = one.title(asked.words);
        let full_kg = mass((one.scale.capacity, one.scale.capacity));
        let left_kg = level.and_then(mass);
        lacks.extend(full_kg.is_none().then_some("contents"));
        lacks.extend(level.is_none().then_some("level"));
        asked.rests_on(&one.fitting.id, title.clone());
        all.push(Cylinder { title, full_kg, left_kg });
    }
    lacks.sort_unstable();
    lacks.dedup();
    Ok((all, lacks))
}

/// A whole number as a float; what lies beyond what a reading can be counts as that.
fn of(small: i64) -> f64 {
    f64::from(i32::try_from(small).unwrap_or(i32::MAX))
}

/// What is in each, what a day uses, and how long all of it lasts.
pub(super) fn left(asked: &Asked, all: &[Cylinder], burns: Option<&Burns>) -> Vec<ReckoningLine> {
    let each = all.iter().map(|one| {
        let line = match one.left_kg {
            Some(kg) => asked.line("left", "_kg", kg, 0.1),
            None => asked.told("left", asked.words.say("not_known", &[])),
        };
        let share = one.left_kg.zip(one.full_kg).map(|(left, full)| (left / full).at_most(1.0));
        let (bar_from, bar_to) = (share.map(|share| share.lower), share.map(|share| share.upper));
        ReckoningLine { title: one.title.clone(), bar_from, bar_to, ..line }
    });
    let used = burns.map(|burns| asked.line("use", "_kg", burns.a_day, 0.01));
    let known: Option<Vec<_>> = all.iter().map(|one| one.left_kg).collect();
    let sum: Option<Between> = known.filter(|all| !all.is_empty()).map(|all| all.into_iter().sum());
    let lasts = sum.zip(burns).filter(|(_, burns)| burns.a_day.lower > 0.0).map(|(sum, burns)| {
        let days = (sum / burns.a_day).at_least(0.0).at_most(DAYS_MAX);
        let (lower, upper) = (days.lower.floor(), days.upper.ceil());
        let text = match () {
            () if days.upper < 1.0 => asked.say("say.under", &[]),
            () if lower < upper => {
                let slots = (lower.to_string(), upper.to_string());
                asked.say("say.days", &[("lower", &slots.0), ("upper", &slots.1)])
            }
            () => asked.say("say.day", &[("upper", &upper.to_string())]),
        };
        let mark = if days.lower < 1.0 { Mark::Watch } else { Mark::Fine };
        let (lower, upper) = (Some(days.lower), Some(days.upper));
        let unit = Some("days".to_owned());
        ReckoningLine { mark: Some(mark), lower, upper, unit, ..asked.told("days", text) }
    });
    each.chain(used).chain(lasts).collect()
}

/// How far each refillable one may be filled.
pub(super) fn fill(asked: &Asked) -> Vec<ReckoningLine> {
    let refilled = asked.loaded.vehicle.of_kind("gas_cylinder");
    let lines = refilled.filter_map(|(_, cylinder)| {
        let volume_l = cylinder.number("volume_l")?;
        let limit_l = volume_l * cylinder.number("fill_limit_pct")? / 100.0;
        let litres = asked.line("fill", "_l", Between::exactly(limit_l), 0.1);
        let title = Words::sentence(&format!("{}: {}", cylinder.title, litres.title));
        let mass = asked.band("_kg", kg_per_l() * limit_l, 0.1);
        let detail = Some(format!("{}: {mass}", asked.say("line.mass", &[])));
        Some(ReckoningLine { title, detail, ..litres })
    });
    lines.collect()
}
