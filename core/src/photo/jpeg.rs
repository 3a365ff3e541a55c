//! JPEG: its marker segments, and the scans between them.

use super::{Fault, Part, next, take};

/// How every file begins: start of image, and the first byte of the next marker.
pub(super) const MAGIC: [u8; 3] = [0xff, START, 0xff];

const START: u8 = 0xd8;
const END: u8 = 0xd9;
const SCAN: u8 = 0xda;
const COMMENT: u8 = 0xfe;
const EXIF: &[u8] = b"Exif\0\0";
const ORIENTATION: u16 = 0x0112;

/// Keeps the frames, tables and scans, and of the application segments those that a decoder needs.
pub(super) fn cleaned(bytes: &[u8]) -> Part<Vec<u8>> {
    let mut kept = vec![0xff, START];
    let mut rest = bytes.get(2..).ok_or(Fault::Damaged)?;
    let (mut framed, mut scanned) = (false, false);
    loop {
        let marker = marker(&mut rest)?;
        if marker == END {
            kept.extend([0xff, END]);
            return if framed && scanned { Ok(kept) } else { Err(Fault::Damaged) };
        }
        let length = next::<2>(&mut rest)?;
        let count = usize::from(u16::from_be_bytes(length)).checked_sub(2).ok_or(Fault::Damaged)?;
        let body = take(&mut rest, count)?;
        framed |= is_frame(marker) && has_size(body)?;
        if marker == 0xe1
            && body.strip_prefix(EXIF).and_then(orientation).is_some_and(|way| way > 1)
        {
            return Err(Fault::Turned);
        }
        if is_needed(marker, body) {
            kept.extend([0xff, marker]);
            kept.extend(length);
            kept.extend(body);
        }
        if marker == SCAN {
            scanned = framed;
            let count = scan(rest);
            kept.extend(take(&mut rest, count)?);
        }
    }
}

/// The next marker, past the bytes that may fill up before it.
fn marker(rest: &mut &[u8]) -> Part<u8> {
    let [0xff] = next::<1>(rest)? else { return Err(Fault::Damaged) };
    loop {
        match next::<1>(rest)? {
            [0xff] => {}
            // What stands alone, inside a scan or at its start only.
            [0x00 | 0x01 | 0xd0..=0xd8] => return Err(Fault::Damaged),
            [marker] => return Ok(marker),
        }
    }
}

/// How many bytes a scan takes: up to a marker that neither stands for a byte of its own nor restarts it.
fn scan(rest: &[u8]) -> usize {
    let ends = |pair: &[u8]| matches!(pair, [0xff, marker] if !matches!(marker, 0x00 | 0xd0..=0xd7 | 0xff));
    rest.windows(2).position(ends).unwrap_or(rest.len())
}

fn is_frame(marker: u8) -> bool {
    matches!(marker, 0xc0..=0xcf) && !matches!(marker, 0xc4 | 0xc8 | 0xcc)
}

/// A frame names its height and width.
fn has_size(body: &[u8]) -> Part<bool> {
    match body {
        [_, high, low, wide, narrow, ..]
            if [*high, *low] != [0; 2] && [*wide, *narrow] != [0; 2] =>
        {
            Ok(true)
        }
        _ => Err(Fault::Damaged),
    }
}

/// Whether a decoder needs a segment: tables and frames, and how colours are meant.
fn is_needed(marker: u8, body: &[u8]) -> bool {
    match marker {
        0xe0 => body.starts_with(b"JFIF\0"),
        0xe2 => body.starts_with(b"ICC_PROFILE\0"),
        0xee => body.starts_with(b"Adobe"),
        0xe1..=0xef | COMMENT => false,
        _ => true,
    }
}

/// Which way up EXIF says the picture is: 1 is upright.
fn orientation(tiff: &[u8]) -> Option<u16> {
    let little = tiff.starts_with(b"II");
    let two = |at: usize| {
        let (pair, _) = tiff.get(at..)?.split_first_chunk::<2>()?;
        Some(if little { u16::from_le_bytes(*pair) } else { u16::from_be_bytes(*pair) })
    };
    let (word, _) = tiff.get(4..)?.split_first_chunk::<4>()?;
    let start = if little { u32::from_le_bytes(*word) } else { u32::from_be_bytes(*word) };
    let start = usize::try_from(start).ok()?;
    let entry =
        |number: u16| start.checked_add(usize::from(number).checked_mul(12)?)?.checked_add(2);
    let found = (0..two(start)?).map_while(entry).find(|at| two(*at) == Some(ORIENTATION))?;
    two(found.checked_add(8)?)
}
