//! An instant as somebody names it, by the clock where they are.

use chrono::{DateTime, NaiveDateTime, NaiveTime, TimeZone};

use crate::error::{Error, Result};

/// Within how many days the next such time comes, also where the clock leaves one out.
const DAYS: usize = 3;

/// The instant that `text` names in `zone`: `18:00` is the next such time after `now_utc_ms`,
/// `2026-07-14 18:00` that day's, `2026-07-14T18:00:00+02:00` has its zone with it. Of a time that the
/// clock shows twice the first is meant.
///
/// # Units
/// `now_utc_ms` and the answer: ms since 1970-01-01 UTC.
///
/// # Errors
/// [`Error::InvalidInput`] for anything else, and for a time that the clock leaves out that day.
///
/// # Source
/// RFC 3339, section 5.6.
pub fn named(text: &str, zone: &impl TimeZone, now_utc_ms: i64) -> Result<i64> {
    let whole = DateTime::parse_from_rfc3339(text).map(|at| at.timestamp_millis()).ok();
    let found = whole.or_else(|| on_a_day(text, zone)).or_else(|| next(text, zone, now_utc_ms));
    found.ok_or_else(|| Error::InvalidInput {
        field: "time".to_owned(),
        expected: format!(
            "18:00 for the next to come by your clock, or '2026-07-14 18:00' with its day; not `{text}`"
        ),
    })
}

fn on_a_day(text: &str, zone: &impl TimeZone) -> Option<i64> {
    let read = |form| NaiveDateTime::parse_from_str(text, form).ok();
    shown(read("%Y-%m-%d %H:%M").or_else(|| read("%Y-%m-%dT%H:%M"))?, zone).first().copied()
}

fn next(text: &str, zone: &impl TimeZone, now_utc_ms: i64) -> Option<i64> {
    let time = NaiveTime::parse_from_str(text, "%H:%M").ok()?;
    let today = zone.timestamp_millis_opt(now_utc_ms).single()?.date_naive();
    let days = today.iter_days().take(DAYS);
    days.flat_map(|day| shown(day.and_time(time), zone)).find(|at| *at > now_utc_ms)
}

/// When the clock shows it: never, once or twice.
fn shown(local: NaiveDateTime, zone: &impl TimeZone) -> Vec<i64> {
    let found = zone.from_local_datetime(&local).map(|at| at.timestamp_millis());
    [found.earliest(), found.latest()].into_iter().flatten().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use chrono::{FixedOffset, MappedLocalTime, NaiveDate, Offset, Utc};

    /// Two hours ahead in summer and one in winter, as in central Europe in 2026.
    #[derive(Debug, Clone)]
    struct Summer;

    const SPRING: &str = "2026-03-29T01:00:00Z";
    const AUTUMN: &str = "2026-10-25T01:00:00Z";

    fn at(text: &str) -> i64 {
        DateTime::parse_from_rfc3339(text).unwrap().timestamp_millis()
    }

    fn hours(hours: i32) -> FixedOffset {
        FixedOffset::east_opt(hours * 3_600).unwrap()
    }

    impl TimeZone for Summer {
        type Offset = FixedOffset;

        fn from_offset(_: &FixedOffset) -> Self {
            Self
        }

        fn offset_from_local_date(&self, _: &NaiveDate) -> MappedLocalTime<FixedOffset> {
            unreachable!()
        }

        fn offset_from_local_datetime(
            &self,
            local: &NaiveDateTime,
        ) -> MappedLocalTime<FixedOffset> {
            let fits = |ahead: i32| {
                let utc = *local - chrono::Duration::hours(ahead.into());
                (self.offset_from_utc_datetime(&utc) == hours(ahead)).then(|| hours(ahead))
            };
            match (fits(2), fits(1)) {
                (Some(first), Some(last)) => MappedLocalTime::Ambiguous(first, last),
                (Some(only), None) | (None, Some(only)) => MappedLocalTime::Single(only),
                (None, None) => MappedLocalTime::None,
            }
        }

        fn offset_from_utc_date(&self, _: &NaiveDate) -> FixedOffset {
            unreachable!()
        }

        fn offset_from_utc_datetime(&self, utc: &NaiveDateTime) -> FixedOffset {
            let utc_ms = utc.and_utc().timestamp_millis();
            hours(if (at(SPRING)..at(AUTUMN)).contains(&utc_ms) { 2 } else { 1 })
        }
    }

    fn says(text: &str, now: &str, meant: &str) {
        assert_eq!(named(text, &Summer, at(now)).unwrap(), at(meant), "{text} at {now}");
    }

    #[test]
    fn a_time_alone_is_the_next_one_by_the_clock_here() {
        says("18:00", "2026-07-14T08:00:00Z", "2026-07-14T16:00:00Z");
        says("09:30", "2026-07-14T08:00:00Z", "2026-07-15T07:30:00Z");
        says("10:00", "2026-07-14T08:00:00Z", "2026-07-15T08:00:00Z");
        // Here it is the next day already.
        says("0:30", "2026-07-14T22:15:00Z", "2026-07-14T22:30:00Z");
    }

    #[test]
    fn a_day_is_one_by_the_clock_here_and_a_zone_that_is_named_is_kept() {
        says("2026-07-15 18:00", "2026-07-14T08:00:00Z", "2026-07-15T16:00:00Z");
        says("2026-12-24T18:00", "2026-07-14T08:00:00Z", "2026-12-24T17:00:00Z");
        says("2026-07-15T18:00:00-04:00", "2026-07-14T08:00:00Z", "2026-07-15T22:00:00Z");
    }

    #[test]
    fn across_a_change_of_the_clocks_it_is_what_the_clock_shows_then() {
        says("08:00", "2026-03-28T20:00:00Z", "2026-03-29T06:00:00Z");
        says("08:00", "2026-10-24T20:00:00Z", "2026-10-25T07:00:00Z");
        // Shown twice: the first, and while that is over the second.
        says("2026-10-25 02:30", "2026-07-14T08:00:00Z", "2026-10-25T00:30:00Z");
        says("02:30", "2026-10-25T00:45:00Z", "2026-10-25T01:30:00Z");
        // Left out that night.
        assert!(named("2026-03-29 02:30", &Summer, at(SPRING)).is_err());
        says("02:30", "2026-03-28T20:00:00Z", "2026-03-30T00:30:00Z");
    }

    #[test]
    fn what_is_no_time_says_what_was_expected() {
        for text in ["", "six", "25:00", "18.00", "18", "2026-02-30 18:00", "18:00 tomorrow", "🕕"]
        {
            let error = named(text, &Utc.fix(), 0).unwrap_err().to_string();
            assert!(
                error.contains("expected 18:00") && error.contains(&format!("`{text}`")),
                "{error}"
            );
        }
    }
}
