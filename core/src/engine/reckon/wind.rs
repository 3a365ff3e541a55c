//! What the forecast's wind means for what is out or open, and for driving.

use super::asked::{Answer, Asked};
use crate::engine::page::{Mark, ReckoningLine};
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::wind::{beaufort, gust_ms, mean_ms, pull_n, weight_kg};

/// What stands out: its kind, its variable, the settings in which the wind does not reach it, and the
/// Beaufort number of gusts from which on it may be torn off. Common practice, no source.
const OUT: [(&str, &str, &[&str], usize); 3] = [
    ("awning", "cloth", &["in"], 5),
    ("roof_light", "leaf", &["shut"], 6),
    ("satellite_dish", "dish", &["folded"], 6),
];
/// From this number of gusts on driving takes care; common practice, no source.
const DRIVE: usize = 6;
/// The strongest gust that can be typed. Unit: m/s.
const GUST_MAX: f64 = 80.0;
const FORCES: [&str; 13] =
    ["b0", "b1", "b2", "b3", "b4", "b5", "b6", "b7", "b8", "b9", "b10", "b11", "b12"];

pub(super) fn answer(asked: &mut Asked) -> Result<Answer> {
    let forces: Vec<_> =
        FORCES.iter().map(|force| (*force, asked.say(&format!("force.{force}"), &[]))).collect();
    let force = asked.one("beaufort", &forces, None)?;
    let typed = asked.number("gust", "_ms", (0.0, GUST_MAX))?;
    let cloth_m2 = asked.figure("awning_m2");
    let force = force.and_then(|force| FORCES.iter().position(|one| *one == force));
    let mean = force.map(mean_ms);
    let gust = typed.map(Between::exactly).or_else(|| mean.map(gust_ms));
    let cautions = |gust: Between| {
        let storm = beaufort(gust.upper) >= 10;
        let said = [("door", beaufort(gust.upper) >= DRIVE), ("storm", storm)];
        said.into_iter().filter(|(_, holds)| *holds).map(|(key, _)| key).collect::<Vec<_>>()
    };
    let Some(gust) = gust else {
        let verdict_text = asked.say("verdict.unknown", &[]);
        let (cautions, parts, missing) = (Vec::new(), Vec::new(), Vec::new());
        return Ok(Answer { mark: None, verdict_text, cautions, parts, missing });
    };
    let out = out(asked, gust);
    let mut parts = vec![asked.part("wind", wind(asked, mean, gust, cloth_m2))];
    let (mark, verdict_text) = verdict(asked, &out);
    parts.push(asked.part("out", out));
    parts.push(asked.part("road", vec![drive(asked, gust)]));
    let said = cautions(gust).into_iter().map(|key| asked.say(&format!("caution.{key}"), &[]));
    let cautions = said.collect();
    Ok(Answer { mark: Some(mark), verdict_text, cautions, parts, missing: Vec::new() })
}

fn wind(
    asked: &Asked,
    mean: Option<Between>,
    gust: Between,
    cloth_m2: Option<f64>,
) -> Vec<ReckoningLine> {
    let mean = mean.map(|mean| asked.line("mean", "_ms", mean, 1.0));
    let pull = |id, area| {
        let pull = pull_n(gust, area);
        let weight = asked.band("_kg", weight_kg(pull), 1.0);
        let detail = Some(asked.say("say.weight", &[("weight", &weight)]));
        ReckoningLine { detail, ..asked.line(id, "_n", pull, 10.0) }
    };
    let each = [asked.line("gust", "_ms", gust, 1.0), pull("pull", 1.0)];
    let own = cloth_m2.map(|area| pull("awning_pull", area));
    mean.into_iter().chain(each).chain(own).collect()
}

/// Whether gusts reach a number: never, perhaps, or in any case.
fn reaches(gust: Between, number: usize) -> Mark {
    match (beaufort(gust.lower) >= number, beaufort(gust.upper) >= number) {
        (true, _) => Mark::Wrong,
        (false, true) => Mark::Watch,
        (false, false) => Mark::Fine,
    }
}

/// What the vehicle has of it, each with how it stands.
fn out(asked: &Asked, gust: Between) -> Vec<ReckoningLine> {
    let mut lines = Vec::new();
    for (kind, variable, within, number) in OUT {
        let fitted: Vec<_> = asked.loaded.vehicle.of_kind(kind).collect();
        if fitted.is_empty() {
            continue;
        }
        let is_in = |(_, fitting): &(usize, &crate::vehicle::Fitting)| {
            asked.stands(fitting, variable, within) == Some(true)
        };
        let all_in = fitted.iter().all(is_in);
        let mark = if all_in { Mark::Fine } else { reaches(gust, number) };
        let said = if all_in { "in" } else { mark.key() };
        let line = asked.told(kind, asked.say(&format!("{kind}.{said}"), &[]));
        lines.push(ReckoningLine { mark: Some(mark), ..line });
    }
    lines
}

fn drive(asked: &Asked, gust: Between) -> ReckoningLine {
    let mark = match (reaches(gust, DRIVE), beaufort(gust.lower) >= 8) {
        (_, true) => Mark::Wrong,
        (Mark::Fine, _) => Mark::Fine,
        (Mark::Watch | Mark::Wrong, false) => Mark::Watch,
    };
    let text = asked.say(&format!("say.drive_{}", mark.key()), &[]);
    ReckoningLine { mark: Some(mark), ..asked.told("drive", text) }
}

/// How all of it stands, and what that is about.
fn verdict(asked: &Asked, out: &[ReckoningLine]) -> (Mark, String) {
    let worst = out.iter().filter_map(|line| line.mark).max().unwrap_or(Mark::Fine);
    let of = out.iter().filter(|line| line.mark == Some(worst));
    let what = of.map(|line| line.title.as_str()).collect::<Vec<_>>().join(", ");
    (worst, asked.say(&format!("verdict.{}", worst.key()), &[("what", &what)]))
}
