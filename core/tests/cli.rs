//! The `stowfast` command as its user meets it: a real binary, a real database file.
//!
//! Golden files stand in `tests/golden/`; `UPDATE_GOLDEN=1 cargo test --test cli` writes them anew.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails loudly")]

mod call;

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use call::{database, golden, stowfast};

const MORNING: &str = "2026-07-14T08:00:00Z";

struct Place {
    folder: tempfile::TempDir,
}

impl Place {
    fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        std::fs::create_dir(folder.path().join("stowfast")).unwrap();
        Self { folder }
    }

    fn database(&self) -> PathBuf {
        database(self.folder.path())
    }

    fn command(&self, now: &str, args: &[&str]) -> Command {
        let mut command = stowfast(self.folder.path());
        command.args(["--now", now]).args(args);
        command
    }

    fn run(&self, now: &str, args: &[&str]) -> Output {
        self.command(now, args).output().unwrap()
    }

    /// What a command that succeeds prints.
    fn says(&self, now: &str, args: &[&str]) -> String {
        let output = self.run(now, args);
        let said = String::from_utf8(output.stdout).unwrap();
        let error = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(0), "{args:?}: {said}{error}");
        said
    }

    /// What a command that fails with `code` says to standard error; it prints nothing else.
    fn fails(&self, code: i32, args: &[&str]) -> String {
        let output = self.run(MORNING, args);
        assert_eq!(output.status.code(), Some(code), "{args:?}");
        assert_eq!(String::from_utf8(output.stdout).unwrap(), "", "{args:?}");
        String::from_utf8(output.stderr).unwrap()
    }

    fn walk(&self, now: &str, typed: &str, args: &[&str]) -> String {
        let mut child =
            self.command(now, args).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
        child.stdin.take().unwrap().write_all(typed.as_bytes()).unwrap();
        let output = child.wait_with_output().unwrap();
        assert_eq!(output.status.code(), Some(0));
        String::from_utf8(output.stdout).unwrap()
    }
}

/// The main job on the demo vehicle, word for word, in every target, and again the same bytes.
#[test]
fn the_demo_vehicle_in_every_target() {
    golden("a_now.txt", &Place::new().says(MORNING, &[]));
    assert_eq!(Place::new().says(MORNING, &[]), Place::new().says(MORNING, &[]));
    for target in
        ["pitched_hookup", "pitched_offgrid", "parked_only", "ready_to_drive", "ready_to_refuel"]
    {
        golden(&format!("a_{target}.txt"), &Place::new().says(MORNING, &["plan", target]));
    }
    let two = Place::new().says(MORNING, &["plan", "ready_to_drive", "--people", "2"]);
    golden("a_ready_to_drive_two.txt", &two);
    let winter = Place::new();
    winter.says(MORNING, &["report", "pitch.waste_point", "here"]);
    winter.says(MORNING, &["report", "boiler.heat", "gas"]);
    let two = winter.says(MORNING, &["plan", "laid_up_winter", "--people", "2"]);
    golden("a_laid_up_winter_two.txt", &two);
    golden("a_now.json", &Place::new().says(MORNING, &["--json"]));
    golden("a_gauges.txt", &Place::new().says(MORNING, &["gauges"]));
}

/// A few days of readings as an owner takes them: full, a day on, one on a slope that does not count.
#[test]
fn reserves_golden_files_hold() {
    let place = Place::new();
    golden("a_reserves_unread.txt", &place.says(MORNING, &["reserves"]));
    place.says(MORNING, &["read", "fresh", "4"]);
    place.says(MORNING, &["read", "waste", "0"]);
    place.says("2026-07-15T09:00:00Z", &["read", "fresh", "2"]);
    place.says("2026-07-16T08:30:00Z", &["read", "fresh", "1"]);
    place.says("2026-07-16T08:31:00Z", &["read", "waste", "0"]);
    place.says("2026-07-16T08:32:00Z", &["report", "pitch.ground", "sloping"]);
    let said = place.says("2026-07-16T08:33:00Z", &["read", "waste", "1"]);
    assert!(said.contains("does not count: the vehicle does not stand level"), "{said}");
    let now = "2026-07-16T09:00:00Z";
    golden("a_reserves.txt", &place.says(now, &["reserves"]));
    golden("a_reserves.json", &place.says(now, &["reserves", "--json"]));
    assert_eq!(place.says(now, &["units"]), "metric\n");
    place.says(now, &["units", "imperial"]);
    golden("a_reserves_imperial.txt", &place.says(now, &["reserves"]));
    let said = place.fails(3, &["units", "cubits"]);
    assert!(said.contains("metric or imperial"), "{said}");
}

