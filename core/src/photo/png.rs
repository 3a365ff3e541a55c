//! PNG: its chunks, each with its check sum.

use super::{Fault, Part, next, size, take};

pub(super) const MAGIC: [u8; 8] = *b"\x89PNG\r\n\x1a\n";

/// What is said beside the picture: words, the time, and EXIF.
const BESIDE: [&[u8; 4]; 5] = [b"tEXt", b"zTXt", b"iTXt", b"tIME", b"eXIf"];

/// Keeps all that makes the picture.
pub(super) fn cleaned(bytes: &[u8]) -> Part<Vec<u8>> {
    let mut kept = MAGIC.to_vec();
    let mut rest = bytes.get(MAGIC.len()..).ok_or(Fault::Damaged)?;
    let (mut headed, mut filled) = (false, false);
    loop {
        let length = next::<4>(&mut rest)?;
        let count = size(u32::from_be_bytes(length))?;
        let name = next::<4>(&mut rest)?;
        let body = take(&mut rest, count)?;
        let sum = next::<4>(&mut rest)?;
        if check_sum(name.iter().chain(body)) != u32::from_be_bytes(sum)
            || (name == *b"IHDR") == headed
        {
            return Err(Fault::Damaged);
        }
        headed |= has_size(body);
        filled |= name == *b"IDAT";
        if !BESIDE.contains(&&name) {
            kept.extend(length.iter().chain(&name).chain(body).chain(&sum));
        }
        if name == *b"IEND" {
            return if headed && filled { Ok(kept) } else { Err(Fault::Damaged) };
        }
        if !headed {
            return Err(Fault::Damaged);
        }
    }
}

/// A header names width and height.
fn has_size(mut header: &[u8]) -> bool {
    let sides = [next::<4>(&mut header), next::<4>(&mut header)];
    header.len() == 5 && sides.into_iter().all(|side| side.is_ok_and(|side| side != [0; 4]))
}

/// CRC-32 of a chunk's name and body.
pub(super) fn check_sum<'a>(bytes: impl Iterator<Item = &'a u8>) -> u32 {
    !bytes.fold(u32::MAX, |sum, byte| {
        (0..8).fold(sum ^ u32::from(*byte), |sum, _| {
            (sum >> 1) ^ (0xedb8_8320 & (sum & 1).wrapping_neg())
        })
    })
}
