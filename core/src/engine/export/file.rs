//! The file: JSON, one line for each setting, vehicle and entry.

use std::io::{self, Write};

use serde::{Deserialize, Serialize};
use serde_json::error::Category;
use serde_json::ser::{Formatter, Serializer};

use super::base64;
use crate::error::{Error, Result};
use crate::photo::{Giver, Photo};
use crate::state::{Entry, Fact, Figure, Finding, NewEntry, Reading};
use crate::store::{Columns, Everything, Kept};

/// Most bytes in a file: ten years of a routine a day, as 300 of 65 steps take 5.5 MB; and still
/// what a small phone holds at once. Common practice, no source.
pub const BYTES_MAX: usize = 64_000_000;

/// The newest format that this program reads, and writes; it reads the older ones too.
const VERSION: u32 = 5;

/// Longest piece of a parser's words that is shown. Unit: characters.
const SAID_MAX: usize = 200;

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct File {
    stowfast_export: u32,
    pub(super) settings: Vec<Setting>,
    pub(super) vehicles: Vec<Van>,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Setting {
    pub(super) key: String,
    pub(super) value: String,
}

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Van {
    pub(super) title: String,
    pub(super) added_utc_ms: i64,
    pub(super) current: bool,
    pub(super) pack: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) good_pack: Option<String>,
    pub(super) log: Vec<Line>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) photos: Vec<Shot>,
}

/// One photo, its picture in base64.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Shot {
    pub(super) fitting: String,
    pub(super) giver: Giver,
    pub(super) added_utc_ms: i64,
    pub(super) image: String,
}

/// One entry, flat as the table has it.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Line {
    pub(super) entry: i64,
    pub(super) utc_ms: i64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) mono_ms: Option<i64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) boot: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) run: Option<i64>,
    pub(super) act: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) step: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) target: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) voids: Option<i64>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub(super) note: String,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) facts: Vec<Fact>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) reading: Option<Reading>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) finding: Option<Finding>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) figure: Option<Figure>,
}

impl From<Everything> for File {
    fn from(all: Everything) -> Self {
        let settings = all.settings.into_iter().map(|(key, value)| Setting { key, value });
        Self {
            stowfast_export: VERSION,
            settings: settings.collect(),
            vehicles: all.vehicles.into_iter().map(Van::from).collect(),
        }
    }
}

impl From<Kept> for Van {
    fn from(Kept { row, log, photos }: Kept) -> Self {
        Self {
            title: row.title,
            added_utc_ms: row.added_utc_ms,
            current: row.current,
            pack: row.pack_toml,
            good_pack: row.good_pack_toml,
            log: log.into_iter().map(Line::from).collect(),
            photos: photos.into_iter().map(Shot::from).collect(),
        }
    }
}

impl From<Photo> for Shot {
    fn from(Photo { fitting, giver, added_utc_ms, image }: Photo) -> Self {
        Self { fitting, giver, added_utc_ms, image: base64::encoded(&image) }
    }
}

impl From<Entry> for Line {
    fn from(Entry { seq, said }: Entry) -> Self {
        let columns = Columns::of(&said.act);
        let (act, voids) = (columns.act.to_owned(), columns.voids);
        let step = columns.step.map(str::to_owned);
        let target = columns.target.map(str::to_owned);
        let (mono_ms, boot) =
            said.at.monotonic.as_ref().map(|clock| (clock.ms, clock.boot.clone())).unzip();
        let NewEntry { at, run, act: _, facts, reading, finding, figure, note } = said;
        let (entry, utc_ms) = (seq, at.utc_ms);
        Self {
            entry,
            utc_ms,
            mono_ms,
            boot,
            run,
            act,
            step,
            target,
            voids,
            note,
            facts,
            reading,
            finding,
            figure,
        }
    }
}

impl File {
    pub(super) fn text(&self) -> Result<String> {
        let mut bytes = Vec::new();
        let fault = |error: String| Error::Internal(format!("export: {error}"));
        self.serialize(&mut Serializer::with_formatter(&mut bytes, Lines::default()))
            .map_err(|error| fault(error.to_string()))?;
        bytes.push(b'\n');
        String::from_utf8(bytes).map_err(|error| fault(error.to_string()))
    }

    /// Reads a file; `name` is shown in errors.
    ///
    /// # Errors
    /// [`Error::Pack`]: too large, of another format or version, or not as the format has it.
    pub(super) fn read(bytes: &[u8], name: &str) -> Result<Self> {
        #[derive(Deserialize)]
        struct Version {
            stowfast_export: u32,
        }
        let wrong = |line, expected: String| Error::Pack { file: name.to_owned(), line, expected };
        if bytes.len() > BYTES_MAX {
            return Err(wrong(0, format!("a file of at most {BYTES_MAX} bytes")));
        }
        // First the version alone: a newer format may differ in all else.
        let foreign = "a file that Stowfast exported (`stowfast_export`)";
        let version: Version = serde_json::from_slice(bytes).map_err(|error| {
            let begun = bytes.trim_ascii_start().first().is_none_or(|first| *first == b'{');
            let ours = begun && error.classify() != Category::Data;
            wrong(error.line(), if ours { said(&error) } else { foreign.to_owned() })
        })?;
        match version.stowfast_export {
            1..=VERSION => {}
            found if found > VERSION => {
                let newer = format!("a newer Stowfast wrote this one: {found}");
                return Err(wrong(0, format!("stowfast_export 1 to {VERSION} ({newer})")));
            }
            found => return Err(wrong(0, format!("stowfast_export 1 to {VERSION} (not {found})"))),
        }
        serde_json::from_slice(bytes).map_err(|error| wrong(error.line(), said(&error)))
    }
}

/// The parser's words, so that they follow "expected".
fn said(error: &serde_json::Error) -> String {
    let message = error.to_string();
    let message = message.rsplit_once(" at line ").map_or(message.as_str(), |(said, _)| said);
    let message: String = message.chars().take(SAID_MAX).collect();
    if error.classify() == Category::Eof {
        return "the rest of the file: it ends too early".to_owned();
    }
    match (message.split_once(", expected "), message.strip_prefix("missing field ")) {
        (Some((found, expected)), _) => format!("{expected} ({found})"),
        (None, Some(field)) => format!("a field {field}"),
        (None, None) => format!("readable JSON ({message})"),
    }
}

/// Puts each value of the two outer lists on a line of its own.
#[derive(Default)]
struct Lines {
    depth: usize,
}

impl Lines {
    /// The lists of settings and vehicles, and each vehicle's log and photos; not what an entry lists.
    const DEPTH: usize = 2;

    fn line<W: ?Sized + Write>(&self, out: &mut W) -> io::Result<()> {
        if self.depth <= Self::DEPTH { out.write_all(b"\n") } else { Ok(()) }
    }
}

impl Formatter for Lines {
    fn begin_array<W: ?Sized + Write>(&mut self, out: &mut W) -> io::Result<()> {
        self.depth = self.depth.saturating_add(1);
        out.write_all(b"[")
    }

    fn begin_array_value<W: ?Sized + Write>(&mut self, out: &mut W, first: bool) -> io::Result<()> {
        if !first {
            out.write_all(b",")?;
        }
        self.line(out)
    }

    fn end_array<W: ?Sized + Write>(&mut self, out: &mut W) -> io::Result<()> {
        self.line(out)?;
        self.depth = self.depth.saturating_sub(1);
        out.write_all(b"]")
    }
}
