//! Of which days the sun is meant: today's, or all of a month that was picked.

use chrono::{DateTime, Datelike, NaiveDate};

use crate::engine::reckon::asked::Asked;
use crate::error::Result;
use crate::reckon::solar::Sun;

const MONTHS: [&str; 12] =
    ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/// Which days are asked about.
#[derive(Debug, Clone, Copy)]
pub(in crate::engine::reckon) enum Season {
    /// Those from today on.
    Today,
    /// Those of a month that is picked: all of it, but from today on where it is this month.
    Month,
}

impl Season {
    /// The sun of each of them; today's stands for those from today on.
    ///
    /// # Errors
    /// [`crate::error::Error::InvalidInput`] for what is no month.
    pub(super) fn days(self, asked: &mut Asked) -> Result<Vec<Sun>> {
        let month = match self {
            Self::Today => None,
            Self::Month => picked(asked)?,
        };
        Ok(month.unwrap_or_else(|| vec![Sun::at(asked.now.utc_ms)]))
    }
}

/// The sun of each day of the month that is picked; `None` where it is this one.
fn picked(asked: &mut Asked) -> Result<Option<Vec<Sun>>> {
    let now = DateTime::from_timestamp_millis(asked.now.utc_ms).map(|now| now.date_naive());
    let this = now.and_then(|now| of(now.month0()));
    let options = MONTHS.map(|id| (id, asked.say(&format!("month.{id}"), &[])));
    let month = asked.one("month", &options, this)?;
    let other = month.filter(|month| Some(month.as_str()) != this);
    Ok(other.zip(now).and_then(|(month, now)| days(&month, now.year())))
}

fn of(month0: u32) -> Option<&'static str> {
    MONTHS.get(usize::try_from(month0).ok()?).copied()
}

/// The sun of each day of a month.
fn days(month: &str, year: i32) -> Option<Vec<Sun>> {
    let place = MONTHS.iter().position(|one| *one == month)?;
    let first = NaiveDate::from_ymd_opt(year, u32::try_from(place).ok()?.saturating_add(1), 1)?;
    let days = first.iter_days().take_while(|day| day.month0() == first.month0());
    let noon = |day: NaiveDate| Some(day.and_hms_opt(12, 0, 0)?.and_utc().timestamp_millis());
    days.map(|day| noon(day).map(Sun::at)).collect()
}
