//! What the command says to a driver: the drive card, and what the fridge needs ahead.

#![allow(clippy::unwrap_used, reason = "a test that cannot be set up fails")]

mod call;

use call::stowfast;

/// What the command says of a fresh invented vehicle, after `told` was said.
fn says(vehicle: &str, told: &[&[&str]], asked: &[&str]) -> String {
    let folder = tempfile::tempdir().unwrap();
    let run = |args: &[&str]| {
        let out = stowfast(folder.path())
            .args(["--now", "2026-07-14T08:00:00Z"])
            .args(args)
            .output()
            .unwrap();
        assert!(out.status.success(), "{args:?}: {}", String::from_utf8_lossy(&out.stderr));
        String::from_utf8(out.stdout).unwrap()
    };
    run(&["demo", vehicle]);
    for args in told {
        run(args);
    }
    run(asked)
}

#[test]
fn the_height_comes_first_and_what_is_missing_is_said_so() {
    let card = says("b", &[], &["drive-card"]);
    let lines: Vec<_> = card.lines().map(str::trim).collect();
    assert_eq!(lines[1], "Height: 2.64 m");
    for line in [
        "Width: 2.48 m",
        "Length: 5.46 m",
        "Permissible mass: 3300 kg",
        "Mass in running order: not in the pack",
        "Tyre pressure, front axle: 3.4 bar",
        "Tyre pressure, rear axle: 3.75 bar",
    ] {
        assert!(lines.contains(&line), "{line}: {card}");
    }
}

#[test]
fn the_drive_card_comes_as_json() {
    let said = says("c", &[], &["--json", "drive-card"]);
    let value: serde_json::Value = serde_json::from_str(&said).unwrap();
    assert_eq!(value["stowfast_json"], 2);
    assert_eq!(value["drive_card"]["height"]["text"], "3.18 m");
    let rows = value["drive_card"]["rows"].as_array().unwrap();
    let rear = rows.iter().find(|row| row["id"] == "axle_2").unwrap();
    assert_eq!(
        (rear["known"].as_bool(), rear["text"].as_str()),
        (Some(false), Some("not in the pack"))
    );
}

#[test]
fn the_fridge_says_what_it_needs_before_a_trip_at_the_pump_and_on_a_ferry() {
    let gas: &[&[&str]] =
        &[&["report", "fridge.selector", "gas"], &["report", "gas_left.valve", "open"]];
    let text = says("a", gas, &["fridge"]);
    for line in [
        "Before a trip",
        "Mains can feed it here: cool it down on that.",
        "At the fuel station",
        "Left on gas, it burns or sparks there.",
        "Switch it off before you drive in.",
        "stowfast plan ready_to_refuel",
        "On a ferry",
        "How long this one stays cold is not in the pack.",
        "stowfast plan ready_to_board",
    ] {
        assert!(text.contains(line), "{line}: {text}");
    }
    let said = says("a", gas, &["--json", "fridge"]);
    let value: serde_json::Value = serde_json::from_str(&said).unwrap();
    let ahead = value["fridge"]["ahead"].as_array().unwrap();
    let ids: Vec<_> = ahead.iter().map(|row| row["id"].as_str().unwrap()).collect();
    assert_eq!(ids, ["chill", "fuel", "ferry"]);
    assert_eq!(ahead[0]["ready_utc_ms"], 1_784_016_000_000_i64 + 12 * 3_600_000);
}

#[test]
fn a_vehicle_with_a_compressor_fridge_hears_none_of_it() {
    let said = says("b", &[], &["fridge"]);
    assert!(!said.contains("ferry") && !said.contains("fuel station"), "{said}");
}

#[test]
fn a_departure_says_by_when_to_cool_the_fridge_down() {
    let mains: &[&[&str]] = &[&["report", "fridge.selector", "off"]];
    let asked = says("a", mains, &["fridge"]);
    assert!(asked.contains("stowfast fridge --leave '2026-07-14 20:00'"), "{asked}");
    let told = says("a", mains, &["fridge", "--leave", "2026-07-15T18:00:00+02:00"]);
    assert!(told.contains("You leave: 2026-07-15 16:00 (UTC+00:00)"), "{told}");
    assert!(told.contains("Switch it on by: 2026-07-15 04:00 (UTC+00:00)"), "{told}");
    let late = says("a", mains, &["fridge", "--leave", "2026-07-14T10:00:00Z"]);
    assert!(!late.contains("Switch it on by") && late.contains("Begin now."), "{late}");
    assert!(late.contains("it is not cold when you leave"), "{late}");
    let json = says("a", mains, &["--json", "fridge", "--leave", "2026-07-15T18:00:00Z"]);
    let value: serde_json::Value = serde_json::from_str(&json).unwrap();
    let leave = &value["fridge"]["ahead"][0]["leave"];
    assert_eq!(leave["start_utc_ms"].as_i64().unwrap() + 12 * 3_600_000, leave["chosen_utc_ms"]);
}

/// What `fridge --leave` says to whoever is two hours ahead of UTC, and how it ends.
fn leaves(text: &str) -> (Option<i32>, String) {
    let folder = tempfile::tempdir().unwrap();
    let out = stowfast(folder.path())
        .args(["--now", "2026-07-14T08:00:00+02:00", "fridge", "--leave", text])
        .output()
        .unwrap();
    let said = [out.stdout, out.stderr].concat();
    (out.status.code(), String::from_utf8(said).unwrap())
}

#[test]
fn a_departure_is_named_and_shown_by_the_clock_of_whoever_leaves() {
    for (text, at) in [
        ("18:00", "You leave: 2026-07-14 18:00 (UTC+02:00)"),
        ("07:30", "You leave: 2026-07-15 07:30 (UTC+02:00)"),
        ("2026-07-16 18:00", "You leave: 2026-07-16 18:00 (UTC+02:00)"),
        ("2026-07-16T18:00:00Z", "You leave: 2026-07-16 20:00 (UTC+02:00)"),
    ] {
        let (code, said) = leaves(text);
        assert!(code == Some(0) && said.contains(at), "{text}: {said}");
    }
}

#[test]
fn a_departure_that_cannot_be_read_says_what_was_expected() {
    let (code, said) = leaves("six o'clock");
    assert!(code == Some(3) && said.contains("expected 18:00 for the next to come"), "{said}");
    let (code, said) = leaves("2026-07-13 18:00");
    assert!(code == Some(3) && said.contains("still to come"), "{said}");
}
