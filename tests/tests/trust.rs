//! What makes an owner stop trusting it, each as a test of its own, at the one door.
//!
//! Elsewhere under these very names: `the_same_leaving_looks_the_same_every_day`,
//! `it_never_says_clear_with_the_water_hose_still_on`, `no_minutes_are_counted_on_a_manual_fridge`
//! (`core/src/engine/tests.rs`).
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a test may fail loudly"
)]

use std::collections::BTreeSet;

use stowfast_core::catalogue::Catalogue;
use stowfast_core::clock::{Monotonic, Stamp};
use stowfast_core::engine::{Engine, FridgeSource, OrderProof, StepKind, VerdictKind};
use stowfast_tests::owner::{at, demo, demo_of, ids, tell};
use stowfast_tests::question::A;

/// Vehicle (a) with more fitted or otherwise, and nothing said.
fn with(more: &str, old: &str, new: &str) -> Engine {
    assert!(A.contains(old), "{old}");
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_pack(&(A.replace(old, new) + more), "with.toml", &at(0)).unwrap();
    engine
}

fn carry_out(engine: &mut Engine, minute: i64) {
    for _ in 0..80 {
        let page = engine.routine(&at(minute)).unwrap().unwrap();
        let Some(step) = page.steps.first() else { return };
        engine.tick(&step.id, &at(minute)).unwrap();
    }
    panic!("no end to it");
}

/// Vehicles that differ in what they have, each with nothing said and as demonstrated.
fn vehicles() -> Vec<Engine> {
    let demos = Engine::in_memory("en").unwrap().demos().unwrap();
    let added = demos.iter().map(|row| demo_of(&row.id));
    added.chain([with("", "title", "title")]).collect()
}

const HOB: &str =
    "\n[[fitting]]\nid = \"hob\"\nkind = \"hob\"\ntitle = \"hob\"\nzone = \"galley\"\n";

/// It was off in the evening and nobody has cooked: that is believed in the morning. Before the road
/// it is looked at, because it was not yet for this departure.
#[test]
fn it_does_not_say_unknown_for_the_hob_every_morning_though_nobody_cooked() {
    let mut engine = with(HOB, "title", "title");
    tell(&mut engine, &[("hob.burners", "off"), ("hob.lid", "down")], 0);
    for morning in 1..=7 {
        let now = at(morning * 1_440);
        let things = engine.things(&now).unwrap();
        let hob = things.iter().find(|one| one.variable == "hob.burners").unwrap();
        assert_eq!(hob.believed, ["off"], "morning {morning}");
        let page = engine.now_page(&now).unwrap();
        let unknown = |one: &&stowfast_core::engine::ItemRow| one.variable == "hob.burners";
        for item in page.items.iter().filter(unknown) {
            assert_eq!((item.known_bad, item.seen.starts_with("off")), (false, true), "{item:?}");
        }
    }
}

/// Over many starts no plan comes back to the post that is known to within the walk there, and what is
/// left never does either. Only the way out of a danger goes there first and may have to come back.
#[test]
fn it_does_not_send_them_to_the_post_twice() {
    let spots: [&[(&str, &str)]; 3] = [
        &[],
        &[("lead.vehicle_end", "out")],
        &[("roof_bed.leaf", "shut"), ("window_galley.leaf", "shut"), ("step.step", "in")],
    ];
    let mut trips = 0;
    for facts in spots {
        let mut engine = demo();
        tell(&mut engine, facts, 1);
        for target in engine.targets().unwrap() {
            let page = engine.preview(&target.id, &at(2)).unwrap();
            let entered: Vec<_> = (0..page.steps.len())
                .filter(|at| page.steps[*at].zone_id == "post")
                .filter(|at| *at == 0 || page.steps[at - 1].zone_id != "post")
                .collect();
            let visits = entered.len();
            let forced = usize::from(!page.warnings.is_empty() && entered.first() == Some(&0));
            // A plan that may be longer than the best by more than the walk that a second visit costs
            // proves nothing; every other one is held to it.
            let again_s = entered.iter().skip(1).map(|at| page.steps[*at].walk_s).min();
            let open_s = match page.proof {
                OrderProof::Gap { gap_s } => gap_s,
                OrderProof::Exact | OrderProof::None => 0,
            };
            let proved = again_s.is_none_or(|walk_s| open_s < walk_s);
            assert!(!proved || visits <= 1 + forced, "{} {facts:?}: {:?}", target.id, ids(&page));
            trips += visits;
        }
        // Taken step by step, with a new plan at each: one stay at the post.
        engine.open_run("ready_to_drive", &at(2)).unwrap();
        let (mut stays, mut there) = (0, false);
        while let Some(step) = engine.routine(&at(3)).unwrap().unwrap().steps.first() {
            let is_there = step.zone_id == "post";
            stays += usize::from(is_there && !there);
            there = is_there;
            engine.tick(&step.id, &at(3)).unwrap();
        }
        assert!(stays <= 1, "{facts:?}: {stays} stays");
    }
    assert!(trips >= 6, "only {trips} trips to the post at all");
}

