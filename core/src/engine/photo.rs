//! Photos of fittings: given, shown and taken away.

use super::Engine;
use super::loaded::Loaded;
use super::page::{CardPhoto, Changes, PhotoRow};
use super::words::Words;
use crate::clock::Stamp;
use crate::error::{Error, Result};
use crate::photo::{Giver, Photo, cleaned};
use crate::store::PhotoHead;
use crate::vehicle::Fitting;

impl Engine {
    /// The photo of a fitting: the bytes of a JPEG, PNG or WebP file; `None` where there is none.
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn photo(&self, fitting: &str) -> Result<Option<Vec<u8>>> {
        self.store.photo(self.loaded()?.id, fitting)
    }

    /// Every photo of this vehicle; also of what is no longer fitted, which is kept until it is removed.
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn photos(&self) -> Result<Vec<PhotoRow>> {
        let loaded = self.loaded()?;
        let words = loaded.words(&self.language)?;
        let heads = self.store.photo_heads(loaded.id)?.into_iter();
        Ok(heads.map(|head| loaded.photo_row(&words, head)).collect())
    }

    /// The files that the pack names as photos: the id of a fitting, and a file beside the pack.
    ///
    /// # Errors
    /// [`Error::Conflict`] while no vehicle is chosen.
    pub fn photos_named(&self) -> Result<Vec<(String, String)>> {
        let fitted = self.loaded()?.vehicle.fittings.iter();
        Ok(fitted.filter_map(|one| Some((one.id.clone(), one.photo.clone()?))).collect())
    }

    /// Gives a fitting a photo, in place of the one before; only the picture is kept of the file. Undone
    /// by [`Engine::remove_photo`].
    ///
    /// # Errors
    /// [`Error::NotFound`] for a fitting that is not there, [`Error::InvalidInput`] for a picture that
    /// [`cleaned`] does not take or where there are too many, [`Error::Conflict`] while no vehicle is chosen.
    pub fn set_photo(
        &mut self,
        fitting: &str,
        bytes: &[u8],
        giver: Giver,
        now: &Stamp,
    ) -> Result<Changes> {
        let loaded = self.loaded()?;
        let none = || Error::NotFound { kind: "card", id: fitting.to_owned() };
        loaded.photographed(fitting).ok_or_else(none)?;
        let (id, photo) = (loaded.id, new(fitting, cleaned(bytes)?, giver, now));
        self.store.put_photos(id, &[photo])?;
        Ok(Changes::default())
    }

    /// Gives fittings the photos that came with the pack, all of them or none. A photo that the owner
    /// gave stays.
    ///
    /// # Errors
    /// As [`Engine::set_photo`].
    pub fn take_pack_photos(&mut self, files: &[(String, Vec<u8>)], now: &Stamp) -> Result<()> {
        let id = self.loaded()?.id;
        let heads = self.store.photo_heads(id)?;
        let own = |fitting: &str| {
            heads.iter().any(|head| head.fitting == fitting && head.giver == Giver::Owner)
        };
        let taken = files.iter().filter(|(fitting, _)| !own(fitting));
        let photos =
            taken.map(|(fitting, bytes)| Ok(new(fitting, cleaned(bytes)?, Giver::Pack, now)));
        let photos = photos.collect::<Result<Vec<_>>>()?;
        self.store.put_photos(id, &photos)
    }

    /// Takes the photo of a fitting away, for good.
    ///
    /// # Errors
    /// [`Error::NotFound`] where there is none, [`Error::Conflict`] while no vehicle is chosen.
    pub fn remove_photo(&mut self, fitting: &str) -> Result<Changes> {
        let id = self.loaded()?.id;
        self.store.remove_photo(id, fitting)?;
        Ok(Changes::default())
    }

    /// What the card of a fitting says of its photo.
    pub(super) fn card_photo(&self, fitting: &str) -> Result<Option<CardPhoto>> {
        let rows = self.photos()?.into_iter();
        let mut own = rows.filter(|row| row.id == fitting);
        Ok(own.next().map(|PhotoRow { title, by_text, .. }| CardPhoto { title, by_text }))
    }
}

fn new(fitting: &str, image: Vec<u8>, giver: Giver, now: &Stamp) -> Photo {
    Photo { fitting: fitting.to_owned(), giver, added_utc_ms: now.utc_ms, image }
}

impl Loaded {
    /// What has a card.
    fn photographed(&self, id: &str) -> Option<&Fitting> {
        self.vehicle.fittings.iter().find(|one| one.id == id && !one.title.is_empty())
    }

    fn photo_row(&self, words: &Words, head: PhotoHead) -> PhotoRow {
        let PhotoHead { fitting, giver, bytes } = head;
        let fitted = self.photographed(&fitting);
        let what = fitted.map_or(fitting.as_str(), |known| words.title(known));
        let by_text = match (giver, &self.vehicle.technician) {
            (Giver::Owner, _) => words.say("photo.by_owner", &[]),
            (Giver::Pack, Some(who)) => words.say("photo.by", &[("who", who)]),
            (Giver::Pack, None) => words.say("photo.by_pack", &[]),
        };
        let title = words.say("photo.title", &[("what", what)]);
        let note = if fitted.is_some() { String::new() } else { words.say("photo.gone", &[]) };
        PhotoRow { title, by_text, note, bytes, id: fitting }
    }
}
