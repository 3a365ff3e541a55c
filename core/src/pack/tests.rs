//! Bad packs: each says the line and what was expected, and nothing is made of it.

use super::{BYTES_MAX, read};
use crate::catalogue::Catalogue;
use crate::error::Error;

const GOOD: &str = include_str!("../../../demo-data/a/pack.toml");

/// The line and the expectation that a broken pack gives.
fn fault(bytes: &[u8]) -> (usize, String) {
    match read("van.toml", bytes, Catalogue::built_in().unwrap()) {
        Err(Error::Pack { file, line, expected }) => {
            assert_eq!(file, "van.toml");
            (line, expected)
        }
        other => panic!("expected a fault of the pack, got {other:?}"),
    }
}

/// The good pack with `old` replaced by `new`, and the line where `old` begins.
fn broken(old: &str, new: &str) -> (usize, (usize, String)) {
    assert_eq!(GOOD.matches(old).count(), 1, "`{old}` stands once");
    let line = GOOD.split(old).next().unwrap().lines().count();
    let starts_line = GOOD.split(old).next().unwrap().ends_with('\n');
    (line + usize::from(starts_line), fault(GOOD.replace(old, new).as_bytes()))
}

#[track_caller]
fn says(old: &str, new: &str, words: &str) {
    let (line, (found, expected)) = broken(old, new);
    assert!(expected.contains(words), "{expected}");
    let reach = new.lines().count();
    assert!((line..=line + reach).contains(&found), "line {found}, not about {line}: {expected}");
}

#[test]
fn the_demo_pack_reads() {
    let pack = read("a", GOOD.as_bytes(), Catalogue::built_in().unwrap()).unwrap();
    assert!(pack.invented);
    assert_eq!(pack.fittings.len(), 34);
}

#[test]
fn syntax() {
    says("home_zone = \"door\"", "home_zone = door\"", "");
}

#[test]
fn an_unknown_key() {
    says("home_zone = \"door\"", "home_zone = \"door\"\ncolour = \"red\"", "colour");
}

#[test]
fn a_wrong_unit() {
    says("{ capacity_l = 100,", "{ capacity_ml = 100000,", "`capacity_l`");
    says(
        "{ capacity_l = 90,",
        "{ capacity_l = \"20 gal\",",
        "`capacity_l` as a number from 1 to 1000",
    );
}

#[test]
fn an_impossible_number() {
    says("gas_delay_min = 20", "gas_delay_min = -1", "from 0 to 120");
    says("gas_delay_min = 20", "gas_delay_min = nan", "from 0 to 120");
    says("departure_lapse_min = 120", "departure_lapse_min = 0", "1 to 1440 minutes");
    says("departure_lapse_min = 120", "departure_lapse_min = -5", "a whole number from 0");
    says("departure_lapse_min = 120", "part_wait_min = 1441", "1 to 1440 minutes");
    says("departure_lapse_min = 120", "list_walk_s = 61", "0 to 60 seconds");
    says("to = \"lounge\"\nseconds = 5", "to = \"lounge\"\nseconds = 0", "1 to 3600 seconds");
}

/// Only a crash sensor with rupture valves, and the maker's manual, allow an open cylinder on the
/// road: no protection, or a valve against a broken hose alone, does not.
#[test]
fn a_value_that_asks_for_another() {
    let asked = "`road_protection = \"crash_sensor\"`, which `open_on_the_road_allowed = true`";
    let left = |values: &str| {
        let old = "road_protection = \"hose_rupture\", gauge_shows = \"weight\", tare_kg = 12.4,";
        (old, format!("{values},"))
    };
    for protection in ["road_protection = \"none\", ", "road_protection = \"hose_rupture\", ", ""] {
        let (old, new) = left(&format!("{protection}open_on_the_road_allowed = true"));
        says(old, &new, asked);
    }
    let (old, new) = left("road_protection = \"crash_sensor\", open_on_the_road_allowed = true");
    let allowed = GOOD.replace(old, &new);
    read("van.toml", allowed.as_bytes(), Catalogue::built_in().unwrap()).unwrap();
}

/// A fitting that lacks what a rule of danger or damage asks for keeps that rule in no way.
#[test]
fn a_setting_that_a_rule_cannot_do_without() {
    let without =
        |old: &str, lacking: &str| (old.to_owned(), format!("{old}\nwithout = {{ {lacking} }}"));
    for (title, lacking, rule) in [
        ("roof light over the bed", "leaf = [\"shut\"]", "`roof_light.open_on_the_road`"),
        ("right gas cylinder", "valve = [\"shut\"]", "`gas_cylinder.open_on_the_road`"),
        ("main switch by the door", "lever = [\"off\"]", "keeps the rule `main_switch."),
        ("main switch by the door", "rcd = [\"untested\"]", "`untested` left"),
        ("boiler", "heat = [\"off\"]", "`boiler."),
    ] {
        let (old, new) = without(&format!("title = \"{title}\""), lacking);
        says(&old, &new, rule);
    }
    for (title, lacking) in [
        ("fridge", "selector = [\"auto\"]"),
        ("boiler", "heat = [\"gas\"]"),
        ("roof light over the bed", "leaf = [\"ajar\"]"),
    ] {
        let (old, new) = without(&format!("title = \"{title}\""), lacking);
        let pack = GOOD.replace(&old, &new);
        read("van.toml", pack.as_bytes(), Catalogue::built_in().unwrap()).unwrap();
    }
}

