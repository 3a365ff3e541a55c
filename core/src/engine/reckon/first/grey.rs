//! What one grey day takes from the battery, beside the days on which it was read.

use super::stock::Stock;
use crate::catalogue::Measured;
use crate::engine::gauge::chemistry;
use crate::engine::reckon::asked::Asked;
use crate::engine::reckon::power::season::Season;
use crate::engine::reckon::power::sun::Brought;
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::battery::ages;

const PERMILLE: f64 = 1_000.0;

/// What it may take, and from which of the reserves. Unit: of its whole, in thousandths. `None`
/// where there are no panels, the days were as grey, or something is missing for it, which is noted.
///
/// # Source
/// What the sun brings under both skies: [`crate::reckon::solar`]; an old battery loses the larger share.
pub(super) fn takes(
    asked: &mut Asked,
    stocks: &[Stock],
    missing: &mut Vec<String>,
) -> Result<Option<(usize, Between)>> {
    let battery = |stock: &Stock| stock.known.gauge.of == Measured::Battery;
    let Some(place) = stocks.iter().position(battery) else { return Ok(None) };
    let Some(fitting) = stocks.get(place).map(|stock| stock.known.fitting) else {
        return Ok(None);
    };
    let sun = Brought::of(asked, fitting, Season::Today, missing)?;
    let Some(less_ah) = sun.less_when_grey_ah(chemistry(fitting)) else { return Ok(None) };
    let Some(capacity_ah) = fitting.number("capacity_ah") else {
        missing.push(asked.say("missing.capacity", &[]));
        return Ok(None);
    };
    let permille = less_ah / (ages() * capacity_ah) * PERMILLE;
    Ok((permille.upper > 0.0).then_some((place, permille)))
}
