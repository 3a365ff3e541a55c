//! How a vehicle leans in words: what that is to people, to its fridge and to each wheel.

use super::WHEEL;
use crate::engine::page::{Mark, ReckoningLine};
use crate::engine::reckon::speech::Speech;
use crate::reckon::Between;
use crate::reckon::level::{Base, FRIDGE_DEG, Lean, Stand, best, lifts_between_mm};

/// Beyond this people feel it. Unit: degrees. Common practice, no source.
const FELT_DEG: f64 = 1.0;

/// What a vehicle stands on, and whether it has a fridge that must not lean.
#[derive(Debug, Clone)]
pub(super) struct Stands {
    pub(super) base: Option<Base>,
    pub(super) steps_mm: Vec<f64>,
    pub(super) ramps: usize,
    pub(super) has_ramps: bool,
    pub(super) fridge: bool,
}

impl Stands {
    /// What is not known of it.
    pub(super) fn missing(&self, speech: &Speech) -> Vec<String> {
        let no_step = self.steps_mm.is_empty() || self.ramps == 0;
        let lacks = [("base", self.base.is_none()), ("ramps", self.has_ramps && no_step)];
        let lacks = lacks.into_iter().filter(|(_, lacks)| *lacks);
        lacks.map(|(key, _)| speech.say(&format!("missing.{key}"), &[])).collect()
    }
}

/// How it leans by one reading.
#[derive(Debug, Clone)]
pub(super) struct Leaning<'a> {
    stands: &'a Stands,
    lean: Lean,
    error_deg: f64,
    tilt: Between,
    fridge: Option<Mark>,
    /// How it stands in all.
    pub(super) mark: Mark,
    /// The best way to use the ramps.
    pub(super) stand: Option<Stand>,
}

impl<'a> Leaning<'a> {
    /// `error_deg`: how far both angles may be out, either way.
    pub(super) fn of(stands: &'a Stands, lean: Lean, error_deg: f64) -> Self {
        let up = lean.up();
        let tilt = around(up.tilt_deg(), error_deg);
        let fridge = stands.fridge.then(|| reaches(tilt, FRIDGE_DEG, Mark::Wrong));
        let mark = reaches(tilt, FELT_DEG, Mark::Watch).max(fridge.unwrap_or(Mark::Fine));
        let base = stands.base.filter(|_| stands.ramps > 0);
        let stand = base.map(|base| best(base, up, &stands.steps_mm, stands.ramps));
        Self { stands, lean, error_deg, tilt, fridge, mark, stand }
    }

    /// Which words tell how it stands, and which wheels they raise.
    pub(super) fn verdict(&self, speech: &Speech) -> (&'static str, String) {
        let none = String::new();
        if self.mark == Mark::Fine {
            return ("fine", none);
        }
        if self.mark == Mark::Watch && self.tilt.lower <= 0.0 {
            return ("maybe", none);
        }
        let said = self.stand.iter().flat_map(raised).map(|(wheel, under)| {
            let step = speech.quantity("_mm", under);
            let wheel = speech.say(&format!("say.{wheel}"), &[]);
            speech.say("say.raise", &[("wheel", &wheel), ("step", &step)])
        });
        let what = said.collect::<Vec<_>>().join(", ");
        match (what.is_empty(), self.fridge) {
            (false, _) => ("ramps", what),
            (true, Some(Mark::Wrong)) => ("wrong", none),
            (true, _) => ("watch", none),
        }
    }

    /// Where it is low for certain, with the wheels there; `in_mm`: and by how much. Empty where it is level.
    pub(super) fn low(&self, speech: &Speech, in_mm: bool) -> String {
        let ends = [(self.lean.pitch_deg, "rear", "front"), (self.lean.roll_deg, "right", "left")];
        let certain = ends.into_iter().filter(|(deg, ..)| deg.abs() > self.error_deg);
        let low = certain.map(|(deg, if_up, if_down)| if deg > 0.0 { if_up } else { if_down });
        let low: Vec<_> = low.map(|end| speech.say(&format!("end.{end}"), &[])).collect();
        let ends = match &low[..] {
            [] => return String::new(),
            [one] => one.clone(),
            [one, other, ..] => speech.say("end.both", &[("one", one), ("other", other)]),
        };
        let wheels = self.lifts(speech).into_iter().filter(is_low).map(|wheel| {
            let title = speech.say(&format!("say.{}", wheel.id), &[]);
            if in_mm { format!("{title} {}", wheel.text) } else { title }
        });
        let wheels = wheels.collect::<Vec<_>>().join(", ");
        let key = if wheels.is_empty() { "say.low" } else { "say.low_wheels" };
        speech.say(key, &[("ends", &ends), ("wheels", &wheels)])
    }

