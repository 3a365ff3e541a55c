//! What owners meet, by example; then every combination of inputs against plain rules written a
//! second time here, and the automaton stepped in pieces against stepped at once.

mod ahead;

use super::automaton::{Stage, State, World, next_change, step};
use super::*;

const MINUTE_MS: i64 = 60_000;
const DELAY_MS: i64 = 20 * MINUTE_MS;
const KNOWN: [Known; 3] = [Known::Yes, Known::No, Known::Unknown];
/// (automatic, selector): every pair that exists.
const MODELS: [(bool, Selector); 9] = [
    (true, Selector::Auto),
    (true, Selector::Off),
    (true, Selector::Mains),
    (true, Selector::Dc),
    (true, Selector::Gas),
    (false, Selector::Off),
    (false, Selector::Mains),
    (false, Selector::Dc),
    (false, Selector::Gas),
];

/// An automatic model off the mains, engine stopped five minutes ago, gas open, no flame forbidden.
fn parked() -> Inputs {
    Inputs {
        automatic: true,
        selector: Selector::Auto,
        mains: Known::No,
        engine_running: Known::No,
        charge_signal: Known::Yes,
        gas: Known::Yes,
        engine_off: Age::Exactly(5 * MINUTE_MS),
        gas_delay_ms: DELAY_MS,
        flame_forbidden: Known::No,
        flame_on_road: Known::No,
    }
}

fn manual(selector: Selector) -> Inputs {
    Inputs { automatic: false, selector, ..parked() }
}

fn sure(hazard: Hazard) -> Caution {
    Caution { hazard, sure: true }
}

fn unsure(hazard: Hazard) -> Caution {
    Caution { hazard, sure: false }
}

fn answer(inputs: &Inputs) -> Advice {
    advise(inputs).unwrap()
}

#[test]
fn mains_come_first() {
    let advice = answer(&Inputs { mains: Known::Yes, engine_running: Known::Yes, ..parked() });
    assert_eq!(advice.source, Source::Mains);
    assert_eq!(advice.because, [Because::MainsReaches]);
    assert_eq!((advice.next, advice.by_hand), (None, None));
    assert!(advice.cautions.is_empty());
}

#[test]
fn twelve_volts_hold_while_the_engine_runs() {
    let advice = answer(&Inputs { engine_running: Known::Yes, ..parked() });
    assert_eq!(advice.source, Source::Dc);
    assert_eq!(advice.because, [Because::NoMains, Because::EngineRuns, Because::ChargeStands]);
    assert_eq!(advice.cautions, [sure(Hazard::HoldsOnly)]);
}

#[test]
fn gas_waits_for_what_is_left_of_the_delay() {
    let advice = answer(&parked());
    let left_ms = 15 * MINUTE_MS;
    assert_eq!(advice.source, Source::None);
    assert_eq!(advice.next, Some(Change { source: Source::Gas, in_ms: left_ms }));
    let because = [
        Because::NoMains,
        Because::EngineStopped,
        Because::GasReaches,
        Because::GasDelay { left_ms },
    ];
    assert_eq!(advice.because, because);
    assert_eq!(advice.by_hand, None);
}

#[test]
fn the_delay_is_the_packs() {
    for delay_ms in [0, 5 * MINUTE_MS, 5 * MINUTE_MS + 1, 15 * MINUTE_MS, 60 * MINUTE_MS] {
        let advice = answer(&Inputs { gas_delay_ms: delay_ms, ..parked() });
        let left_ms = delay_ms - 5 * MINUTE_MS;
        if left_ms > 0 {
            assert_eq!(advice.source, Source::None, "{delay_ms}");
            assert_eq!(advice.next, Some(Change { source: Source::Gas, in_ms: left_ms }));
        } else {
            assert_eq!(advice.source, Source::Gas, "{delay_ms}");
            assert_eq!(advice.next, None);
            assert!(advice.because.contains(&Because::DelayOver));
        }
    }
}

