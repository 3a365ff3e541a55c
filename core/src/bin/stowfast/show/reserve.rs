//! What the gauges say, and how long it lasts.

use stowfast_core::Result;
use stowfast_core::engine::{GaugeRow, ReservePage, ReserveRow};

use super::{BOLD, Out, hint, object, plain};

impl Out {
    pub(crate) fn gauges(&self, rows: &[GaugeRow]) -> Result<()> {
        if self.json {
            return object("gauges", &rows);
        }
        for row in rows {
            let age = row.age_text.as_deref().unwrap_or("never read");
            plain(&format!("{}: {} ({age})", row.title, row.current_text))?;
            hint(&format!("  stowfast read {} VALUE: {}", row.id, row.expects))?;
            row.about.iter().try_for_each(|about| plain(&format!("  {about}")))?;
            if let Some(note) = &row.note {
                let against = if row.counts { "" } else { "A reading would not count: " };
                plain(&format!("  {against}{note}"))?;
            }
            for question in &row.questions {
                let ids: Vec<_> =
                    question.choices.iter().map(|choice| choice.id.as_str()).collect();
                let answer = question.chosen.as_deref().unwrap_or("not answered");
                plain(&format!("  {} — {answer}", question.title))?;
                hint(&format!("    stowfast report {} {}", question.variable, ids.join("|")))?;
            }
        }
        Ok(())
    }

    pub(crate) fn reserves(&self, page: &ReservePage) -> Result<()> {
        if self.json {
            return object("reserves", page);
        }
        plain(&self.styled(BOLD, &page.first_text))?;
        page.firsts.iter().try_for_each(|said| plain(&format!("  {said}")))?;
        if !page.unknown.is_empty() {
            plain(&page.unknown_text)?;
            page.unknown.iter().try_for_each(|said| plain(&format!("  {said}")))?;
        }
        page.gas_text.iter().try_for_each(|said| plain(said))?;
        page.rows.iter().try_for_each(|row| self.reserve(row))?;
        plain(&page.about)?;
        hint("To read one: stowfast read GAUGE VALUE. All of them: stowfast gauges")
    }

    fn reserve(&self, row: &ReserveRow) -> Result<()> {
        let age = row.level_age_text.as_deref().unwrap_or("never told");
        let title = format!("{} ({})", row.title, row.id);
        plain(&self.styled(BOLD, &title))?;
        plain(&format!("  now:    {} ({age})", row.level_text))?;
        if let Some(seen) = &row.seen_text {
            let age = row.seen_age_text.as_deref().unwrap_or_default();
            plain(&format!("  read:   {seen} ({age})"))?;
        }
        let lines = [
            ("  ! ", &row.seen_note),
            ("  told:   ", &row.between_text),
            ("  use:    ", &row.used_text),
            ("          ", &row.rests_text),
        ];
        for (head, said) in lines {
            said.iter().try_for_each(|said| plain(&format!("{head}{said}")))?;
        }
        if let Some(left) = &row.left_text {
            let end = format!("{}:", row.end_text);
            plain(&format!("  {end:<7} {left}"))?;
        }
        row.room_text.iter().try_for_each(|said| plain(&format!("  {said}")))?;
        row.missing.iter().try_for_each(|said| plain(&format!("  {said}")))
    }

    pub(crate) fn units(&self, units: &str) -> Result<()> {
        if self.json { object("units", &units) } else { plain(units) }
    }
}
