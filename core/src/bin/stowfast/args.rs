//! What was asked on the command line.

use std::path::PathBuf;

use chrono::DateTime;
use lexopt::prelude::{Long, Short, Value, ValueExt};
use stowfast_core::clock::Stamp;
use stowfast_core::engine::{Line, Odd};

use crate::ahead::{self, Ahead};
use crate::fault::{self, Deed, Fault};
use crate::hint::{did_you_mean, nearest};
use crate::show::leaving;

/// What `--help` prints. Each command stands on a line of its own, indented by two.
pub(crate) const HELP: &str = "\
Stowfast works out what to do in this motorhome in its present state.

stowfast                ready to drive or what blocks it, the way to leave, the fridge
stowfast COMMAND        one of these:

Get ready
  targets               what the vehicle can be got ready for
  plan TARGET           the steps from here, without opening a routine
                        with --people 2: shared out between two people
                        with --back ENTRY in place of TARGET: to how things were before it
  walk [TARGET]         carry a routine out: Enter for each list, a letter for the rest
  open TARGET           open a routine, to carry it out command by command; also --back ENTRY
  routine               what is left of it
  tick STEP             a step is done
  confirm STEP…         a whole list is as it says; the odd one as STEP=SETTING for what a look
                        showed, or as STEP=cannot
  look STEP SETTING     what a look showed
  cannot STEP [NOTE]    it cannot be done
  freed ENTRY           what could not be moved can be again
  left STEP [NOTE]      it is left undone, knowingly
  pause                 lay the routine aside
  resume                take it up again
  close                 end it

On the road
  drive                 we have driven off
  arrive [PLACE]        we stand; at PLACE, or the place that a file tells of
  places                every PLACE that is built in
  drive-card            height, width, length, mass and tyre pressures

Say and ask
  report THING SETTING  how something is
  may STEP              may this be done now? every reason against it
  alerts                every red lamp that this vehicle can show, what shows first
  alert ALERT           what it means now, what to do, what to stop, when to call for help
  cards                 every FITTING, each with its card
  card FITTING          how to use it: start, use, stop, look after, what is normal
  faults                everything that may not work in this vehicle
  fault FAULT [CHECK ANSWER]
                        find its cause: what to look at next; with what was seen, what comes then
                        with --undo: take the last answer back; with --again: begin anew
  find WORDS…           the cards, red lamps and ways that these words may mean
  things                every THING with its settings, and what is believed of it
  steps                 every STEP of this vehicle
  country CODE          which country we are in, as FR, and what is known of its rules
  carrier SORT          what carries us on this trip: ferry, shuttle_train or tunnel
  rules                 every rule of countries and carriers, with its source and date
  fridge [SETTING]      what the fridge runs on, or where you set it
                        with --leave TIME: by when to begin cooling it down
  gauges                what the gauges last said
  read GAUGE VALUE      what a gauge shows now: 2, 45%, 12.3kg, or its word
  reserves              what is left, what is used in a day, what runs out first
  figures               every FIGURE that only you can tell: people on board, showers a day
  figure FIGURE VALUE   tell one; unknown where it is no longer known
  stay NIGHTS           without services: what holds, what to fill or empty before
  note TEXT             something to remember
  log [LINES]           what was said, newest first, each with the number of its ENTRY
  undo ENTRY…           take entries back, all of them or none

Vehicles
  vehicles              all of them
  choose ID             go on with another one
  check FILE            check a pack without adding it
  add FILE              add a vehicle from its pack
  replace FILE          give this vehicle a corrected pack; its log stays
  demo ID               add an invented one

Settings
  units [UNITS]         how quantities are written: metric or imperial

Keep
  export FILE           everything, with packs and logs, into one file; FILE must not be there yet
                        with --overwrite: in place of what is there
  import FILE           all that such a file holds, beside what is here or further

Options
  --db FILE             the database (default: stowfast/stowfast.db in your data folder)
  --json                one JSON object, `stowfast_json` tells its version
  --now TIME            act as if it were TIME, as 2026-07-14T08:00:00Z
  --leave TIME          with fridge: when you leave, as 2026-07-15T18:00:00Z
  --people N            with plan: for one or two people (default: 1)
  --only PARTS          with plan, walk and open: some parts only, as waste,water
  --variant ID          with plan, walk and open: the way of wanting it that is meant (default: the
                        quickest that nothing has to be chosen for)
  --lang TAG            language of the words (default: en)
  NO_COLOR              set it for plain text

Exit codes: 0 done, 2 usage, 3 bad input or unknown name, 4 does not fit what is under way,
5 storage, 70 a fault of this program.

Stowfast advises. Local rules, the maker's manual and licensed people come first.";

/// The commands as `--help` lists them, each with what it takes.
fn commands() -> impl Iterator<Item = &'static str> {
    let commands = HELP.lines().take_while(|line| *line != "Options");
    commands.filter_map(|line| line.strip_prefix("  ")?.split("  ").next())
}

/// One command.
#[derive(Debug)]
pub(crate) enum Command {
    Help,
    Version,
    /// Check a pack without adding it.
    Check(PathBuf),
    Show(Show),
    /// Carry a routine out.
    Walk(Option<String>),
    Say(Say),
    Bring(Bring),
    /// Say something in the search for a cause.
    Fault(Fault),
    Ahead(Ahead),
}

