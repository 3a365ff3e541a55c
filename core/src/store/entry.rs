//! Table `entry`: the log. Rows are added, never changed or removed.

use rusqlite::{Connection, OptionalExtension, Row, params};

use super::{fact, figure, finding, reading};
use crate::clock::{Monotonic, Stamp};
use crate::error::{Error, Result};
use crate::state::{Act, Entry, NewEntry};

/// Reads a vehicle's entries after one sequence number; also tells, when prepared, whether the
/// table has its columns.
pub(super) const SELECT: &str = "
    SELECT seq, run_seq, utc_ms, mono_ms, boot, act, step, target, voids, note
    FROM entry WHERE vehicle_id = ?1 AND seq > ?2 ORDER BY seq";

/// Writes one entry with its facts and gives its sequence number.
pub(super) fn insert(connection: &Connection, vehicle: i64, said: &NewEntry) -> Result<i64> {
    insert_as(connection, vehicle, None, said)
}

/// The same under the number `seq`, which must be above all others; the next one if `None`.
pub(super) fn insert_as(
    connection: &Connection,
    vehicle: i64,
    seq: Option<i64>,
    said: &NewEntry,
) -> Result<i64> {
    let columns = Columns::of(&said.act);
    if let Some(run) = said.run {
        require(connection, "run", vehicle, run, Some("open"))?;
    }
    if let Some(voided) = columns.voids {
        require(connection, "entry", vehicle, voided, None)?;
    }
    let monotonic = said.at.monotonic.as_ref();
    connection
        .prepare_cached(
            "INSERT INTO entry (vehicle_id, run_seq, utc_ms, mono_ms, boot,
                                act, step, target, voids, note, seq)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)",
        )?
        .execute(params![
            vehicle,
            said.run,
            said.at.utc_ms,
            monotonic.map(|clock| clock.ms),
            monotonic.map(|clock| clock.boot.as_str()),
            columns.act,
            columns.step,
            columns.target,
            columns.voids,
            said.note,
            seq,
        ])?;
    let seq = connection.last_insert_rowid();
    fact::insert(connection, seq, &said.facts)?;
    said.reading.iter().try_for_each(|one| reading::insert(connection, seq, one))?;
    said.finding.iter().try_for_each(|one| finding::insert(connection, seq, one))?;
    said.figure.iter().try_for_each(|one| figure::insert(connection, seq, one))?;
    Ok(seq)
}

/// The highest number that an entry of any vehicle has; 0 where there is none.
pub(super) fn newest(connection: &Connection) -> Result<i64> {
    let mut statement = connection.prepare_cached("SELECT coalesce(max(seq), 0) FROM entry")?;
    Ok(statement.query_row([], |row| row.get(0))?)
}

/// A vehicle's entries after `seq` with their facts, readings, findings and figures, by sequence number.
pub(super) fn read_since(connection: &Connection, vehicle: i64, seq: i64) -> Result<Vec<Entry>> {
    let mut facts = fact::read_since(connection, vehicle, seq)?.into_iter().peekable();
    let mut readings = reading::read_since(connection, vehicle, seq)?.into_iter().peekable();
    let mut findings = finding::read_since(connection, vehicle, seq)?.into_iter().peekable();
    let mut figures = figure::read_since(connection, vehicle, seq)?.into_iter().peekable();
    let mut statement = connection.prepare_cached(SELECT)?;
    let mut rows = statement.query([vehicle, seq])?;
    let mut entries = Vec::new();
    while let Some(row) = rows.next()? {
        let mut entry = read(row)?;
        while let Some((_, fact)) = facts.next_if(|(entry_seq, _)| *entry_seq == entry.seq) {
            entry.said.facts.push(fact);
        }
        let own = readings.next_if(|(entry_seq, _)| *entry_seq == entry.seq);
        entry.said.reading = own.map(|(_, reading)| reading);
        let own = findings.next_if(|(entry_seq, _)| *entry_seq == entry.seq);
        entry.said.finding = own.map(|(_, finding)| finding);
        let own = figures.next_if(|(entry_seq, _)| *entry_seq == entry.seq);
        entry.said.figure = own.map(|(_, figure)| figure);
        entries.push(entry);
    }
    Ok(entries)
}

