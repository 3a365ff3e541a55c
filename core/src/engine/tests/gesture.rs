//! What one gesture confirms, and what becomes of the odd line.

use std::io::Write as _;

use super::{at, carry_out, demo, tell};
use crate::clock::Stamp;
use crate::engine::{
    Engine, GestureKind, GestureRow, Line, Odd, RoutinePage, StepKind, VerdictKind,
};
use crate::error::Error;
use crate::routine::LINES_MAX;

fn page(engine: &Engine, minute: i64) -> RoutinePage {
    engine.routine(&at(minute)).unwrap().unwrap()
}

fn gestures(page: &RoutinePage) -> Vec<&GestureRow> {
    page.stops.iter().flat_map(|stop| &stop.gestures).collect()
}

fn lines(steps: &[String]) -> Vec<Line> {
    steps.iter().map(|step| Line { step: step.clone(), odd: None }).collect()
}

/// Confirms whatever comes first until nothing is left; how many gestures that took.
fn confirm_all(engine: &mut Engine, minute: i64) -> usize {
    for taken in 0..40 {
        let page = page(engine, minute);
        let Some(first) = gestures(&page).first().copied().cloned() else { return taken };
        let changes = engine.confirm(&lines(&first.steps), &at(minute)).unwrap();
        assert_eq!(changes.warnings, [""; 0], "{first:?}");
    }
    panic!("no end to it");
}

/// `design.md` §5. The trip's morning: hooked up, a night's settings, the waste let out, and every
/// look finds what is expected.
#[test]
fn leaving_the_hook_up_with_all_well_takes_at_most_12_gestures() {
    let mut engine = demo();
    engine.report("waste.level", "empty", &at(1)).unwrap();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    let planned = page(&engine, 1);
    let taken = confirm_all(&mut engine, 1);
    let said = format!("{} steps in {taken} gestures", planned.steps.len());
    writeln!(std::io::stderr(), "{said}").unwrap();
    assert!(taken <= 12, "{said}");
    assert_eq!(planned.gesture_count, i32::try_from(taken).unwrap(), "as the page promised");
    assert_eq!(engine.now_page(&at(2)).unwrap().verdict, VerdictKind::Clear);
    assert!(page(&engine, 2).finished);
    assert!(!page(&engine, 2).end_text.is_empty(), "the end is announced");
}

#[test]
fn gestures_of_their_own_are_for_what_the_catalogue_names_and_no_list_is_longer_than_seven() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    let page = page(&engine, 1);
    let own = gestures(&page).into_iter().filter(|one| one.kind == GestureKind::Own);
    let own: Vec<_> = own.flat_map(|one| &one.steps).collect();
    assert_eq!(
        own,
        [
            "roof_lounge.leaf.look",
            "roof_bed.shut",
            "gas_left.shut",
            "gas_right.valve.look",
            "step.in",
            "lead.unplug",
            "lead.disconnect_vehicle",
        ]
    );
    for gesture in gestures(&page) {
        assert!((1..=LINES_MAX).contains(&gesture.steps.len()));
        assert_eq!(gesture.lines.len(), gesture.steps.len());
        let hazard = |id: &String| page.steps.iter().any(|step| step.id == *id && step.hazard);
        let asked = gesture.kind == GestureKind::Own || gesture.steps.iter().any(hazard);
        assert_eq!(gesture.hold, asked, "{gesture:?}");
    }
    let together: Vec<_> = gestures(&page).iter().flat_map(|one| one.steps.clone()).collect();
    let steps: Vec<_> = page.steps.iter().map(|step| step.id.clone()).collect();
    assert_eq!(together, steps, "the gestures are the steps, in their order");
    assert!(gestures(&page)[0].lines[0].ends_with(": shut and locked"), "the wanted state");
}

/// Both roof lights in one zone are one gesture; the window beside them is not part of it.
#[test]
fn roof_lights_of_a_stop_are_one_gesture() {
    let pack = super::PACK.replace(
        "title = \"roof light over the bed\"\nzone = \"bed\"",
        "title = \"roof light over the bed\"\nzone = \"lounge\"",
    );
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_pack(&pack, "roofs.toml", &at(0)).unwrap();
    tell(&mut engine, &[("engine.wheels", "still"), ("handbrake.lever", "on")], &at(0));
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    let page = page(&engine, 1);
    let roofs: Vec<_> =
        gestures(&page).into_iter().filter(|one| one.steps[0].starts_with("roof")).collect();
    assert_eq!(roofs.len(), 1, "{roofs:?}");
    assert_eq!(roofs[0].steps, ["roof_lounge.leaf.look", "roof_bed.leaf.look"]);
}