/// What people tell of themselves, and four nights without services on each vehicle.
#[test]
fn stay_golden_files_hold() {
    for vehicle in ["a", "b", "c"] {
        let place = Place::new();
        place.says(MORNING, &["demo", vehicle]);
        golden(&format!("stay/{vehicle}_figures.txt"), &place.says(MORNING, &["figures"]));
        for (figure, value) in [("people", "2"), ("flushes_a_day", "4"), ("flush_l", "0.3")] {
            place.run(MORNING, &["figure", figure, value]);
        }
        if vehicle == "c" {
            place.says(MORNING, &["figure", "showers_a_day", "0.5"]);
            place.says(MORNING, &["figure", "shower_l", "12"]);
        }
        golden(&format!("stay/{vehicle}_stay.txt"), &place.says(MORNING, &["stay", "4"]));
        golden(
            &format!("stay/{vehicle}_stay.json"),
            &place.says(MORNING, &["stay", "4", "--json"]),
        );
        golden(&format!("stay/{vehicle}_reserves_told.txt"), &place.says(MORNING, &["reserves"]));
    }
    let place = Place::new();
    let said = place.fails(3, &["figure", "people", "0"]);
    assert!(said.contains("People on board: expected 1 to 12, in steps of 1"), "{said}");
    let said = place.fails(3, &["stay", "0"]);
    assert!(said.contains("number of nights: expected 1 to 60"), "{said}");
}

/// Arrived on the road, the vehicle is hooked up, and the order follows from clauses.
#[test]
fn arriving_on_hook_up() {
    let place = Place::new();
    place.walk("2026-07-14T08:10:00Z", &"d\n".repeat(40), &["walk", "ready_to_drive"]);
    let said = place.says("2026-07-14T08:20:00Z", &["drive"]);
    assert!(said.contains("stowfast arrive") && !said.contains('!'), "nothing is broken: {said}");
    place.says("2026-07-14T11:00:00Z", &["arrive"]);
    let unknown = place.says("2026-07-14T11:00:00Z", &["plan", "pitched_hookup"]);
    assert!(unknown.contains("Say how it is here"), "the old pitch is forgotten: {unknown}");
    assert!(unknown.contains("stowfast things"), "{unknown}");
    place.says("2026-07-14T11:00:00Z", &["report", "post.supply", "live"]);
    golden("a_arriving.txt", &place.says("2026-07-14T11:00:00Z", &["plan", "pitched_hookup"]));
}

#[test]
fn a_routine_is_walked_to_its_end() {
    let place = Place::new();
    let said = place.walk(MORNING, &"d\n".repeat(40), &["walk", "ready_to_drive"]);
    assert!(said.contains("Everything on the list is done and looked at."), "{said}");
    let page = place.says("2026-07-14T08:05:00Z", &[]);
    assert!(page.contains("The list is clear"), "{page}");
}

#[test]
fn a_walk_can_be_left_and_taken_up_where_it_was() {
    let place = Place::new();
    place.walk(MORNING, "d\nd\nq\n", &["walk", "ready_to_drive"]);
    let before = place.says(MORNING, &["routine"]);
    let said = place.walk(MORNING, "q\n", &["walk"]);
    assert!(said.contains("(17 left)"), "{said}");
    assert_eq!(place.says(MORNING, &["routine"]), before);
    place.walk(MORNING, "p\n", &["walk"]);
    let resumed = place.walk(MORNING, "q\n", &["walk"]);
    assert!(resumed.contains("Look at it once more."), "{resumed}");
}

/// Enter is no answer where a stray tap must not be one; a number marks the odd line.
#[test]
fn a_list_is_confirmed_on_purpose_and_its_odd_line_marked() {
    let place = Place::new();
    let typed = "d\n\n4\njammed\n6\n3\nd\nq\n";
    let said = place.walk(MORNING, typed, &["walk", "ready_to_drive"]);
    assert_eq!(said.matches("See each with your own eyes.").count(), 1, "{said}");
    assert!(said.contains("otherwise than Galley window: shut and locked"), "{said}");
    let log = place.says(MORNING, &["log"]);
    assert!(log.contains("Cannot: Shut and lock the galley window (jammed)"), "{log}");
    assert!(log.contains("Window by the bed: open"), "{log}");
    assert!(place.says(MORNING, &["routine"]).contains("Shut and lock the window by the bed"));
}

#[test]
fn a_list_is_confirmed_with_one_command() {
    let place = Place::new();
    place.says(MORNING, &["open", "ready_to_drive"]);
    let said = place.says(
        MORNING,
        &["confirm", "pump.switch_off", "window_bed.leaf.look=open", "drawers.latch=cannot"],
    );
    let recorded = "Recorded [8] Switch the water pump off\n\
                    Recorded [9] Window by the bed: open · Walk round the vehicle: still to do\n\
                    Recorded [10] Cannot: Shut and latch the galley drawers\n";
    assert_eq!(said, recorded);
    let page: serde_json::Value =
        serde_json::from_str(&place.says(MORNING, &["--json", "routine"])).unwrap();
    let stops = page["routine"]["stops"].as_array().unwrap();
    let gestures: Vec<_> =
        stops.iter().flat_map(|stop| stop["gestures"].as_array().unwrap()).collect();
    assert_eq!(page["routine"]["gesture_count"], gestures.len());
    assert!(gestures.iter().all(|one| one["hold"].is_boolean() && one["kind"].is_string()));
    assert!(place.fails(2, &["confirm"]).contains("stowfast confirm STEP…"));
    assert!(
        place.fails(3, &["confirm", "pump.switch_of"]).contains("Did you mean pump.switch_off")
    );
}

