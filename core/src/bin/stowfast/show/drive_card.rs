//! What a driver must know of the vehicle.

use stowfast_core::Result;
use stowfast_core::engine::{DriveCardPage, DriveCardRow};

use super::{BOLD, CAUTION, FAINT, Out, object, plain};

impl Out {
    pub(crate) fn drive_card(&self, page: &DriveCardPage) -> Result<()> {
        if self.json {
            return object("drive_card", page);
        }
        plain(&self.styled(BOLD, &page.vehicle_title))?;
        self.measure(BOLD, &page.height)?;
        for row in &page.rows {
            self.measure(anstyle::Style::new(), row)?;
        }
        let mut cautions = page.cautions.iter();
        cautions.try_for_each(|line| plain(&self.styled(CAUTION, &format!("  ! {line}"))))
    }

    fn measure(&self, style: anstyle::Style, row: &DriveCardRow) -> Result<()> {
        plain(&self.styled(style, &format!("  {}: {}", row.title, row.text)))?;
        plain(&self.styled(FAINT, &format!("      {}", row.note)))
    }
}
