use super::*;

fn every_act(run: i64) -> Vec<Act> {
    let step = || "gas_valve.shut".to_owned();
    let acts = vec![
        Act::Report,
        Act::Tick { step: step() },
        Act::Look { step: step() },
        Act::Void { entry: run },
        Act::Cannot { step: step() },
        Act::LeftAnyway { step: step() },
        Act::Open { target: "ready_to_drive".into() },
        Act::Pause,
        Act::Resume,
        Act::Close,
        Act::Note,
    ];
    // A new act fails to compile here, and then to be listed above.
    let place = |act: &Act| match act {
        Act::Report => 0,
        Act::Tick { .. } => 1,
        Act::Look { .. } => 2,
        Act::Void { .. } => 3,
        Act::Cannot { .. } => 4,
        Act::LeftAnyway { .. } => 5,
        Act::Open { .. } => 6,
        Act::Pause => 7,
        Act::Resume => 8,
        Act::Close => 9,
        Act::Note => 10,
    };
    assert!(acts.iter().map(place).eq(0..11));
    acts
}

fn every_how() -> Vec<How> {
    let hows = vec![How::Done, How::Looked, How::Told, How::Reading, How::Settled, How::Assumed];
    let place = |how: &How| match how {
        How::Done => 0,
        How::Looked => 1,
        How::Told => 2,
        How::Reading => 3,
        How::Settled => 4,
        How::Assumed => 5,
    };
    assert!(hows.iter().map(place).eq(0..6));
    hows
}

/// A store with one vehicle and one open run.
fn with_run() -> (Store, i64, i64) {
    let mut store = Store::in_memory().unwrap();
    let vehicle = store.add_vehicle("Van", "", &day(0)).unwrap();
    let run = store.append(vehicle, &[said(Act::Open { target: "pitched".into() }, vec![])]);
    (store, vehicle, run.unwrap()[0])
}

#[test]
fn every_act_and_every_how_come_back_as_they_were() {
    let (mut store, vehicle, run) = with_run();
    let facts: Vec<Fact> = every_how()
        .into_iter()
        .flat_map(|how| {
            [fact("tank.fresh", &["low"], how), fact("tank.waste", &["low", "full"], how)]
        })
        .collect();
    let clocks = [
        None,
        Some(Monotonic { ms: 0, boot: String::new() }),
        Some(Monotonic { ms: i64::MAX, boot: "b".into() }),
    ];
    let units = [
        GaugeUnit::Lamps,
        GaugeUnit::Percent,
        GaugeUnit::Litres,
        GaugeUnit::Volts,
        GaugeUnit::Kilograms,
        GaugeUnit::Words,
    ];
    let values = [0, 1, 42, Reading::MILLI_MAX, 16_250, 3_000];
    let shown = units.into_iter().zip(values).map(|(unit, value)| Some(reading(unit, value)));
    let mut shown = shown.chain([None]).cycle();
    let mut entries = Vec::new();
    for act in every_act(run) {
        for monotonic in &clocks {
            for utc_ms in [i64::MIN, 0, i64::MAX] {
                entries.push(NewEntry {
                    at: Stamp { utc_ms, monotonic: monotonic.clone() },
                    run: (!matches!(act, Act::Open { .. })).then_some(run),
                    act: act.clone(),
                    facts: facts.clone(),
                    reading: shown.next().flatten(),
                    finding: (utc_ms != 0).then(|| finding("some, \u{1f690}")),
                    figure: (utc_ms != 0).then(|| figure((utc_ms > 0).then_some(0))),
                    note: "Zwei Zeilen,\n\"mit\" 'Zeichen' \u{0}\u{1f690}".into(),
                });
            }
        }
    }
    let seqs = store.append(vehicle, &entries).unwrap();
    let read = store.entries_since(vehicle, run).unwrap();
    let expected: Vec<Entry> =
        seqs.into_iter().zip(entries).map(|(seq, said)| Entry { seq, said }).collect();
    assert_eq!(read, expected);
}

