//! A process that is killed at any moment has lost nothing that it said was stored. (A power cut
//! cannot be had here; for that, commits rest on `synchronous = FULL`.)

use std::env;
use std::io::{Read, Write};
use std::process::{Command, Stdio};
use std::thread;
use std::time::Duration;

use super::*;

const DB: &str = "STOWFAST_KILL_TEST_DB";
const DAY: &str = "STOWFAST_KILL_TEST_DAY";
/// How often the child is killed, at least, and how many entries it must have said by then.
const KILLS: i64 = 60;
const STORED: usize = 300;

/// One action: `size` entries that name the action, so that a part of it would be seen.
fn action(day_number: i64, number: usize) -> Vec<NewEntry> {
    let size = [1, 2, 3, 4][number & 3];
    let facts = |index| (0..=index).map(|i| fact(&format!("v{i}"), &["a", "b"], How::Told));
    (0..size)
        .map(|index| NewEntry {
            note: format!("{day_number} {number} {size}"),
            ..said(Act::Report, facts(index).collect())
        })
        .collect()
}

/// The process that is killed; as an ordinary test it does nothing.
#[test]
fn child() {
    let (Some(path), Ok(day_number)) = (env::var_os(DB), env::var(DAY)) else {
        return;
    };
    let day_number = day_number.parse().unwrap();
    let (mut store, _) = open(Path::new(&path), &day(day_number));
    if store.vehicles().unwrap().is_empty() {
        store.add_vehicle("Van", "", &day(0)).unwrap();
    }
    for number in 0.. {
        for seq in store.append(1, &action(day_number, number)).unwrap() {
            // Past the test harness, which would hold it back.
            writeln!(std::io::stdout(), "stored {seq} {day_number} {number}").unwrap();
        }
    }
}

/// Runs the child until it is killed and gives what it said, as (seq, number of the action).
fn run_and_kill(path: &Path, day_number: i64, after: Duration) -> Vec<(i64, usize)> {
    let name = format!("{}::child", module_path!());
    let (_, name) = name.split_once("::").unwrap();
    let mut child = Command::new(env::current_exe().unwrap())
        .args([name, "--exact", "--nocapture", "--test-threads=1"])
        .env(DB, path)
        .env(DAY, day_number.to_string())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut output = child.stdout.take().unwrap();
    let reader = thread::spawn(move || {
        let mut text = String::new();
        output.read_to_string(&mut text).unwrap();
        text
    });
    thread::sleep(after);
    child.kill().unwrap();
    assert!(!child.wait().unwrap().success());
    let text = reader.join().unwrap();
    let (whole_lines, _) = text.rsplit_once('\n').unwrap_or_default();
    whole_lines
        .lines()
        .filter_map(|line| {
            let mut words = line.split_once("stored ")?.1.split(' ');
            Some((words.next()?.parse().unwrap(), words.nth(1)?.parse().unwrap()))
        })
        .collect()
}

#[test]
fn nothing_said_to_be_stored_is_lost_by_a_kill() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("stow.db");
    let mut dice = Dice(11);
    let mut said_stored = Vec::new();
    // On a slow machine the child needs longer to come to the point.
    let mut limit_us = 20_000;
    for day_number in 0.. {
        if day_number >= KILLS && said_stored.len() >= STORED {
            break;
        }
        limit_us += 1_000;
        let after = Duration::from_micros(u64::try_from(dice.below(limit_us)).unwrap());
        let stored = run_and_kill(&path, day_number, after);
        said_stored.extend(stored.into_iter().map(|(seq, number)| (seq, day_number, number)));

        if day_number % 3 > 0 {
            continue; // Leave it to the next child to find the files as they are.
        }
        let (store, opened) = open(&path, &day(day_number));
        assert!(opened.set_aside.is_none() && opened.restored_from.is_none());
        let entries =
            if store.vehicles().unwrap().is_empty() { vec![] } else { store.entries(1).unwrap() };
        for (seq, day_number, number) in &said_stored {
            let at = entries.binary_search_by_key(seq, |entry| entry.seq).unwrap();
            assert!(action(*day_number, *number).contains(&entries[at].said));
        }
        let mut rest = entries.as_slice();
        while let Some(first) = rest.first() {
            let words: Vec<_> = first.said.note.split(' ').collect();
            let whole = action(words[0].parse().unwrap(), words[1].parse().unwrap());
            let (found, after) = rest.split_at_checked(whole.len()).unwrap();
            assert!(found.iter().map(|entry| &entry.said).eq(&whole), "half an action");
            rest = after;
        }
    }
}
