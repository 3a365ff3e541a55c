//! The facts of the trade, each as a named test that fails without its rule, its words or its place
//! in the plan. A name ends in the short form of the source, or in `common_practice_no_source`.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a test may fail loudly"
)]

#[macro_use]
mod bench;
mod air;
mod battery;
mod boiler;
mod coming_back;
mod fridge;
mod gas;
mod hook_up;
mod lay_up;
mod moving;
mod numbers;
mod order;
mod refuelling;
mod road;
mod toilet;
mod water;
