use std::collections::BTreeMap;

use super::*;
use crate::error::Error;
use crate::photo::{ALL_BYTES_MAX, BYTES_MAX, Giver, PHOTOS_MAX, Photo};

/// A log that names earlier entries in every way there is.
fn random_log(store: &mut Store, vehicle: i64, dice: &mut Dice) {
    let (mut seqs, mut runs): (Vec<i64>, Vec<i64>) = (Vec::new(), Vec::new());
    for _ in 0..dice.below(40) {
        let pick = |from: &[i64], dice: &mut Dice| {
            if from.is_empty() { None } else { Some(from[dice.below(from.len())]) }
        };
        let earlier = pick(&seqs, dice);
        let act = match (dice.below(7), earlier) {
            (0, Some(entry)) => Act::Void { entry },
            (1, Some(entry)) => Act::Open { target: format!("back/{entry}") },
            (2, _) => Act::Open { target: "ready_to_drive".into() },
            (3, _) => Act::Cannot { step: "gas_valve.shut".into() },
            (4, _) => Act::Close,
            _ => Act::Report,
        };
        let opens = matches!(act, Act::Open { .. });
        let run = if opens || dice.below(2) == 0 { None } else { pick(&runs, dice) };
        let clock = Monotonic { ms: 7, boot: format!("boot {}", dice.below(3)) };
        let at = Stamp { monotonic: Some(clock).filter(|_| dice.below(2) == 0), ..day(1) };
        let setting = ["open", "shut"][dice.below(2)];
        let facts = vec![fact("gas_valve.position", &[setting], How::Looked)];
        let facts = if act == Act::Report { facts } else { vec![] };
        let shown = act == Act::Report && dice.below(2) == 0;
        let reading = shown.then(|| reading(GaugeUnit::Percent, 42_500));
        let found = act == Act::Report && dice.below(2) == 0;
        let finding = found.then(|| finding("empty"));
        let told = act == Act::Report && dice.below(2) == 0;
        let figure = told.then(|| figure(Some(1_500).filter(|_| dice.below(2) == 0)));
        let note = "two\nlines \u{0}".repeat(dice.below(2));
        let said = NewEntry { at, run, act, facts, reading, finding, figure, note };
        let seq = store.append(vehicle, &[said]);
        let seq = seq.unwrap()[0];
        seqs.push(seq);
        if opens {
            runs.push(seq);
        }
    }
}

/// Some vehicles whose logs came about side by side.
fn random_store(titles: &[&str], dice: &mut Dice) -> Store {
    let mut store = Store::in_memory().unwrap();
    store.put("language", "de").unwrap();
    for title in titles {
        let id = store.add_vehicle(title, "a pack", &day(1)).unwrap();
        store.replace_pack(id, title, "a better pack", Some("a pack"), &[]).unwrap();
    }
    for _ in 0..3 {
        for place in 1..=titles.len() {
            random_log(&mut store, i64::try_from(place).unwrap(), dice);
        }
    }
    store.choose_vehicle(i64::try_from(titles.len()).unwrap()).unwrap();
    store
}

fn never(_: &VehicleRow, _: &Kept) -> bool {
    false
}

/// A log with the place of each entry for its number.
fn by_place(log: &[Entry]) -> Vec<NewEntry> {
    let places: BTreeMap<i64, i64> = log.iter().map(|one| one.seq).zip(0..).collect();
    let said = log.iter().map(|one| {
        let mut said = one.said.clone();
        said.run = said.run.map(|run| places[&run]);
        match &mut said.act {
            Act::Void { entry } => *entry = places[entry],
            Act::Open { target } => {
                if let Some(entry) = target.strip_prefix("back/") {
                    *target = format!("back/{}", places[&entry.parse::<i64>().unwrap()]);
                }
            }
            _ => {}
        }
        said
    });
    said.collect()
}

#[test]
fn an_empty_database_takes_everything_over_as_it_was() {
    for seed in 0..40 {
        let all = random_store(&["One", "Two", "Three"], &mut Dice(seed)).everything().unwrap();
        let mut empty = Store::in_memory().unwrap();
        let brought = empty.bring_in(&all, never).unwrap();
        assert!(brought.iter().all(|one| matches!(one, Brought::Added(_))));
        assert_eq!(empty.everything().unwrap(), all, "{seed}");
        let again = empty.bring_in(&all, never).unwrap();
        assert_eq!(again, vec![Brought::Known; 3]);
        assert_eq!(empty.everything().unwrap(), all, "{seed}, again");
    }
}

