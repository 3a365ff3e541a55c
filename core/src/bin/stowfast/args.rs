//! What was asked on the command line.

use std::ffi::OsStr;
use std::path::PathBuf;

use lexopt::prelude::{Long, Short, Value, ValueExt};
use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Line, Odd, Pick};

use crate::ahead;
use crate::command::{Bring, Command, Say, Show};
use crate::fault::{self, Deed};
use crate::help::{is_command, unknown};
use crate::photo;
use crate::show::leaving;
use crate::zone::{Zone, given};

/// The command and its options.
#[derive(Debug)]
pub(crate) struct Asked {
    pub(crate) command: Command,
    pub(crate) database: Option<PathBuf>,
    pub(crate) json: bool,
    pub(crate) now: Option<Stamp>,
    pub(crate) zone: Zone,
    pub(crate) language: String,
}

/// Lines of the log shown where no number is given.
const LOG_LINES: i32 = 20;

/// Reads the command line.
pub(crate) fn parse() -> Result<Asked, lexopt::Error> {
    let mut parser = lexopt::Parser::from_env();
    let mut words: Vec<String> = Vec::new();
    let (mut database, mut json, mut now, mut language) = (None, false, None, "en".to_owned());
    let (mut command, mut people, mut overwrite) = (None, None, false);
    let (mut variant, mut back, mut leave, mut deed, mut remove) = (None, None, None, None, false);
    let mut picks: Vec<Pick> = Vec::new();
    loop {
        let below_0 = parser.try_raw_args().and_then(|mut raw| raw.next_if(is_negative));
        if let Some(number) = below_0 {
            words.push(number.string()?);
            continue;
        }
        let Some(arg) = parser.next()? else { break };
        match arg {
            Long("db") => database = Some(PathBuf::from(parser.value()?)),
            Long("json") => json = true,
            Long("overwrite") => overwrite = true,
            Long("remove") => remove = true,
            Long("undo") => deed = Some(Deed::Undo),
            Long("again") => deed = Some(Deed::Again),
            Long("now") => now = Some(given(&parser.value()?.string()?)?),
            Long("leave") => leave = Some(parser.value()?.string()?),
            Long("people") => people = Some(number::<u8>("--people", &parser.value()?.string()?)?),
            Long("variant") => variant = Some(parser.value()?.string()?),
            Long("only") => variant = Some(parser.value()?.string()?.replace(',', "+")),
            Long("back") => back = Some(number::<i64>("--back", &parser.value()?.string()?)?),
            Long("lang") => language = parser.value()?.string()?,
            Long("help") | Short('h') => command = Some(Command::Help(None)),
            Long("version") | Short('V') => command = Some(Command::Version),
            Value(word) => words.push(word.string()?),
            Long(choice) => {
                let choice = choice.to_owned();
                let value = parser.value()?.string()?;
                picks.push(Pick { choice, value });
            }
            Short(_) => return Err(arg.unexpected()),
        }
    }
    let command = if let Some(command) = command {
        command
    } else {
        let words = aimed(words, variant, back)?;
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        let own = || fault::command(&words).or_else(|| photo::command(&words));
        let command =
            if remove { photo::removal(&words)? } else { own().map_or_else(|| of(&words), Ok)? };
        let command = over(for_people(command, people)?, overwrite)?;
        ahead::with(fault::of(leaving(command, leave)?, deed)?, picks)?
    };
    let (now, zone) = now.unzip();
    Ok(Asked { command, database, json, now, zone: zone.unwrap_or(Zone::Here), language })
}

