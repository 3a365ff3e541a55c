//! Gas cylinders: how each is read, in what its contents are told, and what a reading may be.

use super::gauge::bands;
use super::loaded::Loaded;
use super::page::GaugeUnit;
use super::words::Words;
use crate::error::{Error, Result};
use crate::fridge::Known;
use crate::reserve::gas::{Cylinder, Level, Shown};
use crate::reserve::tank::Conditions;
use crate::reserve::{Amount, whole};
use crate::state::Reading;
use crate::vehicle::Fitting;

const PERMILLE: u32 = 10;
const MILLI: u32 = 1_000;

/// How a cylinder is read: by weight only where the pack has what that takes.
pub(super) fn unit_of(fitting: &Fitting) -> GaugeUnit {
    match fitting.word("gauge_shows") {
        Some("percent") => GaugeUnit::Percent,
        Some("weight") if not_stamped(fitting).is_empty() => GaugeUnit::Kilograms,
        _ => GaugeUnit::Words,
    }
}

/// What the pack does not give and weighing takes.
fn not_stamped(fitting: &Fitting) -> Vec<&'static str> {
    ["tare_kg", "contents_kg"].into_iter().filter(|value| fitting.number(value).is_none()).collect()
}

/// What a cylinder holds when full: kilograms or litres where the pack gives them, else a share.
pub(super) fn holds(fitting: &Fitting) -> Result<(i64, Amount)> {
    let by_weight = unit_of(fitting) == GaugeUnit::Kilograms;
    let volume_l = fitting.number("volume_l").filter(|_| !by_weight);
    let most = 1..=Reading::MILLI_MAX;
    Ok(match (volume_l, fitting.number("contents_kg")) {
        (Some(volume_l), _) => {
            let full_l = volume_l * number(fitting, "fill_limit_pct") / 100.0;
            (whole("volume_l", full_l, MILLI, most)?, Amount::Millilitres)
        }
        (None, Some(kg)) => (whole("contents_kg", kg, MILLI, most)?, Amount::Grams),
        (None, None) => (Amount::WHOLE_PERMILLE, Amount::Permille),
    })
}

/// The least and most that may be entered, in the unit of [`unit_of`]: what a cylinder can show, and
/// the error of what shows it beyond.
pub(super) fn range(fitting: &Fitting) -> Result<(f64, f64)> {
    let of = |count: i64, per: u32| {
        f64::from(u32::try_from(count.max(0)).unwrap_or(u32::MAX)) / f64::from(per)
    };
    Ok(match unit_of(fitting) {
        GaugeUnit::Kilograms => {
            let (tare_g, error_g) = weighed(fitting)?;
            let full_g = tare_g.saturating_add(holds(fitting)?.0);
            let (least, most) = (tare_g.saturating_sub(error_g), full_g.saturating_add(error_g));
            (of(least, MILLI), of(most, MILLI))
        }
        GaugeUnit::Percent => {
            let (full, error) = shared(fitting)?;
            (0.0, of(full.saturating_add(error).min(Amount::WHOLE_PERMILLE), PERMILLE))
        }
        GaugeUnit::Lamps | GaugeUnit::Litres | GaugeUnit::Volts | GaugeUnit::Words => {
            let edges = fitting.numbers("band_edges_pct").unwrap_or_default().len();
            (0.0, f64::from(u32::try_from(edges).unwrap_or(0)))
        }
    })
}

/// The tare of a cylinder and the error of what it is weighed on. Unit: g.
fn weighed(fitting: &Fitting) -> Result<(i64, i64)> {
    let of = |name| whole(name, number(fitting, name), MILLI, 0..=i64::MAX);
    Ok((of("tare_kg")?, of("weight_error_kg")?))
}

/// What a full cylinder shows on its gauge, and the error of that. Unit: per mille.
fn shared(fitting: &Fitting) -> Result<(i64, i64)> {
    let of = |name, value| whole(name, value, PERMILLE, 0..=i64::MAX);
    let error = of("gauge_error_pct", number(fitting, "gauge_error_pct"))?;
    Ok((of("fill_limit_pct", full_pct(fitting))?, error))
}

