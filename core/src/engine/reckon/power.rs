//! For how many nights the leisure battery lasts, what draws on it, and what charges it again.

mod bank;
mod charge;
mod load;
mod look;
pub(super) mod season;
pub(super) mod sun;

use super::asked::{Answer, Asked};
use crate::clock::Stamp;
use crate::engine::loaded::Loaded;
use crate::engine::page::{Mark, ReckoningLine, ReckoningPart};
use crate::engine::words::Words;
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::battery::{Ahead, Day, NIGHTS_MAX, ahead, drawn_ah};
use crate::vehicle::Fitting;
use bank::Bank;
use load::Loads;

/// What is known of the days ahead.
struct Power<'a> {
    bank: Option<Bank<'a>>,
    loads: Loads,
    /// What all loads take. Unit: Ah a day; `None` where nothing was told, or the pack says no capacity.
    drawn_ah: Option<Between>,
    sun: sun::Brought,
    /// For how many nights it is to last.
    wanted: Option<f64>,
}

pub(super) fn answer(asked: &mut Asked) -> Result<Answer> {
    let mut missing = Vec::new();
    let loaded = asked.loaded;
    let Some((_, fitting)) = loaded.vehicle.of_kind("leisure_battery").next() else {
        let verdict_text = asked.say("verdict.no_capacity", &[]);
        let (cautions, parts) = (Vec::new(), Vec::new());
        return Ok(Answer { mark: None, verdict_text, cautions, parts, missing });
    };
    let wanted = asked.number("nights", "", (1.0, f64::from(NIGHTS_MAX)))?;
    let bank = Bank::of(asked, fitting, &mut missing)?;
    let loads = Loads::of(asked, fitting);
    missing.extend(loads.missing(asked));
    let all = loads.all();
    let drawn = bank.as_ref().filter(|_| !all.is_empty() || loads.complete());
    let drawn_ah = drawn.map(|bank| drawn_ah(&all, &bank.capacity));
    let sun = sun::Brought::of(asked, fitting, season::Season::Month, &mut missing)?;
    let power = Power { bank, loads, drawn_ah, sun, wanted };
    let power = power.since_read();
    let (mark, verdict_text) = power.verdict(asked);
    let parts = [power.nights(asked), power.loads(asked), power.sun.part(asked)];
    let parts = parts.into_iter().chain([charge::part(asked, &power), look::part(asked, &power)]);
    let parts = parts.filter(|part| !part.lines.is_empty()).collect();
    let cautions = look::cautions(asked, &power);
    Ok(Answer { mark, verdict_text, cautions, parts, missing })
}

/// What all that draws takes in a day as people told it, or who did not; `None` where the pack does not
/// say what the battery holds. Unit: Ah.
pub(in crate::engine) fn told_ah(
    loaded: &Loaded,
    words: &Words,
    fitting: &Fitting,
    now: &Stamp,
) -> Option<std::result::Result<Between, Vec<String>>> {
    let mut asked = Asked::new("power", loaded, words, &[], now);
    let capacity = bank::capacity(fitting)?;
    let loads = Loads::of(&mut asked, fitting);
    Some(if loads.complete() {
        Ok(drawn_ah(&loads.all(), &capacity))
    } else {
        Err(vec![asked.say("missing.loads", &[])])
    })
}

