//! Urea for the exhaust: how far it goes, what follows at zero, what fits in, and frost.

use super::asked::{Answer, Asked};
use super::fuel::{enough, wrong_liquid};
use crate::engine::page::{Mark, ReckoningLine};
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::frost::night::FORECAST_K;
use crate::reckon::fuel::{by_gauge_l, reaches_km, use_l_per_100_km as diesel_l};
use crate::reckon::urea::{
    FREEZES_C, by_countdown_km, fits_l, use_l_per_100_km as urea_l, weighs_kg,
};
use crate::vehicle::Fitting;

const PCT: (f64, f64) = (0.0, 100.0);
const ALL_PCT: f64 = 100.0;
/// What can be typed. Units: km, L, °C.
const COUNTDOWN_KM: (f64, f64) = (0.0, 10_000.0);
const TRIP_KM: (f64, f64) = (0.0, 5_000.0);
const CAN_L: (f64, f64) = (0.5, 50.0);
const LOW_C: (f64, f64) = (-40.0, 20.0);
/// Use is told for a thousand of what the road is measured in. Unit: hundreds.
const PER_1000_KM: f64 = 10.0;

/// What the dash shows of it.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Dash {
    Quiet,
    Counts,
    Zero,
}

impl Dash {
    /// With its choice and the setting of the countdown that says the same.
    const ALL: [(Self, &'static str, &'static str); 3] = [
        (Self::Quiet, "quiet", "none"),
        (Self::Counts, "counts", "running"),
        (Self::Zero, "zero", "at_zero"),
    ];
}

/// What was picked, told and is in the pack.
struct Given {
    dash: Option<Dash>,
    countdown_km: Option<f64>,
    left_l: Option<Between>,
    use_l: Option<Between>,
    trip_km: Option<f64>,
    can_l: Option<f64>,
    low_c: Option<f64>,
    capacity_l: Option<f64>,
    warning_km: Option<f64>,
    at_zero: String,
    heated: String,
}

pub(super) fn answer(asked: &mut Asked) -> Result<Answer> {
    let loaded = asked.loaded;
    let tank = loaded.vehicle.of_kind("urea_tank").map(|(_, tank)| tank).next();
    let mut lacks = Vec::new();
    let given = Given::ask(asked, tank, &mut lacks)?;
    let far = far(asked, &given);
    let (mark, verdict_text) = match wrong_liquid(asked, "urea_tank") {
        Some(text) => (Some(Mark::Wrong), text),
        None => verdict(asked, &given, &far),
    };
    let frost = frost(asked, &given);
    let parts = [
        ("far", far),
        ("zero", vec![zero(asked, &given)]),
        ("fill", fill(asked, &given)),
        ("frost", vec![frost]),
    ];
    let parts = parts.into_iter().filter(|(_, lines)| !lines.is_empty());
    let parts = parts.map(|(id, lines)| asked.part(id, lines)).collect();
    let cautions = ["wrong", "fill"].map(|key| asked.say(&format!("caution.{key}"), &[])).into();
    let missing = lacks.iter().map(|key| asked.say(&format!("missing.{key}"), &[])).collect();
    Ok(Answer { mark, verdict_text, cautions, parts, missing })
}