/// How a cylinder is read, what that is of, and what to mind.
pub(super) fn about(words: &Words, fitting: &Fitting) -> String {
    let say = |key: &str| words.with_values(fitting, &words.say(&format!("gauge.gas.{key}"), &[]));
    match (unit_of(fitting), fitting.word("gauge_shows")) {
        (GaugeUnit::Kilograms, _) => say("weigh"),
        (GaugeUnit::Percent, _) if fitting.word("percent_of") == Some("volume") => say("of_volume"),
        (GaugeUnit::Percent, _) => say("of_contents"),
        (_, Some("weight")) => {
            let missing = not_stamped(fitting);
            let missing: Vec<_> = missing.iter().map(|value| say(&format!("no_{value}"))).collect();
            [missing.join(" "), say("see")].join(" ")
        }
        _ => say("see"),
    }
}

/// What a full cylinder shows. Unit: per cent.
fn full_pct(fitting: &Fitting) -> f64 {
    match fitting.word("percent_of") {
        Some("volume") => number(fitting, "fill_limit_pct"),
        _ => 100.0,
    }
}

/// Refuses what a cylinder cannot show, and says why.
fn check(words: &Words, fitting: &Fitting, value: f64) -> Result<()> {
    let (least, most) = range(fitting)?;
    if (least..=most).contains(&value) {
        return Ok(());
    }
    let key = match unit_of(fitting) {
        GaugeUnit::Kilograms if value < least => "below_tare",
        GaugeUnit::Kilograms if value > most => "above_full",
        GaugeUnit::Percent if value > most && full_pct(fitting) < 100.0 => "over_filled",
        GaugeUnit::Kilograms
        | GaugeUnit::Percent
        | GaugeUnit::Lamps
        | GaugeUnit::Litres
        | GaugeUnit::Volts
        | GaugeUnit::Words => "range",
    };
    let slots = [("least", &*least.to_string()), ("most", &*most.to_string())];
    let expected = words.say(&format!("gauge.gas.{key}"), &slots);
    let (expected, _) = words.filled(fitting, &expected);
    Err(Error::InvalidInput { field: words.title(fitting).to_owned(), expected })
}

impl Loaded {
    /// What a reading says of what is left; without a value, the least that may be entered.
    pub(super) fn read_gas(
        &self,
        words: &Words,
        fitting: &Fitting,
        value: Option<f64>,
    ) -> Result<Level> {
        let least = range(fitting)?.0;
        let value = value.unwrap_or(least);
        check(words, fitting, value)?;
        let small = |name: &str, value: f64, per: u32| whole(name, value, per, 0..=i64::MAX);
        let shown = match unit_of(fitting) {
            GaugeUnit::Kilograms => {
                let (tare_g, error_g) = weighed(fitting)?;
                Shown::Weight { gross_g: small("kilograms", value, MILLI)?, tare_g, error_g }
            }
            GaugeUnit::Percent => {
                let (full_permille, error_permille) = shared(fitting)?;
                let shown_permille = small("percent", value, PERMILLE)?;
                Shown::Percent { shown_permille, full_permille, error_permille }
            }
            GaugeUnit::Lamps | GaugeUnit::Litres | GaugeUnit::Volts | GaugeUnit::Words => {
                Shown::Band(usize::try_from(small("words", value, 1)?).unwrap_or(usize::MAX))
            }
        };
        let still = self.is("engine", "wheels", "still");
        let level = self.is("pitch", "ground", "level");
        let conditions = Conditions { powered: Known::Yes, still, level };
        Cylinder::new(holds(fitting)?.0, bands(fitting)?)?.read(&shown, conditions)
    }
}

fn number(fitting: &Fitting, value: &str) -> f64 {
    fitting.number(value).unwrap_or(0.0)
}
