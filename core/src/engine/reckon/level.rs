//! Which wheels to raise, and on which step of the ramps.

use super::asked::{Answer, Asked};
use crate::engine::page::{Mark, ReckoningLine};
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::level::{Base, FRIDGE_DEG, Lean, Stand, WHEELS, best, lifts_between_mm};

/// What can be typed. Unit: degrees.
const ANGLE_DEG: (f64, f64) = (-15.0, 15.0);
/// How far a reading may be out, either way. Unit: degrees. Common practice, no source.
const READ_DEG: f64 = 0.2;
/// Beyond this people feel it. Unit: degrees. Common practice, no source.
const FELT_DEG: f64 = 1.0;
const MM_PER_M: f64 = 1_000.0;
const WHEEL: [&str; WHEELS] = ["front_left", "front_right", "rear_left", "rear_right"];
const STEPS: [&str; 3] = ["ramp_low_mm", "ramp_middle_mm", "ramp_high_mm"];

pub(super) fn answer(asked: &mut Asked) -> Result<Answer> {
    let pitch = asked.number("pitch", "_deg", ANGLE_DEG)?;
    let roll = asked.number("roll", "_deg", ANGLE_DEG)?;
    let steps_mm: Vec<f64> = STEPS.iter().filter_map(|step| asked.figure(step)).collect();
    let ramps = asked.figure("ramps_count").map_or(0, |count| {
        (1..=WHEELS)
            .filter(|one| u32::try_from(*one).is_ok_and(|one| f64::from(one) <= count))
            .count()
    });
    let base = base(asked);
    let has_ramps = asked.loaded.vehicle.of_kind("ramps").next().is_some();
    let lacks =
        [("base", base.is_none()), ("ramps", has_ramps && (steps_mm.is_empty() || ramps == 0))];
    let lacks = lacks.into_iter().filter(|(_, lacks)| *lacks);
    let missing = lacks.map(|(key, _)| asked.say(&format!("missing.{key}"), &[])).collect();
    let cautions = ["ramps", "people"].map(|key| asked.say(&format!("caution.{key}"), &[])).into();
    let Some((pitch_deg, roll_deg)) = pitch.zip(roll) else {
        let (verdict_text, parts) = (asked.say("verdict.unpicked", &[]), Vec::new());
        return Ok(Answer { mark: None, verdict_text, cautions, parts, missing });
    };
    let lean = Lean { pitch_deg, roll_deg };
    let tilt = tilt(lean.up().tilt_deg());
    let mut parts = vec![asked.part("lean", leans(asked, tilt))];
    let stand = base.filter(|_| ramps > 0).map(|base| best(base, lean.up(), &steps_mm, ramps));
    if let Some(base) = base {
        parts.push(asked.part("lift", lifts(asked, base, lean)));
    }
    parts.extend(stand.map(|stand| asked.part("ramps", on_ramps(asked, &stand))));
    let (mark, verdict_text) = verdict(asked, tilt, stand.as_ref());
    Ok(Answer { mark: Some(mark), verdict_text, cautions, parts, missing })
}

/// Where the wheels stand, as far as the pack says.
fn base(asked: &Asked) -> Option<Base> {
    let measures = &asked.loaded.vehicle.measures;
    let (wheelbase_m, track_m) = measures.wheelbase_m.zip(measures.track_m)?;
    Some(Base { wheelbase_mm: wheelbase_m * MM_PER_M, track_mm: track_m * MM_PER_M })
}

/// A tilt in all, with what both angles may be out. Unit: degrees.
fn tilt(tilt_deg: f64) -> Between {
    let error = READ_DEG * core::f64::consts::SQRT_2;
    Between::of(tilt_deg - error, tilt_deg + error).at_least(0.0)
}

fn reaches(tilt: Between, limit_deg: f64, beyond: Mark) -> Mark {
    match (tilt.lower > limit_deg, tilt.upper > limit_deg) {
        (true, _) => beyond,
        (false, true) => Mark::Watch,
        (false, false) => Mark::Fine,
    }
}

/// How far it leans, and what that is to people and to an absorption fridge.
fn leans(asked: &Asked, tilt: Between) -> Vec<ReckoningLine> {
    let felt = reaches(tilt, FELT_DEG, Mark::Watch);
    let all = ReckoningLine { mark: Some(felt), ..asked.line("tilt", "_deg", tilt, 0.1) };
    let fridge = asked.loaded.vehicle.of_kind("fridge_three_way").next().map(|_| {
        let mark = reaches(tilt, FRIDGE_DEG, Mark::Wrong);
        let text = asked.say(&format!("say.fridge_{}", mark.key()), &[]);
        ReckoningLine { mark: Some(mark), ..asked.told("fridge", text) }
    });
    std::iter::once(all).chain(fridge).collect()
}

fn lifts(asked: &Asked, base: Base, lean: Lean) -> Vec<ReckoningLine> {
    let lifts = lifts_between_mm(base, lean, READ_DEG);
    let wheels = WHEEL.into_iter().zip(lifts);
    wheels.map(|(wheel, lift)| asked.line(wheel, "_mm", lift, 1.0)).collect()
}

/// What goes under which wheel, and how far it leans then.
fn on_ramps(asked: &Asked, stand: &Stand) -> Vec<ReckoningLine> {
    let under = WHEEL.into_iter().zip(stand.under_mm).filter(|(_, under)| *under > 0.0);
    let step = |(wheel, under)| asked.line(wheel, "_mm", Between::exactly(under), 1.0);
    let then = tilt(stand.tilt_deg);
    let mark = Some(reaches(then, FELT_DEG, Mark::Watch));
    let then = ReckoningLine { mark, ..asked.line("then", "_deg", then, 0.1) };
    under.map(step).chain([then]).collect()
}

fn verdict(asked: &Asked, tilt: Between, stand: Option<&Stand>) -> (Mark, String) {
    let felt = reaches(tilt, FELT_DEG, Mark::Watch);
    let fridge = asked.loaded.vehicle.of_kind("fridge_three_way").next();
    let fridge = fridge.map_or(Mark::Fine, |_| reaches(tilt, FRIDGE_DEG, Mark::Wrong));
    let mark = felt.max(fridge);
    let leans = asked.band("_deg", tilt, 0.1);
    if mark == Mark::Fine {
        return (mark, asked.say("verdict.fine", &[]));
    }
    let raised = |stand: &Stand| {
        let under = WHEEL.into_iter().zip(stand.under_mm).filter(|(_, under)| *under > 0.0);
        let said = under.map(|(wheel, under)| {
            let step = asked.quantity("_mm", under);
            let wheel = asked.say(&format!("say.{wheel}"), &[]);
            asked.say("say.raise", &[("wheel", &wheel), ("step", &step)])
        });
        said.collect::<Vec<_>>().join(", ")
    };
    let what = stand.map(raised).filter(|what| !what.is_empty());
    let (key, what) = match (what, fridge) {
        (Some(what), _) => ("ramps", what),
        (None, Mark::Wrong) => ("wrong", String::new()),
        (None, _) => ("watch", String::new()),
    };
    (mark, asked.say(&format!("verdict.{key}"), &[("leans", &leans), ("what", &what)]))
}