#[test]
fn every_answer_comes_as_json_of_a_known_version() {
    let place = Place::new();
    place.says(MORNING, &["open", "ready_to_drive"]);
    let asked: [&[&str]; 27] = [
        &["now"],
        &["targets"],
        &["plan", "ready_to_drive"],
        &["plan", "ready_to_drive", "--people", "2"],
        &["routine"],
        &["may", "boiler.heat_gas"],
        &["fridge"],
        &["gauges"],
        &["log"],
        &["vehicles"],
        &["steps"],
        &["things"],
        &["country", "FR"],
        &["carrier", "ferry"],
        &["rules"],
        &["tick", "step.in"],
        &["drive"],
        &["arrive"],
        &["places"],
        &["alerts"],
        &["alert", "fresh.empty"],
        &["cards"],
        &["card", "boiler"],
        &["figures"],
        &["figure", "people", "2"],
        &["stay", "2"],
        &["arrive", "ferry"],
    ];
    for args in asked {
        let said = place.says(MORNING, &[&["--json"], args].concat());
        let value: serde_json::Value = serde_json::from_str(&said).unwrap();
        assert_eq!(value["stowfast_json"], 2, "{args:?}");
        assert_eq!(value.as_object().unwrap().len(), 2, "{args:?}");
    }
}

#[test]
fn errors_go_to_standard_error_with_their_codes() {
    let place = Place::new();
    place.says(MORNING, &[]);
    assert!(place.fails(2, &["juggle"]).contains("`juggle`"));
    assert!(place.fails(2, &["tikc"]).contains("Did you mean tick?"));
    assert!(place.fails(2, &["plan"]).contains("expected `stowfast plan TARGET`"));
    assert!(place.fails(2, &["undo", "three"]).contains("a whole number"));
    assert!(place.fails(2, &["--colour"]).contains("--colour"));
    assert!(place.fails(3, &["plan", "the_moon"]).contains("no routine named the_moon"));
    assert!(place.fails(3, &["may", "boiler.sing"]).contains("boiler.sing"));
    assert!(place.fails(3, &["report", "boiler.heat", "nuclear"]).contains("off, electric, gas"));
    assert!(place.fails(3, &["read", "fresh", "nan"]).contains("expected"));
    assert!(place.fails(3, &["read", "battery", "127"]).contains("volts, 8 to 16\n"));
    assert!(place.fails(3, &["--lang", "xx", "targets"]).contains("--lang: expected a language"));
    assert!(place.says(MORNING, &["--lang", "en-GB", "targets"]).contains("Get ready to drive"));
    assert!(place.fails(4, &["routine"]).contains("no routine"));
    assert!(place.fails(4, &["close"]).contains("stowfast walk TARGET"));
    let seen = "Say what you saw: stowfast look step.step.look in|out\n";
    assert!(place.fails(4, &["tick", "step.step.look"]).contains(seen));
    assert!(place.fails(5, &["check", "/no/such/pack.toml"]).contains("/no/such/pack.toml"));
}

#[test]
fn a_bad_pack_says_file_and_line_and_changes_nothing() {
    let place = Place::new();
    place.says(MORNING, &[]);
    let bad = place.folder.path().join("van.toml");
    let good = include_str!("../../demo-data/a/pack.toml");
    std::fs::write(&bad, good.replace("kind = \"pump\"", "kind = \"pomp\"")).unwrap();
    let before = place.says(MORNING, &["vehicles"]);
    for command in ["check", "add"] {
        let said = place.fails(3, &[command, bad.to_str().unwrap()]);
        assert!(said.contains("van.toml:") && said.contains("a kind of"), "{said}");
    }
    std::fs::write(&bad, vec![b'#'; 1_000_001]).unwrap();
    let said = place.fails(3, &["check", bad.to_str().unwrap()]);
    assert!(said.contains("van.toml: expected a pack of at most 1000000 bytes"), "no line: {said}");
    std::fs::write(&bad, b"title = \"\xff\"").unwrap();
    assert!(place.fails(3, &["add", bad.to_str().unwrap()]).contains("van.toml:1"));
    assert_eq!(place.says(MORNING, &["vehicles"]), before);
}

#[test]
fn a_damaged_database_is_kept_and_said() {
    let place = Place::new();
    place.says(MORNING, &[]);
    let whole = std::fs::read(place.database()).unwrap();
    std::fs::write(place.database(), &whole[..whole.len() / 2 + 100]).unwrap();
    let output = place.run("2026-07-14T08:01:00Z", &[]);
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(0));
    assert!(said.contains("Nothing was deleted"), "{said}");
    assert!(place.folder.path().join("stowfast/damaged").is_dir());
}

