//! The named tests of the semantics, at the one door or on the planner itself.
//!
//! Elsewhere, under names that say the same:
//! a violated start: `a_live_connector_in_the_grass_is_unplugged_at_the_post_first` and
//! `an_open_roof_light_on_the_road_means_stopping_first` (`core/src/routine/tests.rs`); the
//! three-literal detour: `doing_everything_ready_in_a_zone_is_not_best` (`order.rs`); a level band
//! straddled by a coarse gauge: `a_reading_that_straddles_two_bands_gives_both`
//! (`core/src/engine/tests.rs`); a report out of order:
//! `a_report_out_of_order_is_taken_warned_about_and_planned_from` (there); a stuck fitting:
//! `a_stuck_roof_light_says_what_cannot_be_and_can_be_freed` (there); two people sharing a clause:
//! `two_people_sharing_a_clause` (`core/src/routine/pair/tests.rs`); a cycle in `before`:
//! `a_cycle_in_before_is_reported_with_the_cycle` (`core/src/catalogue/tests.rs`).
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    reason = "a test may fail loudly"
)]

use stowfast_core::catalogue::{Catalogue, Severity};
use stowfast_core::clock::{Monotonic, Stamp};
use stowfast_core::engine::{Engine, StepKind, VerdictKind};
use stowfast_core::interlock::{Goal, GoalOf};
use stowfast_core::routine::{Outcome, Plan, Problem, plan};
use stowfast_core::vehicle::Vehicle;
use stowfast_tests::checker::check;
use stowfast_tests::owner::{at, demo, demo_of, ids, tell};
use stowfast_tests::question::{self, A, C, literal};

fn believed(engine: &Engine, variable: &str, now: &Stamp) -> Vec<String> {
    let things = engine.things(now).unwrap();
    things.into_iter().find(|one| one.variable == variable).unwrap().believed
}

/// Whether a reading of a gauge would count.
fn gauge(engine: &Engine, id: &str, minute: i64) -> bool {
    engine.gauges(&at(minute)).unwrap().iter().find(|one| one.id == id).unwrap().counts
}

/// Ticks what there is to do, until only time can go on.
fn carry_out(engine: &mut Engine, now: &Stamp) {
    for _ in 0..80 {
        let page = engine.routine(now).unwrap().unwrap();
        match page.steps.first() {
            Some(step) if step.kind != StepKind::Wait => drop(engine.tick(&step.id, now).unwrap()),
            _ => return,
        }
    }
    panic!("no end to it");
}

fn place(steps: &[&str], id: &str) -> usize {
    steps.iter().position(|step| *step == id).unwrap_or_else(|| panic!("no {id} in {steps:?}"))
}

/// Vehicle (a) with more fitted.
fn vehicle(more: &str) -> Vehicle {
    vehicle_of(A, more)
}

fn vehicle_of(pack: &str, more: &str) -> Vehicle {
    question::vehicle(&format!("{pack}{more}"))
}

/// A question about `vehicle` where every variable is usual but for `facts`; each goal is a list of
/// alternatives.
fn problem<'a>(
    vehicle: &'a Vehicle,
    zone: &str,
    facts: &[(&str, &str)],
    goals: &[&[(&str, &str)]],
) -> Problem<'a> {
    let beliefs = question::told(vehicle, question::usual(vehicle), facts);
    let goal = |(number, any_of): (usize, &&[(&str, &str)])| Goal {
        of: GoalOf::Target(format!("g{number}")),
        any_of: any_of.iter().map(|one| literal(vehicle, *one)).collect(),
        fresh: false,
        severity: Severity::Damage,
    };
    let goals = goals.iter().enumerate().map(goal).collect();
    let zone = vehicle.zones.iter().position(|one| one.id == zone).unwrap();
    Problem { zone, ..question::problem(vehicle, beliefs, goals) }
}

fn found(problem: &Problem) -> Plan {
    let Outcome::Plan(plan) = plan(problem) else { panic!("no plan") };
    assert_eq!(check(problem, &plan), []);
    plan
}

fn steps<'a>(problem: &'a Problem, plan: &Plan) -> Vec<&'a str> {
    plan.steps.iter().map(|one| problem.vehicle.actions[*one].id.as_str()).collect()
}

