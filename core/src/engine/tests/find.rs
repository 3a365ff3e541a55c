//! Search by an owner's words, in the demo vehicles. `tests/tests/find.rs` has the hit rates.

use super::super::{HitKind, HitRow};
use super::{Engine, at};
use crate::catalogue::Catalogue;

fn demo(id: &str) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo(id, &at(0)).unwrap();
    engine
}

fn first(engine: &Engine, asked: &str) -> HitRow {
    let found = engine.find(asked).unwrap();
    found.into_iter().next().unwrap_or_else(|| panic!("nothing for {asked:?}"))
}

#[test]
fn an_owners_own_words_lead_to_the_card() {
    let engine = demo("c");
    for (asked, id) in [
        ("hot water", "boiler"),
        ("loo", "toilet"),
        ("flap on the wall", "inlet_flap"),
        ("telly", "tv"),
        ("poo tank", "toilet"),
        ("SKYLIGHT!?", "roof_lounge"),
    ] {
        let hit = first(&engine, asked);
        assert_eq!((hit.kind, hit.id.as_str()), (HitKind::Card, id), "{asked}");
    }
}

#[test]
fn a_typing_error_is_forgiven_one_from_four_letters_and_two_from_eight() {
    let engine = demo("c");
    for (asked, id) in
        [("brkaes", "brakes"), ("tvo", "tv"), ("ramsp", "ramps"), ("extinquisherr", "extinguisher")]
    {
        let found = engine.find(asked).unwrap();
        let is_it = found.first().is_some_and(|hit| hit.id == id);
        assert_eq!(is_it, asked.len() >= 4, "{asked}");
    }
    assert!(engine.find("rmaspp").unwrap().is_empty(), "two errors in six letters");
}

#[test]
fn every_beginning_of_a_title_finds_its_card_from_the_first_letter_on() {
    let engine = demo("c");
    for row in engine.cards().unwrap() {
        let letters: Vec<char> = row.title.chars().collect();
        for end in 1..=letters.len() {
            let asked: String = letters[..end].iter().collect();
            let found = engine.find(&asked).unwrap();
            assert!(!found.is_empty(), "{asked:?}");
        }
        let whole = engine.find(&row.title).unwrap();
        assert!(whole.iter().take(3).any(|hit| hit.id == row.id), "{}", row.title);
    }
    let found = engine.find("aw").unwrap();
    assert_eq!(found[0].id, "awning");
}

#[test]
fn every_hit_leads_to_a_page() {
    for id in ["a", "b", "c"] {
        let engine = demo(id);
        let targets = engine.targets().unwrap();
        let mut kinds = Vec::new();
        for asked in [
            "gas", "water", "winter", "fridge", "leave", "battery", "e", "red lamp", "on fire",
            "payload",
        ] {
            for hit in engine.find(asked).unwrap() {
                let leads = match hit.kind {
                    HitKind::Card => engine.card(&hit.id, &at(0)).is_ok(),
                    HitKind::Alert => engine.alert(&hit.id, &at(0)).is_ok(),
                    HitKind::Fault => engine.fault(&hit.id, &at(0)).is_ok(),
                    HitKind::Routine => targets.iter().any(|known| known.id == hit.id),
                    HitKind::Question => engine.reckon(&hit.id, &[], &at(0)).is_ok(),
                    HitKind::Emergency => crate::engine::emergency("en", Some(&hit.id)).is_ok(),
                };
                assert!(leads, "{hit:?}");
                kinds.push(hit.kind);
            }
        }
        let all = [HitKind::Card, HitKind::Alert, HitKind::Fault, HitKind::Routine];
        for kind in all.into_iter().chain([HitKind::Question, HitKind::Emergency]) {
            assert!(kinds.contains(&kind), "{id}: no {kind:?}");
        }
    }
}

#[test]
fn every_question_of_numbers_is_found_by_what_owners_call_it() {
    for id in ["a", "b", "c"] {
        let engine = demo(id);
        for row in engine.reckonings().unwrap() {
            let loaded = engine.loaded().unwrap();
            let words = loaded.words("en").unwrap();
            let called = words.text.get(&format!("reckon.{}.words", row.id)).unwrap();
            for asked in called.split(',') {
                let found = engine.find(asked).unwrap();
                let place = found.iter().position(|hit| hit.id == row.id);
                assert!(place.is_some_and(|place| place < 3), "{id} {asked}: {place:?}");
            }
        }
    }
}

