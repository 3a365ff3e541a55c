//! The `stowfast` command: the engine on a terminal. Run without arguments it shows a new owner
//! the leaving routine of an invented vehicle, what blocks driving, and what the fridge runs on.

mod args;
mod json;
mod show;
mod walk;

use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use args::{Asked, Bring, Command, HELP, Say, Show};
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
    let out = show::Out::new(asked.json);
    let now = asked.now.clone().unwrap_or_else(clock);
    match &asked.command {
        Command::Help => show::plain(HELP),
        Command::Version => show::plain(concat!("stowfast ", env!("CARGO_PKG_VERSION"))),
        Command::Check(file) => check(&out, file),
        Command::Show(what) => page(&out, &open(asked, &now)?, what, &now),
        Command::Walk(target) => {
            let mut engine = open(asked, &now)?;
            walk::walk(&mut engine, target.as_deref(), asked.now.as_ref())
        }
        Command::Say(what) => {
            let changes = say(&mut open(asked, &now)?, what, &now)?;
            out.changes(&changes)
        }
        Command::Bring(what) => {
            let mut engine = open(asked, &now)?;
            bring(&mut engine, what, &now)?;
            out.vehicles(&engine.vehicles()?)
        }
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
    let path = match &asked.database {
        Some(path) => path.clone(),
        None => default_database()?,
    };
    let mut engine = Engine::open(&path, &asked.language, now)?;
    engine.notices()?.iter().try_for_each(|line| show::notice(line))?;
    let brings_one = matches!(asked.command, Command::Bring(_));
    if engine.vehicles()?.is_empty()
        && !brings_one
        && let Some(demo) = engine.demos()?.first()
    {
        engine.add_demo(&demo.id, now)?;
        show::notice("No vehicle yet: this is an invented one, to look around with.")?;
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

fn check(out: &show::Out, file: &Path) -> Result<()> {
    let catalogue = stowfast_core::catalogue::Catalogue::built_in()?;
    let pack =
        stowfast_core::pack::read(&file.display().to_string(), &read_file(file)?, catalogue)?;
    let vehicle = stowfast_core::vehicle::Vehicle::new(&pack, catalogue)?;
    out.checked(&vehicle)
}

fn page(out: &show::Out, engine: &Engine, what: &Show, now: &Stamp) -> Result<()> {
    match what {
        Show::Now => out.now(engine, now),
        Show::Targets => out.targets(&engine.targets()?),
        Show::Plan(target) => out.routine(&engine.preview(target, now)?),
        Show::Routine => match engine.routine(now)? {
            Some(page) => out.routine(&page),
            None => Err(Error::Conflict { detail: "no routine is under way".to_owned() }),
        },
        Show::May(step) => out.refusals(step, &engine.refusals(step, now)?),
        Show::Fridge => out.fridge(engine.fridge(now)?.as_ref()),
        Show::Gauges => out.gauges(&engine.gauges(now)?),
        Show::Log(lines) => out.log(&engine.log(*lines)?),
        Show::Vehicles => out.vehicles(&engine.vehicles()?),
    }
}

fn bring(engine: &mut Engine, what: &Bring, now: &Stamp) -> Result<()> {
    match what {
        Bring::Add(file) => {
            let name = file.display().to_string();
            let pack = String::from_utf8(read_file(file)?).map_err(|error| {
                // Read again as bytes, for the line.
                let read = stowfast_core::catalogue::Catalogue::built_in()
                    .and_then(|known| stowfast_core::pack::read(&name, error.as_bytes(), known));
                read.err().unwrap_or_else(|| Error::Internal("not text".to_owned()))
            })?;
            engine.add_pack(&pack, &name, now).map(|_| ())
        }
        Bring::Demo(id) => engine.add_demo(id, now).map(|_| ()),
        Bring::Choose(id) => engine.choose_vehicle(*id, now),
    }
}

fn say(engine: &mut Engine, what: &Say, now: &Stamp) -> Result<Changes> {
    match what {
        Say::Open(target) => engine.open_run(target, now),
        Say::Tick(step) => engine.tick(step, now),
        Say::Look(step, choice) => engine.look(step, choice, now),
        Say::Undo(entry) => engine.unmark(*entry, now),
        Say::Cannot(step, note) => engine.cannot(step, note, now),
        Say::Left(step, note) => engine.left_anyway(step, note, now),
        Say::Freed(entry) => engine.clear_stuck(*entry, now),
        Say::Note(note) => engine.note(note, now),
        Say::Pause => engine.pause(now),
        Say::Resume => engine.resume(now),
        Say::Close => engine.close_run(now),
        Say::Report(variable, setting) => engine.report(variable, setting, now),
        Say::Fridge(selector) => engine.set_fridge(selector, now),
        Say::Read(gauge, value) => {
            let row = engine.gauges(now)?.into_iter().find(|row| row.id == *gauge);
            let none = || Error::NotFound { kind: "gauge", id: gauge.clone() };
            engine.enter_reading(gauge, row.ok_or_else(none)?.unit, *value, now)
        }
    }
}
