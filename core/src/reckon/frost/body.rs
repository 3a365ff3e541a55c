//! Water of one temperature that loses heat to air, and freezes.

use crate::reckon::water::{COOLING_KJ_PER_KG_K, LATENT_KJ_PER_KG};

const KJ_PER_H_PER_W: f64 = 3.6;

/// Water that loses heat to the air round it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Body {
    /// How much water. Unit: kg, > 0.
    pub water_kg: f64,
    /// What it loses for each degree that it is warmer. Unit: W/K, ≥ 0.
    pub loss_w_per_k: f64,
}

/// What is waited for while water cools.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Until {
    /// It has cooled down to this, 0 or more. Unit: °C.
    Celsius(f64),
    /// So much of it is ice, 0 to 1.
    Frozen(f64),
}

impl Body {
    /// Its heat above that of water at 0 °C; below 0 for ice. Units: °C ≥ 0; kJ.
    #[must_use]
    pub fn heat_kj(&self, celsius: f64) -> f64 {
        self.water_kg * COOLING_KJ_PER_KG_K * celsius
    }

    /// The heat at which it is all ice at 0 °C. Unit: kJ.
    #[must_use]
    pub fn ice_kj(&self) -> f64 {
        -self.water_kg * LATENT_KJ_PER_KG
    }

    fn at_kj(&self, until: Until) -> f64 {
        match until {
            Until::Celsius(celsius) => self.heat_kj(celsius.max(0.0)),
            Until::Frozen(part) => self.ice_kj() * part.clamp(0.0, 1.0),
        }
    }

    /// How long its temperature takes to come nearer to the air's by a factor e. Unit: h.
    fn slowness_h(&self) -> f64 {
        self.heat_kj(1.0) / (self.loss_w_per_k * KJ_PER_H_PER_W)
    }

    /// The heat that is left after some time in air of one temperature. Ice is not cooled below 0 °C.
    ///
    /// # Units
    /// kJ in and out, °C, h.
    #[must_use]
    pub fn after(&self, heat_kj: f64, air_c: f64, hours: f64) -> f64 {
        let to_zero_h = if heat_kj > 0.0 {
            self.falls_to(heat_kj, 0.0, air_c)
        } else {
            self.melts(heat_kj, air_c)
        };
        if let Some(to_zero_h) = to_zero_h.filter(|to_zero_h| *to_zero_h < hours) {
            return self.zero_after(air_c, hours - to_zero_h);
        }
        if heat_kj > 0.0 {
            let air_kj = self.heat_kj(air_c);
            return air_kj + (heat_kj - air_kj) * libm::exp(-hours / self.slowness_h());
        }
        (heat_kj + self.loss_w_per_k * KJ_PER_H_PER_W * air_c * hours).max(self.ice_kj())
    }

    /// The heat that water of 0 °C has after some time.
    fn zero_after(&self, air_c: f64, hours: f64) -> f64 {
        if air_c > 0.0 {
            return self.heat_kj(air_c) * (1.0 - libm::exp(-hours / self.slowness_h()));
        }
        (self.loss_w_per_k * KJ_PER_H_PER_W * air_c * hours).max(self.ice_kj())
    }

    /// When ice, or water of 0 °C, in warm air is all water. Unit: h.
    fn melts(&self, heat_kj: f64, air_c: f64) -> Option<f64> {
        let gain_kj_per_h = self.loss_w_per_k * KJ_PER_H_PER_W * air_c;
        (gain_kj_per_h > 0.0).then(|| -heat_kj / gain_kj_per_h)
    }

    /// When its heat has fallen to a lower one, in air of one temperature; `None` where it never does.
    ///
    /// # Units
    /// kJ, °C; h.
    #[must_use]
    pub fn falls_to(&self, heat_kj: f64, to_kj: f64, air_c: f64) -> Option<f64> {
        if heat_kj <= to_kj {
            return Some(0.0);
        }
        let liquid_to_kj = to_kj.max(0.0);
        let liquid_h = if heat_kj > liquid_to_kj {
            let air_kj = self.heat_kj(air_c);
            let falls = air_kj < liquid_to_kj && self.loss_w_per_k > 0.0;
            let ratio = falls.then(|| (heat_kj - air_kj) / (liquid_to_kj - air_kj))?;
            self.slowness_h() * libm::log(ratio)
        } else {
            0.0
        };
        let ice_kj = heat_kj.min(0.0) - to_kj.min(0.0);
        if ice_kj <= 0.0 {
            return Some(liquid_h);
        }
        let gives_kj_per_h = -self.loss_w_per_k * KJ_PER_H_PER_W * air_c;
        (gives_kj_per_h > 0.0).then(|| liquid_h + ice_kj / gives_kj_per_h)
    }

    /// How warm it is now and after each step; ice is at 0 °C.
    ///
    /// # Units
    /// `start_c`: °C ≥ 0. `air`: °C, constant over each step of `step_h` hours. °C.
    #[must_use]
    pub fn course(
        &self,
        start_c: f64,
        air: impl IntoIterator<Item = f64>,
        step_h: f64,
    ) -> Vec<f64> {
        let start_kj = self.heat_kj(start_c.max(0.0));
        let each = air.into_iter().scan(start_kj, |heat_kj, air_c| {
            *heat_kj = self.after(*heat_kj, air_c, step_h);
            Some(*heat_kj)
        });
        let warm_c = |heat_kj: f64| heat_kj.max(0.0) / self.heat_kj(1.0);
        std::iter::once(start_kj).chain(each).map(warm_c).collect()
    }

    /// When it first comes to something; `None` where not before the air's course ends.
    ///
    /// # Units
    /// `start_c`: °C ≥ 0. `air`: °C, constant over each step of `step_h` hours. Hours from the first.
    #[must_use]
    pub fn reaches(
        &self,
        until: Until,
        start_c: f64,
        air: impl IntoIterator<Item = f64>,
        step_h: f64,
    ) -> Option<f64> {
        let to_kj = self.at_kj(until);
        let mut heat_kj = self.heat_kj(start_c.max(0.0));
        let mut passed_h = 0.0;
        for air_c in air {
            if let Some(h) = self.falls_to(heat_kj, to_kj, air_c).filter(|h| *h <= step_h) {
                return Some(passed_h + h);
            }
            heat_kj = self.after(heat_kj, air_c, step_h);
            passed_h += step_h;
        }
        None
    }
}
