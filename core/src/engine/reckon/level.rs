//! Which wheels to raise, and on which step of the ramps.

mod leaning;
mod live;

use super::asked::{Answer, Asked};
use super::speech::Speech;
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::level::{Base, Lean, STEEP_DEG, WHEELS};
use leaning::{Leaning, Stands, raised};
pub use live::Level;

/// What a lean is read with, and how far it may be out, either way. Unit: degrees. Common practice, no
/// source. Of a phone that was set: 0.3° for noise of up to 0.05 m/s², 0.1° for what moves nothing shown.
const SPIRIT: (&str, f64) = ("spirit", 0.2);
const PHONE_SET: (&str, f64) = ("phone_set", 0.4);
const PHONE: (&str, f64) = ("phone", 1.0);
const MM_PER_M: f64 = 1_000.0;
const WHEEL: [&str; WHEELS] = ["front_left", "front_right", "rear_left", "rear_right"];
const STEPS: [&str; 3] = ["ramp_low_mm", "ramp_middle_mm", "ramp_high_mm"];

pub(super) fn answer(asked: &mut Asked) -> Result<Answer> {
    let pitch = asked.number("pitch", "_deg", (-STEEP_DEG, STEEP_DEG))?;
    let roll = asked.number("roll", "_deg", (-STEEP_DEG, STEEP_DEG))?;
    let ways = [SPIRIT, PHONE_SET, PHONE];
    let options = ways.map(|(by, _)| (by, asked.say(&format!("by.{by}"), &[])));
    let by = asked.one("by", &options, Some(SPIRIT.0))?;
    let error_deg =
        ways.iter().find(|(id, _)| by.as_deref() == Some(*id)).map_or(SPIRIT.1, |one| one.1);
    let stands = stands(asked);
    let missing = stands.missing(asked);
    let cautions = cautions(asked);
    let Some((pitch_deg, roll_deg)) = pitch.zip(roll) else {
        let (verdict_text, parts) = (asked.say("verdict.unpicked", &[]), Vec::new());
        return Ok(Answer { mark: None, verdict_text, cautions, parts, missing });
    };
    let leaning = Leaning::of(&stands, Lean { pitch_deg, roll_deg }, error_deg);
    let mut parts = vec![asked.part("lean", leaning.tilts(asked))];
    if stands.base.is_some() {
        parts.push(asked.part("lift", leaning.lifts(asked)));
    }
    parts.extend(leaning.stand.as_ref().map(|stand| {
        let step = |(wheel, under)| asked.line(wheel, "_mm", Between::exactly(under), 1.0);
        let lines = raised(stand).map(step).chain([leaning.then(asked, stand)]);
        asked.part("ramps", lines.collect())
    }));
    let (key, what) = leaning.verdict(asked);
    let low = leaning.low(asked, true);
    let slots = [("leans", &*leaning.in_all(asked)), ("what", &*what), ("low", &*low)];
    let verdict_text = asked.say(&format!("verdict.{key}"), &slots);
    Ok(Answer { mark: Some(leaning.mark), verdict_text, cautions, parts, missing })
}

/// What to beware of on ramps.
fn cautions(speech: &Speech) -> Vec<String> {
    ["ramps", "people"].map(|key| speech.say(&format!("caution.{key}"), &[])).into()
}

/// What the vehicle stands on, as far as its pack says and people told.
fn stands(asked: &mut Asked) -> Stands {
    let steps_mm: Vec<f64> = STEPS.iter().filter_map(|step| asked.figure(step)).collect();
    let ramps = asked.figure("ramps_count").map_or(0, |count| {
        (1..=WHEELS)
            .filter(|one| u32::try_from(*one).is_ok_and(|one| f64::from(one) <= count))
            .count()
    });
    let vehicle = &asked.loaded.vehicle;
    let measures = &vehicle.measures;
    let base = measures.wheelbase_m.zip(measures.track_m).map(|(wheelbase_m, track_m)| Base {
        wheelbase_mm: wheelbase_m * MM_PER_M,
        track_mm: track_m * MM_PER_M,
    });
    let fitted = |kind: &str| vehicle.of_kind(kind).next().is_some();
    let (has_ramps, fridge) = (fitted("ramps"), fitted("fridge_three_way"));
    Stands { base, steps_mm, ramps, has_ramps, fridge }
}
