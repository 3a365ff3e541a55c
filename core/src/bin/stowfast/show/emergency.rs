//! What to do at once.

use stowfast_core::Result;
use stowfast_core::engine::{EmergencyPage, EmergencyRow};

use super::{BOLD, Out, hint, object, plain};

impl Out {
    /// What to do now, sentence by sentence, and how to say that it is over: no list and no plan.
    pub(super) fn emergency(&self, rows: &[EmergencyRow]) -> Result<()> {
        for row in rows {
            for said in row.text.split_inclusive(". ") {
                plain(&self.styled(BOLD, &format!("! {}", said.trim_end())))?;
            }
            plain("")?;
            plain(&format!("{}. To say how it is now:", row.title))?;
            for choice in &row.choices {
                let said = format!("stowfast report {} {}", row.variable, choice.id);
                hint(&format!("  {said}   {}", choice.text))?;
            }
        }
        Ok(())
    }

    /// What to do when people are in danger, of any vehicle.
    pub(crate) fn emergency_page(&self, page: &EmergencyPage) -> Result<()> {
        if self.json {
            return object("emergency", page);
        }
        plain(&self.styled(BOLD, &page.intro))?;
        for peril in &page.perils {
            plain("")?;
            plain(&self.styled(BOLD, &peril.title))?;
            for (number, step) in (1..).zip(&peril.steps) {
                plain(&format!("  {number}. {step}"))?;
            }
        }
        plain("")?;
        plain(&page.foot)
    }
}
