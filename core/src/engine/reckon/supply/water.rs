//! At which power to heat, and how long water then takes.

use super::wanted::{Wanted, low_w};
use super::{Supply, beside, held};
use crate::engine::page::{ReckoningLine, ReckoningPart};
use crate::engine::reckon::asked::Asked;
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::supply::heat::minutes;
use crate::reckon::supply::load::{Load, Nature};
use crate::vehicle::Fitting;

/// How much a boiler can be said to hold. Unit: L.
const LITRES: (f64, f64) = (1.0, 60.0);
/// The water that comes in. Unit: °C.
const COLD_C: (f64, f64) = (0.0, 40.0);
/// How hot it is wanted. Unit: °C.
const HOT_C: (f64, f64) = (30.0, 80.0);

/// A line for each power of the boiler beside what is always on; `None` where there is no boiler.
pub(super) fn part(
    asked: &mut Asked,
    wanted: &Wanted,
    supply: &Supply,
    missing: &mut Vec<String>,
) -> Result<Option<ReckoningPart>> {
    let loaded = asked.loaded;
    let Some((_, boiler)) = loaded.vehicle.of_kind("boiler").next() else { return Ok(None) };
    let litres = asked.number("boiler", "_l", LITRES)?.or_else(|| boiler.number("capacity_l"));
    let cold = asked.number("cold", "_c", COLD_C)?;
    let hot = asked.number("hot", "_c", HOT_C)?;
    let said = litres.zip(cold).zip(hot);
    if said.is_none() {
        missing.push(asked.say("missing.water", &[]));
    }
    let powers = [("low", low_w(boiler)), ("high", boiler.number("mains_w"))];
    let rated = powers.into_iter().filter_map(|(id, rated_w)| Some((id, rated_w?)));
    let lines = rated.map(|(id, rated_w)| {
        let takes = said.and_then(|((litres, cold), hot)| {
            minutes(litres, Between::exactly(cold), hot, rated_w)
        });
        line(asked, id, boiler, rated_w, takes, wanted, supply)
    });
    let lines = lines.collect();
    Ok(Some(asked.part("boiler", lines)))
}

/// A line for each power of an electric heating that has two; `None` where none has.
pub(super) fn heating(asked: &Asked, wanted: &Wanted, supply: &Supply) -> Option<ReckoningPart> {
    let mut heaters = asked.loaded.vehicle.of_kind("heater_electric");
    let (heater, low_w) = heaters.find_map(|(_, one)| Some((one, low_w(one)?)))?;
    let powers = [("low", Some(low_w)), ("high", heater.number("mains_w"))];
    let rated = powers.into_iter().filter_map(|(id, rated_w)| Some((id, rated_w?)));
    let lines = rated.map(|(id, rated_w)| line(asked, id, heater, rated_w, None, wanted, supply));
    Some(asked.part("heating", lines.collect()))
}

fn line(
    asked: &Asked,
    id: &str,
    fitting: &Fitting,
    rated_w: f64,
    takes: Option<Between>,
    wanted: &Wanted,
    supply: &Supply,
) -> ReckoningLine {
    let drawn = beside(wanted, Load { rated_w, nature: Nature::Heating, cycles: false });
    let breakers = supply.rated_a.map(|rated_a| supply.all(rated_a));
    let all = breakers.into_iter().flatten();
    let worst = all.max_by_key(|(_, breaker)| {
        let (better, worse) = breaker.steady_between(drawn.current);
        (worse, better)
    });
    let worst = worst.map(|(_, breaker)| held(asked, breaker, drawn.current));
    let watts = asked.quantity("_w", rated_w);
    let text = match &worst {
        Some((_, said)) => asked.say("say.power", &[("watts", &watts), ("said", said)]),
        None => watts,
    };
    let detail = takes.map(|takes| {
        let band = asked.band("_min", takes, 1.0);
        asked.say("say.takes", &[("band", &band), ("what", asked.words.title(fitting))])
    });
    let (lower, upper) = (takes.map(|takes| takes.lower), takes.map(|takes| takes.upper));
    let unit = takes.map(|_| "min".to_owned());
    let mark = worst.map(|(mark, _)| mark);
    ReckoningLine { detail, mark, lower, upper, unit, ..asked.told(id, text) }
}