impl Given {
    fn ask(
        asked: &mut Asked,
        tank: Option<&Fitting>,
        lacks: &mut Vec<&'static str>,
    ) -> Result<Self> {
        let number = |value: &str| tank.and_then(|tank| tank.given(value));
        let word = |value: &str| tank.and_then(|tank| tank.word(value)).unwrap_or("unknown");
        let dash = dash(asked, tank)?;
        let countdown_km = asked.number("countdown", "_km", COUNTDOWN_KM)?;
        let gauge = asked.number("gauge", "_pct", PCT)?;
        let trip_km = asked.number("trip", "_km", TRIP_KM)?;
        let can_l = asked.number("can", "_l", CAN_L)?;
        let low_c = asked.number("low", "_c", LOW_C)?;
        let use_l = asked.figure("fuel_l_100km").map(|usual| urea_l(diesel_l(usual)));
        let capacity_l = number("capacity_l");
        let dash = countdown_km.map(|km| if km > 0.0 { Dash::Counts } else { Dash::Zero }).or(dash);
        let by_gauge = gauge.zip(capacity_l).map(|(pct, all)| by_gauge_l(pct / ALL_PCT, all));
        let left_l = by_gauge.or(asked.read_l("urea_tank")?.filter(|_| capacity_l.is_some()));
        let (at_zero, heated) = (word("at_zero").to_owned(), word("heated").to_owned());
        let shown = dash == Some(Dash::Zero) || countdown_km.is_some() || left_l.is_some();
        lacks.extend((!shown).then_some("level"));
        lacks.extend(capacity_l.is_none().then_some("capacity"));
        lacks.extend(use_l.is_none().then_some("use"));
        lacks.extend((at_zero == "unknown").then_some("at_zero"));
        lacks.extend((heated == "unknown").then_some("heated"));
        let warning_km = number("warning_km");
        Ok(Self {
            dash,
            countdown_km,
            left_l,
            use_l,
            trip_km,
            can_l,
            low_c,
            capacity_l,
            warning_km,
            at_zero,
            heated,
        })
    }

    fn reaches(&self, litres: Between) -> Option<Between> {
        Some(reaches_km(litres, self.use_l?))
    }

    /// How far one still comes: the dash's own count decides, then the gauge.
    fn left_km(&self) -> Option<Between> {
        match self.dash {
            Some(Dash::Zero) => Some(Between::exactly(0.0)),
            Some(Dash::Quiet | Dash::Counts) | None => self
                .countdown_km
                .map(by_countdown_km)
                .or_else(|| self.left_l.and_then(|left| self.reaches(left))),
        }
    }
}

/// What is picked of the dash, else what is certainly believed of it.
fn dash(asked: &mut Asked, tank: Option<&Fitting>) -> Result<Option<Dash>> {
    let is = |setting: &str| tank.and_then(|tank| asked.stands(tank, "countdown", &[setting]));
    let usual = Dash::ALL.iter().find(|(.., setting)| is(setting) == Some(true));
    let usual = usual.map(|(_, id, _)| *id);
    let options = Dash::ALL.map(|(_, id, _)| (id, asked.say(&format!("dash.{id}"), &[])));
    let picked = asked.one("dash", &options, usual)?;
    let of = Dash::ALL.iter().find(|(_, id, _)| picked.as_deref() == Some(*id));
    Ok(of.map(|(dash, ..)| *dash))
}

/// By the dash, by the gauge, and whether that is enough.
fn far(asked: &Asked, given: &Given) -> Vec<ReckoningLine> {
    let counted = given.countdown_km.map(by_countdown_km);
    let counted = counted.map(|km| asked.line("countdown", "_km", km, 10.0));
    let quiet = given.warning_km.filter(|_| given.dash == Some(Dash::Quiet)).map(|km| {
        let km = asked.band("_km", Between::exactly(km), 10.0);
        asked.told("quiet", asked.say("say.quiet", &[("km", &km)]))
    });
    let left = given.left_l.map(|left| {
        let share = given.capacity_l.map(|all| (left.lower / all, left.upper / all));
        let (bar_from, bar_to) = share.unzip();
        ReckoningLine { bar_from, bar_to, ..asked.line("left", "_l", left, 0.1) }
    });
    let reaches = given.left_l.and_then(|left| given.reaches(left));
    let reaches = reaches.map(|km| asked.line("reaches", "_km", km, 10.0));
    let road = asked.words.units.typed("_km");
    let uses = given.use_l.map(|litres| litres * (PER_1000_KM * road.own(1.0)));
    let uses = uses.map(|litres| asked.line(&format!("use{}", road.ending), "_l", litres, 0.1));
    let trip = given.trip_km.zip(given.left_km()).map(|(trip, left)| {
        let mark = enough(left, trip);
        let line = asked.told("trip", asked.say(&format!("say.{}", mark.key()), &[]));
        ReckoningLine { mark: Some(mark), ..line }
    });
    [counted, quiet, left, reaches, uses, trip].into_iter().flatten().collect()
}

