//! What would be used otherwise, and how much time that buys.

use super::stock::{DAYS, Stock};
use super::{Ahead, lasts, time};
use crate::catalogue::{Habit, Measured};
use crate::engine::page::{ReckoningLine, ReckoningPart};
use crate::engine::reckon::asked::Asked;
use crate::error::{Error, Result};
use crate::reckon::Between;
use crate::reckon::gas::NET_KWH_PER_KG;
use crate::reserve::Amount;

/// However much is saved, so much of the use counts as staying. Common practice, no source.
const STAYS: f64 = 0.1;
/// Below this nobody notices. Unit: days, half an hour. Common practice, no source.
const SAME_DAYS: f64 = 0.02;
const ML_PER_L: f64 = 1_000.0;
const G_PER_KG: f64 = 1_000.0;

/// One change, with how quickly each reserve is used with it.
pub(super) struct Change {
    id: &'static str,
    paces: Vec<f64>,
    /// What is taken once from one of them, by its place.
    once: Option<(usize, Between)>,
}

/// What people told, as far as it bears on a change.
struct Told {
    people: Option<f64>,
    /// Of all together, at most two. Unit: mL a day.
    showers_ml: Option<f64>,
    /// Half of it, where it comes from the fresh tank. Unit: mL a day.
    flushes_ml: Option<f64>,
    /// An hour of heating. Unit: g.
    heating_g: Option<f64>,
}

impl Told {
    fn of(asked: &Asked) -> Self {
        let people = asked.loaded.habits().people.filter(|people| *people > 0);
        let from_fresh = asked.loaded.habits().flush_from_fresh;
        let people = people.and_then(|people| Some(f64::from(i32::try_from(people).ok()?)));
        let told = |id: &str| asked.loaded.told_number(id);
        let showers = told("showers_a_day").zip(told("shower_l"));
        let flushes = told("flushes_a_day").zip(told("flush_l")).zip(people);
        let heating = told("heating_gas_kw").zip(told("heating_gas_h_a_day"));
        Self {
            people,
            showers_ml: showers.map(|(times, each)| times.min(2.0) * each * ML_PER_L),
            flushes_ml: flushes
                .filter(|_| from_fresh)
                .map(|((times, each), people)| times * each * people * ML_PER_L / 2.0),
            heating_g: heating
                .map(|(kw, hours)| kw * hours.min(1.0) / NET_KWH_PER_KG.upper * G_PER_KG),
        }
    }

    fn pace(&self, id: &str, stock: &Stock, alone: bool) -> Option<f64> {
        let saved = |amount: f64| (1.0 - amount / stock.a_day).max(STAYS);
        let used_by = stock.known.gauge.used_by.filter(|_| alone);
        let water = matches!(used_by, Some(Habit::Fresh | Habit::Waste));
        match (id, used_by) {
            ("one_fewer", Some(_)) => {
                self.people.filter(|people| *people >= 2.0).map(|people| 1.0 - 1.0 / people)
            }
            ("one_more", Some(_)) => self.people.map(|people| 1.0 + 1.0 / people),
            ("two_showers", _) if water => self.showers_ml.map(saved),
            ("half_toilet", Some(Habit::Cassette)) => Some(0.5),
            ("half_toilet", Some(Habit::Fresh)) => self.flushes_ml.map(saved),
            ("heat_less", None) if alone && stock.known.gauge.of == Measured::Gas => {
                let grams = stock.known.scale.amount == Amount::Grams;
                self.heating_g.filter(|_| grams).map(saved)
            }
            _ => None,
        }
    }
}

impl Change {
    /// Those that concern what is known of this vehicle.
    pub(super) fn all(
        asked: &Asked,
        stocks: &[Stock],
        grey: Option<(usize, Between)>,
    ) -> Vec<Self> {
        let told = Told::of(asked);
        let same = |one: &Stock, other: &Stock| {
            let (one, other) = (one.known.gauge, other.known.gauge);
            one.of == other.of && one.used_by == other.used_by
        };
        let alone = |stock: &Stock| stocks.iter().filter(|one| same(one, stock)).count() == 1;
        let change = |id: &'static str| {
            let paces =
                stocks.iter().map(|stock| told.pace(id, stock, alone(stock)).unwrap_or(1.0));
            Self { id, paces: paces.collect(), once: None }
        };
        let all = ["two_showers", "one_fewer", "half_toilet", "heat_less", "one_more"].map(change);
        let matters = |change: &Self| change.paces.iter().any(|pace| (pace - 1.0).abs() > 1e-9);
        let still = vec![1.0; stocks.len()];
        let grey = grey.map(|once| Self { id: "grey_day", paces: still, once: Some(once) });
        all.into_iter().filter(matters).chain(grey).collect()
    }

    pub(super) fn takes(&self, place: usize) -> Between {
        let taken = self.once.filter(|(at, _)| *at == place).map(|(_, amount)| amount);
        taken.unwrap_or(Between::exactly(0.0))
    }

    pub(super) fn pace(&self, place: usize) -> f64 {
        self.paces.get(place).copied().unwrap_or(1.0)
    }
}

