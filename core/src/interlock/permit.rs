//! When a move may be made.

use super::{believed, must_hold};
use crate::catalogue::Severity;
use crate::vehicle::{Action, Clause, Literal, Settings, Vehicle};

/// One reason why an action may not be made now.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Refusal {
    /// A condition of the action does not hold in every world.
    Before(Literal),
    /// The action would make this clause possible, by its number.
    Clause(usize),
}

/// Whether an action may be made for what is believed.
#[must_use]
pub fn is_permitted(vehicle: &Vehicle, beliefs: &[Settings], action: &Action) -> bool {
    action.before.iter().all(|literal| must_hold(beliefs, literal))
        && !vehicle.clauses.iter().any(|clause| forbids(vehicle, clause, beliefs, action))
}

/// Every reason why an action may not be made, conditions first, then clauses in catalogue order.
#[must_use]
pub fn refusals(vehicle: &Vehicle, beliefs: &[Settings], action: &Action) -> Vec<Refusal> {
    let mut found: Vec<_> = action
        .before
        .iter()
        .filter(|literal| !must_hold(beliefs, literal))
        .map(|literal| Refusal::Before(*literal))
        .collect();
    let forbidding = vehicle.clauses.iter().enumerate();
    let forbidding = forbidding.filter(|(_, one)| forbids(vehicle, one, beliefs, action));
    found.extend(forbidding.map(|(number, _)| Refusal::Clause(number)));
    found
}

/// A danger or damage clause forbids a move that makes one of its literals possible, on the way or
/// in the end, unless the clause is off all the while. On the way each changed variable may be its
/// old, its new or its middle setting; what it is in the end is among them, so off on the way is
/// off after. A literal that already held in every world is not *made* possible: a move that only
/// leads out of a clause is never forbidden by it.
pub(crate) fn forbids(
    vehicle: &Vehicle,
    clause: &Clause,
    beliefs: &[Settings],
    action: &Action,
) -> bool {
    if clause.severity == Severity::Nuisance {
        return false;
    }
    let mut made_possible = false;
    for literal in &clause.literals {
        let new = new_settings(vehicle, action, literal.variable);
        let under_way = believed(beliefs, literal.variable).or(new);
        if !under_way.meets(literal.settings) {
            return false;
        }
        made_possible |= new.meets(literal.settings) && !must_hold(beliefs, literal);
    }
    made_possible
}

/// Whether an action brings a literal of a clause about, on the way or in the end.
pub(crate) fn bears_on(vehicle: &Vehicle, action: &Action, clause: &Clause) -> bool {
    let mut literals = clause.literals.iter();
    literals.any(|one| new_settings(vehicle, action, one.variable).meets(one.settings))
}

/// The settings that an action brings a variable to, on the way and in the end; none where it
/// leaves it alone, as a look does with what it looks at.
pub(crate) fn new_settings(vehicle: &Vehicle, action: &Action, variable: usize) -> Settings {
    let middle = vehicle.variables.get(variable).map_or(Settings::NONE, |known| known.middle);
    let effects = action.effects.iter().filter(|effect| effect.variable == variable);
    let effects = effects.filter(|effect| action.brings(effect));
    effects.fold(Settings::NONE, |set, effect| set.or(Settings::one(effect.to)).or(middle))
}