#[test]
fn the_odd_line_says_what_it_is_and_the_others_count() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    engine.tick("roof_lounge.leaf.look", &at(1)).unwrap();
    let list = gestures(&page(&engine, 1))[0].steps.clone();
    let mut said = lines(&list);
    for line in &mut said {
        line.odd = match line.step.as_str() {
            "window_bed.leaf.look" => Some(Odd::Seen("open".to_owned())),
            "drawers.latch" => Some(Odd::Cannot("broken catch".to_owned())),
            _ => None,
        };
    }
    let entries = engine.confirm(&said, &at(2)).unwrap().entries;
    assert_eq!(entries.len(), list.len(), "one transaction, one entry for each line");
    let page = page(&engine, 2);
    assert!(page.steps.iter().any(|step| step.id == "window_bed.shut"), "it came back open");
    assert!(page.stuck.iter().any(|row| row.text.contains("broken catch")));
    let left: Vec<_> = page.steps.iter().filter(|step| list.contains(&step.id)).collect();
    assert!(left.is_empty(), "{left:?}");
    engine.unmark(entries[0], &at(3)).unwrap();
    assert!(self::page(&engine, 3).steps.iter().any(|step| step.id == list[0]));
}

#[test]
fn a_list_that_is_confirmed_out_of_turn_is_taken_and_warned_about() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    let steps = ["pump.switch_off", "lead.disconnect_vehicle", "lead.unplug"].map(str::to_owned);
    let changes = engine.confirm(&lines(&steps), &at(1)).unwrap();
    assert_eq!(changes.entries.len(), 3);
    assert_eq!(changes.warnings.iter().filter(|one| one.contains("too early")).count(), 3);
}

/// Each line is judged with what is believed by then: off at the post first, and pulling the plug
/// is no longer too early.
#[test]
fn each_line_is_judged_after_the_one_before_it() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    let steps = ["boiler.switch_off", "mains_switch.switch_off", "post.switch_off", "lead.unplug"];
    let steps = steps.map(str::to_owned);
    assert_eq!(engine.confirm(&lines(&steps), &at(1)).unwrap().warnings, [""; 0]);
}

#[test]
fn a_list_with_one_wrong_line_writes_nothing() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    let before = engine.log(50).unwrap();
    let odd = |step: &str, setting: &str| {
        let odd = Some(Odd::Seen(setting.to_owned()));
        vec![
            Line { step: "pump.switch_off".to_owned(), odd: None },
            Line { step: step.to_owned(), odd },
        ]
    };
    let said = [
        odd("window_bed.leaf.look", "melted"),
        odd("step.in", "in"),
        lines(&["pump.switch_off".to_owned(), "pump.sing".to_owned()]),
        Vec::new(),
    ];
    for list in said {
        let error = engine.confirm(&list, &at(1)).unwrap_err();
        assert!(matches!(error, Error::InvalidInput { .. } | Error::NotFound { .. }), "{list:?}");
    }
    assert_eq!(engine.log(50).unwrap(), before);
}

/// Steps change places for the sake of a list only where neither bears on the other: carried out
/// by gestures or step by step, the same is done in the same zones.
#[test]
fn a_list_holds_nothing_that_hangs_on_another_line_of_it() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    let page = page(&engine, 1);
    for gesture in gestures(&page) {
        // Backwards every line is as permitted as forwards.
        let turned: Vec<_> = gesture.steps.iter().rev().cloned().collect();
        assert_eq!(engine.confirm(&lines(&turned), &at(1)).unwrap().warnings, [""; 0]);
    }
    assert_eq!(carry_out(&mut engine, &at(1)), 0);
}

/// After a pause one goes back a step and reads it again.
#[test]
fn after_a_pause_the_last_step_is_read_again() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    engine.tick("roof_lounge.leaf.look", &at(1)).unwrap();
    engine.pause(&at(2)).unwrap();
    engine.resume(&at(3)).unwrap();
    let page = page(&engine, 3);
    assert!(page.resumed_from_pause && page.done[0].text.contains("Roof light over the lounge"));
    assert_eq!(page.steps[0].id, "roof_lounge.leaf.look", "and is looked at again");
}

