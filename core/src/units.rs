//! Metric or imperial: the one place where a quantity gets the number and the unit that is read.
//!
//! What a gauge shows is typed as it shows it, whatever is chosen here; what is picked for a question is
//! typed in the unit in which it is then read ([`Units::typed`]). Kilograms stay kilograms,
//! volts volts and per cent per cent: plates, scales and panels of either country show those.
//!
//! # Source
//! The Units of Measurement Regulations 1995 (UK), schedule: mile, foot, inch, gallon (4.546 09 L),
//! fluid ounce (its 160th part). Pound-force per square inch: 6.894 757 kPa. Fahrenheit: definition.

mod typed;

pub use typed::Typed;

/// How quantities are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Units {
    /// Litres, metres, kilometres, bar, degrees Celsius.
    #[default]
    Metric,
    /// Gallons (of 4.546 09 L), feet and inches, miles, psi, degrees Fahrenheit.
    Imperial,
}

/// A quantity as it is written: the word of its unit, by its key below `say.unit.`, and its slots.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Written {
    /// The unit.
    pub unit: &'static str,
    /// The number.
    pub n: String,
    /// The number of the smaller unit, where there are two.
    pub m: String,
}

/// Which way a number is rounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Round {
    Nearest,
    /// For what must not be undercut: a height, a clearance.
    Up,
    /// For what runs out: a distance that is left.
    Down,
}

/// How the pack values of one ending are written.
struct Measure {
    /// How the name of the value ends.
    ending: &'static str,
    metric: &'static str,
    imperial: &'static str,
    /// How many of the metric unit make one of the imperial.
    per: f64,
    /// What the imperial scale shows at 0.
    zero: f64,
    /// Tenths are written below this many, whole ones from there on.
    tenths_below: f64,
    round: Round,
}

const fn measure(ending: &'static str, metric: &'static str, imperial: &'static str) -> Measure {
    let (per, zero, tenths_below) = (1.0, 0.0, 0.0);
    Measure { ending, metric, imperial, per, zero, tenths_below, round: Round::Nearest }
}

const ML_PER_FLUID_OUNCE: f64 = 28.413_062_5;
const L_PER_GALLON: f64 = 4.546_09;
/// Thousandths of that in a hundred: 454 609 mL are 100 gallons.
const ML_PER_100_GALLONS: i64 = 454_609;
const CM_PER_INCH: f64 = 2.54;
const INCHES_PER_FOOT: f64 = 12.0;
const M_PER_FOOT: f64 = CM_PER_INCH / 100.0 * INCHES_PER_FOOT;

static MEASURES: [Measure; 11] = [
    Measure { per: L_PER_GALLON, tenths_below: 10.0, ..measure("_l", "l", "gallons") },
    Measure { per: ML_PER_FLUID_OUNCE, tenths_below: 10.0, ..measure("_ml", "ml", "fluid_ounces") },
    Measure { per: 1.609_344, round: Round::Down, ..measure("_km", "km", "miles") },
    Measure { per: M_PER_FOOT, ..measure("_run_m", "m", "feet_only") },
    Measure { per: CM_PER_INCH / 100.0, round: Round::Up, ..measure("_m", "m", "feet") },
    Measure { per: CM_PER_INCH, round: Round::Up, ..measure("_cm", "cm", "inches") },
    Measure { per: CM_PER_INCH * 10.0, round: Round::Up, ..measure("_mm", "mm", "inches") },
    Measure { per: 1.0 / 1.8, zero: 32.0, ..measure("_c", "celsius", "fahrenheit") },
    Measure { per: 0.068_947_57, ..measure("_bar", "bar", "psi") },
    measure("_kg", "kg", "kg"),
    Measure { per: 0.447_04, ..measure("_ms", "metres_a_second", "miles_an_hour") },
];

/// The same everywhere. Of a pack's value the sentence itself names such a unit.
static SAME: [Measure; 21] = [
    measure("_w", "watts", "watts"),
    measure("_kwh", "kilowatt_hours", "kilowatt_hours"),
    measure("_wh", "watt_hours", "watt_hours"),
    measure("_a", "amperes", "amperes"),
    measure("_ah", "ampere_hours", "ampere_hours"),
    measure("_v", "volts", "volts"),
    measure("_pct", "per_cent", "per_cent"),
    measure("_n", "newtons", "newtons"),
    measure("_mm2", "square_millimetres", "square_millimetres"),
    measure("_m2", "square_metres", "square_metres"),
    measure("_g", "grams", "grams"),
    measure("_g_an_hour", "grams_an_hour", "grams_an_hour"),
    measure("_deg", "degrees", "degrees"),
    measure("_min", "minutes", "minutes"),
    measure("_miles", "miles", "miles"),
    measure("_psi", "psi", "psi"),
    measure("_f", "fahrenheit", "fahrenheit"),
    measure("_mph", "miles_an_hour", "miles_an_hour"),
    measure("_gallons", "gallons", "gallons"),
    measure("_ft", "feet_only", "feet_only"),
    measure("_l_an_hour", "litres_an_hour", "litres_an_hour"),
];

