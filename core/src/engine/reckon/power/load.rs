//! What draws on the battery: what is fitted, by the watts of its pack, and what people tell.

use super::look::drains;
use crate::engine::gauge::chemistry;
use crate::engine::reckon::asked::Asked;
use crate::engine::words::Words;
use crate::reckon::Between;
use crate::reckon::battery::{Load, inverted_w};
use crate::reserve::chemistry::Chemistry;
use crate::vehicle::Fitting;

/// What has watts in its pack (`dc_w`), by kind: the figure that says for how long it runs, and how much
/// of that is an hour a day.
const FITTED: [(&str, &str, f64); 7] = [
    ("pump", "pump_min_a_day", 60.0),
    ("heater_diesel", "heater_fan_h_a_day", 1.0),
    ("heater_gas", "heater_fan_h_a_day", 1.0),
    ("boiler", "boiler_fan_h_a_day", 1.0),
    // The share of the time that its compressor runs: 100 per cent are 24 hours.
    ("fridge_compressor", "fridge_runs_pct", 100.0 / 24.0),
    ("television", "tv_h_a_day", 1.0),
    ("extractor", "extractor_h_a_day", 1.0),
];
/// What the board, the lighter and the lamp of a three-way fridge draw, where its pack does not say.
/// Unit: W. Common practice, no source.
const ELECTRONICS_W: Between = Between { lower: 0.0, upper: 5.0 };
const DAY_H: f64 = 24.0;
/// What people tell of both, watts and hours a day.
const CARRIED: [(&str, &str, &str); 5] = [
    ("lights", "lights_w", "lights_h_a_day"),
    ("router", "router_w", "router_h_a_day"),
    ("phones", "phones_w", "phones_h_a_day"),
    ("breathing_aid", "breathing_aid_w", "breathing_aid_h_a_day"),
    ("other", "other_w", "other_h_a_day"),
];

/// One thing that draws.
pub(super) struct Item {
    pub(super) id: String,
    pub(super) title: String,
    pub(super) load: Load,
    /// By what it is reckoned.
    pub(super) told: String,
}

/// All that draws, as far as it was told.
pub(super) struct Loads {
    items: Vec<Item>,
    /// Of these nobody said for how long they run.
    untold: Vec<String>,
    /// Of these the pack does not say what they draw.
    unrated: Vec<String>,
}

impl Loads {
    pub(super) fn of(asked: &mut Asked, battery: &Fitting) -> Self {
        let chemistry = chemistry(battery);
        let mut all = Self { items: Vec::new(), untold: Vec::new(), unrated: Vec::new() };
        let mut told: Vec<(&str, Option<f64>)> = Vec::new();
        for (kind, figure, a_day) in FITTED {
            let fitted: Vec<_> = asked.loaded.vehicle.of_kind(kind).map(|(_, one)| one).collect();
            if fitted.is_empty() {
                continue;
            }
            let before = told.iter().find(|(id, _)| *id == figure).map(|(_, hours)| *hours);
            let hours = before.unwrap_or_else(|| asked.figure(figure).map(|n| n / a_day));
            told.push((figure, hours));
            for fitting in fitted {
                all.fitted(asked, fitting, hours, chemistry);
            }
        }
        for (_, fridge) in asked.loaded.vehicle.of_kind("fridge_three_way") {
            all.three_way(asked, fridge, chemistry);
        }
        all.inverters(asked, chemistry);
        for (id, watts, hours) in CARRIED {
            let (watts, hours) = (asked.figure(watts), asked.figure(hours));
            let title = asked.say(&format!("load.{id}"), &[]);
            all.take(asked, (id, title), watts.map(Between::exactly), hours, chemistry);
        }
        all
    }

