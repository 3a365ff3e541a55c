//! Pictures made here, byte by byte; none shows anything.

use miniz_oxide::deflate::compress_to_vec_zlib;

use super::*;

/// A segment of a JPEG.
fn segment(marker: u8, body: &[u8]) -> Vec<u8> {
    let length = u16::try_from(body.len() + 2).unwrap().to_be_bytes();
    [&[0xff, marker], &length[..], body].concat()
}

/// EXIF that says which way up, in a place made up.
fn exif(way: u16) -> Vec<u8> {
    let mut body = b"Exif\0\0MM\0\x2a\0\0\0\x08\0\x02".to_vec();
    body.extend(b"\x01\x12\0\x03\0\0\0\x01");
    body.extend([&way.to_be_bytes()[..], &[0, 0]].concat());
    body.extend(b"\x88\x25\0\x04\0\0\0\x01 PLACE, 48 N 2 E");
    segment(0xe1, &body)
}

fn jpeg(beside: &[Vec<u8>]) -> Vec<u8> {
    let frame = segment(0xc2, &[8, 0, 1, 0, 1, 1, 1, 0x11, 0]);
    let scan = [segment(SCAN, &[1, 1, 0, 0, 63, 0]), vec![7, 0xff, 0, 9, 0xff, 0xd3, 5]].concat();
    let tables = segment(0xdb, &[0; 65]);
    let all = [
        vec![0xff, 0xd8],
        segment(0xe0, b"JFIF\0rest"),
        beside.concat(),
        tables,
        frame,
        scan.clone(),
        segment(0xc4, &[0xff, 0xd9]),
        scan,
        vec![0xff, 0xd9],
    ];
    all.concat()
}

const SCAN: u8 = 0xda;

fn chunk(name: [u8; 4], body: &[u8]) -> Vec<u8> {
    let length = u32::try_from(body.len()).unwrap().to_be_bytes();
    let sum = png::check_sum(name.iter().chain(body)).to_be_bytes();
    [&length[..], &name, body, &sum].concat()
}

fn png(beside: &[Vec<u8>]) -> Vec<u8> {
    let header = chunk(*b"IHDR", &[0, 0, 0, 1, 0, 0, 0, 1, 8, 0, 0, 0, 0]);
    let body = chunk(*b"IDAT", &compress_to_vec_zlib(&[0, 128], 6));
    [png::MAGIC.to_vec(), header, beside.concat(), body, chunk(*b"IEND", &[])].concat()
}

fn webp(beside: bool) -> Vec<u8> {
    let part = |name: &[u8; 4], body: &[u8]| {
        let length = u32::try_from(body.len()).unwrap().to_le_bytes();
        [&name[..], &length, body, &vec![0; body.len() % 2]].concat()
    };
    let mut parts = b"WEBP".to_vec();
    parts.extend(part(b"VP8X", &[if beside { 0x1c } else { 0x10 }, 0, 0, 0, 0, 0, 0, 0, 0, 0]));
    parts.extend(part(b"VP8L", b"\x2f\0\0\0\x10\x07\x10\x11\x11\x88\x88\xfe\x07"));
    if beside {
        parts.extend(part(b"EXIF", b"MM PLACE"));
        parts.extend(part(b"XMP ", b"<PLACE/>"));
    }
    let length = u32::try_from(parts.len()).unwrap().to_le_bytes();
    [b"RIFF", &length[..], &parts].concat()
}

fn refused(bytes: &[u8]) -> String {
    match cleaned(bytes).unwrap_err() {
        Error::InvalidInput { field, expected } if field == "photo" => expected,
        other => panic!("{other}"),
    }
}

#[test]
fn only_the_picture_is_kept_and_no_place() {
    let note = segment(0xfe, b"a PLACE");
    let preview = segment(0xe2, b"MPF\0PLACE");
    let text = chunk(*b"tEXt", b"Comment\0PLACE");
    let pairs = [
        (jpeg(&[exif(1), note, preview]), jpeg(&[])),
        ([jpeg(&[]), b"PLACE after its end".to_vec()].concat(), jpeg(&[])),
        (png(&[text, chunk(*b"eXIf", b"PLACE")]), png(&[])),
        ([png(&[]), b"PLACE".to_vec()].concat(), png(&[])),
        (webp(true), webp(false)),
    ];
    for (given, kept) in pairs {
        let found = cleaned(&given).unwrap();
        assert!(found == kept && !found.windows(5).any(|part| part == b"PLACE"), "{given:02x?}");
        assert_eq!(cleaned(&found).unwrap(), found, "what is clean stays as it is");
    }
    let colours = segment(0xe2, b"ICC_PROFILE\0how colours are meant");
    let adobe = segment(0xee, b"Adobe\0d");
    let needed = jpeg(&[colours, adobe]);
    assert_eq!(cleaned(&needed).unwrap(), needed);
}

#[test]
fn what_is_cut_off_anywhere_is_refused() {
    for whole in [jpeg(&[exif(1)]), png(&[]), webp(true)] {
        for length in 0..whole.len() {
            let expected = refused(&whole[..length]);
            assert!(expected.contains("picture"), "{length}: {expected}");
        }
    }
}

#[test]
fn a_changed_byte_never_breaks_off_and_in_a_png_is_always_seen() {
    for whole in [jpeg(&[exif(1)]), png(&[]), webp(true)] {
        for at in 0..whole.len() {
            for bit in 0..8 {
                let mut damaged = whole.clone();
                damaged[at] ^= 1 << bit;
                let kept = cleaned(&damaged);
                assert!(kept.is_err() || !whole.starts_with(&png::MAGIC), "byte {at}");
            }
        }
    }
}

#[test]
fn what_a_file_is_its_bytes_say() {
    assert_eq!(refused(b"GIF89a, or whatever"), "a JPEG, PNG or WebP picture");
    assert_eq!(refused(b""), "a JPEG, PNG or WebP picture");
    assert_eq!(refused(b"RIFF\x10\0\0\0WAVEfmt "), "a JPEG, PNG or WebP picture");
    let empty = [png::MAGIC.to_vec(), chunk(*b"IEND", &[])].concat();
    assert!(refused(&empty).starts_with("a whole PNG picture"), "{}", refused(&empty));
    assert!(refused(b"\xff\xd8\xff\xd9").starts_with("a whole JPEG picture"));
}

#[test]
fn a_picture_that_is_stored_turned_is_refused_as_its_exif_is_not_kept() {
    assert!(refused(&jpeg(&[exif(6)])).contains("stored upright"));
    cleaned(&jpeg(&[exif(1)])).unwrap();
}

#[test]
fn a_picture_may_have_400_kb_and_not_a_byte_more_beside_what_is_left_out() {
    let spare = BYTES_MAX - png(&[]).len() - 12;
    let of = |size: usize| png(&[chunk(*b"puRe", &vec![0; size])]);
    assert_eq!(cleaned(&of(spare)).unwrap().len(), BYTES_MAX);
    assert_eq!(
        refused(&of(spare + 1)),
        "at most 400000 bytes, not 400001. Save it smaller: 1280 pixels across do"
    );
    let wordy = png(&[chunk(*b"tEXt", &vec![b'x'; BYTES_MAX])]);
    assert_eq!(cleaned(&wordy).unwrap(), png(&[]));
}
