//! What the numbers are held against: standards, handbook tables and worked examples, each named
//! beside its check.

#[path = "published/boiler.rs"]
mod boiler;
#[path = "published/frost.rs"]
mod frost;
#[path = "published/gas.rs"]
mod gas;
#[path = "published/level.rs"]
mod level;
#[path = "published/load.rs"]
mod load;
#[path = "published/power.rs"]
mod power;
#[path = "published/road.rs"]
mod road;
#[path = "published/supply.rs"]
mod supply;
#[path = "published/wind.rs"]
mod wind;