#[test]
fn no_gas_is_nothing_with_every_reason() {
    let advice = answer(&Inputs { gas: Known::No, flame_forbidden: Known::Yes, ..parked() });
    assert_eq!(advice.source, Source::None);
    assert_eq!(advice.next, None);
    let because = [
        Because::NoMains,
        Because::EngineStopped,
        Because::FlameForbidden,
        Because::NoGas,
        Because::GasDelay { left_ms: 15 * MINUTE_MS },
    ];
    assert_eq!(advice.because, because);
    // Nothing can light: nothing to set.
    assert_eq!((advice.by_hand, advice.cautions.len()), (None, 0));
}

#[test]
fn after_a_restart_gas_may_start_within_the_delay() {
    let lost = Inputs { engine_off: Age::from(None), ..parked() };
    let advice = answer(&lost);
    assert_eq!(advice.source, Source::Unknown);
    assert_eq!(advice.next, Some(Change { source: Source::Gas, in_ms: DELAY_MS }));
    assert!(advice.because.contains(&Because::Unknown(Feed::EngineStop)));
    // Seven minutes on, the latest time has come seven minutes nearer.
    let later = answer(&Inputs { engine_off: Age::AtLeast(7 * MINUTE_MS), ..lost.clone() });
    assert_eq!(later.next, Some(Change { source: Source::Gas, in_ms: 13 * MINUTE_MS }));
    let over = answer(&Inputs { engine_off: Age::AtLeast(DELAY_MS), ..lost });
    assert_eq!((over.source, over.next), (Source::Gas, None));
    assert!(over.because.contains(&Because::DelayOver));
}

#[test]
fn an_alternator_that_may_drop_the_signal_leaves_no_countdown_to_trust() {
    let advice = answer(&Inputs { charge_signal: Known::Unknown, ..parked() });
    assert_eq!(advice.source, Source::Unknown);
    assert_eq!(advice.next, Some(Change { source: Source::Gas, in_ms: 15 * MINUTE_MS }));
    assert!(advice.because.contains(&Because::Unknown(Feed::ChargeSignal)));
    assert!(!advice.because.contains(&Because::Unknown(Feed::EngineStop)));
    let dropped = answer(&Inputs { charge_signal: Known::No, ..parked() });
    let because =
        [Because::NoMains, Because::EngineStopped, Because::ChargeDropped, Because::GasReaches];
    assert_eq!((dropped.source, dropped.because), (Source::Unknown, because.to_vec()));
}

#[test]
fn an_engine_without_its_charge_signal_may_come_to_light_gas() {
    let driving = Inputs { engine_running: Known::Yes, charge_signal: Known::No, ..parked() };
    let advice = answer(&driving);
    assert_eq!((advice.source, advice.next), (Source::Unknown, None));
    assert!(advice.because.contains(&Because::ChargeDropped));
    assert_eq!(advice.cautions, [sure(Hazard::FlameOnRoad)]);
    assert_eq!(advice.by_hand, Some(Selector::Off));
    for engine_off in [Age::Exactly(DELAY_MS), Age::AtLeast(0), Age::AtLeast(DELAY_MS)] {
        assert_eq!(answer(&Inputs { engine_off, ..driving.clone() }), advice);
    }
    let allowed = answer(&Inputs { flame_on_road: Known::Yes, ..driving.clone() });
    assert_eq!((allowed.cautions.len(), allowed.by_hand), (0, None));
    let at_once = answer(&Inputs { gas_delay_ms: 0, ..driving.clone() });
    assert_eq!(at_once.source, Source::Gas);
    assert!(!at_once.because.contains(&Because::DelayOver));
    let set = answer(&Inputs { selector: Selector::Dc, ..driving.clone() });
    assert_eq!(set.by_hand, Some(Selector::Off));
    let shut = answer(&Inputs { gas: Known::No, ..driving });
    assert_eq!((shut.source, shut.by_hand), (Source::None, None));
    assert!(shut.cautions.is_empty());
}

