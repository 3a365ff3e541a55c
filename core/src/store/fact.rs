//! Table `fact`: what an entry says about the vehicle, in the order in which it was said.

use rusqlite::{Connection, params};

use crate::error::{Error, Result};
use crate::state::{Fact, How};

/// Reads the facts of a vehicle's entries after one sequence number; also tells, when prepared,
/// whether the table has its columns.
pub(super) const SELECT: &str = "
    SELECT fact.entry_seq, fact.variable, fact.settings, fact.how
    FROM fact JOIN entry ON entry.seq = fact.entry_seq
    WHERE entry.vehicle_id = ?1 AND entry.seq > ?2
    ORDER BY fact.entry_seq, fact.position";

/// Writes the facts of one entry.
pub(super) fn insert(connection: &Connection, entry_seq: i64, facts: &[Fact]) -> Result<()> {
    let mut statement = connection.prepare_cached(
        "INSERT INTO fact (entry_seq, position, variable, settings, how)
         VALUES (?1, ?2, ?3, ?4, ?5)",
    )?;
    for (position, fact) in (0_i64..).zip(facts) {
        let settings = join(fact)?;
        statement.execute(params![
            entry_seq,
            position,
            fact.variable,
            settings,
            code_of(fact.how)
        ])?;
    }
    Ok(())
}

/// The facts of a vehicle's entries after `seq`, each with the entry that it belongs to, by
/// sequence number and position.
pub(super) fn read_since(
    connection: &Connection,
    vehicle: i64,
    seq: i64,
) -> Result<Vec<(i64, Fact)>> {
    let mut statement = connection.prepare_cached(SELECT)?;
    let mut rows = statement.query([vehicle, seq])?;
    let mut facts = Vec::new();
    while let Some(row) = rows.next()? {
        let entry_seq = row.get(0)?;
        let settings: String = row.get(2)?;
        let code: String = row.get(3)?;
        let how = how_of(&code).ok_or_else(|| {
            Error::Internal(format!("entry {entry_seq}: no way to know {code:?}"))
        })?;
        let settings = settings.split(',').map(str::to_owned).collect();
        facts.push((entry_seq, Fact { variable: row.get(1)?, settings, how }));
    }
    Ok(facts)
}

/// The settings in one column. Catalogue codes hold no comma; checked, because a setting that
/// did would come back as two.
fn join(fact: &Fact) -> Result<String> {
    let unfit = |setting: &String| setting.is_empty() || setting.contains(',');
    if fact.settings.is_empty() || fact.settings.iter().any(unfit) {
        return Err(Error::InvalidInput {
            field: fact.variable.clone(),
            expected: "one or more settings, none empty or with a comma".into(),
        });
    }
    Ok(fact.settings.join(","))
}

fn code_of(how: How) -> &'static str {
    match how {
        How::Done => "done",
        How::Looked => "looked",
        How::Told => "told",
        How::Reading => "reading",
        How::Settled => "settled",
        How::Assumed => "assumed",
    }
}

fn how_of(code: &str) -> Option<How> {
    Some(match code {
        "done" => How::Done,
        "looked" => How::Looked,
        "told" => How::Told,
        "reading" => How::Reading,
        "settled" => How::Settled,
        "assumed" => How::Assumed,
        _ => return None,
    })
}
