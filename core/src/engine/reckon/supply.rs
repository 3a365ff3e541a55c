//! What the pitch's supply carries: may all of it run at once, in which order else, what the lead loses.

mod lead;
mod order;
mod wanted;
mod water;

use super::asked::{Answer, Asked};
use crate::engine::page::{Mark, ReckoningLine};
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::supply::breaker::{Breaker, Curve, Steady, Surge};
use crate::reckon::supply::load::{Drawn, Load, MAINS_V, together};
use order::Order;
use wanted::{Appliance, Wanted};

/// What a post may be rated for, by its setting.
const POSTS: [(&str, f64); 3] = [("a6", 6.0), ("a10", 10.0), ("a16", 16.0)];
/// The vehicle's inlet and the lead's two ends. Unit: A. Source: IEC 60309-2, as IEC 60364-7-721 asks.
const INLET_A: f64 = 16.0;
const CURVES: [(&str, Curve); 3] = [("b", Curve::B), ("c", Curve::C), ("d", Curve::D)];

pub(super) fn answer(asked: &mut Asked) -> Result<Answer> {
    let mut missing = Vec::new();
    let wanted = wanted::wanted(asked, &mut missing)?;
    let supply = Supply { rated_a: rating(asked)?, curve: curve(asked)?, own: own(asked) };
    let by = order::by(asked)?;
    let drawn = together(&wanted.loads());
    let mut parts = Vec::new();
    let some = !wanted.all().is_empty();
    let order = Order::of(&wanted, &supply, by, &mut missing, asked);
    let at_once = some.then(|| at_once(asked, &supply, &drawn));
    let mark = at_once.as_ref().and_then(|lines| worst(lines)).filter(|_| supply.rated_a.is_some());
    if let Some(lines) = at_once {
        parts.push(asked.part("at_once", lines));
    }
    let in_turn = |order: &&Order| mark != Some(Mark::Fine) || order.is_short();
    if let Some(order) = order.as_ref().filter(in_turn) {
        parts.push(asked.part("order", order.lines(asked, &wanted)));
    }
    parts.extend(water::part(asked, &wanted, &supply, &mut missing)?);
    parts.extend(water::heating(asked, &wanted, &supply));
    parts.extend(lead::parts(asked, &wanted, &drawn, &supply, &mut missing)?);
    parts.push(asked.part("budget", budget(asked, supply.rated_a)));
    parts.push(asked.part("tester", tester(asked)));
    let (mark, mut verdict_text) = verdict(asked, some, mark, order.as_ref(), &wanted);
    let low = holds_low(asked, &wanted, &supply);
    if let Some(what) = low.filter(|_| mark.is_some_and(|mark| mark > Mark::Fine)) {
        let low = asked.say("verdict.low", &[("what", &what)]);
        verdict_text = format!("{verdict_text} {low}");
    }
    let cautions = cautions(asked);
    Ok(Answer { mark, verdict_text, cautions, parts, missing })
}

/// What lies between the site and what draws.
struct Supply {
    /// What the post is rated for, where that is known.
    rated_a: Option<f64>,
    /// The type of its breaker, where that is known.
    curve: Option<Curve>,
    /// The vehicle's own main breaker, where the pack has it.
    own: Option<Breaker>,
}

impl Supply {
    /// Each breaker and limit on the way, with the word for it, at a rating of the post.
    fn all(&self, rated_a: f64) -> Vec<(&'static str, Breaker)> {
        let post = Breaker { rated_a, curve: self.curve };
        [("post", post)].into_iter().chain(self.inside()).collect()
    }

    /// Those of the vehicle.
    fn inside(&self) -> impl Iterator<Item = (&'static str, Breaker)> {
        self.own.map(|own| ("own", own)).into_iter().chain([("inlet", Breaker::of(INLET_A))])
    }

    /// The most that all on the way hold for an hour. Unit: A.
    fn holds_a(&self) -> Option<f64> {
        let all = self.all(self.rated_a?);
        Some(all.iter().map(|(_, breaker)| breaker.holds_a()).fold(f64::INFINITY, f64::min))
    }
}

