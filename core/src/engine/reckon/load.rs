//! What each axle carries, what that leaves, and what to leave behind or to move.

mod carried;
mod less;

use std::collections::BTreeSet;

use super::asked::{Answer, Asked};
use crate::engine::page::{Mark, ReckoningLine};
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::load::{
    Limits, Loads, Mass, STATED_SHARE, axle_kg, conventional_kg, least_payload_kg, payload_kg,
    within,
};
use crate::vehicle::Axle;
use carried::{Item, carried};

/// How far a weighbridge may be out, on each axle. Unit: kg. Common practice, no source.
const SCALE_KG: f64 = 20.0;
const PCT: (f64, f64) = (0.0, 100.0);
const AXLES: [&str; 3] = ["front", "rear", "total"];

/// What stands on the axles, and how it is known.
struct Stands {
    /// Before what is carried; what was weighed holds it.
    empty: Loads,
    items: Vec<Item>,
    weighed: bool,
    wheelbase_m: f64,
    limits: Limits,
}

impl Stands {
    fn masses(&self) -> Vec<Mass> {
        if self.weighed { Vec::new() } else { self.items.iter().map(|item| item.mass).collect() }
    }

    fn now(&self) -> Loads {
        self.empty.with(&self.masses(), self.wheelbase_m)
    }
}

pub(super) fn answer(asked: &mut Asked) -> Result<Answer> {
    let fuel = asked.number("fuel", "_pct", PCT)?;
    let weighed = asked.figure("weighed_front_kg").zip(asked.figure("weighed_rear_kg"));
    let (items, mut lacks) = carried(asked, fuel)?;
    if weighed.is_some() {
        lacks.clear();
    }
    let stands = stands(asked, items, weighed, &mut lacks);
    let mut seen = BTreeSet::new();
    lacks.retain(|lack| seen.insert(*lack));
    let mut parts = Vec::new();
    let mut mark = None;
    let mut verdict_text = asked.say("verdict.unknown", &[]);
    if let Some(stands) = stands.filter(|_| lacks.is_empty()) {
        let lines = axles(asked, stands.now(), &stands.limits);
        (mark, verdict_text) = verdict(asked, &lines);
        parts.push(asked.part("axles", lines));
        let less = if mark == Some(Mark::Fine) { Vec::new() } else { less::less(asked, &stands) };
        parts.extend((!less.is_empty()).then(|| asked.part("less", less)));
        let items = stands.items.iter().map(|item| item.line(asked)).collect();
        parts.extend((!stands.weighed).then(|| asked.part("carried", items)));
    }
    let payload = payload(asked);
    parts.extend((!payload.is_empty()).then(|| asked.part("payload", payload)));
    lacks.extend(weighed.is_none().then_some("weigh"));
    let missing = lacks.iter().map(|key| asked.say(&format!("missing.{key}"), &[])).collect();
    let mut cautions = vec!["weigh", "tyres"];
    cautions.extend(weighed.map(|_| "since"));
    let cautions = cautions.into_iter().map(|key| asked.say(&format!("caution.{key}"), &[]));
    let cautions = cautions.collect();
    Ok(Answer { mark, verdict_text, cautions, parts, missing })
}

/// What weighing, or else the papers, say of the axles; `None` where neither is known.
fn stands(
    asked: &Asked,
    items: Vec<Item>,
    weighed: Option<(f64, f64)>,
    lacks: &mut Vec<&'static str>,
) -> Option<Stands> {
    let measures = &asked.loaded.vehicle.measures;
    let (front, rear) = measures.axles.split_first().filter(|(_, rear)| !rear.is_empty())?;
    let sum = |of: fn(&Axle) -> Option<f64>| rear.iter().map(of).sum::<Option<f64>>();
    let actual = |axle: &Axle| axle.mass_actual_kg;
    let stated = actual(front).zip(sum(actual)).map(|(front, rear)| {
        let about = |kg| Between::about(kg, STATED_SHARE);
        Loads::of(about(front), about(rear))
    });
    let scale = |kg: f64| Between::of(kg - SCALE_KG, kg + SCALE_KG);
    let on_scale = weighed.map(|(front, rear)| Loads::of(scale(front), scale(rear)));
    let limits = most(front).zip(sum(most)).zip(measures.mass_permissible_kg);
    let empty = on_scale.or(stated);
    lacks.extend(limits.is_none().then_some("limits"));
    lacks.extend(empty.is_none().then_some("empty"));
    lacks.extend(measures.wheelbase_m.is_none().then_some("wheelbase"));
    let ((front_kg, rear_kg), total_kg) = limits?;
    Some(Stands {
        empty: empty?,
        items,
        weighed: weighed.is_some(),
        wheelbase_m: measures.wheelbase_m?,
        limits: Limits { front_kg, rear_kg, total_kg },
    })
}

