//! Numbers by physics and tables: what is asked of them stands in each module, with its model, its
//! units, its sources and how wrong it may be. Nothing here knows words, the engine or a clock.

pub mod battery;
mod between;
pub mod boiler;
pub mod first;
pub mod frost;
pub mod fuel;
pub mod gas;
pub mod level;
pub mod load;
pub mod solar;
pub mod supply;
pub mod tyres;
pub mod urea;
pub mod water;
pub mod wind;

pub use between::Between;
