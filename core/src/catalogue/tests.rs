//! Tests of the built-in catalogue and of its words.

mod fault;
mod plain;

use super::kind::{Kind, Severity};
use super::{Catalogue, Text};
use crate::error::Error;
use crate::units::Units;

#[test]
fn the_built_in_catalogue_passes_its_check() {
    Catalogue::built_in().unwrap();
}

/// Longest text of a step or title, without the names that a pack fills in. Unit: characters.
const STEP_CHARS_MAX: usize = 60;
/// Longest sentence, the name of a fitting counted as five. Unit: words.
const SENTENCE_WORDS_MAX: usize = 20;
/// Words that an owner should not meet: jargon, other names for the same thing, an answer that
/// names no state, begging and shouting.
const BANNED: [&str; 9] = [
    "residual",
    "mains switch",
    "skylight",
    "grey water",
    "interlock",
    "optimal",
    "checked",
    "please",
    "!",
];

fn english() -> &'static Text {
    &Catalogue::built_in().unwrap().texts["en"]
}

/// Every key below `start`, with its words.
fn below(start: &str) -> Vec<(&'static str, &'static str)> {
    let all = english().keys().map(|key| (key, english().get(key).unwrap()));
    let found: Vec<_> = all.filter(|(key, _)| key.starts_with(start)).collect();
    assert!(!found.is_empty(), "{start}");
    found
}

/// What stands behind the last dot of a key.
fn last(key: &str) -> &str {
    key.rsplit('.').next().unwrap()
}

fn kinds() -> impl Iterator<Item = &'static Kind> {
    Catalogue::built_in().unwrap().kinds.values()
}

fn words(kind: &Kind, rest: &str) -> &'static str {
    let key = format!("kind.{}.{rest}", kind.id);
    english().get(&key).unwrap_or_else(|| panic!("{key}"))
}

#[test]
fn steps_are_short() {
    let steps = below("kind.").into_iter().filter(|(key, _)| {
        ["move", "look", "variable", "title"].contains(&key.split('.').nth(2).unwrap())
    });
    let titles =
        below("target.").into_iter().filter(|(key, _)| key.split('.').nth(2) == Some("title"));
    let mut looked = 0;
    for (key, said) in steps.chain(titles) {
        let length = said.replace("{it}", "").chars().count();
        assert!(length <= STEP_CHARS_MAX, "{key}: {length} characters: {said}");
        assert!(!said.ends_with('.'), "{key}: {said}");
        looked += 1;
    }
    assert!(looked > 100, "only {looked}");
}

#[test]
fn sentences_are_short_and_plain() {
    // What owners say is theirs.
    let asked = |key: &str| last(key) == "words" || key.starts_with("search.");
    for (key, said) in below("").into_iter().filter(|(key, _)| !asked(key)) {
        let said = said.replace("{it}", "roof light over the bed");
        for sentence in said.split_inclusive(['.', '?', '\n']) {
            let count = sentence.split_whitespace().count();
            assert!(count <= SENTENCE_WORDS_MAX, "{key}: {count} words: {sentence}");
        }
        for word in BANNED {
            assert!(!said.to_lowercase().contains(word), "{key}: `{word}`: {said}");
        }
    }
}

/// A reason, a caution, and what to do in danger are whole sentences.
#[test]
fn what_explains_ends_as_a_sentence() {
    for (key, said) in below("kind.").into_iter().chain(below("target.")) {
        let explains = ["clause", "caution", "danger", "sign", "stuck", "goal", "reached"];
        if key.split('.').nth(2).is_some_and(|table| explains.contains(&table)) {
            assert!(said.ends_with('.') && !said.contains(".."), "{key}: {said}");
            assert!(!said.starts_with(char::is_lowercase), "{key}: {said}");
        }
    }
}

