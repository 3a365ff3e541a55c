//! Laws of what is used and how long it lasts, on tanks that a made-up owner draws on.

#![allow(clippy::unwrap_used, clippy::arithmetic_side_effects, reason = "a test fails loudly")]

use proptest::prelude::*;
use stowfast_core::clock::Stamp;
use stowfast_core::fridge::Known;
use stowfast_core::reserve::Bands;
use stowfast_core::reserve::gas::{Cylinder, Shown};
use stowfast_core::reserve::lasting::{Account, SPAN_MIN_MS, Seen, Told, Used, account, lasting};
use stowfast_core::reserve::tank::{Conditions, Reading, Tank};
use stowfast_core::units::{Units, Written};

const CAPACITY_ML: i64 = 100_000;
const HOUR_MS: i64 = 3_600_000;
const FINE: Conditions = Conditions { powered: Known::Yes, still: Known::Yes, level: Known::Yes };

/// What a gauge of lamps tells of a level; a threshold may be out by up to `error` per mille.
fn lamps(level_ml: i64, steps: &[i64], error: i64) -> (i64, i64) {
    let lit = steps.iter().filter(|step| CAPACITY_ML * **step <= level_ml * 1_000).count();
    let lit = i64::try_from(lit).unwrap();
    let reading = Reading::Lamps { lit, thresholds_permille: steps, error_permille: error };
    let tank = Tank::new(CAPACITY_ML, Bands::new(vec![20]).unwrap()).unwrap();
    let level = tank.read(&reading, FINE).unwrap();
    (level.lower_ml, level.upper_ml)
}

fn steps() -> impl Strategy<Value = Vec<i64>> {
    proptest::collection::btree_set(10..1_000_i64, 1..6)
        .prop_map(|steps| steps.into_iter().collect())
}

fn seen(at_ms: i64, (lower, upper): (i64, i64)) -> Seen {
    Seen { at: Stamp::utc(at_ms), lower, upper }
}

/// Steady draws of a tank that is filled up now and then, seen through its lamps; the instants in
/// hours, with whether it was filled just before, and the rate in mL an hour.
fn trip() -> impl Strategy<Value = (Vec<(i64, bool)>, i64, Vec<i64>, i64)> {
    let looks = proptest::collection::vec((1..40_i64, proptest::bool::weighted(0.2)), 2..12);
    (looks, 20..3_000_i64, steps(), 0..40_i64)
}

/// The instants with what is in the tank then, and whether it was just filled.
fn levels(looks: &[(i64, bool)], rate: i64) -> Vec<(i64, i64, bool)> {
    let (mut at, mut level) = (0, CAPACITY_ML);
    let mut all = Vec::new();
    for (hours, filled) in looks {
        at += hours;
        level = if *filled { CAPACITY_ML } else { (level - rate * hours).max(0) };
        all.push((at, level, *filled));
    }
    all
}

