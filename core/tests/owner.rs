//! A new owner at the command line: what was recorded, what went wrong and how to go on.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails loudly")]

mod call;

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::Stdio;

use call::stowfast;
use stowfast_core::error::NOT_OPENED;

const MORNING: &str = "2026-07-14T08:00:00Z";
const PACK: &str = include_str!("../../demo-data/a/pack.toml");

struct Owner {
    home: tempfile::TempDir,
}

impl Owner {
    /// With one of the invented vehicles.
    fn of(vehicle: &str) -> Self {
        let owner = Self { home: tempfile::tempdir().unwrap() };
        owner.says(&["demo", vehicle]);
        owner
    }

    /// The code, what is printed, and what is said beside it.
    fn run(&self, args: &[&str]) -> (i32, String, String) {
        let mut command = stowfast(self.home.path());
        command.current_dir(self.home.path()).args(["--now", MORNING]).args(args);
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = command.spawn().unwrap();
        // Whoever does not read what is typed is gone before.
        let _ = child.stdin.take().unwrap().write_all("d\n".repeat(40).as_bytes());
        let output = child.wait_with_output().unwrap();
        let text = |bytes| String::from_utf8(bytes).unwrap();
        (output.status.code().unwrap(), text(output.stdout), text(output.stderr))
    }

    #[track_caller]
    fn says(&self, args: &[&str]) -> String {
        let (code, said, error) = self.run(args);
        assert_eq!(code, 0, "{args:?}: {said}{error}");
        said
    }

    #[track_caller]
    fn fails(&self, wanted: i32, args: &[&str]) -> String {
        let (code, said, error) = self.run(args);
        assert_eq!((code, &*said), (wanted, ""), "{args:?}: {error}");
        error
    }

    fn file(&self, name: &str, content: impl AsRef<[u8]>) -> PathBuf {
        let file = self.home.path().join(name);
        std::fs::write(&file, content).unwrap();
        file
    }
}

