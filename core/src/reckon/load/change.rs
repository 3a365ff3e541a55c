//! What to leave or to move, so that the worst limit gains most.

use super::{Limits, Loads, Mass};

/// One thing that can be done.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// What it is done to: of two changes to the same thing only one can be done.
    pub thing: usize,
    /// Which of the masses goes; `None` where the masses are not known one by one, as on a weighbridge.
    pub takes: Option<usize>,
    /// What comes in its place; what is taken away is negative.
    pub gives: Vec<Mass>,
}

impl Change {
    /// What stands on the axles once these changes are done.
    ///
    /// # Units
    /// `wheelbase_m`: m, > 0.
    #[must_use]
    pub fn all(changes: &[&Self], empty: Loads, masses: &[Mass], wheelbase_m: f64) -> Loads {
        let taken = |at: usize| changes.iter().any(|change| change.takes == Some(at));
        let kept = masses.iter().enumerate().filter(|(at, _)| !taken(*at)).map(|(_, mass)| mass);
        let given = changes.iter().flat_map(|change| &change.gives);
        let all: Vec<Mass> = kept.chain(given).copied().collect();
        empty.with(&all, wheelbase_m)
    }
}

/// Which of some changes, `most` of them at once, leave the worst limit best off; by their places. Every
/// set is tried. Empty where nothing helps; of equals the smallest set, then the first.
///
/// # Units
/// `wheelbase_m`: m, > 0.
#[must_use]
pub fn best(
    changes: &[Change],
    most: usize,
    empty: Loads,
    masses: &[Mass],
    wheelbase_m: f64,
    limits: &Limits,
) -> Vec<usize> {
    let worth = |set: &[usize]| {
        let done: Vec<&Change> = set.iter().filter_map(|at| changes.get(*at)).collect();
        worst_kg(Change::all(&done, empty, masses, wheelbase_m), limits)
    };
    let mut best = (worth(&[]), Vec::new());
    let mut sets = vec![Vec::new()];
    for _ in 0..most {
        sets = sets.iter().flat_map(|set| larger(set, changes)).collect();
        for set in &sets {
            let worth = worth(set);
            if worth > best.0 {
                best = (worth, set.clone());
            }
        }
    }
    best.1
}

/// The least margin that there may be.
fn worst_kg(loads: Loads, limits: &Limits) -> f64 {
    let margins = loads.margins(limits).each();
    margins.into_iter().map(|margin| margin.lower).fold(f64::INFINITY, f64::min)
}

/// Every set with one more, of what comes after and is of another thing.
fn larger(set: &[usize], changes: &[Change]) -> Vec<Vec<usize>> {
    let from = set.last().map_or(0, |last| last.saturating_add(1));
    let of_thing = |at: &usize| changes.get(*at).map(|change| change.thing);
    let free = |at: &usize| set.iter().all(|other| of_thing(other) != of_thing(at));
    let more = (from..changes.len()).filter(free);
    more.map(|at| set.iter().copied().chain([at]).collect()).collect()
}