impl Power<'_> {
    /// The least that may still be left since it was read.
    fn since_read(mut self) -> Self {
        let drawn = self.drawn_ah;
        if let Some(bank) = &mut self.bank {
            bank.used_since_read(drawn.unwrap_or(Between::exactly(0.0)));
        }
        self
    }

    /// The nights ahead with what certain loads take; `None` where charge, capacity or loads are not
    /// known, or where only what was not told could make them end.
    fn ahead(&self, drawn_ah: Between) -> Option<Ahead> {
        let bank = self.bank.as_ref()?;
        let gained_ah = self.sun.gained_ah.unwrap_or(Between::exactly(0.0));
        let ahead = ahead(bank.full_ah, bank.level?, bank.floor, Day { drawn_ah, gained_ah });
        (self.loads.complete() || ahead.upper.days.is_some()).then_some(ahead)
    }

    fn verdict(&self, asked: &Asked) -> (Option<Mark>, String) {
        let key = match &self.bank {
            None => Some("no_capacity"),
            Some(bank) if bank.level.is_none() => Some("no_charge"),
            Some(bank) if bank.is_down() => {
                return (Some(Mark::Wrong), asked.say("verdict.down", &[]));
            }
            Some(_) if self.drawn_ah.is_none() => Some("no_loads"),
            Some(_) => None,
        };
        let found = self.drawn_ah.and_then(|drawn| self.ahead(drawn)).filter(|_| key.is_none());
        let Some(ahead) = found else {
            let key = key.unwrap_or("no_loads");
            return (None, asked.say(&format!("verdict.{key}"), &[]));
        };
        let complete = self.loads.complete();
        let lasts = nights(asked, &ahead, complete);
        let key = match (complete, self.sun.gained_ah.is_some() || !self.sun.fitted) {
            (false, _) => "partly",
            (true, false) => "without_sun",
            (true, true) => "lasts",
        };
        let said = asked.say(&format!("verdict.{key}"), &[("nights", &lasts)]);
        let (mark, asked_for) = self.mark(asked, &ahead, complete);
        let said = [Some(said), asked_for].into_iter().flatten().collect::<Vec<_>>().join(" ");
        (Some(mark), said)
    }

    /// How that stands, and whether it is enough for what was asked.
    fn mark(&self, asked: &Asked, ahead: &Ahead, complete: bool) -> (Mark, Option<String>) {
        let wanted = self.wanted.unwrap_or(1.0);
        let (least, most) = (f64::from(ahead.lower.nights()), f64::from(ahead.upper.nights()));
        let (mark, key) = match (complete && least >= wanted, most >= wanted) {
            (true, _) => (Mark::Fine, "enough"),
            (false, true) => (Mark::Watch, "perhaps"),
            (false, false) => (Mark::Wrong, "short"),
        };
        let n = wanted.to_string();
        let text = self.wanted.map(|_| asked.say(&format!("wanted.{key}"), &[("n", &n)]));
        (mark, text)
    }

    /// The nights, with what they are reckoned from.
    fn nights(&self, asked: &Asked) -> ReckoningPart {
        let found = self.drawn_ah.and_then(|drawn| self.ahead(drawn));
        let mut lines = Vec::new();
        if let (Some(ahead), Some(drawn)) = (&found, self.drawn_ah) {
            let text = nights(asked, ahead, self.loads.complete());
            let least = ahead.lower.days.filter(|_| self.loads.complete());
            let unit = Some("nights".to_owned());
            let line = asked.told("lasts", text);
            lines.push(ReckoningLine { lower: least, upper: ahead.upper.days, unit, ..line });
            lines.push(asked.line("drawn", "_ah", drawn, 1.0));
        }
        if let Some(bank) = &self.bank {
            lines.extend(bank.lines(asked));
        }
        let chart =
            found.zip(self.bank.as_ref()).map(|(ahead, bank)| look::chart(asked, &ahead, bank));
        ReckoningPart { chart, ..asked.part("nights", lines) }
    }

    /// What draws, the greatest first, each with what it would be without it.
    fn loads(&self, asked: &Asked) -> ReckoningPart {
        let now = self.drawn_ah.and_then(|drawn| self.ahead(drawn));
        let lines = self.loads.by_size().into_iter().map(|(place, item)| {
            let line = asked.line("load", "_ah", item.load.day_ah(), 0.1);
            let without = self.without(place).and_then(|drawn| self.ahead(drawn));
            let saved = now.as_ref().zip(without.as_ref()).map(|(_, without)| {
                let lasts = nights(asked, without, self.loads.complete());
                asked.say("without", &[("nights", &lasts)])
            });
            let detail = [Some(item.told.clone()), saved].into_iter().flatten();
            let detail = Some(detail.collect::<Vec<_>>().join(" "));
            ReckoningLine { id: item.id.clone(), title: item.title.clone(), detail, ..line }
        });
        asked.part("loads", lines.collect())
    }

    /// What all but one of the loads take.
    fn without(&self, place: usize) -> Option<Between> {
        let all = self.loads.all().into_iter().enumerate().filter(|(at, _)| *at != place);
        let others: Vec<_> = all.map(|(_, load)| load).collect();
        Some(drawn_ah(&others, &self.bank.as_ref()?.capacity))
    }
}

/// "2 to 4 nights, about 3", "5 nights or more", "at most 3 nights", or hours where it is less than one.
fn nights(asked: &Asked, ahead: &Ahead, complete: bool) -> String {
    let (least, most) = (ahead.lower.nights(), ahead.upper.nights());
    let say = |key: &str, n: u32| {
        let one = if n == 1 { "_one" } else { "" };
        asked.say(&format!("nights.{key}{one}"), &[("n", &n.to_string())])
    };
    let about = |range: String| {
        let key = if ahead.middle.days.is_none() { "nights.about_no_end" } else { "nights.about" };
        let n = ahead.middle.nights().to_string();
        asked.say(key, &[("range", &range), ("n", &n)])
    };
    match (complete, ahead.upper.days) {
        (false, Some(_)) => say("most", most),
        (_, None) if ahead.lower.days.is_none() => asked.say("nights.no_end", &[]),
        (_, None) => about(say("least", least)),
        (true, Some(days)) if most == 0 => {
            let days = Between::of(ahead.lower.days.unwrap_or(days), days);
            asked.say("nights.none", &[("time", &time(asked, days * 24.0))])
        }
        (true, Some(_)) if least == most => say("one", most),
        (true, Some(_)) => {
            let from = asked.say("nights.range", &[("lower", &least.to_string())]);
            about(format!("{from} {}", say("one", most)))
        }
    }
}

/// A time as it was told. Unit: h.
fn so_long(asked: &Asked, hours: f64) -> String {
    if hours < 1.0 {
        return asked.quantity("_min", (hours * 60.0).round());
    }
    let n = ((hours * 10.0).round() / 10.0).to_string();
    let key = if n == "1" { "hours.one_one" } else { "hours.one" };
    asked.say(key, &[("upper", &n)])
}

/// How long that is, from the least to the most of it. Unit: h.
fn long(asked: &Asked, hours: Between) -> String {
    let (lower, upper) = ((hours.lower * 10.0).floor() / 10.0, (hours.upper * 10.0).ceil() / 10.0);
    if hours.upper - hours.lower < 0.1 {
        return so_long(asked, hours.middle());
    }
    let slots = [("lower", &*lower.to_string()), ("upper", &*upper.to_string())];
    asked.say("hours.range", &slots)
}

/// A time in words, rounded outward. Unit: h.
fn time(asked: &Asked, hours: Between) -> String {
    /// Below so many hours it is told in minutes.
    const FINE_H: f64 = 3.0;
    if hours.upper < FINE_H {
        return asked.band("_min", hours * 60.0, 10.0);
    }
    let (lower, upper) = (hours.lower.floor().to_string(), hours.upper.ceil().to_string());
    let key = if lower == upper { "hours.one" } else { "hours.range" };
    asked.say(key, &[("lower", &lower), ("upper", &upper)])
}
