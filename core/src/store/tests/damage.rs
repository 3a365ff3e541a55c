use super::*;

/// A folder with a database of several pages and no backup; the database's bytes.
fn sample() -> (tempfile::TempDir, PathBuf, Vec<u8>) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("stow.db");
    fill(&path, 40);
    let bytes = fs::read(&path).unwrap();
    assert!(bytes.len() >= 6 * 4_096 && files(folder.path()).len() == 1);
    (folder, path, bytes)
}

/// Files as a kill leaves them: a database, and later actions only in its `-wal`.
fn killed(actions: usize) -> (Vec<u8>, Vec<u8>) {
    let (_folder, path, _) = sample();
    let (mut store, _) = open(&path, &day(0));
    for _ in 0..actions {
        store.append(1, &[report("shut"), report("open")]).unwrap();
    }
    let wal = PathBuf::from(format!("{}-wal", path.display()));
    (fs::read(&path).unwrap(), fs::read(wal).unwrap())
}

/// Opens a damaged database and checks that it was kept as it was, or else works.
fn survives(path: &Path, damaged: &[u8]) -> (Store, Opened) {
    let (mut store, opened) = open(path, &day(50));
    if let Some(folder) = &opened.set_aside {
        assert!(fs::read(folder.join("stow.db")).unwrap() == damaged);
    }
    let vehicle = store.add_vehicle("Another", "", &day(50)).unwrap();
    store.append(vehicle, &[report("open")]).unwrap();
    (store, opened)
}

#[test]
fn cut_short_anywhere_without_a_backup_it_is_set_aside() {
    let (_folder, _, whole) = sample();
    for length in (0..whole.len()).step_by(512).chain([1, 15, 16, 99, 100, 101, 4_095]) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("stow.db");
        fs::write(&path, &whole[..length]).unwrap();
        let (store, opened) = survives(&path, &whole[..length]);
        // An empty file alone holds nothing that could be kept.
        assert_eq!(opened.set_aside.is_some(), length > 0, "cut to {length}");
        assert!(opened.created && opened.restored_from.is_none());
        assert_eq!(store.vehicles().unwrap().len(), 1);
    }
}

#[test]
fn cut_short_anywhere_with_a_backup_it_is_restored() {
    let (folder, path, _) = sample();
    drop(open(&path, &day(1)));
    let whole = fs::read(&path).unwrap();
    let saved = files(&folder.path().join("backup"));
    assert_eq!(saved.len(), 1);
    for length in (0..whole.len()).step_by(512) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("stow.db");
        fs::write(&path, &whole[..length]).unwrap();
        fs::create_dir(folder.path().join("backup")).unwrap();
        let backup = folder.path().join("backup").join(&saved[0].0);
        fs::write(&backup, &saved[0].1).unwrap();
        let (store, opened) = survives(&path, &whole[..length]);
        assert!(opened.set_aside.is_some() && !opened.created, "cut to {length}");
        assert_eq!(opened.restored_from, Some(backup));
        assert_eq!(store.entries(1).unwrap().len(), 80);
        drop(store);
        assert!(open(&path, &day(50)).1.set_aside.is_none());
    }
}

#[test]
fn a_wal_cut_short_anywhere_loses_whole_actions_from_the_end() {
    let (db, wal) = killed(4);
    let mut counts = Vec::new();
    for length in (0..wal.len()).step_by(512).chain([wal.len()]) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("stow.db");
        fs::write(&path, &db).unwrap();
        fs::write(folder.path().join("stow.db-wal"), &wal[..length]).unwrap();
        let (store, opened) = open(&path, &day(0));
        assert!(opened.set_aside.is_none() && !opened.created);
        let entries = store.entries(1).unwrap();
        assert!(entries.iter().all(|entry| entry.said.facts.len() == 1));
        counts.push(entries.len());
    }
    assert!(counts.is_sorted() && counts.iter().all(|count| count % 2 == 0));
    assert_eq!((counts[0], counts[counts.len() - 1]), (80, 88));
}

#[test]
fn cut_short_with_a_wal_the_files_stay_together() {
    let (db, wal) = killed(4);
    for length in (0..db.len()).step_by(512) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("stow.db");
        fs::write(&path, &db[..length]).unwrap();
        fs::write(folder.path().join("stow.db-wal"), &wal).unwrap();
        let (store, opened) = survives(&path, &db[..length]);
        match opened.set_aside {
            Some(kept) => assert!(fs::read(kept.join("stow.db-wal")).unwrap() == wal),
            None => assert_eq!(store.entries(1).unwrap().len(), 88, "cut to {length}"),
        }
    }
}

