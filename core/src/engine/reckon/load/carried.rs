//! What is carried beyond the mass that the papers count: each with its place.

use crate::catalogue::Measured;
use crate::engine::page::ReckoningLine;
use crate::engine::reckon::asked::Asked;
use crate::engine::reckon::small::small;
use crate::engine::reserve::Known;
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::gas::{LIQUID_C, kg_per_l};
use crate::reckon::load::{DIESEL_KG_PER_L, FUEL_SHARE, Mass, PERSON_KG};
use crate::reserve::Amount;

/// Source: definition.
const SMALL_PER_UNIT: f64 = 1_000.0;
const ALL_PCT: f64 = 100.0;

/// One thing that is carried.
pub(super) struct Item {
    /// A kind of tank, or the figure that told it.
    pub(super) id: String,
    pub(super) title: String,
    pub(super) mass: Mass,
}

impl Item {
    pub(super) fn line(&self, asked: &Asked) -> ReckoningLine {
        let line = asked.line("item", "_kg", self.mass.kg, 1.0);
        ReckoningLine { id: self.id.clone(), title: self.title.clone(), ..line }
    }
}

/// All of it, and what is missing.
pub(super) fn carried(
    asked: &mut Asked,
    fuel_pct: Option<f64>,
) -> Result<(Vec<Item>, Vec<&'static str>)> {
    let (mut items, mut lacks) = (Vec::new(), Vec::new());
    told(asked, &mut items, &mut lacks);
    tanks(asked, &mut items, &mut lacks)?;
    let measures = &asked.loaded.vehicle.measures;
    match measures.fuel_tank_l.zip(measures.fuel_at_m) {
        Some((tank_l, at_m)) => {
            let share =
                fuel_pct.map_or(Between::of(0.0, 1.0), |pct| Between::exactly(pct / ALL_PCT));
            let kg = (share - Between::exactly(FUEL_SHARE)) * (tank_l * DIESEL_KG_PER_L);
            let mass = Mass { kg, at_m };
            items.push(Item { id: "fuel".to_owned(), title: asked.say("item.fuel", &[]), mass });
        }
        None => lacks.push("fuel"),
    }
    Ok((items, lacks))
}

/// People and things, as they were told: the driver is counted in the papers.
fn told(asked: &mut Asked, items: &mut Vec<Item>, lacks: &mut Vec<&'static str>) {
    let measures = asked.loaded.vehicle.measures.clone();
    let has_rack = asked.loaded.vehicle.of_kind("bike_rack").next().is_some();
    let places = [
        ("people_front", measures.seats_front_at_m, PERSON_KG, PERSON_KG, true),
        ("people_rear", measures.seats_rear_at_m, PERSON_KG, 0.0, false),
        ("lockers_kg", measures.lockers_at_m, 1.0, 0.0, true),
        ("garage_kg", measures.garage_at_m, 1.0, 0.0, false),
        ("rack_kg", measures.rack_at_m, 1.0, 0.0, has_rack),
    ];
    for (id, at_m, each_kg, counted_kg, needed) in places {
        // A vehicle without such a place carries nothing there.
        if at_m.is_none() && !needed {
            continue;
        }
        let count = asked.figure(id);
        lacks.extend(at_m.is_none().then_some("places"));
        lacks.extend(count.is_none().then_some("carried"));
        if let Some((at_m, count)) = at_m.zip(count) {
            let kg = Between::exactly(count * each_kg - counted_kg);
            let title = asked.say(&format!("item.{id}"), &[]);
            items.push(Item { id: id.to_owned(), title, mass: Mass { kg, at_m } });
        }
    }
}

/// Water, waste, the cassette and gas: by their gauges, else from empty to full.
fn tanks(asked: &mut Asked, items: &mut Vec<Item>, lacks: &mut Vec<&'static str>) -> Result<()> {
    let known = asked.loaded.known_reserves(asked.words, asked.now)?;
    let measures = &asked.loaded.vehicle.measures;
    let counted = |kind: &str| match kind {
        "fresh_tank" => measures.counted_water_l,
        "gas_cylinder" => measures.counted_gas_kg,
        _ => Some(0.0),
    };
    let mut seen: Vec<&str> = Vec::new();
    let carried = |one: &&Known| one.gauge.of != Measured::Battery && !one.gauge.used_by_driving;
    for one in known.iter().filter(carried) {
        let kind = one.fitting.kind.as_str();
        let mass = mass(asked, one).zip(one.fitting.number("at_m")).zip(counted(kind));
        let Some(((kg, at_m), counted_kg)) = mass else {
            lacks.push("tanks");
            continue;
        };
        // What the papers count is in the first of them.
        let first = !seen.contains(&kind);
        seen.push(kind);
        let kg = kg - Between::exactly(if first { counted_kg } else { 0.0 });
        let title = one.title(asked.words);
        asked.rests_on(&one.fitting.id, title.clone());
        items.push(Item { id: one.fitting.id.clone(), title, mass: Mass { kg, at_m } });
    }
    Ok(())
}

/// What is in it, with the cylinder that gas is in. Unit: kg. `None` where the pack does not say how
/// much it holds: a default is not a fact.
fn mass(asked: &Asked, one: &Known) -> Option<Between> {
    let all = (0, one.scale.capacity);
    let (lower, upper) = asked.loaded.level_now(one, asked.now).unwrap_or(all);
    let level = Between::of(small(lower) / SMALL_PER_UNIT, small(upper) / SMALL_PER_UNIT);
    if one.gauge.of == Measured::Tank {
        one.fitting.given("capacity_l")?;
        return (one.scale.amount == Amount::Millilitres).then_some(level);
    }
    let gas = match one.scale.amount {
        Amount::Grams => level,
        Amount::Millilitres => level * kg_per_l(Between::of(0.0, 1.0), LIQUID_C),
        Amount::Permille => level * one.fitting.given("contents_kg")?,
    };
    Some(gas + Between::exactly(one.fitting.given("tare_kg")?))
}
