//! Laws of what is reckoned: what physics makes rise or fall does, and nothing comes from nothing.

#![allow(clippy::unwrap_used, clippy::arithmetic_side_effects, reason = "a test may fail loudly")]

#[path = "reckon_laws/power.rs"]
mod power;
