use super::*;
use crate::reckon::frost::loss::{Wind, tank};
use crate::reckon::frost::pipe::Pipe;

const HEATED: Inside = Inside { now_c: None, heated: true };

fn night(outside_c: f64, low_c: f64, inside: Inside) -> Night {
    Night { outside_c, low_c, coldest_in_h: Between::of(8.0, 16.0), lasts_h: 14.0, inside }
}

fn fresh(place: Place, start_c: f64) -> Part {
    Part {
        place,
        water_kg: Between::exactly(80.0),
        loss_w_per_k: tank(100.0, Between::exactly(0.8), place, Some(false), Wind::Calm),
        start_c: Between::exactly(start_c),
        heater_w: 0.0,
    }
}

const ZERO: Until = Until::Celsius(0.0);

#[test]
fn a_bare_tank_below_the_floor_freezes_in_a_hard_night_and_not_in_a_mild_one() {
    let cold = HEATED;
    let part = fresh(Place::Underfloor, 10.0);
    let hard = when(&part, ZERO, &night(0.0, -12.0, cold)).unwrap();
    let earliest_h = hard.earliest_h.unwrap();
    assert!((1.0..6.0).contains(&earliest_h), "{hard:?}");
    assert!(hard.latest_h.is_none_or(|latest_h| latest_h > earliest_h));
    let mild = when(&part, ZERO, &night(8.0, 3.0, cold)).unwrap();
    assert_eq!(mild, When { earliest_h: None, usual_h: None, latest_h: None });
}

/// The living space is warm in both: only the tank inside is held by it.
#[test]
fn a_warm_room_holds_what_stands_inside_and_nothing_below_the_floor() {
    let night = night(-3.0, -10.0, HEATED);
    let inside = when(&fresh(Place::Inside, 15.0), ZERO, &night).unwrap();
    assert_eq!(inside.earliest_h, None);
    assert!(when(&fresh(Place::Underfloor, 15.0), ZERO, &night).unwrap().earliest_h.is_some());
}

#[test]
fn how_warm_it_is_inside_is_not_made_up() {
    let cold = Inside { now_c: None, heated: false };
    let night = night(-3.0, -10.0, cold);
    assert_eq!(when(&fresh(Place::Inside, 15.0), ZERO, &night), None);
    assert_eq!(when(&fresh(Place::HeatedFloor, 15.0), ZERO, &night), None);
    assert!(when(&fresh(Place::Underfloor, 15.0), ZERO, &night).is_some());
}

#[test]
fn a_heater_that_gives_more_than_the_tank_loses_holds_it() {
    let night = night(-3.0, -10.0, HEATED);
    let part = Part { heater_w: 2_000.0, ..fresh(Place::Underfloor, 5.0) };
    assert_eq!(when(&part, ZERO, &night).unwrap().earliest_h, None);
}

#[test]
fn ice_comes_after_0_degrees_and_melts_in_warm_air() {
    let body = Body { water_kg: 10.0, loss_w_per_k: 5.0 };
    let cold = || std::iter::repeat_n(-5.0, 2_000);
    let zero = body.reaches(ZERO, 4.0, cold(), 0.1).unwrap();
    let burst = body.reaches(Until::Frozen(BURSTS), 4.0, cold(), 0.1).unwrap();
    let solid = body.reaches(Until::Frozen(1.0), 4.0, cold(), 0.1).unwrap();
    assert!(zero < burst && burst < solid);
    let half = body.after(0.0, -5.0, (solid - zero) / 2.0);
    assert!((half / body.ice_kj() - 0.5).abs() < 1e-9);
    assert!(body.after(half, 5.0, (solid - zero) / 2.0).abs() < 1e-6);
    assert!(body.after(half, 5.0, 200.0) > 0.0);
    assert!((body.after(half, -5.0, 200.0) - body.ice_kj()).abs() < 1e-9);
}

#[test]
fn insulation_slows_a_pipe_down() {
    let film = loss::film(Place::Underfloor, Wind::Calm);
    let bare = Pipe { bore_mm: 10.0, outer_mm: 12.0, insulation_mm: 0.0 };
    let foam = Pipe { insulation_mm: 10.0, ..bare };
    assert!(foam.loss(film).upper < bare.loss(film).upper);
}

/// What is drawn agrees with what is said: the coldest course comes to 0 °C in the step in which the first
/// ice is reckoned, and no course leaves its band.
#[test]
fn the_course_of_a_part_comes_to_zero_when_its_first_ice_is_reckoned() {
    for (outside_c, low_c, start_c) in [(0.0, -12.0, 10.0), (5.0, -6.0, 15.0), (-3.0, -8.0, 4.0)] {
        let night = night(outside_c, low_c, HEATED);
        let part = fresh(Place::Underfloor, start_c);
        let course = course(&part, &night).unwrap();
        assert!(course.iter().all(|[cold, usual, warm]| cold <= usual && usual <= warm));
        let earliest_h = when(&part, ZERO, &night).unwrap().earliest_h.unwrap();
        let step = course.iter().position(|[cold, ..]| *cold <= 1e-12).unwrap();
        let reached_h = f64::from(u32::try_from(step).unwrap()) * STEP_H;
        assert!(
            (0.0..=STEP_H + 1e-9).contains(&(reached_h - earliest_h)),
            "{reached_h} {earliest_h}"
        );
    }
}