/// The words of a command with what a routine is to lead to as the engine calls it.
fn aimed(
    mut words: Vec<String>,
    variant: Option<String>,
    back: Option<i64>,
) -> Result<Vec<String>, lexopt::Error> {
    let leads = matches!(words.first().map(String::as_str), Some("plan" | "walk" | "open"));
    match (words.as_mut_slice(), variant, back) {
        (_, None, None) => {}
        ([_, target], Some(variant), None) if leads => *target = format!("{target}/{variant}"),
        ([_], None, Some(entry)) if leads => words.push(format!("back/{entry}")),
        (_, Some(_), _) => {
            return Err("--variant and --only: go with `plan`, `walk` and `open TARGET`".into());
        }
        (_, None, Some(_)) => {
            return Err("--back: goes with `plan`, `walk` and `open`, without TARGET".into());
        }
    }
    Ok(words)
}

/// The command for as many people as were named.
fn for_people(command: Command, people: Option<u8>) -> Result<Command, lexopt::Error> {
    match (command, people) {
        (command, None) => Ok(command),
        (Command::Show(Show::Plan(target)), Some(1)) => Ok(Command::Show(Show::Plan(target))),
        (Command::Show(Show::Plan(target)), Some(2)) => Ok(Command::Show(Show::Shared(target))),
        (_, Some(_)) => Err("--people: goes with `plan TARGET`, and is 1 or 2".into()),
    }
}

/// The command, to write over what is there.
fn over(mut command: Command, wanted: bool) -> Result<Command, lexopt::Error> {
    if let Command::Bring(Bring::Export { overwrite, .. }) = &mut command {
        *overwrite = wanted;
    } else if wanted {
        return Err("--overwrite: goes with `export FILE`".into());
    }
    Ok(command)
}

fn of(words: &[&str]) -> Result<Command, lexopt::Error> {
    let own = str::to_owned;
    Ok(match words {
        [] | ["now"] => Command::Show(Show::Now),
        ["targets"] => Command::Show(Show::Targets),
        ["plan", target] => Command::Show(Show::Plan(own(target))),
        ["routine"] => Command::Show(Show::Routine),
        ["walk"] => Command::Walk(None),
        ["walk", target] => Command::Walk(Some(own(target))),
        ["open", target] => Command::Say(Say::Open(own(target))),
        ["tick", step] => Command::Say(Say::Tick(own(step))),
        ["confirm", lines @ ..] if !lines.is_empty() => {
            Command::Say(Say::Confirm(lines.iter().map(|word| line(word)).collect()))
        }
        ["look", step, choice] => Command::Say(Say::Look(own(step), own(choice))),
        ["undo", first, rest @ ..] => Command::Say(Say::Undo(entries("undo", first, rest)?)),
        ["cannot", step, note @ ..] => Command::Say(Say::Cannot(own(step), note.join(" "))),
        ["left", step, note @ ..] => Command::Say(Say::Left(own(step), note.join(" "))),
        ["freed", entry] => Command::Say(Say::Freed(number("freed", entry)?)),
        ["note", note @ ..] => Command::Say(Say::Note(note.join(" "))),
        ["pause"] => Command::Say(Say::Pause),
        ["resume"] => Command::Say(Say::Resume),
        ["close"] => Command::Say(Say::Close),
        ["drive"] => Command::Say(Say::Drive),
        ["arrive"] => Command::Say(Say::Arrive),
        ["arrive", place] => Command::Say(Say::ArriveAt(own(place))),
        ["alerts"] => Command::Show(Show::Alerts),
        ["alert", id] => Command::Show(Show::Alert(own(id))),
        ["cards"] => Command::Show(Show::Cards),
        ["card", fitting] => Command::Show(Show::Card(own(fitting))),
        ["find", words @ ..] if !words.is_empty() => Command::Show(Show::Find(words.join(" "))),
        ["places"] => Command::Show(Show::Places),
        ["drive-card"] => Command::Show(Show::DriveCard),
        ["steps"] => Command::Show(Show::Steps),
        ["things"] => Command::Show(Show::Things),
        ["report", variable, setting] => Command::Say(Say::Report(own(variable), own(setting))),
        ["may", step] => Command::Show(Show::May(own(step))),
        ["country", code] => Command::Say(Say::Country(own(code))),
        ["carrier", sort] => Command::Say(Say::Carrier(own(sort))),
        ["rules"] => Command::Show(Show::Rules),
        ["fridge"] => Command::Show(Show::Fridge(None)),
        ["fridge", setting] => Command::Say(Say::Fridge(own(setting))),
        ["gauges"] => Command::Show(Show::Gauges),
        ["reserves"] => Command::Show(Show::Reserves),
        ["units"] => Command::Show(Show::Units),
        ["units", units] => Command::Say(Say::Units(own(units))),
        ["read", gauge, shown @ ..] => Command::Say(Say::Read(own(gauge), shown.join(" "))),
        ["log"] => Command::Show(Show::Log(LOG_LINES)),
        ["log", lines] => Command::Show(Show::Log(number("log", lines)?)),
        [first, ..] => {
            let own = |one: Option<Command>| {
                one.map_or_else(|| ahead::command(words), |one| Ok(Some(one)))
            };
            let other = match without_database(words) {
                None => own(of_vehicles(words)?)?,
                known => known,
            };
            other.ok_or_else(|| unknown(first))?
        }
    })
}

