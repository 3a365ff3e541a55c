//! The command as an owner calls it.

use std::os::unix::process::CommandExt;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// The command, found by its name, with its data in `folder`.
pub(crate) fn stowfast(folder: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_stowfast"));
    command.arg0("stowfast").env("XDG_DATA_HOME", folder).env("NO_COLOR", "1");
    command
}

/// A database of its own with one of the invented vehicles, always at the same morning.
#[allow(dead_code, reason = "not every test has a vehicle all along")]
pub(crate) struct Place {
    pub(crate) folder: tempfile::TempDir,
}

#[allow(dead_code, reason = "not every test has a vehicle all along")]
impl Place {
    pub(crate) fn new(vehicle: &str) -> Self {
        let place = Self { folder: tempfile::tempdir().unwrap() };
        place.says(&["demo", vehicle]);
        place
    }

    pub(crate) fn run(&self, args: &[&str]) -> Output {
        let mut command = stowfast(self.folder.path());
        command.args(["--now", "2026-07-14T08:00:00Z"]).args(args);
        command.output().unwrap()
    }

    #[track_caller]
    pub(crate) fn says(&self, args: &[&str]) -> String {
        let output = self.run(args);
        assert_eq!(output.status.code(), Some(0), "{args:?}");
        String::from_utf8(output.stdout).unwrap()
    }
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