#[test]
fn a_fuel_station_stops_the_automatic_from_choosing_gas() {
    let station = Inputs { flame_forbidden: Known::Yes, ..parked() };
    let advice = answer(&station);
    assert_eq!((advice.source, advice.next), (Source::None, None));
    assert_eq!(advice.by_hand, Some(Selector::Off));
    assert_eq!(advice.cautions, [sure(Hazard::LightsByItself { in_ms: 15 * MINUTE_MS })]);
    let long = answer(&Inputs { engine_off: Age::Exactly(2 * DELAY_MS), ..station.clone() });
    assert_eq!(long.cautions, [sure(Hazard::LightsByItself { in_ms: 0 })]);
    // After a restart the earliest counts.
    let lost = answer(&Inputs { engine_off: Age::AtLeast(0), ..station.clone() });
    assert_eq!(lost.cautions, [sure(Hazard::LightsByItself { in_ms: 0 })]);
    // Not knowing whether the valve is open is no reason to leave it be.
    let unseen = answer(&Inputs { gas: Known::Unknown, ..station.clone() });
    assert_eq!(unseen.by_hand, Some(Selector::Off));
    assert_eq!(unseen.cautions, [unsure(Hazard::LightsByItself { in_ms: 15 * MINUTE_MS })]);
    // Nothing is asked of the driver in a tunnel while 12 V holds.
    let tunnel = answer(&Inputs { engine_running: Known::Yes, ..station });
    assert_eq!((tunnel.source, tunnel.by_hand), (Source::Dc, None));
}

#[test]
fn an_unknown_rule_is_asked_and_not_taken_for_leave() {
    let advice = answer(&Inputs {
        flame_forbidden: Known::Unknown,
        engine_off: Age::Exactly(DELAY_MS),
        ..parked()
    });
    assert_eq!((advice.source, advice.by_hand), (Source::Unknown, None));
    assert!(advice.because.contains(&Because::Unknown(Feed::FlameForbidden)));
    assert_eq!(advice.cautions, [unsure(Hazard::LightsByItself { in_ms: 0 })]);
}

#[test]
fn a_manual_model_counts_no_minutes() {
    for selector in [Selector::Mains, Selector::Dc, Selector::Gas] {
        for delay_ms in [0, DELAY_MS, 10 * DELAY_MS] {
            let inputs = Inputs { gas_delay_ms: delay_ms, ..manual(selector) };
            let advice = answer(&inputs);
            assert_eq!(advice, answer(&Inputs { gas_delay_ms: DELAY_MS, ..inputs }));
            assert_eq!(advice.next, None);
            assert!(!advice.because.iter().any(|because| {
                matches!(because, Because::GasDelay { .. } | Because::DelayOver)
            }));
        }
    }
    assert_eq!(answer(&manual(Selector::Gas)).source, Source::Gas);
}

#[test]
fn a_manual_model_stays_where_it_was_set_and_is_told_what_to_set() {
    let hooked = answer(&Inputs { mains: Known::Yes, ..manual(Selector::Gas) });
    assert_eq!((hooked.source, hooked.by_hand), (Source::Gas, Some(Selector::Mains)));
    let drained = answer(&manual(Selector::Dc));
    assert_eq!((drained.source, drained.by_hand), (Source::Dc, Some(Selector::Gas)));
    assert_eq!(drained.cautions, [sure(Hazard::FlatBattery), sure(Hazard::HoldsOnly)]);
    let driving = Inputs { engine_running: Known::Yes, ..manual(Selector::Gas) };
    let left = answer(&driving);
    assert_eq!((left.source, left.by_hand), (Source::Gas, Some(Selector::Dc)));
    assert_eq!(left.cautions, [sure(Hazard::FlameOnRoad)]);
    let burnt_out =
        answer(&Inputs { engine_running: Known::Yes, gas: Known::No, ..manual(Selector::Gas) });
    assert!(burnt_out.cautions.is_empty());
    let forgotten = answer(&Inputs { mains: Known::Yes, ..manual(Selector::Dc) });
    let because = [Because::SetByHand(Selector::Dc), Because::MainsReaches, Because::EngineStopped];
    assert_eq!(forgotten.because, because);
    let unplugged = answer(&Inputs { gas: Known::No, ..manual(Selector::Mains) });
    assert_eq!((unplugged.source, unplugged.by_hand), (Source::None, None));
    let right = answer(&Inputs { mains: Known::Yes, ..manual(Selector::Mains) });
    assert_eq!((right.source, right.by_hand), (Source::Mains, None));
}