/// The commands that need no database.
fn without_database(words: &[&str]) -> Option<Command> {
    Some(match words {
        ["help"] => Command::Help(None),
        ["help", command] if is_command(command) => Command::Help(Some((*command).to_owned())),
        ["version"] => Command::Version,
        ["emergency"] => Command::Emergency(None),
        ["emergency", peril] => Command::Emergency(Some((*peril).to_owned())),
        ["kinds"] => Command::Kinds,
        ["check", file] => Command::Check(PathBuf::from(file)),
        _ => return None,
    })
}

/// The commands about vehicles and files.
fn of_vehicles(words: &[&str]) -> Result<Option<Command>, lexopt::Error> {
    Ok(Some(match words {
        ["vehicles"] => Command::Show(Show::Vehicles),
        ["add", file] => Command::Bring(Bring::Add(PathBuf::from(file))),
        ["replace", file] => Command::Bring(Bring::Replace(PathBuf::from(file))),
        ["demo", id] => Command::Bring(Bring::Demo((*id).to_owned())),
        ["choose", id] => Command::Bring(Bring::Choose(number("choose", id)?)),
        ["export", file] => {
            Command::Bring(Bring::Export { file: PathBuf::from(file), overwrite: false })
        }
        ["import", file] => Command::Bring(Bring::Import(PathBuf::from(file))),
        ["help", command] => return Err(unknown(command).into()),
        _ => return Ok(None),
    }))
}

/// A line of a list: `STEP`, `STEP=SETTING` or `STEP=cannot`.
fn line(word: &str) -> Line {
    let (step, odd) = match word.split_once('=') {
        None => (word, None),
        Some((step, "cannot")) => (step, Some(Odd::Cannot(String::new()))),
        Some((step, setting)) => (step, Some(Odd::Seen(setting.to_owned()))),
    };
    Line { step: step.to_owned(), odd }
}

/// The numbers of entries, at least one.
fn entries(what: &str, first: &str, rest: &[&str]) -> Result<Vec<i64>, lexopt::Error> {
    std::iter::once(&first).chain(rest).map(|entry| number(what, entry)).collect()
}

/// A whole number.
pub(crate) fn number<T: std::str::FromStr>(what: &str, text: &str) -> Result<T, lexopt::Error> {
    text.parse().map_err(|_| format!("{what}: expected a whole number, not `{text}`").into())
}

/// A number with a decimal point or a comma.
pub(crate) fn decimal(what: &str, text: &str) -> Result<f64, lexopt::Error> {
    let number = text.replace(',', ".").parse();
    number.map_err(|_| format!("{what}: expected a number, not `{text}`").into())
}

/// A number below 0, which is no option.
fn is_negative(arg: &OsStr) -> bool {
    let digits = arg.to_str().and_then(|text| text.strip_prefix('-'));
    digits.is_some_and(|digits| digits.starts_with(|first: char| first.is_ascii_digit()))
}