/// The post's rating: as it was picked, else as it is known. Unit: A.
fn rating(asked: &mut Asked) -> Result<Option<f64>> {
    let post = asked.loaded.vehicle.of_kind("post").next();
    let known = post.and_then(|(_, post)| {
        let mut all = POSTS.iter().map(|(id, _)| *id);
        all.find(|id| asked.stands(post, "rating", &[id]) == Some(true))
    });
    let options = POSTS.map(|(id, _)| (id, asked.say(&format!("rating.{id}"), &[])));
    let chosen = asked.one("post", &options, known)?;
    Ok(chosen.and_then(|id| POSTS.iter().find(|(one, _)| *one == id)).map(|(_, a)| *a))
}

/// The type that stands before the number on the post's breaker.
fn curve(asked: &mut Asked) -> Result<Option<Curve>> {
    let options = CURVES.map(|(id, _)| (id, asked.say(&format!("curve.{id}"), &[])));
    let chosen = asked.one("curve", &options, None)?;
    Ok(chosen.and_then(|id| CURVES.iter().find(|(one, _)| *one == id)).map(|(_, curve)| *curve))
}

fn own(asked: &Asked) -> Option<Breaker> {
    let (_, switch) = asked.loaded.vehicle.of_kind("main_switch").next()?;
    switch.number("breaker_a").map(Breaker::of)
}

/// All of it at once: what it draws, and what each breaker makes of that. Where the rating is not
/// known, a line for each that a post may have.
fn at_once(asked: &Asked, supply: &Supply, drawn: &Drawn) -> Vec<ReckoningLine> {
    let plates = asked.quantity("_w", drawn.rated_w.round());
    let flows = asked.line("draws", "_a", drawn.current, 0.1);
    let text = asked.say("say.draws", &[("band", &flows.text), ("plates", &plates)]);
    let mut lines = vec![ReckoningLine { text, ..flows }];
    let posts = POSTS.iter().map(|(_, rated_a)| *rated_a);
    let posts = posts.filter(|rated_a| supply.rated_a.is_none_or(|own| same(own, *rated_a)));
    let posts = posts.map(|rated_a| ("post", Breaker { rated_a, curve: supply.curve }));
    let all = posts.chain(supply.inside());
    lines.extend(all.map(|(id, breaker)| breaker_line(asked, id, breaker, drawn)));
    lines
}

/// Two ratings are the same.
fn same(one: f64, other: f64) -> bool {
    (one - other).abs() < 0.5
}

fn breaker_line(asked: &Asked, id: &str, breaker: Breaker, drawn: &Drawn) -> ReckoningLine {
    let (mark, text) = held(asked, breaker, drawn.current);
    let surge = match breaker.surge(drawn.peak) {
        Surge::Holds => None,
        Surge::MayTrip if mark == Mark::Wrong => Some(asked.say("say.surge_too", &[])),
        Surge::MayTrip => Some(asked.say("say.surge_may", &[])),
        Surge::Trips => Some(asked.say("say.surge_trips", &[])),
    };
    // What is no breaker trips at nothing.
    let detail = surge.filter(|_| id != "inlet");
    let line = asked.told(id, text);
    let title = asked.say(&format!("line.{id}"), &[("a", &breaker.rated_a.to_string())]);
    ReckoningLine { title, detail, mark: Some(mark), ..line }
}

/// How a breaker takes a current, with the words for it.
fn held(asked: &Asked, breaker: Breaker, current: Between) -> (Mark, String) {
    let (mark, key) = match breaker.steady_between(current) {
        (_, Steady::Carries) => (Mark::Fine, "carries"),
        (_, Steady::HoldsAnHour) => (Mark::Fine, "holds"),
        (Steady::Trips, _) => (Mark::Wrong, "trips"),
        (_, Steady::MayTrip | Steady::Trips) => (Mark::Watch, "may"),
    };
    (mark, asked.say(&format!("say.{key}"), &[]))
}

/// What has to be set low so that all of it holds at once; `None` where that does not help.
fn holds_low(asked: &Asked, wanted: &Wanted, supply: &Supply) -> Option<String> {
    let ((loads, what), rated_a) = wanted.low().zip(supply.rated_a)?;
    let current = together(&loads).current;
    let mut all = supply.all(rated_a).into_iter();
    all.all(|(_, breaker)| held(asked, breaker, current).0 == Mark::Fine).then_some(what)
}

