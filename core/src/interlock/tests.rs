//! Tests of clauses, permission and verdicts on vehicle (a).

use super::{Refusal, Standing, VerdictKind, goals, is_permitted, refusals, standing, verdict};
use crate::catalogue::{Catalogue, Target};
use crate::pack;
use crate::vehicle::{Action, AgeOf, Settings, Vehicle};

fn vehicle(text: &str) -> Vehicle {
    let catalogue = Catalogue::built_in().unwrap();
    Vehicle::new(&pack::read("a", text.as_bytes(), catalogue).unwrap(), catalogue).unwrap()
}

const PACK: &str = include_str!("../../../demo-data/a/pack.toml");

fn believing(vehicle: &Vehicle, facts: &[(&str, &str)]) -> Vec<Settings> {
    let mut beliefs: Vec<Settings> = vehicle.variables.iter().map(|one| one.assume).collect();
    for (variable, setting) in facts {
        let number = vehicle.variable(variable).unwrap();
        beliefs[number] = Settings::one(vehicle.setting(number, setting).unwrap());
    }
    for (number, variable) in vehicle.variables.iter().enumerate() {
        // What is not at a setting has not been there for long enough.
        if let Some(age) =
            variable.age_of.filter(|age| !beliefs[age.variable].meets(Settings::one(age.setting)))
        {
            beliefs[number] = Settings::one(AgeOf::YOUNG);
            assert_ne!(age.variable, number);
        }
    }
    beliefs
}

fn action<'a>(vehicle: &'a Vehicle, id: &str) -> &'a Action {
    vehicle.action(id).unwrap().1
}

/// Common practice, no source: gas hot water is refused while the flue cover is on; electric is
/// not, since it does not need the flue.
#[test]
fn hot_water_on_gas_is_refused_under_the_flue_cover_and_on_mains_is_not() {
    let vehicle = vehicle(PACK);
    let facts = [
        ("boiler.cover", "on"),
        ("boiler.water", "full"),
        ("boiler.drain", "shut"),
        ("mains_switch.lever", "on"),
        ("mains_switch.rcd", "tested"),
        ("gas_left.valve", "open"),
    ];
    let beliefs = believing(&vehicle, &facts);
    let refused = refusals(&vehicle, &beliefs, action(&vehicle, "boiler.heat_gas"));
    let [Refusal::Clause(number)] = refused.as_slice() else { panic!("{refused:?}") };
    assert_eq!(vehicle.clauses[*number].id, "boiler.lit_under_cover");
    assert!(is_permitted(&vehicle, &beliefs, action(&vehicle, "boiler.heat_electric")));
}

/// Common practice, no source: a pump is refused with its fresh tank empty, and while that is not
/// ruled out.
#[test]
fn a_pump_is_refused_with_the_fresh_tank_empty_or_not_known() {
    let vehicle = vehicle(PACK);
    let pump = action(&vehicle, "pump.switch_on");
    let may = |facts: &[(&str, &str)]| is_permitted(&vehicle, &believing(&vehicle, facts), pump);
    assert!(!may(&[("fresh.level", "empty")]));
    assert!(!may(&[]));
    assert!(may(&[("fresh.level", "low")]));
}

/// Semantics 4: a move that only leads out of a clause is never forbidden by it.
#[test]
fn a_way_out_is_never_forbidden() {
    let vehicle = vehicle(PACK);
    let facts = [("boiler.heat", "gas"), ("boiler.cover", "on"), ("boiler.water", "full")];
    let beliefs = believing(&vehicle, &facts);
    assert!(is_permitted(&vehicle, &beliefs, action(&vehicle, "boiler.switch_off")));
    assert!(is_permitted(&vehicle, &beliefs, action(&vehicle, "boiler.cover_off")));
}

/// Semantics 2 and 3: off, open and broken.
#[test]
fn a_clause_is_off_open_or_broken() {
    let vehicle = vehicle(PACK);
    let clause = vehicle.clauses.iter().find(|one| one.id == "boiler.lit_under_cover").unwrap();
    let at = |facts: &[(&str, &str)]| standing(&believing(&vehicle, facts), clause);
    assert_eq!(at(&[("boiler.heat", "off")]), Standing::Off);
    assert_eq!(at(&[("boiler.heat", "gas")]), Standing::Open);
    assert_eq!(at(&[("boiler.heat", "gas"), ("boiler.cover", "on")]), Standing::Broken);
}

/// The fitted protection and what the manual allows are the pack's: with both, an open cylinder
/// blocks driving no more once the owner has chosen so for this trip.
#[test]
fn an_open_cylinder_blocks_driving_unless_it_is_allowed_and_chosen() {
    let catalogue = Catalogue::built_in().unwrap();
    let target = catalogue.target("ready_to_drive").unwrap();
    let blocks = |text: &str, choice: &str| {
        let vehicle = vehicle(text);
        let facts = [
            ("gas_left.valve", "open"),
            ("gas_left.road_choice", choice),
            ("gas_right.valve", "shut"),
            ("local_rules.gas_on_road", "allowed"),
        ];
        let beliefs = believing(&vehicle, &facts);
        let verdict =
            verdict(&vehicle, &goals(&vehicle, target, &beliefs).unwrap(), &beliefs, |_| true);
        verdict.items.iter().any(|item| {
            item.goal
                .any_of
                .iter()
                .any(|one| vehicle.variables[one.variable].id == "gas_left.valve")
        })
    };
    assert!(blocks(PACK, "shut"));
    let values = "road_protection = \"hose_rupture\"";
    let allowed = "road_protection = \"crash_sensor\", open_on_the_road_allowed = true";
    let allowed = PACK.replacen(values, allowed, 1);
    assert!(blocks(&allowed, "shut"), "the default");
    assert!(!blocks(&allowed, "open"));
}

