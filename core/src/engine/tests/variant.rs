//! Named variants of a target: which one is meant, what is offered beside it, what the log keeps.

use std::str::FromStr as _;

use super::facts::guarded;
use super::{at, carry_out, demo, tell};
use crate::catalogue::{Catalogue, Target};
use crate::engine::VerdictKind;
use crate::engine::loaded::Loaded;
use crate::error::Error;
use crate::pack;
use crate::state::{Act, Entry, How, NewEntry};
use crate::units::Units;
use crate::vehicle::Vehicle;

const OPEN: &str = "ready_to_drive/gas_open";

/// Insisting on gas off where protection and manual allow it on would be wrong; so would be leaving
/// it open by itself.
#[test]
fn gas_open_is_offered_where_it_is_allowed_and_shut_is_meant_until_it_is_chosen() {
    let mut engine = guarded();
    tell(&mut engine, &[("gas_left.valve", "open"), ("gas_right.valve", "shut")], &at(0));
    engine.report("local_rules.gas_on_road", "allowed", &at(0)).unwrap();
    let page = engine.preview("ready_to_drive", &at(0)).unwrap();
    let ids = |page: &crate::engine::RoutinePage| {
        page.steps.iter().map(|step| step.id.clone()).collect::<Vec<_>>()
    };
    assert!(ids(&page).contains(&"gas_left.shut".to_owned()));
    let [shut, open] = page.variants.as_slice() else { panic!("{:?}", page.variants) };
    assert_eq!((shut.id.as_str(), shut.chosen), ("ready_to_drive/gas_shut", true));
    assert_eq!((open.id.as_str(), open.chosen), (OPEN, false));
    assert_eq!(usize::try_from(shut.step_count), Ok(page.steps.len()));
    let other = engine.preview(OPEN, &at(0)).unwrap();
    assert!(!ids(&other).contains(&"gas_left.shut".to_owned()));
    assert_eq!(other.variants, [], "the others are not planned where one is named");
    assert_eq!(usize::try_from(open.step_count), Ok(other.steps.len()));
    assert_eq!(open.elapsed_s, other.elapsed_s);
    assert_eq!(open.gesture_count, other.gesture_count);

    engine.open_run(OPEN, &at(1)).unwrap();
    let run = engine.routine(&at(1)).unwrap().unwrap();
    assert_eq!(run.run.target_title, "Get ready to drive, gas open");
    assert_eq!(run.run.target_id, "ready_to_drive");
    assert_eq!(ids(&run), ids(&other));
    engine.pause(&at(2)).unwrap();
    engine.resume(&at(3)).unwrap();
    carry_out(&mut engine, &at(4));
    let now = engine.now_page(&at(5)).unwrap();
    assert_eq!(now.verdict, VerdictKind::Clear, "{:?}", now.items);
    assert!(now.place_title.contains("open, as the maker's manual allows"), "shown");
    engine.report("engine.wheels", "moving", &at(6)).unwrap();
    engine.report("engine.wheels", "still", &at(60)).unwrap();
    let next = engine.preview("ready_to_drive", &at(60)).unwrap();
    assert!(next.variants[0].chosen, "the next trip is chosen for anew");
}

/// The cylinder stands open already: what keeps it from staying so is a rule that nobody has asked of.
#[test]
fn what_is_so_already_is_not_refused_but_the_fact_that_keeps_it_from_staying_is_asked_for() {
    let mut engine = guarded();
    tell(&mut engine, &[("gas_left.valve", "open"), ("gas_right.valve", "shut")], &at(0));
    let page = engine.preview(OPEN, &at(0)).unwrap();
    let [reason] = page.impossible.as_slice() else { panic!("{:?}", page.impossible) };
    assert!(reason.contains("Ask them, then say what they told you."), "{reason}");
    assert!(reason.contains("not known") && !reason.contains("one cylinder is open"), "{reason}");
    engine.report("local_rules.gas_on_road", "forbidden", &at(1)).unwrap();
    let page = engine.preview(OPEN, &at(1)).unwrap();
    assert!(page.impossible.concat().contains("forbidden"), "{:?}", page.impossible);
    engine.report("local_rules.gas_on_road", "allowed", &at(2)).unwrap();
    assert_eq!(engine.preview(OPEN, &at(2)).unwrap().impossible, [""; 0]);
}

