//! What is wanted on mains: what the vehicle has, and what people bring and tell the plate of.

use crate::engine::reckon::asked::Asked;
use crate::engine::words::Words;
use crate::error::Result;
use crate::reckon::supply::load::{Load, Nature};
use crate::vehicle::Fitting;

/// What people bring: figures `…_w` by its plate and `…_min` for how long in a day. What may be switched
/// off and on again says so.
const BROUGHT: [(&str, Nature, bool); 10] = [
    ("kettle", Nature::Heating, false),
    ("coffee", Nature::Heating, false),
    ("toaster", Nature::Heating, false),
    ("hob", Nature::Heating, false),
    ("microwave", Nature::Motor, false),
    ("hair_dryer", Nature::Heating, false),
    ("vacuum", Nature::Motor, false),
    ("fan_heater", Nature::Heating, true),
    ("laptop", Nature::Supply, true),
    ("e_bike", Nature::Supply, true),
];
/// What is fitted and switched on for a time: its kind, the figure for how long, the choice of its power.
const FITTED: [(&str, &str, &str); 2] = [
    ("boiler", "boiler_mains_min", "power"),
    ("heater_electric", "heater_mains_min", "heater_power"),
];
/// What is on whenever mains is there, unless it is known to be off: its kind, variable, the settings in
/// which it draws.
const BASE: [(&str, &str, &[&str], Nature); 2] = [
    ("charger", "power", &["on"], Nature::Supply),
    ("fridge_three_way", "selector", &["auto", "mains"], Nature::Heating),
];

/// One thing that draws.
pub(super) struct Appliance {
    /// Names it to the engine.
    pub(super) id: String,
    /// What it is called.
    pub(super) title: String,
    pub(super) load: Load,
    /// What it draws set low, where it can be and is not. Unit: W.
    pub(super) low_w: Option<f64>,
    /// It heats water, so that set low it takes longer; a room is then heated less.
    pub(super) fills: bool,
    /// How long it is wanted, where that was said. Unit: min.
    pub(super) minutes: Option<f64>,
    /// It may be switched off and on again.
    pub(super) pauses: bool,
}

/// All that is to run.
pub(super) struct Wanted {
    /// For a time.
    pub(super) timed: Vec<Appliance>,
    /// All the while.
    pub(super) base: Vec<Appliance>,
    /// What is on all the while and draws nobody knows how much.
    unknown: Vec<String>,
}

impl Appliance {
    /// What it draws set low, and how long it then takes; `None` where it cannot be set lower. Unit: min.
    pub(super) fn set_low(&self) -> Option<(Load, Option<f64>)> {
        let low_w = self.low_w?;
        let longer = if self.fills { self.load.rated_w / low_w } else { 1.0 };
        let load = Load { rated_w: low_w, ..self.load };
        Some((load, self.minutes.map(|minutes| minutes * longer)))
    }
}

impl Wanted {
    pub(super) fn all(&self) -> Vec<&Appliance> {
        self.timed.iter().chain(&self.base).collect()
    }

    pub(super) fn loads(&self) -> Vec<Load> {
        self.all().iter().map(|one| one.load).collect()
    }

    /// The same with everything set low that can be, and what that is; `None` where nothing can.
    pub(super) fn low(&self) -> Option<(Vec<Load>, String)> {
        let able = self.timed.iter().filter(|one| one.low_w.is_some());
        let what = able.map(|one| one.title.as_str()).collect::<Vec<_>>().join(", ");
        let loads = self.timed.iter().map(|one| one.set_low().map_or(one.load, |(load, _)| load));
        let loads = loads.chain(self.base.iter().map(|one| one.load));
        (!what.is_empty()).then(|| (loads.collect(), what))
    }

    /// What heats of all that, by the plates. Unit: W.
    pub(super) fn heating_w(&self) -> f64 {
        let loads = self.loads().into_iter().filter(|load| load.nature == Nature::Heating);
        loads.map(|load| load.rated_w).sum()
    }

    /// What was not counted.
    pub(super) fn unknown_text(&self) -> String {
        self.unknown.join(", ")
    }
}

