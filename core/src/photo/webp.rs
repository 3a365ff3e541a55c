//! WebP: the chunks of a RIFF file.

use super::{Fault, Part, next, size, take};

/// EXIF and XMP are there, as the extended header says it.
const BESIDE: u8 = 0b0000_1100;

/// Whether a file says that it is one.
pub(super) fn is(bytes: &[u8]) -> bool {
    bytes.starts_with(b"RIFF") && bytes.get(8..12) == Some(b"WEBP")
}

/// Keeps all that makes the picture.
pub(super) fn cleaned(bytes: &[u8]) -> Part<Vec<u8>> {
    let mut file = bytes.get(4..).ok_or(Fault::Damaged)?;
    let length = size(u32::from_le_bytes(next::<4>(&mut file)?))?;
    let mut rest = take(&mut file, length)?.get(4..).ok_or(Fault::Damaged)?;
    let mut kept = b"WEBP".to_vec();
    let mut filled = false;
    while !rest.is_empty() {
        let name = next::<4>(&mut rest)?;
        let length = next::<4>(&mut rest)?;
        let count = size(u32::from_le_bytes(length))?;
        let body = take(&mut rest, count)?;
        let pad = take(&mut rest, count % 2)?;
        filled |= matches!(&name, b"VP8 " | b"VP8L" | b"ANMF") && !body.is_empty();
        if matches!(&name, b"EXIF" | b"XMP ") {
            continue;
        }
        kept.extend(name.iter().chain(&length));
        match body.split_first() {
            Some((flags, others)) if name == *b"VP8X" => {
                kept.push(flags & !BESIDE);
                kept.extend(others);
            }
            _ => kept.extend(body),
        }
        kept.extend(pad);
    }
    let length = u32::try_from(kept.len()).map_err(|_| Fault::Damaged)?;
    if !filled {
        return Err(Fault::Damaged);
    }
    Ok([b"RIFF".as_slice(), &length.to_le_bytes(), &kept].concat())
}