#[test]
fn beside_other_vehicles_entries_get_new_numbers_and_what_names_them_follows() {
    let mut moved = 0;
    for seed in 0..40 {
        let dice = &mut Dice(seed);
        let all = random_store(&["One", "Two"], dice).everything().unwrap();
        let mut other = random_store(&["Three"], dice);
        other.put("language", "en").unwrap();
        let before = other.everything().unwrap();
        other.bring_in(&all, never).unwrap();
        let after = other.everything().unwrap();
        assert_eq!(after.vehicles[0], before.vehicles[0], "{seed}");
        assert_eq!(after.settings["language"], "en", "what is chosen here stays");
        for (here, kept) in after.vehicles[1..].iter().zip(&all.vehicles) {
            assert_eq!(by_place(&here.log), by_place(&kept.log), "{seed}");
            assert!(!here.row.current);
            moved += usize::from(here.log.iter().zip(&kept.log).any(|(a, b)| a.seq != b.seq));
        }
    }
    assert!(moved > 20, "{moved}");
}

/// Two phones in turn: each takes over what the other said, whatever the numbers.
#[test]
fn a_vehicle_that_went_on_is_brought_up_to_date() {
    for seed in 0..40 {
        let dice = &mut Dice(seed);
        let mut one = random_store(&["One"], dice);
        let mut other = random_store(&["Two"], dice);
        other.bring_in(&one.everything().unwrap(), never).unwrap();
        random_log(&mut one, 1, dice);
        one.append(1, &[report("shut")]).unwrap();
        one.replace_pack(1, "One", "the best pack", Some("a better pack"), &[]).unwrap();
        let brought = other.bring_in(&one.everything().unwrap(), never).unwrap();
        assert!(matches!(&brought[..], [Brought::Updated(new)] if !new.is_empty()), "{seed}");
        let (here, there) = (other.everything().unwrap(), one.everything().unwrap());
        assert_eq!(by_place(&here.vehicles[1].log), by_place(&there.vehicles[0].log));
        assert_eq!(here.vehicles[1].row.pack_toml, "the best pack");
        assert_eq!(here.vehicles[1].row.good_pack_toml.as_deref(), Some("a better pack"));
        // And back, where there is nothing new of it.
        let brought = one.bring_in(&here, never).unwrap();
        assert_eq!(brought[1], Brought::Known);
        assert_eq!(by_place(&one.entries(1).unwrap()), by_place(&there.vehicles[0].log));
    }
}

#[test]
fn an_older_file_changes_nothing() {
    let mut store = random_store(&["One"], &mut Dice(3));
    let old = store.everything().unwrap();
    store.append(1, &[report("shut")]).unwrap();
    store.replace_pack(1, "One", "the best pack", Some("a better pack"), &[]).unwrap();
    let now = store.everything().unwrap();
    assert_eq!(store.bring_in(&old, never).unwrap(), [Brought::Known]);
    assert_eq!(store.everything().unwrap(), now);
}

#[test]
fn what_went_on_differently_is_a_conflict_and_nothing_is_brought_in() {
    let mut one = random_store(&["New", "One"], &mut Dice(5));
    let mut other = Store::in_memory().unwrap();
    let all = one.everything().unwrap();
    other.bring_in(&Everything { vehicles: vec![all.vehicles[1].clone()], ..all }, never).unwrap();
    other.append(1, &[report("open")]).unwrap();
    one.append(2, &[report("shut")]).unwrap();
    one.put("other", "setting").unwrap();
    let before = other.everything().unwrap();
    let all = one.everything().unwrap();
    let seq = before.vehicles[0].log.last().unwrap().seq;
    match other.bring_in(&all, never) {
        Err(Error::Conflict { detail }) => {
            assert_eq!(detail, format!("\"One\" went on differently here, from entry {seq} on"));
        }
        otherwise => panic!("{otherwise:?}"),
    }
    assert_eq!(other.everything().unwrap(), before);
    // Where it may, that one stays, and the others come in.
    let brought = other.bring_in(&all, |row, _| row.title == "One").unwrap();
    assert!(matches!(brought[..], [Brought::Added(_), Brought::Left]));
    assert_eq!(other.everything().unwrap().vehicles[0].log, before.vehicles[0].log);
}

