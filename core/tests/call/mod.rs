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