#[test]
fn a_newer_database_is_refused_and_not_touched() {
    let place = Place::new();
    place.says(MORNING, &[]);
    let connection = rusqlite::Connection::open(place.database()).unwrap();
    connection.pragma_update(None, "user_version", 999).unwrap();
    drop(connection);
    let before = std::fs::read(place.database()).unwrap();
    assert!(place.fails(5, &[]).contains("999"));
    assert_eq!(std::fs::read(place.database()).unwrap(), before);
}

#[test]
fn plain_text_where_it_is_not_a_terminal() {
    let place = Place::new();
    let said = place.command(MORNING, &[]).env("NO_COLOR", "1").output().unwrap();
    assert!(!said.stdout.contains(&0x1b));
    assert!(!place.says(MORNING, &[]).contains('\u{1b}'));
}

/// `stowfast | head -1`: whoever read has read enough.
#[test]
fn a_reader_that_goes_away_is_no_fault() {
    let place = Place::new();
    let (reader, writer) = std::io::pipe().unwrap();
    drop(reader);
    let output = place.command(MORNING, &["targets"]).stdout(writer).output().unwrap();
    assert_eq!(output.status.code(), Some(0));
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(!said.contains("pipe"), "{said}");
    let (reader, writer) = std::io::pipe().unwrap();
    drop(reader);
    let output = Place::new().command(MORNING, &["targets"]).stderr(writer).output().unwrap();
    assert!(
        String::from_utf8(output.stdout).unwrap().contains("ready_to_drive"),
        "answered all the same"
    );
}

#[test]
fn without_a_data_folder_the_database_must_be_named() {
    for relative in ["", "data"] {
        let mut command = stowfast(Path::new(relative));
        command.arg("targets").env_remove("HOME").env("XDG_DATA_HOME", relative);
        let output = command.output().unwrap();
        assert_eq!(output.status.code(), Some(3));
        assert!(String::from_utf8(output.stderr).unwrap().contains("--db: expected a file"));
    }
}

#[test]
fn the_log_says_in_which_zone_its_times_are() {
    let place = Place::new();
    place.says(MORNING, &["note", "left the keys on the hook"]);
    assert!(
        place.says(MORNING, &["log", "1"]).contains("2026-07-14 08:00 UTC Note (left the keys")
    );
}

#[test]
fn a_move_is_reported_by_its_name_outside_a_routine() {
    let place = Place::new();
    place.says(MORNING, &["tick", "step.in"]);
    place.says(MORNING, &["look", "roof_bed.leaf.look", "open"]);
    let things = place.says(MORNING, &["things"]);
    assert!(things.contains("Entrance step: In (just now)\n      step.step in|out"), "{things}");
    assert!(things.contains("Roof light over the bed: Open (just now)"), "{things}");
    let said = place.says(MORNING, &["tick", "engine.drive_off"]);
    assert!(said.contains("tears off on the road"), "what it breaks is said: {said}");
}

/// Whoever drives off says so once: the routine that led there is closed with it.
#[test]
fn driving_off_closes_the_routine_that_led_there() {
    let place = Place::new();
    place.says(MORNING, &["open", "ready_to_drive"]);
    let said = place.says(MORNING, &["drive"]);
    assert!(said.contains("The routine under way was closed: Get ready to drive"), "{said}");
    assert!(place.fails(4, &["routine"]).contains("no routine"));
    place.says(MORNING, &["open", "pitched_offgrid"]);
    place.says(MORNING, &["drive"]);
    place.says(MORNING, &["arrive"]);
    place.says(MORNING, &["routine"]);
}

#[test]
fn everything_that_can_be_named_is_listed_and_a_wrong_name_finds_it() {
    let place = Place::new();
    let steps = place.says(MORNING, &["steps"]);
    assert!(steps.contains("\nGalley\n") && steps.contains("boiler.heat_gas"), "{steps}");
    let first = steps.lines().nth(1).unwrap().split_whitespace().nth(1).unwrap();
    place.says(MORNING, &["may", first]);
    for (args, meant) in [
        (["may", "boiler.heat_gass"], "Did you mean boiler.heat_gas"),
        (["tick", "roof_bed"], "Did you mean roof_bed.shut"),
        (["look", "roof_bed.leef.look"], "Did you mean roof_bed.leaf.look"),
        (["plan", "hookup"], "Did you mean pitched_hookup?"),
        (["alert", "fresh.emty"], "Did you mean fresh.empty? All of them: stowfast alerts"),
        (["card", "bioler"], "Did you mean boiler"),
        (["figure", "peopel"], "Did you mean people?"),
    ] {
        let args = if ["look", "figure"].contains(&args[0]) {
            vec![args[0], args[1], if args[0] == "look" { "shut" } else { "2" }]
        } else {
            args.to_vec()
        };
        let said = place.fails(3, &args);
        assert!(said.contains(meant), "{args:?}: {said}");
    }
    let said = place.fails(3, &["report", "pump.powr", "off"]);
    assert!(said.contains("Did you mean pump.power? All of them: stowfast things"), "{said}");
}

