use super::*;

fn names(folder: &Path) -> Vec<String> {
    files(&folder.join("backup"))
        .into_iter()
        .map(|(name, _)| name.to_string_lossy().into_owned())
        .collect()
}

#[test]
fn one_a_day_is_made_and_three_are_kept() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("stow.db");
    fill(&path, 1);
    assert!(!folder.path().join("backup").exists(), "nothing to copy in a new database");
    for number in 0..6 {
        for _ in 0..3 {
            assert!(open(&path, &day(number)).1.backup_failed.is_none());
        }
    }
    let expected = ["4.20260104", "5.20260105", "6.20260106"];
    assert_eq!(
        names(folder.path()),
        expected.map(|name| format!("stow.db.00000{name}T000000000Z"))
    );
}

#[test]
fn a_clock_that_was_wrong_hides_no_backup() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("stow.db");
    fill(&path, 1);
    drop(open(&path, &day(9_000)));
    drop(open(&path, &Stamp::utc(i64::MAX)));
    let (mut store, _) = open(&path, &day(0));
    store.append(1, &[report("open")]).unwrap();
    drop(store);
    let (store, _) = open(&path, &day(1));
    let expected = log(&store, 1);
    drop(store);
    fs::write(&path, "garbage").unwrap();
    let (store, opened) = open(&path, &day(1));
    assert!(opened.restored_from.is_some());
    assert_eq!(log(&store, 1), expected, "the last one made, whatever its date");
}

#[test]
fn backups_of_two_databases_in_one_folder_keep_apart() {
    let folder = tempfile::tempdir().unwrap();
    let (one, two) = (folder.path().join("stow.db"), folder.path().join("stow.db.2"));
    fill(&one, 1);
    fill(&two, 2);
    for path in [&one, &two] {
        drop(open(path, &day(1)));
        fs::write(path, "garbage").unwrap();
    }
    assert_eq!(log(&open(&one, &day(1)).0, 1).len(), 2);
    assert_eq!(log(&open(&two, &day(1)).0, 1).len(), 4);
}

#[test]
fn a_damaged_backup_is_passed_over_and_kept() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("stow.db");
    fill(&path, 1);
    drop(open(&path, &day(1)));
    drop(open(&path, &day(2)));
    let newest = folder.path().join("backup/stow.db.000002.20260103T000000000Z");
    fs::write(&newest, "garbage").unwrap();
    fs::write(&path, "garbage").unwrap();
    let (store, opened) = open(&path, &day(2));
    let older = folder.path().join("backup/stow.db.000001.20260102T000000000Z");
    assert_eq!(opened.restored_from, Some(older));
    assert_eq!(log(&store, 1).len(), 2);
    drop(store);
    for number in 3..9 {
        drop(open(&path, &day(number)));
    }
    let kept = format!("{}.unsound", newest.display());
    assert_eq!(fs::read_to_string(kept).unwrap(), "garbage");
    assert_eq!(names(folder.path()).len(), 4);
}

#[test]
fn a_backup_that_cannot_be_made_is_said_and_stops_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("stow.db");
    fill(&path, 1);
    fs::write(folder.path().join("backup"), "in the way").unwrap();
    let (mut store, opened) = open(&path, &day(1));
    assert!(matches!(opened.backup_failed, Some(Error::Io { .. })));
    store.append(1, &[report("open")]).unwrap();
}
