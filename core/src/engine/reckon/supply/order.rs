//! What to run when, so that all of it holds.

use super::Supply;
use super::wanted::{Appliance, Wanted};
use crate::engine::page::{Mark, ReckoningLine};
use crate::engine::reckon::asked::Asked;
use crate::error::Result;
use crate::reckon::supply::load::together;
use crate::reckon::supply::schedule::{Day, JOBS_MAX, Job, Piece, Why, plan};

/// Nobody switches by the minute. Unit: min.
const TICK_MIN: f64 = 5.0;
const DAY_MIN: f64 = 1_440.0;

/// By when all of it is wanted, from now. Unit: min; a day where nothing was picked.
pub(super) fn by(asked: &mut Asked) -> Result<f64> {
    Ok(asked.number("by", "_min", (TICK_MIN, DAY_MIN))?.unwrap_or(DAY_MIN))
}

/// How many of what has two powers are tried low. Common practice, no source: one boiler, one heating.
const LOWERED_MAX: usize = 4;

/// What runs when.
pub(super) struct Order {
    day: Day,
    /// Of the whole time. Unit: ticks.
    latest: u32,
    /// Which things it is about, by the number of their job, and whether each is set low.
    of: Vec<(usize, bool)>,
}

impl Order {
    /// The order of all whose time is known; `None` where it is known of none, or the post is not. What
    /// has two powers is set low only where less is left out so.
    pub(super) fn of(
        wanted: &Wanted,
        supply: &Supply,
        by_min: f64,
        missing: &mut Vec<String>,
        asked: &Asked,
    ) -> Option<Self> {
        let timeless = wanted.timed.iter().filter(|one| one.minutes.is_none());
        let titles: Vec<&str> = timeless.map(|one| one.title.as_str()).collect();
        if !titles.is_empty() {
            missing.push(asked.say("missing.minutes", &[("what", &titles.join(", "))]));
        }
        let base: Vec<_> = wanted.base.iter().map(|one| one.load).collect();
        let holds_a = supply.holds_a()? - together(&base).current.upper;
        let limit_ma = ticks((holds_a * 1_000.0).floor().max(0.0))?;
        let latest = ticks((by_min / TICK_MIN).floor())?;
        let timed = wanted.timed.iter().enumerate().filter(|(_, one)| one.minutes.is_some());
        let timed: Vec<_> = timed.take(JOBS_MAX).collect();
        let mut best: Option<Self> = None;
        for low in lowered(&timed) {
            let of = timed.iter().map(|(at, _)| (*at, low.contains(at))).collect();
            let Some(order) = Self::by_power(wanted, of, limit_ma, latest) else { break };
            if best.as_ref().is_none_or(|best| order.day.left.len() < best.day.left.len()) {
                best = Some(order);
            }
            if best.as_ref().is_some_and(|best| !best.is_short()) {
                break;
            }
        }
        best
    }

    /// The order where it is settled what is set low; `None` where there is nothing to order.
    fn by_power(
        wanted: &Wanted,
        of: Vec<(usize, bool)>,
        limit_ma: u32,
        latest: u32,
    ) -> Option<Self> {
        let job = |(number, (at, low)): (usize, &(usize, bool))| {
            let one = wanted.timed.get(*at)?;
            let (load, minutes) = one.set_low().filter(|_| *low).unwrap_or((one.load, one.minutes));
            Some(Job {
                id: u32::try_from(number).ok()?,
                draw_ma: ticks((load.current_a().upper * 1_000.0).ceil())?,
                ticks: ticks((minutes? / TICK_MIN).ceil())?,
                earliest: 0,
                latest,
                pauses: one.pauses,
            })
        };
        let jobs: Vec<Job> = of.iter().enumerate().filter_map(job).collect();
        let day = plan(limit_ma, &jobs)?;
        (!jobs.is_empty()).then_some(Self { day, latest, of })
    }

