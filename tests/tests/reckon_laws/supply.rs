//! More load is never less of a danger to a breaker, a longer or hotter lead never loses less, and what
//! is planned to run is held against every way that there is.

#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "small numbers of a test, which fails loudly"
)]

use proptest::prelude::*;
use stowfast_core::reckon::Between;
use stowfast_core::reckon::supply::breaker::Breaker;
use stowfast_core::reckon::supply::heat::minutes;
use stowfast_core::reckon::supply::lead::{Core, Lead};
use stowfast_core::reckon::supply::load::{Load, Nature, together};
use stowfast_core::reckon::supply::schedule::{Day, Job, PAUSES_MAX, Why, plan};

const SECTIONS: [f64; 10] = [0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0];

fn load() -> impl Strategy<Value = Load> {
    let nature = prop_oneof![Just(Nature::Heating), Just(Nature::Motor), Just(Nature::Supply)];
    (0.0..4_000.0_f64, nature, any::<bool>()).prop_map(|(rated_w, nature, cycles)| Load {
        rated_w,
        nature,
        cycles,
    })
}

fn lead(length_m: f64, section: usize) -> Lead {
    Lead::new(Core::Flexible, length_m, SECTIONS[section]).unwrap()
}

proptest! {
    #[test]
    fn more_load_or_a_smaller_breaker_is_never_better(
        loads in proptest::collection::vec(load(), 1..8), rated in 3.0..20.0_f64, more in 0.0..20.0_f64,
    ) {
        let (less, all) = (together(&loads[1..]), together(&loads));
        let (small, large) = (Breaker::of(rated), Breaker::of(rated + more));
        for breaker in [small, large] {
            let (fewer, worse) = (breaker.steady_between(less.current), breaker.steady_between(all.current));
            prop_assert!(fewer.0 <= worse.0 && fewer.1 <= worse.1 && worse.0 <= worse.1);
            prop_assert!(breaker.surge(less.peak) <= breaker.surge(all.peak));
        }
        prop_assert!(large.steady_between(all.current) <= small.steady_between(all.current));
        prop_assert!(large.surge(all.peak) <= small.surge(all.peak));
    }

    /// Whatever the mains and the appliance within their tolerance: what flows lies in the band.
    #[test]
    fn what_flows_lies_in_the_band(load in load(), mains in 207.0..=253.0_f64, part in 0.9..=1.05_f64) {
        let watts = load.rated_w * part;
        let flows = match load.nature {
            Nature::Heating => watts / 230.0 * (mains / 230.0),
            Nature::Motor | Nature::Supply => watts / mains,
        };
        let band = load.current_a();
        prop_assert!(band.lower <= flows + 1e-9 && flows <= band.upper + 1e-9);
    }

    #[test]
    fn a_longer_hotter_or_thinner_lead_never_loses_less(
        length in 0.5..200.0_f64, longer in 0.0..200.0_f64, current in 0.0..20.0_f64, more in 0.0..20.0_f64,
        core in -30.0..90.0_f64, hotter in 0.0..60.0_f64, section in 0_usize..9,
    ) {
        let own = lead(length, section);
        let lost = own.carrying(230.0, current, core).lost_v;
        prop_assert!(lost <= lead(length + longer, section).carrying(230.0, current, core).lost_v);
        prop_assert!(lost <= own.carrying(230.0, current + more, core).lost_v);
        prop_assert!(lost <= own.carrying(230.0, current, core + hotter).lost_v);
        prop_assert!(lost >= lead(length, section + 1).carrying(230.0, current, core).lost_v);
        let (band, wider) = (own.lost_v(Between::exactly(current)), own.lost_v(Between { lower: current, upper: current + more }));
        prop_assert!(band.lower <= band.upper && band.upper <= wider.upper);
    }

    /// Energy: what the source gives is what the lead loses and the load takes.
    #[test]
    fn nothing_gets_lost_but_in_the_lead(length in 0.5..200.0_f64, watts in 0.0..4_000.0_f64, core in 0.0..60.0_f64) {
        let drop = lead(length, 3).feeding(230.0, watts, core);
        let current = if drop.load_v > 0.0 { drop.load_w / drop.load_v } else { 0.0 };
        prop_assert!((230.0 * current - drop.load_w - drop.lost_w).abs() < 1e-6);
        // A resistance takes with the square of its volts.
        prop_assert!((drop.load_w - watts * (drop.load_v / 230.0).powi(2)).abs() < 1e-6);
    }

    #[test]
    fn no_finite_number_makes_a_panic_or_a_lead_of_nothing(length in any::<f64>(), section in any::<f64>(), current in any::<f64>()) {
        let _ = Breaker::of(section).surge(Between::of(current, length));
        let _ = Breaker::of(section).steady(current);
        prop_assert!(Lead::new(Core::Flexible, length, section).is_none() || SECTIONS.iter().any(|one| (one - section).abs() < 1e-6));
        let _ = minutes(length, Between::exactly(current), section, current);
    }

    #[test]
    fn more_water_or_less_power_never_heats_sooner(
        litres in 0.0..60.0_f64, more in 0.0..60.0_f64, from in 0.0..40.0_f64, to in 40.0..80.0_f64, watts in 100.0..4_000.0_f64,
    ) {
        let own = minutes(litres, Between::exactly(from), to, watts).unwrap();
        let larger = minutes(litres + more, Between::exactly(from), to, watts).unwrap();
        let weaker = minutes(litres, Between::exactly(from), to, watts * 0.5).unwrap();
        prop_assert!(own.lower <= larger.lower && own.upper <= larger.upper);
        prop_assert!(own.lower <= weaker.lower && own.upper <= weaker.upper);
    }
}

