//! How to use a fitting.

use stowfast_core::Result;
use stowfast_core::engine::{CardPage, CardRow, HitKind, HitRow, MayPage, StepKind};

use super::{BOLD, FAINT, Out, hint, kind, object, plain};

impl Out {
    pub(crate) fn cards(&self, rows: &[CardRow]) -> Result<()> {
        if self.json {
            return object("cards", &rows);
        }
        let width = rows.iter().map(|row| row.id.len()).max().unwrap_or_default();
        rows.iter().try_for_each(|row| {
            plain(&format!("{:<width$}  {} ({})", row.id, row.title, row.zone_title))
        })
    }

    pub(crate) fn found(&self, rows: &[HitRow]) -> Result<()> {
        if self.json {
            return object("found", &rows);
        }
        if rows.is_empty() {
            return hint("Nothing found. Try another word. All there is: stowfast cards");
        }
        rows.iter().try_for_each(|row| {
            let about =
                if row.about.is_empty() { String::new() } else { format!(" ({})", row.about) };
            plain(&format!("{}{about}", self.styled(BOLD, &row.title)))?;
            if !row.line.is_empty() {
                plain(&format!("  {}", row.line))?;
            }
            let command = match row.kind {
                HitKind::Card => "card ",
                HitKind::Alert => "alert ",
                HitKind::Fault => "fault ",
                HitKind::Routine => "plan ",
                HitKind::Question => "",
                HitKind::Emergency => "emergency ",
            };
            hint(&self.styled(FAINT, &format!("      stowfast {command}{}", row.id)))
        })
    }

    pub(crate) fn card(&self, page: &CardPage) -> Result<()> {
        if self.json {
            return object("card", page);
        }
        plain(&self.styled(BOLD, &page.card.title))?;
        plain(&page.card.zone_title)?;
        if !page.note.is_empty() {
            plain(&page.note)?;
        }
        page.photo
            .iter()
            .try_for_each(|photo| plain(&format!("{}. {}.", photo.title, photo.by_text)))?;
        for section in &page.sections {
            self.lines(&section.title, &section.lines)?;
        }
        plain("")?;
        self.links("Red", "alert", &page.alerts)?;
        self.links("Does not work", "fault", &page.faults)?;
        self.links("Routine", "plan", &page.routines)?;
        for step in &page.steps {
            let stands = Some(step.stands_text.as_str()).filter(|text| !text.is_empty());
            let stands = stands.map_or_else(String::new, |text| format!(": {text}"));
            plain(&format!("  {} {}{stands}", kind(step.kind), step.text))?;
            hint(&self.styled(FAINT, &format!("      stowfast may {}", step.id)))?;
        }
        Ok(())
    }

    /// As JSON the reasons alone, under the name that they have always had.
    pub(crate) fn may(&self, page: &MayPage) -> Result<()> {
        if self.json {
            let against = page.against.iter().map(|row| &row.text);
            return object("refusals", &against.collect::<Vec<_>>());
        }
        let step = &page.step;
        plain(&self.styled(BOLD, &format!("{} ({})", step.text, step.zone_title)))?;
        plain(&page.answer)?;
        for row in &page.against {
            plain(&format!("  ✗ {}", row.text))?;
            row.removed_text.iter().try_for_each(|text| plain(&format!("      {text}")))?;
        }
        if !page.first.is_empty() {
            plain(&self.styled(BOLD, "Do first, in this order"))?;
        }
        for step in &page.first {
            plain(&format!("  {} {} ({})", kind(step.kind), step.text, step.zone_title))?;
            if step.kind != StepKind::Wait {
                plain(&self.styled(FAINT, &format!("      stowfast may {}", step.id)))?;
            }
        }
        self.links("Routine", "plan", page.routine.as_slice())?;
        step.cautions.iter().try_for_each(|caution| plain(&format!("  ! {caution}")))
    }
}
