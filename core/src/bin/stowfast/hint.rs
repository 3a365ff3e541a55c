//! What to type instead, after an error.

use std::path::Path;

use stowfast_core::Error;
use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Engine, FigureRow, Pick, StepKind, VehicleRow};
use stowfast_core::near::{did_you_mean, nearest};
use stowfast_core::pack::NO_KIND;

use crate::ahead::Ahead;
use crate::called::as_typed;
use crate::command::{Bring, Command, Say, Show};
use crate::show::UNTIL;
use crate::shown;

/// As much of a file as tells which sort it is.
const HEAD_BYTES: usize = 1_000;

/// What to type after a command that failed, where that can be told.
pub(crate) fn after(
    engine: &Engine,
    command: &Command,
    error: &Error,
    now: &Stamp,
) -> Option<String> {
    let is_odd = matches!(error, Error::NotFound { .. } | Error::InvalidInput { .. });
    let unknown_name = if let Error::NotFound { kind: "choice", id } = error {
        choices(engine, command, id, now)
    } else if let Error::NotFound { kind, id } = error {
        unknown(engine, kind, id, now)
    } else {
        None
    };
    let is_unfit = matches!(error, Error::Conflict { .. });
    let unfit_now = is_unfit.then(|| unfit(engine, command, error, now)).flatten();
    let read = is_odd.then(|| reading(engine, command, now)).flatten();
    let told = is_odd.then(|| asked_with(engine, command, error, now)).flatten();
    let hints = [unknown_name, unfit_now, kinds(error), other_file(command, error), read, told];
    let hints: Vec<_> = hints.into_iter().flatten().collect();
    (!hints.is_empty()).then(|| as_typed(&hints.join("\n")).into_owned())
}

/// What to type after a pack that does not read.
pub(crate) fn of_pack(command: &Command, error: &Error) -> Option<String> {
    kinds(error).or_else(|| other_file(command, error)).map(|hint| as_typed(&hint).into_owned())
}

/// Where the file is one that another command reads: which.
fn other_file(command: &Command, error: &Error) -> Option<String> {
    if !matches!(error, Error::Pack { .. }) {
        return None;
    }
    let holds = |file: &Path, word: &str| {
        let head = crate::read_file(file, HEAD_BYTES).unwrap_or_default();
        head.windows(word.len()).any(|part| part == word.as_bytes())
    };
    if let Command::Check(file) | Command::Bring(Bring::Add(file) | Bring::Replace(file)) = command
    {
        let exported = holds(file, "\"stowfast_export\"");
        return exported.then(|| "It is a file that was exported: stowfast import FILE".to_owned());
    }
    if let Command::Bring(Bring::Import(file)) = command {
        return holds(file, "stowfast_pack").then(|| "It is a pack: stowfast add FILE".to_owned());
    }
    let Command::Say(Say::ArriveAt(file)) = command else { return None };
    let pack = holds(Path::new(file), "stowfast_pack");
    pack.then(|| "It is a pack, and no place: stowfast add FILE".to_owned())
}

/// How to ask a question otherwise: what is to be told first, what may be meant, how a time is picked.
fn asked_with(engine: &Engine, command: &Command, error: &Error, now: &Stamp) -> Option<String> {
    let Command::Ahead(Ahead::Reckon(question, picks)) = command else { return None };
    let Error::InvalidInput { expected, .. } = error else { return None };
    let page = engine.reckon(question, &[], now).ok()?;
    let names = |row: &FigureRow| {
        let of = |pick: &Pick| row.id.starts_with(&format!("{}_", pick.value));
        expected.contains(&row.title) || picks.iter().any(of)
    };
    let untold = page.asks.iter().filter(|row| row.value.is_none() && names(row));
    let untold = untold.map(|row| format!("{}: stowfast figure {} VALUE", row.title, row.id));
    let picked = picks.iter().filter_map(|pick| {
        let Some(choice) = page.choices.iter().find(|one| one.id == pick.choice) else {
            return Some(format!("What is missing: stowfast {question}"));
        };
        let until = UNTIL.contains(&pick.choice.as_str()) && !pick.value.contains(':');
        let clock = until.then(|| format!("Or a time by your clock, as --{} 18:00", pick.choice));
        let options = || choice.options.iter().map(|option| option.id.clone());
        let odd = !options().any(|id| id == pick.value);
        let meant = did_you_mean(&nearest(&pick.value, options()));
        clock.or_else(|| (odd && !meant.is_empty()).then(|| meant.trim().to_owned()))
    });
    let hints: Vec<_> = untold.chain(picked).collect();
    (!hints.is_empty()).then(|| hints.join("\n"))
}