const LIMIT: u32 = 10;

fn jobs(most: usize, ticks: u32) -> impl Strategy<Value = Vec<Job>> {
    let one = (1..=LIMIT + 1, 1..=ticks, 0..3_u32, 0..=ticks, any::<bool>());
    proptest::collection::vec(one, 1..=most).prop_map(|all| {
        let job = |(id, (draw_ma, ticks, earliest, slack, pauses)): (usize, _)| {
            let latest = earliest + ticks + slack;
            Job { id: u32::try_from(id).unwrap(), draw_ma, ticks, earliest, latest, pauses }
        };
        all.into_iter().enumerate().map(job).collect()
    })
}

fn charge(jobs: &[Job]) -> u64 {
    jobs.iter().map(|job| u64::from(job.draw_ma) * u64::from(job.ticks)).sum()
}

/// Below the limit at every tick, in its own time, in one go or with one pause; all of it or nothing.
fn keeps_every_rule(jobs: &[Job], day: &Day) {
    let drawn = |tick: u32| -> u32 {
        let on = day.pieces.iter().filter(|piece| piece.from <= tick && tick < piece.to);
        on.map(|piece| jobs.iter().find(|job| job.id == piece.id).unwrap().draw_ma).sum()
    };
    assert!((0..=day.ends).all(|tick| drawn(tick) <= LIMIT), "{jobs:?}: {day:?}");
    assert!(day.pauses <= PAUSES_MAX);
    let mut pauses = 0;
    for job in jobs {
        let own: Vec<_> = day.pieces.iter().filter(|piece| piece.id == job.id).collect();
        let runs: u32 = own.iter().map(|piece| piece.to - piece.from).sum();
        let left = day.left.iter().any(|(id, _)| *id == job.id);
        assert_eq!(runs, if left { 0 } else { job.ticks }, "{jobs:?}: {day:?}");
        assert!(own.iter().all(|piece| job.earliest <= piece.from && piece.to <= job.latest));
        assert!(own.len() <= if job.pauses { 2 } else { 1 });
        pauses += own.len().saturating_sub(1);
    }
    assert_eq!(pauses, usize::try_from(day.pauses).unwrap());
}

/// Every set of appliances tried at every tick, one after another: the fewest pauses, then the earliest
/// end.
struct Every<'a> {
    jobs: &'a [Job],
    best: Option<(u32, u32)>,
}

impl Every<'_> {
    fn from(&mut self, tick: u32, left: &mut [u32], on: u32, spent: u32) {
        let pauses = spent.count_ones();
        if left.iter().all(|left| *left == 0) {
            self.best = Some(self.best.map_or((pauses, tick), |best| best.min((pauses, tick))));
            return;
        }
        let late =
            |(job, left): (&Job, &u32)| *left > 0 && tick.max(job.earliest) + left > job.latest;
        if pauses > PAUSES_MAX || self.jobs.iter().zip(left.iter()).any(late) {
            return;
        }
        for set in 0..1_u32 << self.jobs.len() {
            let has = |set: u32, at: usize| set >> at & 1 == 1;
            let (mut drawn, mut may, mut used_up) = (0, true, spent);
            for (at, job) in self.jobs.iter().enumerate() {
                if has(set, at) {
                    may &= left[at] > 0 && job.earliest <= tick;
                    drawn += job.draw_ma;
                } else if has(on, at) && left[at] > 0 {
                    may &= job.pauses && !has(spent, at);
                    used_up |= 1 << at;
                }
            }
            if may && drawn <= LIMIT {
                let step = |at: usize| u32::from(has(set, at));
                (0..left.len()).for_each(|at| left[at] -= step(at));
                self.from(tick + 1, left, set, used_up);
                (0..left.len()).for_each(|at| left[at] += step(at));
            }
        }
    }
}

