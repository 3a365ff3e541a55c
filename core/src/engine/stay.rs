//! A stay without services, in words: what holds for it, what to fill, empty or charge before.

use super::Engine;
use super::gauge::unit_of;
use super::loaded::Loaded;
use super::page::{GaugeUnit, Holds, StayPage, StayRow};
use super::reserve::{Known, MS_PER_DAY};
use super::words::Words;
use crate::catalogue::Measured;
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::reserve::lasting::{Seen, Used, lasting};
use crate::reserve::water::{Fill, fill, holds};
use crate::reserve::whole;
use crate::state::Reading;

/// The longest stay that is reckoned. Unit: nights. Common practice, no source.
const NIGHTS_MAX: i64 = 60;

impl Engine {
    /// Whether every reserve holds for so many nights without a tap, a waste point, a toilet point,
    /// mains or a gas shop, and what to see to before.
    ///
    /// # Units
    /// `nights`: 1 to 60.
    ///
    /// # Errors
    /// [`Error::InvalidInput`] for another number of nights, [`Error::Conflict`] while no vehicle is
    /// chosen.
    pub fn stay(&self, nights: i64, now: &Stamp) -> Result<StayPage> {
        if !(1..=NIGHTS_MAX).contains(&nights) {
            let expected = format!("1 to {NIGHTS_MAX}");
            return Err(Error::InvalidInput { field: "number of nights".to_owned(), expected });
        }
        let loaded = self.at(now)?;
        let words = loaded.words(&self.language)?;
        let known = loaded.known_reserves(&words, now)?;
        let stay = Stay { loaded: &loaded, words: &words, nights, now };
        let living = known.iter().filter(|one| !one.gauge.driving_only);
        let rows: Vec<_> = living.map(|one| stay.row(one)).collect::<Result<_>>()?;
        let worst = rows.iter().filter_map(|row| row.holds).min();
        let holds_text = stay.all_text(&rows, worst);
        let title = words.count("stay.title", usize::try_from(nights).unwrap_or(0));
        let about = words.say("stay.about", &[]);
        let unknown = rows.iter().any(|row| row.holds.is_none());
        let holds = worst.filter(|worst| *worst != Holds::Yes || !unknown);
        Ok(StayPage { nights, title, holds, holds_text, rows, about })
    }
}

/// What is asked.
struct Stay<'a> {
    loaded: &'a Loaded,
    words: &'a Words<'a>,
    nights: i64,
    now: &'a Stamp,
}