/// One row, as yet without its facts, reading, finding and figure.
fn read(row: &Row<'_>) -> Result<Entry> {
    let seq: i64 = row.get(0)?;
    let (ms, boot) = (row.get::<_, Option<i64>>(3)?, row.get::<_, Option<String>>(4)?);
    let monotonic = ms.zip(boot).map(|(ms, boot)| Monotonic { ms, boot });
    let code: String = row.get(5)?;
    let act = act_of(&code, row.get(6)?, row.get(7)?, row.get(8)?)
        .ok_or_else(|| Error::Internal(format!("entry {seq}: no act {code:?} as it stands")))?;
    let said = NewEntry {
        at: Stamp { utc_ms: row.get(2)?, monotonic },
        run: row.get(1)?,
        act,
        facts: Vec::new(),
        reading: None,
        finding: None,
        figure: None,
        note: row.get(9)?,
    };
    Ok(Entry { seq, said })
}

/// Fails with [`Error::NotFound`] unless the vehicle's log has entry `seq`, doing `act` if given.
fn require(
    connection: &Connection,
    kind: &'static str,
    vehicle: i64,
    seq: i64,
    act: Option<&str>,
) -> Result<()> {
    connection
        .prepare_cached(
            "SELECT 1 FROM entry WHERE vehicle_id = ?1 AND seq = ?2 AND act = coalesce(?3, act)",
        )?
        .query_row(params![vehicle, seq, act], |_| Ok(()))
        .optional()?
        .ok_or_else(|| Error::NotFound { kind, id: seq.to_string() })
}

/// An [`Act`] as its columns.
#[derive(Default)]
pub(crate) struct Columns<'a> {
    pub(crate) act: &'static str,
    pub(crate) step: Option<&'a str>,
    pub(crate) target: Option<&'a str>,
    pub(crate) voids: Option<i64>,
}

impl<'a> Columns<'a> {
    pub(crate) fn of(act: &'a Act) -> Self {
        let bare = |act| Self { act, ..Self::default() };
        let with_step = |act, step| Self { act, step: Some(step), ..Self::default() };
        match act {
            Act::Report => bare("report"),
            Act::Tick { step } => with_step("tick", step),
            Act::Look { step } => with_step("look", step),
            Act::Void { entry } => Self { voids: Some(*entry), ..bare("void") },
            Act::Cannot { step } => with_step("cannot", step),
            Act::LeftAnyway { step } => with_step("left_anyway", step),
            Act::Open { target } => Self { target: Some(target), ..bare("open") },
            Act::Pause => bare("pause"),
            Act::Resume => bare("resume"),
            Act::Close => bare("close"),
            Act::Note => bare("note"),
        }
    }
}

/// The inverse of [`Columns::of`]; `None` for columns that it never writes.
pub(crate) fn act_of(
    code: &str,
    step: Option<String>,
    target: Option<String>,
    voids: Option<i64>,
) -> Option<Act> {
    Some(match (code, step, target, voids) {
        ("report", None, None, None) => Act::Report,
        ("tick", Some(step), None, None) => Act::Tick { step },
        ("look", Some(step), None, None) => Act::Look { step },
        ("void", None, None, Some(entry)) => Act::Void { entry },
        ("cannot", Some(step), None, None) => Act::Cannot { step },
        ("left_anyway", Some(step), None, None) => Act::LeftAnyway { step },
        ("open", None, Some(target), None) => Act::Open { target },
        ("pause", None, None, None) => Act::Pause,
        ("resume", None, None, None) => Act::Resume,
        ("close", None, None, None) => Act::Close,
        ("note", None, None, None) => Act::Note,
        _ => return None,
    })
}
