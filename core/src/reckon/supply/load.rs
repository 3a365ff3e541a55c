//! What appliances draw: from the watts on a plate to a band of amperes.
//!
//! # Model
//! A heating element is a resistance: it draws more where the mains stands high. A motor or a power
//! supply takes the watts that it needs: it draws more where the mains stands low. Several together
//! draw the sum of their bands, which is no narrower than what there is: the mains cannot stand high
//! for one and low for the other.
//!
//! # Units
//! Watts at 230 V as on the rating plate; amperes.
//!
//! # Source
//! 230 V ± 10 %: EN 50160 and IEC 60038, from memory, to be checked. Power of a heating appliance 10 %
//! below to 5 % above its plate, of one with a motor up to 20 % above: EN 60335-1, from memory, to be
//! checked. How little a motor takes without work, and how large the surge is when something starts:
//! common practice, no source.
//!
//! # Error band
//! A heating appliance 0.81 to 1.155 times its rated current, a motor 0.45 to 1.33, a power supply up
//! to 1.33.

use serde::Serialize;

use crate::reckon::Between;

/// The mains as rated. Unit: V.
pub const MAINS_V: f64 = 230.0;
/// What the mains may be, in parts of that.
const MAINS: Between = Between { lower: 0.9, upper: 1.1 };

/// What sort of thing draws.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Nature {
    /// A heating element: kettle, boiler, heater.
    Heating,
    /// A motor or a transformer: vacuum cleaner, microwave.
    Motor,
    /// A power supply: charger, laptop.
    Supply,
}

impl Nature {
    /// What it takes of the watts on its plate.
    fn power(self) -> Between {
        match self {
            Self::Heating => Between { lower: 0.9, upper: 1.05 },
            Self::Motor => Between { lower: 0.5, upper: 1.2 },
            Self::Supply => Between { lower: 0.0, upper: 1.2 },
        }
    }

    /// Its surge when it starts, in multiples of what it draws then.
    fn surge(self) -> Between {
        let upper = match self {
            Self::Heating => 1.1,
            Self::Motor => 10.0,
            Self::Supply => 20.0,
        };
        Between { lower: 1.0, upper }
    }

    /// In multiples of the rated current.
    fn current(self) -> Between {
        match self {
            Self::Heating => self.power() * MAINS,
            Self::Motor | Self::Supply => self.power() / MAINS,
        }
    }
}

/// One appliance.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Load {
    /// Its power on mains of 230 V, by its plate. Unit: W, ≥ 0.
    pub rated_w: f64,
    /// What sort of thing it is.
    pub nature: Nature,
    /// It switches itself off and on, so at times it draws nothing.
    pub cycles: bool,
}

impl Load {
    /// What it draws. Unit: A.
    ///
    /// # Source
    /// See the module.
    ///
    /// # Example
    /// ```
    /// use stowfast_core::reckon::supply::load::{Load, Nature};
    ///
    /// let kettle = Load { rated_w: 2_300.0, nature: Nature::Heating, cycles: false };
    /// assert!(kettle.current_a().lower < 10.0 && kettle.current_a().upper > 10.0);
    /// ```
    #[must_use]
    pub fn current_a(&self) -> Between {
        let on = self.nature.current() * (self.rated_w.max(0.0) / MAINS_V);
        if self.cycles { Between { lower: 0.0, ..on } } else { on }
    }
}

/// What several draw together.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Drawn {
    /// The sum of the plates. Unit: W.
    pub rated_w: f64,
    /// While all run. Unit: A.
    pub current: Between,
    /// When the last of them starts, whichever that is. Unit: A.
    pub peak: Between,
}

/// What all of them draw together.
#[must_use]
pub fn together(loads: &[Load]) -> Drawn {
    let current: Between = loads.iter().map(Load::current_a).sum();
    let more = |load: &Load| load.current_a().upper * (load.nature.surge().upper - 1.0);
    let surge = loads.iter().map(more).fold(0.0, f64::max);
    let peak = Between { lower: current.lower, upper: current.upper + surge };
    Drawn { rated_w: loads.iter().map(|load| load.rated_w.max(0.0)).sum(), current, peak }
}
