//! The command as an owner calls it.

use std::os::unix::process::CommandExt;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The command, found by its name, with its data in `folder`.
pub(crate) fn stowfast(folder: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_stowfast"));
    command.arg0("stowfast").env("XDG_DATA_HOME", folder).env("NO_COLOR", "1");
    command
}

/// Where its database stands then.
#[allow(dead_code, reason = "not every test looks into it")]
pub(crate) fn database(folder: &Path) -> PathBuf {
    folder.join("stowfast/stowfast.db")
}

/// Holds what was found to a file of `tests/golden/`; `UPDATE_GOLDEN=1` writes it anew.
#[allow(dead_code, reason = "not every test has such files")]
pub(crate) fn golden(name: &str, found: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/golden").join(name);
    if std::env::var_os("UPDATE_GOLDEN").is_some() {
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, found).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(kept == found, "{name} differs; found:\n{found}");
}