#[test]
fn sequence_numbers_rise_and_logs_keep_apart() {
    let mut store = Store::in_memory().unwrap();
    let one = store.add_vehicle("One", "", &day(0)).unwrap();
    let two = store.add_vehicle("Two", "", &day(0)).unwrap();
    let a = store.append(one, &[report("open")]).unwrap();
    let b = store.append(two, &[report("shut")]).unwrap();
    let c = store.append(one, &[report("shut"), report("open")]).unwrap();
    assert!(a[0] < b[0] && b[0] < c[0] && c[0] < c[1]);
    assert_eq!(log(&store, one), [report("open"), report("shut"), report("open")]);
    assert_eq!(log(&store, two), [report("shut")]);
    assert_eq!(store.entries_since(one, a[0]).unwrap().len(), 2);
    assert!(store.append(one, &[]).unwrap().is_empty());
}

#[test]
fn what_one_vehicle_said_names_nothing_of_another() {
    let (mut store, first, run) = with_run();
    let second = store.add_vehicle("Other", "", &day(0)).unwrap();
    let in_run = |run| NewEntry { run: Some(run), ..said(Act::Pause, vec![]) };
    for (entry, kind) in [
        (in_run(run), "run"),
        (in_run(99), "run"),
        (said(Act::Void { entry: run }, vec![]), "entry"),
    ] {
        let refused = store.append(second, &[report("open"), entry]);
        assert!(matches!(refused, Err(Error::NotFound { kind: found, .. }) if found == kind));
    }
    let report = store.append(first, &[report("open")]).unwrap()[0];
    let refused = store.append(first, &[in_run(report)]);
    assert!(matches!(refused, Err(Error::NotFound { kind: "run", .. })));
    assert_eq!(log(&store, second), []);
}

#[test]
fn an_action_that_fails_leaves_nothing() {
    let (mut store, vehicle, _) = with_run();
    let before = store.entries(vehicle).unwrap();
    let bad_facts = [
        fact("", &["open"], How::Done),
        fact("roof.light", &[], How::Done),
        fact("roof.light", &[""], How::Done),
        fact("roof.light", &["open,shut"], How::Done),
    ];
    for bad in bad_facts {
        let good = fact("roof.light", &["open"], How::Done);
        let action = [report("open"), said(Act::Report, vec![good, bad]), report("shut")];
        assert!(store.append(vehicle, &action).is_err());
    }
    let empty_step = said(Act::Tick { step: String::new() }, vec![]);
    assert!(store.append(vehicle, &[report("open"), empty_step]).is_err());
    assert_eq!(store.entries(vehicle).unwrap(), before);
}

#[test]
fn a_full_disk_leaves_nothing_and_can_be_recovered_from() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("stow.db");
    fill(&path, 5);
    let (mut store, _) = open(&path, &day(0));
    let before = store.entries(1).unwrap();
    let pages: i64 =
        store.connection.pragma_query_value(None, "page_count", |row| row.get(0)).unwrap();
    let set_limit = |store: &Store, pages: i64| {
        store
            .connection
            .pragma_update_and_check(None, "max_page_count", pages, |_| Ok(()))
            .unwrap();
    };
    set_limit(&store, pages);
    let action = vec![report("shut"); 500];
    assert!(matches!(store.append(1, &action), Err(Error::StorageFull)));
    assert_eq!(store.entries(1).unwrap(), before);
    set_limit(&store, 1_000_000);
    store.append(1, &action).unwrap();
    assert_eq!(store.entries(1).unwrap().len(), before.len() + 500);
}

#[test]
fn one_vehicle_at_most_is_current() {
    let mut store = Store::in_memory().unwrap();
    let current = |store: &Store| -> Vec<i64> {
        store.vehicles().unwrap().iter().filter(|row| row.current).map(|row| row.id).collect()
    };
    assert!(current(&store).is_empty());
    let one = store.add_vehicle("One", "a", &day(3)).unwrap();
    let two = store.add_vehicle("Two", "b", &day(4)).unwrap();
    assert_eq!(current(&store), [one]);
    store.choose_vehicle(two).unwrap();
    store.choose_vehicle(two).unwrap();
    assert_eq!(current(&store), [two]);
    let refused = store.choose_vehicle(77);
    assert!(matches!(refused, Err(Error::NotFound { kind: "vehicle", .. })));
    assert_eq!(current(&store), [two]);
}