/// What follows at zero, as the pack says it.
fn zero(asked: &Asked, given: &Given) -> ReckoningLine {
    let text = asked.say(&format!("say.at_zero_{}", given.at_zero), &[]);
    let mark = match given.dash {
        Some(Dash::Zero) => Some(Mark::Wrong),
        Some(Dash::Counts) => Some(Mark::Watch),
        Some(Dash::Quiet) | None => None,
    };
    ReckoningLine { mark, ..asked.told("zero", text) }
}

/// What fits in and weighs, and how far a can goes.
fn fill(asked: &Asked, given: &Given) -> Vec<ReckoningLine> {
    let fits = given.capacity_l.map(|all| {
        let known = given.left_l.map(|left| fits_l(left, all));
        let fits = known.unwrap_or(Between::of(0.0, all));
        let line = asked.line("fits", "_l", fits, 0.1);
        let weighs = asked.band("_kg", weighs_kg(Between::exactly(fits.upper)), 0.1);
        let key = if known.is_some() { "weighs" } else { "weighs_unread" };
        ReckoningLine { detail: Some(asked.say(&format!("say.{key}"), &[("kg", &weighs)])), ..line }
    });
    let can = given.can_l.map(|can| {
        let litres = Between::exactly(can);
        let weighs = asked.band("_kg", weighs_kg(litres), 0.1);
        let detail = Some(asked.say("say.can_weighs", &[("kg", &weighs)]));
        let line = match given.reaches(litres) {
            Some(km) => asked.line("can", "_km", km, 10.0),
            None => asked.told("can", asked.words.say("not_known", &[])),
        };
        ReckoningLine { detail, ..line }
    });
    let room = given.can_l.zip(given.capacity_l).zip(given.left_l).map(|((can, all), left)| {
        let mark = enough(fits_l(left, all), can);
        let line = asked.told("room", asked.say(&format!("say.room_{}", mark.key()), &[]));
        ReckoningLine { mark: Some(mark), ..line }
    });
    [fits, can, room].into_iter().flatten().collect()
}

fn frost(asked: &Asked, given: &Given) -> ReckoningLine {
    let at = asked.quantity("_c", FREEZES_C);
    let heated = asked.say(&format!("say.heated_{}", given.heated), &[]);
    let mark =
        given.low_c.map(|low| if low > FREEZES_C + FORECAST_K { Mark::Fine } else { Mark::Watch });
    let key = match mark {
        None => "freezes",
        Some(Mark::Fine) => "no_frost",
        Some(Mark::Watch | Mark::Wrong) => "frost",
    };
    let text = asked.say(&format!("say.{key}"), &[("at", &at)]);
    let detail = (mark != Some(Mark::Fine)).then_some(heated);
    ReckoningLine { detail, mark, ..asked.told("frost", text) }
}

fn verdict(asked: &Asked, given: &Given, far: &[ReckoningLine]) -> (Option<Mark>, String) {
    if given.dash == Some(Dash::Zero) {
        let engine = asked.loaded.vehicle.of_kind("engine").next();
        let runs = engine.and_then(|(_, engine)| asked.stands(engine, "running", &["on"]));
        let key = if runs == Some(true) { "zero_on" } else { "zero" };
        return (Some(Mark::Wrong), asked.say(&format!("verdict.{key}"), &[]));
    }
    let km = given.left_km().map(|km| asked.band("_km", km, 10.0));
    let km = km.as_deref();
    let trip = far.iter().find(|line| line.id == "trip").and_then(|line| line.mark);
    match (trip, given.dash, km) {
        (Some(mark), _, Some(km)) => {
            (Some(mark), asked.say(&format!("verdict.{}", mark.key()), &[("km", km)]))
        }
        (None, Some(Dash::Counts), Some(km)) => {
            (Some(Mark::Watch), asked.say("verdict.counts", &[("km", km)]))
        }
        (_, Some(Dash::Counts), None) => {
            (Some(Mark::Watch), asked.say("verdict.counts_unread", &[]))
        }
        (None, _, Some(km)) => (None, asked.say("verdict.reaches", &[("km", km)])),
        (_, _, None) => (None, asked.say("verdict.unknown", &[])),
    }
}
