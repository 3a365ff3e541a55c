//! Search by an owner's words.
//!
//! `tests/data/asked.csv` has what owners ask for and the pages that are right, each written down
//! before anything was tuned. Of the lines below its heading every third one is kept aside: nothing
//! was ever chosen by how those come out. They are not quite blind: one author wrote the questions
//! and, after them, what the catalogue says that owners call things. When more alerts came, nine of
//! the others got an alert that is right as well.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::print_stdout,
    reason = "a test fails loudly, and tells what it found"
)]

use std::collections::BTreeMap;

use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Engine, HitKind, HitRow};

fn demo(id: &str) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo(id, &Stamp::utc(1_800_000_000_000)).unwrap();
    engine
}

struct Asked {
    vehicle: &'static str,
    words: &'static str,
    right: Vec<&'static str>,
    kept: bool,
}

fn asked() -> Vec<Asked> {
    let lines = include_str!("../data/asked.csv").lines().skip(1).enumerate();
    let read = |(number, line): (usize, &'static str)| {
        let [vehicle, words, right] = line.split(';').collect::<Vec<_>>().try_into().unwrap();
        Asked { vehicle, words, right: right.split('|').collect(), kept: number % 3 == 2 }
    };
    lines.map(read).collect()
}

/// What a hit is called in the set: the kind of a card's fitting, or `alert:` or `routine:` and
/// its id.
fn name(kinds: &BTreeMap<String, String>, hit: &HitRow) -> String {
    match hit.kind {
        HitKind::Card => kinds[&hit.id].clone(),
        HitKind::Alert => format!("alert:{}", hit.id),
        HitKind::Routine => format!("routine:{}", hit.id),
    }
}

#[derive(Default)]
struct Count {
    asked: usize,
    first: usize,
    among_three: usize,
}

impl Count {
    fn per_mille(&self, hits: usize) -> usize {
        hits * 1_000 / self.asked
    }
}

#[test]
fn owners_find_the_right_page_with_their_own_words() {
    let engines: BTreeMap<_, _> = ["b", "c"].map(|id| (id, demo(id))).into();
    let (mut tuned, mut kept) = (Count::default(), Count::default());
    for one in asked() {
        let engine = &engines[one.vehicle];
        let cards = engine.cards().unwrap().into_iter();
        let kinds: BTreeMap<_, _> = cards.map(|row| (row.id, row.kind)).collect();
        let found: Vec<_> =
            engine.find(one.words).unwrap().iter().map(|hit| name(&kinds, hit)).collect();
        let place = found.iter().position(|name| one.right.contains(&name.as_str()));
        let count = if one.kept { &mut kept } else { &mut tuned };
        count.asked += 1;
        count.first += usize::from(place == Some(0));
        count.among_three += usize::from(place.is_some_and(|place| place < 3));
        if place != Some(0) && !one.kept {
            let first: Vec<_> = found.iter().take(3).collect();
            println!(
                "{} {:?}: {place:?}, not {first:?} but {:?}",
                one.vehicle, one.words, one.right
            );
        }
    }
    for (name, count, least) in
        [("tuned on", &tuned, (960, 990)), ("kept aside", &kept, (870, 940))]
    {
        let (first, three) = (count.per_mille(count.first), count.per_mille(count.among_three));
        println!("{name}: {} asked, first {first}‰, among the first three {three}‰", count.asked);
        assert!(first >= least.0 && three >= least.1, "{name}: {first}‰, {three}‰");
    }
    assert!(tuned.asked >= 100 && kept.asked >= 50);
}