#[test]
fn it_does_not_insist_on_gas_off_when_the_fitted_protection_and_the_manual_allow_it_on() {
    let guard = "road_protection = \"crash_sensor\", open_on_the_road_allowed = true";
    let mut engine = with("", "road_protection = \"hose_rupture\"", guard);
    tell(&mut engine, &[("gas_left.valve", "open"), ("gas_right.valve", "shut")], 0);
    tell(&mut engine, &[("local_rules.gas_on_road", "allowed")], 0);
    engine.open_run("ready_to_drive/gas_open", &at(1)).unwrap();
    let page = engine.routine(&at(1)).unwrap().unwrap();
    assert!(!ids(&page).contains(&"gas_left.shut"));
    carry_out(&mut engine, 2);
    assert_eq!(engine.now_page(&at(3)).unwrap().verdict, VerdictKind::Clear);
}

/// Every setting of everything, in several states of every vehicle: never an error, always believed.
/// What a step is for may be done already; what cannot be moved is planned around.
#[test]
fn it_hears_that_something_is_already_done_or_broken() {
    let mut heard = 0;
    for mut engine in vehicles() {
        for (minute, state) in [(1, "as it is"), (2, "under way"), (3, "on the road")] {
            match state {
                "under way" => drop(engine.open_run("ready_to_drive", &at(minute)).unwrap()),
                "on the road" => drop(engine.drive_off(&at(minute)).unwrap()),
                _ => {}
            }
            for thing in engine.things(&at(minute)).unwrap() {
                for choice in &thing.choices {
                    let said = engine.report(&thing.variable, &choice.id, &at(minute));
                    let said = said.unwrap_or_else(|why| panic!("{}: {why}", thing.variable));
                    assert!(!said.entries.is_empty());
                    heard += 1;
                }
                let believed = engine.things(&at(minute)).unwrap();
                let now = believed.iter().find(|one| one.variable == thing.variable).unwrap();
                let last = thing.choices.last().map(|one| one.id.clone());
                assert_eq!(now.believed.first(), last.as_ref(), "{state}: {}", thing.variable);
            }
        }
        for step in engine.steps().unwrap() {
            engine.cannot(&step.id, "broken", &at(4)).unwrap_or_else(|why| {
                let look = step.kind == StepKind::Look;
                assert!(look, "{}: {why}", step.id);
                stowfast_core::engine::Changes::default()
            });
        }
        engine.now_page(&at(5)).unwrap();
    }
    assert!(heard > 200, "only {heard} reports");
}

/// The phone is one, so a step is ticked once, by whoever holds it; the other's list is a view that
/// writes nothing, and says for whose word to wait.
#[test]
fn two_people_one_phone_who_ticks() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    let before = engine.log(100).unwrap();
    let shared = engine.shared("ready_to_drive", &at(2)).unwrap();
    assert_eq!(engine.log(100).unwrap(), before, "a view writes nothing");
    let lists = shared.people.iter().map(|one| one.steps.iter().map(|row| row.step.id.as_str()));
    let all: Vec<_> = lists.flatten().collect();
    let each: BTreeSet<_> = all.iter().copied().collect();
    assert_eq!(each.len(), all.len(), "each step is one person's");
    assert_eq!(shared.people.len(), 2);
    let planned = engine.routine(&at(2)).unwrap().unwrap();
    assert_eq!(each, ids(&planned).into_iter().collect());
    let word = shared.people.iter().flat_map(|one| &one.steps).find_map(|row| row.word_id.clone());
    assert!(word.is_some(), "somebody waits for a word");
    let first = &planned.steps[0].id;
    assert!(each.contains(first.as_str()));
    engine.tick(first, &at(3)).unwrap();
    let later = engine.shared("ready_to_drive", &at(3)).unwrap();
    let left = later.people.iter().flat_map(|one| &one.steps);
    assert!(left.clone().all(|row| row.step.id != *first), "ticked for both");
}

