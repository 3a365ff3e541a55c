//! By when water must be drained in the frost, or whether it holds tonight.

mod drawn;
mod stand;

use super::asked::{Answer, Asked};
use crate::engine::page::{Mark, ReckoningLine, ReckoningPart};
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::frost::loss::Wind;
use crate::reckon::frost::{Inside, Night};
use crate::reckon::urea;
use stand::{How, Stand};

/// What heats the living space.
const HEATERS: [&str; 3] = ["heater_gas", "heater_diesel", "heater_electric"];
/// From an evening to the coldest hour, about sunrise, where nobody says. Unit: h. Common practice, no
/// source.
const NIGHT_H: Between = Between { lower: 8.0, upper: 16.0 };
/// It stays as cold for so long after sunrise. Unit: h. Common practice, no source.
const AFTER_H: f64 = 2.0;
/// Less than this is now. Unit: h.
const NOW_H: f64 = 0.25;
const MS_PER_H: f64 = 3_600_000.0;

/// What was picked and what is believed of this night.
struct Given {
    low_c: Option<f64>,
    outside_c: Option<f64>,
    inside_c: Option<f64>,
    water_c: Option<f64>,
    sunrise_h: Option<f64>,
    heated: bool,
    tank_heater: bool,
    wind: Wind,
}

pub(super) fn answer(asked: &mut Asked) -> Result<Answer> {
    let given = Given::ask(asked)?;
    let mut cautions =
        ["inside", "drain"].map(|key| asked.say(&format!("caution.{key}"), &[])).to_vec();
    let Some(night) = given.night() else {
        let verdict_text = asked.say("verdict.pick", &[]);
        let (parts, missing) = (Vec::new(), Vec::new());
        return Ok(Answer { mark: None, verdict_text, cautions, parts, missing });
    };
    let stands = stand::all(asked, &given, &night)?;
    let (mark, verdict_text) = verdict(asked, &stands, &night);
    if coldest_c(&night).min(night.outside_c) < 0.0 {
        let pipes = stands.iter().find(|one| one.id == stand::PIPES).and_then(Stand::earliest_h);
        let key = if pipes.is_some() { "caution.others_with" } else { "caution.others" };
        cautions.insert(0, asked.say(key, &[]));
    }
    let lines = stands.iter().map(|one| one.line(asked)).collect();
    let chart = drawn::water(asked, &stands, &night);
    let water = ReckoningPart { chart, ..asked.part("water", lines) };
    let also = asked.part("also", also(asked, &night));
    let parts = [water, drawn::air(asked, &night), also];
    let first_h = stands.iter().filter_map(Stand::earliest_h).reduce(f64::min);
    if let Some(first_h) = first_h.filter(|hours| *hours >= NOW_H) {
        asked.by(floored(first_h) * MS_PER_H);
    }
    let missing = stands.iter().filter_map(Stand::missing).collect();
    Ok(Answer { mark, verdict_text, cautions, parts: parts.into(), missing })
}

impl Given {
    fn ask(asked: &mut Asked) -> Result<Self> {
        let low_c = asked.number("low", "_c", (-40.0, 20.0))?;
        let outside_c = asked.number("outside", "_c", (-40.0, 40.0))?;
        let inside_c = asked.number("inside", "_c", (-20.0, 40.0))?;
        let water_c = asked.number("water", "_c", (0.0, 40.0))?;
        let sunrise_h = asked.number("sunrise_h", "_h", (1.0, 24.0))?;
        let heating = heating(asked);
        let heated = two(asked, "heating", ["on", "off"], heating)?;
        let strong = asked.loaded.vehicle.of_kind("pitch").next();
        let strong = strong.and_then(|(_, pitch)| asked.stands(pitch, "wind", &["strong"]));
        let wind = match two(asked, "wind", ["strong", "calm"], strong)? {
            Some(true) => Wind::Strong,
            Some(false) => Wind::Calm,
            None => Wind::Unknown,
        };
        let tanks = stand::TANKS.iter().flat_map(|kind| asked.loaded.vehicle.of_kind(kind));
        let has_heater = tanks.into_iter().any(|(_, tank)| tank.number("heater_w").is_some());
        let tank_heater =
            if has_heater { two(asked, "tank_heater", ["on", "off"], None)? } else { None };
        let (heated, tank_heater) = (heated == Some(true), tank_heater == Some(true));
        Ok(Self { low_c, outside_c, inside_c, water_c, sunrise_h, heated, tank_heater, wind })
    }

    fn night(&self) -> Option<Night> {
        let coldest_in_h = self.sunrise_h.map_or(NIGHT_H, Between::exactly);
        Some(Night {
            outside_c: self.outside_c?,
            low_c: self.low_c?,
            coldest_in_h,
            lasts_h: coldest_in_h.upper + AFTER_H,
            inside: Inside { now_c: self.inside_c, heated: self.heated },
        })
    }
}

