//! What the command says of itself.

use stowfast_core::near::{did_you_mean, nearest};

use crate::called::as_typed;

/// What `--help` prints. Each command stands on a line of its own, indented by two.
pub(crate) const HELP: &str = "\
Stowfast works out what to do in this motorhome in its present state.

stowfast                ready to drive or what blocks it, the way to leave, the fridge
stowfast COMMAND        one of these:

In danger
  emergency [PERIL]     what to do first, whatever else does not work: co, gas, smoke or fire

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
  photos                every photo of a FITTING
  photo FITTING FILE    give it the JPEG, PNG or WebP picture in FILE
                        with --remove in place of FILE: take its photo away
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
  reckon                every question below that this vehicle can be asked
  supply                what may run at once on mains, in which order else, what the lead loses:
                        --want kettle --want boiler --post a6 --by 18:00
  frost                 by when to drain, or whether it holds tonight: --low -6 --outside 3 --inside 18
  boiler                when the water is hot: --cold 12 --source gas --in_min 45
  power                 for how many nights the battery lasts: --latitude 48 --sky broken --cells cool
                        --latitude is how far north you are, in degrees; south below 0
  gas                   whether it flows in the cold: --mix mix60 --low -5
  load                  what each axle carries, what to leave or to move: --fuel 80
  level                 which wheels to raise, on which step: --pitch 1.5 --roll -0.5
  first                 which reserve ends first, and what would buy time: --change one_fewer
  wind                  what may stay out in the wind that is forecast: --beaufort b6 --gust 18
  fuel                  how far it goes, and for how many nights of heat: --gauge 60 --trip 200 --nights 3
  urea                  how far it goes, what follows at zero, what fits in: --countdown 600 --trip 350
  tyres                 what you measured against what is recorded: --axle_1 4.2 --warmth cold --dot 2321
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
  kinds                 every KIND of fitting that a pack may name

Settings
  units [UNITS]         how quantities are written: metric or imperial
  remind [HOURS]        how long before water, waste or a cassette is due it is told; 0 is never

Keep
  export FILE           everything, with packs and logs, into one file; FILE must not be there yet
                        with --overwrite: in place of what is there
  import FILE           all that such a file holds, beside what is here or further

Help
  help [COMMAND]        all of this, or what one command takes
  version               which version this is

Options
  --db FILE             the database (default: stowfast/stowfast.db in your data folder)
  --json                one JSON object, `stowfast_json` tells its version
  --now TIME            act as if it were TIME, as 2026-07-14T08:00:00Z; its zone is then yours
  --leave TIME          with fridge: when you leave by your clock, as 18:00 or '2026-07-15 18:00'
  --CHOICE VALUE        with a question of numbers: what it names under Asked with
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

/// The name of a command as it is listed.
fn name(command: &str) -> &str {
    command.split(' ').next().unwrap_or_default()
}

/// Whether there is a command of that name.
pub(crate) fn is_command(word: &str) -> bool {
    commands().any(|command| name(command) == word)
}

/// What one command takes: its lines of [`HELP`], and those of the options that go with it.
pub(crate) fn about(command: &str) -> String {
    let goes_with = |line: &str| {
        let with = line.split_once("  with ").and_then(|(_, rest)| rest.split_once(':'));
        with.is_some_and(|(with, _)| with.split([',', ' ']).any(|word| word == command))
    };
    let mut is_listed = false;
    let lines = HELP.lines().filter(|line| {
        match line.strip_prefix("  ") {
            None => is_listed = false,
            Some(entry) if entry.starts_with("--") => is_listed = goes_with(entry),
            Some(entry) if !entry.starts_with(' ') => is_listed = name(entry) == command,
            Some(_) => {}
        }
        is_listed
    });
    lines.collect::<Vec<_>>().join("\n")
}

/// What a command takes, or which one was meant.
pub(crate) fn unknown(first: &str) -> String {
    if let Some(command) = commands().find(|command| name(command) == first) {
        return as_typed(&format!("expected `stowfast {command}`")).into_owned();
    }
    let meant = nearest(first, commands().map(name).map(str::to_owned));
    format!("`{first}` is no command.{}", did_you_mean(&meant))
}
