//! What ends first: chances come to 1, bands hold as often as they say, and less use is never sooner.
#![allow(clippy::disallowed_methods, reason = "trips are drawn for a test, not shown to anybody")]
#![allow(clippy::unwrap_used, clippy::print_stdout, reason = "a test may fail loudly")]

use proptest::prelude::*;
use stowfast_core::reckon::Between;
use stowfast_core::reckon::first::{Curve, EVEN, Left, Rate, Runner, Seen, UNEVEN, USUAL, race};

fn curve(
    published: Option<Between>,
    used: Option<(f64, f64, f64)>,
    left: (f64, f64, f64),
) -> Curve {
    let seen = used.map(|(lower, upper, days)| Seen { used: Between { lower, upper }, days });
    let rate = Rate::new(published, seen, USUAL).unwrap();
    let (lower, upper, age_days) = left;
    Curve::new(Left { amount: Between { lower, upper }, age_days }, &rate)
}

/// 10, 50 and 90 per cent.
fn ends(curve: &Curve, pace: f64) -> [f64; 3] {
    [0.1, 0.5, 0.9].map(|chance| curve.ends_by(chance, pace).unwrap_or(f64::INFINITY))
}

/// None of three ends is later than the other.
fn no_later(ours: [f64; 3], others: [f64; 3]) -> bool {
    ours.iter().zip(others).all(|(one, other)| *one <= other * (1.0 + 1e-6) + 1e-9)
}

prop_compose! {
    fn published()(lower in 5.0..40.0_f64, ratio in 1.0..4.0_f64) -> Between {
        Between { lower, upper: lower * ratio }
    }
}

prop_compose! {
    fn any_curve()(range in proptest::option::of(published()), used in 1.0..200.0_f64, wide in 0.0..60.0_f64, days in 0.9..20.0_f64, level in -10.0..120.0_f64, band in 0.0..60.0_f64, age in 0.0..3.0_f64) -> Curve {
        curve(range, Some((used, used + wide, days)), (level, level + band, age))
    }
}

proptest! {
    #[test]
    fn chances_come_to_one(curves in proptest::collection::vec(any_curve(), 1..6), pace in 0.2..2.0_f64) {
        let runners: Vec<_> = curves.iter().map(|curve| Runner { curve, pace }).collect();
        let race = race(&runners);
        let sum: f64 = race.first.iter().sum::<f64>() + race.none;
        prop_assert!((sum - 1.0).abs() < 1e-9, "{sum}");
        prop_assert!(race.first.iter().all(|one| (0.0..=1.0).contains(one)));
    }

    #[test]
    fn the_chance_to_hold_only_falls(curve in any_curve(), days in 0.0..60.0_f64, more in 0.0..10.0_f64) {
        prop_assert!(curve.holds(days + more, 1.0) <= curve.holds(days, 1.0));
        let [least, middle, most] = ends(&curve, 1.0);
        prop_assert!(least <= middle && middle <= most && least >= 0.0);
    }

    #[test]
    fn using_less_from_now_on_is_never_sooner(curve in any_curve(), pace in 0.05..1.0_f64) {
        prop_assert!(no_later(ends(&curve, 1.0), ends(&curve, pace)));
    }

    #[test]
    fn a_higher_rate_is_never_later(range in proptest::option::of(published()), used in 1.0..200.0_f64, more in 0.0..80.0_f64, days in 0.9..20.0_f64, level in 1.0..120.0_f64, band in 0.0..60.0_f64) {
        let with = |used: f64| ends(&curve(range, Some((used, used, days)), (level, level + band, 0.0)), 1.0);
        prop_assert!(no_later(with(used + more), with(used)));
    }

    #[test]
    fn a_forecast_shrinks_with_use(range in published(), level in 1.0..120.0_f64, band in 0.0..60.0_f64, gone in 0.0..60.0_f64) {
        let with = |level: f64| ends(&curve(Some(range), None, (level, level + band, 0.0)), 1.0);
        prop_assert!(no_later(with(level - gone), with(level)));
    }

    #[test]
    fn a_forecast_shrinks_with_time(range in published(), level in 1.0..120.0_f64, band in 0.0..60.0_f64, age in 0.0..5.0_f64) {
        let with = |age: f64| ends(&curve(Some(range), None, (level, level + band, age)), 1.0);
        prop_assert!(no_later(with(age), with(0.0)));
    }

    /// The same use a day, read for longer: where nothing is published whatever it is, else as published.
    /// Readings that contradict a narrow range move it first, and what ends sooner is less sure in its days.
    #[test]
    fn more_readings_narrow_the_band(range in proptest::option::of(published()), own in 1.0..100.0_f64, days in 1.0..10.0_f64, more in 1.2..4.0_f64, lasts in 2.0..8.0_f64) {
        let a_day = range.map_or(own, |range| (range.lower * range.upper).sqrt());
        let share = |days: f64| {
            let used = a_day * days;
            let [least, _, most] = ends(&curve(range, Some((used, used, days)), (a_day * lasts, a_day * lasts, 0.0)), 1.0);
            most / least
        };
        prop_assert!(share(days * more) <= share(days), "{} {}", share(days), share(days * more));
    }

    #[test]
    fn nothing_panics(lower in any::<f64>(), upper in any::<f64>(), days in any::<f64>(), level in any::<f64>(), age in any::<f64>()) {
        let all = [lower, upper, days, level, age];
        prop_assume!(all.iter().all(|one| one.is_finite()));
        let seen = Some(Seen { used: Between::of(lower, upper), days });
        for published in [None, Some(Between::of(lower, upper))] {
            if let Some(rate) = Rate::new(published, seen, USUAL) {
                let curve = Curve::new(Left { amount: Between::of(level, upper), age_days: age }, &rate);
                let race = race(&[Runner { curve: &curve, pace: 1.0 }]);
                prop_assert!(race.first.iter().all(|one| one.is_finite()));
            }
        }
    }
}

