//! What a day uses of a reserve, by what people told: of themselves, of what burns and of what draws.

use super::{Known, Scale};
use crate::catalogue::{Habit, Measured};
use crate::clock::Stamp;
use crate::engine::loaded::Loaded;
use crate::engine::reckon::{battery_drawn_ah, gas_burnt_kg};
use crate::engine::words::Words;
use crate::fridge::Known as Sure;
use crate::reckon::Between;
use crate::reckon::battery::ages;
use crate::reckon::fuel::heater_l_per_h;
use crate::reckon::gas::{LIQUID_C, kg_per_l};
use crate::reserve::water::{PerDay, Unsaid, Use, cassette, fresh, waste};
use crate::reserve::{Amount, whole};
use crate::state::Reading;
use crate::vehicle::{Fitting, Gauge};

const SMALL_PER_UNIT: f64 = 1_000.0;

/// One use, in a day. Unit: the reserve's small one, ≥ 0.
#[derive(Clone)]
pub(super) struct ADay {
    /// Its key among the words of uses.
    pub(super) what: &'static str,
    pub(super) lower: i64,
    pub(super) upper: i64,
}

/// What each use takes in a day, or else what nobody told, in words.
pub(super) type Told = Result<Vec<ADay>, Vec<String>>;

/// The least and the most of all uses.
pub(super) fn sum(uses: &[ADay]) -> (i64, i64) {
    let add = |all: (i64, i64), one: &ADay| {
        (all.0.saturating_add(one.lower), all.1.saturating_add(one.upper))
    };
    uses.iter().fold((0, 0), add)
}

impl Loaded {
    /// The least and the most that a day uses by what people told, whatever the readings show; `None` where
    /// they did not. Unit: the reserve's small one.
    pub(in crate::engine) fn told_a_day(
        &self,
        words: &Words,
        known: &Known,
        now: &Stamp,
    ) -> Option<(i64, i64)> {
        let rate = known.rate.as_ref()?;
        if !rate.by_readings() {
            return Some((rate.used.lower, rate.used.upper));
        }
        let told = self.uses(words, known.fitting, known.gauge, &known.scale, now)?;
        told.ok().map(|uses| sum(&uses))
    }

    /// What people told of a reserve's use; `None` where nothing that they tell bears on it. Of several
    /// that share a use any may have all of it or none.
    pub(super) fn uses(
        &self,
        words: &Words,
        fitting: &Fitting,
        gauge: &Gauge,
        scale: &Scale,
        now: &Stamp,
    ) -> Option<Told> {
        let told = match (gauge.of, gauge.used_by) {
            _ if gauge.driving_only => return None,
            (Measured::Tank, Some(Habit::Heating)) => self.heated(words),
            (Measured::Tank, habit) => self.lived(words, habit?),
            (Measured::Gas, _) if self.is_shut(fitting) => return None,
            (Measured::Gas, _) => self.burnt(words, fitting, scale)?,
            (Measured::Battery, _) => self.drawn(words, fitting, now)?,
        };
        let shared = self.share_with(fitting, gauge) > 1;
        let part = |one: ADay| ADay { lower: if shared { 0 } else { one.lower }, ..one };
        Some(told.map(|uses| uses.into_iter().map(part).collect()))
    }

    /// How many reserves the same use may take from, this one included.
    fn share_with(&self, fitting: &Fitting, gauge: &Gauge) -> usize {
        let same = |one: &&Fitting| {
            one.gauge.as_ref().is_some_and(|other| {
                (other.of, other.used_by, other.driving_only)
                    == (gauge.of, gauge.used_by, gauge.driving_only)
            }) && (one.id == fitting.id || !self.is_shut(one))
        };
        self.vehicle.fittings.iter().filter(same).count()
    }

    /// A cylinder whose valve certainly is shut gives nothing.
    fn is_shut(&self, fitting: &Fitting) -> bool {
        let gas = fitting.gauge.as_ref().is_some_and(|gauge| gauge.of == Measured::Gas);
        gas && self.own(fitting, "valve", "open") == Sure::No
    }

