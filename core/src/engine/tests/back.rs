//! Put back: a routine to how things stood before an entry of the log.

use super::{at, carry_out, demo};
use crate::engine::Engine;
use crate::error::Error;

fn believed(engine: &Engine, variable: &str) -> Vec<String> {
    let things = engine.things(&at(60)).unwrap();
    things.into_iter().find(|one| one.variable == variable).unwrap().believed
}

/// The tank was drained and the lead stowed: the lead goes back, the water does not, and it says so.
#[test]
fn put_back_after_draining_and_unhooking_hooks_up_again_and_names_the_water() {
    let mut engine = demo();
    let opened = engine.open_run("parked_only", &at(1)).unwrap().entries[0];
    engine.tick("fresh.open_drain", &at(2)).unwrap();
    carry_out(&mut engine, &at(10));
    assert_eq!(believed(&engine, "lead.post_end"), ["out"]);
    let page = engine.preview(&format!("back/{opened}"), &at(20)).unwrap();
    let water = "Fresh tank was above the travel fill, and is empty. No step puts that back.";
    assert_eq!(page.impossible, [water]);
    engine.open_run(&format!("back/{opened}"), &at(20)).unwrap();
    assert!(carry_out(&mut engine, &at(25)) > 5);
    for (variable, was) in [
        ("lead.coil", "uncoiled"),
        ("lead.vehicle_end", "in"),
        ("lead.post_end", "in"),
        ("post.switch", "on"),
        ("mains_switch.lever", "on"),
        ("boiler.heat", "electric"),
        ("fresh.drain", "shut"),
        ("pump.power", "on"),
    ] {
        assert_eq!(believed(&engine, variable), [was], "{variable}");
    }
    let page = engine.routine(&at(60)).unwrap().unwrap();
    assert_eq!(page.steps.len(), 0);
    assert_eq!(page.impossible, [water.replace("empty", "full")]);
    assert!(!page.finished, "the water is not back");
    assert_eq!(page.run.target_title, format!("Put back as before entry {opened}"));
}

#[test]
fn what_was_not_known_then_is_left_alone() {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_pack(super::PACK, "a.toml", &at(0)).unwrap();
    let first = engine.report("step.step", "in", &at(1)).unwrap().entries[0];
    let second = engine.report("step.step", "out", &at(2)).unwrap().entries[0];
    engine.report("inlet_flap.leaf", "open", &at(3)).unwrap();
    let steps = |entry: i64| {
        let page = engine.preview(&format!("back/{entry}"), &at(4)).unwrap();
        page.steps.into_iter().map(|step| step.id).collect::<Vec<_>>()
    };
    assert_eq!(steps(second), ["step.in"]);
    assert_eq!(steps(first), [""; 0], "nothing was known before the first entry");
}

/// A fact changes by being said and by nothing else.
#[test]
fn a_fact_is_not_put_back_and_the_rest_is() {
    let mut engine = demo();
    let dead = engine.report("post.supply", "dead", &at(1)).unwrap().entries[0];
    engine.tick("step.in", &at(2)).unwrap();
    let page = engine.preview(&format!("back/{dead}"), &at(3)).unwrap();
    let steps: Vec<_> = page.steps.iter().map(|step| step.id.as_str()).collect();
    assert_eq!(steps, ["step.out"]);
    assert!(page.impossible.iter().any(|line| line.contains("No step changes that")));
}

#[test]
fn what_was_taken_back_was_never_so_and_an_unknown_entry_is_said() {
    let mut engine = demo();
    let folded = engine.tick("step.in", &at(1)).unwrap().entries[0];
    let later = engine.note("supper", &at(2)).unwrap().entries[0];
    engine.unmark(folded, &at(3)).unwrap();
    let page = engine.preview(&format!("back/{later}"), &at(4)).unwrap();
    assert!(page.finished, "{:?}", page.steps);
    for unknown in ["back/999", "back/x", "back"] {
        assert!(matches!(engine.open_run(unknown, &at(5)), Err(Error::NotFound { .. })));
    }
}