proptest! {
    /// For steady use both what is used and how long it lasts lie within what is told, however
    /// coarse the lamps, and whether or not somebody says that the tank was filled.
    #[test]
    fn the_range_holds_the_true_rate_and_the_true_time(
        (looks, rate, steps, error) in trip(), says_so: bool,
    ) {
        let all = levels(&looks, rate);
        // An empty tank hides what would have been used.
        prop_assume!(all.iter().all(|(_, level, _)| *level > 0));
        let mut told = Vec::new();
        for (at, level, filled) in &all {
            if *filled && says_so {
                told.push(Told::Anew);
            }
            told.push(Told::Seen(seen(at * HOUR_MS, lamps(*level, &steps, error))));
        }
        let Account { used, last, clock_changed } = account(&told);
        prop_assert!(!clock_changed);
        // A fill that nobody told, and that no lamp shows, cannot be told from little use.
        let hidden = !says_so && all.iter().any(|(_, _, filled)| *filled);
        if let (Ok(used), Some(last), false) = (used, last, hidden) {
            let true_used = i128::from(rate) * i128::from(used.over_ms);
            let hour = i128::from(HOUR_MS);
            prop_assert!(i128::from(used.lower) * hour <= true_used, "{used:?}");
            prop_assert!(true_used <= i128::from(used.upper) * hour, "{used:?}");
            let (at, level, _) = all.last().unwrap();
            for later in [0, 7] {
                let left_ms = (level * HOUR_MS / rate - later * HOUR_MS).max(0);
                let now = Stamp::utc((at + later) * HOUR_MS);
                let told = lasting(&used, &last, &now).unwrap();
                prop_assert!(told.lower_ms <= left_ms, "{told:?} {left_ms}");
                prop_assert!(told.upper_ms.is_none_or(|most| left_ms <= most), "{told:?} {left_ms}");
            }
        }
    }

    /// More drawn never lasts longer, and more left never shorter.
    #[test]
    fn how_long_it_lasts_falls_with_the_draw_and_rises_with_what_is_left(
        lower in 0..200_000_i64, more in 1..200_000_i64, extra in 0..200_000_i64,
        left in 0..200_000_i64, wide in 0..50_000_i64, age_h in 0..200_i64,
    ) {
        let used = |by: i64| Used { lower: lower + by, upper: lower + more + by, over_ms: SPAN_MIN_MS };
        let left = |by: i64| seen(0, (left + by, left + wide + by));
        let now = Stamp::utc(age_h * HOUR_MS);
        let of = |used: &Used, left: &Seen| lasting(used, left, &now).unwrap();
        let most = |upper: Option<i64>| upper.unwrap_or(i64::MAX);
        let (base, thirsty, fuller) =
            (of(&used(0), &left(0)), of(&used(extra), &left(0)), of(&used(0), &left(extra)));
        prop_assert!(thirsty.lower_ms <= base.lower_ms && base.lower_ms <= fuller.lower_ms);
        prop_assert!(most(thirsty.upper_ms) <= most(base.upper_ms));
        prop_assert!(most(base.upper_ms) <= most(fuller.upper_ms));
        prop_assert!(base.lower_ms <= most(base.upper_ms));
    }

    #[test]
    fn the_order_of_readings_of_one_instant_is_of_no_matter(
        groups in proptest::collection::vec(
            proptest::collection::vec((0..90_000_i64, 0..10_000_i64), 1..5), 2..6),
        turn in 0..4_usize,
    ) {
        let of = |turned: bool| {
            let all = groups.iter().enumerate().flat_map(|(number, group)| {
                let mut group = group.clone();
                if turned {
                    group.reverse();
                    let by = turn % group.len();
                    group.rotate_left(by);
                }
                let at = i64::try_from(number).unwrap() * 25 * HOUR_MS;
                group.into_iter().map(move |(lower, more)| Told::Seen(seen(at, (lower, lower + more))))
            });
            account(&all.collect::<Vec<_>>())
        };
        prop_assert_eq!(of(false), of(true));
    }

    /// Nothing is counted across a filling: what is told before it changes no span after it.
    #[test]
    fn a_filling_adds_its_own_and_takes_nothing_from_another(
        first in proptest::collection::vec(0..90_000_i64, 2..5),
        second in proptest::collection::vec(0..90_000_i64, 2..5),
    ) {
        let falling = |levels: &[i64], from_h: i64| {
            let mut levels = levels.to_vec();
            levels.sort_unstable_by(|one, two| two.cmp(one));
            let at = (0_i64..).map(|n| (from_h + 25 * n) * HOUR_MS);
            let all = levels.into_iter().zip(at).map(|(l, at)| Told::Seen(seen(at, (l + 1, l + 500))));
            all.collect::<Vec<_>>()
        };
        let (one, two) = (falling(&first, 0), falling(&second, 1_000));
        let sum = |told: &[Told]| account(told).used.map_or((0, 0, 0), |it| (it.lower, it.upper, it.over_ms));
        let (a, b) = (sum(&one), sum(&two));
        let both = sum(&[one, vec![Told::Anew], two].concat());
        prop_assert_eq!(both, (a.0 + b.0, a.1 + b.1, a.2 + b.2));
    }

    /// Rounded outward, and by less than one of the last digit.
    #[test]
    fn volumes_hold_what_they_are_of(
        lower in 0..2_000_000_i64, more in 0..2_000_000_i64, fine: bool,
    ) {
        for (units, ml) in [(Units::Metric, 1_000.0), (Units::Imperial, 4_546.09)] {
            let upper = lower + more;
            let (least, most) = units.volumes(lower, upper, fine);
            let number = |written: Written| written.n.parse::<f64>().unwrap() * ml;
            let (least, most) = (number(least), number(most));
            let [lower, upper] = [lower, upper].map(|it| f64::from(u32::try_from(it).unwrap()));
            prop_assert!(least <= lower + 1e-6 && lower - least < ml);
            prop_assert!(most >= upper - 1e-6 && most - upper < ml);
        }
    }
}