    /// In all, as a band.
    pub(super) fn in_all(&self, speech: &Speech) -> String {
        speech.band("_deg", self.tilt, 0.1)
    }

    /// How far in all, and what that is to people and to an absorption fridge.
    pub(super) fn tilts(&self, speech: &Speech) -> Vec<ReckoningLine> {
        let felt = reaches(self.tilt, FELT_DEG, Mark::Watch);
        let all = ReckoningLine { mark: Some(felt), ..speech.line("tilt", "_deg", self.tilt, 0.1) };
        let fridge = self.fridge.map(|mark| {
            let text = speech.say(&format!("say.fridge_{}", mark.key()), &[]);
            ReckoningLine { mark: Some(mark), ..speech.told("fridge", text) }
        });
        std::iter::once(all).chain(fridge).collect()
    }

    /// Nose and left side, up or down.
    pub(super) fn sides(&self, speech: &Speech) -> [ReckoningLine; 2] {
        [("pitch", self.lean.pitch_deg), ("roll", self.lean.roll_deg)].map(|(id, deg)| {
            let band = Between::of(deg.abs() - self.error_deg, deg.abs() + self.error_deg);
            let text = if band.lower > 0.0 {
                let way = if deg > 0.0 { "say.up" } else { "say.down" };
                speech.say(way, &[("band", &speech.band("_deg", band, 0.1))])
            } else {
                let most = speech.quantity("_deg", (band.upper * 10.0).ceil() / 10.0);
                speech.say("say.either", &[("most", &most)])
            };
            speech.told(id, text)
        })
    }

    /// What each wheel lacks; nothing where it is not known where they stand.
    pub(super) fn lifts(&self, speech: &Speech) -> Vec<ReckoningLine> {
        let bands = self.stands.base.map(|base| lifts_between_mm(base, self.lean, self.error_deg));
        let wheels = WHEEL.into_iter().zip(bands.into_iter().flatten());
        wheels.map(|(wheel, lift)| speech.line(wheel, "_mm", lift, 1.0)).collect()
    }

    /// The same, and which of them to raise: by the ramps, or what is low for certain.
    pub(super) fn wheels(&self, speech: &Speech) -> Vec<ReckoningLine> {
        let by = self.verdict(speech).0;
        let mut wheels = self.lifts(speech);
        for wheel in &mut wheels {
            let under = self.stand.iter().flat_map(raised).find(|(id, _)| **id == wheel.id);
            wheel.detail = match (by, under) {
                ("ramps", Some((_, under))) => {
                    Some(speech.say("say.onto", &[("step", &speech.quantity("_mm", under))]))
                }
                ("watch" | "wrong", _) if is_low(wheel) => Some(speech.say("say.higher", &[])),
                _ => None,
            };
        }
        wheels
    }

    /// How far it leans once it stands on the ramps.
    pub(super) fn then(&self, speech: &Speech, stand: &Stand) -> ReckoningLine {
        let then = around(stand.tilt_deg, self.error_deg);
        let mark = Some(reaches(then, FELT_DEG, Mark::Watch));
        ReckoningLine { mark, ..speech.line("then", "_deg", then, 0.1) }
    }
}

/// A wheel that is low for certain, by what it lacks.
fn is_low(wheel: &ReckoningLine) -> bool {
    wheel.lower.is_some_and(|lower| lower > 0.0)
}

/// What goes under which wheel. Unit: mm.
pub(super) fn raised(stand: &Stand) -> impl Iterator<Item = (&'static str, f64)> {
    WHEEL.into_iter().zip(stand.under_mm).filter(|(_, under)| *under > 0.0)
}

/// A tilt in all, with what both angles may be out. Unit: degrees.
fn around(tilt_deg: f64, error_deg: f64) -> Between {
    let error = error_deg * core::f64::consts::SQRT_2;
    Between::of(tilt_deg - error, tilt_deg + error).at_least(0.0)
}

fn reaches(tilt: Between, limit_deg: f64, beyond: Mark) -> Mark {
    match (tilt.lower > limit_deg, tilt.upper > limit_deg) {
        (true, _) => beyond,
        (false, true) => Mark::Watch,
        (false, false) => Mark::Fine,
    }
}
