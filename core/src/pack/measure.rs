//! How large and how heavy the vehicle is, and what its tyres need: facts of the pack.

use serde::Deserialize;
use toml::Spanned;

use super::Pack;
use super::check::{Check, title};
use super::read::Fault;

/// Most axles.
pub const AXLES_MAX: usize = 4;
/// Height, with everything on the roof. Unit: m.
const HEIGHT_M: (f64, f64) = (1.5, 4.5);
/// Width over the mirrors. Unit: m.
const WIDTH_M: (f64, f64) = (1.4, 3.5);
/// Length, with what is carried behind. Unit: m.
const LENGTH_M: (f64, f64) = (3.0, 20.0);
/// A motorhome's mass. Unit: kg.
const MASS_KG: (f64, f64) = (700.0, 40_000.0);
/// A tyre's pressure, cold. Unit: bar above the air around it.
const PRESSURE_BAR: (f64, f64) = (1.0, 10.0);

/// How large and how heavy the vehicle is. What is not given is not known: none has a default.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Measures {
    /// Height with everything on the roof. Unit: m, 1.5 to 4.5.
    pub height_m: Option<Spanned<f64>>,
    /// Width over the mirrors, folded out. Unit: m, 1.4 to 3.5.
    pub width_m: Option<Spanned<f64>>,
    /// Length with what is carried behind. Unit: m, 3 to 20.
    pub length_m: Option<Spanned<f64>>,
    /// What it may weigh at most, from its papers. Unit: kg, 700 to 40,000.
    pub mass_permissible_kg: Option<Spanned<f64>>,
    /// Mass in running order, from its papers; no more than the permissible mass. Unit: kg, 700 to
    /// 40,000.
    ///
    /// # Source
    /// Commission Regulation (EU) No 1230/2012, Article 2(4)(a).
    pub mass_running_kg: Option<Spanned<f64>>,
}

/// One axle, from the front.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Axle {
    /// What the technician calls it.
    pub title: Spanned<String>,
    /// Pressure of its tyres, cold. Unit: bar, 1 to 10.
    pub pressure_bar: Option<Spanned<f64>>,
}

/// Every measure makes sense, and none contradicts another.
pub(super) fn check(pack: &Pack) -> Check {
    let measures = &pack.measures;
    let lengths = [
        (&measures.height_m, HEIGHT_M),
        (&measures.width_m, WIDTH_M),
        (&measures.length_m, LENGTH_M),
    ];
    for (length, range) in lengths {
        within(length.as_ref(), range, "metres")?;
    }
    within(measures.mass_permissible_kg.as_ref(), MASS_KG, "kg")?;
    within(measures.mass_running_kg.as_ref(), MASS_KG, "kg")?;
    if let (Some(running), Some(most)) = (&measures.mass_running_kg, &measures.mass_permissible_kg)
        && running.get_ref() > most.get_ref()
    {
        let expected = format!("at most the permissible mass, {} kg", most.get_ref());
        let other = Some(most.span().start);
        return Err(Fault { other, ..Fault::at(running, expected) });
    }
    if let Some(extra) = pack.axles.get(AXLES_MAX) {
        return Err(Fault::at(&extra.title, format!("at most {AXLES_MAX} axles")));
    }
    for axle in &pack.axles {
        title(&axle.title)?;
        within(axle.pressure_bar.as_ref(), PRESSURE_BAR, "bar")?;
    }
    one_height(pack)
}

fn within(number: Option<&Spanned<f64>>, (least, most): (f64, f64), unit: &str) -> Check {
    let outside = number.filter(|number| !(least..=most).contains(number.get_ref()));
    outside.map_or(Ok(()), |number| Err(Fault::at(number, format!("{least} to {most} {unit}"))))
}

/// A note in the driver's view says the same height as the pack.
fn one_height(pack: &Pack) -> Check {
    let Some(height) = &pack.measures.height_m else { return Ok(()) };
    let notes = pack.fittings.iter().filter_map(|fitting| fitting.values.get("height_m"));
    let same = crate::catalogue::Datum::Number(*height.get_ref());
    let mut odd = notes.filter(|note| *note.get_ref() != same);
    odd.next().map_or(Ok(()), |note| {
        let expected = format!("the height of `[measures]`, {}", height.get_ref());
        Err(Fault { other: Some(height.span().start), ..Fault::at(note, expected) })
    })
}