fn worst(lines: &[ReckoningLine]) -> Option<Mark> {
    lines.iter().filter_map(|line| line.mark).max()
}

/// What a post gives by its rating, in watts.
fn budget(asked: &Asked, rated_a: Option<f64>) -> Vec<ReckoningLine> {
    let of = |(id, rated): &(&str, f64)| {
        let breaker = Breaker::of(*rated);
        let watts = |watts: f64| asked.quantity("_w", watts.floor());
        let slots = [
            ("rated", &*watts(breaker.rated_w())),
            ("holds", &*watts(breaker.holds_a() * MAINS_V)),
            ("trips", &*watts(breaker.trips_a() * MAINS_V)),
        ];
        let line = asked.told(id, asked.say("say.budget", &slots));
        ReckoningLine { title: asked.say(&format!("rating.{id}"), &[]), ..line }
    };
    let own = |(_, rated): &&(&str, f64)| rated_a.is_none_or(|own| same(own, *rated));
    POSTS.iter().filter(own).map(of).collect()
}

/// What only a tester shows.
fn tester(asked: &Asked) -> Vec<ReckoningLine> {
    ["earth", "polarity", "rcd"]
        .into_iter()
        .map(|id| asked.told(id, asked.say(&format!("say.{id}"), &[])))
        .collect()
}

/// What must be seen to before anything is switched on, as far as it is not known to be.
fn cautions(asked: &Asked) -> Vec<String> {
    let vehicle = &asked.loaded.vehicle;
    let stands = |kind: &str, name: &str, setting: &str| {
        let fitting = vehicle.of_kind(kind).next();
        fitting.and_then(|(_, fitting)| asked.stands(fitting, name, &[setting])) == Some(true)
    };
    let said = [
        ("earth", stands("post", "earth", "missing")),
        ("device", stands("main_switch", "device", "failed")),
        ("coil", !stands("mains_lead", "coil", "uncoiled")),
    ];
    let said = said.into_iter().filter(|(_, holds)| *holds).map(|(key, _)| key);
    said.chain(["reset"]).map(|key| asked.say(&format!("caution.{key}"), &[])).collect()
}

/// The answer, what comes of it, and what it leaves out of account.
fn verdict(
    asked: &Asked,
    some: bool,
    at_once: Option<Mark>,
    order: Option<&Order>,
    wanted: &Wanted,
) -> (Option<Mark>, String) {
    let say = |key: &str| asked.say(&format!("verdict.{key}"), &[]);
    let Some(mark) = at_once else {
        return (None, say(if some { "rating" } else { "nothing" }));
    };
    let unknown = wanted.unknown_text();
    let is_unsure = mark == Mark::Fine && !unknown.is_empty();
    let key = if is_unsure { "perhaps" } else { mark.key() };
    let turns = match (mark, order) {
        (Mark::Fine, order) => order.and_then(|order| order.late(asked, wanted)),
        (Mark::Watch | Mark::Wrong, None) => Some((mark, say("how_long"))),
        (Mark::Watch | Mark::Wrong, Some(order)) => Some(order.verdict(asked, wanted)),
    };
    let (mark, then) = turns.map_or((mark, None), |(mark, then)| (mark, Some(then)));
    let but = (!is_unsure && !unknown.is_empty())
        .then(|| asked.say("verdict.but", &[("what", &unknown)]));
    let mark = if unknown.is_empty() { mark } else { mark.max(Mark::Watch) };
    let first = asked.say(&format!("verdict.{key}"), &[("what", &unknown)]);
    let said = [Some(first), then, but];
    (Some(mark), said.into_iter().flatten().collect::<Vec<_>>().join(" "))
}

/// What several things draw beside what is always on.
fn beside(wanted: &Wanted, load: Load) -> Drawn {
    let base = wanted.base.iter().map(|one: &Appliance| one.load);
    together(&base.chain([load]).collect::<Vec<_>>())
}
