//! How often a plan changes one variable (semantics 15): at most twice more than its target change.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::print_stdout,
    reason = "a test may fail loudly"
)]

use std::cell::Cell;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use stowfast_core::routine::{Outcome, plan};
use stowfast_core::vehicle::{Deed, Vehicle};
use stowfast_tests::cases::{Case, Kinds};
use stowfast_tests::checker::{changes, check};
use stowfast_tests::draw::{Effort, law};
use stowfast_tests::oracle::{Answer, solve};
use stowfast_tests::packs::Size;
use stowfast_tests::question::{A, B, C, vehicle};
use stowfast_tests::small;

/// Changes beyond the one that a target may ask for.
const MORE: u32 = 2;
const SMALL: Size = Size { least: 1, most: 4, own_seconds: true };
const LARGE: Size = Size { least: 8, most: 20, own_seconds: true };

/// Plans of drawn cases: how many there are, and in how many something changes more often.
fn drawn(kinds: Kinds, size: Size, cases: u32) -> (u32, u32) {
    let (plans, beyond, most) = (Cell::new(0_u32), Cell::new(0_u32), Cell::new(0_u32));
    let outcome = law(
        Effort { cases, numbers_max: 400 },
        |list| Case::drawn(list, kinds, size).ok(),
        |case| {
            let problem = case.problem();
            let Outcome::Plan(plan) = plan(&problem) else { return Ok(()) };
            let made = changes(&problem, &plan.steps).into_values();
            let more = made.map(|(count, asked)| count.saturating_sub(u32::from(asked))).max();
            plans.set(plans.get() + 1);
            beyond.set(beyond.get() + u32::from(more > Some(MORE)));
            most.set(most.get().max(more.unwrap_or(0)));
            Ok(())
        },
    );
    outcome.unwrap_or_else(|why| panic!("{why}"));
    let (plans, beyond, most) = (plans.get(), beyond.get(), most.get());
    println!(
        "{plans} plans, {beyond} with more than {MORE} changes beyond the asked, at most {most}"
    );
    assert!(plans > cases / 8, "only {plans} plans");
    (plans, beyond)
}

#[test]
fn no_plan_of_drawn_vehicles_changes_anything_more_than_twice_beyond_its_target() {
    assert_eq!(drawn(Kinds::BuiltIn, SMALL, 600).1, 0);
    assert_eq!(drawn(Kinds::BuiltIn, LARGE, 40).1, 0);
}

/// Made-up moves set two things at once, and rules ask for one thing in three ways.
#[test]
fn few_plans_of_made_up_kinds_change_anything_more_often() {
    let (plans, beyond) = drawn(Kinds::MadeUp, SMALL, 2_000);
    assert!(beyond * 100 < plans, "{beyond} of {plans}");
}

/// A selector that ends as it was found, and on the way must stand in two other places: three
/// changes where its target asks for none. The limit of semantics 15 would call it impossible.
#[test]
fn a_limit_of_two_changes_more_would_deny_a_safe_way() {
    let selector = "[[variable]]\nid = \"at\"\nsettings = [\"rest\", \"one\", \"two\"]\n\
        usual = \"rest\"\nlook_s = 1\n";
    let turn = |to: &str| {
        format!(
            "[[move]]\nid = \"to_{to}\"\nset = {{ at = \"{to}\" }}\nseconds = 1\nhazard = false\n"
        )
    };
    let selector = format!("{selector}{}{}{}", turn("rest"), turn("one"), turn("two"));
    let tank = |at: &str| {
        format!(
            "[[variable]]\nid = \"tank\"\nsettings = [\"full\", \"empty\"]\nusual = \"full\"\n\
            look_s = 1\n[[move]]\nid = \"empty\"\nset = {{ tank = \"empty\" }}\nseconds = 5\n\
            hazard = false\nbefore = [{{ all = \"selector.at\", in = [\"{at}\"] }}]\n"
        )
    };
    let (left, right) = (tank("one"), tank("two"));
    let kinds =
        [("selector", "in", selector.as_str()), ("left", "in", &left), ("right", "in", &right)];
    let vehicle = small::vehicle(&kinds);
    let problem = small::problem(&vehicle, &[("left.tank", "empty"), ("right.tank", "empty")]);
    let Outcome::Plan(plan) = plan(&problem) else { panic!("no way") };
    assert_eq!(check(&problem, &plan), []);
    let at = vehicle.variable("selector.at").unwrap();
    assert_eq!(changes(&problem, &plan.steps)[&at], (MORE + 1, false));
    let Answer::Possible { cost, .. } = solve(&problem.with_ways_out(), 1_000) else {
        panic!("the oracle finds no way")
    };
    assert_eq!(cost, plan.cost, "nothing cheaper turns it less");
}

/// The way of a golden file: under each heading, the settings that its moves bring variables to.
fn moved(vehicle: &Vehicle, way: &str) -> BTreeMap<usize, Vec<u8>> {
    let mut moved: BTreeMap<usize, Vec<u8>> = BTreeMap::new();
    for line in way.lines().filter(|line| line.starts_with("  ")) {
        let mut words = line.split([' ', ',']).filter(|word| word.contains('.'));
        let action = words.find_map(|word| vehicle.action(word).ok()).map(|(_, action)| action);
        let action = action.unwrap_or_else(|| panic!("no step in {line:?}"));
        let own = action.effects.iter().filter(|effect| !effect.spoilt);
        for effect in own.filter(|_| action.deed == Deed::Move) {
            let settings = moved.entry(effect.variable).or_default();
            if settings.last() != Some(&effect.to) {
                settings.push(effect.to);
            }
        }
    }
    moved
}

/// Every golden way of the invented vehicles, from every place. They do not say what was found: a
/// change is taken for the target's own only where a thing was brought to the same setting twice.
#[test]
fn no_way_of_the_invented_vehicles_changes_anything_more_than_twice() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap();
    let (mut ways, mut twice) = (0, 0);
    for (name, pack) in [("a", A), ("b", B), ("c", C)] {
        let vehicle = vehicle(pack);
        for file in fs::read_dir(root.join("core/tests/golden").join(name)).unwrap() {
            let path = file.unwrap().path();
            for way in fs::read_to_string(&path).unwrap().split("== ").skip(1) {
                ways += 1;
                for (variable, settings) in moved(&vehicle, way) {
                    let id = vehicle.variables.get(variable).unwrap().id.as_str();
                    let own = settings.len() > 2 && settings.first() == settings.last();
                    let beyond = settings.len() - usize::from(own);
                    assert!(beyond <= 2, "{}: {id} {settings:?}", path.display());
                    twice += usize::from(settings.len() == 2);
                }
            }
        }
    }
    println!("{ways} ways, {twice} variables changed twice");
    assert!(ways > 100 && twice > 0, "too few");
}
