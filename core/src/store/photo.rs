//! Table `photo`: a picture of a fitting of a vehicle, one for each.

use rusqlite::{Connection, OptionalExtension, params};

use super::{Store, vehicle};
use crate::error::{Error, Result};
use crate::photo::{ALL_BYTES_MAX, Giver, PHOTOS_MAX, Photo};

/// Reads a vehicle's photos; also tells, when prepared, whether the table has its columns.
pub(super) const SELECT: &str = "
    SELECT fitting, giver, added_utc_ms, image FROM photo WHERE vehicle_id = ?1 ORDER BY fitting";

/// A photo without its picture.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PhotoHead {
    /// The fitting's id within the pack.
    pub fitting: String,
    /// Who gave it.
    pub giver: Giver,
    /// How large the picture is. Unit: bytes.
    pub bytes: i64,
}

impl Store {
    /// Which photos there are of a vehicle, by the id of the fitting.
    ///
    /// # Errors
    /// [`Error::Database`] where the file cannot be read.
    pub fn photo_heads(&self, vehicle: i64) -> Result<Vec<PhotoHead>> {
        let mut statement = self.connection.prepare_cached(
            "SELECT fitting, giver, length(image) FROM photo WHERE vehicle_id = ?1 ORDER BY fitting",
        )?;
        let rows = statement
            .query_map([vehicle], |row| Ok((row.get(0)?, row.get::<_, String>(1)?, row.get(2)?)))?;
        let head = |row: rusqlite::Result<(String, String, i64)>| {
            let (fitting, giver, bytes) = row?;
            Ok(PhotoHead { fitting, giver: giver_of(&giver)?, bytes })
        };
        rows.map(head).collect()
    }

    /// The picture of one fitting.
    ///
    /// # Errors
    /// [`Error::Database`] where the file cannot be read.
    pub fn photo(&self, vehicle: i64, fitting: &str) -> Result<Option<Vec<u8>>> {
        let select = "SELECT image FROM photo WHERE vehicle_id = ?1 AND fitting = ?2";
        let mut statement = self.connection.prepare_cached(select)?;
        Ok(statement.query_row(params![vehicle, fitting], |row| row.get(0)).optional()?)
    }

    /// Puts photos in place of those that there are of the same fittings: all of them, or none.
    ///
    /// # Errors
    /// [`Error::NotFound`] for an unknown vehicle. [`Error::InvalidInput`] where there would be more than
    /// [`PHOTOS_MAX`] of it, or more than [`ALL_BYTES_MAX`] bytes of all; else as for [`Store::append`].
    pub fn put_photos(&mut self, vehicle: i64, photos: &[Photo]) -> Result<()> {
        self.act(|tx| {
            vehicle::require(tx, vehicle)?;
            photos.iter().try_for_each(|photo| put(tx, vehicle, photo, "").map(|_| ()))?;
            within_limits(tx, vehicle)
        })
    }

    /// Takes the photo of a fitting away.
    ///
    /// # Errors
    /// [`Error::NotFound`] where there is none; else as for [`Store::append`].
    pub fn remove_photo(&mut self, vehicle: i64, fitting: &str) -> Result<()> {
        self.act(|tx| {
            let gone = tx
                .prepare_cached("DELETE FROM photo WHERE vehicle_id = ?1 AND fitting = ?2")?
                .execute(params![vehicle, fitting])?;
            let none = || Error::NotFound { kind: "photo", id: fitting.to_owned() };
            if gone == 1 { Ok(()) } else { Err(none()) }
        })
    }
}

/// All photos of a vehicle, by the id of the fitting.
pub(super) fn read(connection: &Connection, vehicle: i64) -> Result<Vec<Photo>> {
    let mut statement = connection.prepare_cached(SELECT)?;
    let rows = statement.query_map([vehicle], |row| {
        Ok((row.get(0)?, row.get::<_, String>(1)?, row.get(2)?, row.get(3)?))
    })?;
    let photo = |row: rusqlite::Result<(String, String, i64, Vec<u8>)>| {
        let (fitting, giver, added_utc_ms, image) = row?;
        Ok(Photo { fitting, giver: giver_of(&giver)?, added_utc_ms, image })
    };
    rows.map(photo).collect()
}

/// Adds photos that came in; of two of one fitting the one that was given later stays. Whether any was written.
pub(super) fn bring(connection: &Connection, vehicle: i64, photos: &[Photo]) -> Result<bool> {
    let newer = "WHERE excluded.added_utc_ms > photo.added_utc_ms";
    let written = photos.iter().map(|photo| put(connection, vehicle, photo, newer));
    let written = written.collect::<Result<Vec<_>>>()?;
    within_limits(connection, vehicle)?;
    Ok(written.contains(&true))
}

fn put(connection: &Connection, vehicle: i64, photo: &Photo, only: &str) -> Result<bool> {
    let Photo { fitting, giver, added_utc_ms, image } = photo;
    let insert = format!(
        "INSERT INTO photo (vehicle_id, fitting, giver, added_utc_ms, image) VALUES (?1, ?2, ?3, ?4, ?5)
         ON CONFLICT (vehicle_id, fitting) DO UPDATE
         SET giver = excluded.giver, added_utc_ms = excluded.added_utc_ms, image = excluded.image {only}"
    );
    let values = params![vehicle, fitting, giver.code(), added_utc_ms, image];
    Ok(connection.prepare_cached(&insert)?.execute(values)? > 0)
}

fn within_limits(connection: &Connection, vehicle: i64) -> Result<()> {
    let (of_it, in_all): (i64, i64) = connection
        .prepare_cached(
            "SELECT coalesce(sum(vehicle_id = ?1), 0), coalesce(sum(length(image)), 0) FROM photo",
        )?
        .query_row([vehicle], |row| Ok((row.get(0)?, row.get(1)?)))?;
    let over = |found: i64, most: usize| usize::try_from(found).is_ok_and(|found| found > most);
    let expected = if over(of_it, PHOTOS_MAX) {
        format!("at most {PHOTOS_MAX} photos of a vehicle. Remove one first")
    } else if over(in_all, ALL_BYTES_MAX) {
        format!("at most {ALL_BYTES_MAX} bytes of photos in all. Remove one first")
    } else {
        return Ok(());
    };
    Err(Error::InvalidInput { field: "photo".to_owned(), expected })
}

fn giver_of(code: &str) -> Result<Giver> {
    Giver::of(code).ok_or_else(|| Error::Internal(format!("photo by `{code}`")))
}
