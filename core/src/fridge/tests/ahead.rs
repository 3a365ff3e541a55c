//! Before a trip, at the pump and on a ferry: by example, then in every combination of inputs.

use super::*;

/// How the fridge stands at a stop: engine off, no flame, nothing from outside.
fn there(inputs: &Inputs, selector: Selector) -> Inputs {
    Inputs {
        selector,
        mains: Known::No,
        engine_running: Known::No,
        engine_off: Age::Exactly(0),
        flame_forbidden: Known::Yes,
        ..inputs.clone()
    }
}

#[test]
fn it_is_cooled_down_on_mains_first_and_else_on_gas_and_never_on_12_v() {
    let chilled = |inputs: &Inputs| chill(inputs).unwrap();
    let mains = chilled(&Inputs { mains: Known::Yes, ..manual(Selector::Dc) });
    assert_eq!((mains.set, mains.source), (Some(Selector::Mains), Source::Mains));
    let gas = chilled(&manual(Selector::Dc));
    assert_eq!((gas.set, gas.source), (Some(Selector::Gas), Source::Gas));
    let running = Inputs { engine_running: Known::Yes, gas: Known::No, ..manual(Selector::Dc) };
    let nothing = chilled(&running);
    assert_eq!((nothing.set, nothing.source), (Some(Selector::Off), Source::None));
    let left_to_itself = chilled(&parked());
    assert_eq!((left_to_itself.set, left_to_itself.source), (Some(Selector::Auto), Source::Gas));
}

#[test]
fn what_to_cool_it_on_is_asked_where_it_is_not_known() {
    let asked = |inputs: Inputs| chill(&inputs).unwrap().asks;
    let post = asked(Inputs { mains: Known::Unknown, gas: Known::No, ..manual(Selector::Off) });
    assert_eq!(post, [Feed::Mains]);
    let flame = asked(Inputs { flame_forbidden: Known::Unknown, ..manual(Selector::Off) });
    assert_eq!(flame, [Feed::FlameForbidden]);
}

#[test]
fn an_automatic_with_open_gas_is_switched_off_for_the_pump_and_set_back_after_it() {
    let stop = standing(&parked(), Stop::Fuel).unwrap();
    assert_eq!(stop.left, [sure(Hazard::LightsByItself { in_ms: DELAY_MS })]);
    assert!(stop.switch_off);
    assert_eq!(stop.after, Some(Selector::Auto));
}

#[test]
fn an_automatic_with_the_gas_shut_may_stay_as_it_is_at_the_pump() {
    let stop = standing(&Inputs { gas: Known::No, ..parked() }, Stop::Fuel).unwrap();
    assert_eq!(stop, Standing { left: Vec::new(), switch_off: false, after: None });
}

#[test]
fn a_manual_fridge_on_gas_is_a_hazard_at_the_pump_from_the_first_second() {
    let stop = standing(&manual(Selector::Gas), Stop::Fuel).unwrap();
    assert_eq!(stop.left, [sure(Hazard::FlameForbidden)], "and no minutes are counted");
    assert!(stop.switch_off);
    assert_eq!(stop.after, Some(Selector::Dc));
}

#[test]
fn a_manual_fridge_left_on_12_v_empties_the_battery_at_the_pump() {
    let stop = standing(&manual(Selector::Dc), Stop::Fuel).unwrap();
    assert_eq!(stop.left, [sure(Hazard::FlatBattery)]);
    assert!(stop.switch_off);
}

#[test]
fn whatever_is_set_it_is_off_on_a_ferry() {
    for (automatic, selector) in MODELS {
        let stop = standing(&Inputs { automatic, selector, ..parked() }, Stop::Ferry).unwrap();
        assert_eq!(stop.switch_off, selector != Selector::Off, "{selector:?}");
    }
}

#[test]
fn what_its_owner_left_off_stays_off_after_a_stop() {
    for stop in [Stop::Fuel, Stop::Ferry] {
        let off = standing(&manual(Selector::Off), stop).unwrap();
        assert_eq!(off, Standing { left: Vec::new(), switch_off: false, after: None });
    }
}

#[test]
fn where_the_alternator_may_drop_its_signal_nothing_is_promised_after_the_stop() {
    let inputs = Inputs { charge_signal: Known::Unknown, ..manual(Selector::Gas) };
    assert_eq!(standing(&inputs, Stop::Fuel).unwrap().after, None);
}

#[test]
fn in_every_combination_it_is_never_cooled_on_12_v_nor_on_a_flame_that_is_forbidden() {
    for_all(|inputs| {
        let chill = chill(inputs).unwrap();
        assert!(chill.set != Some(Selector::Dc) && chill.source != Source::Dc, "{inputs:?}");
        assert!(inputs.automatic || chill.set != Some(Selector::Auto), "{inputs:?}");
        if chill.source == Source::Gas {
            assert_eq!(inputs.flame_forbidden, Known::No, "{inputs:?}");
        }
        assert_eq!(chill.set.is_none(), !chill.asks.is_empty(), "{inputs:?} {chill:?}");
    });
}

#[test]
fn in_every_combination_nothing_runs_it_at_a_stop_and_nothing_can_go_wrong() {
    for_all(|inputs| {
        for stop in [Stop::Fuel, Stop::Ferry] {
            let standing = standing(inputs, stop).unwrap();
            let set = if standing.switch_off { Selector::Off } else { inputs.selector };
            let advice = answer(&there(inputs, set));
            assert_eq!(advice.source, Source::None, "{inputs:?} {standing:?}");
            assert_eq!(advice.next, None, "{inputs:?} {standing:?}");
            assert!(advice.cautions.is_empty(), "{inputs:?} {standing:?}");
            let burns = standing.after == Some(Selector::Gas);
            assert!(!burns || inputs.flame_on_road == Known::Yes, "{inputs:?} {standing:?}");
            let chooses = standing.after == Some(Selector::Auto);
            assert!(!chooses || inputs.automatic, "{inputs:?} {standing:?}");
        }
    });
}
