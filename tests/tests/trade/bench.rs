//! A vehicle made up for one fact: only the fittings that the fact is about, at most two of a kind.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use stowfast_core::catalogue::{Catalogue, Severity};
use stowfast_core::interlock::{Refusal, Standing, refusals, standing};
use stowfast_core::routine::{Outcome, plan};
use stowfast_core::vehicle::{Clause, Settings, Variable, Vehicle};
use stowfast_tests::checker::check;
use stowfast_tests::question::{self, asked, ids, problem, told};

/// A fact: variable and setting.
pub(crate) type Fact<'a> = (&'a str, &'a str);

/// A pack with one fitting of each kind, its id the kind's (the second of a kind ends in `_2`), and
/// the lines that it has beside.
pub(crate) fn pack_of(fitted: &[(&str, &str)]) -> String {
    let mut text = "stowfast_pack = 1\ntitle = \"Made up\"\ninvented = true\n".to_owned();
    text += "home_zone = \"inside\"\n[measures]\nfuel_tank_l = 80\n";
    for zone in ["inside", "outside", "post"] {
        _ = write!(text, "[[zone]]\nid = \"{zone}\"\ntitle = \"{zone}\"\n");
    }
    for (from, to) in [("inside", "outside"), ("outside", "post")] {
        _ = write!(text, "[[walk]]\nfrom = \"{from}\"\nto = \"{to}\"\nseconds = 10\n");
    }
    let always = [("engine", ""), ("handbrake", "")];
    let mut seen = BTreeSet::new();
    for (kind, lines) in always.iter().chain(fitted) {
        let id = if seen.insert(kind) { (*kind).to_owned() } else { format!("{kind}_2") };
        let title = id.replace('_', " ");
        _ = write!(text, "[[fitting]]\nid = \"{id}\"\nkind = \"{kind}\"\n");
        _ = write!(text, "title = \"{title}\"\nzone = \"inside\"\n{lines}\n");
    }
    text
}

pub(crate) fn vehicle(fitted: &[(&str, &str)]) -> Vehicle {
    question::vehicle(&pack_of(fitted))
}

/// Everything as it is when nothing is known to be wrong, but for some facts.
pub(crate) fn believing(vehicle: &Vehicle, facts: &[Fact<'_>]) -> Vec<Settings> {
    let usual = question::usual(vehicle).into_iter().zip(&vehicle.variables);
    let assumed = |(usual, one): (Settings, &Variable)| {
        if one.age_of.is_none() && one.assume.single().is_some() { one.assume } else { usual }
    };
    told(vehicle, usual.map(assumed).collect(), facts)
}

/// What refuses a step: clauses by their id, conditions by their variable.
pub(crate) fn refused(vehicle: &Vehicle, step: &str, facts: &[Fact<'_>]) -> Vec<String> {
    let (_, action) = vehicle.action(step).unwrap();
    let reasons = refusals(vehicle, &believing(vehicle, facts), action).into_iter();
    let said = reasons.map(|reason| match reason {
        Refusal::Clause(number) => vehicle.clauses[number].id.clone(),
        Refusal::Before(literal) => vehicle.variables[literal.variable].id.clone(),
    });
    said.collect()
}

/// Where the grounds of a clause stand: the worst of them.
fn stands(vehicle: &Vehicle, id: &str, beliefs: &[Settings]) -> Standing {
    let grounds: Vec<&Clause> = vehicle.clauses.iter().filter(|one| one.id == id).collect();
    assert!(!grounds.is_empty(), "no {id}");
    let all: Vec<_> = grounds.iter().map(|one| standing(beliefs, one)).collect();
    [Standing::Broken, Standing::Open]
        .into_iter()
        .find(|one| all.contains(one))
        .unwrap_or(Standing::Off)
}

/// The clause is broken where all facts hold, and kept where any one of them is otherwise; it is as
/// bad as said, and says where it comes from.
#[track_caller]
pub(crate) fn never(
    fitted: &[(&str, &str)],
    facts: &[Fact<'_>],
    (id, severity, source): (&str, Severity, &str),
) {
    let vehicle = vehicle(fitted);
    let beliefs = believing(&vehicle, facts);
    assert_eq!(stands(&vehicle, id, &beliefs), Standing::Broken, "{id}");
    for (variable, setting) in facts {
        let number = vehicle.variable(variable).unwrap();
        let place = vehicle.setting(number, setting).unwrap();
        let kept = vehicle.variables[number].all.places().filter(|other| *other != place);
        let mut kept = kept.map(|other| {
            let mut beliefs = beliefs.clone();
            beliefs[number] = Settings::one(other);
            stands(&vehicle, id, &beliefs)
        });
        assert!(kept.any(|one| one == Standing::Off), "{id} without {variable}");
    }
    let clause = vehicle.clauses.iter().find(|one| one.id == id).unwrap();
    assert_eq!(clause.severity, severity, "{id}");
    assert!(clause.source.starts_with(source), "{id}: {}", clause.source);
}

/// The plan, passed by the independent checker.
#[track_caller]
pub(crate) fn planned(vehicle: &Vehicle, target: &str, facts: &[Fact<'_>]) -> Vec<String> {
    let beliefs = believing(vehicle, facts);
    let goals = asked(vehicle, target, &beliefs);
    let problem = problem(vehicle, beliefs, goals);
    let Outcome::Plan(plan) = plan(&problem) else { panic!("no plan") };
    assert_eq!(check(&problem, &plan), []);
    ids(vehicle, &plan)
}

/// The steps are in the plan, in this order.
#[track_caller]
pub(crate) fn in_order(ids: &[String], order: &[&str]) {
    let found: Vec<&str> = ids.iter().map(String::as_str).filter(|id| order.contains(id)).collect();
    assert_eq!(found, order, "{ids:#?}");
}

/// The words of a kind.
#[track_caller]
pub(crate) fn words(key: &str) -> &'static str {
    let text = &Catalogue::built_in().unwrap().texts["en"];
    text.get(&format!("kind.{key}")).unwrap_or_else(|| panic!("no words for {key}"))
}

/// The words of a kind say each of these.
#[track_caller]
pub(crate) fn says(key: &str, what: &[&str]) {
    let said = words(key);
    for part in what {
        assert!(said.contains(part), "{key} does not say `{part}`: {said}");
    }
}

/// `never!(name, [fittings], [facts], clause, severity, source)`: a test of a clause.
macro_rules! never {
    ($name:ident, [$($fitted:expr),* $(,)?], [$($fact:expr),* $(,)?], $clause:literal, $severity:ident, $source:expr) => {
        #[test]
        fn $name() {
            let severity = stowfast_core::catalogue::Severity::$severity;
            crate::bench::never(&[$($fitted),*], &[$($fact),*], ($clause, severity, $source));
        }
    };
}

/// `says!(name, key, [parts])`: a test of the words of a kind.
macro_rules! says {
    ($name:ident, $($key:literal: [$($part:literal),* $(,)?]),+ $(,)?) => {
        #[test]
        fn $name() {
            $(crate::bench::says($key, &[$($part),*]);)+
        }
    };
}