/// What a cylinder is told by: a scale, or a gauge of what may be filled or of the whole volume.
#[derive(Debug, Clone, Copy)]
enum Instrument {
    Scale { tare_g: i64, error_g: i64 },
    Gauge { full_permille: i64, error_permille: i64 },
}

fn instrument() -> impl Strategy<Value = Instrument> {
    let scale = (500..60_000_i64, 0..2_000_i64)
        .prop_map(|(tare_g, error_g)| Instrument::Scale { tare_g, error_g });
    let gauge = (500..=1_000_i64, 0..200_i64).prop_map(|(full_permille, error_permille)| {
        Instrument::Gauge { full_permille, error_permille }
    });
    prop_oneof![scale, gauge]
}

/// What the instrument shows of so much gas, out by a share of its error: -1 to 1, in thousandths.
fn shows(instrument: Instrument, left: i64, holds: i64, out: i64) -> Shown {
    match instrument {
        Instrument::Scale { tare_g, error_g } => {
            Shown::Weight { gross_g: tare_g + left + error_g * out / 1_000, tare_g, error_g }
        }
        Instrument::Gauge { full_permille, error_permille } => {
            // Rounded to what its error still covers.
            let exact = left * full_permille / holds + (error_permille - 1).max(0) * out / 1_000;
            let most = (full_permille + error_permille).min(1_000);
            let shown_permille = exact.clamp(0, most);
            // A tenth of a per cent is the finest that it shows.
            let error_permille = error_permille.max(1);
            Shown::Percent { shown_permille, full_permille, error_permille }
        }
    }
}

fn cylinder(holds: i64) -> Cylinder {
    Cylinder::new(holds, Bands::new(vec![50, 200, 900]).unwrap()).unwrap()
}

