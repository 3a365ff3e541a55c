//! The `stowfast` command: the engine on a terminal. Run without arguments it shows a new owner
//! the leaving routine of an invented vehicle, what blocks driving, and what the fridge runs on.

mod ahead;
mod args;
mod called;
mod carry;
mod command;
mod database;
mod fault;
mod help;
mod hint;
mod json;
mod photo;
mod show;
mod shown;
mod tells;
#[cfg(test)]
mod tests;
mod walk;
mod zone;

use std::io::{self, Read, Write};
use std::path::Path;
use std::process::ExitCode;

use args::Asked;
use command::{Bring, Command, Say, Show};
use stowfast_core::catalogue::{Catalogue, text};
use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Changes, Engine, emergency, kinds};
use stowfast_core::pack::BYTES_MAX;
use stowfast_core::{Error, Result};

/// Exit codes, documented in `--help`.
const USAGE: u8 = 2;
const BAD_INPUT: u8 = 3;
const CONFLICT: u8 = 4;
const STORAGE: u8 = 5;
const INTERNAL: u8 = 70;

fn main() -> ExitCode {
    end_calmly_on_a_fault();
    called::remember();
    let asked = match args::parse() {
        Ok(asked) => asked,
        Err(error) => {
            show::notice(&format!("stowfast: {error}\n{}", called::as_typed("Try: stowfast help")));
            return ExitCode::from(USAGE);
        }
    };
    asked.database.iter().for_each(|file| called::remember_database(file));
    match run(&asked) {
        Ok(()) => ExitCode::SUCCESS,
        // A reader that went away (a pager that was quit) is no fault.
        Err(Failure { error: Error::Io { source, .. }, .. })
            if source.kind() == io::ErrorKind::BrokenPipe =>
        {
            ExitCode::SUCCESS
        }
        Err(Failure { error, hint }) => {
            // Whoever checks a pack is writing it.
            let checks = matches!(asked.command, Command::Check(_));
            let said = [error.for_owner().filter(|_| !checks), Some(error.to_string())];
            let said = said.into_iter().flatten().collect::<Vec<_>>().join("\n");
            show::notice(&format!("stowfast: {said}"));
            if let Some(hint) = hint {
                show::notice(&hint);
            }
            ExitCode::from(code(&error))
        }
    }
}

/// An error, and what to type instead.
struct Failure {
    error: Error,
    hint: Option<String>,
}

impl From<Error> for Failure {
    fn from(error: Error) -> Self {
        Self { error, hint: None }
    }
}

/// Has a fault of the program say so in one line and end with its documented code.
fn end_calmly_on_a_fault() {
    std::panic::set_hook(Box::new(|fault| {
        let place = fault.location().map(|at| format!(" at {}:{}", at.file(), at.line()));
        let place = place.unwrap_or_default();
        let said = fault.payload_as_str().unwrap_or_default();
        let kept = "What was recorded before is kept.";
        let _ = writeln!(io::stderr(), "stowfast: a fault of this program{place}: {said}. {kept}");
        std::process::exit(INTERNAL.into());
    }));
}

fn code(error: &Error) -> u8 {
    match error {
        Error::Pack { .. } | Error::InvalidInput { .. } | Error::NotFound { .. } => BAD_INPUT,
        Error::Conflict { .. } => CONFLICT,
        Error::StorageFull
        | Error::StorageDamaged { .. }
        | Error::NewerDatabase { .. }
        | Error::Database(_)
        | Error::Io { .. } => STORAGE,
        Error::Catalogue { .. } | Error::Internal(_) => INTERNAL,
    }
}