/// Draining the boiler needs air from an open tap. Nothing of what is asked speaks of the tap: it is
/// opened, and ends shut as it was found, also where the routine is planned anew in between.
#[test]
fn a_detour_opens_the_taps_to_vent_and_shuts_them_again() {
    let mut engine = demo_of("c");
    let now = [("boiler.heat", "off"), ("pump.power", "off"), ("tap_galley.lever", "shut")];
    tell(&mut engine, &now, 1);
    tell(&mut engine, &[("boiler.water", "empty")], 2);
    let entry = engine.report("boiler.water", "full", &at(3)).unwrap().entries[0];
    engine.cannot("frost_valve.open_valve", "stiff", &at(4)).unwrap();
    let later = at(24 * 60);
    engine.open_run(&format!("back/{entry}"), &later).unwrap();
    let planned = engine.routine(&later).unwrap().unwrap();
    let steps = ids(&planned);
    let order = ["tap_galley.open_mixer", "boiler.open_drain", "tap_galley.shut"];
    assert!(order.map(|id| place(&steps, id)).is_sorted(), "{steps:?}");
    assert!(planned.steps.iter().all(|step| step.id != "tap_galley.lever.look"));
    let shut = engine.refusals("boiler.open_drain", &later).unwrap();
    assert!(shut.iter().any(|line| line.contains("alley tap")), "{shut:?}");
    engine.tick("tap_galley.open_mixer", &later).unwrap();
    engine.report("window_galley.leaf", "shut", &later).unwrap();
    engine.tick("boiler.open_drain", &later).unwrap();
    engine.report("window_galley.leaf", "open", &later).unwrap();
    let left = engine.routine(&later).unwrap().unwrap();
    assert!(ids(&left).contains(&"tap_galley.shut"), "{:?}", ids(&left));
    carry_out(&mut engine, &later);
    assert_eq!(believed(&engine, "tap_galley.lever", &later), ["shut"]);
    assert_eq!(believed(&engine, "boiler.water", &later), ["empty"]);
}

/// The flap of the water filler: shut at first, open for the hose, shut again.
#[test]
fn a_detour_opens_a_flap_and_shuts_it_again() {
    let mut engine = demo_of("c");
    tell(&mut engine, &[("filler.cap", "shut"), ("fresh.level", "full")], 1);
    let entry = engine.report("fresh.level", "low", &at(2)).unwrap().entries[0];
    engine.open_run(&format!("back/{entry}"), &at(3)).unwrap();
    let page = engine.routine(&at(3)).unwrap().unwrap();
    let steps = ids(&page);
    let order =
        ["filler.open", "fill_hose.connect", "fresh.end_filling", "fill_hose.stow", "filler.shut"];
    assert!(order.map(|id| place(&steps, id)).is_sorted(), "{steps:?}");
    carry_out(&mut engine, &at(4));
    assert_eq!(believed(&engine, "fresh.fill", &at(5)), ["running"], "time passes while it fills");
    carry_out(&mut engine, &at(30));
    for (thing, as_found) in [("filler.cap", "shut"), ("fill_hose.hose", "stowed")] {
        assert_eq!(believed(&engine, thing, &at(31)), [as_found]);
    }
}

/// Either will do, and the nearer one is taken; with that one stuck, the other.
#[test]
fn of_a_disjunctive_target_the_cheaper_alternative_is_taken() {
    let vehicle = vehicle("");
    let facts = [("window_galley.leaf", "open"), ("window_bed.leaf", "open")];
    let either: &[(&str, &str)] = &[("window_galley.leaf", "shut"), ("window_bed.leaf", "shut")];
    for (zone, taken) in [("galley", "window_galley.shut"), ("bed", "window_bed.shut")] {
        let problem = problem(&vehicle, zone, &facts, &[either]);
        assert_eq!(steps(&problem, &found(&problem)), [taken]);
    }
    let mut stuck = problem(&vehicle, "bed", &facts, &[either]);
    stuck.stuck.insert(vehicle.variable("window_bed.leaf").unwrap());
    assert_eq!(steps(&stuck, &found(&stuck)), ["window_galley.shut"]);
}