#[test]
fn a_replaced_pack_stays_at_hand_and_so_does_the_log() {
    let mut store = Store::in_memory().unwrap();
    let id = store.add_vehicle("Van", "one", &day(3)).unwrap();
    store.append(id, &[report("open")]).unwrap();
    assert_eq!(store.vehicles().unwrap()[0].good_pack_toml, None);
    let note = said(Act::Note, vec![]);
    store.replace_pack(id, "Our van", "two", Some("one"), std::slice::from_ref(&note)).unwrap();
    let expected = VehicleRow {
        id,
        title: "Our van".into(),
        pack_toml: "two".into(),
        good_pack_toml: Some("one".into()),
        added_utc_ms: day(3).utc_ms,
        current: true,
    };
    let expected = [expected];
    let bad_note = NewEntry { run: Some(77), ..note.clone() };
    for (id, title, note) in [(id, "", &note), (9, "Van", &note), (id, "Van", &bad_note)] {
        assert!(store.replace_pack(id, title, "three", None, std::slice::from_ref(note)).is_err());
        assert_eq!(store.vehicles().unwrap(), expected, "all of it, or none");
        assert_eq!(log(&store, expected[0].id), [report("open"), said(Act::Note, vec![])]);
    }
}

#[test]
fn an_unknown_vehicle_is_said_to_be_unknown() {
    let mut store = Store::in_memory().unwrap();
    let unknown = |error| matches!(error, Error::NotFound { kind: "vehicle", .. });
    assert!(unknown(store.entries(1).unwrap_err()));
    assert!(unknown(store.append(1, &[report("open")]).unwrap_err()));
}

#[test]
fn a_value_is_the_last_one_put() {
    let mut store = Store::in_memory().unwrap();
    assert_eq!(store.get("language").unwrap(), None);
    store.put("language", "de").unwrap();
    store.put("language", "en").unwrap();
    assert_eq!(store.get("language").unwrap().as_deref(), Some("en"));
    assert!(store.put("", "x").is_err());
}

#[test]
fn codes_that_are_unknown_are_an_error() {
    let (mut store, vehicle, _) = with_run();
    store.append(vehicle, &[report("open")]).unwrap();
    let set = |store: &Store, sql: &str| {
        store.connection.execute_batch("PRAGMA ignore_check_constraints = ON").unwrap();
        store.connection.execute_batch(sql).unwrap();
    };
    set(&store, "UPDATE fact SET how = 'dreamt'");
    assert!(matches!(store.entries(vehicle), Err(Error::Internal(_))));
    set(&store, "UPDATE fact SET how = 'told'; UPDATE entry SET act = 'tock' WHERE seq = 2");
    assert!(matches!(store.entries(vehicle), Err(Error::Internal(_))));
    set(&store, "UPDATE entry SET act = 'tick' WHERE seq = 2");
    assert!(matches!(store.entries(vehicle), Err(Error::Internal(_))));
    set(&store, "UPDATE entry SET act = 'report' WHERE seq = 2");
    assert_eq!(store.entries(vehicle).unwrap().len(), 2);
}

#[test]
fn two_that_have_it_open_see_what_each_other_says() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("stow.db");
    fill(&path, 1);
    let (mut one, _) = open(&path, &day(0));
    let (mut two, _) = open(&path, &day(0));
    for _ in 0..3 {
        let a = one.append(1, &[report("open")]).unwrap()[0];
        let b = two.append(1, &[report("shut")]).unwrap()[0];
        assert!(a < b);
    }
    assert_eq!(one.entries(1).unwrap(), two.entries(1).unwrap());
    assert_eq!(one.entries(1).unwrap().len(), 8);
}

#[test]
fn no_room_for_the_index_of_the_log_is_a_full_disk_too() {
    let fault = rusqlite::ffi::Error::new(rusqlite::ffi::SQLITE_IOERR_SHMSIZE);
    let error = rusqlite::Error::SqliteFailure(fault, None);
    assert!(matches!(Error::from(error), Error::StorageFull));
}