/// How long the boiler has been off follows from what was said; nobody says it.
#[test]
fn an_age_is_neither_listed_nor_reported() {
    let place = Place::new();
    assert!(!place.says(MORNING, &["--json", "things"]).contains("cool_min"));
    let said = place.fails(3, &["report", "boiler.heat.cool_min", "old"]);
    assert!(said.contains("no thing named boiler.heat.cool_min"), "{said}");
}

const PACK: &str = include_str!("../../demo-data/a/pack.toml");
const BED: &str = "[[fitting]]\nid = \"roof_bed\"\nkind = \"roof_light\"\n";

impl Place {
    /// The demo vehicle's pack with `old` replaced, in a file.
    fn pack(&self, name: &str, old: &str, new: &str) -> String {
        assert!(PACK.contains(old), "{old}");
        let path = self.folder.path().join(name);
        std::fs::write(&path, PACK.replace(old, new)).unwrap();
        path.to_str().unwrap().to_owned()
    }
}

#[test]
fn a_corrected_pack_replaces_the_vehicle_and_keeps_its_log() {
    let place = Place::new();
    let mine = place.pack("mine.toml", "Wren, a coach-built for two", "Robin");
    assert!(place.says(MORNING, &["check", &mine]).contains("Robin: reads well. 34 fittings"));
    place.says(MORNING, &["add", &mine]);
    let unsaid = place.says(MORNING, &["things"]);
    assert!(unsaid.contains("Vehicle: Standing still (assumed)\n"), "{unsaid}");
    assert!(unsaid.contains("Handbrake: Not known\n"), "{unsaid}");
    place.says(MORNING, &["report", "roof_bed.leaf", "ajar"]);
    place.says(MORNING, &["report", "pump.power", "off"]);
    let said = place.fails(4, &["add", &mine]);
    assert!(said.contains("\"Robin\" is here already") && said.contains("replace FILE"), "{said}");
    let before = place.says(MORNING, &["--json", "log"]);
    let bad = place.pack("bad.toml", "home_zone = \"door\"", "home_zone = \"cellar\"");
    assert!(place.fails(3, &["replace", &bad]).contains("bad.toml:7"));
    assert_eq!(place.says(MORNING, &["--json", "log"]), before, "a bad file changes nothing");

    let other = PACK
        .replace("Wren, a coach-built for two", "Robin")
        .replace(BED, "[[fitting]]\nid = \"hatch\"\nkind = \"roof_light\"\n");
    std::fs::write(&mine, other).unwrap();
    let said = place.says(MORNING, &["replace", &mine]);
    assert!(
        said.contains("No longer fitted") && said.contains("roof light over the bed"),
        "{said}"
    );
    assert!(!place.says(MORNING, &["replace", &mine]).contains("No longer"), "told once");
    let log = place.says(MORNING, &["log"]);
    assert!(log.contains("roof_bed.leaf: ajar, which is no longer fitted"), "{log}");
    assert!(log.contains("the pack was replaced by"), "{log}");
    let things = place.says(MORNING, &["things"]);
    assert!(things.contains("Water pump: Off (just now)"), "the log counts: {things}");
    assert!(things.contains("hatch.leaf") && !things.contains("roof_bed"), "{things}");
    assert!(place.says(MORNING, &["--json", "replace", &mine]).contains("\"changes\""));
    assert_eq!(place.says(MORNING, &["vehicles"]), "* 1 Robin (invented)\n");

    let wren = place.pack("wren.toml", "", "");
    place.says(MORNING, &["add", &wren]);
    assert!(place.fails(4, &["replace", &mine]).contains("\"Robin\" is here already, as number 1"));
}

/// A newer version may check more strictly: the pack before it is used, and that is said.
#[test]
fn a_pack_that_no_longer_reads_falls_back_on_the_one_before() {
    let place = Place::new();
    let mine = place.pack("mine.toml", "", "");
    place.says(MORNING, &["add", &mine]);
    place.says(MORNING, &["report", "pump.power", "off"]);
    let now = stowfast_core::clock::Stamp::utc(1_784_016_000_000);
    let store = |text: &str, good: Option<&str>| {
        let (mut store, _) = stowfast_core::store::Store::open(&place.database(), &now).unwrap();
        store.replace_pack(1, "Wren", text, good, &[]).unwrap();
    };
    let strict = PACK.replace("stowfast_pack = 1", "stowfast_pack = 1\nfar_too_new = true");
    store(&strict, Some(PACK));
    let output = place.run(MORNING, &["things"]);
    let (said, told) =
        (String::from_utf8(output.stdout).unwrap(), String::from_utf8(output.stderr).unwrap());
    assert!(told.contains("The one before it is used."), "{told}");
    assert!(said.contains("Water pump: Off (just now)"), "with its log: {said}");
    assert!(place.says(MORNING, &["vehicles"]).contains("no longer reads: Wren:3: expected"));

    place.says(MORNING, &["replace", &mine]);
    let output = place.run(MORNING, &["vehicles"]);
    assert!(
        output.stderr.is_empty() && !String::from_utf8(output.stdout).unwrap().contains("reads")
    );

    store(&strict, None);
    let said = place.fails(4, &["things"]);
    assert!(said.contains("Its log is kept") && said.contains("stowfast vehicles"), "{said}");
    place.says(MORNING, &["replace", &mine]);
    assert!(place.says(MORNING, &["things"]).contains("Water pump: Off"), "and is put right");
}