/// The fridge's delay and a boiler's cooling run by the clock that nobody can set.
#[test]
fn no_timer_is_wrong_after_the_phones_clock_or_zone_moved() {
    let clock = |utc_min: i64, up_min: i64, boot: &str| Stamp {
        utc_ms: at(utc_min).utc_ms,
        monotonic: Some(Monotonic { ms: up_min * 60_000, boot: boot.to_owned() }),
    };
    let mut engine = with(
        "",
        "values = { capacity_l = 10, gas_w",
        "values = { cool_min = 60, capacity_l = 10, gas_w",
    );
    let hot = |engine: &Engine, now: &Stamp| {
        engine.refusals("boiler.open_drain", now).unwrap().concat().contains("scalds")
    };
    engine.report("boiler.heat", "electric", &clock(0, 0, "one")).unwrap();
    engine.report("boiler.heat", "off", &clock(10, 10, "one")).unwrap();
    assert!(hot(&engine, &clock(10 + 600, 20, "one")), "the wall clock was set forward");
    assert!(!hot(&engine, &clock(5, 70, "one")), "set back, and an hour went by all the same");
    let restarted = clock(10 + 600, 1, "two");
    assert!(hot(&engine, &restarted), "after a restart nobody can tell, so it may be hot");
    assert!(engine.now_page(&restarted).unwrap().clock_changed, "and the page says so");
    assert!(!engine.now_page(&clock(610, 20, "one")).unwrap().clock_changed);
    // The same of the fridge's wait: what is left follows the time that went by.
    for (variable, setting) in [
        ("fridge.selector", "auto"),
        ("gas_left.valve", "open"),
        ("post.supply", "dead"),
        ("engine.running", "on"),
        ("engine.running", "off"),
    ] {
        engine.report(variable, setting, &clock(620, 30, "one")).unwrap();
    }
    let left = |now: Stamp| engine.fridge(&now).unwrap().unwrap().next_text.unwrap();
    let seven = left(clock(627, 37, "one"));
    for moved_min in [-60, 60, 720] {
        assert_eq!(left(clock(627 + moved_min, 37, "one")), seven, "moved by {moved_min} min");
    }
    assert_ne!(left(clock(627, 39, "one")), seven, "two minutes are two minutes");
}

/// Within one start of the phone the app may be ended at will: the countdown stands in the log.
#[test]
fn the_countdown_is_not_gone_after_the_app_was_ended() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("log.db");
    let next = {
        let mut engine = Engine::open(&path, "en", &at(0)).unwrap();
        engine.add_pack(A, "a.toml", &at(0)).unwrap();
        let facts = [("fridge.selector", "auto"), ("gas_left.valve", "open")];
        tell(&mut engine, &facts, 0);
        tell(&mut engine, &[("post.supply", "dead"), ("engine.running", "on")], 1);
        tell(&mut engine, &[("engine.running", "off")], 100);
        let page = engine.fridge(&at(101)).unwrap().unwrap();
        assert_eq!(page.source, FridgeSource::None, "{page:?}");
        page.next_change_utc_ms.expect("gas comes after the delay")
    };
    let engine = Engine::open(&path, "en", &at(102)).unwrap();
    let page = engine.fridge(&at(102)).unwrap().unwrap();
    assert_eq!(page.next_change_utc_ms, Some(next));
    assert_eq!(engine.fridge(&at(120)).unwrap().unwrap().source, FridgeSource::Gas);
}

