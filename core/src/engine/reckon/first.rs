//! Which reserve ends first, when, how sure that is, and what would buy time.

mod change;
mod grey;
mod look;
mod stock;

use super::asked::{Answer, Asked};
use crate::clock::Stamp;
use crate::engine::loaded::Loaded;
use crate::engine::page::{Mark, ReckoningLine, ReckoningPart};
use crate::engine::reserve::Known;
use crate::engine::words::Words;
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::first::{HORIZON_DAYS, Race, Runner, race};
use crate::reserve::whole;
use crate::vehicle::Fitting;
use change::Change;
use stock::{DAYS, Stock};

const MS_PER_DAY: u32 = 86_400_000;
/// The chances between which a band of 80 % lies.
const BAND: (f64, f64) = (0.1, 0.9);
/// What a person asks once a day is soon enough. Common practice, no source.
const SOON_DAYS: f64 = 1.0;

/// Questions of what the road uses.
const APART: [&str; 2] = ["fuel", "urea"];

/// Numbers that people tell, on which published ranges and changes rest.
const TOLD: [&str; 15] = [
    "people",
    "showers_a_day",
    "shower_l",
    "flushes_a_day",
    "flush_l",
    "heating_gas_kw",
    "heating_gas_h_a_day",
    "boiler_gas_kw",
    "boiler_gas_h_a_day",
    "cooking_gas_kw",
    "cooking_gas_h_a_day",
    "fridge_gas_a_h_g",
    "heating_diesel_l_an_hour",
    "heating_diesel_kw",
    "heating_diesel_h_a_night",
];

/// Everything that is known, and how it ends, for each sort of days.
struct Ahead<'a> {
    stocks: Vec<Stock<'a>>,
    paces: Vec<f64>,
    races: [Race; 3],
}

