//! What the tests hold Stowfast against: an independent checker, an oracle, packs and catalogues
//! made up at random. Nothing here shares code with the planner.

pub mod built;
pub mod cases;
pub mod checker;
pub mod choices;
pub mod components;
pub mod conflict;
pub mod draw;
pub mod judge;
pub mod kinds;
pub mod oracle;
pub mod owner;
pub mod packs;
pub mod pair;
pub mod question;
pub mod small;
pub mod table;
pub mod timed;
pub mod worlds;
