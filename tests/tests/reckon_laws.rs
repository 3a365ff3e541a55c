//! Laws of the numbers: monotone where physics is, balanced, never without a band.

#[path = "reckon_laws/power.rs"]
mod power;
#[path = "reckon_laws/wind.rs"]
mod wind;
