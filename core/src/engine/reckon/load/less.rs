//! What to leave behind or to move: the best single thing and the best pair.

use super::{Item, Stands, axles, verdict};
use crate::engine::page::ReckoningLine;
use crate::engine::reckon::asked::Asked;
use crate::reckon::Between;
use crate::reckon::load::{Change, Mass, best};

/// What is kept of fresh water for the road. Unit: L, and kg. Common practice, no source.
const KEPT_KG: f64 = 20.0;

/// One thing that can be done, in words.
struct Step {
    title: String,
    change: Change,
}

/// The best single change, and the best pair where that is better.
pub(super) fn less(asked: &Asked, stands: &Stands) -> Vec<ReckoningLine> {
    let steps: Vec<Step> = stands
        .items
        .iter()
        .enumerate()
        .filter_map(|(at, item)| step(asked, stands, at, item))
        .collect();
    let changes: Vec<Change> = steps.iter().map(|step| step.change.clone()).collect();
    let masses = stands.masses();
    let find =
        |most| best(&changes, most, stands.empty, &masses, stands.wheelbase_m, &stands.limits);
    let (one, two) = (find(1), find(2));
    let line = |id: &str, set: &[usize]| {
        let done: Vec<&Step> = set.iter().filter_map(|at| steps.get(*at)).collect();
        let what = done.iter().map(|step| step.title.as_str()).collect::<Vec<_>>().join(" ");
        let done: Vec<&Change> = done.iter().map(|step| &step.change).collect();
        let then = Change::all(&done, stands.empty, &masses, stands.wheelbase_m);
        let (mark, then) = verdict(asked, &axles(asked, then, &stands.limits));
        let detail = Some(asked.say("say.then", &[("then", &then)]));
        ReckoningLine { detail, mark, ..asked.told(id, what) }
    };
    let pair = (two.len() > 1).then(|| line("two", &two));
    let single = (!one.is_empty()).then(|| line("one", &one));
    single.into_iter().chain(pair).collect()
}

/// What can be done with one thing that is carried.
fn step(asked: &Asked, stands: &Stands, at: usize, item: &Item) -> Option<Step> {
    let vehicle = &asked.loaded.vehicle;
    let measures = &vehicle.measures;
    let kind = vehicle.fittings.iter().find(|one| one.id == item.id).map(|one| one.kind.as_str());
    let Mass { kg, at_m } = item.mass;
    let away = |kg| vec![Mass { kg: kg * -1.0, at_m }];
    let (key, gives, off) = match kind.unwrap_or(item.id.as_str()) {
        "waste_tank" | "cassette_toilet" => ("empty", Vec::new(), away(kg)),
        "rack_kg" => ("off", Vec::new(), away(kg)),
        "garage_kg" => {
            let there = Mass { kg, at_m: measures.lockers_at_m? };
            ("forward", vec![there], [away(kg), vec![there]].concat())
        }
        "fresh_tank" => {
            let kept = Between::exactly(KEPT_KG - measures.counted_water_l?);
            let left = kg.at_most(kept.upper);
            let poured = (kg - kept).at_least(0.0);
            ("water", vec![Mass { kg: left, at_m }], away(poured))
        }
        _ => return None,
    };
    let takes = (!stands.weighed).then_some(at);
    let gives = if stands.weighed { off } else { gives };
    let kept = asked.quantity("_l", KEPT_KG);
    let slots = [("what", item.title.as_str()), ("kept", kept.as_str())];
    let title = asked.say(&format!("step.{key}"), &slots);
    Some(Step { title, change: Change { thing: at, takes, gives } })
}
