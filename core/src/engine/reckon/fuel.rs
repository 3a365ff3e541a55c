//! How far the fuel goes, and for how many nights a diesel heater may burn of it.

use super::asked::{Answer, Asked};
use crate::engine::page::{Mark, ReckoningLine};
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::fuel::{
    after_l, by_gauge_l, heater_l_per_h, nights, reaches_km, takes_l, told_l, use_l_per_100_km,
};

const PCT: (f64, f64) = (0.0, 100.0);
const ALL_PCT: f64 = 100.0;
/// The most that can be typed. Units: L, km, nights.
const LITRES_MAX: f64 = 500.0;
const TRIP_MAX_KM: f64 = 5_000.0;
const NIGHTS_MAX: f64 = 60.0;

/// What is known of the tank and the road.
struct Tank {
    capacity_l: Option<f64>,
    left_l: Option<Between>,
    use_l: Option<Between>,
    trip_km: Option<f64>,
}

/// What is known of the heater.
struct Heater {
    draw_l_per_h: Option<Between>,
    a_night_l: Option<Between>,
    floor_l: Option<f64>,
    nights: Option<f64>,
}

pub(super) fn answer(asked: &mut Asked) -> Result<Answer> {
    let mut lacks = Vec::new();
    let tank = Tank::ask(asked, &mut lacks)?;
    let heater = Heater::ask(asked, &tank, &mut lacks)?;
    let in_tank = in_tank(asked, &tank);
    let road = road(asked, &tank);
    let heat = heater.as_ref().map(|heater| heat(asked, &tank, heater)).unwrap_or_default();
    let lines: Vec<&ReckoningLine> = road.iter().chain(&heat).collect();
    let (mark, verdict_text) = match wrong_liquid(asked, "diesel_filler") {
        Some(text) => (Some(Mark::Wrong), text),
        None => verdict(asked, &tank, &lines),
    };
    let parts = [("tank", in_tank), ("road", road), ("heat", heat)];
    let parts = parts.into_iter().filter(|(_, lines)| !lines.is_empty());
    let parts = parts.map(|(id, lines)| asked.part(id, lines)).collect();
    let cautions = ["dry", "filler"].into_iter().chain(heater.map(|_| "heater"));
    let cautions = cautions.map(|key| asked.say(&format!("caution.{key}"), &[])).collect();
    let missing = lacks.iter().map(|key| asked.say(&format!("missing.{key}"), &[])).collect();
    Ok(Answer { mark, verdict_text, cautions, parts, missing })
}

impl Tank {
    fn ask(asked: &mut Asked, lacks: &mut Vec<&'static str>) -> Result<Self> {
        let capacity_l = asked.loaded.vehicle.measures.fuel_tank_l;
        let gauge = asked.number("gauge", "_pct", PCT)?;
        let told = asked.number("left", "_l", (0.0, capacity_l.unwrap_or(LITRES_MAX)))?;
        let trip_km = asked.number("trip", "_km", (0.0, TRIP_MAX_KM))?;
        let use_l = asked.figure("fuel_l_100km").map(use_l_per_100_km);
        let by_gauge = gauge.zip(capacity_l).map(|(pct, all)| by_gauge_l(pct / ALL_PCT, all));
        let read_l = asked.read_l("diesel_filler")?;
        let left_l = told.map(|litres| told_l(litres, capacity_l)).or(by_gauge).or(read_l);
        lacks.extend(capacity_l.is_none().then_some("tank"));
        lacks.extend(left_l.is_none().then_some("level"));
        lacks.extend(use_l.is_none().then_some("use"));
        Ok(Self { capacity_l, left_l, use_l, trip_km })
    }

    /// How far some of it goes. Unit: km.
    fn reaches(&self, litres: Between) -> Option<Between> {
        Some(reaches_km(litres, self.use_l?))
    }

    /// What is left for heat when the trip is driven. Unit: L.
    fn after_trip(&self) -> Option<Between> {
        let taken = self
            .trip_km
            .map_or(Some(Between::exactly(0.0)), |km| self.use_l.map(|use_l| takes_l(km, use_l)));
        self.left_l.zip(taken).map(|(left, taken)| (left - taken).at_least(0.0))
    }
}

impl Heater {
    /// `None` where no heater burns the vehicle's fuel.
    fn ask(asked: &mut Asked, tank: &Tank, lacks: &mut Vec<&'static str>) -> Result<Option<Self>> {
        let Some((_, fitting)) = asked.loaded.vehicle.of_kind("heater_diesel").next() else {
            return Ok(None);
        };
        let nights = asked.number("nights", "_nights", (0.0, NIGHTS_MAX))?;
        let stated = asked.figure("heating_diesel_l_an_hour");
        let draw = heater_l_per_h(stated, asked.figure("heating_diesel_kw"));
        let hours = asked.figure("heating_diesel_h_a_night");
        let floor = fitting.given("fuel_floor_pct");
        lacks.extend(draw.is_none().then_some("draw"));
        lacks.extend(hours.is_none().then_some("hours"));
        lacks.extend(floor.is_none().then_some("floor"));
        Ok(Some(Self {
            draw_l_per_h: draw,
            a_night_l: draw.zip(hours).map(|(draw, hours)| draw * hours),
            floor_l: floor.zip(tank.capacity_l).map(|(pct, all)| all * pct / ALL_PCT),
            nights,
        }))
    }
}