    fn appliance<'a>(&self, wanted: &'a Wanted, id: u32) -> Option<(&'a Appliance, bool)> {
        let (at, low) = self.of.get(usize::try_from(id).ok()?)?;
        Some((wanted.timed.get(*at)?, *low))
    }

    /// A line for each time that something is switched on, then one for each that is left out.
    pub(super) fn lines(&self, asked: &Asked, wanted: &Wanted) -> Vec<ReckoningLine> {
        let mut begun: Vec<u32> = Vec::new();
        let mut lines = Vec::new();
        for piece in &self.day.pieces {
            let Some((one, low)) = self.appliance(wanted, piece.id) else { continue };
            let again = begun.contains(&piece.id);
            begun.push(piece.id);
            let detail = low.then(|| asked.say("say.set_low", &[]));
            lines.push(ReckoningLine { detail, ..self.piece(asked, one, piece, again) });
        }
        for (id, why) in &self.day.left {
            let Some((one, _)) = self.appliance(wanted, *id) else { continue };
            let key = match why {
                Why::TooMuch => "too_much",
                Why::TooLong => "too_long",
                Why::NoRoom => "no_room",
            };
            let frees = asked.quantity("_w", one.load.rated_w);
            let text = asked.say(&format!("say.{key}"), &[("frees", &frees)]);
            let line = asked.told(&one.id, text);
            lines.push(ReckoningLine { title: one.title.clone(), mark: Some(Mark::Wrong), ..line });
        }
        lines
    }

    fn piece(&self, asked: &Asked, one: &Appliance, piece: &Piece, again: bool) -> ReckoningLine {
        let from = minutes(piece.from);
        let when = match (piece.from, again) {
            (0, _) => asked.say("say.now", &[]),
            (_, false) => asked.say("say.in", &[("time", &time(asked, from))]),
            (_, true) => asked.say("say.again", &[("time", &time(asked, from))]),
        };
        let long = time(asked, minutes(piece.to.saturating_sub(piece.from)));
        let text = asked.say("say.piece", &[("when", &when), ("long", &long)]);
        let along = |tick: u32| Some(f64::from(tick) / f64::from(self.latest.max(1)));
        ReckoningLine {
            title: one.title.clone(),
            bar_from: along(piece.from),
            bar_to: along(piece.to),
            ..asked.told(&one.id, text)
        }
    }

    /// Something is left out.
    pub(super) fn is_short(&self) -> bool {
        !self.day.left.is_empty()
    }

    fn left_text(&self, wanted: &Wanted) -> String {
        let left = self.day.left.iter().filter_map(|(id, _)| self.appliance(wanted, *id));
        left.map(|(one, _)| one.title.as_str()).collect::<Vec<_>>().join(", ")
    }

    /// What runs at its low power.
    fn low_text(&self, wanted: &Wanted) -> String {
        let runs = |id: u32| self.day.pieces.iter().any(|piece| piece.id == id);
        let ids = (0..).zip(&self.of).filter(|(id, (_, low))| *low && runs(*id));
        let low = ids.filter_map(|(_, (at, _))| wanted.timed.get(*at));
        low.map(|one| one.title.as_str()).collect::<Vec<_>>().join(", ")
    }

    /// What is not done by then, where all of it may run at once.
    pub(super) fn late(&self, asked: &Asked, wanted: &Wanted) -> Option<(Mark, String)> {
        let left = self.left_text(wanted);
        let said = || asked.say("verdict.late", &[("what", &left)]);
        self.is_short().then(|| (Mark::Watch, said()))
    }

    /// Whether all of it is done in that order.
    pub(super) fn verdict(&self, asked: &Asked, wanted: &Wanted) -> (Mark, String) {
        let (left, time) = (self.left_text(wanted), time(asked, minutes(self.day.ends)));
        let key = match (self.is_short(), self.day.pieces.is_empty()) {
            (false, _) => "in_turn",
            (true, false) => "leave",
            (true, true) => "leave_all",
        };
        let slots = [("what", &*left), ("time", &*time)];
        let mut said = asked.say(&format!("verdict.{key}"), &slots);
        let low = self.low_text(wanted);
        if !low.is_empty() {
            said = format!("{said} {}", asked.say("verdict.set_low", &[("what", &low)]));
        }
        let mark = if self.is_short() { Mark::Wrong } else { Mark::Watch };
        if self.day.proven {
            return (mark, said);
        }
        (mark, format!("{said} {}", asked.say("verdict.unproven", &[])))
    }
}

/// What may be set low, nothing first: by the place of each.
fn lowered(timed: &[(usize, &Appliance)]) -> Vec<Vec<usize>> {
    let able = timed.iter().filter(|(_, one)| one.low_w.is_some()).map(|(at, _)| *at);
    let mut sets = vec![Vec::new()];
    for at in able.take(LOWERED_MAX) {
        let with: Vec<_> = sets.iter().map(|set| [&set[..], &[at]].concat()).collect();
        sets.extend(with);
    }
    sets.sort_by_key(Vec::len);
    sets
}

/// A whole number that is none too large and not below 0.
fn ticks(value: f64) -> Option<u32> {
    let fits = value.is_finite() && (0.0..=f64::from(u32::MAX)).contains(&value);
    #[allow(
        clippy::as_conversions,
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "whole, not below 0 and no larger than the type holds"
    )]
    fits.then_some(value as u32)
}

fn minutes(ticks: u32) -> u32 {
    ticks.saturating_mul(5)
}

/// "2 h 5 min".
pub(super) fn time(asked: &Asked, minutes: u32) -> String {
    let (h, min) = (minutes.div_euclid(60).to_string(), minutes.rem_euclid(60).to_string());
    let key = match (&*h, &*min) {
        ("0", _) => "minutes",
        (_, "0") => "hours",
        _ => "both",
    };
    asked.say(&format!("time.{key}"), &[("h", &h), ("min", &min)])
}
