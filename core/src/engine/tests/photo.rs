//! Photos of fittings: given, kept, shown and taken away. The picture is made up, two grey points.

use super::{PACK, at};
use crate::engine::Engine;
use crate::engine::page::CardPhoto;
use crate::error::Error;
use crate::photo::Giver;

const PNG: &[u8] = &include!("../../../tests/data/two_points.in");
const NOTE: &str = "note = \"Behind the lower locker door.\"";

fn pack(technician: &str) -> String {
    let photo = format!("{NOTE}\nphoto = \"photos/gas.jpg\"");
    let title = "stowfast_pack = 1\n";
    PACK.replace(NOTE, &photo).replace(title, &format!("{title}{technician}"))
}

fn with(pack: &str) -> Engine {
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_pack(pack, "a.toml", &at(0)).unwrap();
    engine
}

fn shown(engine: &Engine, fitting: &str) -> Option<CardPhoto> {
    engine.card(fitting, &at(1)).unwrap().photo
}

#[test]
fn a_card_says_what_its_photo_shows_and_who_gave_it() {
    let mut engine = with(&pack("technician = \"The invented workshop\"\n"));
    let note = |engine: &Engine| engine.card("gas_left", &at(1)).unwrap().note;
    let lacks = "The pack names a photo that is not here: photos/gas.jpg";
    assert_eq!(note(&engine), format!("Behind the lower locker door.\n{lacks}"));
    assert_eq!((shown(&engine, "gas_left"), engine.photo("gas_left").unwrap()), (None, None));

    engine.take_pack_photos(&[("gas_left".to_owned(), PNG.to_vec())], &at(1)).unwrap();
    let photo = shown(&engine, "gas_left").unwrap();
    assert_eq!(photo.title, "Photo of left gas cylinder, where it is");
    assert_eq!(photo.by_text, "By The invented workshop");
    assert_eq!(note(&engine), "Behind the lower locker door.");
    assert_eq!(engine.photo("gas_left").unwrap().as_deref(), Some(PNG));

    engine.set_photo("gas_left", PNG, Giver::Owner, &at(2)).unwrap();
    assert_eq!(shown(&engine, "gas_left").unwrap().by_text, "Added by you");
    engine.take_pack_photos(&[("gas_left".to_owned(), PNG.to_vec())], &at(3)).unwrap();
    assert_eq!(shown(&engine, "gas_left").unwrap().by_text, "Added by you", "the owner's stays");
    engine.remove_photo("gas_left").unwrap();
    assert_eq!(shown(&engine, "gas_left"), None);
    assert!(matches!(engine.remove_photo("gas_left"), Err(Error::NotFound { .. })));
    assert!(engine.log(9).is_ok_and(|log| log.is_empty()), "a photo is nothing that was said");
}

#[test]
fn what_is_no_picture_or_not_fitted_changes_nothing() {
    let mut engine = with(&pack(""));
    let mut refused = |fitting: &str, bytes: &[u8]| {
        engine.set_photo(fitting, bytes, Giver::Owner, &at(1)).unwrap_err().to_string()
    };
    assert_eq!(refused("sauna", PNG), "no card named sauna");
    assert_eq!(refused("pitch", PNG), "no card named pitch", "it is no fitting of the vehicle");
    let expected = "photo: expected a JPEG, PNG or WebP picture";
    assert_eq!(refused("gas_left", b"words"), expected);
    assert!(refused("gas_left", &PNG[..PNG.len() - 1]).contains("damaged or cut off"));
    let files = [("gas_left".to_owned(), PNG.to_vec()), ("gas_right".to_owned(), b"x".to_vec())];
    engine.take_pack_photos(&files, &at(1)).unwrap_err();
    assert!(engine.photos().unwrap().is_empty(), "all of them or none");
}

/// A corrected pack may bring a fitting back: nothing that was given is dropped without a hand.
#[test]
fn a_photo_of_what_is_no_longer_fitted_is_kept_until_it_is_removed() {
    let mut engine = with(PACK);
    engine.set_photo("water_filter", PNG, Giver::Owner, &at(1)).unwrap_err();
    engine.set_photo("gas_left", PNG, Giver::Owner, &at(1)).unwrap();
    let renamed = PACK.replace("\"gas_left\"", "\"gas_main\"");
    let id = engine.vehicles().unwrap()[0].id;
    engine.replace_pack(id, &renamed, "a.toml", &at(2)).unwrap();
    let rows = engine.photos().unwrap();
    let note = "No longer fitted. It is kept until you remove it.";
    assert_eq!((rows.len(), rows[0].id.as_str(), rows[0].note.as_str()), (1, "gas_left", note));
    assert_eq!(shown(&engine, "gas_main"), None);
    engine.replace_pack(id, PACK, "a.toml", &at(3)).unwrap();
    assert!(shown(&engine, "gas_left").is_some());
    engine.replace_pack(id, &renamed, "a.toml", &at(4)).unwrap();
    engine.remove_photo("gas_left").unwrap();
    assert!(engine.photos().unwrap().is_empty());
}

#[test]
fn photos_are_carried_with_everything_and_what_is_damaged_is_refused_whole() {
    let mut first = with(&pack(""));
    first.set_photo("gas_left", PNG, Giver::Owner, &at(1)).unwrap();
    first.take_pack_photos(&[("gas_right".to_owned(), PNG.to_vec())], &at(2)).unwrap();
    let text = first.export_text().unwrap();
    let mut other = Engine::in_memory("en").unwrap();
    other.import(text.as_bytes(), "kept.json", &at(3)).unwrap();
    assert_eq!(other.photos().unwrap(), first.photos().unwrap());
    assert_eq!(other.photo("gas_right").unwrap().as_deref(), Some(PNG));
    assert_eq!(other.export_text().unwrap(), text, "the same bytes for the same state");

    let mut empty = Engine::in_memory("en").unwrap();
    let image = text.split("\"image\":\"").nth(1).unwrap().split('"').next().unwrap();
    let (cut, _) = image.split_at(image.len() - 8);
    for (old, new, expected) in [
        (image, "iVBORw0K GgoAAAA", "an `image` in base64, in the photo of \"gas_left\" of \"Wren"),
        (image, cut, "a whole PNG picture: this one is damaged or cut off, in the photo of"),
        (image, "d29yZHM=", "a JPEG, PNG or WebP picture, in the photo of \"gas_left\""),
        ("\"giver\":\"owner\"", "\"giver\":\"thief\"", "expected `pack` or `owner`"),
        ("\"gas_left\",\"giver", "\"gas_right\",\"giver", "each photo once, by rising `fitting`"),
        ("\"gas_left\",\"giver", "\"\",\"giver", "a `fitting` of 1 to 500 bytes"),
    ] {
        assert!(text.contains(old), "{old}");
        let damaged = text.replacen(old, new, 1);
        let refused = empty.import(damaged.as_bytes(), "bad.json", &at(3)).unwrap_err();
        assert!(refused.to_string().contains(expected), "{refused}");
        assert!(empty.vehicles().unwrap().is_empty(), "nothing is half done");
    }
    let older = text.replacen("\"stowfast_export\":5", "\"stowfast_export\":4", 1);
    let (start, end) = (older.find(",\"photos\":").unwrap(), older.rfind("]}\n]").unwrap());
    let older = [older.split_at(start).0, older.split_at(end + 1).1].concat();
    empty.import(older.as_bytes(), "old.json", &at(3)).unwrap();
    assert!(empty.photos().unwrap().is_empty());
}
