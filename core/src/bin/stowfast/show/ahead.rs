//! Numbers that people told of themselves, and a stay without services.

use stowfast_core::Result;
use stowfast_core::engine::{FigureRow, StayPage, StayRow};

use super::{BOLD, CAUTION, FAINT, Out, hint, object, plain};

impl Out {
    pub(crate) fn figures(&self, rows: &[FigureRow]) -> Result<()> {
        if self.json {
            return object("figures", &rows);
        }
        let mut of = "";
        for row in rows {
            if of != row.of_text {
                of = &row.of_text;
                plain(&self.styled(FAINT, of))?;
            }
            let value = row.value_text.as_deref().unwrap_or("not known");
            let age = row.age_text.as_ref().map_or_else(String::new, |age| format!(" ({age})"));
            plain(&self.styled(BOLD, &format!("{}: {value}{age}", row.title)))?;
            plain(&format!("  {}", row.about))?;
            hint(&format!("  {}, or unknown", tell(row)))?;
        }
        Ok(())
    }

    pub(crate) fn stay(&self, page: &StayPage) -> Result<()> {
        if self.json {
            return object("stay", page);
        }
        plain(&self.styled(BOLD, &page.title))?;
        plain(&page.holds_text)?;
        page.rows.iter().try_for_each(|row| self.stay_row(row))?;
        plain("")?;
        plain(&page.about)
    }

    fn stay_row(&self, row: &StayRow) -> Result<()> {
        plain("")?;
        plain(&self.styled(BOLD, &format!("{}: {}", row.title, row.holds_text)))?;
        let lines = [
            ("  as it is:  ", &row.left_text),
            ("  the stay:  ", &row.used_text),
            ("  ", &row.rests_text),
        ];
        for (head, said) in lines {
            said.iter().try_for_each(|said| plain(&format!("{head}{said}")))?;
        }
        let mut before = row.do_text.iter();
        before.try_for_each(|said| plain(&self.styled(CAUTION, &format!("  → {said}"))))?;
        row.missing.iter().try_for_each(|said| plain(&format!("  {said}")))
    }
}

/// How such a number is told, with its range in the unit in which it is typed.
pub(super) fn tell(row: &FigureRow) -> String {
    let FigureRow { id, value_min, value_max, .. } = row;
    let unit = row.unit_text.as_ref().map_or_else(String::new, |unit| format!(" {unit}"));
    format!("stowfast figure {id} VALUE, {value_min} to {value_max}{unit}")
}