#[test]
fn a_choice_that_is_taken_back_no_longer_counts() {
    let mut engine = guarded();
    tell(&mut engine, &[("gas_left.valve", "open"), ("gas_right.valve", "shut")], &at(0));
    let entries = engine.open_run(OPEN, &at(1)).unwrap().entries;
    engine.unmark(entries[1], &at(2)).unwrap();
    let page = engine.routine(&at(2)).unwrap().unwrap();
    assert!(page.steps.iter().any(|step| step.id == "gas_left.shut"));
    assert_eq!(page.run.target_title, "Get ready to drive");
}

#[test]
fn a_variant_that_the_pack_does_not_allow_is_neither_offered_nor_opened() {
    let mut engine = demo();
    assert_eq!(engine.preview("ready_to_drive", &at(1)).unwrap().variants, []);
    let Err(Error::Conflict { detail }) = engine.open_run(OPEN, &at(1)) else { panic!("opened") };
    let said = "Get ready to drive, gas open: the pack of this vehicle does not allow it.";
    assert_eq!(detail, said);
    let none = engine.preview("ready_to_drive/gas_ajar", &at(1));
    assert!(matches!(none, Err(Error::NotFound { kind: "variant", .. })));
}

/// The built-in catalogue with one target more.
fn with_target(text: &str) -> &'static Catalogue {
    let mut catalogue = Catalogue::built_in().unwrap().clone();
    let mut target: Target = toml::Table::from_str(text).unwrap().try_into().unwrap();
    target.id = "made_up".to_owned();
    catalogue.targets.push(target);
    Box::leak(Box::new(catalogue))
}

fn loaded(catalogue: &'static Catalogue, stuck: Option<&str>) -> Loaded {
    let read = pack::read("a", super::PACK.as_bytes(), catalogue).unwrap();
    let vehicle = Vehicle::new(&read, catalogue).unwrap();
    let mut loaded = Loaded::new(1, catalogue, vehicle, Vec::new(), Units::Metric);
    if let Some(step) = stuck {
        let step_out = vec!["out".to_owned()];
        let variable = loaded.vehicle.variable("step.step").unwrap();
        let facts = vec![loaded.fact(variable, step_out, How::Told)];
        let told = NewEntry { facts, ..loaded.entry(Act::Report, &at(0)) };
        let cannot = loaded.entry(Act::Cannot { step: step.to_owned() }, &at(0));
        loaded.extend(&[Entry { seq: 1, said: told }, Entry { seq: 2, said: cannot }]);
    }
    loaded
}

#[test]
fn the_cheapest_variant_with_a_way_is_meant_and_the_others_say_why_not() {
    let catalogue = with_target(
        "rank = 90
        [[goal]]
        id = 'step'
        any_of = [{ each = 'entrance_step.step', in = ['out'] }]
        [[variant]]
        id = 'far'
        [[variant.goal]]
        id = 'lead'
        any_of = [{ each = 'mains_lead.coil', in = ['uncoiled'] }]
        [[variant]]
        id = 'near'
        [[variant.goal]]
        id = 'step'
        any_of = [{ each = 'entrance_step.step', in = ['in'] }]",
    );
    let meant = |stuck: Option<&str>| {
        let loaded = loaded(catalogue, stuck);
        let words = loaded.words("en").unwrap();
        let aim = loaded.aim(&words, "made_up", &at(1)).unwrap();
        let rows = loaded.variants(&words, &aim, &at(1)).unwrap();
        let chosen = rows.iter().filter(|row| row.chosen).count();
        assert_eq!(chosen, 1);
        (aim.variant.clone().unwrap(), aim.goals.len(), rows)
    };
    let (variant, goals, rows) = meant(None);
    assert_eq!((variant.as_str(), goals), ("near", 1), "the own goal takes the common one's place");
    assert!(rows[0].elapsed_s > rows[1].elapsed_s);
    let (variant, goals, rows) = meant(Some("step.in"));
    assert_eq!((variant.as_str(), goals), ("far", 2));
    assert!(!rows[1].impossible.is_empty(), "{rows:?}");
}
