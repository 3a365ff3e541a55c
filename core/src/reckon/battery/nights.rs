//! From night to night: a day's use out, what the sun brings in, until the floor.

use crate::reckon::Between;

/// How many nights are looked ahead. Nobody plans on more. Common practice, no source.
pub const NIGHTS_MAX: u32 = 30;

/// What a day takes and brings.
///
/// # Units
/// Ah a day, ≥ 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Day {
    /// Taken out by loads.
    pub drawn_ah: Between,
    /// Brought in by the sun.
    pub gained_ah: Between,
}

/// One way that the nights may go.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// How many days until the floor; `None` where it is not reached within [`NIGHTS_MAX`].
    pub days: Option<f64>,
    /// Charge now and after each day, until the floor or the last night. Share, 0 to 1.
    pub levels: Vec<f64>,
}

impl Run {
    /// How many nights it holds through; [`NIGHTS_MAX`] stands for so many or more.
    #[must_use]
    pub fn nights(&self) -> u32 {
        let whole = |days: f64| (1..=NIGHTS_MAX).filter(|night| f64::from(*night) <= days).count();
        self.days.map_or(NIGHTS_MAX, |days| u32::try_from(whole(days)).unwrap_or(NIGHTS_MAX))
    }
}

/// The worst, the middle and the best way.
#[derive(Debug, Clone, PartialEq)]
pub struct Ahead {
    /// All that can go against it does.
    pub lower: Run,
    /// Half-way in everything.
    pub middle: Run,
    /// All goes well.
    pub upper: Run,
}

/// For how long a battery lasts.
///
/// The worst way has the whole of a day's use before any sun, so the floor is reached at the end of a
/// night. The best way has both together all day.
///
/// # Units
/// `full_ah`: Ah that it gives when full. `level`, `floor`: share, 0 to 1.
///
/// # Source
/// Balance: what comes in less what goes out is what is added, and no more goes in than it holds.
#[must_use]
pub fn ahead(full_ah: Between, level: Between, floor: f64, day: Day) -> Ahead {
    let (drawn, gained) = (day.drawn_ah, day.gained_ah);
    let middle = full_ah.middle();
    Ahead {
        lower: run(level.lower, floor, drawn.upper / full_ah.lower, gained.lower / full_ah.lower),
        middle: run(level.middle(), floor, drawn.middle() / middle, gained.middle() / middle),
        upper: at_once(level.upper, floor, (drawn.lower - gained.upper) / full_ah.upper),
    }
}

/// Use first, then the sun. All are shares of the whole.
fn run(level: f64, floor: f64, drawn: f64, gained: f64) -> Run {
    let (mut at, mut levels) = (level, vec![level]);
    for night in 0..NIGHTS_MAX {
        if at - drawn < floor {
            let part = if drawn > 0.0 { ((at - floor) / drawn).max(0.0) } else { 0.0 };
            levels.push(floor.min(at));
            return Run { days: Some(f64::from(night) + part), levels };
        }
        at = (at - drawn + gained).min(1.0);
        levels.push(at);
    }
    Run { days: None, levels }
}

/// Use and sun together, `net` taken a day; none is taken where more comes in.
fn at_once(level: f64, floor: f64, net: f64) -> Run {
    run(level, floor, net.max(0.0), (-net).max(0.0))
}
