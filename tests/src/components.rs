//! A vehicle in components (semantics 19): the connected parts of the graph of its danger and damage
//! clauses, without the hubs, and every state of each.

use std::collections::BTreeSet;

use stowfast_core::catalogue::Severity;
use stowfast_core::vehicle::{Clause, Literal, Settings, Vehicle};

/// Variables whose change is a barrier: every rule of theirs is off while they change.
const HUBS: [(&str, &str); 7] = [
    ("engine", "wheels"),
    ("engine", "running"),
    ("post", "supply"),
    ("post", "switch"),
    ("main_switch", "lever"),
    ("main_switch", "rcd"),
    ("pitch", "flame"),
];
/// Most states of one component.
pub const STATES_MAX: u128 = 1_000_000;

/// What can be believed of a variable, and whether it is fresh.
pub type Choice = (Settings, bool);

/// Variables that stand in one clause, directly or through others, without hubs.
#[derive(Debug, Clone)]
pub struct Component {
    /// Its own variables, in the vehicle's order.
    pub variables: Vec<usize>,
    /// The hubs that its clauses name.
    pub hubs: Vec<usize>,
}

impl Component {
    /// Its own variables, then its hubs.
    #[must_use]
    pub fn all(&self) -> Vec<usize> {
        [self.variables.as_slice(), &self.hubs].concat()
    }

    /// Whether the literal is about one of its own variables.
    #[must_use]
    pub fn owns(&self, literal: &Literal) -> bool {
        self.variables.contains(&literal.variable)
    }

    /// Whether the literal is about one of its own variables or hubs.
    #[must_use]
    pub fn names(&self, literal: &Literal) -> bool {
        self.owns(literal) || self.hubs.contains(&literal.variable)
    }

    /// Its variables by id, for people to read.
    #[must_use]
    pub fn ids(&self, vehicle: &Vehicle) -> String {
        let known = self.variables.iter().filter_map(|one| vehicle.variables.get(*one));
        known.map(|one| one.id.as_str()).collect::<Vec<_>>().join(", ")
    }
}

/// Whether the clause is of danger or damage.
#[must_use]
pub fn weighty(clause: &Clause) -> bool {
    clause.severity != Severity::Nuisance
}

/// The components of a vehicle.
#[must_use]
pub fn components(vehicle: &Vehicle) -> Vec<Component> {
    let clauses = vehicle.clauses.iter().filter(|clause| weighty(clause));
    joined(vehicle, &clauses.map(|clause| clause.literals.as_slice()))
}

/// The connected parts of a graph in which each list of literals joins all that it names but hubs.
pub fn joined<'a>(
    vehicle: &Vehicle,
    lists: &(impl Iterator<Item = &'a [Literal]> + Clone),
) -> Vec<Component> {
    let hubs = hubs(vehicle);
    let named = |list: &[Literal]| list.iter().map(|one| one.variable).collect::<BTreeSet<_>>();
    let mut parts: Vec<BTreeSet<usize>> = Vec::new();
    for list in lists.clone() {
        let mut part: BTreeSet<usize> = named(list).difference(&hubs).copied().collect();
        let (touching, apart) = parts.drain(..).partition(|one| !one.is_disjoint(&part));
        parts = apart;
        let touching: Vec<BTreeSet<usize>> = touching;
        part.extend(touching.into_iter().flatten());
        if !part.is_empty() {
            parts.push(part);
        }
    }
    let with_hubs = |part: BTreeSet<usize>| {
        let mine = lists.clone().map(named).filter(|list| !list.is_disjoint(&part));
        let all: BTreeSet<usize> = mine.flatten().collect();
        Component {
            hubs: all.intersection(&hubs).copied().collect(),
            variables: part.into_iter().collect(),
        }
    };
    parts.into_iter().map(with_hubs).collect()
}

fn hubs(vehicle: &Vehicle) -> BTreeSet<usize> {
    let of = |(kind, name): &(&str, &str)| {
        let fitted = vehicle.of_kind(kind).filter_map(|(_, one)| vehicle.variable_of(one, name));
        fitted.collect::<Vec<_>>()
    };
    HUBS.iter().flat_map(of).collect()
}

/// The vehicle with the rules of one component alone, and with what its moves wait for elsewhere
/// taken as given: it permits whatever the whole vehicle permits, and more.
#[must_use]
pub fn alone(vehicle: &Vehicle, component: &Component) -> Vehicle {
    let mut part = vehicle.clone();
    part.clauses
        .retain(|one| weighty(one) && one.literals.iter().any(|literal| component.owns(literal)));
    for action in &mut part.actions {
        action.before.retain(|one| component.names(one));
    }
    part
}

/// What can be believed of a variable: each setting alone, or nothing known; and, where `looks`
/// says that freshness counts, each setting stale and fresh.
#[must_use]
pub fn choices(vehicle: &Vehicle, variable: usize, looks: bool) -> Vec<Choice> {
    let all = vehicle.variables.get(variable).map_or(Settings::NONE, |known| known.all);
    let single = |fresh: bool| all.places().map(move |place| (Settings::one(place), fresh));
    let mut choices: Vec<_> = single(false).collect();
    if looks {
        choices.extend(single(true));
    }
    choices.push((all, false));
    choices
}

/// How many combinations of the choices there are.
#[must_use]
pub fn count(choices: &[Vec<Choice>]) -> u128 {
    let many = |one: &Vec<Choice>| u128::try_from(one.len()).unwrap_or(u128::MAX);
    choices.iter().map(many).fold(1, u128::saturating_mul)
}

/// The combination of a number below their count.
#[must_use]
pub fn numbered(choices: &[Vec<Choice>], number: u128) -> Vec<Choice> {
    let mut left = number;
    let mut at = |one: &Vec<Choice>| {
        let many = u128::try_from(one.len()).ok()?;
        let place = left.checked_rem(many)?;
        left = left.checked_div(many)?;
        one.get(usize::try_from(place).ok()?).copied()
    };
    choices.iter().filter_map(&mut at).collect()
}
