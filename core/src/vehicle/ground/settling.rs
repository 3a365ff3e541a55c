//! What time or temperature may change, for what is fitted.

use super::rule::{applies, conjunction};
use super::{Part, fitting, ms, own, places, variable_at};
use crate::error::Result;
use crate::vehicle::{Fitting, Settling, Vehicle};

const MIN_PER_H: u32 = 60;
const MIN_PER_DAY: u32 = 1_440;

/// Adds what may settle of one fitting; what it has no setting for is left out.
pub(super) fn add(vehicle: &mut Vehicle, part: &Part) -> Result<()> {
    let fitting = fitting(vehicle, part.number)?.clone();
    for one in part.kind.settlings.iter().filter(|one| applies(&fitting, &one.when)) {
        let variable = own(vehicle, &fitting, &one.variable)?;
        let known = variable_at(vehicle, variable)?;
        let from = places(&known.settings, |name| one.from.contains(name)).and(known.all);
        let adds = places(&known.settings, |name| one.adds.contains(name)).and(known.all);
        let Some(during) = conjunction(vehicle, part, &one.during)? else { continue };
        if from.is_empty() || adds.is_empty() {
            continue;
        }
        let latest_ms = one.latest.as_ref().map(|limit| time_ms(&fitting, limit)).transpose()?;
        let after_ms = time_ms(&fitting, &one.after)?;
        let name = one.id.clone();
        let fitting = part.number;
        vehicle.settlings.push(Settling {
            name,
            fitting,
            variable,
            from,
            adds,
            during,
            after_ms,
            latest_ms,
        });
    }
    Ok(())
}

/// A pack value as a time; the unit ends its name.
fn time_ms(fitting: &Fitting, limit: &str) -> Result<i64> {
    let minutes_each = match limit.rsplit('_').next() {
        Some("h") => MIN_PER_H,
        Some("days") => MIN_PER_DAY,
        _ => 1,
    };
    let told = fitting.number(limit).unwrap_or(0.0) * f64::from(minutes_each);
    let minutes = crate::reserve::whole(limit, told, 1, 0..=i64::from(u32::MAX))?;
    Ok(ms(u32::try_from(minutes).unwrap_or(u32::MAX)))
}