/// A look changes nothing, and asks without saying what is wanted: another target may want another
/// setting.
#[test]
fn a_look_is_a_look_and_neutral() {
    let moving = ["Turn", "Shut", "Open", "Switch", "Push", "Press", "See that"];
    let mut looked = 0;
    for kind in kinds() {
        for variable in kind.variables.iter().filter(|one| one.look_s.is_some()) {
            let look = words(kind, &format!("look.{}", variable.id));
            assert!(!moving.iter().any(|verb| look.starts_with(verb)), "{}: {look}", kind.id);
            for setting in &variable.settings {
                let setting = words(kind, &format!("setting.{}.{setting}", variable.id));
                let padded = format!(" {look} ").replace([',', ':', '?'], " ");
                assert!(!padded.contains(&format!(" {setting} ")), "{look}: names `{setting}`");
            }
            looked += 1;
        }
    }
    assert!(looked > 20, "only {looked}");
}

/// Moves that bear on a hazard.
const HAZARDS: [&str; 118] = [
    "aerial.bring_down",
    "awning.wind_in",
    "awning.wind_out",
    "battery_isolator.switch_off",
    "bench.make_seat",
    "bike_rack.load_up",
    "bike_rack.strap",
    "boiler.heat_electric",
    "boiler.heat_gas",
    "boiler.heat_mixed",
    "boiler.cover_on",
    "boiler.cover_off",
    "boiler.open_drain",
    "boiler.try_burner",
    "brakes.try",
    "breaker.switch_on",
    "cab_blind.open",
    "chocks.set",
    "chocks.stow",
    "co_alarm.test",
    "dc_fuse.renew",
    "dc_master.switch_off",
    "diesel_filler.open",
    "diesel_filler.shut",
    "diesel_filler.fill",
    "drop_down_bed.raise",
    "drop_down_bed.lower",
    "drop_down_bed.put_guard_up",
    "engine.drive_off",
    "engine.stop",
    "engine.start",
    "engine.switch_off",
    "entrance_door.shut",
    "entrance_step.out",
    "entrance_step.in",
    "fixed_bed.put_guard_up",
    "fixed_vent.clear",
    "flue.clear",
    "flue.cover",
    "fridge_three_way.set_auto",
    "fridge_three_way.set_mains",
    "fridge_three_way.set_gas",
    "fridge_three_way.try_burner",
    "frost_valve.open_valve",
    "gas_alarm.test",
    "gas_cylinder.open",
    "gas_cylinder.shut",
    "gas_cylinder.lay_up",
    "gas_cylinder.strap_up",
    "gas_filling_point.fill",
    "gas_hose.look_it_over",
    "gas_hose.take_off",
    "gas_hose.exchange",
    "gas_hose.look_at_seal",
    "gas_hose.screw_on",
    "gas_hose.spray",
    "gas_outlet.connect",
    "gas_outlet.open",
    "gas_regulator.look_it_over",
    "generator.start",
    "grill.light",
    "grill.try_burner",
    "handbrake.pull",
    "handbrake.release",
    "heater_diesel.light",
    "heater_electric.switch_on",
    "heater_gas.light",
    "heater_gas.try_burner",
    "hob.light",
    "hob.lid_down",
    "hob.try_burners",
    "hob.try_without_lid",
    "insulated_screen.stow",
    "inverter.switch_on",
    "leisure_battery.look_it_over",
    "leisure_battery.see_half",
    "locker_door.lock",
    "loose_things.stow",
    "main_switch.switch_on",
    "main_switch.switch_off",
    "main_switch.test_rcd",
    "mains_lead.connect_vehicle",
    "mains_lead.disconnect_vehicle",
    "mains_lead.plug_in",
    "mains_lead.unplug",
    "oven.light",
    "oven.try_burner",
    "post.switch_on",
    "ramps.lay",
    "ramps.drive_up",
    "ramps.drive_down",
    "ramps.stow",
    "road_wheels.change",
    "road_wheels.tighten",
    "roof.clear_snow",
    "roof_box.lock",
    "roof_box.open",
    "roof_light.shut",
    "roof_light.open",
    "roof_light.set_ajar",
    "satellite_dish.fold",
    "smoke_alarm.test",
    "starter_battery.connect",
    "starter_battery.disconnect",
    "steadies.wind_up",
    "steadies.wind_down",
    "swivel_seat.lock_forward",
    "table.set_for_travel",
    "tow_bar.hitch",
    "tow_bar.lock",
    "tow_bar.try_lights",
    "tow_bar.unhitch",
    "walk_round.walk",
    "water_system.disinfect",
    "water_system.flush_out",
    "window.shut",
    "window.open",
    "window.set_ajar",
];

