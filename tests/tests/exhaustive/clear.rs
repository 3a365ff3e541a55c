//! Guarantee 1: Clear is never given while a hazard of the road is open or was not looked at.

use std::collections::BTreeSet;

use stowfast_core::catalogue::{Catalogue, Severity};
use stowfast_core::interlock::{Goal, GoalOf, VerdictKind, goals, verdict};
use stowfast_core::vehicle::{Literal, Settings, Vehicle};
use stowfast_tests::components::{
    Choice, Component, STATES_MAX, choices, components, count, joined, numbered,
};
use stowfast_tests::worlds::holds_somewhere;

/// What the verdict on "ready to drive" hangs on.
struct Road<'a> {
    vehicle: &'a Vehicle,
    goals: Vec<Goal>,
    /// Variables that some goal asks to be fresh.
    fresh: BTreeSet<usize>,
    /// What driving sets.
    driving: [Literal; 2],
}

/// How many states the search covers, and how many danger clauses of the road.
pub(crate) fn clear_is_safe(vehicle: &Vehicle) -> (u128, usize) {
    let road = Road::of(vehicle);
    let (mut states, mut power, mut clear, mut hazards) = (0, 0.0, 0, 0);
    for whole in components(vehicle) {
        let clauses = road.clauses(&whole);
        hazards += clauses.len();
        power += road.choices(&whole).iter().map(|one| power_of(one)).sum::<f64>();
        for component in road.small_enough(&whole, &clauses) {
            let (count, of_them) = road.search(&whole, &component, &clauses);
            println!("{count:>8} states: {}", component.ids(vehicle));
            assert!(of_them > 0, "never Clear: {}", component.ids(vehicle));
            states += count;
            clear += of_them;
        }
    }
    println!("states of all components together: {states}; {clear} Clear");
    println!("product of the components, uncut: 10^{power:.1} states");
    println!("danger clauses of the road: {hazards}");
    (states, hazards)
}

/// How many choices there are, as a power of ten.
fn power_of(choices: &[Choice]) -> f64 {
    f64::from(u32::try_from(choices.len()).unwrap()).log10()
}

impl<'a> Road<'a> {
    fn of(vehicle: &'a Vehicle) -> Self {
        let target = Catalogue::built_in().unwrap().target("ready_to_drive").unwrap();
        let goals = goals(vehicle, target, &[]).unwrap();
        let fresh = goals.iter().filter(|goal| goal.fresh).flat_map(|goal| &goal.any_of);
        let is = |id: &str, setting: &str| {
            let variable = vehicle.variable(id).unwrap();
            let settings = Settings::one(vehicle.setting(variable, setting).unwrap());
            Literal { variable, settings }
        };
        Self {
            vehicle,
            fresh: fresh.map(|one| one.variable).collect(),
            driving: [is("engine.wheels", "moving"), is("engine.running", "on")],
            goals,
        }
    }

    /// The danger clauses that speak of moving wheels and of the component, whatever the goals say.
    fn clauses(&self, component: &Component) -> Vec<usize> {
        let [moving, _] = self.driving;
        let of_road =
            |one: &Literal| one.variable == moving.variable && one.settings.meets(moving.settings);
        let clauses = self.vehicle.clauses.iter().enumerate();
        let danger = clauses.filter(|(_, clause)| clause.severity == Severity::Danger);
        let mine = danger.filter(|(_, clause)| {
            clause.literals.iter().any(of_road)
                && clause.literals.iter().any(|one| component.owns(one))
        });
        let mine: Vec<usize> = mine.map(|(number, _)| number).collect();
        let asked_for =
            |number: &usize| self.goals.iter().any(|one| one.of == GoalOf::Clause(*number));
        assert!(mine.iter().all(asked_for), "a hazard of the road is not asked for");
        mine
    }

    /// The goals that speak of the component.
    fn goals(&self, component: &Component) -> Vec<Goal> {
        let mine = |goal: &&Goal| goal.any_of.iter().any(|one| component.owns(one));
        self.goals.iter().filter(mine).cloned().collect()
    }

    /// A component, or where it is too large each hazard of it by itself, with all that is said by
    /// the goals on its variables: the whole is Clear only where they are met.
    fn small_enough(&self, whole: &Component, clauses: &[usize]) -> Vec<Component> {
        if count(&self.choices(whole)) <= STATES_MAX {
            return vec![whole.clone()];
        }
        let states = count(&self.choices(whole));
        println!("{states} states are too many, so hazard by hazard: {}", whole.ids(self.vehicle));
        let of = |number: &usize| {
            let hazard = &self.vehicle.clauses[*number].literals;
            let own = hazard.iter().filter(|one| whole.owns(one)).map(|one| one.variable);
            let own = Component { variables: own.collect(), hubs: Vec::new() };
            let said = self.goals(&own).into_iter().flat_map(|goal| goal.any_of);
            let all: Vec<Literal> = hazard.iter().copied().chain(said).collect();
            joined(self.vehicle, &std::iter::once(all.as_slice()))
        };
        clauses.iter().flat_map(of).collect()
    }

    fn choices(&self, component: &Component) -> Vec<Vec<Choice>> {
        let of = |one: &usize| choices(self.vehicle, *one, self.fresh.contains(one));
        component.all().iter().map(of).collect()
    }

    /// How many states there are, and in how many the verdict is Clear.
    fn search(&self, whole: &Component, component: &Component, clauses: &[usize]) -> (u128, u64) {
        let variables = component.all();
        // A goal that speaks of more than this could only make Clear rarer.
        let within = |all: &[Literal]| all.iter().all(|one| component.names(one));
        let mut goals = self.goals(component);
        goals.retain(|goal| within(&goal.any_of));
        let of_it = |number: &&usize| {
            let mut own =
                self.vehicle.clauses[**number].literals.iter().filter(|one| whole.owns(one));
            own.all(|one| component.owns(one))
        };
        let clauses: Vec<usize> = clauses.iter().filter(of_it).copied().collect();
        let choices = self.choices(component);
        let states = count(&choices);
        assert!(states <= STATES_MAX, "{states} states: {}", component.ids(self.vehicle));
        let mut beliefs: Vec<_> = self.vehicle.variables.iter().map(|one| one.all).collect();
        let mut fresh = vec![false; beliefs.len()];
        let mut clear = 0;
        for state in 0..states {
            for (variable, choice) in variables.iter().zip(numbered(&choices, state)) {
                (beliefs[*variable], fresh[*variable]) = choice;
            }
            let found = verdict(self.vehicle, &goals, &beliefs, |variable| fresh[variable]);
            if found.kind == VerdictKind::Clear {
                clear += 1;
                self.is_safe(&clauses, &beliefs, &fresh);
            }
        }
        (states, clear)
    }

    /// Once one drives, each clause is off in every world, by something that was looked at.
    fn is_safe(&self, clauses: &[usize], beliefs: &[Settings], fresh: &[bool]) {
        let mut driving = beliefs.to_vec();
        for one in self.driving {
            driving[one.variable] = one.settings;
        }
        for clause in clauses.iter().map(|number| &self.vehicle.clauses[*number]) {
            let open = holds_somewhere(&driving, &clause.literals);
            assert!(!open, "Clear with {} open: {beliefs:?}", clause.id);
            let off =
                |one: &Literal| fresh[one.variable] && !driving[one.variable].meets(one.settings);
            let looked = clause.literals.iter().any(off);
            assert!(looked, "Clear with {} not looked at", clause.id);
        }
    }
}
