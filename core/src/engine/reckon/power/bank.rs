//! The battery itself: what its plate says, how full it is, and what of that can be taken.

use crate::engine::gauge::chemistry;
use crate::engine::page::ReckoningLine;
use crate::engine::reckon::asked::Asked;
use crate::error::Result;
use crate::fridge::Known;
use crate::reckon::Between;
use crate::reckon::battery::{self, Capacity, ages, exponent, exponent_of, warmth};
use crate::reserve::chemistry::Chemistry;
use crate::vehicle::Fitting;

const MS_PER_DAY: f64 = 86_400_000.0;
/// Over how many hours a plate's second capacity is told.
const HARD_H: f64 = 5.0;
/// How warm the cells may be, by what is picked. Unit: °C.
const CELLS: [(&str, (f64, f64)); 5] = [
    ("hard_frost", (-25.0, -10.0)),
    ("frost", (-10.0, 0.0)),
    ("cold", (0.0, 10.0)),
    ("cool", (10.0, 20.0)),
    ("warm", (20.0, 30.0)),
];

/// A battery, ready to be reckoned with.
pub(super) struct Bank<'a> {
    pub(super) fitting: &'a Fitting,
    pub(super) chemistry: Chemistry,
    pub(super) capacity: Capacity,
    /// What it gives when full, at its age and temperature. Unit: Ah.
    pub(super) full_ah: Between,
    /// How full it is. Share; `None` where nobody knows.
    pub(super) level: Option<Between>,
    /// To here it is taken. Share.
    pub(super) floor: f64,
    /// How warm its cells are, and whether somebody said so. Unit: °C.
    pub(super) cells_c: Between,
    pub(super) cells_told: bool,
    /// How long ago it was read. Unit: days.
    read_days: f64,
}

impl<'a> Bank<'a> {
    /// `None` where the pack does not say what it holds; what is missing is noted.
    pub(super) fn of(
        asked: &mut Asked,
        fitting: &'a Fitting,
        missing: &mut Vec<String>,
    ) -> Result<Option<Self>> {
        let chemistry = chemistry(fitting);
        let (level, read_days) = level(asked, fitting, missing)?;
        let (cells_c, cells_told) = cells(asked)?;
        let floor = asked.figure("battery_floor_pct").map(|percent| percent / 100.0);
        let floor = floor.unwrap_or_else(|| battery::floor(chemistry));
        let Some(capacity) = capacity(fitting) else {
            missing.push(asked.say("missing.capacity", &[]));
            return Ok(None);
        };
        let full_ah = ages() * warmth(chemistry, cells_c) * capacity.ah;
        Ok(Some(Self {
            fitting,
            chemistry,
            capacity,
            full_ah,
            level,
            floor,
            cells_c,
            cells_told,
            read_days,
        }))
    }

    /// Takes off the least what may have been used since it was read.
    pub(super) fn used_since_read(&mut self, drawn_ah: Between) {
        let used = drawn_ah.upper * self.read_days / self.full_ah.lower;
        self.level = self
            .level
            .map(|level| Between { lower: (level.lower - used).max(0.0), upper: level.upper });
    }

    /// It is at its floor, or below it.
    pub(super) fn is_down(&self) -> bool {
        self.level.is_some_and(|level| level.upper <= self.floor)
    }

    /// What can be taken until the floor. Unit: Ah.
    pub(super) fn usable_ah(&self) -> Option<Between> {
        let above = |level: f64| (level - self.floor).max(0.0);
        Some(self.level?.through(above) * self.full_ah)
    }

    pub(super) fn lines(&self, asked: &Asked) -> Vec<ReckoningLine> {
        let level = self.level.map(|level| asked.line("charge", "_pct", level * 100.0, 1.0));
        let usable = self.usable_ah().map(|usable| asked.line("usable", "_ah", usable, 1.0));
        let floor = asked.line("floor", "_pct", Between::exactly(self.floor * 100.0), 1.0);
        let full = asked.line("full", "_ah", self.full_ah, 1.0);
        let key = if self.cells_told { "full_detail" } else { "full_detail_open" };
        let cells = asked.band("_c", self.cells_c, 1.0);
        let plate = asked.quantity("_ah", self.capacity.ah);
        let detail = Some(asked.say(key, &[("plate", &plate), ("cells", &cells)]));
        let full = ReckoningLine { detail, ..full };
        level.into_iter().chain(usable).chain([full, floor]).collect()
    }
}