    fn fitted(
        &mut self,
        asked: &Asked,
        fitting: &Fitting,
        hours: Option<f64>,
        chemistry: Chemistry,
    ) {
        let title = Words::sentence(asked.words.title(fitting));
        match fitting.number("dc_w") {
            None if hours.is_none_or(|hours| hours > 0.0) => self.unrated.push(title),
            watts => {
                let watts = watts.map(Between::exactly);
                self.take(asked, (&fitting.id, title), watts, hours, chemistry);
            }
        }
    }

    /// It cools by the battery only on 12 V with the engine off. On gas, on mains and with the engine
    /// running the battery feeds what lights and governs it alone; off, nothing.
    fn three_way(&mut self, asked: &Asked, fridge: &Fitting, chemistry: Chemistry) {
        let title = Words::sentence(asked.words.title(fridge));
        if asked.stands(fridge, "selector", &["off"]) == Some(true) {
            return;
        }
        let cools = drains(asked, fridge).then(|| fridge.number("dc_heat_w"));
        if cools == Some(None) {
            return self.unrated.push(title);
        }
        let told = fridge.number("dc_w").map(Between::exactly);
        let fed = fridge.flag("electronics_on_12v") != Some(false);
        let governs = told.unwrap_or(if fed { ELECTRONICS_W } else { Between::exactly(0.0) });
        let watts = governs + Between::exactly(cools.flatten().unwrap_or(0.0));
        self.take(asked, (&fridge.id, title), Some(watts), Some(DAY_H), chemistry);
    }

    /// What it feeds is told once, whichever inverter does.
    fn inverters(&mut self, asked: &mut Asked, chemistry: Chemistry) {
        let Some((_, fitting)) = asked.loaded.vehicle.of_kind("inverter").next() else { return };
        let (feeds, hours) = (asked.figure("inverter_w"), asked.figure("inverter_h_a_day"));
        let title = Words::sentence(asked.words.title(fitting));
        match fitting.number("standby_w") {
            None if hours.is_none_or(|hours| hours > 0.0) => self.unrated.push(title),
            standby => {
                let watts = feeds.map(|feeds| inverted_w(feeds, standby.unwrap_or(0.0)));
                self.take(asked, (&fitting.id, title), watts, hours, chemistry);
            }
        }
    }

    /// Nothing need be told of what never runs, nor for how long what draws nothing does.
    fn take(
        &mut self,
        asked: &Asked,
        (id, title): (&str, String),
        watts: Option<Between>,
        hours: Option<f64>,
        chemistry: Chemistry,
    ) {
        let never = hours.is_some_and(|hours| hours <= 0.0)
            || watts.is_some_and(|watts| watts.upper <= 0.0);
        if never {
            return;
        }
        let Some((watts, hours)) = watts.zip(hours) else {
            self.untold.push(title);
            return;
        };
        let power = asked.band("_w", watts, 1.0);
        let time = super::so_long(asked, hours);
        let told = asked.say("told", &[("watts", &power), ("time", &time)]);
        let load = Load::of_watts(watts, hours.min(24.0), chemistry);
        self.items.push(Item { id: id.to_owned(), title, load, told });
    }

    /// All that draws was told.
    pub(super) fn complete(&self) -> bool {
        self.untold.is_empty() && self.unrated.is_empty()
    }

    pub(super) fn all(&self) -> Vec<Load> {
        self.items.iter().map(|item| item.load).collect()
    }

    /// The greatest use first, each with its place.
    pub(super) fn by_size(&self) -> Vec<(usize, &Item)> {
        let mut items: Vec<_> = self.items.iter().enumerate().collect();
        let size = |item: &Item| item.load.day_ah().upper;
        items.sort_by(|(_, one), (_, other)| size(other).total_cmp(&size(one)));
        items
    }

    pub(super) fn missing(&self, asked: &Asked) -> Vec<String> {
        let said = |key: &str, titles: &[String]| {
            let what = titles.join(", ");
            (!titles.is_empty()).then(|| asked.say(&format!("missing.{key}"), &[("what", &what)]))
        };
        let all = [said("hours", &self.untold), said("watts", &self.unrated)];
        all.into_iter().flatten().collect()
    }
}
