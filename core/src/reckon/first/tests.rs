use super::{Curve, HORIZON_DAYS, Left, Race, Rate, Runner, Seen, USUAL, beta_share, race};
use crate::reckon::Between;

fn rate(published: Option<(f64, f64)>, used: Option<(f64, f64, f64)>) -> Rate {
    let seen = used.map(|(lower, upper, days)| Seen { used: Between { lower, upper }, days });
    Rate::new(published.map(|(lower, upper)| Between { lower, upper }), seen, USUAL).unwrap()
}

fn curve(lower: f64, upper: f64, rate: &Rate) -> Curve {
    Curve::new(Left { amount: Between { lower, upper }, age_days: 0.0 }, rate)
}

fn of(curves: &[&Curve]) -> Race {
    race(&curves.iter().map(|curve| Runner { curve, pace: 1.0 }).collect::<Vec<_>>())
}

/// Closed forms: a power where one shape is 1; a binomial sum where both are whole.
#[test]
fn the_beta_function_holds_its_closed_forms() {
    let mut x = 0.01;
    while x < 1.0 {
        for shape in [0.1, 0.5, 1.0, 3.0, 40.0, 900.0] {
            assert!((beta_share(shape, 1.0, x) - libm::pow(x, shape)).abs() < 1e-11, "{shape} {x}");
            let other = 1.0 - libm::pow(1.0 - x, shape);
            assert!((beta_share(1.0, shape, x) - other).abs() < 1e-11, "{shape} {x}");
        }
        let binomial = 10.0 * x.powi(3) * (1.0 - x).powi(2) + 5.0 * x.powi(4) * (1.0 - x);
        assert!((beta_share(3.0, 3.0, x) - binomial - x.powi(5)).abs() < 1e-12, "{x}");
        x += 0.013;
    }
}

/// With as good as endless days of it a published range is left as it was: nine in ten above its lower
/// end, nine in ten below its upper.
#[test]
fn a_published_range_is_the_middle_of_what_is_believed() {
    for (lower, upper) in [(15.0, 30.0), (7.5, 15.0), (2.0, 9.0), (10.0, 16.0)] {
        let node = *rate(Some((lower, upper)), None).nodes.first().unwrap();
        // So long that days no longer matter: the use of 4000 days tells the average.
        let average = |share: f64| {
            let used = share * 4_000.0;
            beta_share(USUAL * 4_000.0, node.shape, used / (used + node.scale))
        };
        assert!((average(lower) - 0.1).abs() < 0.005, "{lower}: {}", average(lower));
        assert!((average(upper) - 0.9).abs() < 0.005, "{upper}: {}", average(upper));
    }
}

/// The same by tables of F at a tenth, 30 and 40 degrees of freedom 1.54, 40 and 30 1.57 (from memory, to
/// be checked): what 5 days take, over what 3.75 days took, each a day's share of it. Table's rounding.
#[test]
fn what_was_read_alone_tells_as_much_as_a_table_of_f() {
    let rate = rate(None, Some((75.0, 75.0, 3.75)));
    for (ratio, holds) in [(1.0 / 1.54, 0.1), (1.57, 0.9)] {
        let left = 75.0 * (5.0 / 3.75) * ratio;
        let chance = curve(left, left, &rate).holds(5.0, 1.0);
        assert!((chance - holds).abs() < 0.002, "{chance}");
    }
}

#[test]
fn a_level_within_a_band_is_the_average_over_it() {
    let rate = rate(Some((10.0, 25.0)), Some((30.0, 44.0, 2.0)));
    let whole = curve(20.0, 60.0, &rate);
    let parts: Vec<_> =
        (0..400).map(|part| curve_at(20.0 + (f64::from(part) + 0.5) * 0.1, &rate)).collect();
    for days in [0.5, 1.0, 2.0, 4.0] {
        let mean = parts.iter().map(|part| part.holds(days, 1.0)).sum::<f64>() / 400.0;
        assert!((whole.holds(days, 1.0) - mean).abs() < 1e-4, "{days}");
    }
}

fn curve_at(level: f64, rate: &Rate) -> Curve {
    curve(level, level, rate)
}

#[test]
fn two_that_are_alike_are_first_alike_often() {
    let one = curve(40.0, 60.0, &rate(Some((10.0, 25.0)), None));
    let race = of(&[&one, &one]);
    let (first, second) = (race.first.first().unwrap(), race.first.get(1).unwrap());
    assert!((first - second).abs() < 1e-12 && race.none < 1e-6, "{race:?}");
}

#[test]
fn what_lasts_beyond_the_horizon_is_hardly_first() {
    let long = curve(9_000.0, 9_000.0, &rate(None, Some((60.0, 60.0, 6.0))));
    let race = of(&[&long]);
    assert!(race.none > 0.999 && long.ends_by(0.1, 1.0).unwrap() > HORIZON_DAYS, "{race:?}");
}

#[test]
fn an_ended_one_is_first_now() {
    let used = rate(Some((10.0, 25.0)), None);
    let (ended, full) = (curve(-5.0, 0.0, &used), curve(80.0, 90.0, &used));
    let race = of(&[&full, &ended]);
    assert!(*race.first.get(1).unwrap() > 0.999_999, "{race:?}");
    assert_eq!(race.ends_by(0.5), Some(0.0));
}

#[test]
fn nothing_told_gives_nothing() {
    let band = |lower, upper| Some(Between { lower, upper });
    let seen = |upper, days| Some(Seen { used: Between { lower: 0.0, upper }, days });
    assert_eq!(Rate::new(None, None, USUAL), None);
    assert_eq!(Rate::new(band(0.0, 9.0), None, USUAL), None);
    assert_eq!(Rate::new(None, seen(0.0, 3.0), USUAL), None);
    assert_eq!(Rate::new(None, seen(3.0, 0.1), USUAL), None);
}
