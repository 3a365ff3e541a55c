//! What time or temperature may change, for what is fitted.

use super::rule::{applies, conjunction};
use super::{Part, fitting, own, places, time_ms, variable_at};
use crate::error::Result;
use crate::vehicle::{Settling, Vehicle};

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
