//! Ages: "off for an hour" as a variable of its own, begun anew by every move of what it is the age
//! of, so that rules and routines treat it as any other.

use super::rule::fittings;
use super::{Part, fitting, own, time_ms, variable_at};
use crate::catalogue;
use crate::error::Result;
use crate::vehicle::{Action, AgeOf, Deed, Effect, Fitting, Literal, Settings, Variable, Vehicle};

/// The id of an age: `fitting.variable.value`, where another fitting's rule asks for it with that
/// one's id before the value.
pub(super) fn id_of(asking: &Fitting, of: &Fitting, variable: &str, limit: &str) -> String {
    if asking.id == of.id {
        return format!("{}.{variable}.{limit}", of.id);
    }
    format!("{}.{variable}.{}.{limit}", of.id, asking.id)
}

/// Adds a variable for each age that a fitting asks for, of its own or of others.
pub(super) fn add_ages(vehicle: &mut Vehicle, part: &Part) -> Result<()> {
    let asking = fitting(vehicle, part.number)?.clone();
    for literal in part.kind.ages() {
        let (of, name) = fittings(vehicle, Some(part), literal)?;
        let of: Vec<_> = of.into_iter().cloned().collect();
        for fitting in of {
            add_age(vehicle, part, &asking, &fitting, name, literal)?;
        }
    }
    Ok(())
}

/// Adds one age, unless it is there already or the fitting lacks the setting.
fn add_age(
    vehicle: &mut Vehicle,
    part: &Part,
    asking: &Fitting,
    of: &Fitting,
    name: &str,
    literal: &catalogue::Literal,
) -> Result<()> {
    let (Some(limit), Some(setting)) = (literal.limit(), literal.settings.first()) else {
        return Ok(());
    };
    let id = id_of(asking, of, name, limit);
    let variable = own(vehicle, of, name)?;
    let setting = match vehicle.setting(variable, setting) {
        Ok(setting) if !vehicle.numbers.contains_key(&id) => setting,
        _ => return Ok(()),
    };
    let limit_ms = time_ms(asking, limit)?;
    let attended = part.kind.attends(literal);
    let both = Settings::one(AgeOf::OLD).or(Settings::one(AgeOf::YOUNG));
    let age = Variable {
        id: id.clone(),
        name: name.to_owned(),
        fitting: part.number,
        settings: vec!["old".to_owned(), "young".to_owned()],
        all: both,
        assume: both,
        middle: Settings::NONE,
        usual: AgeOf::OLD,
        given: true,
        dont_care: true,
        age_of: Some(AgeOf { variable, setting, limit_ms, attended }),
        ..variable_at(vehicle, variable)?.clone()
    };
    vehicle.numbers.insert(id, vehicle.variables.len());
    vehicle.variables.push(age);
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
            leaves: false,
        })
    });
    let waits: Vec<_> = waits.collect();
    vehicle.actions.extend(waits);
}

/// Every move of a variable, and whatever throws it back, makes its ages young.
pub(super) fn start_anew(vehicle: &mut Vehicle) {
    let ages = vehicle.variables.iter().enumerate();
    let ages: Vec<_> = ages.filter_map(|(number, one)| Some((number, one.age_of?))).collect();
    for action in &mut vehicle.actions {
        for (number, age) in &ages {
            let is_move = action.deed == Deed::Move;
            let mut of_it = action.effects.iter().filter(|one| one.variable == age.variable);
            if of_it.any(|one| is_move || one.spoilt) {
                let (variable, to) = (*number, AgeOf::YOUNG);
                action.effects.push(Effect { variable, to, spoilt: true });
            }
        }
    }
}