/// The most that an axle may carry: by its papers, and by its tyres where those carry less.
fn most(axle: &Axle) -> Option<f64> {
    let index = axle.load_index;
    let is = |one: &u32| index.is_some_and(|index| (f64::from(*one) - index).abs() < 0.5);
    let tyres = (0..=200).find(is).and_then(|index| axle_kg(index, axle.twin));
    axle.mass_permissible_kg.map(|kg| tyres.map_or(kg, |tyres| tyres.min(kg)))
}

fn stands_mark(margin: Between) -> Mark {
    match within(margin) {
        Some(true) => Mark::Fine,
        None => Mark::Watch,
        Some(false) => Mark::Wrong,
    }
}

/// Each axle and both: what stands on it, of how much, and what is left or over.
fn axles(asked: &Asked, loads: Loads, limits: &Limits) -> Vec<ReckoningLine> {
    let most = [limits.front_kg, limits.rear_kg, limits.total_kg];
    let each = AXLES.into_iter().zip(loads.each()).zip(loads.margins(limits).each()).zip(most);
    let line = |(((id, load), margin), most): (((&str, Between), Between), f64)| {
        let mark = stands_mark(margin);
        let kg = |kg: f64| asked.band("_kg", Between::exactly(kg), 1.0);
        let line = asked.line(id, "_kg", load, 10.0);
        let text = asked.say("say.of", &[("load", &line.text), ("most", &kg(most))]);
        let (key, kg) = match mark {
            Mark::Fine => ("left", kg(margin.lower.floor())),
            Mark::Watch => ("perhaps", kg((-margin.lower).ceil())),
            Mark::Wrong => ("over", kg((-margin.upper).floor())),
        };
        let detail = Some(asked.say(&format!("say.{key}"), &[("kg", &kg)]));
        ReckoningLine { text, detail, mark: Some(mark), ..line }
    };
    each.map(line).collect()
}

/// How it stands, and on what.
fn verdict(asked: &Asked, axles: &[ReckoningLine]) -> (Option<Mark>, String) {
    let worst = axles.iter().filter_map(|line| line.mark).max().unwrap_or(Mark::Fine);
    let of = axles.iter().filter(|line| line.mark == Some(worst));
    let named = of.map(|line| asked.say(&format!("say.on_{}", line.id), &[]));
    let what = named.collect::<Vec<_>>().join(", ");
    let key = match worst {
        Mark::Fine => "within",
        Mark::Watch => "perhaps",
        Mark::Wrong => "over",
    };
    (Some(worst), asked.say(&format!("verdict.{key}"), &[("what", &what)]))
}

/// What is left for luggage with every seat taken, by the papers alone, what a maker must leave, and what
/// people and their effects count for by convention.
fn payload(asked: &Asked) -> Vec<ReckoningLine> {
    let measures = &asked.loaded.vehicle.measures;
    let seats = (1..=12_u32)
        .find(|one| measures.seats.is_some_and(|seats| (f64::from(*one) - seats).abs() < 0.5));
    let actual: Option<f64> = measures.axles.iter().map(|axle| axle.mass_actual_kg).sum();
    let actual = actual.filter(|_| !measures.axles.is_empty());
    let papers = measures.mass_permissible_kg.zip(actual);
    // What is left with so many aboard, the driver among them.
    let left = |aboard: u32| {
        papers.map(|(most, actual)| {
            let kg = |share: f64| payload_kg(most, actual * share, 0.0, aboard);
            Between::of(kg(1.0 - STATED_SHARE), kg(1.0 + STATED_SHARE))
        })
    };
    let sized = seats.zip(measures.length_m);
    let conventional = sized.map(|(seats, length_m)| {
        let kg = Between::exactly(conventional_kg(seats, length_m));
        let line = asked.line("conventional", "_kg", kg, 0.1);
        let room = left(1);
        let mark = room.map(|room| stands_mark(room - kg));
        let room = room.map(|room| asked.band("_kg", room, 10.0));
        let room = room.map(|room| asked.say("say.room", &[("room", &room)]));
        let said = std::iter::once(asked.say("say.conventional", &[])).chain(room);
        let detail = Some(said.collect::<Vec<_>>().join(" "));
        ReckoningLine { detail, mark, ..line }
    });
    let least = sized.map(|(seats, length_m)| {
        asked.line("least", "_kg", Between::exactly(least_payload_kg(seats, length_m)), 0.1)
    });
    let left = seats.and_then(left).map(|left| asked.line("left", "_kg", left, 10.0));
    left.into_iter().chain(least).chain(conventional).collect()
}
