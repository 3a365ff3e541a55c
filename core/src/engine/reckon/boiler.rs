//! When the boiler is hot, when to switch it on, and how many showers it gives.

use super::asked::{Answer, Asked};
use super::course::{self, At};
use crate::engine::page::{Chart, Mark, ReckoningLine, ReckoningPart};
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::boiler::{
    Boiler, Heating, Source, Takes, energy_kj, left_c, loss_w_per_k, mixed_l, takes,
};
use crate::vehicle::Fitting;

/// Water from the tap, and the room, where nobody says. Unit: °C. Common practice, no source.
const COLD_C: Between = Between { lower: 5.0, upper: 20.0 };
const ROOM_C: Between = Between { lower: 5.0, upper: 25.0 };
/// How warm a shower is. Unit: °C. Common practice, no source.
const SHOWER_C: Between = Between { lower: 38.0, upper: 40.0 };
const TARGETS: [(&str, f64); 3] = [("c50", 50.0), ("c60", 60.0), ("c70", 70.0)];
const RATINGS: [(&str, f64); 3] = [("a6", 6.0), ("a10", 10.0), ("a16", 16.0)];
const MAINS_V: f64 = 230.0;
/// For how long it is left off. Unit: h.
const NIGHT_H: f64 = 8.0;
const KJ_PER_KWH: f64 = 3_600.0;
const MIN_PER_H: f64 = 60.0;
const MS_PER_MIN: f64 = 60_000.0;
/// So many steps are drawn, of whole times so many minutes; every so many have their time below.
const DRAWN: u32 = 12;
const STEP_MIN: f64 = 5.0;
const LABEL: u32 = 3;

/// One way to heat it.
struct Way {
    id: &'static str,
    source: Source,
    electric_w: f64,
}

/// What was picked, told and is believed.
struct Given {
    capacity_l: f64,
    cold_c: Between,
    room_c: Between,
    to: (String, f64),
    ways: Vec<Way>,
    chosen: Option<String>,
    in_min: Option<f64>,
    shower_l: Option<f64>,
}

pub(super) fn answer(asked: &mut Asked) -> Result<Answer> {
    let loaded = asked.loaded;
    let boiler = loaded.vehicle.of_kind("boiler").map(|(_, boiler)| boiler).next();
    let capacity = boiler.and_then(|boiler| Some((boiler, boiler.number("capacity_l")?)));
    let cautions = ["scald", "light"].map(|key| asked.say(&format!("caution.{key}"), &[])).to_vec();
    let Some((fitting, capacity_l)) = capacity else {
        let verdict_text = asked.say("verdict.unknown", &[]);
        let missing = vec![asked.say("missing.capacity", &[])];
        return Ok(Answer { mark: None, verdict_text, cautions, parts: Vec::new(), missing });
    };
    let (given, missing) = Given::ask(asked, fitting, capacity_l)?;
    let limit_w = limit_w(asked);
    let sources = given.ways.iter().map(|way| source_line(asked, &given, way, limit_w)).collect();
    let slots = [("to", &*given.to_text(asked))];
    let title = asked.say("part.sources", &slots);
    let mut parts = vec![ReckoningPart { title, lines: sources, chart: None }];
    let (mark, mut verdict_text) = verdict(asked, &given, limit_w);
    if let Some(spare_min) = given.spare_min(limit_w) {
        asked.by(spare_min * MS_PER_MIN);
    }
    if let Some(way) = given.way() {
        let title = asked.say(&format!("by.{}", way.id), &[]);
        let lines = TARGETS.iter().map(|(id, to_c)| target_line(asked, &given, way, id, *to_c));
        let lines = lines.collect();
        parts.push(ReckoningPart { title, lines, chart: chart(asked, &given, way) });
    }
    parts.push(asked.part("shower", shower_lines(asked, &given)));
    parts.push(asked.part("after", after_lines(asked, &given)));
    if asked.stands(fitting, "water", &["empty"]) == Some(true) {
        verdict_text = asked.say("verdict.empty", &[("rest", &verdict_text)]);
    }
    Ok(Answer { mark, verdict_text, cautions, parts, missing })
}