#[test]
fn a_manual_flame_at_a_fuel_station_is_a_danger_with_or_without_gas() {
    for gas in KNOWN {
        let advice = answer(&Inputs { flame_forbidden: Known::Yes, gas, ..manual(Selector::Gas) });
        assert_eq!(advice.cautions, [sure(Hazard::FlameForbidden)]);
        assert_eq!(advice.by_hand, Some(Selector::Off));
    }
}

#[test]
fn gas_on_the_road_is_not_forbidden_where_the_fittings_allow_it() {
    let driving = Inputs {
        engine_running: Known::Yes,
        charge_signal: Known::No,
        flame_on_road: Known::Yes,
        ..manual(Selector::Gas)
    };
    let advice = answer(&driving);
    assert!(advice.cautions.is_empty());
    assert_eq!((advice.source, advice.by_hand), (Source::Gas, None));
    let asked = answer(&Inputs { flame_on_road: Known::Unknown, ..driving });
    assert_eq!(asked.cautions, [unsure(Hazard::FlameOnRoad)]);
    assert!(asked.because.contains(&Because::Unknown(Feed::FlameOnRoad)));
}

#[test]
fn an_override_on_an_automatic_is_kept_and_auto_is_offered() {
    let gas = answer(&Inputs { selector: Selector::Gas, ..parked() });
    assert_eq!((gas.source, gas.next, gas.by_hand), (Source::Gas, None, None));
    let dc = answer(&Inputs { selector: Selector::Dc, ..parked() });
    assert_eq!((dc.source, dc.by_hand), (Source::Dc, Some(Selector::Auto)));
    let station = Inputs { selector: Selector::Dc, flame_forbidden: Known::Yes, ..parked() };
    assert_eq!(answer(&station).by_hand, Some(Selector::Off));
}

#[test]
fn only_what_could_change_the_advice_is_asked_for() {
    let hooked = Inputs {
        mains: Known::Yes,
        engine_running: Known::Unknown,
        gas: Known::Unknown,
        engine_off: Age::AtLeast(0),
        flame_on_road: Known::Unknown,
        ..parked()
    };
    assert_eq!(answer(&hooked).because, [Because::MainsReaches]);
    let shut = Inputs {
        engine_off: Age::AtLeast(0),
        gas: Known::No,
        flame_forbidden: Known::Unknown,
        ..parked()
    };
    assert_eq!(answer(&shut).because, [Because::NoMains, Because::EngineStopped, Because::NoGas]);
}

#[test]
fn what_to_switch_it_on_to() {
    let set = |inputs: &Inputs| setting_for(inputs).unwrap();
    assert_eq!(set(&Inputs { selector: Selector::Off, ..parked() }), Some(Selector::Auto));
    assert_eq!(set(&manual(Selector::Off)), Some(Selector::Gas));
    let hooked = Inputs { mains: Known::Yes, ..manual(Selector::Off) };
    assert_eq!(set(&hooked), Some(Selector::Mains));
    let ferry = Inputs { flame_forbidden: Known::Yes, ..parked() };
    assert_eq!(set(&ferry), Some(Selector::Off));
    let unknown = Inputs { mains: Known::Unknown, ..manual(Selector::Off) };
    assert_eq!(set(&unknown), None);
}

#[test]
fn what_no_fridge_can_be_is_refused_with_what_was_expected() {
    let refused = |inputs: &Inputs, name: &str| match advise(inputs) {
        Err(Error::InvalidInput { field, expected }) => {
            assert_eq!(field, name);
            assert!(!expected.is_empty());
            assert!(setting_for(inputs).is_err());
        }
        other => panic!("{name}: {other:?}"),
    };
    refused(&manual(Selector::Auto), "selector");
    refused(&Inputs { gas_delay_ms: -1, ..parked() }, "gas_delay_ms");
    refused(&Inputs { engine_off: Age::Exactly(-1), ..parked() }, "engine_off_ms");
    refused(&Inputs { engine_off: Age::AtLeast(i64::MIN), ..parked() }, "engine_off_ms");
    assert!(advise(&Inputs { gas_delay_ms: i64::MAX, ..parked() }).is_ok());
    assert!(advise(&Inputs { engine_off: Age::Exactly(i64::MAX), ..parked() }).is_ok());
}