/// What its plate says; `None` where the pack does not.
pub(super) fn capacity(fitting: &Fitting) -> Option<Capacity> {
    let ah = fitting.number("capacity_ah")?;
    let rated_h = fitting.number("rated_h").unwrap_or(20.0);
    let second = fitting
        .number("capacity_5h_ah")
        .and_then(|hard_ah| exponent_of((ah / rated_h, rated_h), (hard_ah / HARD_H, HARD_H)));
    let exponent = second.map_or_else(|| exponent(chemistry(fitting)), Between::exactly);
    Some(Capacity { ah, rated_h, exponent })
}

/// How full it is: as picked, else as it was last read, and how many days ago.
fn level(
    asked: &mut Asked,
    fitting: &Fitting,
    missing: &mut Vec<String>,
) -> Result<(Option<Between>, f64)> {
    let picked = asked.number("charge", "_pct", (0.0, 100.0))?;
    let known = asked.loaded.known_reserves(asked.words, asked.now)?;
    let Some(known) = known.into_iter().find(|one| one.fitting.id == fitting.id) else {
        return Ok((picked.map(|percent| Between::exactly(percent / 100.0)), 0.0));
    };
    asked.rests_on(&fitting.id, known.title(asked.words));
    if let Some(percent) = picked {
        return Ok((Some(Between::exactly(percent / 100.0)), 0.0));
    }
    let Some((_, lower, upper)) = known.level() else {
        missing.push(asked.say("missing.charge", &[]));
        return Ok((None, 0.0));
    };
    let age_ms = known.last.as_ref().and_then(|last| last.at.age_ms(asked.now));
    let Some(age_ms) = age_ms.and_then(|ms| u32::try_from(ms.div_euclid(1_000)).ok()) else {
        missing.push(asked.words.say("reserve.missing.age", &[]));
        return Ok((None, 0.0));
    };
    // Since then it may have been charged or run down by itself: what is believed now says so.
    let belief = asked.loaded.state.belief(known.gauge.variable).map(|one| one.settings);
    let ends = belief.into_iter().flat_map(|settings| settings.places().collect::<Vec<_>>());
    let touched = known.scale.bands.touched(lower, upper, known.scale.capacity);
    let beyond = ends.filter(|place| !touched.contains(&usize::from(*place)));
    let ends = beyond.map(|place| known.scale.band(place));
    let hull = ends.fold((lower, upper), |all, one| (all.0.min(one.0), all.1.max(one.1)));
    let days = f64::from(age_ms) * 1_000.0 / MS_PER_DAY;
    Ok((Some(Between::of(share(hull.0), share(hull.1))), days))
}

fn share(permille: i64) -> f64 {
    f64::from(u32::try_from(permille.clamp(0, 1_000)).unwrap_or(0)) / 1_000.0
}

/// How warm its cells are: as picked, else as far as frost tonight says.
fn cells(asked: &mut Asked) -> Result<(Between, bool)> {
    let options = CELLS.map(|(id, _)| (id, asked.say(&format!("cells.{id}"), &[])));
    let picked = asked.one("cells", &options, None)?;
    let found = picked.and_then(|id| CELLS.into_iter().find(|(one, _)| *one == id));
    if let Some((_, (lower, upper))) = found {
        return Ok((Between { lower, upper }, true));
    }
    let (lower, upper) = match asked.loaded.is("pitch", "tonight", "frost") {
        Known::Yes => (-25.0, 20.0),
        Known::Unknown => (-10.0, 30.0),
        Known::No => (0.0, 30.0),
    };
    Ok((Between { lower, upper }, false))
}