/// One of two, the first meaning yes; as it is believed where nothing was picked.
fn two(asked: &mut Asked, id: &str, ids: [&str; 2], usual: Option<bool>) -> Result<Option<bool>> {
    let [yes, no] = ids;
    let options = ids.map(|one| (one, asked.say(&format!("{id}.{one}"), &[])));
    let usual = usual.map(|usual| if usual { yes } else { no });
    let chosen = asked.one(id, &options, usual)?;
    Ok(chosen.map(|chosen| chosen == yes))
}

/// Whether something heats the living space; `None` where nobody knows.
fn heating(asked: &Asked) -> Option<bool> {
    let heaters = HEATERS.iter().flat_map(|kind| asked.loaded.vehicle.of_kind(kind));
    let off: Vec<_> = heaters.map(|(_, heater)| asked.stands(heater, "heat", &["off"])).collect();
    if off.contains(&Some(false)) {
        return Some(true);
    }
    off.iter().all(|off| *off == Some(true)).then_some(false)
}

/// Rounded down to quarters of an hour; in five minutes below one hour.
fn floored(hours: f64) -> f64 {
    let step_h = if hours < 1.0 { 1.0 / 12.0 } else { NOW_H };
    (hours / step_h + 1e-9).floor() * step_h
}

/// "4 hours and 15 minutes".
fn within(asked: &Asked, hours: f64) -> String {
    span(asked, floored(hours))
}

/// The same, rounded up.
fn at_most(asked: &Asked, hours: f64) -> String {
    span(asked, (hours / NOW_H - 1e-9).ceil() * NOW_H)
}

fn span(asked: &Asked, hours: f64) -> String {
    let ms = crate::reserve::whole("hours", hours * MS_PER_H, 1, 0..=i64::from(u32::MAX));
    asked.words.time(ms.unwrap_or(0))
}

/// What has to be drained first, and by when; whether all holds; what cannot be told.
fn verdict(asked: &Asked, stands: &[Stand], night: &Night) -> (Option<Mark>, String) {
    let names = |of: &dyn Fn(&Stand) -> bool| {
        let titles = stands.iter().filter(|one| of(one)).map(|one| one.title.as_str());
        titles.collect::<Vec<_>>().join(", ")
    };
    let unknown = names(&|one| matches!(one.how, How::Unknown(_)));
    let worst = stands.iter().filter_map(Stand::mark).max();
    let freezes = |one: &Stand| one.mark().is_some_and(|mark| mark > Mark::Fine);
    let first_h = stands.iter().filter_map(Stand::earliest_h).reduce(f64::min);
    let mut said = Vec::new();
    if let Some(first_h) = first_h {
        let key = if first_h < NOW_H { "now" } else { "drain" };
        let slots = [("time", &*within(asked, first_h)), ("what", &names(&freezes))];
        said.push(asked.say(&format!("verdict.{key}"), &slots));
        let usual_h = stands.iter().filter_map(Stand::usual_h).reduce(f64::min);
        said.push(match usual_h {
            Some(h) => asked.say("verdict.usual", &[("time", &within(asked, h))]),
            None => asked.say("verdict.not_usual", &[]),
        });
    }
    if !unknown.is_empty() {
        said.push(asked.say("verdict.unknown", &[("what", &unknown)]));
    }
    if said.is_empty() {
        let key = if stands.is_empty() {
            "nothing"
        } else if stands.iter().any(Stand::relies) {
            "heated"
        } else {
            "holds"
        };
        said.push(asked.say(&format!("verdict.{key}"), &[("time", &span(asked, night.lasts_h))]));
    }
    let mark = if first_h.is_none() && !unknown.is_empty() { None } else { worst };
    (mark, said.join(" "))
}

/// What the forecast low may come to. Unit: °C.
fn coldest_c(night: &Night) -> f64 {
    night.low_c - crate::reckon::frost::night::FORECAST_K
}

/// What the frost valve does, and what is not reckoned.
fn also(asked: &Asked, night: &Night) -> Vec<ReckoningLine> {
    let fitted = |kind: &str| asked.loaded.vehicle.of_kind(kind).next();
    let mut lines = Vec::new();
    if let Some((_, valve)) = fitted("frost_valve") {
        let below = valve.number("opens_below_c").map(|below| asked.quantity("_c", below));
        let without =
            if valve.flag("opens_without_12v") == Some(true) { "without" } else { "with" };
        let slots = [("below", &*below.unwrap_or_default())];
        let detail = Some(asked.say(&format!("valve.{without}"), &[]));
        lines.push(ReckoningLine {
            detail,
            mark: Some(Mark::Watch),
            ..asked.told("valve", asked.say("valve.does", &slots))
        });
    }
    if fitted("urea_tank").is_some() && coldest_c(night) <= urea::FREEZES_C {
        let at = asked.quantity("_c", urea::FREEZES_C);
        lines.push(asked.told("urea", asked.say("say.urea", &[("at", &at)])));
    }
    lines
}