#[test]
fn what_was_recorded_is_named_with_its_value_and_where_it_counts() {
    let owner = Owner::of("a");
    let said = owner.says(&["read", "gas_left", "20,4kg"]);
    let line = "] Read: Gas in the left gas cylinder: 20.4 kg, cylinder and gas, so part full\n";
    assert!(said.starts_with("Recorded [") && said.contains(line), "{said}");
    let last = said.lines().last().unwrap();
    let pages = ["reserves", "first", "gas", "load"].map(|page| format!("stowfast {page}"));
    assert_eq!(last, format!("What that tells: {}", pages.join(", ")));

    let said = owner.says(&["read", "battery", "12.5V"]);
    assert!(said.contains("] Read: Leisure battery: 12.5 volts\n  ! The reading is"), "{said}");
    assert_eq!(said.matches("does not count").count(), 1, "said once: {said}");

    let said = owner.says(&["figure", "people", "2"]);
    assert!(said.contains("] Said: People on board: 2 people\n"), "{said}");
    assert!(said.ends_with("stowfast reserves, stowfast stay NIGHTS, stowfast first\n"), "{said}");
    let said = owner.says(&["figure", "kettle_w", "1800"]);
    let entry = said.split(['[', ']']).nth(1).unwrap().to_owned();
    assert!(said.contains("Kettle: 1800 watts\nWhat that tells: stowfast supply\n"), "{said}");

    let said = owner.says(&["report", "fresh.level", "full"]);
    assert!(said.contains("] Said: Fresh tank: full"), "{said}");
    assert!(said.contains("Walk round the vehicle: still to do"), "what it changes: {said}");
    assert!(owner.says(&["undo", &entry]).contains("] Taken back: Said: Kettle: 1800 watts\n"));
    assert_eq!(owner.says(&["units", "imperial"]), "Set: imperial\n");
    let json = owner.says(&["--json", "read", "fresh", "2"]);
    assert!(json.starts_with(r#"{"changes":{"entries":["#), "as before: {json}");
}

#[test]
fn a_vehicle_that_is_here_already_says_how_to_go_on_with_it() {
    let owner = Owner::of("a");
    let here = "is here already, as number 1\nTo go on with that one: stowfast choose 1\n";
    assert!(owner.fails(4, &["demo", "a"]).ends_with(here));
    let said = owner.says(&["demo", "b"]);
    assert!(said.ends_with("(invented)\nGo on with it: stowfast now\n"), "{said}");
    assert!(owner.fails(4, &["demo", "a"]).ends_with(here));
    owner.says(&["choose", "1"]);
    owner.file("again.toml", PACK);
    let said = owner.fails(4, &["add", "again.toml"]);
    assert!(said.contains(here) && said.contains("stowfast replace FILE"), "{said}");
}

/// First a plain sentence for whoever opened it, then the line for whoever made it; whoever checks made it.
#[test]
fn a_file_that_does_not_read_speaks_to_its_owner_first() {
    let owner = Owner::of("a");
    owner.says(&["export", "kept.json"]);
    let kept = std::fs::read(owner.home.path().join("kept.json")).unwrap();
    let before = owner.says(&["--json", "vehicles"]);
    let cut = PACK.find("[[zone]]").unwrap();
    let newer = PACK.replace("stowfast_pack = 1", "stowfast_pack = 9");
    for (command, content, expected) in [
        ("add", &b""[..], ":1: expected `stowfast_pack`, which is missing\n"),
        ("add", &PACK.as_bytes()[..cut], ":1: expected `zone`, which is missing\n"),
        ("add", newer.as_bytes(), ":2: expected `stowfast_pack = 1`, the format"),
        ("add", b"\xff\x00", ":1: expected a TOML file, as UTF-8 text\n"),
        ("replace", b"title = = 1", ":1: expected "),
        ("arrive", b"stowfast_place = 1\nhere = 1", ":2: expected one of"),
        ("add", &kept, "stowfast import FILE\n"),
        ("import", PACK.as_bytes(), "It is a pack: stowfast add FILE\n"),
        ("arrive", PACK.as_bytes(), "It is a pack, and no place: stowfast add FILE\n"),
        ("import", b"{\\rtf1 letter}", "expected "),
        ("import", &kept[..kept.len() / 2], "it ends too early\n"),
        ("import", b"", "it ends too early\n"),
    ] {
        owner.file("sent.toml", content);
        let said = owner.fails(3, &[command, "sent.toml"]);
        let first = format!("stowfast: sent.toml {NOT_OPENED}\nsent.toml:");
        assert!(said.starts_with(&first) && said.contains(expected), "{command}: {said}");
        assert_eq!(owner.says(&["--json", "vehicles"]), before);
    }
    owner.file("sent.toml", "");
    let said = owner.fails(3, &["check", "sent.toml"]);
    assert!(said.starts_with("stowfast: sent.toml:1: expected"), "{said}");
}

/// In the words of whoever writes a pack, not of whoever wrote the parser.
#[test]
fn a_value_that_does_not_fit_a_pack_is_told_in_plain_words() {
    let owner = Owner { home: tempfile::tempdir().unwrap() };
    for (was, is, expected) in [
        ("height_m = 2.89", "height_m = \"2.89\"", "a number, without quotes (invalid type"),
        ("height_m = 2.89", "height_m = -2.89", "1.5 to 4.5 metres\n"),
        ("height_m = 2.89", "height_m = nan", "1.5 to 4.5 metres\n"),
        ("height_m = 2.89", "height_m = 1e300", "1.5 to 4.5 metres\n"),
        ("height_m = 2.89", "height_cm = 289", "). Did you mean height_m?\n"),
        ("invented = true", "invented = \"yes\"", "true or false, without quotes (invalid type"),
        ("_lapse_min = 120", "_lapse_min = 1.5", "a whole number from 0 (invalid type"),
    ] {
        owner.file("sent.toml", PACK.replacen(was, is, 1));
        let said = owner.fails(3, &["check", "sent.toml"]);
        let told = said.split(": expected ").nth(1).unwrap();
        assert!(told.contains(expected), "{is}: {said}");
    }
}

#[test]
fn the_app_says_the_same_of_a_file_that_does_not_read() {
    let strings = "../android/app/src/main/res/values/strings.xml";
    let strings = Path::new(env!("CARGO_MANIFEST_DIR")).join(strings);
    let strings = std::fs::read_to_string(strings).unwrap();
    for name in ["problem_pack", "problem_pack_line"] {
        let said = format!("<string name=\"{name}\">%1$s {NOT_OPENED}\\n\\n");
        assert!(strings.contains(&said), "{said}");
    }
}

#[test]
fn a_file_that_cannot_be_had_says_why() {
    let owner = Owner::of("a");
    std::fs::create_dir(owner.home.path().join("folder")).unwrap();
    for command in ["add", "import", "export"] {
        let said = owner.fails(5, &[command, "folder"]);
        assert_eq!(said, "stowfast: folder: this is a folder, and a file is needed\n", "{command}");
    }
    let said = owner.fails(5, &["add", "none.toml"]);
    assert_eq!(said, "stowfast: none.toml: there is no such file or folder\n");
}

/// Somebody's own file is never taken for a damaged database of ours.
#[test]
fn a_file_of_another_kind_is_not_taken_for_a_database() {
    let owner = Owner::of("a");
    let mine = owner.file("mine.json", "{\"mine\": true}");
    std::fs::create_dir(owner.home.path().join("folder")).unwrap();
    for (named, expected) in [
        ("mine.json", "a database of Stowfast, or a name that is not there yet"),
        ("folder", "a file, not a folder"),
        ("none/trip.db", "a file in a folder that is there"),
    ] {
        let said = owner.fails(3, &["--db", named, "vehicles"]);
        assert!(said.contains(&format!("--db: expected {expected}. Nothing was")), "{said}");
    }
    assert_eq!(std::fs::read_to_string(&mine).unwrap(), "{\"mine\": true}");
    assert!(!owner.home.path().join("damaged").exists());

    // One that has a backup was ours, whatever its first bytes are now.
    owner.says(&["--db", "trip.db", "note", "mine"]);
    owner.says(&["--db", "trip.db", "log"]);
    owner.file("trip.db", "no longer one");
    let (code, said, told) = owner.run(&["--db", "trip.db", "log", "1"]);
    assert!(code == 0 && said.contains("(mine)"), "{said}{told}");
    assert!(told.contains("Nothing was deleted"), "{told}");
}

/// A number below 0 is no option, a comma is a point, and what has to be whole says so.
#[test]
fn a_number_that_does_not_fit_says_what_does() {
    let owner = Owner::of("a");
    for (code, args, expected) in [
        (3, &["figure", "people", "-2"][..], "People on board: expected 1 to 12, in steps of 1"),
        (3, &["figure", "people", "NaN"], "People on board: expected 1 to 12"),
        (3, &["figure", "people", "1e99"], "People on board: expected 1 to 12"),
        (2, &["figure", "people", "two"], "figure: expected a number, not `two`"),
        (3, &["stay", "-1"], "number of nights: expected 1 to 60"),
        (2, &["stay", "2.5"], "stay: expected a whole number, not `2.5`"),
        (3, &["read", "fresh", "-1"], "expected how many lamps are lit, 0 to 4"),
        (3, &["read", "battery", "-12V"], "expected what it shows in volts, 8 to 16"),
        (3, &["log", "-1"], "number of lines: expected a number above 0"),
        (2, &["-5"], "`-5` is no command."),
        (2, &["-x"], "invalid option '-x'"),
        (3, &["frost", "--low", "-400"], "Forecast low tonight: expected -40"),
        (3, &["supply", "--by", "soon"], "Or a time by your clock, as --by 18:00\n"),
        (
            3,
            &["supply", "--by", "25:00"],
            "18:00 for the next to come by your clock, or '2026-07-14 18:00' with",
        ),
        (3, &["fridge", "--leave", "2020-01-01 08:00"], "when you leave: expected a time that"),
        (3, &["wind", "--beaufort", "6"], "Did you mean b6?"),
        (3, &["gas", "--mix", "propan"], "Did you mean propane?"),
        (3, &["supply", "--want", "kettle"], "Kettle: stowfast figure kettle_w VALUE"),
        (3, &["undo", "99999"], "no entry named 99999"),
    ] {
        let (found, said, error) = owner.run(args);
        assert!(found == code && error.contains(expected), "{args:?}: {found} {said}{error}");
    }
    assert!(owner.says(&["figure", "boiler_gas_kw", "1,5"]).contains("on gas: 1.5 kW\n"));
    let frost = owner.says(&["frost", "--low", "-6,5", "--outside", "3"]);
    assert!(frost.contains("Forecast low tonight: -6.5 °C."), "{frost}");
    assert!(!frost.contains("\nMind too\n\n"), "no heading of nothing: {frost}");
    assert!(owner.fails(3, &["confirm", "="]).contains("no step named \nAll of them"));
}

#[test]
fn what_was_taken_back_twice_points_to_the_log() {
    let owner = Owner::of("a");
    owner.says(&["note", "keys"]);
    owner.says(&["undo", "7"]);
    let said = owner.fails(4, &["undo", "7"]);
    assert!(said.ends_with("already taken back\nWhat was said: stowfast log\n"), "{said}");
}

/// A change that rests on what nobody told says what, and how to tell it.
#[test]
fn a_what_if_names_what_it_wants_told_first() {
    let owner = Owner::of("c");
    let asked = &["first", "--change", "two_showers"];
    let said = owner.fails(3, asked);
    assert!(said.contains("told first: Showers a day, Water for a shower\n"), "{said}");
    assert!(said.contains("Showers a day: stowfast figure showers_a_day VALUE\n"), "{said}");
    owner.says(&["figure", "showers_a_day", "1"]);
    let said = owner.fails(3, asked);
    assert!(said.contains("told first: Water for a shower\n"), "{said}");
    owner.says(&["figure", "shower_l", "12"]);
    let said = owner.fails(3, asked);
    assert!(said.contains("to be read first\nWhat is missing: stowfast first\n"), "{said}");
    owner.says(&["figure", "people", "2"]);
    owner.says(&["report", "pitch.ground", "level"]);
    owner.says(&["read", "fresh", "80%"]);
    let page = owner.says(asked);
    assert!(page.contains("* two_showers"), "{page}");
    // A vehicle without a shower has no such change.
    assert!(!Owner::of("a").fails(3, asked).contains("told first"));
}

#[test]
fn what_ends_first_says_what_it_does_not_count() {
    let apart = |vehicle: &str| {
        let page = Owner::of(vehicle).says(&["first"]);
        page.lines().filter(|line| line.contains("Not counted")).map(str::to_owned).collect()
    };
    let (a, c): (Vec<_>, Vec<_>) = (apart("a"), apart("c"));
    assert_eq!(a, ["  ? Not counted: fuel (“How far the fuel goes” tells of it)."]);
    assert!(c.len() == 1 && c[0].contains(": urea (“Urea for the exhaust” tells of it)."), "{c:?}");
}

#[test]
fn wherever_latitude_is_asked_for_its_sign_is_said() {
    let owner = Owner::of("c");
    assert!(owner.says(&["help", "power"]).contains("south below 0"));
    assert!(owner.fails(3, &["power", "--latitude", "-148"]).contains("south below 0"));
    let page = owner.says(&["power"]);
    let asks = page.lines().filter(|line| line.contains("how far north")).collect::<Vec<_>>();
    assert!(!asks.is_empty() && asks.iter().all(|line| line.contains("below 0")), "{asks:?}");
    owner.says(&["power", "--latitude", "-33,5"]);
}

/// Each command of the README, in its order, as it is written there.
#[test]
fn every_command_of_the_readme_works_in_its_order() {
    let readme = include_str!("../../README.md");
    let owner = Owner { home: tempfile::tempdir().unwrap() };
    owner.file("here.jpg", include!("data/two_points.in"));
    let typed = readme.lines().filter_map(|line| line.strip_prefix("cargo run --release -- "));
    let typed: Vec<_> = typed.collect();
    assert!(typed.len() > 40, "{typed:?}");
    for line in typed {
        let command = line.split(" #").next().unwrap();
        owner.says(&command.split_whitespace().collect::<Vec<_>>());
    }
}