/// "No flame in the hob with a cylinder open on the road" is kept by either, in two zones: the nearer
/// is taken, and the other where that one cannot be moved.
#[test]
fn of_alternative_support_in_two_zones_the_nearer_is_taken() {
    let vehicle = vehicle_of(C, "");
    let catalogue = Catalogue::built_in().unwrap();
    let facts = [
        ("hob.burners", "lit"),
        ("hob.lid", "up"),
        ("window_galley.leaf", "open"),
        ("fridge.selector", "off"),
        ("gas_left.valve", "open"),
        ("gas_right.valve", "shut"),
    ];
    let mut problem = problem(&vehicle, "galley", &facts, &[]);
    let road = catalogue.target("ready_to_drive").unwrap();
    let rule =
        |goal: &Goal| goal.clause(&vehicle).is_some_and(|one| one.id == "hob.lit_on_the_road");
    problem.goals = stowfast_core::interlock::goals(&vehicle, road, &problem.beliefs).unwrap();
    problem.goals.retain(rule);
    assert!(problem.goals.iter().all(|goal| goal.any_of.len() == 2), "two ways to keep it");
    let ways = ["hob.put_out", "gas_left.shut"];
    for (zone, nearer, other) in [("galley", ways[0], ways[1]), ("nearside", ways[1], ways[0])] {
        problem.zone = vehicle.zones.iter().position(|one| one.id == zone).unwrap();
        let plan = found(&problem);
        let steps = steps(&problem, &plan);
        assert!(steps.contains(&nearer) && !steps.contains(&other), "{zone}: {steps:?}");
    }
    problem.stuck.insert(vehicle.variable("gas_left.valve").unwrap());
    assert!(steps(&problem, &found(&problem)).contains(&ways[0]));
}

/// Driving on to the ramps is one step of a routine: what it would tear off is in before it, though
/// nothing of the target asks for that, and out again after it.
#[test]
fn driving_is_a_move_inside_a_routine_on_to_ramps() {
    let ramps =
        "\n[[fitting]]\nid = \"ramps\"\nkind = \"ramps\"\ntitle = \"ramps\"\nzone = \"nearside\"\n";
    let vehicle = vehicle(ramps);
    let facts = [
        ("engine.running", "off"),
        ("handbrake.lever", "on"),
        ("ramps.boards", "stowed"),
        ("step.step", "out"),
    ];
    let problem = problem(&vehicle, "door", &facts, &[&[("ramps.under", "on")]]);
    let plan = found(&problem);
    let steps = steps(&problem, &plan);
    let order = ["step.in", "ramps.drive_up", "step.out"].map(|id| place(&steps, id));
    assert!(order.is_sorted(), "{steps:?}");
    assert!(place(&steps, "ramps.lay") < place(&steps, "ramps.drive_up"));

    // At the door, just arrived on a slope, and somebody has stepped out already.
    let mut engine = demo_of("c");
    engine.drive_off(&at(1)).unwrap();
    let arrived = [
        ("engine.wheels", "still"),
        ("engine.running", "off"),
        ("handbrake.lever", "on"),
        ("lead.coil", "stowed"),
        ("lead.vehicle_end", "out"),
        ("lead.post_end", "out"),
        ("inlet_flap.leaf", "shut"),
        ("mains_switch.lever", "off"),
        ("boiler.heat", "off"),
        ("awning.cloth", "in"),
        ("steadies.legs", "up"),
        ("chocks.wedges", "stowed"),
        ("ramps.under", "off"),
        ("ramps.boards", "stowed"),
        ("step.step", "out"),
        ("pitch.ground", "sloping"),
    ];
    tell(&mut engine, &arrived, 60);
    let page = engine.preview("pitched_offgrid", &at(61)).unwrap();
    let steps = ids(&page);
    let order = ["ramps.lay", "step.in", "ramps.drive_up", "step.out", "chocks.set"];
    let order = order.map(|id| place(&steps, id));
    assert!(order[1..].is_sorted() && order[0] < order[2], "{steps:?}");
    let turned = ["seat_driver.lock_forward", "ramps.drive_up", "seat_driver.turn"];
    assert!(turned.map(|id| place(&steps, id)).is_sorted(), "{steps:?}");
    // What was moved for the drive is put back, also where the rest is planned anew after it.
    engine.open_run("pitched_offgrid", &at(61)).unwrap();
    while !believed(&engine, "ramps.under", &at(62)).contains(&"on".to_owned()) {
        let page = engine.routine(&at(62)).unwrap().unwrap();
        engine.tick(&page.steps[0].id, &at(62)).unwrap();
    }
    tell(&mut engine, &[("window_galley.leaf", "shut"), ("window_galley.leaf", "open")], 62);
    let page = engine.routine(&at(62)).unwrap().unwrap();
    let turn = page.steps.iter().find(|step| step.id == "seat_driver.turn");
    let turn = turn.unwrap_or_else(|| panic!("{:?}", ids(&page)));
    assert!(turn.why.iter().any(|line| line.contains("as it was found")), "{:?}", turn.why);
}

