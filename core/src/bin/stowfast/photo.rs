//! Photos of fittings: those beside a pack file, and those that are given one by one.

use std::path::{Path, PathBuf};

use stowfast_core::clock::Stamp;
use stowfast_core::engine::Engine;
use stowfast_core::photo::{BYTES_MAX, Giver, cleaned};
use stowfast_core::{Error, Result};

use crate::command::Command;
use crate::show::{self, Out};

/// Most bytes of a file that are read: a picture straight from a camera, to say of it what was expected.
const READ_BYTES_MAX: usize = 50 * BYTES_MAX;

/// What is asked or said of photos.
#[derive(Debug)]
pub(crate) enum Photo {
    /// All of them.
    All,
    /// A fitting gets the one in a file.
    Set(String, PathBuf),
    /// A fitting loses its own.
    Remove(String),
}

/// Answers it.
pub(crate) fn answer(engine: &mut Engine, what: &Photo, out: &Out, now: &Stamp) -> Result<()> {
    match what {
        Photo::All => {}
        Photo::Set(fitting, file) => {
            let bytes = crate::read_file(file, READ_BYTES_MAX)?;
            engine.set_photo(fitting, &bytes, Giver::Pack, now)?;
        }
        Photo::Remove(fitting) => _ = engine.remove_photo(fitting)?,
    }
    out.photos(&engine.photos()?)
}

/// A command of photos, if it is one.
pub(crate) fn command(words: &[&str]) -> Option<Command> {
    Some(Command::Photo(match words {
        ["photos"] => Photo::All,
        ["photo", fitting, file] => Photo::Set((*fitting).to_owned(), PathBuf::from(file)),
        _ => return None,
    }))
}

/// The command, to take away the photo of a fitting: `words` are then only of that.
pub(crate) fn removal(words: &[&str]) -> std::result::Result<Command, lexopt::Error> {
    match words {
        ["photo", fitting] => Ok(Command::Photo(Photo::Remove((*fitting).to_owned()))),
        _ => Err("--remove: goes with `photo FITTING`".into()),
    }
}

/// Takes in the photos that the pack in `file` names and that stand beside it. One that is missing or unfit is
/// told; the pack is as good without.
pub(crate) fn beside(engine: &mut Engine, file: &Path, now: &Stamp) -> Result<()> {
    let folder = file.parent().unwrap_or(Path::new(""));
    let mut taken = Vec::new();
    let lacks = |fitting: &str, name: &str, why: &dyn std::fmt::Display| {
        show::notice(&format!("No photo of {fitting}: {name}: {why}"));
    };
    for (fitting, name) in engine.photos_named()? {
        let bytes = crate::read_file(&folder.join(&name), READ_BYTES_MAX);
        match bytes.and_then(|bytes| cleaned(&bytes)) {
            Ok(image) => taken.push((fitting, image)),
            Err(Error::Io { source, .. }) => lacks(&fitting, &name, &source),
            Err(error) => lacks(&fitting, &name, &error),
        }
    }
    engine.take_pack_photos(&taken, now)
}
