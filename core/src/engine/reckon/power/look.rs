//! What else to look at: frost, the fridge on 12 V, mains; and the nights drawn.

use super::bank::Bank;
use super::{Power, time};
use crate::engine::page::{Chart, ChartPoint, Mark, ReckoningLine, ReckoningPart};
use crate::engine::reckon::asked::Asked;
use crate::engine::words::Words;
use crate::fridge::Known;
use crate::reckon::Between;
use crate::reckon::battery::{Ahead, Load, Run, drawn_ah, freezes_at_c};
use crate::vehicle::Fitting;

/// The most nights that are drawn.
const DRAWN_MAX: u32 = 14;
/// How many of them are drawn where there is no end. Common practice, no source.
const DRAWN_OPEN: u32 = 7;

pub(super) fn part(asked: &Asked, power: &Power) -> ReckoningPart {
    let lines = power.bank.as_ref().map_or_else(Vec::new, |bank| {
        let fridges = asked.loaded.vehicle.of_kind("fridge_three_way");
        let fridges = fridges.filter_map(|(_, fridge)| on_12_v(asked, bank, fridge));
        freezes(asked, bank).into_iter().chain(fridges).collect()
    });
    asked.part("look", lines)
}

/// At which temperature it freezes, as full as it is and at its floor.
fn freezes(asked: &Asked, bank: &Bank) -> Vec<ReckoningLine> {
    let level = |id: &str, level: Between| {
        let at = freezes_at_c(bank.chemistry, level)?;
        let mark = if may_freeze(bank, at) { Mark::Watch } else { Mark::Fine };
        Some(ReckoningLine { mark: Some(mark), ..asked.line(id, "_c", at, 1.0) })
    };
    let now = bank.level.and_then(|now| level("freezes", now));
    let floor = level("freezes_at_floor", Between::exactly(bank.floor));
    now.into_iter().chain(floor).collect()
}

fn may_freeze(bank: &Bank, at_c: Between) -> bool {
    bank.cells_c.lower <= at_c.upper
}

/// How long a three-way fridge runs on 12 V with the engine off.
fn on_12_v(asked: &Asked, bank: &Bank, fridge: &Fitting) -> Option<ReckoningLine> {
    let watts = Between::exactly(fridge.number("dc_heat_w")?);
    let load = Load::of_watts(watts, 24.0, bank.chemistry);
    let day_ah = drawn_ah(&[load], &bank.capacity);
    let hours = bank.usable_ah()? / day_ah * 24.0;
    let text = asked.say("on_12_v", &[("time", &time(asked, hours))]);
    let mark = Some(if drains(asked, fridge) { Mark::Wrong } else { Mark::Fine });
    let title = Words::sentence(asked.words.title(fridge));
    let amps = asked.band("_a", load.current_a, 0.1);
    let detail = Some(asked.say("on_12_v_detail", &[("amps", &amps)]));
    let line = asked.told("fridge_on_12_v", text);
    Some(ReckoningLine { title: format!("{title}: {}", line.title), mark, detail, ..line })
}

/// It cools on 12 V now, and no engine runs.
pub(super) fn drains(asked: &Asked, fridge: &Fitting) -> bool {
    asked.stands(fridge, "selector", &["dc"]) == Some(true)
        && asked.loaded.is("engine", "running", "off") == Known::Yes
}

pub(super) fn cautions(asked: &Asked, power: &Power) -> Vec<String> {
    let bank = power.bank.as_ref();
    let freezing = bank.is_some_and(|bank| {
        let frost = bank.cells_told || asked.loaded.is("pitch", "tonight", "frost") == Known::Yes;
        let level = bank.level.unwrap_or(Between::exactly(bank.floor));
        let level = Between { lower: level.lower.min(bank.floor), ..level };
        frost && freezes_at_c(bank.chemistry, level).is_some_and(|at| may_freeze(bank, at))
    });
    let on_12_v_now =
        asked.loaded.vehicle.of_kind("fridge_three_way").any(|(_, one)| drains(asked, one));
    let breathing = power.loads.by_size().iter().any(|(_, item)| item.id == "breathing_aid");
    let said = [
        ("breathing_aid", breathing),
        ("fridge", on_12_v_now),
        ("freezes", freezing),
        ("mains", asked.loaded.mains() == Known::Yes),
        ("poles", bank.is_some()),
    ];
    let said = said.into_iter().filter(|(_, holds)| *holds);
    said.map(|(key, _)| asked.say(&format!("caution.{key}"), &[])).collect()
}

/// Charge from evening to evening.
pub(super) fn chart(asked: &Asked, ahead: &Ahead, bank: &Bank) -> Chart {
    let whole = |days: f64| (1..DRAWN_MAX).find(|night| f64::from(*night) >= days);
    let nights = ahead.upper.days.map_or(DRAWN_OPEN, |days| whole(days).unwrap_or(DRAWN_MAX));
    let level = |run: &Run, night: u32| {
        let place = usize::try_from(night).unwrap_or(usize::MAX);
        run.levels.get(place).or(run.levels.last()).copied().unwrap_or(0.0).clamp(0.0, 1.0)
    };
    let point = |night: u32| ChartPoint {
        at: f64::from(night) / f64::from(nights),
        label: match night {
            0 => asked.say("chart.now", &[]),
            night => night.to_string(),
        },
        lower: level(&ahead.lower, night),
        middle: level(&ahead.middle, night),
        upper: level(&ahead.upper, night),
    };
    let points: Vec<_> = (0..=nights).map(point).collect();
    let per_cent = |share: f64| asked.quantity("_pct", (share * 100.0).round());
    let said = (0..=nights).zip(&points).map(|(night, at)| {
        let range = asked.band("_pct", Between::of(at.lower, at.upper) * 100.0, 1.0);
        let key = if night == 0 { "chart.told_now" } else { "chart.told" };
        asked.say(key, &[("n", &night.to_string()), ("band", &range)])
    });
    Chart {
        title: asked.say("chart.title", &[]),
        told: said.collect::<Vec<_>>().join(" "),
        bottom_text: per_cent(0.0),
        top_text: per_cent(1.0),
        limit: Some(bank.floor),
        limit_text: Some(asked.say("chart.floor", &[("at", &per_cent(bank.floor))])),
        points,
    }
}
