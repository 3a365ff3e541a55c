//! The drive card in words: how high, wide, long and heavy the vehicle is, and its tyre pressures.

use super::Engine;
use super::page::{DriveCardPage, DriveCardRow};
use super::words::Words;
use crate::error::Result;
use crate::vehicle::Axle;

impl Engine {
    /// What a driver must know of the vehicle. What the pack does not say is said to be missing.
    ///
    /// # Errors
    /// [`crate::error::Error::Conflict`] while no vehicle is chosen.
    pub fn drive_card(&self) -> Result<DriveCardPage> {
        let loaded = self.loaded()?;
        let words = loaded.words(&self.language)?;
        let measures = &loaded.vehicle.measures;
        let mut rows = vec![
            row(&words, "width", "_m", measures.width_m),
            row(&words, "length", "_m", measures.length_m),
            row(&words, "mass_permissible", "_kg", measures.mass_permissible_kg),
            row(&words, "mass_running", "_kg", measures.mass_running_kg),
        ];
        if measures.axles.is_empty() {
            rows.push(row(&words, "pressure", "_bar", None));
        }
        let axles = measures.axles.iter().enumerate();
        rows.extend(axles.map(|(at, one)| axle(&words, at, one)));
        Ok(DriveCardPage {
            vehicle_title: loaded.vehicle.title.clone(),
            height: height(&words),
            rows,
            cautions: ["signs", "wheel"].map(|key| say(&words, key)).into(),
        })
    }
}

fn say(words: &Words, key: &str) -> String {
    words.say(&format!("drive_card.{key}"), &[])
}

fn height(words: &Words) -> DriveCardRow {
    let told = words.vehicle.height_m();
    let mut row = row(words, "height", "_m", told.map(|(told_m, _)| told_m));
    if told.is_some_and(|(_, defaulted)| defaulted) {
        row.note = format!("{} {}", words.say("default_value", &[]), row.note);
    }
    row
}

fn axle(words: &Words, at: usize, axle: &Axle) -> DriveCardRow {
    let title = words.say("drive_card.axle", &[("axle", &axle.title)]);
    DriveCardRow {
        id: format!("axle_{}", at.saturating_add(1)),
        title: Words::sentence(&title),
        ..row(words, "pressure", "_bar", axle.pressure_bar)
    }
}

/// One line; `ending` is the unit of what was told, as a pack's names end with it.
fn row(words: &Words, id: &str, ending: &str, told: Option<f64>) -> DriveCardRow {
    let written = told.and_then(|value| words.units.measured(ending, value));
    let told = written.map(|written| words.written(&written));
    let known = told.is_some();
    let note = if known { format!("{id}_note") } else { format!("{id}_missing") };
    DriveCardRow {
        id: id.to_owned(),
        title: say(words, id),
        text: told.unwrap_or_else(|| say(words, "missing")),
        note: say(words, &note),
        known,
    }
}