fn tried(jobs: &[Job]) -> Option<(u32, u32)> {
    let mut every = Every { jobs, best: None };
    let mut left: Vec<u32> = jobs.iter().map(|job| job.ticks).collect();
    every.from(0, &mut left, 0, 0);
    every.best
}

/// What must be left out, tried set by set: how many, how much, and how the rest is done.
fn tried_without(jobs: &[Job]) -> (usize, u64, u32, u32) {
    let sets = 0..1_u32 << jobs.len();
    let of = |set: u32| {
        let kept = |at: usize| set >> at & 1 == 1;
        let (kept, left): (Vec<_>, Vec<_>) = (0..jobs.len()).partition(|at| kept(*at));
        let these = |some: Vec<usize>| some.into_iter().map(|at| jobs[at]).collect::<Vec<_>>();
        (these(kept), these(left))
    };
    let cost = |set: u32| {
        let (kept, left) = of(set);
        tried(&kept).map(|_| (left.len(), charge(&left)))
    };
    let least = sets.clone().filter_map(cost).min().unwrap();
    let best = sets.filter(|set| cost(*set) == Some(least)).filter_map(|set| {
        let (kept, left) = of(set);
        let mut ids: Vec<u32> = left.iter().map(|job| job.id).collect();
        ids.reverse();
        tried(&kept).map(|done| (std::cmp::Reverse(ids), done))
    });
    let (_, (pauses, ends)) = best.min().unwrap();
    (least.0, least.1, pauses, ends)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// Against every way that there is, on up to four appliances.
    #[test]
    fn what_is_planned_is_the_best_that_there_is(jobs in jobs(4, 3)) {
        let day = plan(LIMIT, &jobs).unwrap();
        keeps_every_rule(&jobs, &day);
        prop_assert!(day.proven && day.soonest);
        let left: Vec<Job> = jobs.iter().filter(|job| day.left.iter().any(|(id, _)| *id == job.id)).copied().collect();
        prop_assert_eq!((left.len(), charge(&left), day.pauses, day.ends), tried_without(&jobs));
    }

    #[test]
    fn twelve_appliances_never_go_over_the_limit_and_are_all_done_or_named(jobs in jobs(12, 20)) {
        let day = plan(LIMIT, &jobs).unwrap();
        keeps_every_rule(&jobs, &day);
        for (id, why) in &day.left {
            let job = jobs.iter().find(|job| job.id == *id).unwrap();
            prop_assert_eq!(*why == Why::TooMuch, job.draw_ma > LIMIT);
        }
        // Whatever is left out: with it alone put back, nothing is done as well.
        if day.proven {
            for (id, _) in day.left.iter().filter(|(_, why)| *why == Why::NoRoom) {
                let with: Vec<Job> = jobs.iter().filter(|job| job.id == *id || !day.left.iter().any(|(left, _)| *left == job.id)).copied().collect();
                let again = plan(LIMIT, &with).unwrap();
                prop_assert!(!again.left.is_empty() || !again.proven);
            }
        }
    }

    #[test]
    fn the_order_in_which_they_are_named_changes_nothing(jobs in jobs(8, 12), turn in 0_usize..8) {
        let mut turned = jobs.clone();
        turned.rotate_left(turn % jobs.len());
        prop_assert_eq!(plan(LIMIT, &turned), plan(LIMIT, &jobs));
        turned.reverse();
        prop_assert_eq!(plan(LIMIT, &turned), plan(LIMIT, &jobs));
    }

    /// A larger limit never leaves more out.
    #[test]
    fn more_to_draw_on_never_leaves_more_out(jobs in jobs(6, 6), more in 0..6_u32) {
        let (own, larger) = (plan(LIMIT, &jobs).unwrap(), plan(LIMIT + more, &jobs).unwrap());
        prop_assert!(!own.proven || !larger.proven || larger.left.len() <= own.left.len());
    }
}