#[test]
fn a_doubled_id() {
    says("id = \"roof_bed\"", "id = \"roof_lounge\"", "not `roof_lounge` again");
    says("id = \"galley\"\n", "id = \"lounge\"\n", "no other zone has");
}

#[test]
fn two_of_the_same_title_are_both_named() {
    let (line, expected) = fault(GOOD.replace("over the bed\"", "over the lounge\"").as_bytes());
    let first = GOOD.lines().position(|one| one.contains("over the lounge")).unwrap() + 1;
    let second = GOOD.lines().position(|one| one.contains("over the bed\"")).unwrap() + 1;
    assert_eq!(line, second);
    let both = "`roof_lounge` and `roof_bed` are both called \"roof light over the lounge\"";
    assert_eq!(expected, format!("another title: {both} (the other stands on line {first})"));
}

#[test]
fn a_dangling_id() {
    says("home_zone = \"door\"", "home_zone = \"cellar\"", "a zone of `cab`");
    says("kind = \"drawers\"", "kind = \"drawer\"", "a kind of");
    says(
        "zones = { vehicle_end = \"offside\" }",
        "zones = { vehicle_end = \"moon\" }",
        "a zone of",
    );
    says(
        "zones = { vehicle_end = \"offside\" }",
        "zones = { nose = \"offside\" }",
        "a variable of",
    );
    says(
        "title = \"water pump\"\nzone = \"lounge\"",
        "title = \"water pump\"\nzone = \"lounge\"\nlinks = { tank = \"waste\" }",
        "of kind `fresh_tank`",
    );
}

#[test]
fn an_id_that_is_no_id() {
    says("id = \"roof_bed\"", "id = \"Roof bed; DROP TABLE\"", "small letters");
}

#[test]
fn a_zone_that_cannot_be_reached() {
    says(
        "title = \"Galley\"",
        "title = \"Galley\"\n\n[[zone]]\nid = \"attic\"\ntitle = \"Attic\"",
        "reaches zone `attic`",
    );
}

#[test]
fn what_every_vehicle_has_is_missing() {
    let without = GOOD.replace(
        "[[fitting]]\nid = \"handbrake\"\nkind = \"handbrake\"\ntitle = \"handbrake\"\nzone = \"cab\"\n",
        "",
    );
    assert!(fault(without.as_bytes()).1.contains("every vehicle has one"));
}

#[test]
fn a_kind_that_only_makes_sense_once() {
    let twice = format!(
        "{GOOD}\n[[fitting]]\nid = \"lead2\"\nkind = \"mains_lead\"\ntitle = \"x\"\nzone = \"rear\"\n"
    );
    assert!(fault(twice.as_bytes()).1.contains("at most 1 of kind `mains_lead`"));
}

#[test]
fn which_tank_must_be_said_where_there_are_two() {
    let two = format!(
        "{GOOD}\n[[fitting]]\nid = \"fresh2\"\nkind = \"fresh_tank\"\ntitle = \"x\"\nzone = \"rear\"\n"
    );
    assert!(fault(two.as_bytes()).1.contains("`links.tank`"));
}

#[test]
fn a_newer_format() {
    says("stowfast_pack = 1", "stowfast_pack = 2", "`stowfast_pack = 1`");
}

#[test]
fn too_large() {
    let (line, expected) = fault(&vec![b'#'; BYTES_MAX + 1]);
    assert_eq!(line, 0);
    assert!(expected.contains("at most 1000000 bytes"));
}

#[test]
fn binary_and_not_utf_8() {
    let (line, expected) = fault(b"stowfast_pack = 1\ntitle = \"\xff\xfe\"\n");
    assert_eq!((line, expected.as_str()), (2, "a TOML file, as UTF-8 text"));
    assert!(fault(&[0, 1, 2, 3]).0 >= 1);
    assert!(fault(b"").1.contains("stowfast_pack"));
}

#[test]
fn titles_are_one_line_of_text() {
    says("title = \"water pump\"", "title = \"\"", "a title of 1 to");
    says("title = \"water pump\"", "title = \"a\\nb\"", "on one line");
}

const PLACE: &str =
    "stowfast_place = 1\ntitle = \"A field\"\n[facts]\n\"pitch.wind\" = [\"calm\"]\n";

