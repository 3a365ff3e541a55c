use rusqlite::Connection;

use super::*;
use crate::store::schema::{self, MIGRATIONS};

/// A database of each version as it was released, oldest first: its tables and some rows. A new
/// version adds one, and a step that was released stays as it is.
const FIXTURES: &[&str] = &[
    include_str!("fixture/v1.sql"),
    include_str!("fixture/v2.sql"),
    include_str!("fixture/v3.sql"),
    include_str!("fixture/v4.sql"),
    include_str!("fixture/v5.sql"),
    include_str!("fixture/v6.sql"),
];

/// Every table and index, spaces aside.
fn shape(connection: &Connection) -> Vec<String> {
    let mut statement = connection
        .prepare(
            "SELECT type || ' ' || name || ': ' || coalesce(sql, '') FROM sqlite_schema
             WHERE name NOT LIKE 'sqlite\\_stat%' ESCAPE '\\' ORDER BY 1",
        )
        .unwrap();
    let rows = statement.query_map([], |row| row.get::<_, String>(0)).unwrap();
    rows.map(|row| row.unwrap().split_whitespace().collect::<Vec<_>>().join(" ")).collect()
}

fn fixture(path: &Path, sql: &str) {
    Connection::open(path).unwrap().execute_batch(sql).unwrap();
}

fn fresh(migrations: &[&str]) -> Connection {
    let mut connection = Connection::open_in_memory().unwrap();
    schema::migrate(&mut connection, migrations).unwrap();
    connection
}

#[test]
fn every_released_version_upgrades_to_the_shape_of_a_fresh_one_and_keeps_its_rows() {
    assert_eq!(FIXTURES.len(), MIGRATIONS.len(), "each version has its fixture");
    for (index, sql) in FIXTURES.iter().enumerate() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("stow.db");
        fixture(&path, sql);
        let released = shape(&Connection::open(&path).unwrap());
        assert_eq!(shape(&fresh(&MIGRATIONS[..=index])), released, "step edited after release");

        let (store, opened) = open(&path, &day(9));
        assert!(!opened.created && opened.set_aside.is_none() && opened.backup_failed.is_none());
        assert_eq!(shape(&store.connection), shape(&fresh(MIGRATIONS)));
        let vehicles = store.vehicles().unwrap();
        assert_eq!(vehicles.len(), 2);
        assert_eq!((vehicles[1].title.as_str(), vehicles[1].current), ("Second", true));
        let entries = store.entries(vehicles[0].id).unwrap();
        assert_eq!(entries.len(), 11, "one of each act");
        assert_eq!(entries.iter().map(|entry| entry.said.facts.len()).sum::<usize>(), 6);
        let readings = entries.iter().filter(|entry| entry.said.reading.is_some());
        let held = |since: usize, count: usize| if index < since { 0 } else { count };
        assert_eq!(readings.count(), held(1, 2) + held(2, 2), "those that the version can hold");
        let findings = entries.iter().filter(|entry| entry.said.finding.is_some());
        assert_eq!(findings.count(), held(3, 1), "those that the version can hold");
        let figures = entries.iter().filter(|entry| entry.said.figure.is_some());
        assert_eq!(figures.count(), held(4, 2), "those that the version can hold");
        let photos = store.photo_heads(vehicles[0].id).unwrap();
        assert_eq!(photos.len(), held(5, 2), "those that the version can hold");
        assert_eq!(store.get("language").unwrap().as_deref(), Some("de"));
    }
}

#[test]
fn an_upgrade_copies_the_file_first() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("stow.db");
    fill(&path, 3);
    let steps = [MIGRATIONS, &["CREATE TABLE more (id INTEGER PRIMARY KEY) STRICT"]].concat();
    let (connection, opened) = crate::store::open::open(&path, &day(0), &steps).unwrap();
    assert!(!opened.created);
    assert!(shape(&connection).iter().any(|part| part.starts_with("table more")));
    let copy = folder.path().join("backup/stow.db.000001.20260101T000000000Z.v6");
    let copy = Connection::open(copy).unwrap();
    assert_eq!(shape(&copy), shape(&fresh(MIGRATIONS)));
    let count: i64 = copy.query_row("SELECT count(*) FROM entry", [], |row| row.get(0)).unwrap();
    assert_eq!(count, 6);
}

#[test]
fn an_upgrade_that_fails_half_way_changes_nothing() {
    let dangling = "PRAGMA foreign_keys = ON;
        INSERT INTO entry (vehicle_id, utc_ms, act, note) VALUES (77, 0, 'note', '')";
    for bad in ["CREATE TABLE entry (id INTEGER) STRICT", dangling] {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("stow.db");
        fill(&path, 3);
        let before = fs::read(&path).unwrap();
        let steps =
            [MIGRATIONS, &["CREATE TABLE more (id INTEGER PRIMARY KEY) STRICT", bad]].concat();
        crate::store::open::open(&path, &day(0), &steps).unwrap_err();
        let (store, opened) = open(&path, &day(0));
        assert!(opened.set_aside.is_none());
        assert_eq!(store.entries(1).unwrap().len(), 6);
        drop(store);
        assert!(fs::read(&path).unwrap() == before);
    }
}

#[test]
fn a_newer_database_is_refused_and_untouched() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("stow.db");
    fill(&path, 3);
    let newer = Connection::open(&path).unwrap();
    newer.pragma_update(None, "user_version", 7).unwrap();
    drop(newer);
    let refuse = |path: &Path| {
        let refused = Store::open(path, &day(5)).unwrap_err();
        assert!(matches!(refused, Error::NewerDatabase { found: 7, supported: 6 }));
    };
    let before = files(folder.path());
    refuse(&path);
    assert!(files(folder.path()) == before);

    // As a kill leaves it: the newest rows still in the -wal.
    let newer = Connection::open(&path).unwrap();
    newer.execute_batch("INSERT INTO setting VALUES ('only', 'in the wal')").unwrap();
    let killed = tempfile::tempdir().unwrap();
    for suffix in ["", "-wal"] {
        let name = format!("stow.db{suffix}");
        fs::copy(folder.path().join(&name), killed.path().join(&name)).unwrap();
    }
    let path = killed.path().join("stow.db");
    let before = files(killed.path());
    refuse(&path);
    let after: Vec<_> = files(killed.path())
        .into_iter()
        .filter(|(name, _)| !name.to_string_lossy().ends_with("-shm"))
        .collect();
    assert!(after == before);
}

#[test]
fn the_database_of_another_program_is_refused_and_untouched() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("other.db");
    fixture(&path, "CREATE TABLE diary (day TEXT); PRAGMA user_version = 1");
    let before = files(folder.path());
    let refused = Store::open(&path, &day(0)).unwrap_err();
    assert!(matches!(refused, Error::InvalidInput { .. }));
    assert!(files(folder.path()) == before);
}

#[test]
fn what_durability_needs_is_set() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("stow.db");
    let (store, opened) = open(&path, &day(0));
    assert!(opened.created);
    let value = |pragma| -> i64 {
        store.connection.pragma_query_value(None, pragma, |row| row.get(0)).unwrap()
    };
    assert_eq!((value("synchronous"), value("foreign_keys"), value("busy_timeout")), (2, 1, 5_000));
    let mode: String =
        store.connection.pragma_query_value(None, "journal_mode", |row| row.get(0)).unwrap();
    assert_eq!(mode, "wal");
}