/// While nothing was said, only the pack can tell that two vehicles of one title are the same.
#[test]
fn another_vehicle_of_the_same_title_is_a_conflict() {
    let of = |pack: &str, good: Option<&str>, said: usize| {
        let mut store = Store::in_memory().unwrap();
        store.add_vehicle("One", pack, &day(1)).unwrap();
        store.replace_pack(1, "One", pack, good, &vec![report("shut"); said]).unwrap();
        store
    };
    let known = |here: &mut Store, there: &Store| match here
        .bring_in(&there.everything().unwrap(), never)
    {
        Ok(brought) => brought.len() == 1,
        Err(Error::Conflict { detail }) => {
            assert_eq!(detail, "another vehicle called \"One\" is here already");
            false
        }
        Err(other) => panic!("{other}"),
    };
    assert!(!known(&mut of("a", None, 0), &of("b", None, 0)));
    assert!(!known(&mut of("a", None, 0), &of("b", None, 2)));
    assert!(!known(&mut of("a", None, 2), &of("b", None, 0)));
    assert!(!known(&mut of("a", None, 2), &of("b", None, 2)), "a new pack leaves a note");
    assert!(known(&mut of("a", None, 0), &of("a", None, 2)));
    assert!(known(&mut of("a", None, 0), &of("b", Some("a"), 1)), "the pack was corrected");
    assert!(known(&mut of("a", None, 1), &of("b", None, 2)), "the log tells");
}

fn photo(fitting: &str, added: i64, image: &[u8]) -> Photo {
    let (fitting, giver) = (fitting.to_owned(), Giver::Owner);
    Photo { fitting, giver, added_utc_ms: added, image: image.to_vec() }
}

#[test]
fn of_two_photos_of_a_fitting_the_later_one_stays_and_new_ones_come_in() {
    let mut one = random_store(&["One"], &mut Dice(7));
    let mut other = Store::in_memory().unwrap();
    one.put_photos(1, &[photo("pump", 5, b"old"), photo("step", 5, b"step")]).unwrap();
    let brought = other.bring_in(&one.everything().unwrap(), never).unwrap();
    assert!(matches!(brought[..], [Brought::Added(_)]));
    assert_eq!(other.everything().unwrap(), one.everything().unwrap());
    one.put_photos(1, &[photo("pump", 6, b"new"), photo("step", 4, b"older")]).unwrap();
    one.put_photos(1, &[photo("heater", 1, b"more")]).unwrap();
    let all = one.everything().unwrap();
    let brought = other.bring_in(&all, never).unwrap();
    assert_eq!(brought, [Brought::Updated(vec![])], "nothing was said, and photos came");
    let kept = |fitting| other.photo(1, fitting).unwrap().unwrap();
    assert_eq!((kept("pump"), kept("step")), (b"new".to_vec(), b"step".to_vec()));
    assert_eq!(kept("heater"), b"more");
    assert_eq!(other.bring_in(&all, never).unwrap(), [Brought::Known]);
}

#[test]
fn no_more_photos_than_a_file_of_everything_can_carry_and_then_none_of_them() {
    let mut store = random_store(&["One", "Two"], &mut Dice(8));
    let many = |count: usize| (0..count).map(|at| photo(&format!("f{at:03}"), 0, b"x"));
    store.put_photos(1, &many(PHOTOS_MAX).collect::<Vec<_>>()).unwrap();
    let before = store.everything().unwrap();
    let full = store.put_photos(1, &[photo("f000", 1, b"again"), photo("one_more", 1, b"x")]);
    let expected = "photo: expected at most 200 photos of a vehicle. Remove one first";
    assert_eq!(full.unwrap_err().to_string(), expected);
    assert_eq!(store.everything().unwrap(), before);
    store.put_photos(2, &[photo("pump", 0, b"x")]).unwrap();
    store.remove_photo(1, "f000").unwrap();
    let gone = store.remove_photo(1, "f000").unwrap_err();
    assert!(matches!(gone, Error::NotFound { kind: "photo", .. }));

    let large: Vec<_> = (0..ALL_BYTES_MAX / BYTES_MAX)
        .map(|at| photo(&format!("g{at:03}"), 0, &vec![0; BYTES_MAX]))
        .collect();
    let mut store = random_store(&["One", "Two"], &mut Dice(9));
    store.put_photos(1, &large).unwrap();
    let full = store.put_photos(2, &[photo("pump", 0, b"x")]).unwrap_err().to_string();
    assert_eq!(full, "photo: expected at most 36000000 bytes of photos in all. Remove one first");
    assert!(store.photo(2, "pump").unwrap().is_none());
    assert!(store.put_photos(3, &[]).is_err(), "no such vehicle");
    let too_large = photo("pump", 0, &vec![0; BYTES_MAX + 1]);
    assert!(store.put_photos(2, &[too_large]).is_err(), "the table itself refuses it");
}