/// Gas, mains, carbon monoxide, fire, a moving vehicle, scalding, frost: each such move is confirmed
/// on purpose and has its caution.
#[test]
fn the_moves_of_the_trade_that_bear_on_a_hazard_are_marked() {
    let steps = kinds().flat_map(|kind| kind.moves.iter().map(move |step| (kind, step)));
    let hazards = steps.filter(|(_, step)| step.hazard);
    let marked: Vec<String> = hazards
        .inspect(|(kind, step)| {
            assert!(!words(kind, &format!("caution.{}", step.id)).trim().is_empty());
        })
        .map(|(kind, step)| format!("{}.{}", kind.id, step.id))
        .collect();
    assert_eq!(marked, HAZARDS, "each with a caution: what is new stands here too");
}

/// What cannot be taken back and soils, freezes or scalds says where it may go.
#[test]
fn whatever_lets_water_out_says_where_it_may_go() {
    let mut found = 0;
    for kind in kinds() {
        for step in kind.moves.iter().filter(|step| step.id == "open_drain") {
            let caution = words(kind, &format!("caution.{}", step.id));
            assert!(step.irreversible && !caution.is_empty());
            found += 1;
        }
    }
    assert_eq!(found, 3);
    assert!(english().get("kind.waste_tank.caution.open_drain").unwrap().contains("surface drain"));
}

/// On the road the first thing is to stop.
#[test]
fn every_danger_of_the_road_says_to_stop_where_it_is_safe() {
    let mut found = 0;
    for kind in kinds() {
        let danger = kind.clauses.iter().filter(|clause| clause.severity == Severity::Danger);
        for clause in danger {
            let said = words(kind, &format!("danger.{}", clause.id));
            let on_the_road = clause.never.iter().any(|one| {
                one.each.as_deref() == Some("engine.wheels") && one.settings == ["moving"]
            });
            assert_eq!(on_the_road, said.contains("stop where it is safe"), "{}", clause.id);
            found += 1;
        }
    }
    assert!(found > 15, "only {found}");
}

/// The files of the built-in catalogue, with some words put in place of others.
fn changed(old: &str, new: &str) -> Result<Catalogue, Error> {
    let all = super::unpacked().unwrap();
    assert!(all.iter().any(|(_, text)| text.contains(old)), "{old}");
    let files = all.into_iter().map(|(path, text)| (path, text.replace(old, new)));
    let files: Vec<(&str, String)> = files.collect();
    let files: Vec<_> = files.iter().map(|(path, text)| (*path, text.as_str())).collect();
    Catalogue::from_files(&files)
}

#[test]
fn a_danger_clause_or_a_hazard_without_its_words_fails_the_check() {
    let refused = |old: &str, new: &str| changed(old, new).unwrap_err().to_string();
    let said = refused("[kind.handbrake.danger]\nrolls_away", "[kind.handbrake.sign]\nlever");
    assert!(said.contains("no words for `kind.handbrake.danger.rolls_away`"), "{said}");
    let said = refused("release = \"The vehicle may roll.", "let_go = \"The vehicle may roll.");
    assert!(said.contains("no words for `kind.handbrake.caution.release`"), "{said}");
}

/// A caution under a misspelt id would never be shown.
#[test]
fn words_that_nothing_says_fail_the_check() {
    let said = changed("set_dc = \"Only while", "set_12v = \"Only while").unwrap_err().to_string();
    assert!(said.contains("kind.fridge_three_way.caution.set_12v"), "{said}");
}

/// What stands in braces is the fitting's title, a quantity, or one of its pack values, and a value
/// is said where there is room to add that it is a default.
#[test]
fn only_titles_and_pack_values_stand_in_braces() {
    let mut values = 0;
    for kind in kinds() {
        let start = format!("kind.{}.", kind.id);
        let with_slots = english().keys().filter(|key| key.starts_with(&start)).flat_map(|key| {
            let slots = english().get(key).unwrap().split('{').skip(1);
            slots.map(move |rest| (key, rest.split('}').next().unwrap()))
        });
        let quantity = |slot: &str| {
            let number = slot.split('_').next().and_then(|number| number.parse::<f64>().ok());
            number.and_then(|number| Units::Metric.value(slot, number)).is_some()
        };
        for (key, slot) in with_slots.filter(|(_, slot)| *slot != "it" && !quantity(slot)) {
            assert!(kind.values.iter().any(|value| value.id == slot), "{key}: {{{slot}}}");
            assert!(
                [".caution.", ".sign.", ".alert.", ".card."].iter().any(|at| key.contains(at)),
                "{key}: {{{slot}}}"
            );
            values += 1;
        }
    }
    assert!(values > 8, "only {values}");
}