/// Whatever else is so or not known, one may always stop.
#[test]
fn stopping_is_never_refused() {
    let vehicle = vehicle(PACK);
    let stop = action(&vehicle, "engine.stop");
    for (number, variable) in vehicle.variables.iter().enumerate() {
        for settings in variable.all.places().map(Settings::one).chain([variable.all]) {
            let mut beliefs: Vec<_> = vehicle.variables.iter().map(|one| one.all).collect();
            beliefs[number] = settings;
            let wheels = vehicle.variable("engine.wheels").unwrap();
            beliefs[wheels] = Settings::one(vehicle.setting(wheels, "moving").unwrap());
            assert_eq!(refusals(&vehicle, &beliefs, stop), [], "{}", variable.id);
        }
    }
}

/// Guarantee 2: nothing looked at means Unknown, never Clear, even where all is believed well.
#[test]
fn what_was_not_looked_at_is_never_clear() {
    let vehicle = vehicle(PACK);
    let catalogue = Catalogue::built_in().unwrap();
    let goals = goals(&vehicle, catalogue.target("ready_to_drive").unwrap(), &[]).unwrap();
    let mut beliefs = believing(&vehicle, &[]);
    for goal in &goals {
        for literal in &goal.any_of {
            let kept = beliefs[literal.variable].and(literal.settings);
            beliefs[literal.variable] = if kept.is_empty() { literal.settings } else { kept };
        }
    }
    assert_eq!(verdict(&vehicle, &goals, &beliefs, |_| true).kind, VerdictKind::Clear);
    let stale = verdict(&vehicle, &goals, &beliefs, |_| false);
    assert_eq!(stale.kind, VerdictKind::Unknown);
    let fresh_asked = goals.iter().filter(|goal| goal.fresh).count();
    assert_eq!(stale.items.len(), fresh_asked);
}

#[test]
fn what_only_some_places_call_for_is_asked_where_the_place_is_known_to() {
    let vehicle = vehicle(PACK);
    let target: Target = toml::from_str(
        "rank = 1\n[[goal]]\nid = \"waste\"\nany_of = [{ all = \"waste_tank.level\", in = [\"empty\"] }]\n\
         only_if = [{ all = \"pitch.waste_point\", in = [\"here\"] }]",
    )
    .unwrap();
    let point = vehicle.variable("pitch.waste_point").unwrap();
    let asked = |settings: Settings| {
        let mut beliefs: Vec<_> = vehicle.variables.iter().map(|one| one.assume).collect();
        beliefs[point] = settings;
        goals(&vehicle, &target, &beliefs).unwrap().len()
    };
    let here = Settings::one(vehicle.setting(point, "here").unwrap());
    let all = vehicle.variables[point].all;
    assert_eq!([asked(here), asked(all), asked(all.minus(here))], [1, 0, 0]);
}

#[test]
fn a_goal_with_a_pack_value_is_asked_only_where_the_pack_says_so() {
    let target: Target = toml::from_str(
        "rank = 1\n[[goal]]\nid = \"brake\"\nany_of = [{ each = \"handbrake.lever\", in = [\"off\"] }]\n\
         when = [{ kind = \"handbrake\", value = \"off_when_laid_up\", is = true }]",
    )
    .unwrap();
    let asked = |text: &str| goals(&vehicle(text), &target, &[]).unwrap().len();
    let line = "kind = \"handbrake\"";
    let seizing =
        PACK.replacen(line, &format!("{line}\nvalues = {{ off_when_laid_up = true }}"), 1);
    assert_eq!([asked(PACK), asked(&seizing)], [0, 1]);
}

#[test]
fn parts_are_asked_for_whatever_the_place_offers_and_others_not_at_all() {
    let vehicle = vehicle(PACK);
    let target = Catalogue::built_in().unwrap().target("serviced").unwrap();
    let beliefs: Vec<_> = vehicle.variables.iter().map(|one| one.assume).collect();
    let asks = |named: &str, goal: &str| {
        let goals = goals(&vehicle, &target.only(named).unwrap(), &beliefs).unwrap();
        goals.iter().any(|one| one.of == super::GoalOf::Target(goal.to_owned()))
    };
    assert!(asks("waste", "waste") && !asks("waste", "fresh"));
    assert!(asks("water+waste", "waste") && asks("water+waste", "fresh"));
    assert!(target.only("waste+wine").is_none());
    assert_eq!(target.only("waste").unwrap().key(), "serviced/waste");
}
