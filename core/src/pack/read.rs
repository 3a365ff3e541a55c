//! From bytes to a checked pack, or to the line that is wrong and what was expected there.

use serde::de::DeserializeOwned;

use super::{BYTES_MAX, Pack, check};
use crate::catalogue::Catalogue;
use crate::error::{Error, Result};
use crate::near::{did_you_mean, nearest};

/// Where a fault is and what was expected, before the file's name is known.
pub(super) struct Fault {
    /// Byte offset within the file; `None` where the fault has no place.
    pub(super) at: Option<usize>,
    /// What should have stood there.
    pub(super) expected: String,
    /// Byte offset of what it clashes with.
    pub(super) other: Option<usize>,
}

impl Fault {
    pub(super) fn at<T>(spanned: &toml::Spanned<T>, expected: impl Into<String>) -> Self {
        Self { at: Some(spanned.span().start), ..Self::nowhere(expected) }
    }

    pub(super) fn nowhere(expected: impl Into<String>) -> Self {
        Self { at: None, expected: expected.into(), other: None }
    }

    /// In the file that it was found in.
    fn told(self, report: impl Fn(usize, String) -> Error, bytes: &[u8]) -> Error {
        let expected = match self.other.map(|at| line_of(bytes, at)) {
            Some(line) => format!("{} (the other stands on line {line})", self.expected),
            None => self.expected,
        };
        report(self.at.map_or(0, |at| line_of(bytes, at)), expected)
    }
}

/// Reads a pack and checks it against the catalogue. `file` is the name shown in errors.
///
/// # Errors
/// [`Error::Pack`] with file, line and what was expected: not text, too large, TOML that does not
/// parse, an unknown key, a wrong unit, an impossible number, a missing, doubled or dangling id.
pub fn read(file: &str, bytes: &[u8], catalogue: &Catalogue) -> Result<Pack> {
    checked(file, bytes, |pack| check::pack(pack, catalogue))
}

/// Reads a file of an owner and holds it to `check`.
pub(super) fn checked<T: DeserializeOwned>(
    file: &str,
    bytes: &[u8],
    check: impl FnOnce(&T) -> std::result::Result<(), Fault>,
) -> Result<T> {
    let report =
        |line: usize, expected: String| Error::Pack { file: file.to_owned(), line, expected };
    if bytes.len() > BYTES_MAX {
        return Err(report(0, format!("a pack of at most {BYTES_MAX} bytes")));
    }
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let good = bytes.get(..error.valid_up_to()).unwrap_or_default();
        report(line_of(good, good.len()), "a TOML file, as UTF-8 text".to_owned())
    })?;
    let read: T = toml::from_str(text).map_err(|error| {
        let at = error.span().map_or(0, |span| span.start);
        report(line_of(bytes, at), said(error.message()))
    })?;
    check(&read).map_err(|fault| fault.told(report, bytes))?;
    Ok(read)
}

/// The 1-based line of a byte offset.
fn line_of(bytes: &[u8], at: usize) -> usize {
    let before = bytes.get(..at.min(bytes.len())).unwrap_or_default();
    before.split(|byte| *byte == b'\n').count()
}

/// The parser's words, so that they follow "expected".
fn said(message: &str) -> String {
    match (message.split_once(", expected "), message.trim_end().strip_prefix("missing field ")) {
        (Some((found, expected)), _) => {
            let quoted = found.starts_with("invalid type: string");
            let bare = if quoted { ", without quotes" } else { "" };
            format!("{}{bare} ({found}){}", plain(expected), meant(found, expected))
        }
        (None, Some(field)) => format!("{field}, which is missing"),
        (None, None) => format!("readable TOML ({})", message.trim_end().replace('\n', "; ")),
    }
}

/// What whoever writes a file calls a sort of value.
fn plain(sort: &str) -> &str {
    match sort {
        "f64" => "a number",
        "u8" | "u16" | "u32" | "u64" | "usize" => "a whole number from 0",
        "i32" | "i64" => "a whole number",
        "a boolean" => "true or false",
        "a string" => "words in quotes",
        "a sequence" => "a list in [ ]",
        "a map" => "a table",
        other if other.starts_with("struct ") => "a table",
        other => other,
    }
}

/// Which of the fields that there are may be meant by one that there is not.
fn meant(found: &str, expected: &str) -> String {
    let Some(field) = found.strip_prefix("unknown field `") else { return String::new() };
    let known = expected.split('`').skip(1).step_by(2).map(str::to_owned);
    let meant = did_you_mean(&nearest(field.trim_end_matches('`'), known));
    if meant.is_empty() { meant } else { format!(".{meant}") }
}
