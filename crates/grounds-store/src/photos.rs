//! Photos: the pictures in an object store, and beside them, in the database, what is known of each.
//!
//! A photo is here when its row is here. The pictures are put first, under a name that follows from
//! the bytes that were sent, so that a program that is killed in between leaves at most pictures
//! that nobody asks for, and the same photo sent again completes it.

use std::collections::BTreeMap;

use grounds_photo::Ready;
use jiff::Timestamp;
use object_store::{ObjectStoreExt, PutPayload, path::Path};
use serde::{Deserialize, Serialize};
use sqlx::{Row, SqliteConnection, sqlite::SqliteRow};

use crate::{
    error::StoreError,
    key::{check_key, check_photo},
    store::{self, Store, count, moment, no_job},
};

/// Which way a camera looked: degrees from north, clockwise, to a tenth.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Facing {
    tenths: u16,
}

impl Facing {
    /// A direction in degrees, 0 to 359.9; nothing for any other number.
    #[must_use]
    pub fn from_degrees(degrees: f64) -> Option<Self> {
        let tenths = (degrees * 10.0).round();
        (0.0..3600.0).contains(&tenths).then_some(Self {
            tenths: tenths as u16,
        })
    }

    /// The direction in degrees from north, 0 to 359.9.
    #[must_use]
    pub fn degrees(self) -> f64 {
        f64::from(self.tenths) / 10.0
    }
}

impl TryFrom<f64> for Facing {
    type Error = String;

    fn try_from(degrees: f64) -> Result<Self, Self::Error> {
        Self::from_degrees(degrees)
            .ok_or_else(|| format!("{degrees} is no direction; write degrees from 0 to 359.9"))
    }
}

impl From<Facing> for f64 {
    fn from(facing: Facing) -> Self {
        facing.degrees()
    }
}

/// What whoever sends a photo says of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Taken {
    /// When it was taken.
    pub at: Option<Timestamp>,
    /// Which way the camera looked.
    pub facing: Option<Facing>,
    /// Who sends it.
    pub by: String,
}

/// A photo that is here.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Photo {
    /// Its key: the SHA-256 of the bytes that were sent, in lower-case hexadecimal.
    pub key: String,
    /// When it was taken, if that is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taken: Option<Timestamp>,
    /// Which way the camera looked, if that is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub facing: Option<Facing>,
    /// Who sent it.
    pub by: String,
    /// When it arrived here.
    pub received: Timestamp,
    /// The width of the picture as it is kept, in pixels.
    pub width: u32,
    /// Its height in pixels.
    pub height: u32,
    /// Its length in bytes.
    pub bytes: u64,
}

/// In which size a picture is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Size {
    /// As it is kept.
    Whole,
    /// For a row of pictures.
    Small,
}

impl Store {
    /// Keeps a photo of a job, and acknowledges it when it is on the disk. One that is here already
    /// changes nothing.
    ///
    /// # Errors
    ///
    /// [`StoreError::BadPhotoKey`] for a key that is none; [`StoreError::NoJob`] if there is no
    /// such job; [`StoreError::Photos`] if the photo store fails.
    pub async fn add_photo(
        &self,
        job: &str,
        key: &str,
        picture: &Ready,
        taken: &Taken,
    ) -> Result<Photo, StoreError> {
        check_photo(key)?;
        let mut look = self.readers().begin().await?;
        if store::document_in(&mut look, job).await?.is_none() {
            return Err(no_job(job));
        }
        look.commit().await?;
        self.put_pictures(job, key, picture).await?;
        let photo = photo_of(key, picture, taken, Timestamp::now());
        let mut change = self.begin().await?;
        record_in(&mut change, job, &photo).await?;
        let kept = photo_in(&mut change, job, key).await?;
        change.commit().await?;
        Ok(kept.unwrap_or(photo))
    }

    /// What is known of a photo; nothing if it is not here.
    ///
    /// # Errors
    ///
    /// [`StoreError`] if the keys are none or the database fails.
    pub async fn photo(&self, job: &str, key: &str) -> Result<Option<Photo>, StoreError> {
        check_key(job)?;
        check_photo(key)?;
        let mut look = self.readers().acquire().await?;
        photo_in(&mut look, job, key).await
    }

    /// All photos of a job that are here, by key.
    ///
    /// # Errors
    ///
    /// [`StoreError`] if the key is none or the database fails.
    pub async fn photos(&self, job: &str) -> Result<BTreeMap<String, Photo>, StoreError> {
        check_key(job)?;
        let rows = sqlx::query(
            "SELECT key, taken, facing, person, received, width, height, bytes FROM photos \
             WHERE job = $1",
        )
        .bind(job)
        .fetch_all(self.readers())
        .await?;
        let photos = rows.iter().map(|row| {
            let photo = photo(row)?;
            Ok((photo.key.clone(), photo))
        });
        photos.collect()
    }

