use std::path::PathBuf;

use super::EngineError;
use stowfast_core::Error;

#[test]
fn a_broken_pack_keeps_its_line() {
    let error = Error::Pack { file: "van.toml".into(), line: 7, expected: "a zone".into() };
    assert_eq!(
        EngineError::from(error),
        EngineError::BrokenPack { file: "van.toml".into(), line: 7, expected: "a zone".into() }
    );
}

#[test]
fn a_damaged_file_says_where_it_is_kept() {
    let error = Error::StorageDamaged { kept: PathBuf::from("damaged/1") };
    assert_eq!(
        EngineError::from(error),
        EngineError::StorageDamaged { kept_path: "damaged/1".into() }
    );
}

#[test]
fn what_no_screen_can_act_on_is_internal() {
    for error in [
        Error::Internal("x".into()),
        Error::Catalogue { file: "k.toml".into(), detail: "x".into() },
        Error::Io { path: PathBuf::from("a"), source: std::io::Error::other("x") },
    ] {
        assert!(matches!(EngineError::from(error), EngineError::Internal { .. }));
    }
}
