//! What holds water, where it stands, and when it freezes there.

use super::super::asked::Asked;
use super::{Given, NOW_H, at_most, within};
use crate::engine::page::{Mark, ReckoningLine};
use crate::engine::reserve::Known;
use crate::engine::words::Words;
use crate::error::Result;
use crate::reckon::frost::loss::{film, tank};
use crate::reckon::frost::pipe::Pipe;
use crate::reckon::frost::{BURSTS, Inside, Night, Part, Place, Until, When, when};
use crate::reckon::{Between, boiler};
use crate::vehicle::Fitting;

pub(super) const TANKS: [&str; 2] = ["fresh_tank", "waste_tank"];
/// The line of what the pump feeds.
pub(super) const PIPES: &str = "pipes";
/// What was filled in may be so warm, where nobody measured it. Unit: °C. Common practice, no source.
const FILLED_C: f64 = 15.0;
/// The hottest that a boiler may still be. Unit: °C. Common practice, no source.
const BOILER_C: f64 = 70.0;
/// Less than this in a tank is reckoned as this. Unit: kg.
const WATER_MIN_KG: f64 = 1.0;

/// One thing that holds water.
pub(super) struct Stand {
    pub(super) id: String,
    pub(super) title: String,
    /// Where it stands, in words; empty where nobody knows.
    place_text: String,
    pub(super) how: How,
}

pub(super) enum How {
    /// What is missing, in words.
    Unknown(String),
    /// There is no water in it.
    Empty,
    /// It is heated itself.
    Heats,
    Water {
        zero: When,
        burst: When,
        /// It may freeze once the heating goes out.
        relies: bool,
        part: Part,
    },
}

/// Everything of this vehicle that holds water and can be reckoned.
pub(super) fn all(asked: &mut Asked, given: &Given, night: &Night) -> Result<Vec<Stand>> {
    let (loaded, words) = (asked.loaded, asked.words);
    let known = loaded.known_reserves(words, asked.now)?;
    let mut stands = Vec::new();
    for known in known.iter().filter(|one| TANKS.contains(&one.fitting.kind.as_str())) {
        stands.push(of_tank(asked, given, night, known));
    }
    for (_, pump) in loaded.vehicle.of_kind("pump") {
        stands.push(of_pipes(asked, given, night, pump));
    }
    for (_, boiler) in loaded.vehicle.of_kind("boiler") {
        stands.push(of_boiler(asked, night, boiler));
    }
    Ok(stands)
}

fn place(fitting: &Fitting, value: &str) -> Option<Place> {
    match fitting.word(value)? {
        "inside" => Some(Place::Inside),
        "heated_floor" => Some(Place::HeatedFloor),
        "underfloor" => Some(Place::Underfloor),
        _ => None,
    }
}

fn place_text(asked: &Asked, place: Option<Place>) -> String {
    let key = match place {
        Some(Place::Inside) => "inside",
        Some(Place::HeatedFloor) => "heated_floor",
        Some(Place::Underfloor) => "underfloor",
        None => return String::new(),
    };
    asked.say(&format!("place.{key}"), &[])
}

/// How warm water is that nobody measured: between the air where it stands and what was filled in.
fn start_c(given: &Given, place: Place) -> Option<Between> {
    if let Some(water_c) = given.water_c {
        return Some(Between::exactly(water_c));
    }
    let air_c = match place {
        Place::Inside => given.inside_c.or(given.heated.then_some(FILLED_C))?,
        Place::HeatedFloor | Place::Underfloor => given.outside_c?,
    };
    Some(Between::of(air_c.clamp(0.0, FILLED_C), air_c.max(FILLED_C)))
}

