//! Colder, windier and less water are never later; heating is never earlier; what is lost is what the
//! water had; what nobody said stays unknown.

use proptest::prelude::*;
use stowfast_core::reckon::Between;
use stowfast_core::reckon::frost::loss::{Wind, tank};
use stowfast_core::reckon::frost::pipe::Pipe;
use stowfast_core::reckon::frost::{Body, End, Inside, Night, Part, Place, Until, When, when};

/// What a float may be off over a night of steps. Unit: h.
const HAIR_H: f64 = 1e-9;

fn place() -> impl Strategy<Value = Place> {
    prop_oneof![Just(Place::Inside), Just(Place::HeatedFloor), Just(Place::Underfloor)]
}

fn until() -> impl Strategy<Value = Until> {
    prop_oneof![(0.0..5.0_f64).prop_map(Until::Celsius), (0.0..1.0_f64).prop_map(Until::Frozen),]
}

fn night() -> impl Strategy<Value = Night> {
    (-15.0..15.0_f64, -20.0..10.0_f64, 0.0..14.0_f64, -5.0..25.0_f64, any::<bool>()).prop_map(
        |(outside_c, low_c, coldest_in_h, inside_c, heated)| Night {
            outside_c,
            low_c,
            coldest_in_h: Between::of(coldest_in_h, coldest_in_h * 1.5),
            lasts_h: coldest_in_h * 1.5 + 2.0,
            inside: Inside { now_c: Some(inside_c), heated },
        },
    )
}

fn part() -> impl Strategy<Value = Part> {
    (place(), 0.1..200.0_f64, 0.0..1.0_f64, 0.1..40.0_f64, 0.0..20.0_f64, 0.0..80.0_f64).prop_map(
        |(place, most_kg, share, loss, start_c, heater_w)| Part {
            place,
            water_kg: Between::of(most_kg * share.max(0.01), most_kg),
            loss_w_per_k: Between::of(loss * 0.5, loss),
            start_c: Between::of(start_c * 0.5, start_c),
            heater_w,
        },
    )
}

/// `later` is at neither end before `sooner`; `None` is after the night.
fn never_before(later: &When, sooner: &When) -> bool {
    let at = |h: Option<f64>| h.unwrap_or(f64::INFINITY);
    at(later.earliest_h) >= at(sooner.earliest_h) - HAIR_H
        && at(later.usual_h) >= at(sooner.usual_h) - HAIR_H
        && at(later.latest_h) >= at(sooner.latest_h) - HAIR_H
}