#[test]
fn a_walk_takes_back_what_was_said_last_and_tells_how_to_go_on() {
    let place = Place::new();
    let said =
        place.walk(MORNING, "d\n9\nl\n1\nno need\nu\nu\nu\nq\n", &["walk", "ready_to_drive"]);
    assert_eq!(said.matches("that line is otherwise").count(), 2, "no line 9: {said}");
    assert!(said.contains("Taken back: Left anyway: Switch the boiler off (no need)"), "{said}");
    assert!(said.contains("Taken back: Roof light over the lounge: shut"), "{said}");
    assert!(said.contains("Nothing to take back."), "{said}");
    assert!(said.ends_with("Go on: stowfast walk\n"), "{said}");
    let page = place.says(MORNING, &[]);
    assert!(page.contains("Under way: Get ready to drive, 0 done, 24 left\n"), "{page}");
    assert!(page.contains("Next: stowfast walk  "), "{page}");
}

#[test]
fn on_the_road_the_first_page_says_so_and_what_is_wrong() {
    let place = Place::new();
    place.walk(MORNING, &"d\n".repeat(40), &["walk", "ready_to_drive"]);
    assert!(place.says(MORNING, &[]).contains("Next: stowfast drive"));
    place.says(MORNING, &["drive"]);
    let page = place.says(MORNING, &[]);
    assert!(page.contains("On the road.\n") && page.contains("Next: stowfast arrive"), "{page}");
    assert!(!page.contains("must be"), "nothing is known to be wrong: {page}");
    place.says(MORNING, &["report", "roof_bed.leaf", "ajar"]);
    assert!(place.says(MORNING, &[]).contains("✗ Roof light over the bed — must be: shut"));
}

