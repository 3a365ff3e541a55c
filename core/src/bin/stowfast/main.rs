//! The `stowfast` command: the engine on a terminal. Run without arguments it shows a new owner
//! the leaving routine of an invented vehicle, what blocks driving, and what the fridge runs on.

mod args;
mod json;
mod show;
mod walk;

use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use args::{Asked, Command, HELP};
use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Changes, Engine};
use stowfast_core::{Error, Result};

/// Exit codes, documented in `--help`.
const USAGE: u8 = 2;
const BAD_INPUT: u8 = 3;
const CONFLICT: u8 = 4;
const STORAGE: u8 = 5;
const INTERNAL: u8 = 70;

fn main() -> ExitCode {
    let asked = match args::parse() {
        Ok(asked) => asked,
        Err(error) => {
            let _ = writeln!(io::stderr(), "stowfast: {error}\nTry: stowfast --help");
            return ExitCode::from(USAGE);
        }
    };
    match run(&asked) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            let _ = writeln!(io::stderr(), "stowfast: {error}");
            ExitCode::from(code(&error))
        }
    }
}

fn code(error: &Error) -> u8 {
    match error {
        // A reader that went away (a pager that was quit) is no fault.
        Error::Io { source, .. } if source.kind() == io::ErrorKind::BrokenPipe => 0,
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

fn run(asked: &Asked) -> Result<()> {
    let mut out = show::Out::new(asked.json);
    match &asked.command {
        Command::Help => return out.plain(HELP),
        Command::Version => return out.plain(concat!("stowfast ", env!("CARGO_PKG_VERSION"))),
        Command::Check(file) => return check(&mut out, file),
        _ => {}
    }
    let now = asked.now.clone().unwrap_or_else(clock);
    let mut engine = open(&mut out, asked, &now)?;
    carry_out(&mut out, &mut engine, asked, &now)
}

/// The one place where the command reads the clock.
#[allow(clippy::disallowed_methods, reason = "the binary is where `now` comes from")]
fn clock() -> Stamp {
    let since_epoch = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH);
    let utc_ms = since_epoch.ok().and_then(|since| i64::try_from(since.as_millis()).ok());
    Stamp::utc(utc_ms.unwrap_or(0))
}

/// Opens the database; one without a vehicle gets the first invented one.
fn open(out: &mut show::Out, asked: &Asked, now: &Stamp) -> Result<Engine> {
    let path = match &asked.database {
        Some(path) => path.clone(),
        None => default_database()?,
    };
    let mut engine = Engine::open(&path, &asked.language, now)?;
    if let Some(opened) = engine.opened() {
        if let Some(kept) = &opened.set_aside {
            out.notice(&format!("The database was damaged. It is kept at {}.", kept.display()))?;
        }
        if let Some(backup) = &opened.restored_from {
            out.notice(&format!("It was restored from the backup {}.", backup.display()))?;
        }
    }
    let brings_one = matches!(asked.command, Command::Add(_) | Command::Demo(_));
    if engine.vehicles()?.is_empty() && !brings_one {
        if let Some(demo) = engine.demos()?.first() {
            engine.add_demo(&demo.id, now)?;
            out.notice("No vehicle yet: this is an invented one, to look around with.")?;
        }
    }
    Ok(engine)
}

/// `stowfast.db` in the user's own data folder.
fn default_database() -> Result<PathBuf> {
    let set = |name: &str| std::env::var_os(name).filter(|value| !value.is_empty());
    let data = set("XDG_DATA_HOME")
        .map(PathBuf::from)
        .or_else(|| set("HOME").map(|home| PathBuf::from(home).join(".local/share")));
    let folder = data.unwrap_or_else(std::env::temp_dir).join("stowfast");
    std::fs::create_dir_all(&folder)
        .map_err(|source| Error::Io { path: folder.clone(), source })?;
    Ok(folder.join("stowfast.db"))
}

fn read_file(file: &Path) -> Result<Vec<u8>> {
    std::fs::read(file).map_err(|source| Error::Io { path: file.to_owned(), source })
}

fn check(out: &mut show::Out, file: &Path) -> Result<()> {
    let catalogue = stowfast_core::catalogue::Catalogue::built_in()?;
    let pack = stowfast_core::pack::read(&file.display().to_string(), &read_file(file)?, catalogue)?;
    let vehicle = stowfast_core::vehicle::Vehicle::new(&pack, catalogue)?;
    out.checked(&vehicle)
}

fn carry_out(out: &mut show::Out, engine: &mut Engine, asked: &Asked, now: &Stamp) -> Result<()> {
    match &asked.command {
        Command::Now => out.now(engine, now),
        Command::Targets => out.targets(&engine.targets()?),
        Command::Plan(target) => out.routine(&engine.preview(target, now)?),
        Command::Routine => match engine.routine(now)? {
            Some(page) => out.routine(&page),
            None => Err(Error::Conflict { detail: "no routine is under way".to_owned() }),
        },
        Command::Walk(target) => walk::walk(out, engine, target.as_deref(), asked.now.as_ref()),
        Command::May(step) => out.refusals(step, &engine.refusals(step)?),
        Command::Fridge => out.fridge(engine.fridge(now)?.as_ref()),
        Command::Gauges => out.gauges(&engine.gauges(now)?),
        Command::Log(lines) => out.log(&engine.log(*lines)?),
        Command::Vehicles => out.vehicles(&engine.vehicles()?),
        Command::Help | Command::Version | Command::Check(_) => Ok(()),
        Command::Add(_) | Command::Demo(_) | Command::Choose(_) => {
            bring(engine, &asked.command, now)?;
            out.vehicles(&engine.vehicles()?)
        }
        command => {
            let changes = say(engine, command, now)?;
            out.changes(&changes)
        }
    }
}

fn bring(engine: &mut Engine, command: &Command, now: &Stamp) -> Result<()> {
    match command {
        Command::Add(file) => {
            let name = file.display().to_string();
            let pack = String::from_utf8(read_file(file)?).map_err(|error| {
                // Read again as bytes, for the line.
                let read = stowfast_core::catalogue::Catalogue::built_in()
                    .and_then(|known| stowfast_core::pack::read(&name, error.as_bytes(), known));
                read.err().unwrap_or_else(|| Error::Internal("not text".to_owned()))
            })?;
            engine.add_pack(&pack, &name, now).map(|_| ())
        }
        Command::Demo(id) => engine.add_demo(id, now).map(|_| ()),
        Command::Choose(id) => engine.choose_vehicle(*id, now),
        _ => Ok(()),
    }
}

fn say(engine: &mut Engine, command: &Command, now: &Stamp) -> Result<Changes> {
    match command {
        Command::Open(target) => engine.open_run(target, now),
        Command::Tick(step) => engine.tick(step, now),
        Command::Look(step, choice) => engine.look(step, choice, now),
        Command::Undo(entry) => engine.unmark(*entry, now),
        Command::Cannot(step, note) => engine.cannot(step, note, now),
        Command::Left(step, note) => engine.left_anyway(step, note, now),
        Command::Freed(entry) => engine.clear_stuck(*entry, now),
        Command::Note(note) => engine.note(note, now),
        Command::Pause => engine.pause(now),
        Command::Resume => engine.resume(now),
        Command::Close => engine.close_run(now),
        Command::Report(variable, setting) => engine.report(variable, setting, now),
        Command::SetFridge(selector) => engine.set_fridge(selector, now),
        Command::Read(gauge, value) => {
            let row = engine.gauges(now)?.into_iter().find(|row| row.id == *gauge);
            let none = || Error::NotFound { kind: "gauge", id: gauge.clone() };
            engine.enter_reading(gauge, row.ok_or_else(none)?.unit, *value, now)
        }
        _ => Ok(Changes::default()),
    }
}
