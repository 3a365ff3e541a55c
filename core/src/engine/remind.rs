//! What to fill or empty soon, told some hours before it may run out or be full.

use super::Engine;
use super::loaded::Loaded;
use super::page::{Changes, NowPage, RemindChoice, ReminderRow};
use super::reserve::{Known, MS_PER_H};
use super::words::Words;
use crate::catalogue::Habit;
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::reserve::lasting::{Lasting, Seen, lasting};

/// Names the setting to the store.
const REMIND_H: &str = "remind_h";
/// How long before, where nobody said: a day, to plan the way to a service point. Unit: h. Common
/// practice, no source.
const USUAL_H: i64 = 24;
/// What is offered; 0 is never. Unit: h. Common practice, no source.
const CHOICES_H: [i64; 5] = [0, 6, 12, 24, 48];
/// The most. Unit: h. Common practice, no source.
const MAX_H: i64 = 168;

impl Engine {
    /// How long before water runs out, or waste or a cassette is full, the first page says so. Unit: h;
    /// 0 for never.
    #[must_use]
    pub fn remind_h(&self) -> i64 {
        self.remind_h
    }

    /// Sets that, for all vehicles alike.
    ///
    /// # Units
    /// `hours`: 0 (never) to 168.
    ///
    /// # Errors
    /// [`Error::InvalidInput`] for anything else; else as [`crate::store::Store::put`].
    pub fn set_remind_h(&mut self, hours: i64) -> Result<Changes> {
        if !(0..=MAX_H).contains(&hours) {
            let expected = format!("0 to {MAX_H} hours; 0 is never");
            return Err(Error::InvalidInput { field: "remind".to_owned(), expected });
        }
        self.store.put(REMIND_H, &hours.to_string())?;
        self.remind_h = hours;
        Ok(Changes::default())
    }

    /// What is offered for that, with what is chosen.
    ///
    /// # Errors
    /// Only if the built-in words are wrong.
    pub fn remind_choices(&self) -> Result<Vec<RemindChoice>> {
        let text = self.text()?;
        let mut hours = CHOICES_H.to_vec();
        hours.push(self.remind_h);
        hours.sort_unstable();
        hours.dedup();
        let choice = |hours: i64| {
            let key = if hours == 0 { "say.remind.never" } else { "say.remind.before" };
            let text = text.say(key, &[("n", &hours.to_string())]);
            RemindChoice { hours, text, chosen: hours == self.remind_h }
        };
        Ok(hours.into_iter().map(choice).collect())
    }

    pub(super) fn load_remind_h(&mut self) -> Result<()> {
        let kept = self.store.get(REMIND_H)?.and_then(|hours| hours.parse().ok());
        self.remind_h = kept.filter(|hours| (0..=MAX_H).contains(hours)).unwrap_or(USUAL_H);
        Ok(())
    }

    /// The first page with what to see to soon. Where people are in danger, or the vehicle is laid up and
    /// nobody lives in it, there is nothing of that.
    pub(super) fn reminded(&self, loaded: &Loaded, page: NowPage, now: &Stamp) -> Result<NowPage> {
        let laid_up = page.stands.as_ref().is_some_and(|stands| stands.finished);
        if self.remind_h == 0 || laid_up || !page.emergency.is_empty() {
            return Ok(page);
        }
        let words = loaded.words(&self.language)?;
        let before_ms = self.remind_h.saturating_mul(MS_PER_H);
        let mut due = Vec::new();
        let mut next: Option<i64> = None;
        for known in loaded.known_where(&words, now, |_, gauge| gauge.used_by.is_some())? {
            let Some((habit, left)) = known.gauge.used_by.zip(loaded.forecast(&known, now)) else {
                continue;
            };
            let to_go = left.lower_ms.saturating_sub(before_ms);
            if to_go <= 0 {
                due.push((left.lower_ms, row(&words, &known, habit, &left, now)));
            } else {
                let at = now.utc_ms.saturating_add(to_go);
                next = Some(next.map_or(at, |known| known.min(at)));
            }
        }
        due.sort_by_key(|(left_ms, _)| *left_ms);
        let reminders = due.into_iter().map(|(_, row)| row).collect();
        Ok(NowPage { reminders, remind_utc_ms: next, ..page })
    }
}

impl Loaded {
    /// How long a reserve lasts; by the wall clock where nothing better tells how long ago it was read, so
    /// that a device that was restarted asks for a reading in time.
    fn forecast(&self, known: &Known, now: &Stamp) -> Option<Lasting> {
        let by_wall = || {
            let (rate, last) = known.rate.as_ref().zip(known.last.as_ref())?;
            let at = Stamp::utc(self.told_utc_ms(known.fitting, known.gauge)?);
            lasting(
                &rate.used,
                &Seen { at, lower: last.lower, upper: last.upper },
                &Stamp::utc(now.utc_ms),
            )
        };
        known.lasting.or_else(by_wall)
    }
}

fn row(words: &Words, known: &Known, habit: Habit, left: &Lasting, now: &Stamp) -> ReminderRow {
    let sure = known.lasting.is_some();
    let key = match habit {
        _ if !sure => "read",
        Habit::Fresh => "fresh",
        Habit::Waste => "waste",
        Habit::Cassette => "cassette",
        Habit::Heating => "heating",
    };
    let title = known.title(words);
    let lasts = words.lasting(left.lower_ms, left.upper_ms);
    let about = words.say("remind.about", &[("left", &lasts)]);
    ReminderRow {
        id: known.fitting.id.clone(),
        do_text: words.say(&format!("remind.{key}"), &[("what", &title)]),
        by_utc_ms: (sure && left.lower_ms > 0).then(|| now.utc_ms.saturating_add(left.lower_ms)),
        about_text: if sure { about } else { known.missing.join(" ") },
    }
}