fn run(asked: &Asked) -> std::result::Result<(), Failure> {
    let out = show::Out::new(asked.json, asked.zone);
    let now = asked.now.clone().unwrap_or_else(clock);
    match &asked.command {
        Command::Help(None) => Ok(show::plain(help::HELP)?),
        Command::Help(Some(command)) => Ok(show::plain(&help::about(command))?),
        Command::Version => Ok(show::plain(concat!("stowfast ", env!("CARGO_PKG_VERSION")))?),
        Command::Emergency(peril) => {
            Ok(out.emergency_page(&emergency(&asked.language, peril.as_deref())?)?)
        }
        Command::Kinds => Ok(out.kinds(&kinds(&asked.language)?)?),
        Command::Check(file) => check(&out, file).map_err(|error| {
            let hint = hint::of_pack(&asked.command, &error);
            Failure { error, hint }
        }),
        command @ (Command::Show(_)
        | Command::Walk(_)
        | Command::Say(_)
        | Command::Bring(_)
        | Command::Fault(_)
        | Command::Photo(_)
        | Command::Ahead(_)) => {
            let mut engine = open(asked, &now)?;
            answer(&mut engine, asked, &out, &now).map_err(|error| {
                let hint = hint::after(&engine, command, &error, &now);
                Failure { error, hint }
            })
        }
    }
}

/// Does what was asked of a database that is open.
fn answer(engine: &mut Engine, asked: &Asked, out: &show::Out, now: &Stamp) -> Result<()> {
    match &asked.command {
        Command::Show(what) => page(out, engine, what, now),
        Command::Walk(target) => walk::walk(engine, target.as_deref(), asked.now.as_ref()),
        Command::Say(what) => {
            let changes = say(engine, what, now)?;
            out.changes(engine, &changes, || next(engine, what, now))
        }
        Command::Bring(what) => bring(engine, what, out, now),
        Command::Fault(what) => fault::say(engine, what, out, now),
        Command::Photo(what) => photo::answer(engine, what, out, now),
        Command::Ahead(what) => ahead::answer(engine, what, out, now),
        Command::Help(_)
        | Command::Version
        | Command::Emergency(_)
        | Command::Kinds
        | Command::Check(_) => Ok(()),
    }
}

/// The one place where the command reads the clock.
#[allow(clippy::disallowed_methods, reason = "the binary is where `now` comes from")]
fn clock() -> Stamp {
    let since_epoch = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH);
    let utc_ms = since_epoch.ok().and_then(|since| i64::try_from(since.as_millis()).ok());
    Stamp::utc(utc_ms.unwrap_or(0))
}

/// Opens the database; one without a vehicle gets the first invented one.
fn open(asked: &Asked, now: &Stamp) -> Result<Engine> {
    let catalogue = Catalogue::built_in()?;
    if text::known(catalogue, &asked.language).is_none() {
        let known: Vec<_> = catalogue.texts.keys().map(String::as_str).collect();
        return Err(invalid("--lang", format!("a language of: {}", known.join(", "))));
    }
    let path = match &asked.database {
        Some(path) => database::named(path)?,
        None => database::usual()?,
    };
    let mut engine = Engine::open(&path, &asked.language, now)?;
    for line in engine.notices()? {
        show::notice(&line);
    }
    let brings_one = matches!(asked.command, Command::Bring(_));
    if engine.vehicles()?.is_empty()
        && !brings_one
        && let Some(demo) = engine.demos()?.first()
    {
        engine.add_demo(&demo.id, now)?;
        show::notice(&called::as_typed(
            "No vehicle yet: this is an invented one, to look around with. Your own: stowfast add FILE",
        ));
    }
    Ok(engine)
}

fn invalid(field: &str, expected: String) -> Error {
    Error::InvalidInput { field: field.to_owned(), expected }
}

/// What a file holds, up to one byte more than it may have.
fn read_file(file: &Path, most: usize) -> Result<Vec<u8>> {
    let mut bytes = Vec::new();
    let most = u64::try_from(most).unwrap_or(u64::MAX);
    std::fs::File::open(file)
        .and_then(|open| open.take(most.saturating_add(1)).read_to_end(&mut bytes))
        .map_err(|source| Error::Io { path: file.to_owned(), source })?;
    Ok(bytes)
}