impl Measure {
    /// That of a name, by its ending.
    fn of(id: &str) -> Option<&'static Self> {
        MEASURES.iter().chain(&SAME).find(|measure| id.ends_with(measure.ending))
    }
}

impl Units {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Metric, Self::Imperial];

    /// What the setting is stored as.
    #[must_use]
    pub fn code(self) -> &'static str {
        match self {
            Self::Metric => "metric",
            Self::Imperial => "imperial",
        }
    }

    /// The inverse of [`Units::code`].
    #[must_use]
    pub fn of(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|units| units.code() == code)
    }

    /// A value of a pack, by the unit that ends its name; `None` where that is the same everywhere.
    ///
    /// # Units
    /// `value`: the unit that `id` ends with. Metric is written as the pack has it. Imperial:
    /// gallons and fluid ounces to the nearest, in tenths below ten; lengths up to the next inch,
    /// so that no height or clearance is undercut; distances down to the mile; degrees and psi to
    /// the nearest.
    ///
    /// # Example
    /// ```
    /// use stowfast_core::units::Units;
    ///
    /// let written = Units::Imperial.value("height_m", 2.95).unwrap();
    /// assert_eq!((written.unit, &*written.n, &*written.m), ("feet", "9", "9"));
    /// assert_eq!(Units::Metric.value("keeps_l", 20.0).unwrap().n, "20");
    /// ```
    #[must_use]
    pub fn value(self, id: &str, value: f64) -> Option<Written> {
        let measure = MEASURES.iter().find(|measure| id.ends_with(measure.ending))?;
        Some(self.by(measure, value))
    }

    /// The same of a quantity that stands alone, so that it has its unit also where that is the same
    /// everywhere.
    ///
    /// # Units
    /// `value`: the unit that `id` ends with.
    #[must_use]
    pub fn quantity(self, id: &str, value: f64) -> Option<Written> {
        Some(self.by(Measure::of(id)?, value))
    }

    fn by(self, measure: &Measure, value: f64) -> Written {
        let written = |unit, n: String| Written { unit, n, m: String::new() };
        if self == Self::Metric || measure.metric == measure.imperial {
            return written(measure.metric, value.to_string());
        }
        let there = value / measure.per + measure.zero;
        let per_unit = if there.abs() < measure.tenths_below { 10.0 } else { 1.0 };
        let number = measure.round.of(there * per_unit) / per_unit;
        if measure.imperial == "feet" {
            let feet = (number / INCHES_PER_FOOT).floor();
            let inches = number - feet * INCHES_PER_FOOT;
            return Written { unit: "feet", n: feet.to_string(), m: inches.to_string() };
        }
        written(measure.imperial, number.to_string())
    }

    /// Two ends of a band, rounded outward to whole steps: the lower down, the upper up; `None` for an
    /// ending that has no unit.
    ///
    /// # Units
    /// `lower`, `upper`: the unit that `ending` names. `step`: of the unit that is written, > 0; 10, 1,
    /// 0.1 and the like.
    ///
    /// # Example
    /// ```
    /// use stowfast_core::units::Units;
    ///
    /// let (lower, upper) = Units::Metric.band("_w", 1559.4, 2001.0, 10.0).unwrap();
    /// assert_eq!((&*lower.n, &*upper.n, upper.unit), ("1550", "2010", "watts"));
    /// ```
    #[must_use]
    pub fn band(
        self,
        ending: &str,
        lower: f64,
        upper: f64,
        step: f64,
    ) -> Option<(Written, Written)> {
        let measure = Measure::of(ending)?;
        let (unit, per, zero) = match self {
            Self::Metric => (measure.metric, 1.0, 0.0),
            Self::Imperial => (measure.imperial, measure.per, measure.zero),
        };
        let of = |value: f64, round: Round| {
            // A whole number divided by a whole number has no tail of digits.
            let in_steps = round.of((value / per + zero) / step);
            let n = if step < 1.0 { in_steps / (1.0 / step).round() } else { in_steps * step };
            // No minus before a nought.
            Written { unit, n: (n + 0.0).to_string(), m: String::new() }
        };
        Some((of(lower, Round::Down), of(upper, Round::Up)))
    }

    /// A measure of the vehicle as a driver reads it: as [`Units::value`], but metres as on a sign, to
    /// the next centimetre, and kilograms as on a plate, whole ones.
    ///
    /// # Units
    /// `value`: the unit that `id` ends with.
    #[must_use]
    pub fn measured(self, id: &str, value: f64) -> Option<Written> {
        let exact = self.value(id, value)?;
        match exact.unit {
            "m" => {
                let n = format!("{:.2}", Round::Up.of(value * 100.0) / 100.0);
                Some(Written { unit: "sign_m", n, ..exact })
            }
            "kg" => Some(Written { n: Round::Nearest.of(value).to_string(), ..exact }),
            _ => Some(exact),
        }
    }

    /// Two volumes, rounded outward: the lower down, the upper up.
    ///
    /// # Units
    /// mL, ≥ 0, in; litres or gallons out, whole ones; tenths of a gallon below ten where `fine`.
    #[must_use]
    pub fn volumes(self, lower_ml: i64, upper_ml: i64, fine: bool) -> (Written, Written) {
        let whole = |ml: i64, up: i64, by: i64, per: i64| {
            ml.saturating_mul(by)
                .saturating_add(up.saturating_mul(per.saturating_sub(1)))
                .div_euclid(per)
        };
        let written = |unit, n: String| Written { unit, n, m: String::new() };
        if self == Self::Metric {
            let of = |ml, up| written("l", whole(ml, up, 1, 1_000).to_string());
            return (of(lower_ml, 0), of(upper_ml, 1));
        }
        let tenths = fine && upper_ml < ML_PER_100_GALLONS / 10;
        let of = |ml, up| {
            if !tenths {
                return written("gallons", whole(ml, up, 100, ML_PER_100_GALLONS).to_string());
            }
            written("gallons", tenths_of(whole(ml, up, 1_000, ML_PER_100_GALLONS)))
        };
        (of(lower_ml, 0), of(upper_ml, 1))
    }

    /// Two masses, rounded outward: the lower down, the upper up. Kilograms in either.
    ///
    /// # Units
    /// g, ≥ 0, in; kilograms out, in tenths.
    #[must_use]
    pub fn masses(self, lower_g: i64, upper_g: i64) -> (Written, Written) {
        let of = |g: i64, up: i64| {
            let tenths = g.saturating_add(up).div_euclid(100);
            Written { unit: "kg", n: tenths_of(tenths), m: String::new() }
        };
        (of(lower_g, 0), of(upper_g, 99))
    }
}