impl How {
    fn of(asked: &Asked, part: Option<Part>, night: &Night) -> Self {
        let told = part.and_then(|part| {
            let zero = when(&part, Until::Celsius(0.0), night)?;
            let burst = when(&part, Until::Frozen(BURSTS), night)?;
            let cold = Night { inside: Inside { heated: false, ..night.inside }, ..*night };
            let unheated = when(&part, Until::Celsius(0.0), &cold);
            let relies = zero.earliest_h.is_none()
                && unheated.is_none_or(|unheated| unheated.earliest_h.is_some());
            Some(Self::Water { zero, burst, relies, part })
        });
        told.unwrap_or_else(|| Self::Unknown(asked.say("missing.inside", &[])))
    }
}

fn of_tank(asked: &mut Asked, given: &Given, night: &Night, known: &Known) -> Stand {
    let (fitting, title) = (known.fitting, known.title(asked.words));
    let place = place(fitting, "sits");
    asked.rests_on(&fitting.id, title.clone());
    let how = match (asked.stands(fitting, "level", &["empty"]), place, asked.litres(known)) {
        (Some(true), _, _) => How::Empty,
        (_, None, _) => How::Unknown(asked.say("missing.sits", &[("what", &title)])),
        (_, Some(_), None) => How::Unknown(asked.say("missing.level", &[("what", &title)])),
        (_, Some(place), Some(level_l)) => {
            let capacity_l = fitting.number("capacity_l").unwrap_or(0.0).max(WATER_MIN_KG);
            let water_kg = level_l.at_least(WATER_MIN_KG);
            let full = (water_kg * (1.0 / capacity_l)).at_most(1.0);
            let insulated = fitting.word("insulated").and_then(|word| match word {
                "yes" => Some(true),
                "no" => Some(false),
                _ => None,
            });
            let heater_w = fitting.number("heater_w").filter(|_| given.tank_heater);
            let part = start_c(given, place).map(|start_c| Part {
                place,
                water_kg,
                loss_w_per_k: tank(capacity_l, full, place, insulated, given.wind),
                start_c,
                heater_w: heater_w.unwrap_or(0.0),
            });
            How::of(asked, part, night)
        }
    };
    Stand { id: fitting.id.clone(), title, place_text: place_text(asked, place), how }
}

fn of_pipes(asked: &Asked, given: &Given, night: &Night, pump: &Fitting) -> Stand {
    let place = place(pump, "pipes_sit");
    let title = asked.say("line.pipes", &[]);
    let size = |name: &str| pump.number(name);
    let pipe = size("pipe_bore_mm").zip(size("pipe_outer_mm")).map(|(bore_mm, outer_mm)| Pipe {
        bore_mm,
        outer_mm: outer_mm.max(bore_mm),
        insulation_mm: size("pipe_foam_mm").unwrap_or(0.0),
    });
    let how = match place.zip(pipe) {
        None => How::Unknown(asked.say("missing.pipes", &[])),
        Some((place, pipe)) => {
            // What stands in a pipe is as warm as the air round it.
            let air_c = match place {
                Place::Inside => given.inside_c.or(given.heated.then_some(FILLED_C)),
                Place::HeatedFloor | Place::Underfloor => given.outside_c,
            };
            let part = air_c.map(|air_c| Part {
                place,
                water_kg: Between::exactly(pipe.water_kg_per_m()),
                loss_w_per_k: pipe.loss(film(place, given.wind)),
                start_c: Between::exactly(air_c.max(0.0)),
                heater_w: 0.0,
            });
            How::of(asked, part, night)
        }
    };
    Stand { id: PIPES.to_owned(), title, place_text: place_text(asked, place), how }
}

fn of_boiler(asked: &Asked, night: &Night, fitting: &Fitting) -> Stand {
    let title = Words::sentence(&fitting.title);
    let off = asked.stands(fitting, "heat", &["off"]);
    let empty = asked.stands(fitting, "water", &["empty"]);
    let how = match (empty, off, fitting.number("capacity_l")) {
        (Some(true), _, _) => How::Empty,
        (_, Some(false), _) => How::Heats,
        (_, _, None) => How::Unknown(asked.say("missing.boiler", &[("what", &title)])),
        (_, _, Some(capacity_l)) => {
            let inside_c = night.inside.now_c.or(night.inside.heated.then_some(0.0));
            let part = inside_c.map(|inside_c| Part {
                place: Place::Inside,
                water_kg: Between::exactly(capacity_l),
                loss_w_per_k: boiler::loss_w_per_k(capacity_l),
                start_c: Between::of(inside_c.max(0.0), BOILER_C),
                heater_w: 0.0,
            });
            How::of(asked, part, night)
        }
    };
    Stand { id: fitting.id.clone(), title, place_text: place_text(asked, Some(Place::Inside)), how }
}

