//! What the panels bring.

use super::season::Season;
use crate::engine::gauge::chemistry;
use crate::engine::page::ReckoningPart;
use crate::engine::reckon::asked::Asked;
use crate::error::Result;
use crate::reckon::Between;
use crate::reckon::solar::{Sky, Sun, charge_ah, day_length_h, day_wh};
use crate::reserve::chemistry::Chemistry;
use crate::vehicle::Fitting;

/// How far north or south a pick may lie. Unit: degrees.
const LATITUDE_MAX: f64 = 72.0;
const SKIES: [(&str, Sky); 3] =
    [("clear", Sky::Clear), ("broken", Sky::Broken), ("overcast", Sky::Overcast)];

/// What the sun brings, as far as it is known.
pub(in crate::engine::reckon) struct Brought {
    /// There are panels.
    pub(super) fitted: bool,
    /// Under the sky that was picked. Unit: Ah a day; `None` where that cannot be told.
    pub(super) gained_ah: Option<Between>,
    /// The sky that was picked.
    sky: Option<String>,
    /// Unit: Wh a day, under each sky.
    skies_wh: Vec<(&'static str, Between)>,
    /// From sunrise to sunset. Unit: h.
    pub(super) day_h: Option<Between>,
    /// What is missing to tell it: its words below `missing`.
    pub(super) lacks: Option<&'static str>,
}

impl Brought {
    /// By what is picked of place and sky, under the sun of `season`; what is missing is noted.
    ///
    /// # Errors
    /// [`crate::error::Error::InvalidInput`] for a pick that cannot be.
    pub(in crate::engine::reckon) fn of(
        asked: &mut Asked,
        battery: &Fitting,
        season: Season,
        missing: &mut Vec<String>,
    ) -> Result<Self> {
        let panels: Vec<_> =
            asked.loaded.vehicle.of_kind("solar_regulator").map(|(_, one)| one).collect();
        let fitted = !panels.is_empty();
        let mut sun = Self {
            fitted,
            gained_ah: None,
            sky: None,
            skies_wh: Vec::new(),
            day_h: None,
            lacks: None,
        };
        if panels.is_empty() {
            return Ok(sun);
        }
        let latitude = asked.number("latitude", "_deg", (-LATITUDE_MAX, LATITUDE_MAX))?;
        let days = season.days(asked)?;
        let options = SKIES.map(|(id, _)| (id, asked.say(&format!("sky.{id}"), &[])));
        let sky = asked.one("sky", &options, None)?;
        if panels.iter().all(|one| asked.stands(one, "panels", &["off"]) == Some(true)) {
            sun.gained_ah = Some(Between::exactly(0.0));
            return Ok(sun);
        }
        let rated: Option<Vec<f64>> = panels.iter().map(|one| one.number("panel_wp")).collect();
        let panel_wp = rated.map(|all| all.into_iter().sum::<f64>());
        sun.lacks = match (panel_wp, latitude, &sky) {
            (None, ..) => Some("panels"),
            (_, None, _) => Some("latitude"),
            (.., None) => Some("sky"),
            (Some(_), Some(_), Some(_)) => None,
        };
        missing.extend(sun.lacks.map(|key| asked.say(&format!("missing.{key}"), &[])));
        if let Some((panel_wp, latitude)) = panel_wp.zip(latitude) {
            let over = |of: &dyn Fn(&Sun) -> Between| days.iter().map(of).reduce(Between::hull);
            let brings = |sky| over(&|day| day_wh(latitude, day, sky, panel_wp));
            let skies = SKIES.iter().filter_map(|(id, sky)| Some((*id, brings(*sky)?)));
            sun.skies_wh = skies.collect();
            sun.day_h = over(&|day| Between::exactly(day_length_h(latitude, day)));
            let picked = sky.as_ref().and_then(|id| sun.skies_wh.iter().find(|(one, _)| one == id));
            sun.gained_ah = picked.map(|(_, wh)| charge_ah(*wh, chemistry(battery)));
            sun.sky = sky;
        }
        Ok(sun)
    }

    /// How much less a grey day brings than one under the sky that was picked; `None`
    /// where that cannot be told, and where it was grey. Unit: Ah.
    pub(in crate::engine::reckon) fn less_when_grey_ah(
        &self,
        chemistry: Chemistry,
    ) -> Option<Between> {
        let (id, _) = SKIES.iter().find(|(_, sky)| *sky == Sky::Overcast)?;
        self.sky.as_ref().filter(|sky| sky != id)?;
        let (_, grey_wh) = self.skies_wh.iter().find(|(one, _)| one == id)?;
        Some((self.gained_ah? - charge_ah(*grey_wh, chemistry)).at_least(0.0))
    }

    pub(super) fn part(&self, asked: &Asked) -> ReckoningPart {
        let gained = self.gained_ah.map(|ah| asked.line("gained", "_ah", ah, 1.0));
        let skies = self.skies_wh.iter().map(|(id, wh)| asked.line(id, "_wh", *wh, 10.0));
        let day = self.day_h.map(|hours| asked.told("day_length", super::long(asked, hours)));
        asked.part("sun", gained.into_iter().chain(skies).chain(day).collect())
    }
}
