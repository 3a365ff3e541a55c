//! The door to the Kotlin side: one object, flat records, coarse calls. No rule lives here.
//!
//! Every call takes what it needs and returns a page or what it changed. None reads a clock: the
//! phone passes its own as a [`Moment`]. All calls run one after another behind one lock.

#![allow(clippy::needless_pass_by_value, reason = "uniffi passes owned")]

#[cfg(target_os = "android")]
extern crate unwinding as _;

mod advice;
mod alert;
mod card;
mod drive_card;
mod error;
mod export;
mod fault;
mod level;
mod list;
mod moment;
mod page;
mod photo;
mod place;
mod reckon;
mod remind;
mod reserve;
mod run;
mod stay;
mod steps;
mod stop;
mod target;
#[cfg(test)]
mod tests;

use std::path::Path;
use std::sync::{Arc, Mutex, MutexGuard};

use stowfast_core::engine as core;
use stowfast_core::engine::{
    Changes, DemoRow, DoneRow, FridgePage, GaugeRow, GaugeUnit, NowPage, TargetRow, VehicleRow,
};

pub use error::EngineError;
pub use moment::Moment;

uniffi::setup_scaffolding!();

type Result<T> = std::result::Result<T, EngineError>;

/// The one object: a database and all that is worked out from it.
#[derive(Debug, uniffi::Object)]
pub struct Engine {
    inner: Mutex<core::Engine>,
}

impl Engine {
    fn lock(&self) -> Result<MutexGuard<'_, core::Engine>> {
        let broken = |_| EngineError::Internal { detail: "an earlier call broke off".to_owned() };
        self.inner.lock().map_err(broken)
    }
}

#[uniffi::export]
impl Engine {
    /// Opens the database at `db_path`, or makes it. `language` is a tag such as `en`.
    ///
    /// A damaged file is set aside and the last sound backup takes its place: [`Engine::notices`]
    /// says so.
    ///
    /// # Errors
    /// [`EngineError::StorageDamaged`] where that is not possible. [`EngineError::NewerDatabase`]
    /// where a newer Stowfast wrote it. [`EngineError::StorageFull`], [`EngineError::Internal`].
    #[uniffi::constructor]
    pub fn new(db_path: String, language: String, now: Moment) -> Result<Arc<Self>> {
        let inner = core::Engine::open(Path::new(&db_path), &language, &now.into())?;
        Ok(Arc::new(Self { inner: Mutex::new(inner) }))
    }

    /// What the owner must be told of how the database opened; nothing where all was well.
    ///
    /// # Errors
    /// [`EngineError::Internal`] alone.
    pub fn notices(&self) -> Result<Vec<String>> {
        Ok(self.lock()?.notices()?)
    }

    /// The invented vehicles that come with the app.
    ///
    /// # Errors
    /// [`EngineError::Internal`] alone.
    pub fn demos(&self) -> Result<Vec<DemoRow>> {
        Ok(self.lock()?.demos()?)
    }

    /// All vehicles on this phone.
    ///
    /// # Errors
    /// [`EngineError::Internal`] alone.
    pub fn vehicles(&self) -> Result<Vec<VehicleRow>> {
        Ok(self.lock()?.vehicles()?)
    }

    /// Adds an invented vehicle, makes it the current one and returns its id.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] where there is no such demonstration.
    pub fn add_demo(&self, id: String, now: Moment) -> Result<i64> {
        Ok(self.lock()?.add_demo(&id, &now.into())?)
    }

    /// Adds a vehicle from the text of a pack file, makes it the current one and returns its id.
    ///
    /// # Errors
    /// [`EngineError::BrokenPack`] where it does not read, [`EngineError::Conflict`] where a vehicle
    /// of that title is here already: see [`Engine::replace_pack`]. Nothing was changed then.
    pub fn add_pack(&self, pack_toml: String, file_name: String, now: Moment) -> Result<i64> {
        Ok(self.lock()?.add_pack(&pack_toml, &file_name, &now.into())?)
    }

    /// Gives a vehicle a corrected pack. Its log stays; the warnings name what is gone.
    ///
    /// # Errors
    /// As [`Engine::add_pack`], and [`EngineError::NotFound`]. Nothing was changed then.
    pub fn replace_pack(
        &self,
        vehicle: i64,
        pack_toml: String,
        file_name: String,
        now: Moment,
    ) -> Result<Changes> {
        Ok(self.lock()?.replace_pack(vehicle, &pack_toml, &file_name, &now.into())?)
    }

    /// Makes a vehicle the one that every page is about.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] where there is no such vehicle.
    pub fn choose_vehicle(&self, id: i64) -> Result<()> {
        Ok(self.lock()?.choose_vehicle(id)?)
    }

    /// What the current vehicle can be got ready for.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn targets(&self) -> Result<Vec<TargetRow>> {
        Ok(self.lock()?.targets()?)
    }

    /// What the vehicle is doing, and whether it is ready to drive.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn now_page(&self, now: Moment) -> Result<NowPage> {
        Ok(self.lock()?.now_page(&now.into())?)
    }

    /// What the fridge should run on, where one is fitted that can choose.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn fridge(&self, now: Moment) -> Result<Option<FridgePage>> {
        Ok(self.lock()?.fridge(&now.into())?)
    }

    /// The same, with by when to begin cooling it down for a departure. `leave_utc_ms`: ms since
    /// 1970-01-01 UTC.
    ///
    /// # Errors
    /// [`EngineError::InvalidInput`] for a departure that is over or too far ahead.
    pub fn fridge_for(&self, leave_utc_ms: i64, now: Moment) -> Result<Option<FridgePage>> {
        Ok(self.lock()?.fridge_for(leave_utc_ms, &now.into())?)
    }

    /// Records where the fridge's selector was set.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] where the fridge has no such position.
    pub fn set_fridge(&self, selector: String, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.set_fridge(&selector, &now.into())?)
    }

    /// All gauges and what they last said.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn gauges(&self, now: Moment) -> Result<Vec<GaugeRow>> {
        Ok(self.lock()?.gauges(&now.into())?)
    }

    /// Records a reading. `value` is in `unit`.
    ///
    /// # Errors
    /// [`EngineError::InvalidInput`] where the gauge cannot show it.
    pub fn enter_reading(
        &self,
        gauge_id: String,
        unit: GaugeUnit,
        value: f64,
        now: Moment,
    ) -> Result<Changes> {
        Ok(self.lock()?.enter_reading(&gauge_id, unit, value, &now.into())?)
    }

    /// The newest `limit` entries of the record, newest first.
    ///
    /// # Errors
    /// [`EngineError::InvalidInput`] where `limit` is not positive.
    pub fn log(&self, limit: i32) -> Result<Vec<DoneRow>> {
        Ok(self.lock()?.log(limit)?)
    }
}
