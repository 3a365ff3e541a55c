//! Tests of this room.
use super::*;
use crate::catalogue::Catalogue;
use crate::interlock::{GoalOf, goals};

#[test]
fn try_it() {
    let catalogue = Catalogue::built_in().unwrap();
    let bytes = std::fs::read("../demo-data/a/pack.toml").unwrap();
    let pack = crate::pack::read("a", &bytes, catalogue).unwrap();
    let vehicle = Vehicle::new(&pack, catalogue).unwrap();
    let mut beliefs: Vec<Settings> = vehicle.variables.iter().map(|v| v.assume).collect();
    let trip: toml::Table = toml::from_str(include_str!("../../../demo-data/a/morning.toml")).unwrap();
    for said in trip["said"].as_array().unwrap() {
        for (k, v) in said["facts"].as_table().unwrap() {
            let n = vehicle.variable(k).unwrap();
            beliefs[n] = v.as_array().unwrap().iter().map(|s| vehicle.setting(n, s.as_str().unwrap()).unwrap()).collect();
        }
    }
    for t in &catalogue.targets {
        let problem = Problem { vehicle: &vehicle, beliefs: beliefs.clone(), fresh: vec![false; beliefs.len()], stuck: BTreeSet::new(), zone: vehicle.home, goals: goals(&vehicle, t).unwrap() };
        let start = std::time::Instant::now();
        let c = compile::compile(&problem);
        for s in &c.steps { eprintln!("   {} {} {} r{} b{:?}", vehicle.actions[s.number].id, s.harmless, s.zone, s.rules.len(), s.burdens); }
        eprintln!("aims unmet {}", c.aims.iter().filter(|a| !a.is_met(&c.start)).count());
        let mid = start.elapsed();
        let start = std::time::Instant::now();
        let out = plan(&problem);
        eprintln!("== {} {:?} {mid:?}", t.id, start.elapsed());
        match out {
            Outcome::Plan(p) => {
                for s in &p.steps { let a = &vehicle.actions[*s]; eprintln!("  {:10} {}", vehicle.zones[a.zone].id, a.id); }
                eprintln!("{:?} {:?} {}", p.cost, p.proof, p.nodes);
            }
            Outcome::Impossible(gs) => for g in gs { eprintln!("{:?} {:?}", problem.goals[g].of, problem.goals[g].any_of.iter().map(|l| (&vehicle.variables[l.variable].id, vehicle.variables[l.variable].names_of(l.settings))).collect::<Vec<_>>()); if let GoalOf::Clause(c) = problem.goals[g].of { eprintln!("{:?}", vehicle.clauses[c].id) } },
            o => eprintln!("{o:?}"),
        }
    }
}
