//! What was recorded, in the words of the log.

use stowfast_core::Result;
use stowfast_core::engine::{Changes, Engine};

use super::{CAUTION, Out, hint, object, plain};

impl Out {
    /// Each entry that was written, with its number, its warnings, and what usually comes `next`.
    pub(crate) fn changes(
        &self,
        engine: &Engine,
        changes: &Changes,
        next: impl Fn() -> String,
    ) -> Result<()> {
        if self.json {
            return object("changes", changes);
        }
        let Changes { entries, warnings } = changes;
        if !entries.is_empty() {
            let newest = engine.log(i32::try_from(entries.len()).unwrap_or(i32::MAX))?;
            for row in newest.iter().rev() {
                // What stands beside it as a warning is said once.
                let own = |said: String, line: &String| said.replace(&format!(" ({line})"), "");
                let said = warnings.iter().fold(row.text.clone(), own);
                plain(&format!("Recorded [{}] {said}", row.entry))?;
            }
        }
        for line in warnings {
            plain(&self.styled(CAUTION, &format!("  ! {line}")))?;
        }
        let next = next();
        if next.is_empty() { Ok(()) } else { hint(&next) }
    }
}