/// A number of tenths, without a nought behind the point.
fn tenths_of(tenths: i64) -> String {
    match (tenths.div_euclid(10), tenths.rem_euclid(10)) {
        (whole, 0) => whole.to_string(),
        (whole, tenth) => format!("{whole}.{tenth}"),
    }
}

impl Round {
    /// A whole number. What differs from one by less than a float can tell is that one.
    fn of(self, number: f64) -> f64 {
        const HAIR: f64 = 1e-9;
        match self {
            Self::Nearest => number.round(),
            Self::Up => (number - HAIR).ceil(),
            Self::Down => (number + HAIR).floor(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(id: &str, value: f64) -> String {
        let Written { unit, n, m } = Units::Imperial.value(id, value).unwrap();
        [n, m, unit.to_owned()].join(" ")
    }

    /// By hand from the definitions, each to the last digit shown.
    #[test]
    fn each_ending_has_its_unit_and_its_rounding() {
        assert_eq!(said("keeps_l", 20.0), "4.4  gallons");
        assert_eq!(said("capacity_l", 100.0), "22  gallons");
        assert_eq!(said("dose_ml", 120.0), "4.2  fluid_ounces");
        assert_eq!(said("warning_km", 2_400.0), "1491  miles", "1491.29, never more than there is");
        assert_eq!(said("height_m", 3.048), "10 0 feet");
        assert_eq!(said("height_m", 3.05), "10 1 feet", "10 ft 0.08 in, never less than it is");
        assert_eq!(said("clearance_cm", 30.0), "12  inches");
        assert_eq!(said("opens_below_c", 7.0), "45  fahrenheit");
        assert_eq!(said("some_c", -40.0), "-40  fahrenheit");
        assert_eq!(said("some_bar", 5.5), "80  psi");
        assert_eq!(said("net_kg", 11.0), "11  kg");
        assert_eq!(Units::Imperial.value("rest_h", 3.0), None);
    }

    /// What is given in centimetres stays as it is, whatever a float makes of it.
    #[test]
    fn a_measure_is_never_less_than_it_is() {
        let metric = |value| Units::Metric.measured("height_m", value).unwrap().n;
        for cm in 1..=2_000 {
            let written = format!("{}.{:02}", cm / 100, cm % 100);
            assert_eq!(metric(written.parse().unwrap()), written);
            let inches = Units::Imperial.measured("height_m", written.parse().unwrap()).unwrap();
            let read: i32 =
                inches.n.parse::<i32>().unwrap() * 12 + inches.m.parse::<i32>().unwrap();
            assert!(read * 254 >= cm * 100 && (read - 1) * 254 < cm * 100, "{written}: {inches:?}");
        }
        assert_eq!(metric(2.890_1), "2.90");
    }

    #[test]
    fn a_code_is_that_of_its_units_alone() {
        for units in Units::ALL {
            assert_eq!(Units::of(units.code()), Some(units));
        }
        assert_eq!(Units::of("furlongs"), None);
    }
}