impl<'a> Ahead<'a> {
    /// With some changes from now on, and the most that they may take once.
    fn new(stocks: &[Stock<'a>], changes: &[&Change]) -> Self {
        Self::with(stocks, changes, |taken| taken.upper)
    }

    fn with(stocks: &[Stock<'a>], changes: &[&Change], once: fn(Between) -> f64) -> Self {
        let pace = |place| changes.iter().map(|change| change.pace(place)).product();
        let paces: Vec<f64> = (0..stocks.len()).map(pace).collect();
        let less = |(place, stock): (usize, &Stock<'a>)| {
            let lost: f64 = changes.iter().map(|change| once(change.takes(place))).sum();
            if lost > 0.0 { stock.without(lost) } else { stock.clone() }
        };
        let stocks: Vec<_> = stocks.iter().enumerate().map(less).collect();
        let races = [0, 1, 2].map(|sort: usize| {
            let runs = stocks.iter().zip(&paces);
            let runs = runs.filter_map(|(stock, pace)| {
                Some(Runner { curve: stock.curves.get(sort)?, pace: *pace })
            });
            race(&runs.collect::<Vec<_>>())
        });
        Self { stocks, paces, races }
    }

    /// With the usual days.
    fn race(&self) -> &Race {
        let [_, usual, _] = &self.races;
        usual
    }

    /// The chance of one to be the first, over all sorts of days.
    fn chance(&self, place: usize) -> Between {
        over(&self.races, |race| race.first.get(place).copied().unwrap_or(0.0))
    }

    /// When the first ends: the band of 80 %.
    fn band(&self) -> (f64, Option<f64>) {
        let race = self.race();
        (race.ends_by(BAND.0).unwrap_or(HORIZON_DAYS), race.ends_by(BAND.1))
    }

    /// All of them, with the most likely first.
    fn by_chance(&self) -> Vec<(usize, &Stock<'a>)> {
        let mut all: Vec<_> = self.stocks.iter().enumerate().collect();
        let chance = |place: usize| self.race().first.get(place).copied().unwrap_or(0.0);
        all.sort_by(|one, other| chance(other.0).total_cmp(&chance(one.0)));
        all
    }
}

/// The least and the most over all sorts of days.
fn over(races: &[Race; 3], of: impl Fn(&Race) -> f64) -> Between {
    let [uneven, usual, even] = races;
    let (one, two) = (Between::of(of(uneven), of(usual)), of(even));
    Between { lower: one.lower.min(two), upper: one.upper.max(two) }
}

pub(super) fn answer(asked: &mut Asked) -> Result<Answer> {
    let known = asked.loaded.known_reserves(asked.words, asked.now)?;
    let (mut stocks, mut unknown, mut missing) = (Vec::new(), Vec::new(), Vec::new());
    for one in known.iter().filter(|one| !one.gauge.driving_only) {
        let title = one.title(asked.words);
        asked.rests_on(&one.fitting.id, title.clone());
        if let Some(stock) = Stock::of(asked, one) {
            stocks.push(stock);
            continue;
        }
        let shared = one.missing.is_empty().then(|| asked.say("missing.shared", &[]));
        let why = one.missing.iter().cloned().chain(shared).collect::<Vec<_>>().join(" ");
        missing.push(format!("{title}: {why}"));
        unknown.push(title);
    }
    for figure in TOLD {
        asked.figure(figure);
    }
    let grey = grey::takes(asked, &stocks, &mut missing)?;
    let changes = Change::all(asked, &stocks, grey);
    let chosen = change::chosen(asked, &changes)?;
    let now = Ahead::new(&stocks, &[]);
    let ahead = Ahead::new(&stocks, &chosen);
    let (mark, said) = verdict(asked, &ahead, &unknown);
    let parts = [
        each(asked, &ahead, &unknown),
        look::part(asked, &ahead),
        change::part(asked, &now, &changes),
    ];
    let cautions = look::cautions(asked, &ahead);
    missing.extend(not_counted(asked));
    Ok(Answer { mark, verdict_text: said, cautions, parts: parts.into(), missing })
}

/// Which of what is known most likely ends first, and with which chance; `None` where nothing is known
/// well enough.
pub(in crate::engine) fn likeliest(
    loaded: &Loaded,
    words: &Words,
    known: &[Known],
    now: &Stamp,
) -> Option<String> {
    let asked = Asked::new("first", loaded, words, &[], now);
    let living = known.iter().filter(|one| !one.gauge.driving_only);
    let stocks: Vec<_> = living.filter_map(|one| Stock::of(&asked, one)).collect();
    let ahead = Ahead::new(&stocks, &[]);
    let (place, stock) = ahead.by_chance().first().copied()?;
    let (what, chance) = (stock.end(&asked), per_cent(&asked, ahead.chance(place)));
    (ahead.race().none <= 0.5)
        .then(|| asked.say("say.likeliest", &[("what", &what), ("chance", &chance)]))
}

/// What the road alone uses, with the question that tells of it.
fn not_counted(asked: &Asked) -> Option<String> {
    let burnt = |(_, filler): (usize, &Fitting)| {
        filler.gauge.as_ref().is_some_and(|gauge| !gauge.driving_only)
    };
    let counted = asked.loaded.vehicle.of_kind("diesel_filler").any(burnt);
    let fitted = APART.iter().filter(|id| asked.loaded.questions().any(|one| one == **id));
    let fitted = fitted.filter(|id| **id != "fuel" || !counted);
    let named = fitted.map(|id| {
        let question = asked.words.text.say(&format!("reckon.{id}.title"), &[]);
        asked.say(&format!("apart.{id}"), &[("question", &question)])
    });
    let what = named.collect::<Vec<_>>().join(", ");
    (!what.is_empty()).then(|| asked.say("missing.apart", &[("what", &what)]))
}

fn verdict(asked: &Asked, ahead: &Ahead, unknown: &[String]) -> (Option<Mark>, String) {
    let Some((place, stock)) = ahead.by_chance().first().copied() else {
        return (None, asked.say("verdict.unknown", &[]));
    };
    let key = match (ahead.stocks.len(), unknown.len()) {
        _ if ahead.race().none > 0.5 => "later",
        (1, _) => "one",
        (_, 0) => "first",
        _ => "among",
    };
    let (what, chance) = (stock.end(asked), per_cent(asked, ahead.chance(place)));
    let left = stock.left(asked, ahead.paces.get(place).copied().unwrap_or(1.0));
    let slots = [("what", &*what), ("left", &*left), ("chance", &*chance)];
    let said = asked.say(&format!("verdict.{key}"), &slots);
    let n = unknown.len().to_string();
    let rest = match unknown {
        [] => None,
        [what] => Some(asked.say("verdict.not_known_one", &[("what", what)])),
        _ => Some(asked.say("verdict.not_known", &[("n", &n)])),
    };
    let said = [Some(said), rest].into_iter().flatten().collect::<Vec<_>>().join(" ");
    let mark = match ahead.race().ends_by(0.5) {
        Some(middle) if middle <= 0.0 => Mark::Wrong,
        _ if ahead.band().0 < SOON_DAYS || !unknown.is_empty() => Mark::Watch,
        _ => Mark::Fine,
    };
    (Some(mark), said)
}

/// Each of them, the most likely first.
fn each(asked: &Asked, ahead: &Ahead, unknown: &[String]) -> ReckoningPart {
    let ends = |(place, stock): (usize, &Stock)| stock.ends(ahead.paces.get(place).copied());
    let all = ahead.by_chance();
    let longest = all.iter().filter_map(|one| ends(*one).1).fold(SOON_DAYS, f64::max);
    let scale = longest.min(HORIZON_DAYS);
    let line = |(place, stock): (usize, &Stock)| {
        let pace = ahead.paces.get(place).copied().unwrap_or(1.0);
        let (lower, upper) = stock.ends(Some(pace));
        let share = |days: f64| (days / scale).clamp(0.0, 1.0);
        let middle = stock.middle(pace).map(|days| time(asked, days));
        let middle = middle.map(|time| asked.say("say.middle", &[("time", &time)]));
        let chance = per_cent(asked, ahead.chance(place));
        let chance = (ahead.stocks.len() > 1).then(|| {
            asked.say(
                if unknown.is_empty() { "say.chance" } else { "say.among" },
                &[("chance", &chance)],
            )
        });
        let rests = asked.say(&format!("rests.{}", stock.rests()), &[]);
        let detail = [middle, chance, Some(rests)].into_iter().flatten().collect::<Vec<_>>();
        ReckoningLine {
            title: stock.end(asked),
            detail: Some(detail.join(" ")),
            mark: Some(if lower < SOON_DAYS { Mark::Watch } else { Mark::Fine }),
            lower: Some(lower),
            upper,
            unit: Some(DAYS.to_owned()),
            bar_from: Some(share(lower)),
            bar_to: Some(share(upper.unwrap_or(scale))),
            ..asked.told("each", stock.left(asked, pace))
        }
    };
    let lines = all.iter().map(|one| {
        let id = one.1.known.fitting.id.clone();
        ReckoningLine { id, ..line(*one) }
    });
    let key = if unknown.is_empty() { "each" } else { "known" };
    asked.part(key, lines.collect())
}

fn per_cent(asked: &Asked, chance: Between) -> String {
    asked.band("_pct", chance * 100.0, 1.0)
}

/// A band of time in words, rounded outward; without an upper end from the horizon on.
fn lasts(asked: &Asked, lower: f64, upper: Option<f64>) -> String {
    let ms = |days: f64| whole("days", days, MS_PER_DAY, 0..=i64::MAX).unwrap_or(i64::MAX);
    asked.words.lasting(ms(lower), upper.map(ms))
}

/// About so much time.
fn time(asked: &Asked, days: f64) -> String {
    let (n, unit) = if days < 2.0 { (days * 24.0, "hours") } else { (days, "days") };
    let n = n.round().to_string();
    let one = if n == "1" { "_one" } else { "" };
    asked.words.say(&format!("reserve.{unit}{one}"), &[("n", &n)])
}
