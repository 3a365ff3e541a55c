//! Bytes as text: base64 of RFC 4648, section 4, padded, with nothing between.

const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
const PAD: u8 = b'=';

pub(super) fn encoded(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len().div_ceil(3).saturating_mul(4));
    for three in bytes.chunks(3) {
        let bits = three.iter().fold(0, |bits, byte| (bits << 8) | u32::from(*byte));
        let missing = 3_usize.saturating_sub(three.len());
        let bits = (0..missing).fold(bits, |bits, _| bits << 8);
        let four = [bits >> 18, bits >> 12, bits >> 6, bits].map(letter);
        text.extend(four.into_iter().take(three.len().saturating_add(1)));
        text.extend(std::iter::repeat_n(char::from(PAD), missing));
    }
    text
}

/// The letter of the last six bits.
fn letter(bits: u32) -> char {
    let place = usize::try_from(bits & 63).unwrap_or_default();
    char::from(LETTERS.get(place).copied().unwrap_or(PAD))
}

/// The inverse of [`letter`].
fn value(letter: u8) -> Option<u32> {
    let (first, at) = match letter {
        b'A'..=b'Z' => (b'A', 0),
        b'a'..=b'z' => (b'a', 26),
        b'0'..=b'9' => (b'0', 52),
        b'+' => (b'+', 62),
        b'/' => (b'/', 63),
        _ => return None,
    };
    Some(u32::from(letter.saturating_sub(first)).saturating_add(at))
}

/// The bytes of a text; `None` where it is anything but what [`encoded`] writes.
pub(super) fn decoded(text: &str) -> Option<Vec<u8>> {
    let mut bytes = Vec::with_capacity(text.len().div_ceil(4).saturating_mul(3));
    for four in text.as_bytes().chunks(4) {
        let padding = four.iter().rev().take_while(|letter| **letter == PAD).count();
        let mut bits = 0_u32;
        for letter in four.iter().take(4_usize.checked_sub(padding)?) {
            bits = (bits << 6) | value(*letter)?;
        }
        let bits = (0..padding).fold(bits, |bits, _| bits << 6);
        let [_, three @ ..] = bits.to_be_bytes();
        bytes.extend(three.iter().take(3_usize.checked_sub(padding)?));
    }
    // One text alone stands for each bytes: no padding within, no bits beyond.
    (encoded(&bytes) == text).then_some(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_vectors_of_rfc_4648() {
        let vectors = ["", "Zg==", "Zm8=", "Zm9v", "Zm9vYg==", "Zm9vYmE=", "Zm9vYmFy"];
        for (count, text) in vectors.into_iter().enumerate() {
            let bytes = &b"foobar"[..count];
            assert_eq!(encoded(bytes), text);
            assert_eq!(decoded(text).as_deref(), Some(bytes));
        }
        let all: Vec<u8> = (0..=255).collect();
        assert_eq!(decoded(&encoded(&all)), Some(all));
    }

    #[test]
    fn what_is_damaged_is_not_read() {
        for text in ["Z", "Zg", "Zg=", "Zh==", "Zg==Zg==", "Zm9v\n", "Zm 9", "====", "Zm9-", "é"] {
            assert_eq!(decoded(text), None, "{text:?}");
        }
    }
}