impl Given {
    fn ask(asked: &mut Asked, fitting: &Fitting, capacity_l: f64) -> Result<(Self, Vec<String>)> {
        let cold_c = asked.number("cold", "_c", (1.0, 35.0))?;
        let room_c = asked.number("room", "_c", (-10.0, 40.0))?;
        let options = TARGETS.map(|(id, _)| (id, asked.say(&format!("to.{id}"), &[])));
        let to = asked.one("to", &options, Some("c60"))?.unwrap_or_default();
        let to_c = TARGETS.iter().find(|(id, _)| *id == to).map_or(60.0, |(_, to_c)| *to_c);
        let ways = ways(fitting);
        let options: Vec<_> =
            ways.iter().map(|way| (way.id, asked.say(&format!("by.{}", way.id), &[]))).collect();
        let chosen = asked.one("source", &options, believed(asked, fitting, &ways))?;
        let in_min = asked.number("in_min", "_min", (0.0, 1_440.0))?;
        let has_shower = asked.loaded.vehicle.of_kind("shower").next().is_some();
        let shower_l = asked.figure("shower_l").filter(|litres| *litres > 0.0);
        let missing = [
            ("gas", fitting.number("gas_w").is_none()),
            ("cold", cold_c.is_none()),
            ("room", room_c.is_none()),
            ("shower", has_shower && shower_l.is_none()),
            ("rating", post_amperes(asked).is_none()),
        ];
        let missing = missing.iter().filter(|(_, lacks)| *lacks);
        let missing = missing.map(|(key, _)| asked.say(&format!("missing.{key}"), &[])).collect();
        let given = Self {
            capacity_l,
            cold_c: cold_c.map_or(COLD_C, Between::exactly),
            room_c: room_c.map_or(ROOM_C, Between::exactly),
            to: (to, to_c),
            ways,
            chosen,
            in_min,
            shower_l,
        };
        Ok((given, missing))
    }

    fn way(&self) -> Option<&Way> {
        self.ways.iter().find(|way| Some(way.id) == self.chosen.as_deref())
    }

    fn takes(&self, way: &Way, from_c: Between, to_c: f64) -> Takes {
        takes(self.capacity_l, from_c, to_c, way.source, self.room_c)
    }

    /// How long one can wait before it is switched on, by the slowest that it may be. Unit: min, whole; `None`
    /// where it will not be hot in time, and where no time or source is picked.
    fn spare_min(&self, limit_w: Option<f64>) -> Option<f64> {
        let way = self.way().filter(|way| !too_much(way, limit_w))?;
        let most = self.takes(way, self.cold_c, self.to.1).most?;
        Some((self.in_min? - minutes(most)).floor()).filter(|spare_min| *spare_min >= 0.0)
    }

    fn to_text(&self, asked: &Asked) -> String {
        asked.quantity("_c", self.to.1)
    }
}

/// How this boiler can be heated, as far as the pack gives the powers.
fn ways(fitting: &Fitting) -> Vec<Way> {
    let high_w = fitting.number("mains_w");
    let low_w = fitting.number("low_w").filter(|_| fitting.flag("two_powers") == Some(true));
    let gas_w = fitting.number("gas_w");
    let with_gas = gas_w.filter(|_| fitting.flag("mixes") == Some(true));
    let electric =
        |id, w: Option<f64>| w.map(|w| Way { id, source: Source::Electric(w), electric_w: w });
    let mixed = |id, w: Option<f64>| {
        let (electric_w, gas_w) = w.zip(with_gas)?;
        Some(Way { id, source: Source::Mixed { electric_w, gas_w }, electric_w })
    };
    let gas = gas_w.map(|w| Way { id: "gas", source: Source::Gas(w), electric_w: 0.0 });
    let all = [
        electric("electric_low", low_w),
        electric("electric", high_w),
        gas,
        mixed("mixed_low", low_w),
        mixed("mixed", high_w),
    ];
    all.into_iter().flatten().collect()
}

/// What heats it now, as it is believed.
fn believed(asked: &Asked, fitting: &Fitting, ways: &[Way]) -> Option<&'static str> {
    let heat = |setting: &str| asked.stands(fitting, "heat", &[setting]) == Some(true);
    let low = asked.stands(fitting, "element", &["low"]) == Some(true);
    let id = match (heat("electric"), heat("gas"), heat("mixed")) {
        (true, ..) if low => "electric_low",
        (true, ..) => "electric",
        (_, true, _) => "gas",
        (.., true) if low => "mixed_low",
        (.., true) => "mixed",
        (false, false, false) => return None,
    };
    ways.iter().any(|way| way.id == id).then_some(id)
}

/// What the post lets through, where that is known: 0 where there is no mains. Unit: A.
fn post_amperes(asked: &Asked) -> Option<f64> {
    let (_, post) = asked.loaded.vehicle.of_kind("post").next()?;
    if asked.stands(post, "supply", &["none", "dead"]) == Some(true) {
        return Some(0.0);
    }
    let is = |(id, _): &&(&str, f64)| asked.stands(post, "rating", &[id]) == Some(true);
    RATINGS.iter().find(is).map(|(_, amperes)| *amperes)
}

