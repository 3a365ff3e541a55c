//! Laws of the numbers: monotone where physics is, balanced, never without a band.

#[path = "reckon_laws/boiler.rs"]
mod boiler;
#[path = "reckon_laws/first.rs"]
mod first;
#[path = "reckon_laws/frost.rs"]
mod frost;
#[path = "reckon_laws/gas.rs"]
mod gas;
#[path = "reckon_laws/level.rs"]
mod level;
#[path = "reckon_laws/load.rs"]
mod load;
#[path = "reckon_laws/power.rs"]
mod power;
#[path = "reckon_laws/road.rs"]
mod road;
#[path = "reckon_laws/supply.rs"]
mod supply;
#[path = "reckon_laws/wind.rs"]
mod wind;