#[test]
fn inputs_and_advice_survive_json() {
    let advice = answer(&Inputs { gas: Known::Unknown, ..parked() });
    let text = serde_json::to_string(&advice).unwrap();
    assert_eq!(serde_json::from_str::<Advice>(&text).unwrap(), advice);
    let text = serde_json::to_string(&parked()).unwrap();
    assert_eq!(serde_json::from_str::<Inputs>(&text).unwrap(), parked());
}

/// Every combination of the inputs, with times on either side of every edge.
fn for_all(mut check: impl FnMut(&Inputs)) {
    let ages = [
        Age::Exactly(0),
        Age::Exactly(DELAY_MS - 1),
        Age::Exactly(DELAY_MS),
        Age::AtLeast(0),
        Age::AtLeast(DELAY_MS - 1),
        Age::AtLeast(DELAY_MS),
    ];
    for code in 0..729_usize {
        let digit = |place: u32| KNOWN[code.checked_div(3_usize.pow(place)).unwrap() % 3];
        for (automatic, selector) in MODELS {
            for engine_off in ages {
                for gas_delay_ms in [0, DELAY_MS] {
                    check(&Inputs {
                        automatic,
                        selector,
                        mains: digit(0),
                        engine_running: digit(1),
                        charge_signal: digit(2),
                        gas: digit(3),
                        engine_off,
                        gas_delay_ms,
                        flame_forbidden: digit(4),
                        flame_on_road: digit(5),
                    });
                }
            }
        }
    }
}

/// The rules again, plainly: what may be drawn on, of `[mains, dc, gas, none]`.
fn possible_sources(inputs: &Inputs) -> Vec<Source> {
    let mut found = Vec::new();
    for &mains in inputs.mains.possible() {
        for &engine in inputs.engine_running.possible() {
            for &charge in inputs.charge_signal.possible() {
                for &gas in inputs.gas.possible() {
                    for &forbidden in inputs.flame_forbidden.possible() {
                        let gas_in_auto = || match (forbidden || !gas, engine, inputs.engine_off) {
                            (true, _, _) => vec![Source::None],
                            // A signal that comes and goes: either, unless there is no delay.
                            (false, true, _) if inputs.gas_delay_ms > 0 => {
                                vec![Source::None, Source::Gas]
                            }
                            (false, true, _) => vec![Source::Gas],
                            (false, false, age) if age.least_ms() >= inputs.gas_delay_ms => {
                                vec![Source::Gas]
                            }
                            (false, false, Age::Exactly(_)) if charge => vec![Source::None],
                            (false, false, _) => vec![Source::None, Source::Gas],
                        };
                        found.extend(match inputs.selector {
                            Selector::Mains | Selector::Auto if mains => vec![Source::Mains],
                            Selector::Gas if gas => vec![Source::Gas],
                            Selector::Dc => vec![Source::Dc],
                            Selector::Off | Selector::Mains | Selector::Gas => {
                                vec![Source::None]
                            }
                            Selector::Auto if engine && charge => vec![Source::Dc],
                            Selector::Auto => gas_in_auto(),
                        });
                    }
                }
            }
        }
    }
    found.sort_unstable();
    found.dedup();
    found
}

#[test]
fn every_combination_agrees_with_the_plain_rules() {
    let mut count = 0;
    for_all(|inputs| {
        let advice = answer(inputs);
        let possible = possible_sources(inputs);
        let expected = if possible.len() == 1 { possible[0] } else { Source::Unknown };
        assert_eq!(advice.source, expected, "{inputs:?}");
        count += 1;
    });
    assert_eq!(count, 729 * 9 * 6 * 2);
}