proptest! {
    /// Whatever tells it, and however far that is out, what is left lies within what is told, and so
    /// does its band.
    #[test]
    fn what_is_left_in_a_cylinder_lies_within_what_is_told(
        instrument in instrument(), holds in 1_000..60_000_i64,
        share in 0..=1_000_i64, out in -1_000..=1_000_i64,
    ) {
        let left = holds * share / 1_000;
        let level = cylinder(holds).read(&shows(instrument, left, holds, out), FINE).unwrap();
        prop_assert!(0 <= level.lower && level.lower <= left, "{level:?} {left}");
        prop_assert!(left <= level.upper && level.upper <= holds, "{level:?} {left}");
        let band = Bands::new(vec![50, 200, 900]).unwrap().touched(left, left, holds)[0];
        prop_assert!(level.bands.contains(&band), "{level:?} {left}");
    }

    /// More on the scale is never told as less.
    #[test]
    fn a_heavier_cylinder_never_holds_less(
        holds in 1_000..60_000_i64, error_g in 0..2_000_i64,
        one in 0..=1_000_i64, more in 0..=1_000_i64,
    ) {
        let scale = Instrument::Scale { tare_g: 10_000, error_g };
        let of = |share: i64| {
            let left = holds * share.min(1_000) / 1_000;
            cylinder(holds).read(&shows(scale, left, holds, 0), FINE).unwrap()
        };
        let (light, heavy) = (of(one), of(one + more));
        prop_assert!(light.lower <= heavy.lower && light.upper <= heavy.upper);
        prop_assert!(light.bands[0] <= heavy.bands[0]);
    }

    /// What no cylinder can weigh is refused, and nothing that it can.
    #[test]
    fn a_weight_is_refused_below_the_tare_and_above_a_full_cylinder_and_nowhere_else(
        tare_g in 500..60_000_i64, holds in 1_000..60_000_i64,
        error_g in 0..2_000_i64, gross_g in 0..200_000_i64,
    ) {
        let shown = Shown::Weight { gross_g, tare_g, error_g };
        let can = (tare_g - error_g..=tare_g + holds + error_g).contains(&gross_g);
        prop_assert_eq!(cylinder(holds).read(&shown, FINE).is_ok(), can);
    }

    /// Of gas used steadily from cylinders that are changed when they run out, the true rate and the
    /// true time lie within what the weighings tell.
    #[test]
    fn the_range_holds_the_true_use_of_gas_across_changed_cylinders(
        rate_g in 20..400_i64, hours in proptest::collection::vec(1..40_i64, 2..12),
        outs in proptest::collection::vec(-1_000..=1_000_i64, 12), says_so: bool,
    ) {
        const HOLDS_G: i64 = 11_000;
        let scale = Instrument::Scale { tare_g: 12_400, error_g: 500 };
        let (mut at, mut left, mut hidden) = (0, HOLDS_G, false);
        let mut told = Vec::new();
        for (hours, out) in hours.iter().zip(&outs) {
            at += hours;
            let changed = left - rate_g * hours <= 0;
            // A change that nobody told need not show as a rise.
            hidden |= changed && !says_so;
            left = if changed { HOLDS_G } else { left - rate_g * hours };
            if changed && says_so {
                told.push(Told::Anew);
            }
            let level = cylinder(HOLDS_G).read(&shows(scale, left, HOLDS_G, *out), FINE).unwrap();
            told.push(Told::Seen(seen(at * HOUR_MS, (level.lower, level.upper))));
        }
        let Account { used, last, .. } = account(&told);
        if let (Ok(used), Some(last), false) = (used, last, hidden) {
            let true_used = i128::from(rate_g) * i128::from(used.over_ms);
            let hour = i128::from(HOUR_MS);
            prop_assert!(i128::from(used.lower) * hour <= true_used, "{used:?}");
            prop_assert!(true_used <= i128::from(used.upper) * hour, "{used:?}");
            let now = Stamp::utc(at * HOUR_MS);
            let lasts = lasting(&used, &last, &now).unwrap();
            let left_ms = left * HOUR_MS / rate_g;
            prop_assert!(lasts.lower_ms <= left_ms, "{lasts:?} {left_ms}");
            prop_assert!(lasts.upper_ms.is_none_or(|most| left_ms <= most), "{lasts:?} {left_ms}");
        }
    }

    /// Rounded outward to tenths of a kilogram, the same in either country.
    #[test]
    fn masses_hold_what_they_are_of(lower in 0..200_000_i64, more in 0..200_000_i64) {
        let upper = lower + more;
        for units in Units::ALL {
            let (least, most) = units.masses(lower, upper);
            let grams = |written: &Written| written.n.parse::<f64>().unwrap() * 1_000.0;
            let [lower, upper] = [lower, upper].map(|it| f64::from(u32::try_from(it).unwrap()));
            prop_assert!(grams(&least) <= lower + 1e-6 && lower - grams(&least) < 100.0);
            prop_assert!(grams(&most) >= upper - 1e-6 && grams(&most) - upper < 100.0);
        }
    }
}