fn check(out: &show::Out, file: &Path) -> Result<()> {
    let catalogue = Catalogue::built_in()?;
    let bytes = read_file(file, BYTES_MAX)?;
    let pack = stowfast_core::pack::read(&file.display().to_string(), &bytes, catalogue)?;
    let vehicle = stowfast_core::vehicle::Vehicle::new(&pack, catalogue)?;
    out.checked(&vehicle)
}

fn page(out: &show::Out, engine: &Engine, what: &Show, now: &Stamp) -> Result<()> {
    match what {
        Show::Now => out.now(engine, now),
        Show::Targets => out.targets(&engine.targets()?),
        Show::Plan(target) => out.routine(&engine.preview(target, now)?),
        Show::Shared(target) => out.shared(&engine.shared(target, now)?),
        Show::Routine => match engine.routine(now)? {
            Some(page) => out.routine(&page),
            None => Err(Error::Conflict { detail: "no routine is under way".to_owned() }),
        },
        Show::May(step) => out.may(&engine.may(step, now)?),
        Show::Steps => out.steps(&engine.steps()?),
        Show::Things => out.things(&engine.things(now)?),
        Show::Fridge(None) => out.fridge(engine.fridge(now)?.as_ref()),
        Show::Fridge(Some(leave)) => {
            out.fridge(engine.fridge_for(out.zone.named(leave, now)?, now)?.as_ref())
        }
        Show::Gauges => out.gauges(&engine.gauges(now)?),
        Show::Reserves => out.reserves(&engine.reserves(now)?),
        Show::Units => out.units(engine.units()),
        Show::Alerts => out.alerts(&engine.alerts(now)?),
        Show::Alert(id) => out.alert(&engine.alert(id, now)?),
        Show::Faults => out.faults(&engine.faults(now)?),
        Show::Fault(id) => out.fault(&engine.fault(id, now)?),
        Show::Cards => out.cards(&engine.cards()?),
        Show::Card(fitting) => out.card(&engine.card(fitting, now)?),
        Show::Find(words) => out.found(&engine.find(words)?),
        Show::Rules => out.rules(&engine.rules(now)?),
        Show::Log(lines) => out.log(&engine.log(*lines)?),
        Show::Vehicles => out.vehicles(&engine.vehicles()?),
        Show::Places => out.places(&engine.places()?),
        Show::DriveCard => out.drive_card(&engine.drive_card()?),
    }
}

/// The text of a pack file, and its name in errors.
fn pack_text(file: &Path) -> Result<(String, String)> {
    file_text(file, |name, bytes, known| stowfast_core::pack::read(name, bytes, known).err())
}

/// The text of an owner's file, and its name in errors; where it is not text, `read` says the line.
fn file_text(
    file: &Path,
    read: impl Fn(&str, &[u8], &Catalogue) -> Option<Error>,
) -> Result<(String, String)> {
    let name = file.display().to_string();
    let text = String::from_utf8(read_file(file, BYTES_MAX)?).map_err(|error| {
        let said = Catalogue::built_in().map(|known| read(&name, error.as_bytes(), known));
        said.unwrap_or_else(Some).unwrap_or_else(|| Error::Internal("not text".to_owned()))
    })?;
    Ok((text, name))
}

/// Arrives at a built-in place or, where none is called so, at the one that a file tells of.
fn arrive_at(engine: &mut Engine, place: &str, now: &Stamp) -> Result<Changes> {
    let file = Path::new(place);
    let built_in = engine.places()?.iter().any(|row| row.id == place);
    if built_in || !file.exists() && file.extension().is_none() {
        return engine.arrive_at(place, now);
    }
    let read = stowfast_core::pack::place::read;
    let (text, name) = file_text(file, |name, bytes, known| read(name, bytes, known).err())?;
    engine.arrive_at_file(&text, &name, now)
}

