//! What does not work in every invented vehicle, word for word as the command says it; each command
//! is a process of its own, so every search here goes on after its process has ended.
//!
//! Golden files stand in `tests/golden/faults/`; `UPDATE_GOLDEN=1 cargo test --test fault` writes
//! them anew.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test fails loudly"
)]

mod call;

use std::fmt::Write as _;
use std::process::Stdio;
use std::time::Duration;

use call::{Place, golden, stowfast};
use serde_json::Value;

impl Place {
    fn json(&self, args: &[&str]) -> Value {
        let said = self.says(&[&["--json"], args].concat());
        let value: Value = serde_json::from_str(&said).unwrap();
        assert_eq!(value["stowfast_json"], 2);
        value
    }

    /// What a command that fails says, and its exit code.
    fn refuses(&self, args: &[&str]) -> (i32, String) {
        let output = self.run(args);
        (output.status.code().unwrap(), String::from_utf8(output.stderr).unwrap())
    }
}

#[test]
fn what_may_not_work_in_each_vehicle_and_what_to_look_at_first() {
    for vehicle in ["a", "b", "c"] {
        let place = Place::new(vehicle);
        let mut said = place.says(&["faults"]);
        for row in place.json(&["faults"])["faults"].as_array().unwrap() {
            let _ = write!(said, "\n{}", place.says(&["fault", row["id"].as_str().unwrap()]));
        }
        golden(&format!("faults/{vehicle}.txt"), &said);
    }
}

/// All as it should be, and yet it does not run: to the workshop with an account.
#[test]
fn a_search_that_finds_nothing_ends_with_an_account() {
    let place = Place::new("a");
    let fault = "pump_does_not_run";
    let mut said = String::new();
    for _ in 0..20 {
        let page = place.json(&["fault", fault]);
        let Some(answers) = page["fault"]["question"]["answers"].as_array() else { break };
        // The last but one says that it is as it should be; the last, that it cannot be looked at.
        let answer = answers[answers.len() - 2]["id"].as_str().unwrap();
        let asked = page["fault"]["question"]["id"].as_str().unwrap();
        said = place.says(&["fault", fault, asked, answer]);
    }
    golden("faults/a_workshop.txt", &said);
    assert_eq!(place.json(&["fault", fault])["fault"]["fault"]["stage"], "helper");
    assert!(place.says(&["faults"]).contains("Water pump does not run – begun"));
}

#[test]
fn a_cause_is_found_mended_and_taken_back() {
    let place = Place::new("a");
    let fault = "pump_never_stops";
    let said = place.says(&["fault", fault, "taps", "open"]);
    let recorded = "] Water pump never stops: Is any tap open? One is open, or drips.\n";
    assert!(said.starts_with("Recorded [") && said.contains(recorded), "{said}");
    assert!(said.contains("A tap is open.") && said.contains("tap_galley.shut"), "{said}");
    let said = place.says(&["fault", fault, "cause.tap_open", "mended"]);
    assert!(said.contains("It works again."), "{said}");
    assert!(place.says(&["faults"]).contains("never stops – works again"));
    let said = place.says(&["fault", fault, "--undo"]);
    assert!(said.contains("That is the cause, as far as is known."), "{said}");
    let said = place.says(&["fault", fault, "--again"]);
    assert!(!said.contains("\nSaid\n"), "{said}");
    assert!(place.says(&["log", "2"]).contains("Water pump never stops: Started again."));
}

/// Killed at any moment, an answer is there whole, with the fact that it gives, or not at all; the
/// search goes on from there.
#[test]
fn a_killed_search_goes_on_where_it_was() {
    let place = Place::new("a");
    let run = || {
        let mut command = stowfast(place.folder.path());
        command.args(["--now", "2026-07-14T08:00:00Z"]);
        command.args(["fault", "pump_never_stops", "drain", "open"]);
        command.stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap()
    };
    // Later and later, however slow the machine is: cut off at every point, and in the end not.
    let (mut kept, mut cut) = (0, 0);
    for step in 0..400 {
        if kept == 8 {
            break;
        }
        let mut killed = run();
        std::thread::sleep(Duration::from_millis(step * 3));
        killed.kill().unwrap();
        killed.wait().unwrap();
        let page = place.json(&["fault", "pump_never_stops"]);
        let answered = page["fault"]["tried"].as_array().unwrap().len() == 1;
        let things = place.json(&["things"]);
        let mut things = things["things"].as_array().unwrap().iter();
        let drain = things.find(|row| row["variable"] == "boiler.drain").unwrap();
        assert_eq!(drain["believed"][0] == "open", answered, "at step {step}");
        if answered {
            kept += 1;
            place.says(&["fault", "pump_never_stops", "--undo"]);
        } else {
            cut += 1;
        }
    }
    assert!(kept > 0 && cut > 0, "all or none of them were killed too early: {kept}, {cut}");
}

#[test]
fn what_cannot_be_understood_says_what_was_expected() {
    let place = Place::new("a");
    for (args, code, expected) in [
        (&["fault"][..], 2, "expected `stowfast fault FAULT [CHECK ANSWER]`"),
        (
            &["fault", "pump_never_stops", "taps"],
            2,
            "expected `stowfast fault FAULT [CHECK ANSWER]`",
        ),
        (&["faults", "--undo"], 2, "--undo and --again: go with `fault FAULT`"),
        (&["fault", "pump_never_stop"], 3, "Did you mean pump_never_stops"),
        (&["fault", "pump_never_stops", "tap", "open"], 3, "What is asked: stowfast fault FAULT"),
        (
            &["fault", "pump_never_stops", "taps", "ajar"],
            3,
            "Is any tap open: expected open or shut or cannot",
        ),
        (&["fault", "no_12v", "--undo"], 4, "No 12 V: nothing was answered yet"),
    ] {
        let (found, said) = place.refuses(args);
        assert!(found == code && said.contains(expected), "{args:?}: {found}: {said}");
    }
}