/// Also where no alarm for it is fitted.
#[test]
fn what_threatens_people_comes_first_in_every_vehicle() {
    for id in ["a", "b", "c"] {
        let engine = demo(id);
        for (asked, peril) in [
            ("smell of gas", "gas"),
            ("gas leak", "gas"),
            ("carbon monoxide", "co"),
            ("the van is on fire", "fire"),
            ("smoke inside", "smoke"),
        ] {
            let found = engine.find(asked).unwrap();
            assert!(found.first().is_some_and(|hit| hit.emergency), "{id} {asked}: {found:?}");
            let own = |hit: &&HitRow| hit.kind == HitKind::Emergency;
            let first = found.iter().find(own).map(|hit| hit.id.as_str());
            assert_eq!(first, Some(peril), "{id} {asked}");
        }
    }
}

#[test]
fn what_is_not_fitted_is_not_found() {
    let found = demo("b").find("satellite dish").unwrap();
    assert!(found.iter().all(|hit| hit.id != "dish"), "{found:?}");
    let found = demo("b").find("gas cylinder changed").unwrap();
    assert!(found.iter().all(|hit| hit.id != "cylinder_changed"), "{found:?}");
}

#[test]
fn the_technicians_title_and_note_count_and_a_corrected_pack_is_read_anew() {
    let pack = include_str!("../../../../demo-data/a/pack.toml");
    let mut engine = Engine::in_memory("en").unwrap();
    let id = engine.add_pack(pack, "a.toml", &at(0)).unwrap();
    assert!(engine.find("wombat").unwrap().is_empty());
    let noted = pack.replace("Behind the lower locker door.", "Where the wombat sits.");
    engine.replace_pack(id, &noted, "a.toml", &at(1)).unwrap();
    assert_eq!(first(&engine, "wombat").id, "gas_left");
    let titled = noted.replace("title = \"water pump\"", "title = \"wombat\"");
    engine.replace_pack(id, &titled, "a.toml", &at(2)).unwrap();
    assert_eq!(first(&engine, "wombat").id, "pump");
    engine.add_demo("b", &at(3)).unwrap();
    assert!(engine.find("wombat").unwrap().is_empty(), "another vehicle");
}

#[test]
fn quantities_in_what_is_found_follow_the_units() {
    let mut engine = demo("c");
    let lines = |engine: &Engine| {
        let found = engine.find("above").unwrap();
        found.into_iter().map(|hit| hit.line).collect::<String>()
    };
    engine.set_units("imperial").unwrap();
    assert!(lines(&engine).contains("°F"), "{}", lines(&engine));
    engine.set_units("metric").unwrap();
    assert!(lines(&engine).contains("°C"), "{}", lines(&engine));
}

/// Nothing that is typed is an error, changes anything, or is read as a language of its own.
#[test]
fn what_is_typed_is_only_ever_words() {
    let engine = demo("c");
    let before = engine.find("boiler").unwrap();
    let long = "boiler ".repeat(1_500);
    let one_word = "x".repeat(10_000);
    let odd = [
        "",
        " ",
        "'; DROP TABLE line; --",
        "\" OR 1=1",
        "boiler' --",
        "\"boiler",
        "boiler\" OR \"pump",
        "words:boiler",
        "{words line} : boiler",
        "NEAR(boiler pump, 2)",
        "boiler AND NOT pump",
        "NOT",
        "AND OR NOT NEAR",
        "boil*",
        "*",
        "^boiler",
        "boiler + pump",
        "- boiler",
        "(((((",
        "?1 ?2 :a @b $c",
        "%_%",
        "\0",
        "boi\0ler",
        "\u{1}\u{2}\u{7f}\u{1b}[2J",
        "\r\n\t",
        "🚽",
        "🚽🔥 toilet",
        "👩‍👩‍👧‍👦",
        "مرحاض",
        "\u{202e}reliob\u{202c}",
        "חימום boiler",
        "トイレ",
        "e\u{301}\u{301}\u{301}",
        "\u{feff}boiler",
        "ǅ ß İ",
        "\\",
        "../../etc",
        "<b>boiler</b>",
        long.as_str(),
        one_word.as_str(),
    ];
    for asked in odd {
        let found = engine.find(asked).unwrap();
        assert!(found.len() <= 20, "{asked:?}");
    }
    for asked in ["", " ", "\0", "*", "(((((", "🚽", "مرحاض", "\r\n\t", one_word.as_str()] {
        assert!(engine.find(asked).unwrap().is_empty(), "{asked:?}");
    }
    for asked in ["\"boiler", "boiler' --", "^boiler", "חימום boiler", &long] {
        assert_eq!(first(&engine, asked).id, "boiler", "{asked:?}");
    }
    assert_eq!(engine.find("boiler").unwrap(), before, "nothing is kept of what was asked");
}