impl Stand {
    pub(super) fn mark(&self) -> Option<Mark> {
        match &self.how {
            How::Unknown(_) => None,
            How::Empty | How::Heats => Some(Mark::Fine),
            How::Water { zero, .. } => Some(match (zero.earliest_h, zero.latest_h) {
                (None, _) => Mark::Fine,
                (Some(_), None) => Mark::Watch,
                (Some(_), Some(_)) => Mark::Wrong,
            }),
        }
    }

    /// When its first ice may come.
    fn zero(&self) -> Option<&When> {
        match &self.how {
            How::Water { zero, .. } => Some(zero),
            How::Unknown(_) | How::Empty | How::Heats => None,
        }
    }

    /// At the earliest. Unit: h.
    pub(super) fn earliest_h(&self) -> Option<f64> {
        self.zero()?.earliest_h
    }

    /// The water in it, where it is reckoned.
    pub(super) fn part(&self) -> Option<&Part> {
        match &self.how {
            How::Water { part, .. } => Some(part),
            How::Unknown(_) | How::Empty | How::Heats => None,
        }
    }

    /// As a night mostly goes. Unit: h.
    pub(super) fn usual_h(&self) -> Option<f64> {
        self.zero()?.usual_h
    }

    pub(super) fn relies(&self) -> bool {
        matches!(self.how, How::Heats | How::Water { relies: true, .. })
    }

    pub(super) fn missing(&self) -> Option<String> {
        match &self.how {
            How::Unknown(what) => Some(what.clone()),
            How::Empty | How::Heats | How::Water { .. } => None,
        }
    }

    pub(super) fn line(&self, asked: &Asked) -> ReckoningLine {
        let text = match &self.how {
            How::Unknown(_) => asked.say("say.unknown", &[]),
            How::Empty => asked.say("say.empty", &[]),
            How::Heats => asked.say("say.heats", &[]),
            How::Water { zero, burst, relies, .. } => water_text(asked, zero, burst, *relies),
        };
        let (lower, upper) =
            self.zero().map_or((None, None), |zero| (zero.earliest_h, zero.latest_h));
        let minutes = |hours: f64| hours * 60.0;
        ReckoningLine {
            id: self.id.clone(),
            title: self.title.clone(),
            detail: Some(self.place_text.clone()).filter(|text| !text.is_empty()),
            mark: self.mark(),
            lower: lower.map(minutes),
            upper: upper.map(minutes),
            unit: lower.map(|_| "min".to_owned()),
            ..asked.told("pipes", text)
        }
    }
}

fn water_text(asked: &Asked, zero: &When, burst: &When, relies: bool) -> String {
    let Some(first_h) = zero.earliest_h else {
        return asked.say(if relies { "say.relies" } else { "say.fine" }, &[]);
    };
    let first = if first_h < NOW_H { "say.first_now" } else { "say.first" };
    let first = asked.say(first, &[("time", &within(asked, first_h))]);
    let mostly = match (zero.usual_h, zero.latest_h) {
        (_, Some(h)) => asked.say("say.last", &[("time", &at_most(asked, h))]),
        (Some(h), None) => asked.say("say.usual", &[("time", &within(asked, h))]),
        (None, None) => asked.say("say.not_usual", &[]),
    };
    let hurts = match burst.earliest_h {
        Some(h) => asked.say("say.bursts", &[("time", &within(asked, h))]),
        None => asked.say("say.no_burst", &[]),
    };
    [first, mostly, hurts].join(" ")
}