    /// A picture as a JPEG; nothing if it is not here.
    ///
    /// # Errors
    ///
    /// [`StoreError`] if the keys are none or the photo store fails.
    pub async fn picture(
        &self,
        job: &str,
        key: &str,
        size: Size,
    ) -> Result<Option<Vec<u8>>, StoreError> {
        match self.pictures().get(&place(job, key, size)?).await {
            Ok(found) => Ok(Some(found.bytes().await?.to_vec())),
            Err(object_store::Error::NotFound { .. }) => Ok(None),
            Err(error) => Err(error.into()),
        }
    }

    /// Whether a photo is here, and its picture too: one that somebody took out of the photo store
    /// can be sent again.
    ///
    /// # Errors
    ///
    /// [`StoreError`] if the keys are none, or the database or the photo store fails.
    pub async fn has_photo(&self, job: &str, key: &str) -> Result<bool, StoreError> {
        if self.photo(job, key).await?.is_none() {
            return Ok(false);
        }
        for size in [Size::Whole, Size::Small] {
            match self.pictures().head(&place(job, key, size)?).await {
                Ok(_) => {}
                Err(object_store::Error::NotFound { .. }) => return Ok(false),
                Err(error) => return Err(error.into()),
            }
        }
        Ok(true)
    }

    /// Puts the pictures of a photo into the photo store.
    pub(crate) async fn put_pictures(
        &self,
        job: &str,
        key: &str,
        picture: &Ready,
    ) -> Result<(), StoreError> {
        let both = [(Size::Whole, &picture.whole), (Size::Small, &picture.small)];
        for (size, bytes) in both {
            let payload = PutPayload::from(bytes.clone());
            self.pictures()
                .put(&place(job, key, size)?, payload)
                .await?;
        }
        Ok(())
    }
}

/// What is to be known of a photo that arrives now.
pub(crate) fn photo_of(key: &str, picture: &Ready, taken: &Taken, received: Timestamp) -> Photo {
    Photo {
        key: key.to_owned(),
        taken: taken.at,
        facing: taken.facing,
        by: taken.by.clone(),
        received,
        width: picture.width,
        height: picture.height,
        bytes: picture.whole.len() as u64,
    }
}

/// Where a picture is in the photo store. Both keys are plain, so that it leads nowhere else.
fn place(job: &str, key: &str, size: Size) -> Result<Path, StoreError> {
    check_key(job)?;
    check_photo(key)?;
    let ending = match size {
        Size::Whole => "jpg",
        Size::Small => "small.jpg",
    };
    Ok(Path::from_iter([job, &format!("{key}.{ending}")]))
}

/// Writes down a photo within a change, unless it is here. Gives whether it was new.
pub(crate) async fn record_in(
    change: &mut SqliteConnection,
    job: &str,
    photo: &Photo,
) -> Result<bool, StoreError> {
    let done = sqlx::query(
        "INSERT INTO photos (job, key, taken, facing, person, received, width, height, bytes) \
         VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9) ON CONFLICT (job, key) DO NOTHING",
    )
    .bind(job)
    .bind(&photo.key)
    .bind(photo.taken.map(|at| at.to_string()))
    .bind(photo.facing.map(|facing| i64::from(facing.tenths)))
    .bind(&photo.by)
    .bind(photo.received.to_string())
    .bind(i64::from(photo.width))
    .bind(i64::from(photo.height))
    .bind(i64::try_from(photo.bytes).unwrap_or(i64::MAX))
    .execute(change)
    .await?;
    Ok(done.rows_affected() > 0)
}

async fn photo_in(
    connection: &mut SqliteConnection,
    job: &str,
    key: &str,
) -> Result<Option<Photo>, StoreError> {
    let row = sqlx::query(
        "SELECT key, taken, facing, person, received, width, height, bytes FROM photos \
         WHERE job = $1 AND key = $2",
    )
    .bind(job)
    .bind(key)
    .fetch_optional(connection)
    .await?;
    row.as_ref().map(photo).transpose()
}

fn photo(row: &SqliteRow) -> Result<Photo, StoreError> {
    let is_taken: Option<String> = row.try_get("taken")?;
    let facing: Option<i64> = row.try_get("facing")?;
    Ok(Photo {
        key: row.try_get("key")?,
        taken: is_taken.map(|_| moment(row, "taken")).transpose()?,
        facing: facing
            .and_then(|tenths| u16::try_from(tenths).ok())
            .map(|tenths| Facing { tenths }),
        by: row.try_get("person")?,
        received: moment(row, "received")?,
        width: u32::try_from(count(row, "width")?).unwrap_or(u32::MAX),
        height: u32::try_from(count(row, "height")?).unwrap_or(u32::MAX),
        bytes: count(row, "bytes")?,
    })
}
