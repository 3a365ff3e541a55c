//! What the lead loses on the way, and what a length of 12 V does.

use super::Supply;
use super::wanted::Wanted;
use crate::engine::page::{Mark, ReckoningLine, ReckoningPart};
use crate::engine::reckon::asked::Asked;
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::supply::lead::{CORE_C, Core, Lead, Loss};
use crate::reckon::supply::load::{Drawn, MAINS_V};

/// Unit: m, one way.
const LENGTH_M: (f64, f64) = (0.5, 200.0);
const SECTION_MM2: (f64, f64) = (0.75, 35.0);
/// Unit: A.
const DC_A: (f64, f64) = (0.1, 200.0);
/// What a 12 V line is reckoned from. Unit: V.
const DC_V: f64 = 12.0;

/// The lead's part, and that of 12 V where its three numbers were picked.
pub(super) fn parts(
    asked: &mut Asked,
    wanted: &Wanted,
    drawn: &Drawn,
    supply: &Supply,
    missing: &mut Vec<String>,
) -> Result<Vec<ReckoningPart>> {
    let fitted = asked.loaded.vehicle.of_kind("mains_lead").next().map(|(_, lead)| lead);
    let length = asked.number("lead_length", "_run_m", LENGTH_M)?;
    let section = asked.number("lead_section", "_mm2", SECTION_MM2)?;
    let length = length.or_else(|| fitted?.number("length_m"));
    let section = section.or_else(|| fitted?.number("section_mm2"));
    let dc = [
        asked.number("dc_length", "_run_m", LENGTH_M)?,
        asked.number("dc_section", "_mm2", SECTION_MM2)?,
        asked.number("dc_current", "_a", DC_A)?,
    ];
    let mut parts = Vec::new();
    match length.zip(section).map(|(length, section)| Lead::new(Core::Flexible, length, section)) {
        Some(Some(lead)) => {
            let lines = lines(asked, &lead, wanted, drawn, supply);
            parts.push(asked.part("lead", lines));
        }
        Some(None) => missing.push(asked.say("missing.section", &[])),
        None => missing.push(asked.say("missing.lead", &[])),
    }
    if let [Some(length), Some(section), Some(current_a)] = dc {
        match Lead::new(Core::Flexible, length, section) {
            Some(lead) => {
                let line = lost(asked, "dc", &lead, DC_V, Between::exactly(current_a));
                parts.push(asked.part("dc", vec![line]));
            }
            None => missing.push(asked.say("missing.section", &[])),
        }
    }
    Ok(parts)
}

fn lines(
    asked: &Asked,
    lead: &Lead,
    wanted: &Wanted,
    drawn: &Drawn,
    supply: &Supply,
) -> Vec<ReckoningLine> {
    let mut lines = Vec::new();
    let told = |id: &str, mark| {
        let line = asked.told(id, asked.say(&format!("say.{id}"), &[]));
        ReckoningLine { mark: Some(mark), ..line }
    };
    if lead.is_joined() {
        lines.push(told("joined", Mark::Wrong));
    }
    if lead.is_thin() {
        lines.push(told("thin", Mark::Wrong));
    }
    if drawn.rated_w > 0.0 {
        lines.push(lost(asked, "lost", lead, MAINS_V, drawn.current));
    }
    let heating_w = wanted.heating_w();
    if heating_w > 0.0 {
        let gives = CORE_C.through(|core_c| lead.feeding(MAINS_V, heating_w, core_c).load_w);
        let line = asked.line("weaker", "_w", gives, 10.0);
        let plates = asked.quantity("_w", heating_w.round());
        let text = asked.say("say.weaker", &[("band", &line.text), ("plates", &plates)]);
        lines.push(ReckoningLine { text, ..line });
    }
    if let Some(rated_a) = supply.rated_a {
        lines.push(lost(asked, "lost_most", lead, MAINS_V, Between::exactly(rated_a)));
    }
    lines
}

/// What is lost at a current, of the volts that come in.
fn lost(asked: &Asked, id: &str, lead: &Lead, source_v: f64, current: Between) -> ReckoningLine {
    let lost_v = lead.lost_v(current);
    let share = lost_v * (100.0 / source_v);
    let left = Between::exactly(source_v) - lost_v;
    let loss = Loss::of(share.upper);
    let mark = match loss {
        Loss::Fine => Mark::Fine,
        Loss::AboveLighting => Mark::Watch,
        Loss::AboveAll => Mark::Wrong,
    };
    let key = match loss {
        Loss::Fine => "loss_fine",
        Loss::AboveLighting => "loss_lighting",
        Loss::AboveAll => "loss_all",
    };
    let line = asked.line(id, "_v", lost_v, 0.1);
    let slots = [
        ("volts", &*line.text),
        ("share", &*asked.band("_pct", share, 0.1)),
        ("left", &*asked.band("_v", left, 0.1)),
        ("heat", &*asked.band("_w", lost_v * current, 1.0)),
    ];
    let text = asked.say("say.lost", &slots);
    let detail = Some(asked.say(&format!("say.{key}"), &[]));
    ReckoningLine { text, detail, mark: Some(mark), ..line }
}