impl Stay<'_> {
    fn row(&self, known: &Known) -> Result<StayRow> {
        let words = self.words;
        let rate = known.rate.as_ref();
        let used = rate.map(|rate| rate.used.in_ms(self.nights.saturating_mul(MS_PER_DAY)));
        let left = known.left_now(self.now);
        let holds = used.zip(left).map(|(used, left)| holds(left, used));
        let plan = match (rate, used, left, holds) {
            (Some(rate), Some(used), Some(left), Some(Holds::No | Holds::Perhaps)) => {
                Some(self.plan(known, &rate.used, used, left)?)
            }
            _ => None,
        };
        let key = match holds {
            Some(Holds::Yes) => "yes",
            Some(Holds::Perhaps) => "perhaps",
            Some(Holds::No) => "no",
            None => "unknown",
        };
        let (do_text, add) = plan.unzip();
        let add = add.flatten();
        Ok(StayRow {
            id: known.fitting.id.clone(),
            title: known.title(words),
            holds,
            holds_text: words.say(&format!("stay.holds.{key}"), &[]),
            used_text: used.map(|(lower, upper)| words.between(known.scale.amount, lower, upper)),
            left_text: known.lasting.map(|left| words.lasting(left.lower_ms, left.upper_ms)),
            do_text,
            rests_text: rate.map(|rate| rate.text(words)),
            missing: known.missing.clone(),
            used_lower: used.map(|used| used.0),
            used_upper: used.map(|used| used.1),
            add_lower: add.map(|add| add.0),
            add_upper: add.map(|add| add.1),
        })
    }

    /// What to see to before, and what has to go in where that is to be filled.
    fn plan(
        &self,
        known: &Known,
        rate: &Used,
        used: (i64, i64),
        left: (i64, i64),
    ) -> Result<(String, Option<(i64, i64)>)> {
        let (scale, words) = (&known.scale, self.words);
        if known.gauge.fills {
            let empty = holds((scale.end, scale.end), used);
            let before = words.say("stay.do.empty", &[]);
            return Ok((self.with_limit(before, "empty", rate, scale.end, empty), None));
        }
        let plan = fill(scale.level(left), scale.end, scale.capacity, used);
        let before = match known.gauge.of {
            Measured::Tank => self.fill_text(known, &plan)?,
            Measured::Battery => words.say("stay.do.charge", &[]),
            Measured::Gas => words.say("stay.do.cylinder", &[]),
        };
        let whole = scale.capacity.saturating_sub(scale.end);
        let said = self.with_limit(before, "full", rate, whole, plan.full_holds);
        Ok((said, Some(plan.add)))
    }

    /// What to do before, and how long even that lasts where it is not enough for certain.
    fn with_limit(&self, before: String, key: &str, rate: &Used, all: i64, holds: Holds) -> String {
        let whole = Seen { at: self.now.clone(), lower: all, upper: all };
        let lasts = lasting(rate, &whole, self.now).filter(|_| holds != Holds::Yes);
        let limit = lasts.map(|lasts| {
            let time = self.words.lasting(lasts.lower_ms, lasts.upper_ms);
            let how = if holds == Holds::No { "short" } else { "limit" };
            self.words.say(&format!("stay.do.{key}_{how}"), &[("time", &time)])
        });
        [Some(before), limit].into_iter().flatten().collect::<Vec<_>>().join(" ")
    }

    /// How much water to take on, until its gauge shows what, and what that weighs.
    fn fill_text(&self, known: &Known, plan: &Fill) -> Result<String> {
        let words = self.words;
        // Whole litres; one weighs a kilogram, to a third of a per cent.
        let litres = plan.add.1.saturating_add(999).div_euclid(1_000);
        let small = litres.saturating_mul(1_000);
        let (_, much) = words.units.volumes(small, small, false);
        let much = words.written(&much);
        let (_, mass) = words.units.masses(small, small);
        let mass = words.say("stay.do.mass", &[("mass", &words.written(&mass))]);
        let said = match self.shown_at(known, plan.to)? {
            Some(shown) if plan.full_holds != Holds::No => {
                let shown = words.shown(&shown);
                words.say("stay.do.until", &[("shown", &shown), ("much", &much)])
            }
            Some(_) | None => words.say("stay.do.to_the_brim", &[("much", &much)]),
        };
        Ok(format!("{said} {mass}"))
    }

    /// The least that its gauge must show so that at least so much is in a tank for certain; `None`
    /// where only the brim does.
    fn shown_at(&self, known: &Known, level_ml: i64) -> Result<Option<Reading>> {
        let unit = unit_of(known.fitting, known.gauge)?;
        let steps = match unit {
            GaugeUnit::Lamps => known.fitting.numbers("lamp_steps_pct").unwrap_or_default().len(),
            GaugeUnit::Percent => 100,
            GaugeUnit::Litres => {
                let litres = known.scale.capacity.div_euclid(1_000);
                usize::try_from(litres).unwrap_or(0)
            }
            GaugeUnit::Volts | GaugeUnit::Kilograms | GaugeUnit::Words => return Ok(None),
        };
        let steps = u32::try_from(steps).unwrap_or(u32::MAX);
        for step in 0..=steps {
            let least = self.loaded.read_tank(known.fitting, unit, f64::from(step))?.lower_ml;
            if least >= level_ml {
                let value_milli = whole("step", f64::from(step), 1_000, 0..=Reading::MILLI_MAX)?;
                let gauge = known.fitting.id.clone();
                return Ok(Some(Reading { gauge, unit, value_milli }));
            }
        }
        Ok(None)
    }

    /// Whether everything holds, and what does not.
    fn all_text(&self, rows: &[StayRow], all: Option<Holds>) -> String {
        let titles = |wanted: Option<Holds>| {
            let of = rows.iter().filter(|row| row.holds == wanted);
            of.map(|row| row.title.clone()).collect::<Vec<_>>().join(", ")
        };
        let say =
            |key: &str, what: &str| self.words.say(&format!("stay.all.{key}"), &[("what", what)]);
        let known = match all {
            None => return say("unknown", ""),
            Some(Holds::Yes) => say("yes", ""),
            Some(Holds::Perhaps) => say("perhaps", &titles(all)),
            Some(Holds::No) => say("no", &titles(all)),
        };
        let unknown = titles(None);
        if unknown.is_empty() { known } else { format!("{known} {}", say("not_known", &unknown)) }
    }
}
