//! Two people on the demo vehicle.

use super::{Schedule, Turn, share};
use crate::routine::tests::{HOOKED_UP, planned, problem, vehicle};
use crate::vehicle::{Vehicle, Walks};

/// The way to leave, shared out.
fn leaving(vehicle: &Vehicle) -> (Vec<String>, Schedule) {
    let fitted = HOOKED_UP.iter().copied().filter(|(id, _)| vehicle.variable(id).is_ok());
    let problem = problem(vehicle, "ready_to_drive", &fitted.collect::<Vec<_>>());
    let (ids, plan) = planned(&problem);
    (ids, share(&problem, &plan))
}

fn turn<'a>(ids: &[String], schedule: &'a Schedule, id: &str) -> &'a Turn {
    let place = ids.iter().position(|one| one == id).unwrap();
    schedule.turns.iter().find(|turn| turn.place == place).unwrap()
}

#[test]
fn two_people_sharing_a_clause() {
    let (ids, schedule) = leaving(&vehicle(&[]));
    let unplug = turn(&ids, &schedule, "lead.unplug");
    let disconnect = turn(&ids, &schedule, "lead.disconnect_vehicle");
    assert_eq!(unplug.person, disconnect.person, "both ends of the lead are one person's");
    assert!(unplug.end_s <= disconnect.start_s);

    // Were they not, and the ways far, each would see to one end; the clause still parts them.
    let mut vehicle = vehicle(&["engine", "mains_lead"]);
    vehicle.fittings.iter_mut().for_each(|fitting| fitting.one_person = false);
    vehicle.walks = Walks::closed(vehicle.zones.len(), |_, _| Some(300));
    let (ids, schedule) = leaving(&vehicle);
    let unplug = turn(&ids, &schedule, "lead.unplug");
    let disconnect = turn(&ids, &schedule, "lead.disconnect_vehicle");
    assert_ne!(unplug.person, disconnect.person);
    assert!(unplug.end_s <= disconnect.start_s);
    assert_eq!(disconnect.word, Some(unplug.place));
}

#[test]
fn two_leave_sooner_than_one_and_end_together() {
    let (ids, schedule) = leaving(&vehicle(&[]));
    let (_, alone) = planned(&problem(&vehicle(&[]), "ready_to_drive", HOOKED_UP));
    assert!(schedule.elapsed_s * 3 < alone.cost.elapsed_s * 2, "{schedule:?}");
    let last = turn(&ids, &schedule, "walk_round.walk");
    assert_eq!(last.end_s, schedule.elapsed_s, "the walk round is the last step");
    assert!(last.word.is_some());
}

#[test]
fn a_chain_is_one_persons_and_nothing_of_theirs_comes_between() {
    let vehicle = vehicle(&[]);
    let (ids, schedule) = leaving(&vehicle);
    let own = turn(&ids, &schedule, "lead.unplug").person;
    let places = schedule.turns.iter().filter(|turn| turn.person == own).map(|turn| turn.place);
    let names: Vec<_> = places.map(|place| ids[place].as_str()).collect();
    let first = names.iter().position(|name| name.starts_with("lead.")).unwrap();
    let last = names.iter().rposition(|name| name.starts_with("lead.")).unwrap();
    assert!(last > first + 1);
    assert!(names[first..=last].iter().all(|name| name.starts_with("lead.")), "{names:?}");
}

#[test]
fn what_waits_stays_with_one() {
    let vehicle = vehicle(&[]);
    let problem = problem(&vehicle, "ready_to_drive", HOOKED_UP);
    let (_, mut plan) = planned(&problem);
    let wait = vehicle.actions.iter().position(|one| one.deed == super::Deed::Wait).unwrap();
    plan.steps.push(wait);
    plan.wait_s.insert(plan.steps.len() - 1, 600);
    let schedule = share(&problem, &plan);
    assert!(schedule.turns.iter().all(|turn| turn.person == 0 && turn.word.is_none()));
    assert!(schedule.turns.is_sorted_by_key(|turn| turn.place));
    let last = schedule.turns.last().unwrap();
    assert_eq!(last.end_s - last.start_s, 600);
}