/// The demo vehicle with a hob that was just put out under its open lid.
fn hot_hob(pack_values: &str) -> Engine {
    let hob = "\n[[fitting]]\nid = \"hob\"\nkind = \"hob\"\ntitle = \"hob\"\nzone = \"galley\"\n";
    let values = "values = { cool_min = 20 }\n";
    let pack = super::PACK.replace("home_zone", &format!("{pack_values}\nhome_zone"));
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_pack(&format!("{pack}{hob}{values}"), "hob.toml", &at(0)).unwrap();
    let facts = [("engine.wheels", "still"), ("handbrake.lever", "on"), ("hob.lid", "up")];
    tell(&mut engine, &facts, &at(0));
    engine.tick("hob.put_out", &at(0)).unwrap();
    engine
}

#[test]
fn how_far_a_list_runs_on_stands_in_the_pack() {
    let gestures = |pack_value: &str| {
        let engine = hot_hob(pack_value);
        engine.preview("ready_to_drive", &at(30)).unwrap().gesture_count
    };
    assert_eq!(gestures("list_walk_s = 10"), gestures(""));
    assert!(gestures("list_walk_s = 0") > gestures(""));
}

#[test]
fn a_long_wait_ends_a_part_and_that_is_announced() {
    let parts = |engine: &Engine| {
        let page = engine.preview("ready_to_drive", &at(0)).unwrap();
        let last = page.stops.last().unwrap().part;
        (last, page.stops.iter().filter_map(|stop| stop.part_end.clone()).collect::<Vec<_>>())
    };
    let mut engine = hot_hob("");
    let (last, ends) = parts(&engine);
    assert_eq!((last, ends.len()), (2, 1));
    assert!(ends[0].starts_with("End of part 1. Then about "), "{ends:?}");
    assert_eq!(parts(&hot_hob("part_wait_min = 30")), (1, Vec::new()), "the pack says how long");

    engine.open_run("ready_to_drive", &at(0)).unwrap();
    let mut left = 40;
    let announced = loop {
        let page = page(&engine, 0);
        if let Some(end) = page.part_end {
            break end;
        }
        engine.tick(&page.steps[0].id, &at(0)).unwrap();
        left -= 1;
        assert!(left > 0);
    };
    assert!(announced.starts_with("This part is done. Now: "), "{announced}");
    assert!(
        announced.contains("Plug of the mains lead: out of the post"),
        "what is now true: {announced}"
    );
    assert!(page(&engine, 25).part_end.is_none(), "and is over by itself");
}

/// The lid is shut once the hob is cold: one walks there meanwhile, and what is left to wait
/// goes down while one stands there, not while one walks.
#[test]
fn what_is_left_of_a_wait_is_told_where_it_is_waited() {
    let mut engine = hot_hob("");
    engine.open_run("ready_to_drive", &at(0)).unwrap();
    let mut page = page(&engine, 0);
    while page.steps[0].kind != StepKind::Wait {
        engine.tick(&page.steps[0].id, &at(0)).unwrap();
        page = engine.routine(&at(0)).unwrap().unwrap();
    }
    let after = |seconds: i32| {
        let now = Stamp::utc(at(0).utc_ms + i64::from(seconds) * 1_000);
        let page = engine.routine(&now).unwrap().unwrap();
        (page.steps[0].walk_s, page.steps[0].wait_s, page.steps[1].walk_s)
    };
    let (walk_s, wait_s, _) = after(0);
    assert!(walk_s > 1 && wait_s > 60, "{walk_s} {wait_s}");
    assert_eq!(page.steps[0].zone_id, page.steps[1].zone_id);
    assert_eq!(after(0), (walk_s, wait_s, 0));
    assert_eq!(after(1), (walk_s - 1, wait_s, 0), "on the way");
    assert_eq!(after(walk_s), (0, wait_s, 0), "there");
    assert_eq!(after(walk_s + 60), (0, wait_s - 60, 0));
    let left = |seconds: i32| {
        let now = Stamp::utc(at(0).utc_ms + i64::from(seconds) * 1_000);
        engine.routine(&now).unwrap().unwrap().waits_s
    };
    assert_eq!(page.waits_s, Some(walk_s + wait_s), "a reminder may be set");
    assert_eq!(left(walk_s + 60), Some(wait_s - 60));
    assert_eq!(left(walk_s + wait_s), None, "over when it was said to be");
    assert_eq!(page.again_s, Some(walk_s + wait_s), "and the page is to be read anew then");
    assert_eq!(engine.preview("ready_to_refuel", &at(0)).unwrap().waits_s, None);
}