/// The numbers that a change rests on; `None` where there is no such change.
fn rests_on(id: &str) -> Option<&'static [&'static str]> {
    Some(match id {
        "two_showers" => &["showers_a_day", "shower_l"],
        "one_fewer" | "one_more" => &["people"],
        "half_toilet" => &["people", "flushes_a_day", "flush_l"],
        "heat_less" => &["heating_gas_kw", "heating_gas_h_a_day"],
        "grey_day" => &[],
        _ => return None,
    })
}

/// What is wanted before a change can be picked; `None` where this vehicle never has it.
fn wanted_for(asked: &Asked, id: &str) -> Option<String> {
    let figures = rests_on(id)?;
    let asked_for = |id: &str| asked.loaded.asked().any(|one| one.id == id);
    if !figures.iter().all(|id| asked_for(id)) {
        return None;
    }
    let untold = figures.iter().filter(|id| asked.loaded.told_figure(id).is_none());
    let untold: Vec<_> = untold.map(|id| asked.words.figure_title(id)).collect();
    Some(match untold.as_slice() {
        [] => asked.say("needs.read", &[]),
        _ => asked.say("needs.told", &[("what", &untold.join(", "))]),
    })
}

/// Those that were picked.
///
/// # Errors
/// [`Error::InvalidInput`] for another; for one that wants something told or read first, with what.
pub(super) fn chosen<'a>(asked: &mut Asked, changes: &'a [Change]) -> Result<Vec<&'a Change>> {
    let offered = |id: &str| changes.iter().any(|change| change.id == id);
    for id in asked.wished("change").filter(|id| !offered(id)) {
        if let Some(expected) = wanted_for(asked, id) {
            let field = asked.say(&format!("change.{id}"), &[]);
            return Err(Error::InvalidInput { field, expected });
        }
    }
    if changes.is_empty() {
        return Ok(Vec::new());
    }
    let option = |change: &Change| (change.id, asked.say(&format!("change.{}", change.id), &[]));
    let options: Vec<_> = changes.iter().map(option).collect();
    let picked = asked.some("change", &options, &[])?;
    Ok(changes.iter().filter(|change| picked.iter().any(|id| id == change.id)).collect())
}

/// What each of them alone would buy.
pub(super) fn part(asked: &Asked, now: &Ahead, changes: &[Change]) -> ReckoningPart {
    let line = |change: &Change| {
        let ahead = Ahead::new(&now.stocks, &[change]);
        let best = Ahead::with(&now.stocks, &[change], |taken| taken.lower);
        let (lower, upper) = (ahead.band().0, best.band().1);
        let then = lasts(asked, lower, upper);
        let middles = now.race().ends_by(0.5).zip(ahead.race().ends_by(0.5));
        let buys = match middles.map(|(now, then)| then - now) {
            Some(more) if more > SAME_DAYS => {
                asked.say("say.buys", &[("time", &time(asked, more))])
            }
            Some(less) if less < -SAME_DAYS => {
                let key = if change.once.is_some() { "say.costs_most" } else { "say.costs" };
                asked.say(key, &[("time", &time(asked, -less))])
            }
            Some(_) => asked.say("say.same", &[]),
            None => asked.say("say.later", &[]),
        };
        let touched = ahead.stocks.iter().zip(&best.stocks).zip(&change.paces).enumerate();
        let touched = touched.filter(|(place, (_, pace))| {
            (**pace - 1.0).abs() > 1e-9 || change.takes(*place).upper > 0.0
        });
        let each = touched.map(|(_, ((worst, best), pace))| {
            let (lower, upper) = (worst.ends(Some(*pace)).0, best.ends(Some(*pace)).1);
            let (what, left) = (worst.end(asked), lasts(asked, lower, upper));
            asked.say("say.then", &[("what", &what), ("left", &left)])
        });
        ReckoningLine {
            title: asked.say(&format!("change.{}", change.id), &[]),
            detail: Some(each.collect::<Vec<_>>().join(" ")),
            lower: Some(lower),
            upper,
            unit: Some(DAYS.to_owned()),
            ..asked.told("change", asked.say("say.changed", &[("buys", &buys), ("left", &then)]))
        }
    };
    let lines =
        changes.iter().map(|change| ReckoningLine { id: change.id.to_owned(), ..line(change) });
    asked.part("change", lines.collect())
}
