//! Ages: "off for an hour" as a variable of its own, begun anew by every move of what it is the age
//! of, so that rules and routines treat it as any other.

use super::{Part, fitting, ms, own, variable_at};
use crate::error::Result;
use crate::vehicle::{Action, AgeOf, Deed, Effect, Fitting, Literal, Settings, Variable, Vehicle};

/// The id of an age: `fitting.variable.value`.
pub(super) fn id_of(fitting: &Fitting, variable: &str, limit: &str) -> String {
    format!("{}.{variable}.{limit}", fitting.id)
}

/// Adds a variable for each age that the clauses of a fitting ask for.
pub(super) fn add_ages(vehicle: &mut Vehicle, part: &Part) -> Result<()> {
    let fitting = fitting(vehicle, part.number)?.clone();
    for (name, setting, limit) in part.kind.ages() {
        let id = id_of(&fitting, name, limit);
        if vehicle.numbers.contains_key(&id) {
            continue;
        }
        let variable = own(vehicle, &fitting, name)?;
        let Ok(setting) = vehicle.setting(variable, setting) else {
            continue; // This fitting lacks the setting.
        };
        let minutes = fitting.number(limit).unwrap_or(0.0);
        let minutes = crate::reserve::whole(limit, minutes, 1, 0..=i64::from(u32::MAX))?;
        let limit_ms = ms(u32::try_from(minutes).unwrap_or(u32::MAX));
        let both = Settings::one(AgeOf::OLD).or(Settings::one(AgeOf::YOUNG));
        let age = Variable {
            id: id.clone(),
            name: name.to_owned(),
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

/// Adds a wait for each age: nothing is done but to let the time pass.
pub(super) fn add_waits(vehicle: &mut Vehicle) {
    let ages = vehicle.variables.iter().enumerate();
    let waits = ages.filter_map(|(number, one)| {
        let age = one.age_of?;
        let (variable, settings) = (age.variable, Settings::one(age.setting));
        Some(Action {
            id: format!("{}.wait", one.id),
            name: one.id.rsplit('.').next().unwrap_or_default().to_owned(),
            fitting: one.fitting,
            deed: Deed::Wait,
            before: vec![Literal { variable, settings }],
            effects: vec![Effect { variable: number, to: AgeOf::OLD, spoilt: false }],
            seconds: 0,
            zone: one.zone,
            hazard: false,
            irreversible: false,
        })
    });
    let waits: Vec<_> = waits.collect();
    vehicle.actions.extend(waits);
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
