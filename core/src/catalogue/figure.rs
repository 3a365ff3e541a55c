//! Numbers that only the people on board can tell.

use serde::Deserialize;

/// One such number. It has no default: what nobody said is not known.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Figure {
    /// What it is told for: the name of its file.
    #[serde(skip)]
    pub of: String,
    /// Where what it is told for stands among the others: the lowest first.
    #[serde(skip)]
    pub rank: u32,
    /// Its id; a quantity ends in its unit.
    pub id: String,
    /// The kinds of which one must be fitted for it to be asked.
    pub kinds: Vec<String>,
    /// The least, ≥ 0.
    pub min: f64,
    /// The most.
    pub max: f64,
    /// How far apart two neighbours are, a whole number of thousandths.
    pub step: f64,
    /// A phone feels it; nobody types it.
    #[serde(default)]
    pub felt: bool,
}

/// The file.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct File {
    pub(super) rank: u32,
    #[serde(rename = "figure")]
    pub(super) figures: Vec<Figure>,
}