#[test]
fn flipped_bytes_are_found_or_harmless() {
    let (_folder, _, whole) = sample();
    let mut dice = Dice(7);
    let mut found = 0;
    for _ in 0..200 {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("stow.db");
        let mut bytes = whole.clone();
        let at = dice.below(bytes.len());
        bytes[at] ^= 1 << dice.below(8);
        fs::write(&path, &bytes).unwrap();
        match Store::open(&path, &day(50)) {
            Ok((store, opened)) => {
                if let Some(kept) = opened.set_aside {
                    found += 1;
                    assert!(fs::read(kept.join("stow.db")).unwrap() == bytes);
                } else if let Ok(entries) = store.entries(1) {
                    assert!(entries.len() <= 80);
                }
            }
            // A flip in the mark or the version makes it somebody else's.
            Err(error) => {
                assert!(matches!(error, Error::InvalidInput { .. } | Error::NewerDatabase { .. }));
                assert!(fs::read(&path).unwrap() == bytes);
            }
        }
    }
    assert!(found > 0);
}

#[test]
fn what_is_no_database_is_set_aside() {
    let text = b"This was a holiday photograph.\n".repeat(300);
    for garbage in [vec![0; 4_096], text, vec![0xff; 700], b"SQLite format 3\0".to_vec()] {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("stow.db");
        fs::write(&path, &garbage).unwrap();
        let (_store, opened) = survives(&path, &garbage);
        assert!(opened.set_aside.is_some() && opened.created);
    }
}

#[test]
fn a_database_without_one_of_its_tables_is_set_aside() {
    let (_folder, path, _) = sample();
    rusqlite::Connection::open(&path).unwrap().execute_batch("DROP TABLE setting").unwrap();
    let damaged = fs::read(&path).unwrap();
    let (_store, opened) = open(&path, &day(0));
    let kept = opened.set_aside.unwrap();
    assert!(fs::read(kept.join("stow.db")).unwrap() == damaged);
}

#[test]
fn two_at_the_same_moment_are_kept_apart() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("stow.db");
    for (garbage, name) in [("one", ""), ("two", "-2"), ("three", "-3")] {
        fs::write(&path, garbage).unwrap();
        let (_, opened) = open(&path, &day(0));
        let expected = folder.path().join(format!("damaged/20260101T000000000Z{name}"));
        assert_eq!(opened.set_aside.as_ref(), Some(&expected));
        assert_eq!(fs::read_to_string(expected.join("stow.db")).unwrap(), garbage);
    }
}

#[test]
fn where_setting_aside_fails_the_file_stays() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("stow.db");
    fs::write(&path, "garbage").unwrap();
    fs::write(folder.path().join("damaged"), "in the way").unwrap();
    let before = files(folder.path());
    let refused = Store::open(&path, &day(0)).unwrap_err();
    assert!(matches!(refused, Error::StorageDamaged { kept } if kept == path));
    assert!(files(folder.path()) == before);
}

#[test]
fn setting_aside_that_was_cut_short_is_taken_up_again() {
    let (folder, path, _) = sample();
    drop(open(&path, &day(1)));
    // The main file was moved, its -wal not yet, and a restore had begun.
    fs::create_dir_all(folder.path().join("damaged/then")).unwrap();
    fs::rename(&path, folder.path().join("damaged/then/stow.db")).unwrap();
    fs::write(folder.path().join("stow.db-wal"), "frames").unwrap();
    fs::write(folder.path().join("stow.db.restoring"), "half").unwrap();
    let (store, opened) = open(&path, &day(2));
    let kept = opened.set_aside.unwrap();
    assert_eq!(fs::read_to_string(kept.join("stow.db-wal")).unwrap(), "frames");
    assert!(opened.restored_from.is_some() && !opened.created);
    assert_eq!(store.entries(1).unwrap().len(), 80);
    drop(store);

    // All was moved, and nothing restored yet.
    fs::rename(&path, folder.path().join("damaged/then/again.db")).unwrap();
    let (store, opened) = open(&path, &day(2));
    assert!(opened.set_aside.is_none() && opened.restored_from.is_some());
    assert_eq!(store.entries(1).unwrap().len(), 80);
    assert!(!folder.path().join("stow.db.restoring").exists());
}

#[test]
fn a_folder_or_a_missing_folder_is_not_damage() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("stow.db");
    fs::create_dir(&path).unwrap();
    assert!(Store::open(&path, &day(0)).is_err());
    assert!(Store::open(&folder.path().join("nowhere/stow.db"), &day(0)).is_err());
    assert!(Store::open(Path::new(".."), &day(0)).is_err());
    assert!(path.is_dir() && files(folder.path()).is_empty());
}
