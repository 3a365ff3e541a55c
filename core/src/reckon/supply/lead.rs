//! Volts lost in a lead, on mains or on 12 V.
//!
//! # Model
//! Both conductors in series with what is fed, resistive, power factor 1. Resistance at a temperature
//! is that at 20 °C over `Kt`.
//!
//! # Units
//! Length one way in metres, section in square millimetres, amperes, volts, degrees Celsius of the core.
//!
//! # Source
//! IEC 60228 tables 3 and 2, classes 5 and 2, plain copper: the most that a core may have at 20 °C.
//! Annex: `Kt` = 250 / (230 + T). Limits: BS 7671 appendix 4, table 4Ab: 3 % for lighting, 5 % for all else, from
//! the public supply on; a site has used some of it before its post. A lead of 25 m ± 2 m: IEC
//! 60364-7-721; 16 A want 2.5 mm²: the same, and DIN VDE 0100-708. A flexible lead's core gets up to
//! 60 °C: BS 7671 table 4F3B. How much less than the most a core may have: common practice, no source.
//!
//! # Error band
//! A core from 0 to 60 °C with 0.9 to 1 times the most that it may have at 20 °C. Plugs and sockets come
//! on top and are not counted.

use serde::Serialize;

use crate::reckon::Between;

/// How a conductor is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Core {
    /// Of fine wires, class 5: a lead.
    Flexible,
    /// Of a few thick wires, class 2: a cable in a wall or in the ground.
    Fixed,
}

impl Core {
    /// Section in mm², resistance at 20 °C in ohms per kilometre.
    const fn rows(self) -> &'static [(f64, f64)] {
        match self {
            Self::Flexible => &CLASS_5,
            Self::Fixed => &CLASS_2,
        }
    }
}

const CLASS_5: [(f64, f64); 10] = [
    (0.75, 26.0),
    (1.0, 19.5),
    (1.5, 13.3),
    (2.5, 7.98),
    (4.0, 4.95),
    (6.0, 3.30),
    (10.0, 1.91),
    (16.0, 1.21),
    (25.0, 0.780),
    (35.0, 0.554),
];
const CLASS_2: [(f64, f64); 6] =
    [(1.5, 12.1), (2.5, 7.41), (4.0, 4.61), (6.0, 3.08), (10.0, 1.83), (16.0, 1.15)];
/// What a lead for a pitch of up to 16 A has. Unit: mm².
const FOR_16_A_MM2: f64 = 2.5;
/// How cold and how hot a core can be while it carries something. Unit: °C.
pub const CORE_C: Between = Between { lower: 0.0, upper: 60.0 };
/// In parts of the most that is allowed.
const OF_THE_MOST: Between = Between { lower: 0.9, upper: 1.0 };
/// The longest single lead. Unit: m.
pub const LONGEST_M: f64 = 27.0;
/// Lost at most before a lamp. Unit: %.
pub const LIGHTING_PCT: f64 = 3.0;
/// Lost at most before anything else. Unit: %.
pub const OTHER_PCT: f64 = 5.0;

/// The factor that brings a resistance at a temperature back to 20 °C.
///
/// # Units
/// °C, above -230.
///
/// # Source
/// IEC 60228, annex.
///
/// # Example
/// ```
/// use stowfast_core::reckon::supply::lead::kt;
///
/// assert!((kt(20.0) - 1.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn kt(core_c: f64) -> f64 {
    250.0 / (230.0 + core_c)
}

/// A lead with two conductors.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Lead {
    length_m: f64,
    section_mm2: f64,
    r20_ohm_per_km: f64,
}

/// What is lost on the way, and what is left.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Drop {
    /// Lost. Unit: V.
    pub lost_v: f64,
    /// Of the source's. Unit: %.
    pub lost_pct: f64,
    /// Heat along the lead. Unit: W.
    pub lost_w: f64,
    /// What the load gets. Unit: V.
    pub load_v: f64,
    /// What it takes of that. Unit: W.
    pub load_w: f64,
}

/// Whether what is lost is within the guidance; the better first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Loss {
    /// Not above 3 %.
    Fine,
    /// Above what lighting should have.
    AboveLighting,
    /// Above what anything should have.
    AboveAll,
}

impl Loss {
    /// # Units
    /// `lost_pct`: per cent of the source's volts.
    ///
    /// # Source
    /// BS 7671, table 4Ab.
    #[must_use]
    pub fn of(lost_pct: f64) -> Self {
        match () {
            () if lost_pct <= LIGHTING_PCT => Self::Fine,
            () if lost_pct <= OTHER_PCT => Self::AboveLighting,
            () => Self::AboveAll,
        }
    }
}

impl Lead {
    /// A lead of copper; `None` for a section that is not made, or a length that is none.
    ///
    /// # Units
    /// `length_m`: m, one way, above 0 to 1,000. `section_mm2`: mm², a size of IEC 60228 from 0.75 to 35,
    /// of a fixed cable from 1.5 to 16.
    #[must_use]
    pub fn new(core: Core, length_m: f64, section_mm2: f64) -> Option<Self> {
        let row = core.rows().iter().find(|(own, _)| (own - section_mm2).abs() < 1e-9);
        let fits = length_m > 0.0 && length_m <= 1_000.0;
        row.filter(|_| fits).map(|&(section_mm2, r20_ohm_per_km)| Self {
            length_m,
            section_mm2,
            r20_ohm_per_km,
        })
    }

    /// Longer than one lead is: two that were joined.
    #[must_use]
    pub fn is_joined(&self) -> bool {
        self.length_m > LONGEST_M
    }

    /// Thinner than a pitch's lead may be.
    #[must_use]
    pub fn is_thin(&self) -> bool {
        self.section_mm2 < FOR_16_A_MM2
    }

    /// What an ampere and metre loses. Unit: mV, both ways.
    #[must_use]
    pub fn mv_per_a_m(&self, core_c: f64) -> f64 {
        2.0 * self.r20_ohm_per_km / kt(core_c)
    }

    /// Both conductors, at the most that is allowed. Unit: Ω.
    #[must_use]
    pub fn ohm(&self, core_c: f64) -> f64 {
        self.mv_per_a_m(core_c) * self.length_m / 1_000.0
    }

    /// What is lost where the current is known: a motor, a charger, or a post at its rating.
    ///
    /// # Units
    /// `source_v`: V, > 0. `current_a`: A, ≥ 0. `core_c`: °C.
    #[must_use]
    pub fn carrying(&self, source_v: f64, current_a: f64, core_c: f64) -> Drop {
        let lost_v = self.ohm(core_c) * current_a;
        let load_v = source_v - lost_v;
        Drop {
            lost_v,
            lost_pct: lost_v / source_v * 100.0,
            lost_w: lost_v * current_a,
            load_v,
            load_w: load_v * current_a,
        }
    }

    /// What is lost before a heating element, which takes less of less.
    ///
    /// # Units
    /// `source_v`: V, > 0. `rated_w`: W at that voltage, ≥ 0. `core_c`: °C.
    #[must_use]
    pub fn feeding(&self, source_v: f64, rated_w: f64, core_c: f64) -> Drop {
        let conductance = rated_w / (source_v * source_v);
        let current_a = source_v * conductance / (1.0 + self.ohm(core_c) * conductance);
        self.carrying(source_v, current_a, core_c)
    }

    /// What is lost at a current that lies between two, whatever the core's temperature.
    ///
    /// # Units
    /// A in; V out.
    #[must_use]
    pub fn lost_v(&self, current: Between) -> Between {
        CORE_C.through(|core_c| self.ohm(core_c)) * OF_THE_MOST * current
    }
}