#[test]
fn every_combination_keeps_the_safety_rules() {
    for_all(|inputs| {
        let advice = answer(inputs);
        let context = || format!("{inputs:?} {advice:?}");
        if inputs.selector == Selector::Auto {
            if advice.source == Source::Gas {
                assert_eq!(inputs.flame_forbidden, Known::No, "{}", context());
                let over = inputs.engine_off.least_ms() >= inputs.gas_delay_ms;
                assert!(over || inputs.gas_delay_ms == 0, "{}", context());
            }
            if advice.source == Source::Dc {
                assert_eq!(inputs.engine_running, Known::Yes, "{}", context());
            }
            assert_eq!(inputs.mains == Known::Yes, advice.source == Source::Mains, "{}", context());
        }
        let gas_set = advice.by_hand == Some(Selector::Gas);
        let auto_set = advice.by_hand == Some(Selector::Auto);
        assert!(!gas_set && !auto_set || inputs.flame_forbidden == Known::No, "{}", context());
        let road = inputs.engine_running == Known::No || inputs.flame_on_road == Known::Yes;
        assert!(!gas_set || road, "{}", context());
        let dc_set = advice.by_hand == Some(Selector::Dc);
        assert!(!dc_set || inputs.engine_running == Known::Yes, "{}", context());
        assert!(advice.by_hand != Some(inputs.selector), "{}", context());
        assert!(inputs.automatic || !auto_set, "{}", context());
    });
}

#[test]
fn every_hazard_that_a_world_holds_is_said_and_every_unknown_is_explained() {
    for_all(|inputs| {
        let advice = answer(inputs);
        let said = |hazard: &dyn Fn(Hazard) -> bool| {
            advice.cautions.iter().find(|caution| hazard(caution.hazard)).map(|found| found.sure)
        };
        let gas_set = inputs.selector == Selector::Gas;
        let forbidden = match inputs.flame_forbidden {
            Known::Yes if gas_set => Some(true),
            Known::Unknown if gas_set => Some(false),
            Known::Yes | Known::No | Known::Unknown => None,
        };
        assert_eq!(said(&|hazard| hazard == Hazard::FlameForbidden), forbidden, "{inputs:?}");
        let charged = (inputs.engine_running, inputs.charge_signal);
        let flat = match charged {
            _ if inputs.selector != Selector::Dc => None,
            (Known::Yes, Known::Yes) => None,
            (Known::No, _) | (_, Known::No) => Some(true),
            (Known::Unknown, _) | (_, Known::Unknown) => Some(false),
        };
        assert_eq!(said(&|hazard| hazard == Hazard::FlatBattery), flat, "{inputs:?}");
        let unknown = advice.because.iter().any(|because| matches!(because, Because::Unknown(_)));
        let dropped = advice.because.contains(&Because::ChargeDropped);
        assert!(advice.source != Source::Unknown || unknown || dropped, "{inputs:?} {advice:?}");
        assert!(!advice.because.is_empty());
        assert!(advice.because.is_sorted(), "{inputs:?} {advice:?}");
        assert!(advice.cautions.is_sorted(), "{inputs:?} {advice:?}");
    });
}

#[test]
fn knowing_more_never_contradicts_what_was_certain() {
    let fields: [fn(&mut Inputs) -> &mut Known; 6] = [
        |inputs| &mut inputs.mains,
        |inputs| &mut inputs.engine_running,
        |inputs| &mut inputs.charge_signal,
        |inputs| &mut inputs.gas,
        |inputs| &mut inputs.flame_forbidden,
        |inputs| &mut inputs.flame_on_road,
    ];
    for_all(|inputs| {
        let before = answer(inputs);
        for field in fields {
            let mut told = inputs.clone();
            if *field(&mut told) != Known::Unknown {
                continue;
            }
            for now_known in [Known::Yes, Known::No] {
                *field(&mut told) = now_known;
                let after = answer(&told);
                if before.source != Source::Unknown {
                    assert_eq!(after.source, before.source, "{inputs:?}");
                }
                let still = |caution: &Caution| {
                    let same = |other: &&Caution| {
                        std::mem::discriminant(&other.hazard)
                            == std::mem::discriminant(&caution.hazard)
                    };
                    after.cautions.iter().find(same).is_some_and(|found| found.sure)
                };
                let sure = before.cautions.iter().filter(|caution| caution.sure);
                assert!(sure.into_iter().all(still), "{inputs:?} {told:?}");
            }
        }
    });
}

fn later(inputs: &Inputs, elapsed_ms: i64) -> Inputs {
    let engine_off = match inputs.engine_off {
        Age::Exactly(ms) => Age::Exactly(ms.saturating_add(elapsed_ms)),
        Age::AtLeast(ms) => Age::AtLeast(ms.saturating_add(elapsed_ms)),
    };
    Inputs { engine_off, ..inputs.clone() }
}

