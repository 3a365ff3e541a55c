//! Two people on the demo vehicle.

use super::{Schedule, Turn, share};
use crate::routine::Plan;
use crate::routine::tests::{HOOKED_UP, planned, problem, vehicle};
use crate::vehicle::{AgeOf, Deed, Settings, Vehicle, Walks};

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

/// Vehicle (a) on its pitch, with hot water, shared out on the way to its winter.
const IN_USE: &[(&str, &str)] = &[
    ("boiler.heat", "gas"),
    ("boiler.water", "full"),
    ("boiler.drain", "shut"),
    ("boiler.cover", "off"),
    ("fresh.level", "more"),
    ("fresh.drain", "shut"),
    ("waste.level", "part"),
    ("waste.drain", "shut"),
    ("pitch.waste_point", "here"),
    ("pump.power", "on"),
    ("tap_galley.lever", "shut"),
    ("battery.charge", "full"),
];

fn laying_up(vehicle: &Vehicle) -> (Vec<String>, Plan, Schedule) {
    let problem = problem(vehicle, "laid_up_winter", &[HOOKED_UP, IN_USE].concat());
    let (ids, plan) = planned(&problem);
    let schedule = share(&problem, &plan);
    (ids, plan, schedule)
}

#[test]
fn hot_water_cools_between_two_as_well_and_both_work_meanwhile() {
    let vehicle = vehicle(&[]);
    let (ids, plan, schedule) = laying_up(&vehicle);
    let off = turn(&ids, &schedule, "boiler.switch_off");
    let drain = turn(&ids, &schedule, "boiler.open_drain");
    assert!(drain.start_s >= off.end_s + 3_600, "{schedule:?}");
    assert!(schedule.elapsed_s < plan.cost.elapsed_s);
    for person in 0..2 {
        let own = schedule.turns.iter().filter(|one| one.person == person);
        assert!(own.filter(|one| one.end_s <= drain.start_s).count() >= 8, "{schedule:?}");
    }
    // Nobody does the waiting: only whoever opens the drain has nothing else to do.
    let [pause] = schedule.pauses.as_slice() else { panic!("{:?}", schedule.pauses) };
    assert_eq!((pause.person, pause.next), (drain.person, Some(drain.place)));
    assert_eq!(vehicle.actions[pause.action].id, "boiler.heat.cool_min.wait");
    assert_eq!(pause.end_s + drain.walk_s, off.end_s + 3_600);
    let waits = |place: usize| vehicle.actions[plan.steps[place]].deed == Deed::Wait;
    assert!(!schedule.turns.iter().any(|one| waits(one.place)));
}

/// One person alone fills the whole wait, so that the plan has none: two would come too soon.
#[test]
fn what_one_is_slow_enough_for_two_wait_for() {
    let mut vehicle = vehicle(&[]);
    for one in &mut vehicle.variables {
        one.age_of = one.age_of.map(|age| AgeOf { limit_ms: 240_000, ..age });
    }
    let (ids, plan, schedule) = laying_up(&vehicle);
    assert!(plan.wait_s.is_empty(), "{ids:?}");
    let off = turn(&ids, &schedule, "boiler.switch_off");
    let drain = turn(&ids, &schedule, "boiler.open_drain");
    assert!(schedule.elapsed_s < plan.cost.elapsed_s);
    assert!(drain.start_s >= off.end_s + 240, "{schedule:?}");
    // Were water cold at once, they would not have waited.
    let mut problem = problem(&vehicle, "laid_up_winter", &[HOOKED_UP, IN_USE].concat());
    let cold = {
        let mut cold = vehicle.clone();
        cold.variables.iter_mut().for_each(|one| {
            one.age_of = one.age_of.map(|age| AgeOf { limit_ms: 0, ..age });
        });
        cold
    };
    problem.vehicle = &cold;
    assert!(share(&problem, &plan).elapsed_s < schedule.elapsed_s);
}

#[test]
fn what_is_cooling_already_is_waited_for_only_as_long_as_it_still_takes() {
    let vehicle = vehicle(&["boiler", "tap", "engine", "frost_valve"]);
    let facts = [&[("boiler.heat", "off")], &IN_USE[1..3]].concat();
    let fitted = facts.iter().copied().chain([("tap_galley.lever", "hot")]);
    let mut problem = problem(&vehicle, "laid_up_winter", &fitted.collect::<Vec<_>>());
    let age = vehicle.variable("boiler.heat.cool_min").unwrap();
    problem.beliefs[age] = Settings::one(AgeOf::YOUNG);
    problem.ripens_s.insert(age, 900);
    let (ids, plan) = planned(&problem);
    let schedule = share(&problem, &plan);
    let drain = turn(&ids, &schedule, "boiler.open_drain");
    assert_eq!(drain.start_s, 900, "{ids:?}, {schedule:?}");
    assert_eq!(schedule.pauses.first().map(|pause| pause.next), Some(Some(drain.place)));
}