fn limit_w(asked: &Asked) -> Option<f64> {
    post_amperes(asked).map(|amperes| amperes * MAINS_V)
}

/// More than the post gives, or none there.
fn too_much(way: &Way, limit_w: Option<f64>) -> bool {
    limit_w.is_some_and(|limit_w| way.electric_w > limit_w)
}

fn minutes(heating: Heating) -> f64 {
    heating.hours * MIN_PER_H
}

/// "20 to 41 minutes".
fn minutes_text(asked: &Asked, takes: &Takes) -> String {
    match (takes.least.map(minutes), takes.most.map(minutes)) {
        (Some(least), Some(most)) => asked.band("_min", Between::of(least, most), 1.0),
        (Some(least), None) => {
            let least = asked.band("_min", Between::exactly(least.floor()), 1.0);
            asked.say("say.from", &[("least", &least)])
        }
        (None, _) => asked.say("say.never", &[]),
    }
}

fn takes_line(asked: &Asked, id: &str, takes: &Takes) -> ReckoningLine {
    let mark = if takes.least.is_none() { Some(Mark::Wrong) } else { None };
    ReckoningLine {
        mark,
        lower: takes.least.map(minutes),
        upper: takes.most.map(minutes),
        unit: Some("min".to_owned()),
        ..asked.told(id, minutes_text(asked, takes))
    }
}

fn source_line(asked: &Asked, given: &Given, way: &Way, limit_w: Option<f64>) -> ReckoningLine {
    let line = takes_line(asked, way.id, &given.takes(way, given.cold_c, given.to.1));
    let Some(limit_w) = limit_w.filter(|_| too_much(way, limit_w)) else { return line };
    let detail = if limit_w > 0.0 {
        let (w, limit) = (asked.quantity("_w", way.electric_w), asked.quantity("_w", limit_w));
        asked.say("say.post", &[("w", &w), ("limit", &limit)])
    } else {
        asked.say("say.no_mains", &[])
    };
    ReckoningLine { mark: Some(Mark::Wrong), detail: Some(detail), ..line }
}

fn target_line(asked: &Asked, given: &Given, way: &Way, id: &str, to_c: f64) -> ReckoningLine {
    let line = takes_line(asked, id, &given.takes(way, given.cold_c, to_c));
    let kwh = given.cold_c.through(|cold_c| energy_kj(given.capacity_l, cold_c, to_c) / KJ_PER_KWH);
    let kwh = asked.band("_kwh", kwh, 0.01);
    ReckoningLine { detail: Some(asked.say("say.energy_band", &[("kwh", &kwh)])), ..line }
}

/// How much water of a shower's warmth, for how many, and when it is hot again.
fn shower_lines(asked: &Asked, given: &Given) -> Vec<ReckoningLine> {
    let hot_c = given.to.1;
    let mixed = |cold_c, mix_c| mixed_l(given.capacity_l, hot_c, cold_c, mix_c);
    let least = mixed(given.cold_c.lower, SHOWER_C.upper);
    let most = mixed(given.cold_c.upper, SHOWER_C.lower);
    let Some((least, most)) = least.zip(most) else { return Vec::new() };
    let litres = Between::of(least.lower, most.upper);
    let mut lines = vec![asked.line("warm", "_l", litres, 1.0)];
    let Some(shower_l) = given.shower_l else { return lines };
    let whole = litres.through(|litres| (litres / shower_l).floor());
    let n = |count: f64| count.to_string();
    let n = if (whole.upper - whole.lower) < 0.5 {
        n(whole.lower)
    } else {
        asked.words.say("reckon.to", &[("lower", &n(whole.lower)), ("upper", &n(whole.upper))])
    };
    let key = if n == "1" { "say.showers_one" } else { "say.showers" };
    let told = asked.told("showers", asked.say(key, &[("n", &n)]));
    lines.push(ReckoningLine { lower: Some(whole.lower), upper: Some(whole.upper), ..told });
    if let Some(way) = given.way() {
        let left = |cold_c, mix_c| {
            left_c(given.capacity_l, hot_c, cold_c, mix_c, shower_l.min(litres.upper))
        };
        let cold = left(given.cold_c.lower, SHOWER_C.upper);
        let from_c = Between::of(cold, left(given.cold_c.upper, SHOWER_C.lower));
        lines.push(takes_line(asked, "again", &given.takes(way, from_c, hot_c)));
    }
    lines
}

