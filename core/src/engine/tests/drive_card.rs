//! The drive card: every number is the pack's, and what it does not say is said to be missing.

use super::{at, changed, demo};
use crate::engine::{DriveCardPage, Engine};

fn text(page: &DriveCardPage, id: &str) -> String {
    let mut rows = std::iter::once(&page.height).chain(&page.rows);
    rows.find(|row| row.id == id).unwrap().text.clone()
}

#[test]
fn every_number_of_the_drive_card_is_the_packs() {
    for (old, new, id, said) in [
        ("height_m = 2.89", "height_m = 3.1", "height", "3.10 m"),
        ("width_m = 2.74", "width_m = 2.2", "width", "2.20 m"),
        ("length_m = 6.52", "length_m = 7", "length", "7.00 m"),
        ("mass_permissible_kg = 3500", "mass_permissible_kg = 4250", "mass_permissible", "4250 kg"),
        ("mass_running_kg = 2960", "mass_running_kg = 3011.5", "mass_running", "3012 kg"),
        ("pressure_bar = 4.25", "pressure_bar = 5", "axle_1", "5 bar"),
        ("pressure_bar = 4.75", "pressure_bar = 5.5", "axle_2", "5.5 bar"),
    ] {
        let page = changed(old, new).drive_card().unwrap();
        assert_eq!(text(&page, id), said, "{new}");
        assert_ne!(text(&demo().drive_card().unwrap(), id), said, "{new}");
    }
}

/// By hand from the definitions: inches and feet up, psi to the nearest, kilograms as on the plate.
#[test]
fn the_drive_card_keeps_to_the_units_that_are_chosen() {
    let mut engine = demo();
    engine.set_units("imperial").unwrap();
    let page = engine.drive_card().unwrap();
    for (id, said) in [
        ("height", "9 ft 6 in"),
        ("width", "9 ft 0 in"),
        ("length", "21 ft 5 in"),
        ("mass_permissible", "3500 kg"),
        ("axle_1", "62 psi"),
        ("axle_2", "69 psi"),
    ] {
        assert_eq!(text(&page, id), said);
    }
    engine.set_units("metric").unwrap();
    assert_eq!(text(&engine.drive_card().unwrap(), "length"), "6.52 m");
}

#[test]
fn what_the_pack_does_not_say_is_not_made_up() {
    for (left_out, id) in [
        ("height_m = 2.89", "height"),
        ("width_m = 2.74", "width"),
        ("length_m = 6.52", "length"),
        ("mass_permissible_kg = 3500", "mass_permissible"),
        ("mass_running_kg = 2960", "mass_running"),
        ("pressure_bar = 4.25", "axle_1"),
    ] {
        let page = changed(left_out, "").drive_card().unwrap();
        assert_eq!(text(&page, id), "not in the pack", "{id}");
        let unknown = std::iter::once(&page.height).chain(&page.rows).filter(|row| !row.known);
        assert_eq!(unknown.map(|row| row.id.as_str()).collect::<Vec<_>>(), [id]);
    }
}

#[test]
fn a_height_is_rounded_up_and_never_down() {
    for (told, said) in [("2.881", "2.89 m"), ("2.89", "2.89 m"), ("2.8901", "2.90 m")] {
        let page = changed("height_m = 2.89", &format!("height_m = {told}")).drive_card().unwrap();
        assert_eq!(page.height.text, said);
    }
}

/// Where only a note in the driver's view tells the height, its default says that it is one.
#[test]
fn a_height_that_is_a_default_says_so() {
    let note = |values: &str| {
        let lines = "kind = \"tyres\"\ntitle = \"tyres\"\nzone = \"outside\"\n";
        let note = format!(
            "{lines}\n[[fitting]]\nid = \"note\"\nkind = \"height_note\"\ntitle = \"height note\"\n\
             zone = \"cab\"\n{values}\n"
        );
        let pack = super::PACK.replace("height_m = 2.89\n", "").replace(lines, &note);
        let mut engine = Engine::in_memory("en").unwrap();
        engine.add_pack(&pack, "changed.toml", &at(0)).unwrap();
        engine.drive_card().unwrap().height
    };
    let default = note("");
    assert_eq!((default.text.as_str(), default.known), ("4.00 m", true));
    assert!(default.note.starts_with("Usual value: check your manual."), "{}", default.note);
    let told = note("values = { height_m = 3.05 }");
    assert_eq!(told.text, "3.05 m");
    assert!(!told.note.contains("Default"), "{}", told.note);
}