fn bring(engine: &mut Engine, what: &Bring, out: &show::Out, now: &Stamp) -> Result<()> {
    match what {
        Bring::Add(file) => {
            let (pack, name) = pack_text(file)?;
            engine.add_pack(&pack, &name, now)?;
            photo::beside(engine, file, now)?;
        }
        Bring::Replace(file) => {
            let (pack, name) = pack_text(file)?;
            let current = engine.vehicles()?.into_iter().find(|row| row.current);
            let none = || Error::Conflict { detail: "no vehicle is chosen".to_owned() };
            let changes = engine.replace_pack(current.ok_or_else(none)?.id, &pack, &name, now)?;
            photo::beside(engine, file, now)?;
            let kept = || "The pack is replaced and the log kept.".to_owned();
            return out.changes(engine, &changes, kept);
        }
        Bring::Demo(id) => engine.add_demo(id, now).map(|_| ())?,
        Bring::Choose(id) => engine.choose_vehicle(*id)?,
        Bring::Export { file, overwrite } => return carry::export(engine, file, *overwrite, out),
        Bring::Import(file) => return carry::import(engine, file, now, out),
    }
    out.vehicles(&engine.vehicles()?)?;
    if out.json { Ok(()) } else { show::hint("Go on with it: stowfast now") }
}

/// What usually comes after something was said.
fn next(engine: &Engine, what: &Say, now: &Stamp) -> String {
    match what {
        Say::Read(gauge, _) => return tells::of_gauge(engine, gauge, now),
        Say::Units(units) => return format!("Set: {units}"),
        Say::Open(_) | Say::Resume => "Its steps: stowfast routine",
        Say::Drive => "When you stand again: stowfast arrive",
        Say::Arrive | Say::ArriveAt(_) => "Where to from here: stowfast targets",
        Say::Tick(_)
        | Say::Confirm(_)
        | Say::Look(..)
        | Say::Undo(_)
        | Say::Cannot(..)
        | Say::Left(..)
        | Say::Freed(_)
        | Say::Note(_)
        | Say::Pause
        | Say::Close
        | Say::Report(..)
        | Say::Country(_)
        | Say::Carrier(_)
        | Say::Fridge(_) => "",
    }
    .to_owned()
}

fn say(engine: &mut Engine, what: &Say, now: &Stamp) -> Result<Changes> {
    match what {
        Say::Open(target) => engine.open_run(target, now),
        Say::Tick(step) => engine.tick(step, now),
        Say::Confirm(lines) => engine.confirm(lines, now),
        Say::Look(step, choice) => engine.look(step, choice, now),
        Say::Undo(entries) => engine.take_back(entries, now),
        Say::Cannot(step, note) => engine.cannot(step, note, now),
        Say::Left(step, note) => engine.left_anyway(step, note, now),
        Say::Freed(entry) => engine.clear_stuck(*entry, now),
        Say::Note(note) => engine.note(note, now),
        Say::Pause => engine.pause(now),
        Say::Resume => engine.resume(now),
        Say::Close => engine.close_run(now),
        Say::Drive => engine.drive_off(now),
        Say::Arrive => engine.arrive(now),
        Say::ArriveAt(place) => arrive_at(engine, place, now),
        Say::Report(variable, setting) => engine.report(variable, setting, now),
        Say::Country(code) => engine.tell_country(code, now),
        Say::Carrier(sort) => engine.tell_carrier(sort, now),
        Say::Units(units) => engine.set_units(units),
        Say::Fridge(selector) => engine.set_fridge(selector, now),
        Say::Read(gauge, typed) => {
            let row = engine.gauges(now)?.into_iter().find(|row| row.id == *gauge);
            let none = || Error::NotFound { kind: "gauge", id: gauge.clone() };
            let (unit, value) = shown::of(&row.ok_or_else(none)?, typed)?;
            engine.enter_reading(gauge, unit, value, now)
        }
    }
}
