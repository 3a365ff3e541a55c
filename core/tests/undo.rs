//! Taking a list back with the command: as an owner would, and killed at any moment.

#![allow(clippy::unwrap_used, reason = "a test that cannot be set up fails")]

use std::path::Path;
use std::process::{Command, Stdio};
use std::thread;
use std::time::Duration;

/// How often the command is killed at most, and how many of each outcome are enough.
const KILLS: u32 = 2_000;
const ENOUGH: u32 = 5;

fn command(database: &Path, args: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_stowfast"));
    command.arg("--db").arg(database).args(["--now", "2026-07-14T08:00:00Z"]).args(args);
    command.env("NO_COLOR", "1").stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

fn says(database: &Path, args: &[&str]) -> String {
    let out = command(database, args).output().unwrap();
    assert!(out.status.success(), "{args:?}: {}", String::from_utf8_lossy(&out.stderr));
    String::from_utf8(out.stdout).unwrap()
}

/// The log, oldest first: the number of each entry, and whether it still counts.
fn log(database: &Path) -> Vec<(i64, bool)> {
    let said = says(database, &["--json", "log", "100"]);
    let value: serde_json::Value = serde_json::from_str(&said).unwrap();
    let row = |row: &serde_json::Value| {
        (
            row.get("entry").unwrap().as_i64().unwrap(),
            !row.get("voided").unwrap().as_bool().unwrap(),
        )
    };
    value.get("log").unwrap().as_array().unwrap().iter().rev().map(row).collect()
}

/// A vehicle with a list confirmed; the numbers of its entries.
fn with_list(database: &Path) -> Vec<String> {
    says(database, &["demo", "a"]);
    let before = log(database).len();
    says(
        database,
        &["confirm", "drawers.latch", "window_bed.shut", "window_galley.shut", "step.in"],
    );
    let entries: Vec<_> = log(database).iter().skip(before).map(|row| row.0.to_string()).collect();
    assert_eq!(entries.len(), 4);
    entries
}

#[test]
fn a_list_is_taken_back_with_one_command() {
    let folder = tempfile::tempdir().unwrap();
    let database = folder.path().join("undo.db");
    let entries = with_list(&database);
    let undo: Vec<&str> =
        std::iter::once("undo").chain(entries.iter().map(String::as_str)).collect();
    says(&database, &undo);
    let still =
        log(&database).into_iter().filter(|(entry, _)| entries.contains(&entry.to_string()));
    assert!(still.clone().count() == 4 && still.into_iter().all(|(_, counts)| !counts));
    let again = command(&database, &undo).output().unwrap();
    assert_eq!(again.status.code(), Some(4), "{}", String::from_utf8_lossy(&again.stderr));
}

#[test]
fn killed_half_way_nothing_or_all_of_a_list_is_taken_back() {
    let folder = tempfile::tempdir().unwrap();
    let fresh = folder.path().join("fresh.db");
    let entries = with_list(&fresh);
    let undo: Vec<&str> =
        std::iter::once("undo").chain(entries.iter().map(String::as_str)).collect();
    let (mut none, mut all) = (0, 0);
    for kill in 0..KILLS {
        if none >= ENOUGH && all >= ENOUGH {
            break;
        }
        let database = folder.path().join(format!("{kill}.db"));
        std::fs::copy(&fresh, &database).unwrap();
        let mut child = command(&database, &undo).spawn().unwrap();
        // From at once on, a little later each time, until it is through.
        thread::sleep(Duration::from_millis(u64::from(kill)));
        child.kill().unwrap();
        child.wait().unwrap();
        match log(&database).iter().filter(|(_, counts)| !counts).count() {
            0 => none += 1,
            4 => all += 1,
            part => panic!("{part} of 4 were taken back"),
        }
    }
    assert!(none >= ENOUGH && all >= ENOUGH, "killed too early or too late: {none}, {all}");
}
