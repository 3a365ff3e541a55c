//! What the numbers are held against: standards, handbook tables and worked examples, each named
//! beside its check.

#[path = "published/power.rs"]
mod power;
#[path = "published/wind.rs"]
mod wind;