    /// Water and the toilet, by what people say of themselves.
    fn lived(&self, words: &Words, habit: Habit) -> Told {
        let habits = self.habits();
        let uses = match habit {
            Habit::Fresh => fresh(&habits),
            Habit::Waste => waste(&habits),
            Habit::Cassette => cassette(&habits),
            Habit::Heating => return self.heated(words),
        };
        let one =
            |one: PerDay| ADay { what: key(one.of), lower: one.lower_ml, upper: one.upper_ml };
        uses.map(|uses| uses.into_iter().map(one).collect())
            .map_err(|all| all.into_iter().map(|one| words.figure_title(figure(one))).collect())
    }

    /// What a diesel heater burns, by its manual or its heat, and how long it runs.
    fn heated(&self, words: &Words) -> Told {
        let stated = self.told_number("heating_diesel_l_an_hour");
        let draw = heater_l_per_h(stated, self.told_number("heating_diesel_kw"));
        let hours = self.told_number("heating_diesel_h_a_night");
        if let Some((draw, hours)) = draw.zip(hours) {
            return Ok(vec![a_day("heating", draw * (hours * SMALL_PER_UNIT))]);
        }
        let lacks = [
            ("heating_diesel_l_an_hour", draw.is_none()),
            ("heating_diesel_h_a_night", hours.is_none()),
        ];
        let lacks = lacks.into_iter().filter(|(_, lacks)| *lacks);
        Err(lacks.map(|(id, _)| words.figure_title(id)).collect())
    }

    /// What burns gas; `None` where the pack does not say how much the cylinder holds.
    fn burnt(&self, words: &Words, fitting: &Fitting, scale: &Scale) -> Option<Told> {
        let small = match scale.amount {
            Amount::Grams => Between::exactly(SMALL_PER_UNIT),
            Amount::Millilitres => {
                Between::exactly(SMALL_PER_UNIT) / kg_per_l(Between::of(0.0, 1.0), LIQUID_C)
            }
            Amount::Permille => Between::exactly(SMALL_PER_UNIT / fitting.number("contents_kg")?),
        };
        let burnt = gas_burnt_kg(self);
        let told = burnt.map(|all| {
            all.into_iter().map(|(what, kg)| a_day(what, kg * small)).collect::<Vec<_>>()
        });
        let lacks = |all: Vec<&str>| all.into_iter().map(|id| words.figure_title(id)).collect();
        Some(told.map_err(lacks))
    }

    /// What draws on the battery, before any sun: with panels it may be nothing. `None` where the pack
    /// does not say what it holds.
    fn drawn(&self, words: &Words, fitting: &Fitting, now: &Stamp) -> Option<Told> {
        let capacity_ah = fitting.number("capacity_ah")?;
        let drawn = battery_drawn_ah(self, words, fitting, now)?;
        let whole_ah = ages() * capacity_ah;
        Some(drawn.map(|ah| {
            let all = a_day("loads", ah / whole_ah * SMALL_PER_UNIT);
            let sun = self.vehicle.of_kind("solar_regulator").next().is_some();
            vec![ADay { lower: if sun { 0 } else { all.lower }, ..all }]
        }))
    }
}

/// A band of a use, rounded outward; what a float is out by is no use.
fn a_day(what: &'static str, small: Between) -> ADay {
    const ODD: f64 = 1e-6;
    let within = |value: f64| whole(what, value, 1, 0..=Reading::MILLI_MAX).unwrap_or(0);
    let (lower, upper) = ((small.lower + ODD).floor(), (small.upper - ODD).ceil());
    ADay { what, lower: within(lower), upper: within(upper) }
}

fn key(of: Use) -> &'static str {
    match of {
        Use::Drink => "drink",
        Use::Cook => "cook",
        Use::Wash => "wash",
        Use::Shower => "shower",
        Use::Flush => "flush",
        Use::Body => "body",
    }
}

/// The figure that says what was not said.
fn figure(unsaid: Unsaid) -> &'static str {
    match unsaid {
        Unsaid::People => "people",
        Unsaid::Showers => "showers_a_day",
        Unsaid::Shower => "shower_l",
        Unsaid::Flushes => "flushes_a_day",
        Unsaid::Flush => "flush_l",
    }
}
