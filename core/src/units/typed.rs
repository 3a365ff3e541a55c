//! In which unit a quantity is typed.

use super::{Measure, Round, SAME, Units};

/// A unit in which a quantity is typed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Typed {
    /// As it ends a name: `_f`.
    pub ending: &'static str,
    /// How many of the quantity's own unit make one of it.
    per: f64,
    /// What it shows where the quantity is 0.
    zero: f64,
}

impl Units {
    /// In which unit a quantity is typed: the one in which it is read.
    ///
    /// # Example
    /// ```
    /// use stowfast_core::units::Units;
    ///
    /// let typed = Units::Imperial.typed("_c");
    /// assert_eq!((typed.ending, typed.own(23.0)), ("_f", -5.0));
    /// assert_eq!(Units::Metric.typed("_c").ending, "_c");
    /// ```
    #[must_use]
    pub fn typed(self, ending: &'static str) -> Typed {
        let there = Measure::of(ending).filter(|_| self == Self::Imperial);
        let of = |measure: &Measure| {
            let same = SAME.iter().find(|same| same.metric == measure.imperial)?;
            Some(Typed { ending: same.ending, per: measure.per, zero: measure.zero })
        };
        there.and_then(of).unwrap_or(Typed { ending, per: 1.0, zero: 0.0 })
    }
}

impl Typed {
    /// What was typed, in the quantity's own unit.
    #[must_use]
    pub fn own(self, typed: f64) -> f64 {
        (typed - self.zero) * self.per
    }

    /// What may be typed in another unit of a range in the quantity's own: all of it, to the next tenth.
    #[must_use]
    pub fn range(self, (least, most): (f64, f64)) -> (f64, f64) {
        let tenths = |own: f64| (own / self.per + self.zero) * 10.0;
        (Round::Down.of(tenths(least)) / 10.0, Round::Up.of(tenths(most)) / 10.0)
    }
}

#[cfg(test)]
mod tests {
    use super::super::MEASURES;
    use super::*;

    /// Whatever is read in another unit is typed in it, back and forth: no quantity has a unit of its own
    /// to be typed in.
    #[test]
    fn each_quantity_is_typed_in_the_unit_in_which_it_is_read() {
        for measure in MEASURES.iter().chain(&SAME) {
            let typed = Units::Imperial.typed(measure.ending);
            let (least, most) = typed.range((-7.0, 93.0));
            assert!(typed.own(least) <= -7.0 + 1e-9 && typed.own(most) >= 93.0 - 1e-9, "{typed:?}");
            let there = Units::Imperial.quantity(typed.ending, most).unwrap();
            // Lengths of a vehicle are typed nowhere: they have two units at once, or stand in the pack.
            if !["_ml", "_m", "_cm", "_mm"].contains(&measure.ending) {
                assert_eq!((there.unit, there.n), (measure.imperial, most.to_string()));
            }
            assert_eq!(Units::Metric.typed(measure.ending).ending, measure.ending);
        }
        assert_eq!(Units::Imperial.typed("_ms").range((0.0, 80.0)), (0.0, 179.0), "178.95 mph");
        assert_eq!(Units::Imperial.typed("_c").range((1.0, 35.0)), (33.8, 95.0));
        assert_eq!(Units::Imperial.typed("_run_m").range((0.5, 200.0)), (1.6, 656.2));
    }
}
