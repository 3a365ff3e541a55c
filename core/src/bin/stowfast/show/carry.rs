//! Answers about files that hold everything.

use std::path::Path;

use serde::Serialize;
use stowfast_core::Result;
use stowfast_core::engine::Changes;

use super::{Out, object, plain};

impl Out {
    pub(crate) fn exported(&self, file: &Path, vehicles: usize, bytes: usize) -> Result<()> {
        #[derive(Serialize)]
        struct Exported {
            file: String,
            vehicles: usize,
            bytes: usize,
        }
        let file = file.display().to_string();
        if self.json {
            return object("exported", &Exported { file, vehicles, bytes });
        }
        let what = if vehicles == 1 { "vehicle" } else { "vehicles" };
        plain(&format!("{file}: {vehicles} {what} with packs and logs, {bytes} bytes."))
    }

    pub(crate) fn imported(&self, changes: &Changes) -> Result<()> {
        if self.json {
            return object("changes", changes);
        }
        if changes.warnings.is_empty() {
            return plain("The file holds no vehicle.");
        }
        changes.warnings.iter().try_for_each(|line| plain(line))
    }
}
