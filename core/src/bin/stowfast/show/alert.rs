//! What shows red.

use stowfast_core::Result;
use stowfast_core::engine::{AlertPage, AlertRow, LinkRow, MeaningRow, ReportRow, Shown};

use super::{BOLD, CAUTION, FAINT, Out, hint, object, plain};

impl Out {
    pub(crate) fn alerts(&self, rows: &[AlertRow]) -> Result<()> {
        if self.json {
            return object("alerts", &rows);
        }
        for row in rows {
            let seen = match (row.shown, row.normal) {
                (Shown::Yes, false) => "shows",
                (Shown::Yes, true) => "shows, as it should",
                (Shown::Unknown, _) => "not known",
                (Shown::No, _) => "does not show",
            };
            let sign = if row.shown == Shown::Yes && !row.normal { "✗" } else { " " };
            plain(&format!("{sign} {}: {seen}", row.title))?;
            if row.shown == Shown::Yes {
                plain(&format!("      {}", row.means))?;
            }
            hint(&self.styled(FAINT, &format!("      stowfast alert {}", row.id)))?;
        }
        hint("What you see is not among them: stowfast things")
    }

    pub(crate) fn alert(&self, page: &AlertPage) -> Result<()> {
        if self.json {
            return object("alert", page);
        }
        plain(&self.styled(BOLD, &page.alert.title))?;
        plain(&page.alert.sign)?;
        if page.alert.shown != Shown::Yes {
            plain("")?;
            plain(if page.alert.shown == Shown::No {
                "It does not show. If it shows:"
            } else {
                "Not known whether it shows. If it does:"
            })?;
        }
        let mut meanings = page.meanings.iter();
        meanings.next().iter().try_for_each(|answer| self.answer(answer))?;
        self.lines("Call for help", &page.help)?;
        page.cautions
            .iter()
            .try_for_each(|line| plain(&self.styled(CAUTION, &format!("  ! {line}"))))?;
        for other in meanings {
            let how = if other.certain { "Also" } else { "Or, which is not known" };
            plain(&format!("{how}: {}", other.text))?;
        }
        let (what, row) = match &page.cleared {
            None => ("It shows", &page.alert.report),
            out => ("It no longer shows", out),
        };
        self.reports(what, row.as_slice())?;
        self.links("Find the cause", "fault", &page.faults)?;
        self.links("Card", "card", &page.cards)?;
        plain(&self.styled(FAINT, &format!("({})", page.source)))
    }

    fn answer(&self, answer: &MeaningRow) -> Result<()> {
        plain("")?;
        plain(&self.styled(BOLD, &answer.text))?;
        self.lines("Do now", &answer.do_now)?;
        self.lines("Until it is right", &answer.stop_now)?;
        self.lines("What it does to the trip", std::slice::from_ref(&answer.trip))?;
        self.links("Routine", "plan", answer.routine.as_slice())?;
        for step in &answer.steps {
            plain(&format!("  Step: {}", step.text))?;
            plain(&self.styled(FAINT, &format!("      {}", step.id)))?;
        }
        self.reports("Found", &answer.finds)
    }

    /// Lines under a heading, where there are some.
    pub(super) fn lines(&self, heading: &str, lines: &[String]) -> Result<()> {
        if lines.is_empty() {
            return Ok(());
        }
        plain(&self.styled(BOLD, heading))?;
        lines.iter().try_for_each(|line| plain(&format!("  {line}")))
    }

    /// Where to go on, each with its command.
    pub(super) fn links(&self, what: &str, command: &str, rows: &[LinkRow]) -> Result<()> {
        rows.iter().try_for_each(|row| {
            plain(&format!("  {what}: {}", row.title))?;
            hint(&self.styled(FAINT, &format!("      stowfast {command} {}", row.id)))
        })
    }

    fn reports(&self, what: &str, rows: &[ReportRow]) -> Result<()> {
        rows.iter().try_for_each(|row| {
            plain(&format!("  {what}? {}", row.text))?;
            let said = format!("      stowfast report {} {}", row.variable, row.setting);
            hint(&self.styled(FAINT, &said))
        })
    }
}
