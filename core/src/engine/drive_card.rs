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
        let length = |told: Option<f64>| told.map(|told_m| length_text(&words, told_m));
        let mass = |told: Option<f64>| told.map(|told_kg| mass_text(&words, told_kg));
        let mut rows = vec![
            row(&words, "width", length(measures.width_m)),
            row(&words, "length", length(measures.length_m)),
            row(&words, "mass_permissible", mass(measures.mass_permissible_kg)),
            row(&words, "mass_running", mass(measures.mass_running_kg)),
        ];
        if measures.axles.is_empty() {
            rows.push(row(&words, "pressure", None));
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
    let mut row = row(words, "height", told.map(|(told_m, _)| height_text(words, told_m)));
    if told.is_some_and(|(_, defaulted)| defaulted) {
        row.note = format!("{} {}", words.say("default_value", &[]), row.note);
    }
    row
}

fn axle(words: &Words, at: usize, axle: &Axle) -> DriveCardRow {
    let told = axle.pressure_bar.map(|told_bar| pressure_text(words, told_bar));
    let title = words.say("drive_card.axle", &[("axle", &axle.title)]);
    DriveCardRow {
        id: format!("axle_{}", at.saturating_add(1)),
        title: Words::sentence(&title),
        ..row(words, "pressure", told)
    }
}

fn row(words: &Words, id: &str, told: Option<String>) -> DriveCardRow {
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

/// A height, rounded up to a centimetre: too high does no harm.
fn height_text(words: &Words, height_m: f64) -> String {
    // What is given in centimetres stays as it is.
    length_text(words, (height_m * 100.0 - 1e-6).ceil() / 100.0)
}

/// A length, to a centimetre.
fn length_text(words: &Words, length_m: f64) -> String {
    words.say("drive_card.metres", &[("n", &format!("{length_m:.2}"))])
}

/// A mass, to a kilogram.
fn mass_text(words: &Words, mass_kg: f64) -> String {
    words.say("drive_card.kilograms", &[("n", &format!("{mass_kg:.0}"))])
}

/// A pressure, as it was given.
fn pressure_text(words: &Words, pressure_bar: f64) -> String {
    words.say("drive_card.bar", &[("n", &pressure_bar.to_string())])
}