/// Every letter, and drawn strings of letters that mean something to SQLite or FTS5.
#[test]
fn no_string_of_odd_letters_is_an_error() {
    let engine = demo("b");
    let letters: Vec<char> = "\"'*^+-(){}:;,.?!%_\\/\0\n ab\u{202e}é🚿NOR".chars().collect();
    let mut seed: u64 = 20_260_714;
    for _ in 0..500 {
        let mut asked = String::new();
        for _ in 0..12 {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            asked.push(letters[usize::try_from(seed >> 33).unwrap() % letters.len()]);
        }
        assert!(engine.find(&asked).is_ok(), "{asked:?}");
    }
}

#[test]
fn what_owners_say_is_data_and_each_word_of_it_finds_something() {
    let text = &Catalogue::built_in().unwrap().texts["en"];
    let engine = demo("c");
    for kind in engine.cards().unwrap().into_iter().map(|row| row.kind) {
        let said = text.get(&format!("kind.{kind}.words")).unwrap_or_default();
        assert!(!said.is_empty(), "{kind}");
        for asked in said.split([',', '\n']) {
            let found = engine.find(asked).unwrap();
            assert!(!found.is_empty(), "{kind}: {asked}");
        }
    }
}

#[test]
fn a_complaint_finds_what_does_not_work_and_a_thing_alone_its_card() {
    let engine = demo("c");
    for (asked, id) in [
        ("pump never stops", "pump_never_stops"),
        ("no hot water", "no_hot_water"),
        ("loo won't flush", "toilet_does_not_flush"),
        ("oven doesn\u{2019}t light", "cooker_does_not_light.oven"),
        ("lights flicker", "lights_flicker"),
    ] {
        let hit = first(&engine, asked);
        assert_eq!((hit.kind, hit.id.as_str()), (HitKind::Fault, id), "{asked}");
    }
    for asked in ["pump", "hot water", "toilet", "oven", "battery", "roof light", "step"] {
        assert_eq!(first(&engine, asked).kind, HitKind::Card, "{asked}");
    }
}

/// What may be meant of an alarm that sounds comes before the card of the alarm.
#[test]
fn where_life_may_be_meant_it_comes_first() {
    for (asked, alert) in [
        ("smell of gas", "gas_alarm.sounds"),
        ("gas leak", "gas_alarm.sounds"),
        ("co alarm sounds", "co_alarm.sounds"),
        ("smoke alarm going off", "smoke_alarm.sounds"),
        ("smell of gas, hob does not light", "gas_alarm.sounds"),
        ("no hot water and the co alarm sounds", "co_alarm.sounds"),
    ] {
        let engine = demo("c");
        let first = engine.find(asked).unwrap().remove(0);
        // The peril itself, or the alarm that warns of it.
        let peril = alert.split('_').next().unwrap_or_default();
        assert!([alert, peril].contains(&first.id.as_str()), "{asked}: {first:?}");
        assert!(first.emergency, "{asked}");
    }
}

#[test]
fn only_an_alarm_that_sounds_is_marked_as_one() {
    let engine = demo("c");
    let mut marked: Vec<_> =
        ["alarm", "smoke", "gas", "co alarm", "red lamp", "battery low", "brakes"]
            .iter()
            .flat_map(|asked| engine.find(asked).unwrap())
            .filter(|hit| hit.emergency && hit.kind == HitKind::Alert)
            .map(|hit| hit.id)
            .collect();
    marked.sort();
    marked.dedup();
    assert_eq!(marked, ["co_alarm.sounds", "gas_alarm.sounds", "smoke_alarm.sounds"]);
}
