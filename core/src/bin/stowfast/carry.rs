//! Everything into one file, and from one.

use std::fs::{self, File};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use stowfast_core::clock::Stamp;
use stowfast_core::engine::{EXPORT_BYTES_MAX, Engine};
use stowfast_core::{Error, Result};

use crate::show::Out;

/// Writes everything to `file`, which must not be there unless `overwrite`.
pub(crate) fn export(engine: &Engine, file: &Path, overwrite: bool, out: &Out) -> Result<()> {
    if file.is_dir() {
        return Err(Error::Io { path: file.to_owned(), source: ErrorKind::IsADirectory.into() });
    }
    if !overwrite && fs::symlink_metadata(file).is_ok() {
        let there = format!("{} is there already; --overwrite writes over it", file.display());
        return Err(Error::Conflict { detail: there });
    }
    let text = engine.export_text()?;
    replace(file, text.as_bytes()).map_err(|source| Error::Io { path: file.to_owned(), source })?;
    out.exported(file, engine.vehicles()?.len(), text.len())
}

/// Gives `file` its content in one go: whoever reads it finds all of the old or all of the new.
fn replace(file: &Path, content: &[u8]) -> io::Result<()> {
    let mut part = file.as_os_str().to_owned();
    part.push(".stowfast-part");
    let part = PathBuf::from(part);
    let written = File::create(&part).and_then(|mut open| {
        open.write_all(content)?;
        open.sync_all()?;
        fs::rename(&part, file)
    });
    if written.is_err() {
        // Half a file is of no use; that it cannot be removed matters less than why.
        let _ = fs::remove_file(&part);
    }
    written
}

/// Adds what a file holds to the database.
pub(crate) fn import(engine: &mut Engine, file: &Path, now: &Stamp, out: &Out) -> Result<()> {
    let bytes = crate::read_file(file, EXPORT_BYTES_MAX)?;
    let changes = engine.import(&bytes, &file.display().to_string(), now)?;
    out.imported(&changes)
}
