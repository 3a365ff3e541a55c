//! Which pages a number goes into that somebody has just told.

use stowfast_core::Result;
use stowfast_core::catalogue::Catalogue;
use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Engine, Reckoning};

/// Figures of this file go into the pages of what is left.
const OF_WATER: &str = "water";

/// A hint of where a figure counts.
pub(crate) fn of_figure(engine: &Engine, figure: &str, now: &Stamp) -> Result<String> {
    let known = Catalogue::built_in()?.figures.iter().find(|one| one.id == figure);
    let water = known.is_some_and(|one| one.of == OF_WATER);
    let asked = |page: &Reckoning| page.asks.iter().any(|one| one.id == figure);
    hint(engine, if water { &["reserves", "stay NIGHTS"] } else { &[] }, asked, now)
}

/// A hint of where what a gauge shows counts.
pub(crate) fn of_gauge(engine: &Engine, gauge: &str, now: &Stamp) -> Result<String> {
    let asked = |page: &Reckoning| page.gauges.iter().any(|one| one.id == gauge);
    hint(engine, &["reserves"], asked, now)
}

fn hint(
    engine: &Engine,
    first: &[&str],
    asked: impl Fn(&Reckoning) -> bool,
    now: &Stamp,
) -> Result<String> {
    let mut pages: Vec<_> = first.iter().map(|page| format!("stowfast {page}")).collect();
    for row in engine.reckonings()? {
        if asked(&engine.reckon(&row.id, &[], now)?) {
            pages.push(format!("stowfast {}", row.id));
        }
    }
    let pages = pages.join(", ");
    Ok(if pages.is_empty() { pages } else { format!("What that tells: {pages}") })
}
