//! What a person can do with this vehicle: moves, looks, and what they throw back.

use std::collections::BTreeSet;

use super::rule::{self, applies, conjunction};
use super::{Part, fitting, own, variable_at};
use crate::catalogue::{self, Severity};
use crate::error::Result;
use crate::vehicle::{Action, Deed, Effect, Fitting, VariableId, Vehicle};

/// Adds the moves of one fitting.
pub(super) fn add_moves(vehicle: &mut Vehicle, part: &Part) -> Result<()> {
    let fitting = fitting(vehicle, part.number)?.clone();
    let still = vehicle.standing_still();
    for step in part.kind.moves.iter().filter(|step| applies(&fitting, &step.when)) {
        let Some(effects) = effects(vehicle, part, &fitting, step)? else { continue };
        // What can never hold before it keeps this fitting from having the move at all.
        let Some(mut before) = conjunction(vehicle, part, &step.before)? else { continue };
        before.extend(still.filter(|_| !step.while_moving));
        // What must not end alone ends where it runs.
        let ends = step.before.first().filter(|_| step.attended).and_then(|one| one.own.as_ref());
        let ends = ends.map(|name| own(vehicle, &fitting, name)).transpose()?;
        let seconds = part.line.and_then(|line| line.seconds.get(&step.id));
        vehicle.actions.push(Action {
            id: format!("{}.{}", fitting.id, step.id),
            name: step.id.clone(),
            fitting: part.number,
            deed: Deed::Move,
            before,
            seconds: seconds.map_or(step.seconds, |seconds| *seconds.get_ref()),
            zone: ends.map_or_else(|| zone_of(vehicle, &effects), |at| zone_at(vehicle, at)),
            effects,
            hazard: step.hazard,
            irreversible: step.irreversible,
            leaves: step.leaves,
        });
    }
    Ok(())
}

/// What a move changes, of its own fitting first; `None` where a fitting lacks the setting.
fn effects(
    vehicle: &Vehicle,
    part: &Part,
    fitting: &Fitting,
    step: &catalogue::Move,
) -> Result<Option<Vec<Effect>>> {
    let (linked, of_own): (Vec<_>, Vec<_>) =
        step.set.iter().partition(|(name, _)| name.contains('.'));
    let mut effects = Vec::new();
    for (name, setting) in of_own.into_iter().chain(linked) {
        let (owner, variable) = match name.split_once('.') {
            None => (Some(fitting), name.as_str()),
            Some((role, variable)) => (rule::linked(vehicle, part, role), variable),
        };
        let Some(owner) = owner else { continue };
        let variable = own(vehicle, owner, variable)?;
        let Ok(to) = vehicle.setting(variable, setting) else { return Ok(None) };
        let effect = Effect { variable, to, spoilt: false };
        // Two links may name one fitting.
        if !effects.contains(&effect) {
            effects.push(effect);
        }
    }
    Ok(Some(effects))
}

/// Adds a look for each variable that can be looked at.
pub(super) fn add_looks(vehicle: &mut Vehicle, part: &Part) -> Result<()> {
    let fitting = fitting(vehicle, part.number)?.clone();
    let still = vehicle.standing_still();
    for variable in &part.kind.variables {
        let Some(seconds) = variable.look_s else {
            continue;
        };
        let number = own(vehicle, &fitting, &variable.id)?;
        let known = variable_at(vehicle, number)?;
        let (id, effects) = (
            format!("{}.look", known.id),
            vec![Effect { variable: number, to: known.usual, spoilt: false }],
        );
        let Some(mut before) = conjunction(vehicle, part, &variable.look_before)? else { continue };
        before.extend(still);
        vehicle.actions.push(Action {
            id,
            name: variable.id.clone(),
            fitting: part.number,
            deed: Deed::Look,
            before,
            seconds,
            zone: zone_of(vehicle, &effects),
            effects,
            hazard: false,
            irreversible: false,
            leaves: false,
        });
    }
    Ok(())
}

fn zone_of(vehicle: &Vehicle, effects: &[Effect]) -> usize {
    effects.first().map_or(vehicle.home, |effect| zone_at(vehicle, effect.variable))
}

fn zone_at(vehicle: &Vehicle, variable: VariableId) -> usize {
    vehicle.variables.get(variable).map_or(vehicle.home, |known| known.zone)
}

/// Adds to each action what it throws back ("walked round" after anything was moved or looked at).
pub(super) fn spoil(vehicle: &mut Vehicle, parts: &[Part]) -> Result<()> {
    for part in parts {
        let fitting = fitting(vehicle, part.number)?.clone();
        for variable in &part.kind.variables {
            let Some(spoilt) = &variable.spoilt_to else {
                continue;
            };
            let number = own(vehicle, &fitting, &variable.id)?;
            let to = vehicle.setting(number, spoilt)?;
            let kinds: Vec<_> = vehicle.fittings.iter().map(|one| one.kind.clone()).collect();
            for action in &mut vehicle.actions {
                let kind = kinds.get(action.fitting).map_or("", String::as_str);
                let path = format!("{kind}.{}", action.name);
                let is_move = action.deed == Deed::Move;
                let named = variable.spoilt_by.iter().any(|by| by == "*" || is_move && *by == path)
                    && !(is_move && variable.kept_by.contains(&path));
                let sets_it = action.effects.iter().any(|effect| effect.variable == number);
                if named && !sets_it {
                    action.effects.push(Effect { variable: number, to, spoilt: true });
                }
            }
        }
    }
    Ok(())
}

/// A look bears on a hazard where a danger clause hangs on what it shows.
pub(super) fn mark_hazards(vehicle: &mut Vehicle) {
    let danger = vehicle.clauses.iter().filter(|clause| clause.severity == Severity::Danger);
    let hazards: BTreeSet<_> =
        danger.flat_map(|clause| &clause.literals).map(|literal| literal.variable).collect();
    for action in vehicle.actions.iter_mut().filter(|action| action.deed == Deed::Look) {
        action.hazard = action.effects.iter().any(|effect| hazards.contains(&effect.variable));
    }
}
