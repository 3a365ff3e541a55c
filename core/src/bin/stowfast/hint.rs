//! What to type instead, after an error.

use stowfast_core::Error;
use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Engine, StepKind};

use crate::args::{Bring, Command, Say, Show};

/// Most names that are suggested.
const MOST: usize = 4;

/// What to type after a command that failed, where that can be told.
pub(crate) fn after(
    engine: &Engine,
    command: &Command,
    error: &Error,
    now: &Stamp,
) -> Option<String> {
    if let Error::NotFound { kind, id } = error {
        return unknown(engine, kind, id, now);
    }
    matches!(error, Error::Conflict { .. }).then(|| unfit(engine, command, now)).flatten()
}

fn unknown(engine: &Engine, kind: &str, id: &str, now: &Stamp) -> Option<String> {
    let steps = |wanted: Option<StepKind>| {
        let steps = engine.steps().unwrap_or_default().into_iter();
        steps.filter(move |row| wanted.is_none_or(|kind| kind == row.kind)).map(|row| row.id)
    };
    let (list, known): (_, Vec<String>) = match kind {
        "step" => ("steps", steps(None).collect()),
        "look" => ("steps", steps(Some(StepKind::Look)).collect()),
        "variable" => {
            ("things", engine.things(now).ok()?.into_iter().map(|row| row.variable).collect())
        }
        "target" => ("targets", engine.targets().ok()?.into_iter().map(|row| row.id).collect()),
        "variant" => return Some("Which there are: stowfast plan TARGET".to_owned()),
        "alert" => ("alerts", engine.alerts(now).ok()?.into_iter().map(|row| row.id).collect()),
        "fault" => ("faults", engine.faults(now).ok()?.into_iter().map(|row| row.id).collect()),
        "check" | "cause" => return Some("What is asked: stowfast fault FAULT".to_owned()),
        "card" => ("cards", engine.cards().ok()?.into_iter().map(|row| row.id).collect()),
        "gauge" => ("gauges", engine.gauges(now).ok()?.into_iter().map(|row| row.id).collect()),
        "figure" => ("figures", engine.figures(now).ok()?.into_iter().map(|row| row.id).collect()),
        "place" => ("places", engine.places().ok()?.into_iter().map(|row| row.id).collect()),
        "entry" | "stuck entry" => ("log", Vec::new()),
        "vehicle" => ("vehicles", Vec::new()),
        "demonstration" => {
            let known: Vec<_> = engine.demos().ok()?.into_iter().map(|row| row.id).collect();
            return Some(format!("There is: {}", known.join(", ")));
        }
        _ => return None,
    };
    let meant = did_you_mean(&nearest(id, known.into_iter()));
    Some(format!("{meant} All of them: stowfast {list}").trim().to_owned())
}

fn unfit(engine: &Engine, command: &Command, now: &Stamp) -> Option<String> {
    if let Command::Bring(Bring::Add(_) | Bring::Replace(_)) = command {
        let hint = "To correct that one: stowfast choose ID, then stowfast replace FILE. To add \
                    another one, give it another title in the file.";
        return Some(hint.to_owned());
    }
    if let Command::Bring(Bring::Import(_)) = command {
        let hint = "To look at it apart from what is here: stowfast --db OTHER import FILE";
        return Some(hint.to_owned());
    }
    if engine.targets().is_err() && !matches!(command, Command::Bring(_)) {
        return Some("See which and why: stowfast vehicles".to_owned());
    }
    let no_routine = || engine.routine(now).is_ok_and(|page| page.is_none());
    match command {
        Command::Say(Say::Tick(step)) => {
            let things = engine.things(now).ok()?;
            let seen =
                things.iter().find(|row| step.strip_suffix(".look") == Some(&row.variable))?;
            let choices: Vec<_> = seen.choices.iter().map(|choice| choice.id.as_str()).collect();
            Some(format!("Say what you saw: stowfast look {step} {}", choices.join("|")))
        }
        Command::Walk(_) | Command::Show(Show::Routine) | Command::Say(_) if no_routine() => {
            Some("Open one: stowfast walk TARGET. All of them: stowfast targets".to_owned())
        }
        Command::Help
        | Command::Version
        | Command::Check(_)
        | Command::Show(_)
        | Command::Walk(_)
        | Command::Say(_)
        | Command::Bring(_)
        | Command::Fault(_)
        | Command::Ahead(_) => None,
    }
}

/// " Did you mean a, b?", or nothing.
pub(crate) fn did_you_mean(names: &[String]) -> String {
    if names.is_empty() { String::new() } else { format!(" Did you mean {}?", names.join(", ")) }
}

/// The names nearest to what was typed: those that hold it, then those of which the whole or a part
/// differs least, as long as no more than half of it is wrong.
pub(crate) fn nearest(typed: &str, known: impl Iterator<Item = String>) -> Vec<String> {
    let parts = |name: &str| {
        name.split('.').chain([name]).map(|part| distance(typed, part)).min().unwrap_or_default()
    };
    let near = known.map(|name| (if name.contains(typed) { 0 } else { parts(&name) }, name));
    let mut near: Vec<_> = near.filter(|(far, _)| *far <= typed.len() / 2).collect();
    near.sort_by_key(|(far, _)| *far);
    near.into_iter().take(MOST).map(|(_, name)| name).collect()
}

/// How many letters must be put in, left out or changed to make one word of the other
/// (Levenshtein 1966).
fn distance(one: &str, other: &str) -> usize {
    let mut row: Vec<usize> = (0..=other.chars().count()).collect();
    for (at, letter) in one.chars().enumerate() {
        let mut above_left = at;
        let mut left = at.saturating_add(1);
        let mut cells = row.iter_mut();
        if let Some(first) = cells.next() {
            *first = left;
        }
        for (cell, beside) in cells.zip(other.chars()) {
            let changed = above_left.saturating_add(usize::from(letter != beside));
            above_left = *cell;
            left = changed.min(left.saturating_add(1)).min(above_left.saturating_add(1));
            *cell = left;
        }
    }
    row.last().copied().unwrap_or_default()
}