/// Two things are asked for that one rule forbids together: no plan, and the rule is named, with what
/// it keeps apart. The rest is planned.
#[test]
fn a_target_that_no_state_satisfies_names_the_clause() {
    let vehicle = vehicle("");
    let goals: [&[(&str, &str)]; 3] =
        [&[("inlet_flap.leaf", "shut")], &[("step.step", "in")], &[("lead.vehicle_end", "in")]];
    let problem =
        problem(&vehicle, "door", &[("step.step", "out"), ("lead.coil", "uncoiled")], &goals);
    assert_eq!(plan(&problem), Outcome::Impossible(vec![0, 2]), "and the step is no part of it");

    // At the door: put back to where somebody said that the flap was shut on the connector.
    let mut engine = demo();
    tell(&mut engine, &[("lead.vehicle_end", "in"), ("inlet_flap.leaf", "shut")], 1);
    let entry = engine.report("lead.vehicle_end", "out", &at(2)).unwrap().entries[0];
    tell(&mut engine, &[("inlet_flap.leaf", "open"), ("step.step", "out")], 3);
    let page = engine.preview(&format!("back/{entry}"), &at(4)).unwrap();
    let rule = &Catalogue::built_in().unwrap().texts["en"];
    let rule = rule.get("kind.inlet_flap.clause.shut_on_connector").unwrap();
    let rule = rule.split("{it}").max_by_key(|part| part.len()).unwrap();
    let said = page.impossible.iter().find(|line| line.contains("together"));
    let said = said.unwrap_or_else(|| panic!("{:?}", page.impossible));
    for part in [rule, "nlet flap: shut", "onnector of the mains lead: in"] {
        assert!(said.contains(part), "{part}: {said}");
    }
    assert!(!said.contains("step"), "{said}");
}

/// A move that cannot be taken back says so before it is made.
#[test]
fn a_move_that_cannot_be_taken_back_warns_before() {
    let mut engine = demo();
    engine.report("fresh.level", "empty", &at(1)).unwrap();
    engine.report("pump.power", "off", &at(2)).unwrap();
    let entry = engine.report("fresh.level", "full", &at(3)).unwrap().entries[0];
    let page = engine.preview(&format!("back/{entry}"), &at(4)).unwrap();
    let step = page.steps.iter().find(|step| step.id == "fresh.open_drain");
    let step = step.unwrap_or_else(|| panic!("{:?} {:?}", ids(&page), page.impossible));
    assert!(step.irreversible);
    assert!(step.cautions.iter().any(|said| said == "This cannot be taken back."));
    assert!(
        page.steps.iter().filter(|step| step.id != "fresh.open_drain").all(|one| !one.irreversible)
    );
}

/// The battery is read at rest: the mains off first, hours later the look, then the mains back on. With
/// the mains on the look is refused; off already, it stays off.
#[test]
fn a_look_with_a_precondition_comes_after_what_it_waits_for() {
    for id in ["a", "c"] {
        let mut engine = demo_of(id);
        tell(&mut engine, &[("mains_switch.lever", "on"), ("battery.sun", "dark")], 1);
        let why = engine.refusals("battery.charge.look", &at(1)).unwrap().concat();
        assert!(why.contains("ain switch"), "{why}");
        engine.open_run("battery_read", &at(2)).unwrap();
        let page = engine.routine(&at(2)).unwrap().unwrap();
        let steps = ids(&page);
        let order = ["mains_switch.switch_off", "battery.charge.look", "mains_switch.switch_on"];
        assert!(order.map(|id| place(&steps, id)).is_sorted(), "{steps:?}");
        let wait = page.steps.iter().find(|step| step.kind == StepKind::Wait).unwrap();
        assert!((3 * 3_600 - 120..=3 * 3_600).contains(&wait.wait_s), "rest_h: {}", wait.wait_s);
        engine.tick("boiler.switch_off", &at(3)).unwrap();
        engine.tick("mains_switch.switch_off", &at(3)).unwrap();
        tell(&mut engine, &[("window_galley.leaf", "shut"), ("window_galley.leaf", "open")], 3);
        let anew = engine.routine(&at(3)).unwrap().unwrap();
        let back = anew.steps.iter().find(|step| step.id == "mains_switch.switch_on").unwrap();
        assert!(back.why.iter().any(|line| line.contains("as it was found")), "{:?}", back.why);
        carry_out(&mut engine, &at(3));
        let waits = engine.routine(&at(3)).unwrap().unwrap();
        assert!(!waits.finished && waits.part_end.is_some(), "{:?}", ids(&waits));
        assert!(!gauge(&engine, "battery", 3), "too soon");
        let rested = at(3 + 181);
        assert!(gauge(&engine, "battery", 3 + 181), "the reading counts as well");
        carry_out(&mut engine, &rested);
        assert!(engine.routine(&rested).unwrap().unwrap().finished);
        assert_eq!(believed(&engine, "mains_switch.lever", &rested), ["on"]);
    }
    let mut engine = demo();
    tell(&mut engine, &[("boiler.heat", "off"), ("mains_switch.lever", "off")], 1);
    let page = engine.preview("battery_read", &at(2)).unwrap();
    assert!(ids(&page).contains(&"battery.charge.look"));
    assert!(!ids(&page).iter().any(|id| id.starts_with("mains_switch.")), "{:?}", ids(&page));
}

