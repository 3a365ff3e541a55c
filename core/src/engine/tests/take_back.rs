//! A list that was confirmed at once is taken back at once.

use super::{at, demo};
use crate::engine::{Engine, Line};
use crate::error::Error;

/// A leaving with a list of several lines confirmed, and what that wrote.
fn confirmed() -> (Engine, Vec<i64>) {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    loop {
        let page = engine.routine(&at(2)).unwrap().unwrap();
        let steps = page.stops[0].gestures[0].steps.clone();
        let lines: Vec<_> = steps.into_iter().map(|step| Line { step, odd: None }).collect();
        let entries = engine.confirm(&lines, &at(2)).unwrap().entries;
        if entries.len() > 2 {
            return (engine, entries);
        }
    }
}

#[test]
fn a_list_is_taken_back_with_one_command_as_if_line_by_line() {
    let (mut at_once, entries) = confirmed();
    let (mut by_line, same) = confirmed();
    assert_eq!(entries, same);
    let voided = at_once.take_back(&entries, &at(3)).unwrap().entries;
    for entry in same.iter().rev() {
        by_line.unmark(*entry, &at(3)).unwrap();
    }
    assert_eq!(voided.len(), entries.len());
    assert_eq!(at_once.routine(&at(3)).unwrap(), by_line.routine(&at(3)).unwrap());
    assert_eq!(at_once.log(100).unwrap(), by_line.log(100).unwrap());
}

#[test]
fn where_one_entry_cannot_be_taken_back_none_is() {
    let (mut engine, entries) = confirmed();
    engine.unmark(entries[1], &at(3)).unwrap();
    let before = engine.log(100).unwrap();
    let opened = engine.routine(&at(3)).unwrap().unwrap().run.id;
    let fails = |engine: &mut Engine, with: &[i64]| engine.take_back(with, &at(3)).unwrap_err();
    let (first, last) = (entries[0], entries[2]);
    for named in [vec![first, entries[1], last], vec![first, last, first], vec![last, opened]] {
        assert!(matches!(fails(&mut engine, &named), Error::Conflict { .. }), "{named:?}");
    }
    assert!(matches!(fails(&mut engine, &[first, 999]), Error::NotFound { .. }));
    assert!(matches!(fails(&mut engine, &[]), Error::InvalidInput { .. }));
    assert_eq!(engine.log(100).unwrap(), before, "nothing was taken back");
    engine.take_back(&[first, last], &at(3)).unwrap();
}