/// What was picked, else everything whose watts are known.
pub(super) fn wanted(asked: &mut Asked, missing: &mut Vec<String>) -> Result<Wanted> {
    let mut able = fitted(asked)?;
    able.extend(brought(asked));
    let options: Vec<_> = able.iter().map(|one| (one.id.as_str(), one.title.clone())).collect();
    let usual: Vec<&str> = able.iter().map(|one| one.id.as_str()).collect();
    let chosen = asked.some("want", &options, &usual)?;
    able.retain(|one| chosen.contains(&one.id));
    let (base, unknown) = base(asked);
    missing.extend(unknown.iter().map(|title| asked.say("missing.watts", &[("what", title)])));
    Ok(Wanted { timed: able, base, unknown })
}

/// What the vehicle has, at the power at which it stands or that was picked.
fn fitted(asked: &mut Asked) -> Result<Vec<Appliance>> {
    let vehicle = &asked.loaded.vehicle;
    let words = asked.words;
    let mut all = Vec::new();
    for (kind, figure, choice) in FITTED {
        for (_, fitting) in vehicle.of_kind(kind) {
            let Some(rated_w) = power(asked, choice, fitting)? else { continue };
            all.push(Appliance {
                id: fitting.id.clone(),
                title: Words::sentence(words.title(fitting)),
                load: Load { rated_w, nature: Nature::Heating, cycles: false },
                low_w: low_w(fitting).filter(|low_w| *low_w < rated_w),
                fills: kind == "boiler",
                minutes: asked.figure(figure),
                pauses: true,
            });
        }
    }
    Ok(all)
}

/// What a fitting draws on mains. Unit: W.
fn power(asked: &mut Asked, choice: &str, fitting: &Fitting) -> Result<Option<f64>> {
    let high = fitting.number("mains_w");
    let Some(low) = low_w(fitting) else { return Ok(high) };
    let options = ["low", "high"].map(|id| (id, asked.say(&format!("power.{id}"), &[])));
    let is_low = asked.stands(fitting, "element", &["low"]) == Some(true);
    let chosen = asked.one(choice, &options, Some(if is_low { "low" } else { "high" }))?;
    Ok(if chosen.as_deref() == Some("low") { Some(low) } else { high })
}

/// What a fitting draws set low, where it can be. Unit: W.
pub(super) fn low_w(fitting: &Fitting) -> Option<f64> {
    fitting.number("low_w").filter(|_| fitting.flag("two_powers") == Some(true))
}

/// What people told the plate of.
fn brought(asked: &mut Asked) -> Vec<Appliance> {
    let mut all = Vec::new();
    for (id, nature, pauses) in BROUGHT {
        let Some(rated_w) = asked.figure(&format!("{id}_w")).filter(|watts| *watts > 0.0) else {
            continue;
        };
        let minutes = asked.figure(&format!("{id}_min"));
        let title = asked.say(&format!("line.{id}"), &[]);
        let load = Load { rated_w, nature, cycles: false };
        let id = id.to_owned();
        all.push(Appliance { id, title, load, low_w: None, fills: false, minutes, pauses });
    }
    all
}

/// What is on all the while; apart from it what draws nobody knows how much.
fn base(asked: &Asked) -> (Vec<Appliance>, Vec<String>) {
    let (mut base, mut unknown) = (Vec::new(), Vec::new());
    for (kind, variable, settings, nature) in BASE {
        for (_, fitting) in asked.loaded.vehicle.of_kind(kind) {
            if asked.stands(fitting, variable, settings) == Some(false) {
                continue;
            }
            let title = Words::sentence(asked.words.title(fitting));
            match fitting.number("mains_w") {
                Some(rated_w) => base.push(Appliance {
                    id: fitting.id.clone(),
                    title,
                    load: Load { rated_w, nature, cycles: true },
                    low_w: None,
                    fills: false,
                    minutes: None,
                    pauses: false,
                }),
                None => unknown.push(title),
            }
        }
    }
    (base, unknown)
}
