//! What is reckoned, held to what was published or worked out by somebody else.

#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a test may fail loudly"
)]

#[path = "published/power.rs"]
mod power;
