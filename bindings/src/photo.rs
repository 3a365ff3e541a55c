//! Photos of fittings: the shapes that cross, as in `page.rs`, and their calls.

use stowfast_core::engine::{CardPhoto, Changes};
use stowfast_core::photo::{BYTES_MAX, EDGE_PX, Giver};

use crate::{Engine, EngineError, Moment};

type Result<T> = std::result::Result<T, EngineError>;

/// What a card says of its photo.
#[uniffi::remote(Record)]
pub struct CardPhoto {
    /// What is to be seen on it; also for whoever cannot see it.
    pub title: String,
    /// Who gave it.
    pub by_text: String,
}

/// How small a picture is to be made.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct PhotoLimits {
    /// Its longer edge. Unit: px.
    pub edge_px: i32,
    /// The most that its file may have. Unit: bytes.
    pub bytes: i32,
}

#[uniffi::export]
impl Engine {
    /// The photo of a fitting: the bytes of a JPEG, PNG or WebP file; null where there is none.
    ///
    /// # Errors
    /// [`EngineError::Conflict`] where no vehicle is chosen.
    pub fn photo(&self, fitting_id: String) -> Result<Option<Vec<u8>>> {
        Ok(self.lock()?.photo(&fitting_id)?)
    }

    /// Gives a fitting the photo that its owner took, in place of the one before.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] for a fitting that is not there, [`EngineError::InvalidInput`] for what is
    /// no picture, is damaged or too large. Nothing was changed then.
    pub fn set_photo(&self, fitting_id: String, image: Vec<u8>, now: Moment) -> Result<Changes> {
        Ok(self.lock()?.set_photo(&fitting_id, &image, Giver::Owner, &now.into())?)
    }

    /// Takes the photo of a fitting away, for good.
    ///
    /// # Errors
    /// [`EngineError::NotFound`] where there is none.
    pub fn remove_photo(&self, fitting_id: String) -> Result<Changes> {
        Ok(self.lock()?.remove_photo(&fitting_id)?)
    }

    /// How small a picture is to be made for [`Engine::set_photo`].
    #[must_use]
    pub fn photo_limits(&self) -> PhotoLimits {
        let bytes = i32::try_from(BYTES_MAX).unwrap_or(i32::MAX);
        PhotoLimits { edge_px: EDGE_PX, bytes }
    }
}
