//! Which pages a number goes into that somebody has just told. It is told already: nothing here fails.

use stowfast_core::catalogue::Catalogue;
use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Engine, Reckoning};

/// Figures of this file go into the pages of what is left.
const OF_WATER: &str = "water";

/// A hint of where a figure counts.
pub(crate) fn of_figure(engine: &Engine, figure: &str, now: &Stamp) -> String {
    let known = Catalogue::built_in().map(|known| &known.figures).into_iter().flatten();
    let water = known.into_iter().any(|one| one.id == figure && one.of == OF_WATER);
    let asked = |page: &Reckoning| page.asks.iter().any(|one| one.id == figure);
    hint(engine, if water { &["reserves", "stay NIGHTS"] } else { &[] }, asked, now)
}

/// A hint of where what a gauge shows counts.
pub(crate) fn of_gauge(engine: &Engine, gauge: &str, now: &Stamp) -> String {
    let asked = |page: &Reckoning| page.gauges.iter().any(|one| one.id == gauge);
    hint(engine, &["reserves"], asked, now)
}

fn hint(
    engine: &Engine,
    first: &[&str],
    asked: impl Fn(&Reckoning) -> bool,
    now: &Stamp,
) -> String {
    let mut pages: Vec<_> = first.iter().map(|page| format!("stowfast {page}")).collect();
    let mut questions = engine.reckonings().unwrap_or_default();
    questions.retain(|row| engine.reckon(&row.id, &[], now).is_ok_and(|page| asked(&page)));
    pages.extend(questions.iter().map(|row| format!("stowfast {}", row.id)));
    let pages = pages.join(", ");
    if pages.is_empty() { pages } else { format!("What that tells: {pages}") }
}
