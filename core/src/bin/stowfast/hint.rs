//! What to type instead, after an error.

use stowfast_core::Error;
use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Engine, StepKind};
use stowfast_core::near::{did_you_mean, nearest};
use stowfast_core::pack::NO_KIND;

use crate::ahead::Ahead;
use crate::called::as_typed;
use crate::command::{Bring, Command, Say, Show};
use crate::shown;

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
    let unfit_now = is_unfit.then(|| unfit(engine, command, now)).flatten();
    let read = is_odd.then(|| reading(engine, command, now)).flatten();
    let hints = [unknown_name, unfit_now, kinds(error), read];
    let hints: Vec<_> = hints.into_iter().flatten().collect();
    (!hints.is_empty()).then(|| as_typed(&hints.join("\n")).into_owned())
}

/// Where a pack names a kind that there is not: how to see all that there are.
pub(crate) fn of_pack(error: &Error) -> Option<String> {
    kinds(error).map(|hint| as_typed(&hint).into_owned())
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
