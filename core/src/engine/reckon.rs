//! Questions that are answered with numbers: each fills one shape from `crate::reckon`, the state, the
//! pack and what people told.

mod asked;
mod boiler;
mod course;
mod first;
mod frost;
mod fuel;
mod gas;
mod level;
mod load;
mod power;
mod small;
mod speech;
mod supply;
mod tyres;
mod urea;
mod wind;

use asked::{Answer, Asked};
pub(super) use first::likeliest;
pub(super) use gas::burnt_kg as gas_burnt_kg;
pub use level::Level;
pub(super) use power::told_ah as battery_drawn_ah;

use super::Engine;
use super::loaded::Loaded;
use super::page::{Pick, Reckoning, ReckoningRow};
use crate::clock::Stamp;
use crate::error::{Error, Result};

/// One question.
struct Module {
    /// Its command, and the key of its words below `reckon.`.
    id: &'static str,
    /// The kinds of which one must be fitted.
    kinds: &'static [&'static str],
    answer: fn(&mut Asked) -> Result<Answer>,
}

/// All of them, in the order in which they are listed: on arriving, of a stay, of the weather, of the road.
static MODULES: [Module; 12] = [
    Module { id: "supply", kinds: &["mains_lead"], answer: supply::answer },
    Module { id: "level", kinds: &["tyres"], answer: level::answer },
    Module {
        id: "first",
        kinds: &[
            "fresh_tank",
            "waste_tank",
            "cassette_toilet",
            "leisure_battery",
            "gas_cylinder",
            "heater_diesel",
        ],
        answer: first::answer,
    },
    Module { id: "power", kinds: &["leisure_battery"], answer: power::answer },
    Module { id: "gas", kinds: &["gas_cylinder"], answer: gas::answer },
    Module { id: "boiler", kinds: &["boiler"], answer: boiler::answer },
    Module {
        id: "frost",
        kinds: &["fresh_tank", "waste_tank", "pump", "boiler"],
        answer: frost::answer,
    },
    Module { id: "wind", kinds: &["awning", "roof_light", "satellite_dish"], answer: wind::answer },
    Module { id: "fuel", kinds: &["engine"], answer: fuel::answer },
    Module { id: "urea", kinds: &["urea_tank"], answer: urea::answer },
    Module { id: "tyres", kinds: &["tyres"], answer: tyres::answer },
    Module { id: "load", kinds: &["tyres"], answer: load::answer },
];

/// What every question is called, of whatever vehicle.
pub fn reckonings() -> impl Iterator<Item = &'static str> {
    MODULES.iter().map(|module| module.id)
}

impl Loaded {
    /// The questions that can be asked of this vehicle, in order.
    pub(super) fn questions(&self) -> impl Iterator<Item = &'static str> {
        MODULES.iter().filter(|module| module.fits(self)).map(|module| module.id)
    }
}

impl Engine {
    /// Every question that can be asked of this vehicle.
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn reckonings(&self) -> Result<Vec<ReckoningRow>> {
        let loaded = self.loaded()?;
        let words = loaded.words(&self.language)?;
        let row = |id: &str| {
            let say = |it: &str| words.text.say(&format!("reckon.{id}.{it}"), &[]);
            ReckoningRow { id: id.to_owned(), title: say("title"), about: say("about") }
        };
        Ok(loaded.questions().map(row).collect())
    }

    /// The answer to one of them.
    ///
    /// # Errors
    /// [`Error::NotFound`] for a question, or a choice of it, that cannot be asked of this vehicle,
    /// [`Error::InvalidInput`] for a pick that does not fit, [`Error::Conflict`] while no vehicle is
    /// chosen.
    pub fn reckon(&self, id: &str, picks: &[Pick], now: &Stamp) -> Result<Reckoning> {
        let loaded = self.at(now)?;
        let module = module(id, &loaded)?;
        let words = loaded.words(&self.language)?;
        let mut asked = Asked::new(module.id, &loaded, &words, picks, now);
        let answer = (module.answer)(&mut asked)?;
        asked.close(answer)
    }
}

/// The question of that id, if it can be asked of this vehicle.
fn module(id: &str, loaded: &Loaded) -> Result<&'static Module> {
    let fits = |module: &&Module| module.id == id && module.fits(loaded);
    let none = || Error::NotFound { kind: "question", id: id.to_owned() };
    MODULES.iter().find(fits).ok_or_else(none)
}

impl Module {
    fn fits(&self, loaded: &Loaded) -> bool {
        self.kinds.iter().any(|kind| loaded.vehicle.of_kind(kind).next().is_some())
    }
}