/// The phone restarts while the fridge waits: what the log holds is not forgotten. When the engine
/// stopped can no longer be told, so no minute is made up: gas may burn already, and comes at the latest
/// once the phone has been on for the whole wait, which counts down.
#[test]
fn the_countdown_is_not_gone_after_a_phone_restart() {
    let clock = |utc_min: i64, up_min: i64, boot: &str| Stamp {
        utc_ms: at(utc_min).utc_ms,
        monotonic: Some(Monotonic { ms: up_min * 60_000, boot: boot.to_owned() }),
    };
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("log.db");
    {
        let mut engine = Engine::open(&path, "en", &clock(0, 500, "one")).unwrap();
        engine.add_pack(A, "a.toml", &clock(0, 500, "one")).unwrap();
        let facts = [
            ("fridge.selector", "auto"),
            ("gas_left.valve", "open"),
            ("post.supply", "dead"),
            ("engine.running", "on"),
        ];
        for (variable, setting) in facts {
            engine.report(variable, setting, &clock(1, 501, "one")).unwrap();
        }
        engine.report("engine.running", "off", &clock(100, 600, "one")).unwrap();
        let page = engine.fridge(&clock(104, 604, "one")).unwrap().unwrap();
        assert_eq!(page.next_text.as_deref(), Some("Then gas, in about 16 min."), "20 less 4");
    }
    let engine = Engine::open(&path, "en", &clock(106, 1, "two")).unwrap();
    let seen = |up_min: i64| {
        let now = clock(105 + up_min, up_min, "two");
        (engine.fridge(&now).unwrap().unwrap(), engine.now_page(&now).unwrap())
    };
    let mut latest = BTreeSet::new();
    for up_min in [1, 4, 9] {
        let (page, now) = seen(up_min);
        assert!(now.clock_changed, "the page says that the phone was restarted");
        assert_eq!(page.source, FridgeSource::Unknown, "it may burn already");
        let why = page.why.join(" ");
        assert!(why.contains("Not known: when the engine was stopped"), "{why}");
        let next = page.next_text.unwrap();
        assert!(next.contains("at the latest"), "{next}");
        latest.insert(page.next_change_utc_ms.unwrap());
    }
    let started = at(105).utc_ms;
    assert_eq!(latest, BTreeSet::from([started + 20 * 60_000]), "one moment, and it comes nearer");
    let (page, now) = seen(21);
    assert_eq!((page.source, page.next_text), (FridgeSource::Gas, None), "whatever the wait was");
    assert_eq!(now.fridge.unwrap().source, FridgeSource::Gas);
    let zone = |shift_min: i64| engine.fridge(&clock(114 + shift_min, 9, "two")).unwrap().unwrap();
    assert_eq!(
        zone(60).next_text,
        zone(0).next_text,
        "an hour of zone on the wall clock is no hour"
    );
    assert_eq!(zone(-60).next_text, zone(0).next_text);
}

/// Where there is no point for it nothing is let out, whatever the target.
#[test]
fn it_does_not_advise_emptying_waste_where_there_is_no_point_for_it() {
    for level in ["part", "full"] {
        let mut engine = demo();
        tell(&mut engine, &[("waste.level", level), ("pitch.waste_point", "none")], 1);
        for target in engine.targets().unwrap() {
            let page = engine.preview(&target.id, &at(2)).unwrap();
            assert!(!ids(&page).contains(&"waste.open_drain"), "{}", target.id);
        }
    }
}

/// Times are whole seconds in JSON and whole minutes in words.
#[test]
fn no_second_is_invented() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    engine.tick("boiler.switch_off", &at(2)).unwrap();
    let mut pages = Vec::new();
    for minute in [2, 3, 17] {
        let now = at(minute);
        pages.push(serde_json::to_string(&engine.now_page(&now).unwrap()).unwrap());
        pages.push(serde_json::to_string(&engine.routine(&now).unwrap().unwrap()).unwrap());
        pages.push(serde_json::to_string(&engine.shared("ready_to_drive", &now).unwrap()).unwrap());
        pages.push(serde_json::to_string(&engine.fridge(&now).unwrap()).unwrap());
        pages.push(serde_json::to_string(&engine.things(&now).unwrap()).unwrap());
        pages.push(serde_json::to_string(&engine.log(100).unwrap()).unwrap());
        for target in engine.targets().unwrap() {
            pages.push(serde_json::to_string(&engine.preview(&target.id, &now).unwrap()).unwrap());
        }
    }
    for page in &pages {
        let letters: Vec<char> = page.chars().collect();
        let decimal = letters.windows(3).position(|three| {
            three[0].is_ascii_digit() && three[1] == '.' && three[2].is_ascii_digit()
        });
        if let Some(place) = decimal {
            let said: String = letters[place.saturating_sub(40)..place + 10].iter().collect();
            // The one number that is known so well: what a pack says of a battery's volts.
            assert!(said.contains("12 V") || said.contains("volts"), "{said}");
        }
    }
    assert!(pages.len() > 15);
}