/// Asks for a page.
#[derive(Debug)]
pub(crate) enum Show {
    Now,
    Targets,
    Plan(String),
    /// The same for two people.
    Shared(String),
    Routine,
    May(String),
    Steps,
    Things,
    /// With when they leave. Unit: ms since 1970-01-01 UTC.
    Fridge(Option<i64>),
    Gauges,
    Reserves,
    Units,
    Alerts,
    Alert(String),
    Faults,
    Fault(String),
    Cards,
    Card(String),
    Find(String),
    /// Rules of countries and carriers.
    Rules,
    Log(i32),
    Vehicles,
    Places,
    DriveCard,
}

/// Says what has happened.
#[derive(Debug)]
pub(crate) enum Say {
    Open(String),
    Tick(String),
    Confirm(Vec<Line>),
    Look(String, String),
    Undo(Vec<i64>),
    Cannot(String, String),
    Left(String, String),
    Freed(i64),
    Note(String),
    Pause,
    Resume,
    Close,
    Drive,
    Arrive,
    ArriveAt(String),
    Report(String, String),
    Country(String),
    Carrier(String),
    Fridge(String),
    Read(String, String),
    Units(String),
}

/// Brings a vehicle in or to the fore.
#[derive(Debug)]
pub(crate) enum Bring {
    Add(PathBuf),
    Replace(PathBuf),
    Demo(String),
    Choose(i64),
    Export { file: PathBuf, overwrite: bool },
    Import(PathBuf),
}

/// The command and its options.
#[derive(Debug)]
pub(crate) struct Asked {
    pub(crate) command: Command,
    pub(crate) database: Option<PathBuf>,
    pub(crate) json: bool,
    pub(crate) now: Option<Stamp>,
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
    let (mut variant, mut back, mut leave, mut deed) = (None, None, None, None);
    while let Some(arg) = parser.next()? {
        match arg {
            Long("db") => database = Some(PathBuf::from(parser.value()?)),
            Long("json") => json = true,
            Long("overwrite") => overwrite = true,
            Long("undo") => deed = Some(Deed::Undo),
            Long("again") => deed = Some(Deed::Again),
            Long("now") => now = Some(time("--now", &parser.value()?.string()?)?),
            Long("leave") => leave = Some(time("--leave", &parser.value()?.string()?)?.utc_ms),
            Long("people") => people = Some(number::<u8>("--people", &parser.value()?.string()?)?),
            Long("variant") => variant = Some(parser.value()?.string()?),
            Long("only") => variant = Some(parser.value()?.string()?.replace(',', "+")),
            Long("back") => back = Some(number::<i64>("--back", &parser.value()?.string()?)?),
            Long("lang") => language = parser.value()?.string()?,
            Long("help") | Short('h') => command = Some(Command::Help),
            Long("version") | Short('V') => command = Some(Command::Version),
            Value(word) => words.push(word.string()?),
            Long(_) | Short(_) => return Err(arg.unexpected()),
        }
    }
    let command = if let Some(command) = command {
        command
    } else {
        let words = aimed(words, variant, back)?;
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        let command = fault::command(&words).map_or_else(|| of(&words), Ok)?;
        let command = over(for_people(command, people)?, overwrite)?;
        fault::of(leaving(command, leave)?, deed)?
    };
    Ok(Asked { command, database, json, now, language })
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
            return Err("--variant and --only: go with `plan TARGET` and `open TARGET`".into());
        }
        (_, None, Some(_)) => {
            return Err("--back: goes with `plan` and `open`, without TARGET".into());
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

fn time(option: &str, text: &str) -> Result<Stamp, lexopt::Error> {
    let expected = || format!("{option}: expected a time like 2026-07-14T08:00:00Z, not `{text}`");
    let parsed = DateTime::parse_from_rfc3339(text).map_err(|_| expected())?;
    Ok(Stamp::utc(parsed.timestamp_millis()))
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
            match of_vehicles(words)?.map_or_else(|| ahead::command(words), |one| Ok(Some(one)))? {
                Some(command) => command,
                None => return Err(unknown(first).into()),
            }
        }
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
        ["check", file] => Command::Check(PathBuf::from(file)),
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

/// What a command takes, or which one was meant.
fn unknown(first: &str) -> String {
    let name = |command: &'static str| command.split(' ').next().unwrap_or_default();
    if let Some(command) = commands().find(|command| name(command) == first) {
        return format!("expected `stowfast {command}`");
    }
    let meant = nearest(first, commands().map(name).map(str::to_owned));
    format!("`{first}` is no command.{}", did_you_mean(&meant))
}

/// The numbers of entries, at least one.
fn entries(what: &str, first: &str, rest: &[&str]) -> Result<Vec<i64>, lexopt::Error> {
    std::iter::once(&first).chain(rest).map(|entry| number(what, entry)).collect()
}

pub(crate) fn number<T: std::str::FromStr>(what: &str, text: &str) -> Result<T, lexopt::Error> {
    text.parse().map_err(|_| format!("{what}: expected a number, not `{text}`").into())
}