fn kinds(error: &Error) -> Option<String> {
    let of_kind = matches!(error, Error::Pack { expected, .. } if expected.starts_with(NO_KIND));
    of_kind.then(|| "All of them: stowfast kinds".to_owned())
}

/// How to say what a gauge shows, where that is what was meant.
fn reading(engine: &Engine, command: &Command, now: &Stamp) -> Option<String> {
    let Command::Say(Say::Read(named, _) | Say::Report(named, _)) = command else { return None };
    let rows = engine.gauges(now).ok()?;
    let row = rows.iter().find(|row| row.id == *named || row.variable == *named)?;
    Some(format!(
        "What its gauge shows, for example: stowfast read {} {}",
        row.id,
        shown::example(row)
    ))
}

/// With what a question can be asked of this vehicle now.
fn choices(engine: &Engine, command: &Command, picked: &str, now: &Stamp) -> Option<String> {
    let Command::Ahead(Ahead::Reckon(question, _)) = command else { return None };
    let page = engine.reckon(question, &[], now).ok()?;
    let all: Vec<_> = page.choices.into_iter().map(|choice| choice.id).collect();
    if all.is_empty() {
        return Some(format!("Nothing can be picked yet. What it needs told: stowfast {question}"));
    }
    let meant = did_you_mean(&nearest(picked, all.iter().cloned()));
    let said = format!("{meant} It can be asked here with: {}", all.join(", "));
    Some(said.trim().to_owned())
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
        "photo" => ("photos", engine.photos().ok()?.into_iter().map(|row| row.id).collect()),
        "gauge" => ("gauges", engine.gauges(now).ok()?.into_iter().map(|row| row.id).collect()),
        "figure" => ("figures", engine.figures(now).ok()?.into_iter().map(|row| row.id).collect()),
        "question" => {
            let hint =
                "This vehicle has nothing to ask that of. What can be asked: stowfast reckon";
            return Some(hint.to_owned());
        }
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

fn unfit(engine: &Engine, command: &Command, error: &Error, now: &Stamp) -> Option<String> {
    if let Command::Bring(Bring::Add(_) | Bring::Replace(_) | Bring::Demo(_)) = command {
        return here_already(engine, command, error);
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
        Command::Say(Say::Undo(_)) => Some("What was said: stowfast log".to_owned()),
        Command::Walk(_) | Command::Show(Show::Routine) | Command::Say(_) if no_routine() => {
            Some("Open one: stowfast walk TARGET. All of them: stowfast targets".to_owned())
        }
        Command::Help(_)
        | Command::Version
        | Command::Emergency(_)
        | Command::Kinds
        | Command::Check(_)
        | Command::Show(_)
        | Command::Walk(_)
        | Command::Say(_)
        | Command::Bring(_)
        | Command::Fault(_)
        | Command::Photo(_)
        | Command::Ahead(_) => None,
    }
}

/// How to go on with the vehicle of that title, or beside it.
fn here_already(engine: &Engine, command: &Command, error: &Error) -> Option<String> {
    let said = error.to_string();
    let named = |row: &VehicleRow| said.contains(&format!("\"{}\"", row.title));
    let id = engine.vehicles().ok()?.into_iter().find(named)?.id;
    let go_on = format!("To go on with that one: stowfast choose {id}");
    if matches!(command, Command::Bring(Bring::Demo(_))) {
        return Some(go_on);
    }
    Some(format!(
        "{go_on}\nTo correct it from this file, then: stowfast replace FILE. To add another one, give it \
         another title in the file."
    ))
}