/// The vehicle whose pack no longer reads is named; the app starts, the other vehicles work, and a
/// corrected pack brings it back with its log.
#[test]
fn one_typo_in_a_pack_and_the_app_starts_all_the_same() {
    let mut engine = demo();
    let typo = A.replacen("kind = \"boiler\"", "kind = \"boilerr\"", 1);
    let before = (engine.now_page(&at(1)).unwrap(), engine.log(100).unwrap());
    let id = engine.vehicles().unwrap()[0].id;
    let said = engine.replace_pack(id, &typo, "typo.toml", &at(1)).unwrap_err().to_string();
    assert!(said.contains("typo.toml:") && said.contains("expected a kind"), "{said}");
    assert!(engine.add_pack(&typo.replacen("Wren", "Other", 1), "typo.toml", &at(1)).is_err());
    assert_eq!(before, (engine.now_page(&at(1)).unwrap(), engine.log(100).unwrap()));

    // One that was stored by another version, and no longer reads.
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("log.db");
    {
        let (mut store, _) = stowfast_core::store::Store::open(&path, &at(0)).unwrap();
        store.add_vehicle("Wren", &typo, &at(0)).unwrap();
    }
    let engine = Engine::open(&path, "en", &at(1)).unwrap();
    assert_eq!(engine.vehicles().unwrap().len(), 1);
    assert!(engine.vehicles().unwrap()[0].problem.is_some());
    assert!(!engine.notices().unwrap().is_empty());
}

/// A danger that stands: what to do comes first and as sentences, before any list.
#[test]
fn in_danger_a_plan_does_not_begin_with_a_list() {
    let mut engine = demo();
    let facts = [("lead.vehicle_end", "out"), ("lead.post_end", "in"), ("post.switch", "on")];
    tell(&mut engine, &facts, 1);
    let text = &Catalogue::built_in().unwrap().texts["en"];
    let card = text.get("kind.mains_lead.danger.live_connector").unwrap().trim().to_owned();
    let page = engine.preview("pitched_hookup", &at(2)).unwrap();
    assert!(page.warnings[0].starts_with(card.split('.').next().unwrap()), "{:?}", page.warnings);
}

/// An alarm sounds: what to do now comes before everything, in words that take two seconds, on the page
/// and on every way to anything. No steps, and never Clear, until it is silent and looked into.
#[test]
fn at_two_in_the_morning_with_a_co_alarm_it_does_not_show_a_list() {
    let alarms = [
        ("b", "co_alarm", "fresh air"),
        ("b", "smoke_alarm", "fire service"),
        ("c", "co_alarm", "fresh air"),
        ("c", "smoke_alarm", "fire service"),
        ("c", "gas_alarm", "no switch"),
    ];
    for (vehicle, alarm, word) in alarms {
        let mut engine = demo_of(vehicle);
        let sound = format!("{alarm}.sound");
        assert!(engine.now_page(&at(1)).unwrap().emergency.is_empty());
        engine.open_run("ready_to_drive", &at(1)).unwrap();
        let told = engine.report(&sound, "sounding", &at(2)).unwrap();
        assert!(told.warnings[0].starts_with("Everyone out, now"), "{:?}", told.warnings);
        for minute in [2, 3, 2 + 24 * 60] {
            let now = at(minute);
            let page = engine.now_page(&now).unwrap();
            let card = &page.emergency[0];
            assert_eq!((page.emergency.len(), &card.variable), (1, &sound));
            let first = card.text.split(['.', ':']).next().unwrap();
            assert!(first.split_whitespace().count() <= 4, "two seconds: {first}");
            let text = card.text.to_lowercase();
            for part in ["everyone out", "112 or the local number", "nobody goes back in"] {
                assert!(text.contains(part), "{part}: {text}");
            }
            assert!(text.contains(&word.to_lowercase()), "{text}");
            let json = serde_json::to_string(&page).unwrap();
            assert!(json.starts_with("{\"emergency\":[{"), "first of all");
            assert_eq!(page.verdict, VerdictKind::Blocked);
            let mut ways = vec![engine.routine(&now).unwrap().unwrap()];
            for target in engine.targets().unwrap() {
                ways.extend(engine.preview(&target.id, &now));
            }
            for way in &ways {
                assert!(way.warnings[0].starts_with(first), "{:?}", way.warnings);
                assert_eq!(ids(way), [""; 0], "{}", way.run.target_id);
                assert_ne!(way.verdict, VerdictKind::Clear);
                assert_eq!(way.impossible.len(), 1, "{:?}", way.impossible);
            }
        }
        // Silent by itself is not yet the end of it; somebody licensed looks first.
        engine.report(&sound, "stopped", &at(3)).unwrap();
        let card = &engine.now_page(&at(4)).unwrap().emergency[0];
        assert!(card.text.contains("icensed") && !card.text.contains("Everyone out"), "{card:?}");
        engine.report(&sound, "silent", &at(5)).unwrap();
        assert!(engine.now_page(&at(6)).unwrap().emergency.is_empty());
        assert!(!engine.routine(&at(6)).unwrap().unwrap().steps.is_empty(), "and on it goes");
    }
}