#[test]
fn a_place_that_is_wrong_says_the_line_and_what_was_expected() {
    let read = |text: &str| {
        super::place::read("field.toml", text.as_bytes(), Catalogue::built_in().unwrap())
    };
    assert_eq!(read(PLACE).unwrap().facts.len(), 1);
    for (old, new, line, expected) in [
        ("title", "colour = 1\ntitle", 2, "unknown field `colour`"),
        ("_place = 1", "_place = 2", 1, "`stowfast_place = 1`"),
        ("A field", " ", 2, "a title"),
        ("pitch.wind", "pitch.wine", 4, "a fact of `"),
        ("pitch.wind", "post.switch", 4, "a fact of `"),
        ("pitch.wind", "boiler.heat", 4, "a fact of `"),
        ("\"calm\"", "\"gale\"", 4, "a setting of `calm`, `strong`, not `gale`"),
        ("\"calm\"", "", 4, "a setting of `calm`, `strong`"),
    ] {
        assert!(PLACE.contains(old), "{old}");
        let said = read(&PLACE.replacen(old, new, 1)).unwrap_err().to_string();
        assert!(said.starts_with(&format!("field.toml:{line}: expected ")), "{new}: {said}");
        assert!(said.contains(expected), "{new}: {said}");
    }
}

#[test]
fn a_measure_that_no_motorhome_has() {
    says("height_m = 2.89", "height_m = 289", "1.5 to 4.5 metres");
    says("height_m = 2.89", "height_m = nan", "1.5 to 4.5 metres");
    says("width_m = 2.74", "width_m = 0", "1.4 to 3.5 metres");
    says("length_m = 6.52", "length_m = 21", "3 to 20 metres");
    says("length_m = 6.52", "length_ft = 21", "`length_m`");
    says("mass_permissible_kg = 3500", "mass_permissible_kg = 3.5", "700 to 40000 kg");
    says("mass_running_kg = 2960", "mass_running_kg = -1", "700 to 40000 kg");
    says("pressure_bar = 4.25", "pressure_bar = 62", "1 to 10 bar");
    says("wheelbase_m = 3.8", "wheelbase_m = 38", "1.5 to 10 metres");
    says("garage_at_m = 4.7", "garage_at_m = 470", "-2 to 15 metres behind the front axle");
    says("mass_actual_kg = 1440", "mass_actual_kg = 1.44", "200 to 20000 kg");
    says("counted_gas_kg = 11", "counted_gas_kg = -11", "0 to 500 kg");
    says("title = \"front axle\"", "title = \" \"", "a title");
}

#[test]
fn a_vehicle_heavier_empty_than_it_may_be_full() {
    says(
        "mass_running_kg = 2960",
        "mass_running_kg = 3501",
        "at most the permissible mass, 3500 kg",
    );
}

#[test]
fn a_fifth_axle() {
    let axle = "[[axle]]\ntitle = \"another\"\n\n";
    says(
        "title = \"rear axle\"\n",
        &format!("title = \"second\"\n\n{}[[axle]]\ntitle = \"rear axle\"\n", axle.repeat(2)),
        "at most 4 axles",
    );
}

#[test]
fn a_note_that_is_too_long_and_a_photo_that_leads_out() {
    let old = "note = \"Behind the lower locker door.\"";
    let note = |text: &str| format!("note = \"{text}\"");
    says(old, &note(&"x".repeat(501)), "a note of at most 500 characters");
    says(old, &note("bell \\u0007"), "a note without control characters");
    let reads = |new: &str| {
        let pack = GOOD.replace(old, new);
        read("van.toml", pack.as_bytes(), Catalogue::built_in().unwrap()).is_ok()
    };
    assert!(reads(&note(&"é".repeat(500))) && reads(&note("two\\r\\nlines,\\ta tab")));
    for name in ["", "/etc/x.jpg", "../x.jpg", "photos/../../x.jpg", "c:x.jpg", "a\\\\b.jpg", "./x"]
    {
        says(old, &format!("photo = \"{name}\""), "a file beside the pack");
    }
    assert!(reads("photo = \"photos/gas locker.jpg\""));
}

#[test]
fn a_note_with_another_height_than_the_pack() {
    let tyres = "kind = \"tyres\"\ntitle = \"tyres\"\nzone = \"outside\"\n";
    let note =
        "\n[[fitting]]\nid = \"note\"\nkind = \"height_note\"\ntitle = \"note\"\nzone = \"cab\"\n";
    let with = |height: &str| format!("{tyres}{note}values = {{ height_m = {height} }}\n");
    says(tyres, &with("2.98"), "the height of `[measures]`, 2.89 (the other stands on line");
    let same = GOOD.replace(tyres, &with("2.89"));
    assert!(read("van.toml", same.as_bytes(), Catalogue::built_in().unwrap()).is_ok());
}
