use super::*;

fn minutes(takes: Option<Heating>) -> f64 {
    takes.unwrap().hours * 60.0
}

/// Common practice, no source: ten litres are hot in roughly ten minutes with gas and electric together.
/// Only the order of magnitude is held to it, with powers as they are common.
#[test]
fn ten_litres_are_hot_in_some_ten_minutes_with_gas_and_electric_together() {
    let source = Source::Mixed { electric_w: 1_850.0, gas_w: 1_500.0 };
    let cold = Between::of(8.0, 15.0);
    let takes = takes(10.0, cold, 60.0, source, Between::of(10.0, 20.0));
    let (least, most) = (minutes(takes.least), minutes(takes.most));
    assert!(5.0 <= least && least < most && most <= 25.0, "{least} to {most}");
}

#[test]
fn what_the_element_cannot_hold_is_never_hot() {
    let leaky = Boiler { volume_l: 10.0, loss_w_per_k: 10.0, room_c: 0.0 };
    assert_eq!(leaky.heat(10.0, 70.0, 600.0), None);
    assert_eq!(leaky.heat(80.0, 85.0, 600.0), None);
    assert!(leaky.heat(10.0, 50.0, 600.0).is_some());
}

#[test]
fn water_that_is_hot_already_takes_no_time() {
    let boiler = Boiler { volume_l: 10.0, loss_w_per_k: 1.0, room_c: 20.0 };
    assert!(boiler.heat(60.0, 50.0, 0.0).unwrap().hours.abs() < 1e-12);
}

/// By hand: 10 L at 60 °C with 10 °C to 40 °C: 6.7 L where all mixes, 16.7 L where nothing does.
#[test]
fn ten_litres_give_seven_to_seventeen_at_forty_degrees() {
    let mixed = mixed_l(10.0, 60.0, 10.0, 40.0).unwrap();
    assert!((mixed.lower - 20.0 / 3.0).abs() < 1e-9 && (mixed.upper - 50.0 / 3.0).abs() < 1e-9);
    assert_eq!(mixed_l(10.0, 60.0, 45.0, 40.0), None);
    assert_eq!(mixed_l(10.0, 35.0, 10.0, 40.0), Some(Between::exactly(0.0)));
    let left_c = left_c(10.0, 60.0, 10.0, 40.0, mixed.upper);
    assert!((left_c - 10.0).abs() < 1e-9);
}

#[test]
fn it_cools_towards_the_room_and_no_further() {
    let boiler = Boiler { volume_l: 10.0, loss_w_per_k: 1.0, room_c: 15.0 };
    assert!(boiler.cooled_c(60.0, 2.0) < 60.0);
    assert!((boiler.cooled_c(60.0, 1_000.0) - 15.0).abs() < 1e-6);
}

#[test]
fn so_long_as_heating_takes_it_is_as_warm_as_that() {
    let boiler = Boiler { volume_l: 10.0, loss_w_per_k: 1.5, room_c: 12.0 };
    for to_c in [20.0, 45.0, 69.0] {
        let hours = boiler.heat(10.0, to_c, 1_200.0).unwrap().hours;
        assert!((boiler.warmed_c(10.0, 70.0, 1_200.0, hours) - to_c).abs() < 0.002, "{to_c}");
    }
    assert!((boiler.warmed_c(10.0, 70.0, 1_200.0, 99.0) - 70.0).abs() < 1e-12);
    assert!((boiler.warmed_c(10.0, 70.0, 1_200.0, 0.0) - 10.0).abs() < 0.002);
}