/// The hook-up dies in the middle of hooking up: the rest is no way any more, and what is asked for
/// is the fact; alive again, it goes on where it was.
#[test]
fn facts_change_in_the_middle_of_a_routine_and_the_hook_up_dies() {
    let mut engine = demo();
    engine.report("lead.post_end", "out", &at(1)).unwrap();
    engine.report("post.switch", "off", &at(1)).unwrap();
    engine.open_run("pitched_hookup", &at(2)).unwrap();
    let planned = engine.routine(&at(2)).unwrap().unwrap();
    assert!(ids(&planned).contains(&"lead.plug_in"));
    engine.tick("lead.plug_in", &at(3)).unwrap();
    engine.report("post.supply", "dead", &at(4)).unwrap();
    let dead = engine.routine(&at(4)).unwrap().unwrap();
    assert_eq!((dead.verdict, dead.finished), (VerdictKind::Blocked, false));
    assert!(dead.impossible.iter().any(|line| line.contains("live")), "{:?}", dead.impossible);
    engine.report("post.supply", "live", &at(5)).unwrap();
    let alive = engine.routine(&at(5)).unwrap().unwrap();
    assert!(alive.impossible.is_empty(), "{:?}", alive.impossible);
    assert!(!ids(&alive).contains(&"lead.plug_in"), "what was done is done");
    assert!(ids(&alive).contains(&"post.switch_on"));
}

/// What was done is believed after three days and looked at anew.
#[test]
fn a_departure_lapses_in_a_pause_of_three_days() {
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    for step in ["boiler.switch_off", "roof_bed.shut", "step.in"] {
        engine.tick(step, &at(2)).unwrap();
    }
    engine.pause(&at(3)).unwrap();
    let days = 3 * 1_440;
    engine.resume(&at(days)).unwrap();
    let page = engine.routine(&at(days)).unwrap().unwrap();
    assert!(page.resumed_from_pause);
    let steps = ids(&page);
    assert!(
        steps.contains(&"roof_bed.leaf.look") && steps.contains(&"step.step.look"),
        "{steps:?}"
    );
    assert!(!steps.contains(&"roof_bed.shut") && !steps.contains(&"step.in"), "{steps:?}");
    // Nobody paused it: it lapses by itself, and says so.
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(1)).unwrap();
    engine.tick("roof_bed.shut", &at(2)).unwrap();
    let page = engine.routine(&at(days)).unwrap().unwrap();
    assert!(page.warnings.iter().any(|line| line.contains("too old")), "{:?}", page.warnings);
    assert!(ids(&page).contains(&"roof_bed.leaf.look"));
}

/// Set back, every look has lapsed and the page says so; set forward within one start of the phone,
/// nothing has.
#[test]
fn the_clock_is_set_back_and_forward() {
    let clock = |utc_min: i64, up_min: i64| Stamp {
        utc_ms: at(utc_min).utc_ms,
        monotonic: Some(Monotonic { ms: up_min * 60_000, boot: "one".to_owned() }),
    };
    let mut engine = demo();
    engine.open_run("ready_to_drive", &at(10)).unwrap();
    engine.tick("roof_bed.shut", &at(11)).unwrap();
    let asked = |engine: &Engine, now: &Stamp| {
        let page = engine.routine(now).unwrap().unwrap();
        (ids(&page).contains(&"roof_bed.leaf.look"), engine.now_page(now).unwrap().clock_changed)
    };
    assert_eq!(asked(&engine, &at(12)), (false, false));
    assert_eq!(asked(&engine, &at(5)), (true, true), "set back");
    assert_eq!(asked(&engine, &at(12 + 300)), (true, false), "without a second clock: hours later");
    let mut engine = Engine::in_memory("en").unwrap();
    engine.add_pack(A, "a.toml", &clock(0, 0)).unwrap();
    engine.open_run("ready_to_drive", &clock(10, 10)).unwrap();
    engine.tick("roof_bed.shut", &clock(11, 11)).unwrap();
    assert_eq!(asked(&engine, &clock(12 + 300, 12)), (false, false), "set forward");
    assert_eq!(asked(&engine, &clock(5, 12)), (false, false), "set back within one start");
}
