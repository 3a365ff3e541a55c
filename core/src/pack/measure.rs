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
/// From the front axle to the rear one, and how far behind the front axle something stands. Unit: m.
const WHEELBASE_M: (f64, f64) = (1.5, 10.0);
const PLACE_M: (f64, f64) = (-2.0, 15.0);
/// From the left wheels to the right ones. Unit: m.
const TRACK_M: (f64, f64) = (1.0, 2.6);
/// What stands on one axle. Unit: kg.
const AXLE_KG: (f64, f64) = (200.0, 20_000.0);
const FUEL_L: (f64, f64) = (10.0, 1_000.0);
const WATER_L: (f64, f64) = (0.0, 1_000.0);
const GAS_KG: (f64, f64) = (0.0, 500.0);
const LOAD_INDEX: (f64, f64) = (60.0, 170.0);
const SEATS: (f64, f64) = (1.0, 12.0);
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
    /// From the front axle to the rear one, or to the middle of two rear ones. Unit: m, 1.5 to 10.
    pub wheelbase_m: Option<Spanned<f64>>,
    /// From the middle of the left wheels to that of the right ones. Unit: m, 1 to 2.6.
    pub track_m: Option<Spanned<f64>>,
    /// Seats with belts, the driver's included: 1 to 12.
    pub seats: Option<Spanned<f64>>,
    /// Where the front seats are. Unit of all places: m behind the front axle, -2 to 15.
    pub seats_front_at_m: Option<Spanned<f64>>,
    /// Where the other seats are.
    pub seats_rear_at_m: Option<Spanned<f64>>,
    /// The middle of the lockers inside.
    pub lockers_at_m: Option<Spanned<f64>>,
    /// The middle of the garage or the rear locker.
    pub garage_at_m: Option<Spanned<f64>>,
    /// The middle of what hangs on the rack behind.
    pub rack_at_m: Option<Spanned<f64>>,
    /// The fuel tank.
    pub fuel_at_m: Option<Spanned<f64>>,
    /// What the fuel tank holds. Unit: L, 10 to 1,000.
    pub fuel_tank_l: Option<Spanned<f64>>,
    /// How much fresh water is counted in the axles' `mass_actual_kg`. Unit: L, 0 to 1,000.
    pub counted_water_l: Option<Spanned<f64>>,
    /// How much gas is counted in them, its cylinders with it. Unit: kg, 0 to 500.
    pub counted_gas_kg: Option<Spanned<f64>>,
}

/// One axle, from the front.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Axle {
    /// What the technician calls it.
    pub title: Spanned<String>,
    /// Pressure of its tyres, cold. Unit: bar, 1 to 10.
    pub pressure_bar: Option<Spanned<f64>>,
    /// What may stand on it at most, from the papers. Unit: kg, 200 to 20,000.
    pub mass_permissible_kg: Option<Spanned<f64>>,
    /// What stands on it in running order with all that was fitted to order. Unit: kg, 200 to 20,000.
    ///
    /// # Source
    /// Commission Regulation (EU) No 1230/2012, Article 2(6).
    pub mass_actual_kg: Option<Spanned<f64>>,
    /// Load index of its tyres, 60 to 170; of twin tyres that for twins.
    pub load_index: Option<Spanned<f64>>,
    /// It has twin tyres.
    #[serde(default)]
    pub twin: bool,
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
    places(measures)?;
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
        within(axle.mass_permissible_kg.as_ref(), AXLE_KG, "kg")?;
        within(axle.mass_actual_kg.as_ref(), AXLE_KG, "kg")?;
        within(axle.load_index.as_ref(), LOAD_INDEX, "as a load index")?;
    }
    one_height(pack)
}

/// What the load is reckoned from.
fn places(measures: &Measures) -> Check {
    let at = [
        &measures.seats_front_at_m,
        &measures.seats_rear_at_m,
        &measures.lockers_at_m,
        &measures.garage_at_m,
        &measures.rack_at_m,
        &measures.fuel_at_m,
    ];
    for place in at {
        within(place.as_ref(), PLACE_M, "metres behind the front axle")?;
    }
    within(measures.wheelbase_m.as_ref(), WHEELBASE_M, "metres")?;
    within(measures.track_m.as_ref(), TRACK_M, "metres")?;
    within(measures.seats.as_ref(), SEATS, "seats")?;
    within(measures.fuel_tank_l.as_ref(), FUEL_L, "litres")?;
    within(measures.counted_water_l.as_ref(), WATER_L, "litres")?;
    within(measures.counted_gas_kg.as_ref(), GAS_KG, "kg")
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
