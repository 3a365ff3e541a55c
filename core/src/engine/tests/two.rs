//! Two people carry out what the lists say, at the times that they say.

use super::{at, tell};
use crate::clock::Stamp;
use crate::engine::{Engine, SharedPage, SharedStepRow, StepKind};

fn laying_up(vehicle: &str) -> (Engine, SharedPage) {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_demo(vehicle, &at(0)).unwrap();
    tell(&mut engine, &[("pitch.waste_point", "here")], &at(0));
    if vehicle != "b" {
        tell(&mut engine, &[("boiler.heat", "gas")], &at(0));
    }
    engine.open_run("laid_up_winter", &at(1)).unwrap();
    let page = engine.shared("laid_up_winter", &at(1)).unwrap();
    (engine, page)
}

fn after(s: i32) -> Stamp {
    Stamp::utc(at(1).utc_ms + i64::from(s) * 1_000)
}

/// Every step of both lists but the waits, with who does it, by when it ends.
fn steps(page: &SharedPage) -> Vec<(usize, i32, &SharedStepRow)> {
    let people = page.people.iter().enumerate();
    let rows = people.flat_map(|(person, list)| list.steps.iter().map(move |row| (person, row)));
    let work = rows.filter(|(_, row)| row.step.kind != StepKind::Wait);
    let mut all: Vec<_> =
        work.map(|(person, row)| (person, row.start_s + row.step.hands_on_s, row)).collect();
    all.sort_by_key(|(_, end_s, _)| *end_s);
    all
}

/// Ticked when it ends, nothing is warned of; in the end nothing is left to do.
#[test]
fn two_lay_up_for_the_winter_as_their_lists_say() {
    for (vehicle, saves_s) in [("a", 20), ("b", 240), ("c", 120)] {
        let (mut engine, page) = laying_up(vehicle);
        assert_eq!(page.people.len(), 2);
        assert!(page.elapsed_s + saves_s <= page.alone_s, "{vehicle}: {}", page.headline);
        for (_, end_s, row) in steps(&page) {
            assert!(end_s <= page.elapsed_s);
            let changes = engine.tick(&row.step.id, &after(end_s)).unwrap();
            assert_eq!(changes.warnings, [""; 0], "{vehicle}: {}", row.step.id);
        }
        let left = engine.routine(&after(page.elapsed_s)).unwrap().unwrap();
        assert_eq!(left.steps, [], "{vehicle}: {}", left.headline);
        assert_eq!(left.finished, page.impossible.is_empty(), "{vehicle}: {:?}", page.impossible);
    }
}

#[test]
fn the_list_of_whoever_drains_the_boiler_says_how_long_to_wait_and_the_other_says_for_whom() {
    let (mut engine, page) = laying_up("a");
    let lists = page.people.iter().map(|list| &list.steps);
    let place = |rows: &[SharedStepRow], id: &str| rows.iter().position(|row| row.step.id == id);
    let (drains, other): (Vec<_>, Vec<_>) =
        lists.partition(|rows| place(rows, "boiler.open_drain").is_some());
    let [drains] = drains.as_slice() else { panic!("one drains it") };
    let drain = place(drains, "boiler.open_drain").unwrap();
    let wait = &drains[drain - 1];
    assert_eq!(wait.step.id, "boiler.heat.cool_min.wait");
    assert!(wait.step.text.contains("has cooled: about 5"), "{}", wait.step.text);
    assert!(wait.step.why.iter().any(|why| why.contains("scalds")), "{:?}", wait.step.why);
    assert_eq!(wait.start_s + wait.step.wait_s + drains[drain].step.walk_s, drains[drain].start_s);
    let waits = page.people.iter().flat_map(|list| &list.steps);
    assert_eq!(waits.filter(|row| row.step.kind == StepKind::Wait).count(), 1);
    let word = other.iter().flat_map(|rows| rows.iter()).filter_map(|row| row.word_text.as_deref());
    assert!(word.clone().any(|word| word.starts_with("Wait for the word, about 5")), "{page:?}");
    // A minute too soon it is hot.
    for (_, end_s, row) in steps(&page) {
        let is_drain = row.step.id == "boiler.open_drain";
        let now = after(if is_drain { end_s - 70 } else { end_s });
        let warned = !engine.tick(&row.step.id, &now).unwrap().warnings.is_empty();
        assert_eq!(warned, is_drain, "{}", row.step.id);
        if is_drain {
            break;
        }
    }
}

/// Laying up comes in an order that a technician would keep, over both lists.
#[test]
fn two_lay_up_in_the_order_of_the_trade() {
    let (_, page) = laying_up("a");
    let all = steps(&page);
    let row = |id: &str| all.iter().find(|one| one.2.step.id == id).unwrap();
    for (first, then) in [
        ("boiler.switch_off", "boiler.cover_on"),
        ("boiler.switch_off", "gas_left.lay_up"),
        ("gas_left.shut", "gas_left.lay_up"),
        ("pump.switch_off", "fresh.open_drain"),
        ("waste_hose.connect", "waste.open_drain"),
        ("mains_switch.switch_off", "post.switch_off"),
        ("post.switch_off", "lead.unplug"),
        ("lead.unplug", "lead.disconnect_vehicle"),
        ("lead.disconnect_vehicle", "inlet_flap.shut"),
        ("tap_galley.open_mixer", "boiler.open_drain"),
        ("boiler.open_drain", "tap_galley.run_mixer_empty"),
        ("tap_galley.run_mixer_empty", "waste_hose.stow"),
    ] {
        let (one, two) = (row(first), row(then));
        assert!(one.1 <= two.2.start_s, "{first} before {then}");
        assert!(one.0 == two.0 || page.people[two.0].steps.iter().any(|row| row.word_id.is_some()));
    }
    let lead = all.iter().filter(|one| one.2.step.id.starts_with("lead."));
    let owners: Vec<_> = lead.map(|one| one.0).collect();
    assert!(owners.len() == 3 && owners.iter().all(|one| *one == owners[0]), "{owners:?}");
}
