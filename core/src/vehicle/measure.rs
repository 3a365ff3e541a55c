//! How large and how heavy the vehicle is, as far as its pack says.

use toml::Spanned;

use super::Vehicle;
use crate::catalogue::Datum;
use crate::pack::Pack;

/// How large and how heavy the vehicle is, and what its tyres need. `None` is not in the pack.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Measures {
    /// Height with everything on the roof. Unit: m.
    pub height_m: Option<f64>,
    /// Width over the mirrors, folded out. Unit: m.
    pub width_m: Option<f64>,
    /// Length with what is carried behind. Unit: m.
    pub length_m: Option<f64>,
    /// What it may weigh at most. Unit: kg.
    pub mass_permissible_kg: Option<f64>,
    /// Mass in running order. Unit: kg.
    pub mass_running_kg: Option<f64>,
    /// Axles from the front.
    pub axles: Vec<Axle>,
}

/// One axle.
#[derive(Debug, Clone, PartialEq)]
pub struct Axle {
    /// What the technician calls it.
    pub title: String,
    /// Pressure of its tyres, cold. Unit: bar.
    pub pressure_bar: Option<f64>,
}

impl Measures {
    pub(super) fn of(pack: &Pack) -> Self {
        let number = |told: &Option<Spanned<f64>>| told.as_ref().map(|told| *told.get_ref());
        let told = &pack.measures;
        let axles = pack.axles.iter().map(|axle| Axle {
            title: axle.title.get_ref().clone(),
            pressure_bar: number(&axle.pressure_bar),
        });
        Self {
            height_m: number(&told.height_m),
            width_m: number(&told.width_m),
            length_m: number(&told.length_m),
            mass_permissible_kg: number(&told.mass_permissible_kg),
            mass_running_kg: number(&told.mass_running_kg),
            axles: axles.collect(),
        }
    }
}

impl Vehicle {
    /// Its height with everything on the roof, and whether that is a default: the pack's own, else
    /// what the note in the driver's view says. Unit: m. `None` where there is neither.
    #[must_use]
    pub fn height_m(&self) -> Option<(f64, bool)> {
        let note = || {
            let (_, note) = self.of_kind("height_note").next()?;
            let value = note.values.get("height_m")?;
            match value.datum {
                Datum::Number(height_m) => Some((height_m, value.defaulted)),
                Datum::Flag(_) | Datum::Word(_) | Datum::Numbers(_) => None,
            }
        };
        self.measures.height_m.map(|height_m| (height_m, false)).or_else(note)
    }
}
