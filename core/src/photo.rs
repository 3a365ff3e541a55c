//! A photo of a fitting: which pictures are taken, and what of them is kept.
//!
//! A picture is known by its bytes, never by the name of its file. Of each only the picture itself is kept: what
//! stands beside it in the file (EXIF with the place and the day, comments, previews) is left out, and so is
//! whatever follows its end. Nothing is decoded: a picture whose frame is whole may still be one that no screen
//! can draw.
//!
//! # Source
//! JPEG: ITU-T T.81, annex B. PNG: W3C Portable Network Graphics, chunks and their CRC. WebP: RFC 9649. The
//! orientation of EXIF: CIPA DC-008, tag 0x0112.

mod jpeg;
mod png;
#[cfg(test)]
mod tests;
mod webp;

use serde::{Deserialize, Serialize};

use crate::error::{Error, Result};

/// Most bytes of one photo: a picture of 1280 by 960 at a usual quality. Common practice, no source.
pub const BYTES_MAX: usize = 400_000;
/// The longer edge to which a larger picture is best made smaller. Unit: px. Common practice, no source.
pub const EDGE_PX: i32 = 1_280;
/// Most photos of one vehicle: one for half the fittings that a pack may have. Common practice, no source.
pub const PHOTOS_MAX: usize = 200;
/// Most bytes of all photos of a database together: as base64 they leave a quarter of an exported file to its logs.
pub const ALL_BYTES_MAX: usize = 36_000_000;

/// Who gave a photo.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Giver {
    /// Whoever made the pack.
    Pack,
    /// The owner.
    Owner,
}

impl Giver {
    /// Its name in the database.
    #[must_use]
    pub fn code(self) -> &'static str {
        match self {
            Self::Pack => "pack",
            Self::Owner => "owner",
        }
    }

    /// The inverse of [`Giver::code`].
    #[must_use]
    pub fn of(code: &str) -> Option<Self> {
        [Self::Pack, Self::Owner].into_iter().find(|giver| giver.code() == code)
    }
}

/// A photo of a fitting, as it is kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Photo {
    /// The fitting's id within the pack.
    pub fitting: String,
    /// Who gave it.
    pub giver: Giver,
    /// When it was given. Unit: ms since 1970-01-01 UTC.
    pub added_utc_ms: i64,
    /// The file, as [`cleaned`] leaves it.
    pub image: Vec<u8>,
}

/// Why a picture is not taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Fault {
    /// It ends too early, or does not hold together.
    Damaged,
    /// It is stored lying down, and EXIF says how to turn it: that is left out.
    Turned,
}

type Part<T> = std::result::Result<T, Fault>;

/// The picture alone, of the bytes of a file; of a picture that was cleaned the same bytes.
///
/// # Errors
/// [`Error::InvalidInput`] for what is no JPEG, PNG or WebP, is damaged, is stored turned, or has more than
/// [`BYTES_MAX`] bytes when all else is left out; it says what was expected.
pub fn cleaned(bytes: &[u8]) -> Result<Vec<u8>> {
    picture(bytes).map_err(|expected| Error::InvalidInput { field: "photo".to_owned(), expected })
}

/// The same, or what was expected.
pub(crate) fn picture(bytes: &[u8]) -> std::result::Result<Vec<u8>, String> {
    let (kind, image) = if bytes.starts_with(&jpeg::MAGIC) {
        ("JPEG", jpeg::cleaned(bytes))
    } else if bytes.starts_with(&png::MAGIC) {
        ("PNG", png::cleaned(bytes))
    } else if webp::is(bytes) {
        ("WebP", webp::cleaned(bytes))
    } else {
        return Err("a JPEG, PNG or WebP picture".to_owned());
    };
    let image = image.map_err(|fault| match fault {
        Fault::Damaged => format!("a whole {kind} picture: this one is damaged or cut off"),
        Fault::Turned => format!(
            "a {kind} picture stored upright: this one is stored turned. Turn it and save it again"
        ),
    })?;
    let size = image.len();
    if size > BYTES_MAX {
        return Err(format!(
            "at most {BYTES_MAX} bytes, not {size}. Save it smaller: {EDGE_PX} pixels across do"
        ));
    }
    Ok(image)
}

/// The first `count` bytes of what is left, which moves on past them.
fn take<'a>(rest: &mut &'a [u8], count: usize) -> Part<&'a [u8]> {
    let (taken, left) = rest.split_at_checked(count).ok_or(Fault::Damaged)?;
    *rest = left;
    Ok(taken)
}

/// The next `N` bytes, likewise.
fn next<const N: usize>(rest: &mut &[u8]) -> Part<[u8; N]> {
    let (taken, left) = rest.split_first_chunk::<N>().ok_or(Fault::Damaged)?;
    *rest = left;
    Ok(*taken)
}

/// A length in a file.
fn size(length: u32) -> Part<usize> {
    usize::try_from(length).map_err(|_| Fault::Damaged)
}
