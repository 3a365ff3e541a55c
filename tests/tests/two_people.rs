//! Sharing out for two, held against the best way as a general-purpose solver proves it
//! (OR-Tools CP-SAT; `data/two_people.py` made the cases and their best).
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a test may fail loudly"
)]

use std::collections::BTreeMap;
use std::fmt::Write as _;

use serde_json::Value;
use stowfast_core::catalogue::{Catalogue, Severity};
use stowfast_core::interlock::{Goal, GoalOf};
use stowfast_core::routine::{Outcome, Problem, Proof, plan, share};
use stowfast_core::vehicle::{Literal, Settings, Vehicle};
use stowfast_tests::cases::vehicle;
use stowfast_tests::pair::{Price, faults};
use stowfast_tests::question;

const CASES: &str = include_str!("../data/two_people.json");

fn number(value: &Value) -> u32 {
    u32::try_from(value.as_u64().unwrap()).unwrap()
}

fn numbers(value: &Value) -> Vec<u32> {
    value.as_array().unwrap().iter().map(number).collect()
}

/// Steps that must have ended for some minutes before a step, and for how many.
fn delays(job: &Value) -> Vec<(usize, u32)> {
    let all = job["delays"].as_array().into_iter().flatten().map(numbers);
    all.map(|one| (usize::try_from(one[0]).unwrap(), one[1])).collect()
}

fn minutes(job: &Value, before: usize) -> Option<u32> {
    delays(job).into_iter().find(|one| one.0 == before).map(|one| one.1)
}

/// A kind for each chain and for each other step; every step sets a variable of its own.
fn built(case: &Value) -> Vehicle {
    let jobs = case["jobs"].as_array().unwrap();
    let kind = |job: usize| match jobs[job]["chain"].as_u64() {
        Some(chain) => format!("chain{chain}"),
        None => format!("step{job}"),
    };
    let mut kinds: BTreeMap<String, String> = BTreeMap::new();
    let mut zones: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for (at, job) in jobs.iter().enumerate() {
        let text = kinds.entry(kind(at)).or_default();
        if text.is_empty() && job["chain"].is_u64() {
            text.push_str("one_person = true\n");
        }
        let before = numbers(&job["before"]).into_iter().map(|one| {
            let one = usize::try_from(one).unwrap();
            let whose = if kind(one) == kind(at) {
                format!("own = \"v{one}\"")
            } else {
                format!("all = \"{}.v{one}\"", kind(one))
            };
            let delay = minutes(job, one).map(|_| format!(", held_for = \"d{at}_{one}_min\""));
            format!("{{ {whose}, in = [\"done\"]{} }}", delay.unwrap_or_default())
        });
        let before = before.collect::<Vec<_>>().join(", ");
        for (one, minutes) in delays(job) {
            _ = write!(
                text,
                "[[value]]\nid = \"d{at}_{one}_min\"\ndefault = {minutes}\nmin = 1\nmax = 9\n\
                 source = \"made up\"\n"
            );
        }
        _ = write!(
            text,
            "[[variable]]\nid = \"v{at}\"\nsettings = [\"due\", \"done\"]\nusual = \"due\"\n\
             [[move]]\nid = \"m{at}\"\nset = {{ v{at} = \"done\" }}\nbefore = [{before}]\n\
             seconds = {}\n",
            job["seconds"]
        );
        zones.entry(kind(at)).or_default().push(format!("v{at} = \"z{}\"", job["zone"]));
    }
    let files: Vec<_> =
        kinds.iter().map(|(kind, text)| (format!("kinds/{kind}.toml"), text)).collect();
    let files: Vec<_> = files.iter().map(|(path, text)| (path.as_str(), text.as_str())).collect();
    let catalogue = Catalogue::from_files(&files).unwrap();
    vehicle(&pack(case, &zones), &catalogue).unwrap()
}

fn pack(case: &Value, zones: &BTreeMap<String, Vec<String>>) -> String {
    let mut text = "stowfast_pack = 1\ntitle = \"Made up\"\ninvented = true\n".to_owned();
    text += "home_zone = \"z0\"\n";
    let walks: Vec<_> = case["walks"].as_array().unwrap().iter().map(numbers).collect();
    for zone in 0..walks.len() {
        _ = write!(text, "[[zone]]\nid = \"z{zone}\"\ntitle = \"Zone {zone}\"\n");
    }
    for (from, row) in walks.iter().enumerate() {
        for (to, seconds) in row.iter().enumerate().filter(|(to, _)| *to > from) {
            _ = write!(text, "[[walk]]\nfrom = \"z{from}\"\nto = \"z{to}\"\nseconds = {seconds}\n");
        }
    }
    for (kind, at) in zones {
        _ = write!(
            text,
            "[[fitting]]\nid = \"{kind}\"\nkind = \"{kind}\"\ntitle = \"{kind}\"\nzone = \"z0\"\n\
             zones = {{ {} }}\n",
            at.join(", ")
        );
    }
    text
}

fn problem(vehicle: &Vehicle) -> Problem<'_> {
    let goal = |variable: usize| Goal {
        of: GoalOf::Target(format!("g{variable}")),
        any_of: vec![Literal { variable, settings: Settings::one(1) }],
        fresh: false,
        severity: Severity::Damage,
    };
    let is_step = |variable: &usize| vehicle.variables[*variable].age_of.is_none();
    let count = vehicle.variables.len();
    let goals = (0..count).filter(is_step).map(goal).collect();
    // Due, and young.
    let begin = |variable: usize| Settings::one(u8::from(!is_step(&variable)));
    question::problem(vehicle, (0..count).map(begin).collect(), goals)
}

#[test]
fn sharing_out_is_as_good_as_a_solver_proves_where_it_says_so() {
    let cases: Vec<Value> = serde_json::from_str(CASES).unwrap();
    let (mut exact, mut best_all_the_same, mut widest_s) = (0, 0, 0);
    for case in &cases {
        let vehicle = built(case);
        let problem = problem(&vehicle);
        let Outcome::Plan(plan) = plan(&problem) else { panic!("{}: no plan", case["name"]) };
        let schedule = share(&problem, &plan);
        assert_eq!(faults(&problem, &plan, &schedule), Vec::<String>::new(), "{}", case["name"]);
        let told = numbers(&case["best"]);
        let alone = (plan.cost.elapsed_s, plan.cost.walk_s, plan.cost.zone_changes);
        // One person alone may leave a chain and come back to it.
        let best: Price = alone.min((told[0], told[1], told[2]));
        let own = (schedule.elapsed_s, schedule.walk_s, schedule.zone_changes);
        let shown = format!("{}: best {best:?}, own {own:?}, {:?}", case["name"], schedule.proof);
        match schedule.proof {
            Proof::Exact => {
                assert_eq!(own, best, "{shown}");
                exact += 1;
            }
            Proof::Gap { seconds } => {
                assert!(own >= best && own.0 <= best.0 + seconds, "{shown}");
                best_all_the_same += u32::from(own.0 == best.0);
                widest_s = widest_s.max(seconds);
            }
        }
    }
    println!(
        "{} cases: {exact} exact; of the rest {best_all_the_same} as quick as can be, gap at most \
         {widest_s} s",
        cases.len()
    );
    assert!(cases.len() >= 24 && exact * 2 >= cases.len(), "{exact} of {}", cases.len());
}
