//! Photos and reminders as they are asked for on a terminal. The picture is made up: two grey points.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails loudly")]

mod call;

use std::fs;
use std::path::Path;

use call::stowfast;

const PNG: &[u8] = &include!("data/two_points.in");
const PACK: &str = include_str!("../../demo-data/a/pack.toml");
const NOTE: &str = "note = \"Behind the lower locker door.\"";
const MORNING: &str = "2026-07-14T08:00:00+02:00";

/// The exit code, what was printed, and what was said beside it.
fn run(folder: &Path, now: &str, args: &[&str]) -> (i32, String, String) {
    let output = stowfast(folder).args(["--now", now]).args(args).output().unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (output.status.code().unwrap(), text(output.stdout), text(output.stderr))
}

fn says(folder: &Path, args: &[&str]) -> String {
    let (code, out, err) = run(folder, MORNING, args);
    assert_eq!(code, 0, "{args:?}: {out}{err}");
    out
}

fn fails(folder: &Path, expected: i32, args: &[&str]) -> String {
    let (code, out, err) = run(folder, MORNING, args);
    assert_eq!((code, out.as_str()), (expected, ""), "{args:?}: {err}");
    err
}

fn home() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("stowfast")).unwrap();
    folder
}

#[test]
fn a_photo_is_given_listed_shown_on_its_card_and_removed() {
    let home = home();
    let here = home.path();
    let file = here.join("door.jpg");
    fs::write(&file, PNG).unwrap();
    let file = file.to_str().unwrap();
    assert_eq!(says(here, &["photos"]), "No photo yet. To give one: stowfast photo FITTING FILE\n");
    let given = says(here, &["photo", "gas_left", file]);
    let line =
        "gas_left: Photo of left gas cylinder, where it is. By whoever made the pack, 70 bytes\n";
    assert_eq!(given, line.replace("70", &PNG.len().to_string()), "its bytes tell what it is");
    assert_eq!(says(here, &["photos"]), given);
    let card = says(here, &["card", "gas_left"]);
    assert!(card.contains("Photo of left gas cylinder, where it is. By whoever"), "{card}");
    let json = says(here, &["--json", "photos"]);
    assert!(json.contains("\"photos\":[{\"") && json.contains("\"id\":\"gas_left\""), "{json}");
    let unknown = fails(here, 3, &["photo", "gas_lft", "--remove"]);
    assert!(unknown.contains("Did you mean gas_left"), "{unknown}");
    says(here, &["photo", "gas_left", "--remove"]);
    assert!(says(here, &["photos"]).starts_with("No photo yet"));
    assert!(fails(here, 3, &["photo", "sauna", file]).contains("no card named sauna"));
    assert!(fails(here, 5, &["photo", "gas_left", "nowhere.jpg"]).contains("nowhere.jpg"));
    assert!(fails(here, 2, &["photos", "--remove"]).contains("goes with `photo FITTING`"));
    let words = here.join("words.png");
    fs::write(&words, "words").unwrap();
    let refused = fails(here, 3, &["photo", "gas_left", words.to_str().unwrap()]);
    assert_eq!(refused, "stowfast: photo: expected a JPEG, PNG or WebP picture\n");
}

#[test]
fn the_photos_beside_a_pack_come_in_with_it_and_what_is_missing_is_told() {
    let home = home();
    let here = home.path();
    let photo = format!("{NOTE}\nphoto = \"photos/gas.jpg\"");
    let pump = "id = \"pump\"\n";
    let pack = PACK.replace(NOTE, &photo).replace(pump, &format!("{pump}photo = \"pump.jpg\"\n"));
    let pack =
        pack.replace("invented = true\n", "invented = true\ntechnician = \"The workshop\"\n");
    fs::create_dir_all(here.join("van/photos")).unwrap();
    fs::write(here.join("van/photos/gas.jpg"), PNG).unwrap();
    let file = here.join("van/my.toml");
    fs::write(&file, &pack).unwrap();
    let file = file.to_str().unwrap();
    let (code, _, told) = run(here, MORNING, &["add", file]);
    assert_eq!(code, 0);
    assert!(told.contains("No photo of pump: pump.jpg: "), "{told}");
    let photos = says(here, &["photos"]);
    assert!(photos.starts_with("gas_left: ") && photos.contains("By The workshop"), "{photos}");
    assert_eq!(photos.lines().count(), 1);
    fs::write(here.join("van/pump.jpg"), b"words").unwrap();
    let (code, _, told) = run(here, MORNING, &["replace", file]);
    assert_eq!(code, 0);
    assert!(told.contains("No photo of pump: pump.jpg: photo: expected a JPEG"), "{told}");
    fs::write(here.join("van/pump.jpg"), PNG).unwrap();
    says(here, &["replace", file]);
    assert_eq!(says(here, &["photos"]).lines().count(), 2);

    let kept = here.join("kept.json");
    says(here, &["export", kept.to_str().unwrap()]);
    let other = self::home();
    says(other.path(), &["import", kept.to_str().unwrap()]);
    assert_eq!(says(other.path(), &["photos"]), says(here, &["photos"]));
}

#[test]
fn the_first_page_tells_by_when_to_fill_by_the_clock_of_whoever_asks() {
    let home = home();
    let here = home.path();
    says(here, &["read", "fresh", "4"]);
    let next_day = "2026-07-15T08:00:00+02:00";
    run(here, next_day, &["read", "fresh", "2"]);
    let page = run(here, next_day, &[]).1;
    let line = "! Fresh tank: fill it by 2026-07-15 18:0";
    assert!(page.contains(line) && page.contains(" (UTC+02:00). How long it lasts: "), "{page}");
    assert!(says(here, &["remind"]).contains("*  24  24 hours before"));
    assert!(says(here, &["remind", "0"]).contains("*   0  Never"));
    assert!(!run(here, next_day, &[]).1.contains("fill it"));
    assert!(fails(here, 3, &["remind", "1000"]).contains("0 to 168 hours; 0 is never"));
    assert!(says(here, &["--json", "remind"]).contains("\"remind\":[{\"chosen\":true,\"hours\":0"));
}

/// What somebody wrote is theirs, also where it reads like a hint.
#[test]
fn a_note_is_printed_as_it_was_written_and_a_hint_as_it_is_typed() {
    let home = home();
    let here = home.path();
    let file = here.join("my.db");
    let at = format!("stowfast --db {}", file.display());
    let of = |args: &[&str]| says(here, &[&["--db", file.to_str().unwrap()], args].concat());
    of(&["note", "Ask: stowfast walk later"]);
    let log = of(&["log", "1"]);
    assert!(log.contains("Ask: stowfast walk later") && !log.contains("--db"), "{log}");
    assert!(of(&[]).contains(&format!("Next: {at} walk ready_to_drive   |   {at} --help")));
    assert!(of(&["cards"]).contains("gas_left"));
    assert!(of(&["card", "gas_left"]).contains(&format!("{at} may ")));
    let (_, _, usage) = run(here, MORNING, &["plan"]);
    assert!(usage.contains("expected `stowfast plan TARGET`"), "{usage}");
}
