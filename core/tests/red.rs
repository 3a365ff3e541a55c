//! What shows red, and the cards, of every invented vehicle, word for word as the command says it.
//!
//! Golden files stand in `tests/golden/red/`, `tests/golden/cards/` and `tests/golden/find/`; `UPDATE_GOLDEN=1 cargo test
//! --test red` writes them anew.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails loudly")]

mod call;

use call::{Place, golden};

impl Place {
    /// The ids of the rows of an answer.
    fn ids(&self, list: &str) -> Vec<String> {
        let answer = self.says(&["--json", list]);
        let answer: serde_json::Value = serde_json::from_str(&answer).unwrap();
        let rows = answer.get(list).and_then(|rows| rows.as_array()).unwrap();
        let id = |row: &serde_json::Value| row.get("id")?.as_str().map(str::to_owned);
        rows.iter().map(|row| id(row).unwrap()).collect()
    }
}

/// A list, then each page of it.
fn all(place: &Place, list: &str, page: &str) -> String {
    let pages = place.ids(list).into_iter().map(|id| format!("\n{}", place.says(&[page, &id])));
    place.says(&[list]) + &pages.collect::<String>()
}

#[test]
fn what_each_vehicle_can_show_red() {
    for vehicle in ["a", "b", "c"] {
        golden(&format!("red/{vehicle}.txt"), &all(&Place::new(vehicle), "alerts", "alert"));
    }
}

#[test]
fn the_cards_of_each_vehicle() {
    for vehicle in ["a", "b", "c"] {
        golden(&format!("cards/{vehicle}.txt"), &all(&Place::new(vehicle), "cards", "card"));
    }
}

/// What owners ask for, and what the command answers: three of these are no words at all.
const ASKED: [&str; 20] = [
    "hot water",
    "loo",
    "flap on the wall",
    "telly",
    "poo tank",
    "leccy",
    "why is the fridge warm",
    "warm air blower",
    "gas botle",
    "change the gas bottle",
    "winterise",
    "skylite",
    "pump wont stop",
    "red light",
    "no power in the sockets",
    "adblue",
    "b",
    "'; DROP TABLE line; --",
    "boiler AND NOT \"water",
    "🚽",
];

#[test]
fn what_owners_find_by_their_own_words() {
    for vehicle in ["a", "b", "c"] {
        let place = Place::new(vehicle);
        let found = ASKED.map(|asked| format!("> {asked}\n{}\n", place.says(&["find", asked])));
        golden(&format!("find/{vehicle}.txt"), &found.concat());
    }
}

#[test]
fn the_words_need_no_quotes_and_json_has_the_same_rows() {
    let place = Place::new("c");
    assert_eq!(place.says(&["find", "hot", "water"]), place.says(&["find", "hot water"]));
    let answer = place.says(&["--json", "find", "hot", "water"]);
    let answer: serde_json::Value = serde_json::from_str(&answer).unwrap();
    let first = answer.pointer("/found/0").unwrap();
    let field = |name: &str| first.get(name).and_then(|it| it.as_str()).unwrap();
    assert_eq!((field("kind"), field("id"), field("title")), ("card", "boiler", "Boiler"));
    let nothing = place.says(&["--json", "find", "🚽"]);
    assert!(nothing.contains("\"found\":[]"), "{nothing}");
}

/// Tap what you see: the report that is offered brings it to the top, with what to do.
#[test]
fn a_red_lamp_is_reported_and_comes_first() {
    let place = Place::new("a");
    place.says(&["report", "boiler.heat", "gas"]);
    place.says(&["report", "boiler.cover", "on"]);
    let page = place.says(&["alert", "boiler.locked_out"]);
    assert!(page.contains("stowfast report boiler.lamp red"), "{page}");
    place.says(&["report", "boiler.lamp", "red"]);
    let list = place.says(&["alerts"]);
    assert!(
        list.starts_with("✗ Red lamp of the boiler: shows\n      The flue cover is on."),
        "{list}"
    );
    place.says(&["tick", "boiler.switch_off"]);
    let out = "It no longer shows? Red lamp of the boiler: out";
    assert!(place.says(&["alert", "boiler.locked_out"]).contains(out));
    place.says(&["report", "boiler.lamp", "out"]);
    assert!(place.says(&["alerts"]).contains("Red lamp of the boiler: does not show"));
}
