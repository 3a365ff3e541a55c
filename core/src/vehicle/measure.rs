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
    /// From the front axle to the rear one, or to the middle of two rear ones. Unit: m.
    pub wheelbase_m: Option<f64>,
    /// From the left wheels to the right ones. Unit: m.
    pub track_m: Option<f64>,
    /// Seats with belts, the driver's included.
    pub seats: Option<f64>,
    /// Where the front seats are. Unit of all places: m behind the front axle.
    pub seats_front_at_m: Option<f64>,
    /// Where the other seats are.
    pub seats_rear_at_m: Option<f64>,
    /// The middle of the lockers inside.
    pub lockers_at_m: Option<f64>,
    /// The middle of the garage or the rear locker.
    pub garage_at_m: Option<f64>,
    /// The middle of what hangs on the rack.
    pub rack_at_m: Option<f64>,
    /// The fuel tank.
    pub fuel_at_m: Option<f64>,
    /// What the fuel tank holds. Unit: L.
    pub fuel_tank_l: Option<f64>,
    /// How much fresh water is counted in the axles' actual mass. Unit: L.
    pub counted_water_l: Option<f64>,
    /// How much gas is counted in it, its cylinders with it. Unit: kg.
    pub counted_gas_kg: Option<f64>,
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
    /// What may stand on it at most. Unit: kg.
    pub mass_permissible_kg: Option<f64>,
    /// What stands on it in running order with all that was fitted to order. Unit: kg.
    pub mass_actual_kg: Option<f64>,
    /// Load index of its tyres; of twin tyres that for twins.
    pub load_index: Option<f64>,
    /// It has twin tyres.
    pub twin: bool,
}

impl Measures {
    pub(super) fn of(pack: &Pack) -> Self {
        let number = |told: &Option<Spanned<f64>>| told.as_ref().map(|told| *told.get_ref());
        let told = &pack.measures;
        let axles = pack.axles.iter().map(|axle| Axle {
            title: axle.title.get_ref().clone(),
            pressure_bar: number(&axle.pressure_bar),
            mass_permissible_kg: number(&axle.mass_permissible_kg),
            mass_actual_kg: number(&axle.mass_actual_kg),
            load_index: number(&axle.load_index),
            twin: axle.twin,
        });
        Self {
            height_m: number(&told.height_m),
            width_m: number(&told.width_m),
            length_m: number(&told.length_m),
            mass_permissible_kg: number(&told.mass_permissible_kg),
            mass_running_kg: number(&told.mass_running_kg),
            wheelbase_m: number(&told.wheelbase_m),
            track_m: number(&told.track_m),
            seats: number(&told.seats),
            seats_front_at_m: number(&told.seats_front_at_m),
            seats_rear_at_m: number(&told.seats_rear_at_m),
            lockers_at_m: number(&told.lockers_at_m),
            garage_at_m: number(&told.garage_at_m),
            rack_at_m: number(&told.rack_at_m),
            fuel_at_m: number(&told.fuel_at_m),
            fuel_tank_l: number(&told.fuel_tank_l),
            counted_water_l: number(&told.counted_water_l),
            counted_gas_kg: number(&told.counted_gas_kg),
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