/// What it loses while it is kept hot, and how warm it is in the morning.
fn after_lines(asked: &Asked, given: &Given) -> Vec<ReckoningLine> {
    let loss = loss_w_per_k(given.capacity_l);
    let warmer_k = (Between::exactly(given.to.1) - given.room_c).at_least(0.0);
    let boiler = |loss_w_per_k, room_c| Boiler { volume_l: given.capacity_l, loss_w_per_k, room_c };
    let at = |loss, room_c| boiler(loss, room_c).cooled_c(given.to.1, NIGHT_H);
    let morning =
        Between::of(at(loss.upper, given.room_c.lower), at(loss.lower, given.room_c.upper));
    vec![
        asked.line("standing", "_w", loss * warmer_k, 1.0),
        asked.line("morning", "_c", morning, 1.0),
    ]
}

/// How warm the water is while it heats by one way, up to what is picked.
fn chart(asked: &Asked, given: &Given, way: &Way) -> Option<Chart> {
    let to_c = given.to.1;
    let takes = given.takes(way, given.cold_c, to_c);
    let end_min = takes.most.or(takes.least).map(minutes)?;
    let step_min = (end_min / f64::from(DRAWN) / STEP_MIN).ceil().max(1.0) * STEP_MIN;
    let (power_w, loss) = (way.source.power_w(), loss_w_per_k(given.capacity_l));
    let warm = |end: fn(Between) -> f64, loses: fn(Between) -> f64, hours: f64| {
        let (loss_w_per_k, room_c) = (loses(loss), end(given.room_c));
        let boiler = Boiler { volume_l: given.capacity_l, loss_w_per_k, room_c };
        boiler.warmed_c(end(given.cold_c), to_c, end(power_w), hours)
    };
    let at = |place: u32| {
        let n = step_min * f64::from(place);
        let hours = n / MIN_PER_H;
        let lower = warm(|band| band.lower, |band| band.upper, hours);
        let upper = warm(|band| band.upper, |band| band.lower, hours);
        let label = match place {
            0 => asked.say("chart.now", &[]),
            place if place.is_multiple_of(LABEL) => n.to_string(),
            _ => String::new(),
        };
        let usual_c = warm(Between::middle, Between::middle, hours);
        let along = f64::from(place) / f64::from(DRAWN);
        At { along, label, band_c: Between::of(lower, upper), usual_c }
    };
    let all: Vec<_> = (0..=DRAWN).map(at).collect();
    let title = asked.say("chart.title", &[]);
    Some(course::chart(asked, title, &all, (to_c, given.to_text(asked))))
}

/// How long it takes by the chosen way, or by each; when to switch it on.
fn verdict(asked: &Asked, given: &Given, limit_w: Option<f64>) -> (Option<Mark>, String) {
    let to = given.to_text(asked);
    let by = |way: &Way| asked.say(&format!("by.{}", way.id), &[]);
    let time = |way: &Way| minutes_text(asked, &given.takes(way, given.cold_c, given.to.1));
    let Some(way) = given.way() else {
        let ways = given.ways.iter().filter(|way| !too_much(way, limit_w));
        let each =
            ways.map(|way| asked.say("verdict.each", &[("by", &by(way)), ("time", &time(way))]));
        let what = each.collect::<Vec<_>>().join("; ");
        return (None, asked.say("verdict.all", &[("to", &to), ("what", &what)]));
    };
    if too_much(way, limit_w) {
        let line = source_line(asked, given, way, limit_w);
        let text = format!("{}: {}", by(way), line.detail.unwrap_or_default());
        return (Some(Mark::Wrong), text);
    }
    let takes = given.takes(way, given.cold_c, given.to.1);
    let (by, time) = (by(way), time(way));
    let slots = [("by", &*by), ("to", &*to), ("time", &*time), ("takes", &*time)];
    if takes.most.is_none() {
        let mark = if takes.least.is_none() { Mark::Wrong } else { Mark::Watch };
        return (Some(mark), asked.say("verdict.never", &slots));
    }
    if given.in_min.is_none() {
        return (Some(Mark::Fine), asked.say("verdict.one", &slots));
    }
    let Some(spare_min) = given.spare_min(limit_w) else {
        return (Some(Mark::Watch), asked.say("verdict.late", &slots));
    };
    let ms = crate::reserve::whole("in_min", spare_min * MS_PER_MIN, 1, 0..=i64::from(u32::MAX));
    let within = asked.words.time(ms.unwrap_or(0));
    let slots = [("by", &*by), ("to", &*to), ("time", &*within), ("takes", &*time)];
    (Some(Mark::Fine), asked.say("verdict.start", &slots))
}
