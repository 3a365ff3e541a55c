//! Stowfast works out, offline, what to do in one motorhome in its present state.
//!
//! Data flows one way: a [`pack`] and the [`catalogue`] make a [`vehicle`]; the log makes its
//! [`state`]; [`interlock`]s judge it; a [`routine`] leads from it to a target.
#![forbid(unsafe_code)]
#![cfg_attr(
    test,
    allow(
        clippy::arithmetic_side_effects,
        clippy::wildcard_enum_match_arm,
        reason = "a test fails loudly"
    )
)]

pub mod alert;
pub mod card;
pub mod catalogue;
pub mod clock;
pub mod engine;
pub mod error;
pub mod fault;
pub mod fridge;
pub mod interlock;
pub mod near;
pub mod pack;
pub mod photo;
pub mod reckon;
pub mod reserve;
pub mod routine;
pub mod state;
pub mod store;
pub mod units;
pub mod vehicle;

pub use error::{Error, Result};