fn in_tank(asked: &Asked, tank: &Tank) -> Vec<ReckoningLine> {
    let left = tank.left_l.map(|left| {
        let share = tank.capacity_l.map(|all| (left.lower / all, left.upper / all));
        let (bar_from, bar_to) = share.unzip();
        ReckoningLine { bar_from, bar_to, ..asked.line("left", "_l", left, 1.0) }
    });
    let reaches = tank.left_l.and_then(|left| tank.reaches(left));
    let reaches = reaches.map(|km| asked.line("reaches", "_km", km, 10.0));
    left.into_iter().chain(reaches).collect()
}

/// Whether it is enough for the trip.
fn road(asked: &Asked, tank: &Tank) -> Vec<ReckoningLine> {
    let Some((trip_km, use_l)) = tank.trip_km.zip(tank.use_l) else {
        return Vec::new();
    };
    let takes = asked.line("trip", "_l", takes_l(trip_km, use_l), 1.0);
    let mark = tank.left_l.map(|left| enough(reaches_km(left, use_l), trip_km));
    vec![marked(asked, takes, mark)]
}

/// What is to be done where a tank certainly has a wrong liquid in it; before any number.
pub(super) fn wrong_liquid(asked: &Asked, kind: &str) -> Option<String> {
    let (_, tank) = asked.loaded.vehicle.of_kind(kind).next()?;
    let wrong = asked.stands(tank, "liquid", &["wrong"]) == Some(true);
    wrong.then(|| asked.say("verdict.wrong_liquid", &[]))
}

/// Whether a band is as much as is wanted.
pub(super) fn enough(band: Between, wanted: f64) -> Mark {
    match (band.lower >= wanted, band.upper >= wanted) {
        (true, _) => Mark::Fine,
        (false, true) => Mark::Watch,
        (false, false) => Mark::Wrong,
    }
}

fn marked(asked: &Asked, line: ReckoningLine, mark: Option<Mark>) -> ReckoningLine {
    let detail = mark.map(|mark| asked.say(&format!("say.{}", mark.key()), &[]));
    ReckoningLine { detail, mark, ..line }
}

/// What the heater takes, for how many nights, and how far the rest goes.
fn heat(asked: &Asked, tank: &Tank, heater: &Heater) -> Vec<ReckoningLine> {
    let draw = heater.draw_l_per_h.map(|draw| asked.line("draw", "_l_an_hour", draw, 0.01));
    let a_night = heater.a_night_l.map(|litres| asked.line("a_night", "_l", litres, 0.1));
    let floor = heater.floor_l.map(|litres| {
        let line = asked.line("floor", "_l", Between::exactly(litres), 1.0);
        let still = tank.reaches(Between::exactly(litres));
        let km = still.map(|km| asked.band("_km", km, 10.0));
        let detail = km.map(|km| asked.say("say.still", &[("km", &km)]));
        ReckoningLine { detail, ..line }
    });
    let burns = heater.a_night_l.filter(|litres| litres.lower > 0.0);
    let all = tank.after_trip().zip(heater.floor_l).zip(burns);
    let lasts = all.map(|((left, floor), a_night)| {
        let band = nights(left, floor, a_night);
        let mark = heater.nights.map(|wanted| enough(band, wanted));
        marked(asked, nights_line(asked, band), mark)
    });
    let wanted = all.zip(heater.nights);
    let after = wanted.and_then(|(((left, floor), a_night), wanted)| {
        let km = tank.reaches(after_l(left, floor, a_night * wanted))?;
        Some(asked.line("after", "_km", km, 10.0))
    });
    [draw, a_night, floor, lasts, after].into_iter().flatten().collect()
}

/// Nights, rounded outward to whole ones.
fn nights_line(asked: &Asked, band: Between) -> ReckoningLine {
    let (lower, upper) = (band.lower.floor(), band.upper.ceil());
    let text = if band.upper > NIGHTS_MAX {
        let lower = lower.min(NIGHTS_MAX).to_string();
        asked.say("say.nights_more", &[("lower", &lower)])
    } else {
        let slots = [("lower", &*lower.to_string()), ("upper", &*upper.to_string())];
        asked.say("say.nights", &slots)
    };
    let (lower, upper) = (Some(band.lower), Some(band.upper));
    ReckoningLine { lower, upper, unit: Some("nights".to_owned()), ..asked.told("nights", text) }
}

/// How it stands, and what that is about.
fn verdict(asked: &Asked, tank: &Tank, lines: &[&ReckoningLine]) -> (Option<Mark>, String) {
    if let Some(worst) = lines.iter().filter_map(|line| line.mark).max() {
        let of = lines.iter().filter(|line| line.mark == Some(worst));
        let what = of.map(|line| asked.say(&format!("say.for_{}", line.id), &[]));
        let what = what.collect::<Vec<_>>().join(", ");
        return (Some(worst), asked.say(&format!("verdict.{}", worst.key()), &[("what", &what)]));
    }
    let text = match tank.left_l.map(|left| (left, tank.reaches(left))) {
        None => asked.say("verdict.unknown", &[]),
        Some((left, None)) => {
            asked.say("verdict.left", &[("litres", &asked.band("_l", left, 1.0))])
        }
        Some((_, Some(km))) => {
            asked.say("verdict.reaches", &[("km", &asked.band("_km", km, 10.0))])
        }
    };
    (None, text)
}
