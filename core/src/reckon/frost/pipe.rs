//! Still water in an insulated pipe.
//!
//! # Model
//! For each metre: the heat of the water in the bore, and the insulation as a cylinder with a film of
//! air round it. Pipe wall and end losses are left out.
//!
//! # Units
//! Diameters mm, conductivity W/(m K), film W/(m² K); kg/m and W/(K m).
//!
//! # Source
//! ASHRAE Handbook, Fundamentals (2009, 2019), chapter 23, equation 1: t = ρ cp π (D1/2)² ·
//! ln(D3/D2)/(2 π k) · ln((ti − ta)/(tf − ta)), without the film.
//!
//! # Error band
//! 2 % against its published example. Insulation: [`FOAM_W_PER_M_K`].

use core::f64::consts::PI;

use crate::reckon::Between;

/// Soft foam round pipes. Unit: W/(m K). Common practice, no source.
pub const FOAM_W_PER_M_K: Between = Between { lower: 0.033, upper: 0.045 };

/// One pipe: bore, outside, outside of its insulation (as the outside where it has none).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pipe {
    /// Bore. Unit: mm, > 0.
    pub bore_mm: f64,
    /// Outside. Unit: mm, ≥ the bore.
    pub outer_mm: f64,
    /// Thickness of its insulation. Unit: mm, ≥ 0.
    pub insulation_mm: f64,
}

impl Pipe {
    /// What is in a metre of it, at 1 kg/L. Unit: kg/m.
    #[must_use]
    pub fn water_kg_per_m(&self) -> f64 {
        PI * self.bore_mm * self.bore_mm / 4_000.0
    }

    fn covered_mm(&self) -> f64 {
        self.outer_mm + 2.0 * self.insulation_mm
    }

    /// What a metre of it loses with this insulation and film; without a film as ASHRAE has it.
    ///
    /// # Units
    /// W/(m K), W/(m² K); W/(K m).
    #[must_use]
    pub fn loss_w_per_k_m(&self, insulation_w_per_m_k: f64, film_w_per_m2_k: Option<f64>) -> f64 {
        let covered_mm = self.covered_mm();
        let foam = libm::log(covered_mm / self.outer_mm) / (2.0 * PI * insulation_w_per_m_k);
        let film = film_w_per_m2_k.map_or(0.0, |film| 1_000.0 / (film * PI * covered_mm));
        1.0 / (foam + film)
    }

    /// The band of that, by the film round it. Unit: W/(K m).
    #[must_use]
    pub fn loss(&self, film: Between) -> Between {
        Between::of(
            self.loss_w_per_k_m(FOAM_W_PER_M_K.lower, Some(film.lower)),
            self.loss_w_per_k_m(FOAM_W_PER_M_K.upper, Some(film.upper)),
        )
    }
}