#[test]
fn laid_up_for_winter_the_first_page_says_so_and_what_comes_next() {
    let place = Place::new();
    place.says(MORNING, &["demo", "b"]);
    place.says(MORNING, &["open", "laid_up_winter"]);
    assert!(!place.says(MORNING, &[]).contains("Laying up for winter"), "it is under way");
    place.says(MORNING, &["close"]);
    let left = place.says("2026-07-20T08:00:00Z", &[]);
    assert!(left.contains("Laying up for winter is not finished. Begun 2026-07-14."), "{left}");
    assert!(left.contains("Next: stowfast walk laid_up_winter"), "{left}");
    place.says("2026-10-14T08:00:00Z", &["report", "pitch.purpose", "laid_up"]);
    let spring = place.says("2027-03-20T08:00:00Z", &[]);
    let line = "Said to be laid up for winter. Since 2026-10-14. Next: Bring back into service\n";
    assert!(spring.contains(line), "{spring}");
    assert!(spring.contains("Next: stowfast walk back_in_service"), "{spring}");
    let json = place.says("2027-03-20T08:00:00Z", &["--json"]);
    assert!(json.contains(r#""headline":"Said to be laid up for winter.""#), "{json}");
}

#[test]
fn arriving_at_a_place_tells_what_it_is_like() {
    let place = Place::new();
    let all = place.says(MORNING, &["places"]);
    assert!(all.contains("ferry") && all.contains("A ferry lane"), "{all}");
    let said = place.says(MORNING, &["arrive", "ferry"]);
    assert!(said.contains("Where no flame may burn"), "what it breaks is said: {said}");
    let things = place.says(MORNING, &["things"]);
    assert!(things.contains("Place: A ferry or its lanes (just now)"), "{things}");
    assert!(place.says(MORNING, &["log", "1"]).contains("(A ferry lane)"));
    assert!(place.fails(3, &["arrive", "fery"]).contains("Did you mean ferry?"));

    let mine = place.folder.path().join("meadow.toml");
    let text = "stowfast_place = 1\ntitle = \"Meadow\"\n[facts]\n\"post.supply\" = [\"none\"]\n";
    std::fs::write(&mine, text).unwrap();
    place.says(MORNING, &["arrive", mine.to_str().unwrap()]);
    assert!(place.says(MORNING, &["things"]).contains("Mains at the post: Not here (just now)"));
    let before = place.says(MORNING, &["--json", "log"]);
    std::fs::write(&mine, text.replace("none", "nun")).unwrap();
    let said = place.fails(3, &["arrive", mine.to_str().unwrap()]);
    assert!(said.contains("meadow.toml:4: expected a setting of `none`"), "{said}");
    std::fs::write(&mine, b"title = \"\xff\"").unwrap();
    assert!(place.fails(3, &["arrive", mine.to_str().unwrap()]).contains("meadow.toml:1"));
    assert_eq!(place.says(MORNING, &["--json", "log"]), before, "a bad file changes nothing");
    assert!(place.fails(5, &["arrive", "/no/such/place.toml"]).contains("/no/such/place.toml"));
}

/// All of it goes into one file, which is never written over unasked, and comes back the same.
#[test]
fn everything_is_exported_into_one_file_and_imported_again() {
    let (place, other) = (Place::new(), Place::new());
    let file = place.folder.path().join("kept.json");
    let file = file.to_str().unwrap();
    place.says(MORNING, &["open", "ready_to_drive"]);
    place.says(MORNING, &["tick", "step.in"]);
    place.says(MORNING, &["undo", "8"]);
    assert!(place.says(MORNING, &["export", file]).contains("kept.json: 1 vehicle with packs"));
    let text = std::fs::read_to_string(file).unwrap();

    place.says(MORNING, &["note", "later"]);
    assert!(place.fails(4, &["export", file]).contains("is there already; --overwrite"));
    assert!(place.fails(2, &["--overwrite", "log"]).contains("goes with `export FILE`"));
    assert!(place.fails(2, &["export"]).contains("expected `stowfast export FILE`"));
    assert_eq!(std::fs::read_to_string(file).unwrap(), text);

    let said = other.says(MORNING, &["import", file]);
    assert_eq!(said, "Added: Wren, a coach-built for two. Entries of its log: 9.\n");
    let again = other.folder.path().join("again.json");
    other.says(MORNING, &["export", again.to_str().unwrap()]);
    assert_eq!(std::fs::read_to_string(again).unwrap(), text, "no other vehicle came in between");

    let said = place.says(MORNING, &["--json", "export", "--overwrite", file]);
    let said: serde_json::Value = serde_json::from_str(&said).unwrap();
    assert_eq!((&said["stowfast_json"], &said["exported"]["vehicles"]), (&2.into(), &1.into()));
    let said = other.says(MORNING, &["--json", "import", file]);
    let said: serde_json::Value = serde_json::from_str(&said).unwrap();
    assert_eq!(said["changes"]["entries"], serde_json::json!([10]));
    for args in [["now"], ["routine"], ["gauges"], ["log"], ["fridge"], ["things"]] {
        assert_eq!(other.says(MORNING, &args), place.says(MORNING, &args), "{args:?}");
    }
    let left: Vec<_> = std::fs::read_dir(place.folder.path()).unwrap().collect();
    assert_eq!(left.len(), 2, "the file, and beside it what a database needs: {left:?}");
    let data = std::fs::read_dir(place.folder.path().join("stowfast")).unwrap();
    assert_eq!(data.count(), 2, "database and its backups");
}

#[test]
fn a_file_that_does_not_read_says_where_and_imports_nothing() {
    let place = Place::new();
    place.says(MORNING, &["note", "mine"]);
    let file = place.folder.path().join("kept.json");
    let name = file.to_str().unwrap();
    place.says(MORNING, &["export", name]);
    let text = std::fs::read_to_string(&file).unwrap();
    let before = place.says(MORNING, &["--json", "log"]);
    for (bad, expected) in [
        (text.chars().take(5_000).collect(), "expected the rest of the file: it ends too early"),
        (text.replace("\"act\":\"note\"", "\"act\":\"tick\""), "in entry 7 of \"Wren"),
        (text.replacen(":5,", ":6,", 1), "a newer Stowfast wrote this one: 6"),
        (PACK.to_owned(), "kept.json:1: expected a file that Stowfast exported"),
    ] {
        std::fs::write(&file, bad).unwrap();
        let said = place.fails(3, &["import", name]);
        assert!(said.contains(expected), "{said}");
        assert_eq!(place.says(MORNING, &["--json", "log"]), before);
    }
    assert!(place.fails(5, &["import", "/no/such/kept.json"]).contains("/no/such/kept.json"));
    assert!(place.fails(5, &["export", "/no/such/kept.json"]).contains("/no/such/kept.json"));

    // Somebody's own vehicle that went on in both places is named, and what to do.
    let own = text.replace("invented = true", "invented = false");
    std::fs::write(&file, own.replace("\"mine\"", "\"yours\"")).unwrap();
    let said = place.fails(4, &["import", name]);
    let expected = "\"Wren, a coach-built for two\" went on differently here, from entry 7 on";
    assert!(said.contains(expected) && said.contains("stowfast --db OTHER import FILE"), "{said}");
    assert_eq!(place.says(MORNING, &["--json", "log"]), before);
}

/// Whoever runs it by its path, or names a database, can type what a hint says.
#[test]
fn a_hint_works_as_it_is_typed() {
    let folder = tempfile::tempdir().unwrap();
    let program = env!("CARGO_BIN_EXE_stowfast");
    let file = folder.path().join("my trip.db");
    let said = |command: &mut Command| {
        let output = command.output().unwrap();
        String::from_utf8([output.stdout, output.stderr].concat()).unwrap()
    };
    let page = said(Command::new(program).arg("--db").arg(&file));
    let hint = page.lines().find_map(|line| line.strip_prefix("Next: ")).unwrap();
    let hint = hint.split("   |   ").next().unwrap();
    assert_eq!(hint, format!("{program} --db '{}' walk ready_to_drive", file.display()));
    let typed = said(Command::new("sh").args(["-c", hint]).stdin(Stdio::null()));
    assert!(typed.contains("d all as it says"), "{typed}");
    let json = said(Command::new(program).arg("--db").arg(&file).args([
        "--json",
        "note",
        "stowfast walk",
    ]));
    assert!(json.starts_with('{'), "{json}");
    let json = said(Command::new(program).arg("--db").arg(&file).args(["--json", "log", "1"]));
    assert!(json.contains("stowfast walk") && !json.contains(program), "{json}");
}

#[test]
fn help_tells_all_or_what_one_command_takes() {
    let place = Place::new();
    let all = place.says(MORNING, &["help"]);
    assert_eq!(all, place.says(MORNING, &["--help"]));
    assert_eq!(place.says(MORNING, &["version"]), place.says(MORNING, &["--version"]));
    let plan = place.says(MORNING, &["help", "plan"]);
    assert!(plan.starts_with("  plan TARGET ") && plan.contains("\n  --people N "), "{plan}");
    assert!(
        plan.contains("--only") && !plan.contains("--leave") && !plan.contains("walk ["),
        "{plan}"
    );
    for line in all.lines().skip(3).take_while(|line| *line != "Options") {
        if let Some(entry) = line.strip_prefix("  ").filter(|entry| !entry.starts_with(' ')) {
            let name = entry.split(' ').next().unwrap();
            assert!(place.says(MORNING, &["help", name]).starts_with(line), "{line}");
        }
    }
    assert!(place.fails(2, &["help", "paln"]).contains("`paln` is no command. Did you mean plan"));
}

#[test]
fn a_reading_that_cannot_be_says_what_is_expected_of_this_thing() {
    let place = Place::new();
    for (args, expected, example) in [
        (
            ["read", "gas_left", "part"],
            "the weight of the whole cylinder in kg, 11.9 to 23.9",
            "gas_left 18kg",
        ),
        (
            ["read", "gas_left", "45%"],
            "the weight of the whole cylinder in kg, 11.9 to 23.9",
            "gas_left 18kg",
        ),
        (["read", "battery", "good"], "what it shows in volts, 8 to 16", "battery 12V"),
        (["read", "battery", "99"], "what it shows in volts, 8 to 16", "battery 12V"),
        (["read", "fresh", "full"], "how many lamps are lit, 0 to 4", "fresh 2"),
        (["read", "fresh", "9"], "how many lamps are lit, 0 to 4", "fresh 2"),
        (["read", "fresh", "1.5"], "how many lamps are lit, 0 to 4", "fresh 2"),
        (
            ["report", "gas_left.level", "9kg"],
            "expected empty, low, part, full; or, where its gauge",
            "gas_left 18kg",
        ),
        (["report", "fresh.level", "2"], "is read, how many lamps are lit, 0 to 4", "fresh 2"),
        (["report", "battery", "12.6"], "Did you mean battery.charge", "battery 12V"),
    ] {
        let said = place.fails(3, &args);
        let hint = format!("What its gauge shows, for example: stowfast read {example}\n");
        assert!(said.contains(expected) && said.ends_with(&hint), "{args:?}: {said}");
        let typed: Vec<_> = example.split(' ').collect();
        place.says(MORNING, &[&["read"], &typed[..]].concat());
    }
    let valve = place.fails(3, &["report", "gas_left.valve", "9kg"]);
    assert!(!valve.contains("gauge"), "it has none: {valve}");
}

#[test]
fn a_kind_that_is_misspelt_says_which_is_meant_and_lists_none() {
    let place = Place::new();
    let pack = place.folder.path().join("my.toml");
    let text = include_str!("../../demo-data/a/pack.toml");
    std::fs::write(&pack, text.replace("kind = \"fresh_tank\"", "kind = \"fresh_tnak\"")).unwrap();
    for command in ["check", "add"] {
        let said = place.fails(3, &[command, pack.to_str().unwrap()]);
        let expected = "expected a kind of fitting, not `fresh_tnak`. Did you mean fresh_tank?\n\
                        All of them: stowfast kinds\n";
        assert!(said.ends_with(expected), "{said}");
    }
    let all = place.says(MORNING, &["kinds"]);
    assert!(all.contains("fresh_tank ") && !all.contains("pitch "), "{all}");
}
