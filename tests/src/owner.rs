//! The invented vehicles as an owner finds them, at the one door.
#![allow(clippy::unwrap_used, reason = "a test may fail loudly")]

use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Engine, RoutinePage};

/// So many minutes after the trip's morning.
#[must_use]
pub fn at(minutes: i64) -> Stamp {
    Stamp::utc(minutes.saturating_mul(60_000).saturating_add(1_800_000_000_000))
}

/// Vehicle (a) as its trip leaves it, at minute 0.
///
/// # Panics
/// If the invented vehicle does not read.
#[must_use]
pub fn demo() -> Engine {
    demo_of("a")
}

/// An invented vehicle as its trip leaves it, at minute 0.
///
/// # Panics
/// If there is none of that id.
#[must_use]
pub fn demo_of(id: &str) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo(id, &at(0)).unwrap();
    engine
}

/// Says some facts, one by one, at a minute.
///
/// # Panics
/// If the vehicle has no such thing.
pub fn tell(engine: &mut Engine, facts: &[(&str, &str)], minute: i64) {
    for (variable, setting) in facts {
        engine.report(variable, setting, &at(minute)).unwrap();
    }
}

/// The steps that are left, by id.
#[must_use]
pub fn ids(page: &RoutinePage) -> Vec<&str> {
    page.steps.iter().map(|step| step.id.as_str()).collect()
}
