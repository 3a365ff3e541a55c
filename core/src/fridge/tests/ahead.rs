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

/// Departures from a minute to 60 days ahead, and cool-downs from none to 48 hours.
fn departures(mut law: impl FnMut(i64, i64, Begin)) {
    const MIN_MS: i64 = 60_000;
    for takes_min in (0..=48 * 60).step_by(97) {
        for leave_min in (1..=60 * 24 * 60).step_by(331) {
            let (leave, takes) = (NOW_MS + leave_min * MIN_MS, takes_min * MIN_MS);
            law(leave, takes, begin_by(leave, takes, NOW_MS).unwrap());
        }
    }
}

const NOW_MS: i64 = 1_790_000_000_000;

#[test]
fn the_start_lies_between_now_and_the_departure_and_what_is_short_is_told() {
    departures(|leave, takes, begin| {
        assert!((NOW_MS..=leave).contains(&begin.start_utc_ms), "{leave} {takes} {begin:?}");
        let cold = begin.start_utc_ms + takes;
        assert_eq!(begin.short_ms, (cold - leave).max(0), "{leave} {takes} {begin:?}");
        assert!(begin.short_ms == 0 || begin.start_utc_ms == NOW_MS, "late: begin now");
    });
}

#[test]
fn no_minute_before_the_last_start_is_asked_for() {
    departures(|leave, takes, begin| {
        let later_is_too_late = begin.start_utc_ms + 1 + takes > leave;
        assert!(later_is_too_late, "{leave} {takes} {begin:?}");
    });
}

#[test]
fn who_leaves_later_never_begins_earlier_and_what_takes_longer_never_begins_later() {
    let mut last: Option<(i64, i64, Begin)> = None;
    departures(|leave, takes, begin| {
        if let Some((before, took, known)) = last
            && took == takes
            && before < leave
        {
            assert!(known.start_utc_ms <= begin.start_utc_ms && known.short_ms >= begin.short_ms);
        }
        let longer = begin_by(leave, takes + 60_000, NOW_MS).unwrap();
        assert!(longer.start_utc_ms <= begin.start_utc_ms && longer.short_ms >= begin.short_ms);
        last = Some((leave, takes, begin));
    });
}

#[test]
fn a_departure_that_is_over_or_out_of_sight_is_not_planned_for() {
    for leave in [NOW_MS - 1, NOW_MS, NOW_MS + LEAVE_MS_MAX + 1, i64::MIN, i64::MAX] {
        assert!(begin_by(leave, 1, NOW_MS).is_err(), "{leave}");
    }
    assert!(begin_by(NOW_MS + LEAVE_MS_MAX, i64::MAX, NOW_MS).is_ok());
}