/// Draws by a fixed seed, without anything of what is tested.
struct Draw(u64);

impl Draw {
    /// Between 0 and 1 (splitmix64).
    fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        let high = u32::try_from((bits ^ (bits >> 31)) >> 32).unwrap();
        (f64::from(high) + 0.5) / 4_294_967_296.0
    }

    fn between(&mut self, lower: f64, upper: f64) -> f64 {
        lower + (upper - lower) * self.share()
    }

    fn normal(&mut self) -> f64 {
        (-2.0 * self.share().ln()).sqrt() * (std::f64::consts::TAU * self.share()).cos()
    }

    /// Gamma of mean `shape` (Marsaglia and Tsang 2000).
    fn gamma(&mut self, shape: f64) -> f64 {
        if shape < 1.0 {
            return self.gamma(shape + 1.0) * self.share().powf(1.0 / shape);
        }
        let d = shape - 1.0 / 3.0;
        let c = 1.0 / (9.0 * d).sqrt();
        loop {
            let x = self.normal();
            let v = (1.0 + c * x).powi(3);
            if v > 0.0 && self.share().ln() < 0.5 * x * x + d - d * v + d * v.ln() {
                return d * v;
            }
        }
    }

    /// What is used in so many days.
    fn use_of(&mut self, a_day: f64, even: f64, days: f64) -> f64 {
        self.gamma(even * days) * a_day / even
    }

    /// A gauge that is no more than `error` out.
    fn read(&mut self, level: f64, error: f64) -> (f64, f64) {
        let shown = level + self.between(-error, error);
        (shown - error, shown + error)
    }
}

/// One trip with a known rate: whether it ended within its 80 % band.
fn within(draw: &mut Draw, even: f64) -> bool {
    const HOUR: f64 = 1.0 / 24.0;
    // Half of the trips have a published range, of which the true rate is in the middle 80 %.
    let range = (draw.share() < 0.5).then(|| {
        let lower = draw.between(5.0, 40.0);
        Between { lower, upper: lower * draw.between(1.5, 4.0) }
    });
    let a_day = match range {
        None => 5.0 * draw.between(0.0, 3.7).exp(),
        Some(range) => {
            let spread = (range.upper / range.lower).ln() / (2.0 * 1.281_552);
            (range.lower * range.upper).sqrt() * (spread * draw.normal()).exp()
        }
    };
    let days = draw.between(0.9, 8.0);
    let read = range.is_none() || draw.share() < 0.7;
    let used = if read { draw.use_of(a_day, even, days) } else { 0.0 };
    let left = a_day * draw.between(1.0, 8.0);
    let error = (left + used) * draw.between(0.002, 0.05);
    let (before, after) = (draw.read(left + used, error), draw.read(left, error));
    let seen = (before.0 - after.1).max(0.0);
    let seen = read.then_some((seen, before.1 - after.0, days));
    let age = draw.between(0.0, 0.5);
    let curve = curve(range, seen, (after.0, after.1, age));
    let [least, _, most] = ends(&curve, 1.0);
    let mut gone = draw.use_of(a_day, even, age);
    let mut time = 0.0;
    while gone < left {
        gone += draw.use_of(a_day, even, HOUR);
        time += HOUR;
    }
    (least..=most).contains(&time)
}

fn held_of_2000(even: f64) -> u32 {
    let mut draw = Draw(20_261_126);
    (0..2_000).map(|_| u32::from(within(&mut draw, even))).sum()
}

#[test]
fn of_2000_trips_four_in_five_end_within_their_band() {
    let held = held_of_2000(USUAL);
    println!("usual days: {held} of 2000 within their 80 % band");
    assert!((1_540..=1_660).contains(&held), "{held} of 2000");
}

/// What is not known: how much days differ. The bands are for the usual.
#[test]
fn where_days_differ_more_the_band_holds_less_often_and_the_other_way_round() {
    let (uneven, usual, even) = (held_of_2000(UNEVEN), held_of_2000(USUAL), held_of_2000(EVEN));
    println!("uneven {uneven}, usual {usual}, even {even} of 2000 within their 80 % band");
    assert!(uneven < usual && usual < even);
}
