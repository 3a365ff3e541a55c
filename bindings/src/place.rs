//! Where the vehicle is: places, driving off and arriving, countries and carriers.

use stowfast_core::catalogue::Says;
use stowfast_core::engine::{Changes, PlaceRow, RuleRow};

use crate::{Engine, EngineError, Moment};

type Result<T> = std::result::Result<T, EngineError>;

/// An invented place that comes with the app.
#[uniffi::remote(Record)]
pub struct PlaceRow {
    /// Names it to the engine.
    pub id: String,
    /// What it is called.
    pub title: String,
    /// What it is like.
    pub about: String,
    /// True for a place that stands for no real one.
    pub invented: bool,
}

/// What a country or carrier says of something.
#[uniffi::remote(Enum)]
pub enum Says {
    /// It is allowed.
    Allowed,
    /// Nobody here knows: ask.
    Ask,
    /// It is forbidden.
    Forbidden,
}

/// One rule of one country or carrier.
#[uniffi::remote(Record)]
pub struct RuleRow {
    /// Names the country or carrier.
    pub place: String,
    /// The same in words.
    pub place_title: String,
    /// Of a carrier: its sort, as [`Engine::tell_carrier`] takes it.
    pub carrier: Option<String>,
    /// Names the rule.
    pub rule: String,
    /// The same in words.
    pub title: String,
    /// What it says now.
    pub says: Says,
    /// The same in words.
    pub says_text: String,
    /// What to know about it.
    pub note: String,
    /// Where it comes from.
    pub source: String,
    /// The day on which it was so, as `2026-07-14`.
    pub date: String,
    /// True where it is of the country or carrier that was told.
    pub told: bool,
}

#[uniffi::export]
impl Engine {
    /// The invented places that come with the app.
    ///
    /// # Errors
    /// [`EngineError::Internal`] alone.
    pub fn places(&self) -> Result<Vec<PlaceRow>> {
        Ok(self.lock()?.places()?)
    }

    /// Records that the vehicle stands at one of [`Engine::places`], and what there is.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] where there is no such place.
    pub fn arrive_at(&self, place_id: String, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.arrive_at(&place_id, &now.into())?)
    }

    /// The same with the text of a place file.
    ///
    /// # Errors
    /// [`EngineError::BrokenPack`] where it does not read. Nothing was changed then.
    pub fn arrive_at_file(
        &self,
        place_toml: String,
        file_name: String,
        now: Moment,
    ) -> Result<Changes> {
        Ok(self.lock()?.arrive_at_file(&place_toml, &file_name, &now.into())?)
    }

    /// Records that the vehicle stands again, somewhere that nothing is known of.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn arrive(&self, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.arrive(&now.into())?)
    }

    /// Records that the vehicle has driven off. A routine that leads to the road is ended.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn drive_off(&self, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.drive_off(&now.into())?)
    }

    /// Every rule of every country and carrier; of those that were told first.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn rules(&self, now: Moment) -> Result<Vec<RuleRow>> {
        Ok(self.lock()?.rules(&now.into())?)
    }

    /// Records which country the vehicle is in, by its two letters (ISO 3166-1).
    ///
    /// # Errors
    /// [`EngineError::InvalidInput`] for anything but two letters.
    pub fn tell_country(&self, code: String, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.tell_country(&code, &now.into())?)
    }

    /// Records what carries the vehicle on this trip: a sort of carrier, such as `ferry`.
    ///
    /// # Errors
    /// [`EngineError::InvalidInput`] lists the sorts there are.
    pub fn tell_carrier(&self, sort: String, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.tell_carrier(&sort, &now.into())?)
    }
}
