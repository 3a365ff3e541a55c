//! Photos of fittings.

use stowfast_core::Result;
use stowfast_core::engine::PhotoRow;

use super::{Out, hint, object, plain};

impl Out {
    pub(crate) fn photos(&self, rows: &[PhotoRow]) -> Result<()> {
        if self.json {
            return object("photos", &rows);
        }
        for row in rows {
            plain(&format!("{}: {}. {}, {} bytes", row.id, row.title, row.by_text, row.bytes))?;
            if !row.note.is_empty() {
                plain(&format!("  {}", row.note))?;
            }
        }
        if rows.is_empty() {
            hint("No photo yet. To give one: stowfast photo FITTING FILE")
        } else {
            Ok(())
        }
    }
}