proptest! {
    #[test]
    fn the_earliest_is_never_after_the_latest(part in part(), night in night(), until in until()) {
        let when = when(&part, until, &night).unwrap();
        let at = |h: Option<f64>| h.unwrap_or(f64::INFINITY);
        prop_assert!(at(when.earliest_h) <= at(when.latest_h) + HAIR_H, "{when:?}");
        for h in 0..20 {
            let outside = |end| night.outside(end, f64::from(h));
            prop_assert!(outside(End::Earliest) <= outside(End::Usual));
            prop_assert!(outside(End::Usual) <= outside(End::Latest));
        }
    }

    #[test]
    fn colder_is_never_later(
        part in part(), night in night(), until in until(), by in 0.0..10.0_f64, which in 0..3,
    ) {
        let mut colder = night;
        match which {
            0 => colder.low_c -= by,
            1 => colder.outside_c -= by,
            _ => colder.inside.now_c = night.inside.now_c.map(|inside_c| inside_c - by),
        }
        let (mild, cold) = (when(&part, until, &night), when(&part, until, &colder));
        prop_assert!(never_before(&mild.unwrap(), &cold.unwrap()));
    }

    #[test]
    fn more_or_warmer_water_is_never_earlier(
        part in part(), night in night(), until in until(), by in 1.0..3.0_f64, warmer in 0.0..10.0_f64,
    ) {
        let less = when(&part, until, &night).unwrap();
        let start_c = part.start_c + Between::exactly(warmer);
        for more in [Part { water_kg: part.water_kg * by, ..part }, Part { start_c, ..part }] {
            prop_assert!(never_before(&when(&more, until, &night).unwrap(), &less));
        }
    }

    #[test]
    fn heating_is_never_earlier(
        part in part(), night in night(), until in until(), watts in 0.0..200.0_f64,
    ) {
        let off = Night { inside: Inside { heated: false, ..night.inside }, ..night };
        let on = Night { inside: Inside { heated: true, ..night.inside }, ..night };
        let (without, with) = (when(&part, until, &off), when(&part, until, &on));
        prop_assert!(never_before(&with.unwrap(), &without.unwrap()));
        let helped = Part { heater_w: part.heater_w + watts, ..part };
        prop_assert!(never_before(&when(&helped, until, &on).unwrap(), &with.unwrap()));
    }

    /// Of a tank that is at least as warm as the air outside: a colder one the wind warms first.
    #[test]
    fn windier_or_bare_is_never_later(
        litres in 5.0..200.0_f64, full in 0.05..1.0_f64, night in night(), until in until(),
        warmer in 0.0..15.0_f64,
    ) {
        let full = Between::exactly(full);
        let start_c = Between::exactly(night.outside_c.max(night.low_c + 2.0).max(0.0) + warmer);
        let at = |wind, insulated| {
            let loss_w_per_k = tank(litres, full, Place::Underfloor, insulated, wind);
            let water_kg = full * litres;
            let place = Place::Underfloor;
            when(&Part { place, water_kg, loss_w_per_k, start_c, heater_w: 0.0 }, until, &night)
                .unwrap()
        };
        for foam in [Some(true), Some(false), None] {
            prop_assert!(never_before(&at(Wind::Calm, foam), &at(Wind::Strong, foam)));
            let h = |wind| at(wind, foam).earliest_h.unwrap_or(f64::INFINITY);
            prop_assert!(h(Wind::Unknown) <= h(Wind::Strong) + HAIR_H);
        }
        prop_assert!(never_before(&at(Wind::Calm, Some(true)), &at(Wind::Calm, Some(false))));
    }

    /// A fuller tank holds at least as long, its wet surface included.
    #[test]
    fn a_fuller_tank_is_never_earlier(
        litres in 5.0..200.0_f64, full in 0.05..0.5_f64, more in 0.0..0.5_f64, night in night(),
        until in until(), start_c in 0.0..20.0_f64,
    ) {
        let at = |full: f64| {
            let full = Between::exactly(full);
            let loss_w_per_k = tank(litres, full, Place::Underfloor, None, Wind::Calm);
            let start_c = Between::exactly(start_c.max(night.outside_c).max(night.low_c + 2.0));
            let (place, water_kg) = (Place::Underfloor, full * litres);
            when(&Part { place, water_kg, loss_w_per_k, start_c, heater_w: 0.0 }, until, &night)
        };
        prop_assert!(never_before(&at(full + more).unwrap(), &at(full).unwrap()));
    }

    /// What the water has less is what went to the air: summed in small steps by itself.
    #[test]
    fn what_is_lost_is_what_the_water_had(
        water_kg in 0.5..200.0_f64, loss_w_per_k in 0.1..20.0_f64, start_c in 0.0..20.0_f64,
        air_c in -20.0..10.0_f64, hours in 0.1..20.0_f64,
    ) {
        let body = Body { water_kg, loss_w_per_k };
        let start_kj = body.heat_kj(start_c);
        let (mut kj, mut lost_kj) = (start_kj, 0.0);
        let step_h = hours / 20_000.0;
        for _ in 0..20_000 {
            let water_c = (kj / body.heat_kj(1.0)).max(0.0);
            let gone_kj = (loss_w_per_k * (water_c - air_c) * 3.6 * step_h).min(kj - body.ice_kj());
            kj -= gone_kj;
            lost_kj += gone_kj;
        }
        let ours_kj = body.after(start_kj, air_c, hours);
        let most_kj = start_kj - body.ice_kj();
        prop_assert!((ours_kj - (start_kj - lost_kj)).abs() <= 2e-3 * most_kj, "{ours_kj} {kj}");
    }

    #[test]
    fn nobody_knows_the_room_of_whom_nobody_said(part in part(), night in night(), until in until()) {
        let night = Night { inside: Inside { now_c: None, heated: false }, ..night };
        let known = when(&part, until, &night).is_some();
        prop_assert_eq!(known, part.place == Place::Underfloor);
    }

    #[test]
    fn a_thicker_pipe_cover_loses_less(
        bore_mm in 4.0..60.0_f64, wall_mm in 0.5..5.0_f64, cover_mm in 0.0..40.0_f64,
        more_mm in 0.0..20.0_f64,
    ) {
        let outer_mm = bore_mm + 2.0 * wall_mm;
        let loss = |insulation_mm: f64| {
            Pipe { bore_mm, outer_mm, insulation_mm }.loss_w_per_k_m(0.04, None)
        };
        prop_assert!(loss(cover_mm + more_mm) <= loss(cover_mm));
    }
}
