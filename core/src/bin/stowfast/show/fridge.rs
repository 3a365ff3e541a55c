//! What the fridge runs on, and what lies ahead of it.

use stowfast_core::Result;
use stowfast_core::engine::{FridgePage, LeaveRow};

use super::{BOLD, CAUTION, FAINT, Out, hint, object, plain};
use crate::command::{Command, Show};

impl Out {
    pub(crate) fn fridge(&self, page: Option<&FridgePage>) -> Result<()> {
        if self.json {
            return object("fridge", &page);
        }
        let Some(page) = page else {
            return plain("No fridge that chooses between mains, 12 V and gas is fitted.");
        };
        plain(&self.styled(BOLD, &page.headline))?;
        let set = page.choices.iter().find(|one| Some(&one.id) == page.chosen.as_ref());
        set.map_or(Ok(()), |one| plain(&format!("  Set to: {}", one.text)))?;
        for line in page.why.iter().chain(&page.next_text).chain(&page.by_hand) {
            plain(&format!("  {line}"))?;
        }
        page.cautions
            .iter()
            .try_for_each(|line| plain(&self.styled(CAUTION, &format!("  ! {line}"))))?;
        page.ahead.iter().try_for_each(|row| {
            self.lines(&row.title, &row.lines)?;
            row.leave.as_ref().map_or(Ok(()), |leave| self.leave(leave))?;
            let plan = |target| format!("  All of it: stowfast plan {target}");
            row.target_id.as_ref().map_or(Ok(()), |id| hint(&self.styled(FAINT, &plan(id))))
        })
    }

    /// When they leave and by when to begin; how to ask for that, where it was not named.
    fn leave(&self, row: &LeaveRow) -> Result<()> {
        let at = |utc_ms| self.zone.local(utc_ms).format("%F %R (UTC%:z)");
        let Some(leave) = row.chosen_utc_ms else {
            let offered = row.choices_utc_ms.get(1).map(|leave| self.zone.local(*leave));
            let ask = |leave| format!("  If you leave then: stowfast fridge --leave '{leave}'");
            return offered
                .map_or(Ok(()), |at| hint(&self.styled(FAINT, &ask(at.format("%F %H:00")))));
        };
        plain(&format!("  You leave: {}", at(leave)))?;
        if let Some(start) = row.start_utc_ms {
            let begin = format!("  Switch it on by: {}", at(start));
            plain(&self.styled(BOLD, &begin))?;
        }
        row.start_text.as_ref().map_or(Ok(()), |text| plain(&format!("  {text}")))
    }
}

/// The command, for who leaves then.
pub(crate) fn leaving(
    command: Command,
    leave: Option<String>,
) -> std::result::Result<Command, lexopt::Error> {
    match (command, leave) {
        (command, None) => Ok(command),
        (Command::Show(Show::Fridge(_)), leave) => Ok(Command::Show(Show::Fridge(leave))),
        (_, Some(_)) => Err("--leave: goes with `fridge`".into()),
    }
}
