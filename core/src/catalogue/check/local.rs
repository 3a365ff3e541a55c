//! What the rows of countries and carriers must satisfy, and the words they need.

use std::collections::BTreeSet;

use super::{Check, unique};
use crate::catalogue::Catalogue;
use crate::catalogue::local::Row;

pub(super) fn check(rows: &[Row]) -> Check {
    unique("row", rows.iter().map(|row| &row.rule))?;
    match rows.iter().find(|row| row.source.is_empty()) {
        Some(row) => Err(format!("row `{}` needs a source", row.rule)),
        None => Ok(()),
    }
}

pub(super) fn keys(catalogue: &Catalogue) -> BTreeSet<String> {
    let mut keys = BTreeSet::new();
    for (file, rows) in &catalogue.local {
        keys.insert(format!("local.title.{file}"));
        for row in rows {
            keys.insert(format!("local.rule.{}", row.rule));
            keys.insert(format!("local.note.{file}.{}", row.rule));
        }
    }
    keys
}
