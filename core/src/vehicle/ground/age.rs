//! Ages: "off for an hour" as a variable of its own, begun anew by every move of what it is the age
//! of, so that rules and routines treat it as any other.

use super::{Part, fitting, ms, own, variable_at};
use crate::catalogue::{self, Kind};
use crate::error::Result;
use crate::vehicle::{AgeOf, Deed, Effect, Fitting, Settings, Variable, Vehicle};

/// The id of an age: `fitting.variable.value`.
pub(super) fn id_of(fitting: &Fitting, variable: &str, limit: &str) -> String {
    format!("{}.{variable}.{limit}", fitting.id)
}

/// Adds a variable for each age that the clauses of a fitting ask for.
pub(super) fn add_ages(vehicle: &mut Vehicle, part: &Part) -> Result<()> {
    let fitting = fitting(vehicle, part.number)?.clone();
    for literal in literals(part.kind) {
        let (Some(name), Some(limit)) = (&literal.own, &literal.not_yet_for) else { continue };
        let id = id_of(&fitting, name, limit);
        if vehicle.numbers.contains_key(&id) {
            continue;
        }
        let variable = own(vehicle, &fitting, name)?;
        let Some(setting) =
            literal.settings.first().and_then(|one| vehicle.setting(variable, one).ok())
        else {
            continue; // This fitting lacks the setting.
        };
        let minutes = fitting.number(limit).unwrap_or(0.0);
        let minutes = crate::reserve::whole(limit, minutes, 1, 0..=i64::from(u32::MAX))?;
        let limit_ms = ms(u32::try_from(minutes).unwrap_or(u32::MAX));
        let both = Settings::one(AgeOf::OLD).or(Settings::one(AgeOf::YOUNG));
        let age = Variable {
            id: id.clone(),
            name: name.clone(),
            settings: vec!["old".to_owned(), "young".to_owned()],
            all: both,
            assume: both,
            middle: Settings::NONE,
            usual: AgeOf::OLD,
            given: true,
            dont_care: true,
            age_of: Some(AgeOf { variable, setting, limit_ms }),
            ..variable_at(vehicle, variable)?.clone()
        };
        vehicle.numbers.insert(id, vehicle.variables.len());
        vehicle.variables.push(age);
    }
    Ok(())
}

fn literals(kind: &Kind) -> impl Iterator<Item = &catalogue::Literal> {
    kind.clauses.iter().flat_map(|clause| clause.never.iter().chain(&clause.nor))
}

/// Every move of a variable makes its ages young.
pub(super) fn start_anew(vehicle: &mut Vehicle) {
    let ages = vehicle.variables.iter().enumerate();
    let ages: Vec<_> = ages.filter_map(|(number, one)| Some((number, one.age_of?))).collect();
    for action in &mut vehicle.actions {
        for (number, age) in &ages {
            let moved = action.effects.iter().any(|one| one.variable == age.variable);
            if moved && action.deed == Deed::Move {
                let (variable, to) = (*number, AgeOf::YOUNG);
                action.effects.push(Effect { variable, to, spoilt: true });
            }
        }
    }
}
