//! What the tests hold Stowfast against: an independent checker, an oracle, packs and catalogues
//! made up at random. Nothing here shares code with the planner.

pub mod cases;
pub mod checker;
pub mod choices;
pub mod draw;
pub mod kinds;
pub mod oracle;
pub mod packs;
pub mod worlds;
