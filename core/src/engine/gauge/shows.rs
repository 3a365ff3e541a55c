//! What each gauge can show, and how that is said.

use crate::catalogue::Measured;
use crate::engine::gas;
use crate::engine::page::{GaugeChoice, GaugeUnit};
use crate::engine::words::Words;
use crate::error::{Error, Result};
use crate::vehicle::{Fitting, Gauge, Settings};

/// The least and most that a 12 V battery shows. Unit: V.
pub(super) const VOLTS: (f64, f64) = (8.0, 16.0);

/// How a gauge is read, as the pack says.
pub(in crate::engine) fn unit_of(fitting: &Fitting, gauge: &Gauge) -> Result<GaugeUnit> {
    match (gauge.of, fitting.word("gauge_shows")) {
        (Measured::Battery, _) => Ok(GaugeUnit::Volts),
        (Measured::Gas, _) => Ok(gas::unit_of(fitting)),
        (Measured::Tank, Some("lamps")) => Ok(GaugeUnit::Lamps),
        (Measured::Tank, Some("percent")) => Ok(GaugeUnit::Percent),
        (Measured::Tank, Some("litres")) => Ok(GaugeUnit::Litres),
        (Measured::Tank, _) => Err(Error::Internal(format!("{}: no gauge", fitting.id))),
    }
}

/// The least and most that may be entered, in the gauge's own unit.
pub(super) fn range(fitting: &Fitting, gauge: &Gauge) -> Result<(f64, f64)> {
    Ok(match unit_of(fitting, gauge)? {
        _ if gauge.of == Measured::Gas => gas::range(fitting)?,
        GaugeUnit::Lamps => (0.0, f64::from(steps(fitting))),
        GaugeUnit::Percent => (0.0, 100.0),
        GaugeUnit::Litres => (0.0, fitting.number("capacity_l").unwrap_or(0.0)),
        GaugeUnit::Volts | GaugeUnit::Kilograms | GaugeUnit::Words => VOLTS,
    })
}

/// Whether a gauge may show that at all. What a cylinder cannot show, [`gas`] says better.
pub(super) fn may_be(
    fitting: &Fitting,
    gauge: &Gauge,
    unit: GaugeUnit,
    value: f64,
) -> Result<bool> {
    let (least, most) = range(fitting, gauge)?;
    let counted = matches!(unit, GaugeUnit::Lamps | GaugeUnit::Words);
    let weighed = gauge.of == Measured::Gas && !counted;
    Ok(unit == unit_of(fitting, gauge)?
        && !(counted && value.fract().abs() > 0.0)
        && (weighed || (least..=most).contains(&value)))
}

/// What is to be said of a gauge: in which unit, from where to where, or by which words.
pub(in crate::engine) fn expects(
    words: &Words,
    fitting: &Fitting,
    gauge: &Gauge,
) -> Result<String> {
    let key = match unit_of(fitting, gauge)? {
        GaugeUnit::Lamps => "lamps",
        GaugeUnit::Percent => "percent",
        GaugeUnit::Litres => "litres",
        GaugeUnit::Volts => "volts",
        GaugeUnit::Kilograms => "kilograms",
        GaugeUnit::Words => "words",
    };
    let (least, most) = range(fitting, gauge)?;
    let known: Vec<_> = choices(words, fitting, gauge)?.into_iter().map(|one| one.text).collect();
    let (least, most, known) = (least.to_string(), most.to_string(), known.join(", "));
    let slots = [("least", least.as_str()), ("most", &most), ("words", &known)];
    Ok(words.say(&format!("gauge.expects.{key}"), &slots))
}

/// The values that a gauge can show, where these are few.
pub(super) fn choices(words: &Words, fitting: &Fitting, gauge: &Gauge) -> Result<Vec<GaugeChoice>> {
    Ok(match unit_of(fitting, gauge)? {
        GaugeUnit::Lamps => lamps(words, steps(fitting)),
        GaugeUnit::Words => words_of(words, gauge.variable),
        GaugeUnit::Percent | GaugeUnit::Litres | GaugeUnit::Volts | GaugeUnit::Kilograms => {
            Vec::new()
        }
    })
}

/// How many lamps a gauge has.
fn steps(fitting: &Fitting) -> u32 {
    let steps = fitting.numbers("lamp_steps_pct").unwrap_or_default();
    u32::try_from(steps.len()).unwrap_or(0)
}

/// Every count of lamps that may be lit.
fn lamps(words: &Words, steps: u32) -> Vec<GaugeChoice> {
    let all = (0..=steps).map(|lit| GaugeChoice {
        value: f64::from(lit),
        text: match lit {
            0 => words.say("gauge.no_lamps", &[]),
            _ => words.say("gauge.lamps", &[("n", &lit.to_string())]),
        },
    });
    all.collect()
}

/// Every word that may be said of it.
fn words_of(words: &Words, variable: usize) -> Vec<GaugeChoice> {
    let all = words.vehicle.variables.get(variable).map_or(Settings::NONE, |known| known.all);
    let of = |place: u8| GaugeChoice {
        value: f64::from(place),
        text: words.settings(variable, Settings::one(place)),
    };
    all.places().map(of).collect()
}
