//! Answers that are lists.

use chrono::DateTime;
use stowfast_core::Result;
use stowfast_core::engine::{DoneRow, KindRow, PlaceRow, RuleRow, TargetRow, VehicleRow};

use super::{Out, hint, object, plain};

impl Out {
    pub(crate) fn kinds(&self, rows: &[KindRow]) -> Result<()> {
        if self.json {
            return object("kinds", &rows);
        }
        rows.iter().try_for_each(|row| plain(&format!("{:<20} {}", row.id, row.title)))
    }

    pub(crate) fn targets(&self, rows: &[TargetRow]) -> Result<()> {
        if self.json {
            return object("targets", &rows);
        }
        rows.iter().try_for_each(|row| plain(&format!("{:<20} {}", row.id, row.title)))
    }

    pub(crate) fn places(&self, rows: &[PlaceRow]) -> Result<()> {
        if self.json {
            return object("places", &rows);
        }
        rows.iter()
            .try_for_each(|row| plain(&format!("{:<16} {}. {}", row.id, row.title, row.about)))?;
        hint("These are invented. One of your own: stowfast arrive FILE")
    }

    pub(crate) fn vehicles(&self, rows: &[VehicleRow]) -> Result<()> {
        if self.json {
            return object("vehicles", &rows);
        }
        for row in rows {
            let sign = if row.current { "*" } else { " " };
            let invented = if row.invented { " (invented)" } else { "" };
            plain(&format!("{sign} {} {}{invented}", row.id, row.title))?;
            if let Some(problem) = &row.problem {
                plain(&format!("    its pack no longer reads: {problem}"))?;
            }
        }
        Ok(())
    }

    pub(crate) fn rules(&self, rows: &[RuleRow]) -> Result<()> {
        if self.json {
            return object("rules", &rows);
        }
        for row in rows {
            let sign = if row.told { "*" } else { " " };
            plain(&format!("{sign} {}. {}", row.place_title, row.line()))?;
        }
        Ok(())
    }

    pub(crate) fn log(&self, rows: &[DoneRow]) -> Result<()> {
        if self.json {
            return object("log", &rows);
        }
        for row in rows {
            let at = DateTime::from_timestamp_millis(row.at_utc_ms).unwrap_or_default();
            let sign = if row.voided { "×" } else { " " };
            plain(&format!("{sign}[{}] {} {}", row.entry, at.format("%F %R UTC"), row.text))?;
        }
        Ok(())
    }
}
