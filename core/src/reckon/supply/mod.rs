//! What a pitch's supply carries: appliances against breakers, what to run when, and what a lead loses.
//!
//! # Model
//! [`load`]: what appliances draw, as a band of amperes. [`breaker`]: what a breaker makes of it.
//! [`schedule`]: everything wanted by its time below a limit. [`lead`]: volts lost on the way.
//! [`heat`]: how long water takes to get hot.
//!
//! # Units
//! Watts at 230 V as on the rating plate, amperes, volts, metres, square millimetres, degrees Celsius.

pub mod breaker;
pub mod heat;
pub mod lead;
pub mod load;
pub mod schedule;

#[cfg(test)]
mod tests;