#[test]
fn what_is_predicted_is_what_comes() {
    for_all(|inputs| {
        let now = answer(inputs);
        let at = |ms: i64| answer(&later(inputs, ms)).source;
        match now.next {
            Some(change) => {
                assert!(change.in_ms > 0 && change.source != now.source, "{inputs:?}");
                assert_eq!(at(change.in_ms - 1), now.source, "{inputs:?}");
                assert_eq!(at(change.in_ms), change.source, "{inputs:?}");
            }
            None => {
                for ms in [1, DELAY_MS - 1, DELAY_MS, 3 * DELAY_MS] {
                    assert_eq!(at(ms), now.source, "{inputs:?}");
                }
            }
        }
    });
}

/// A repeatable run of numbers (a linear congruence); no test depends on how good it is.
struct Numbers(u64);

impl Numbers {
    fn below(&mut self, limit: u64) -> i64 {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        i64::try_from((self.0 >> 33).checked_rem(limit).unwrap()).unwrap()
    }

    fn flip(&mut self) -> bool {
        self.below(2) == 1
    }

    fn world(&mut self, gas_delay_ms: i64) -> World {
        let (automatic, selector) = MODELS[usize::try_from(self.below(9)).unwrap()];
        World {
            automatic,
            selector,
            mains: self.flip(),
            engine: self.flip(),
            charge: self.flip(),
            gas: self.flip(),
            flame_forbidden: self.flip(),
            flame_on_road: self.flip(),
            gas_delay_ms,
        }
    }
}

#[test]
fn stepping_in_pieces_is_stepping_at_once_and_gives_what_was_predicted() {
    let mut numbers = Numbers(1);
    let mut changes = 0;
    for _ in 0..20_000 {
        let delay_ms = numbers.below(2_000);
        let world = numbers.world(delay_ms);
        let start = State::start(&world, numbers.below(3_000));
        let prediction = next_change(start, &world);
        let mut state = start;
        let mut elapsed_ms = 0;
        for _ in 0..numbers.below(8) {
            let piece_ms = numbers.below(900);
            state = step(state, &world, piece_ms);
            elapsed_ms += piece_ms;
            assert_eq!(state, step(start, &world, elapsed_ms), "{world:?} {start:?}");
            let predicted = match prediction {
                Some(change) if elapsed_ms >= change.in_ms => change.source,
                Some(_) | None => start.source(),
            };
            assert_eq!(state.source(), predicted, "{world:?} {start:?}");
            changes += i32::from(state.source() != start.source());
        }
    }
    assert!(changes > 100, "the law was hardly put to the test: {changes}");
}

#[test]
fn the_clock_follows_a_day_of_changes() {
    let world = World {
        automatic: true,
        selector: Selector::Auto,
        mains: false,
        engine: true,
        charge: true,
        gas: true,
        flame_forbidden: false,
        flame_on_road: false,
        gas_delay_ms: DELAY_MS,
    };
    let driving = State::start(&world, DELAY_MS);
    assert_eq!(driving, State { stage: Stage::Dc, signal_gone_ms: 0 });
    let still = World { engine: false, ..world };
    let waiting = step(driving, &still, 5 * MINUTE_MS);
    assert_eq!(waiting.stage, Stage::Waiting);
    // Plugged in for three minutes: the delay runs on meanwhile.
    let hooked = step(waiting, &World { mains: true, ..still }, 3 * MINUTE_MS);
    assert_eq!(hooked.stage, Stage::Mains);
    let back = step(hooked, &still, 0);
    assert_eq!(next_change(back, &still).unwrap().in_ms, 12 * MINUTE_MS);
    assert_eq!(step(back, &still, 12 * MINUTE_MS).stage, Stage::Gas);
    let long = step(back, &still, i64::MAX);
    assert_eq!(long, State { stage: Stage::Gas, signal_gone_ms: DELAY_MS });
    // Starting the engine puts the flame out and the delay back.
    let again = step(step(back, &still, 12 * MINUTE_MS), &world, 1);
    assert_eq!(again, driving);
}
