//! What to fill or empty soon.

use stowfast_core::Result;
use stowfast_core::engine::{RemindChoice, ReminderRow};

use super::{CAUTION, Out, hint, object, plain};

impl Out {
    pub(super) fn reminders(&self, rows: &[ReminderRow]) -> Result<()> {
        for ReminderRow { do_text, by_utc_ms, about_text, .. } in rows {
            let at = |utc_ms| format!("by {}", self.zone.local(utc_ms).format("%F %R (UTC%:z)"));
            let when = by_utc_ms.map_or_else(|| "now".to_owned(), at);
            plain(&self.styled(CAUTION, &format!("! {do_text} {when}. {about_text}")))?;
        }
        if rows.is_empty() { Ok(()) } else { plain("") }
    }

    pub(crate) fn remind(&self, choices: &[RemindChoice]) -> Result<()> {
        if self.json {
            return object("remind", &choices);
        }
        for RemindChoice { hours, text, chosen } in choices {
            let sign = if *chosen { "*" } else { " " };
            plain(&format!("{sign} {hours:>3}  {text}"))?;
        }
        hint("To change it: stowfast remind HOURS")
    }
}