#[test]
fn a_target_has_at_most_eight_variants_of_different_names_with_words() {
    let refused = |old: &str, new: &str| changed(old, new).unwrap_err().to_string();
    let open = "[[variant]]\nid = \"gas_open\"";
    let said = refused(open, "[[variant]]\nid = \"gas_shut\"");
    assert!(said.contains("two of variant `gas_shut`"), "{said}");
    let said = refused(open, "[[variant]]\nid = \"gas_ajar\"");
    assert!(said.contains("no words for `target.ready_to_drive."), "{said}");
    let more: Vec<_> = (0..7).map(|n| format!("[[variant]]\nid = \"v{n}\"\n")).collect();
    let many = more.concat() + open;
    let said = refused(open, &many);
    assert!(said.contains("more than 8 variants"), "{said}");
    let said = refused("road_choice\", in = [\"open\"] }]", "valve\", in = [\"open\"] }]");
    assert!(said.contains("says given facts"), "{said}");
    let said = refused(
        "\"open_on_the_road_allowed\", is = true }]\nsays",
        "\"allowed\", is = true }]\nsays",
    );
    assert!(said.contains("no pack has `allowed = true`"), "{said}");
}

#[test]
fn how_things_were_has_its_words() {
    let back = ["title", "reached", "goal.was"].map(|it| format!("target.back.{it}"));
    assert!(back.iter().all(|key| english().has(key)));
}

/// Only what somebody sees to can be confirmed, by a gesture that is known.
#[test]
fn a_gesture_that_confirms_nothing_fails_the_check() {
    let said = changed("gesture = \"group\"", "gesture = \"grope\"").unwrap_err().to_string();
    assert!(said.contains("unknown variant `grope`"), "{said}");
    let old = "id = \"road_choice\"\n";
    let said = changed(old, &format!("{old}gesture = \"own\"\n")).unwrap_err().to_string();
    assert!(said.contains("variable `road_choice`: nothing that a gesture"), "{said}");
}

/// The lead goes in only with the flap open, and the flap opens only with the lead in.
#[test]
fn a_cycle_in_before_is_reported_with_the_cycle() {
    let open = "[[move]]\nid = \"open\"\nset = { leaf = \"open\" }\n";
    let waits = "before = [{ all = \"mains_lead.vehicle_end\", in = [\"in\"] }]\n";
    let said = changed(open, &format!("{open}{waits}")).unwrap_err().to_string();
    assert!(said.contains("each waits for the next: "), "{said}");
    let ring: Vec<_> = said.split("next: ").last().unwrap().split(", ").collect();
    assert_eq!(ring.first(), ring.last());
    for one in ["inlet_flap.leaf = open", "mains_lead.vehicle_end = in"] {
        assert!(ring.contains(&one), "{said}");
    }
}

/// A move sets its own fitting, and of others only what a link of its kind names.
#[test]
fn a_move_sets_nothing_beyond_its_own_fitting_and_its_links() {
    let old = "set = { valve = \"open\", \"boiler.water\" = \"empty\" }";
    let refused = |new: &str| changed(old, new).unwrap_err().to_string();
    let said = refused("set = { valve = \"open\", \"pump.power\" = \"off\" }");
    assert!(said.contains("move `open_valve`: no link for `pump.power`"), "{said}");
    let said = refused("set = { valve = \"open\", \"boiler.water\" = \"ice\" }");
    assert!(said.contains("`boiler.water` has no setting `ice`"), "{said}");
    let said = refused("set = { \"boiler.water\" = \"empty\" }");
    assert!(said.contains("move `open_valve` sets nothing of its own"), "{said}");
}
