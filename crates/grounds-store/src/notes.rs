//! Adding notes, and giving out those that came since.

use grounds_site::Note;
use jiff::Timestamp;
use sqlx::{Row, SqliteConnection, sqlite::SqliteRow};
use uuid::Uuid;

use crate::{
    error::{Conflict, StoreError},
    key::check_key,
    store::{Store, count, moment, no_job},
};

/// What became of notes that were added.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Added {
    /// How many were new and are now here.
    pub new: u64,
    /// How many were here already, or were given twice.
    pub known: u64,
    /// The number of the note received last by the job.
    pub last_seq: u64,
}

/// A note as it was received.
#[derive(Clone, Debug, PartialEq)]
pub struct Received {
    /// Its number among the notes of its job, from 1 in the order of arrival, without a gap.
    pub seq: u64,
    /// When it arrived here.
    pub received: Timestamp,
    /// The note.
    pub note: Note,
}

impl Store {
    /// Adds notes to a job, all or none, and acknowledges them when they are on the disk. Notes
    /// that are here already change nothing, so a phone may send them as often as it likes.
    ///
    /// # Errors
    ///
    /// [`StoreError::NoJob`] if there is no such job; [`StoreError::UnfitNote`] if a note cannot
    /// be kept; [`StoreError::Conflicts`] names every note that bears the id of another but says
    /// something else, and shows both. Then none of the notes were added.
    pub async fn add_notes(&self, key: &str, notes: &[Note]) -> Result<Added, StoreError> {
        let mut change = self.begin().await?;
        let added = add_in(&mut change, key, notes).await?;
        change.commit().await?;
        Ok(added)
    }

    /// The notes of a job that were received after a number, in the order of arrival; all of them
    /// after 0.
    ///
    /// # Errors
    ///
    /// [`StoreError::NoJob`] if there is no such job.
    pub async fn notes_since(&self, key: &str, seq: u64) -> Result<Vec<Received>, StoreError> {
        check_key(key)?;
        let mut look = self.readers().begin().await?;
        last_seq(&mut look, key).await?;
        let received = after(&mut look, key, seq).await?;
        look.commit().await?;
        Ok(received)
    }
}

/// Adds notes within a change.
pub(crate) async fn add_in(
    change: &mut SqliteConnection,
    key: &str,
    notes: &[Note],
) -> Result<Added, StoreError> {
    check_key(key)?;
    let bodies = bodies(notes)?;
    let before = last_seq(change, key).await?;
    let mut added = Added {
        new: 0,
        known: 0,
        last_seq: before,
    };
    let mut conflicts = Vec::new();
    let now = Timestamp::now().to_string();
    for (note, body) in notes.iter().zip(bodies) {
        match body_of(change, key, note.id).await? {
            None => {
                added.new += 1;
                added.last_seq += 1;
                insert(change, key, added.last_seq, note.id, &body, &now).await?;
            }
            Some(here) if says_the_same(&here, &body, note) => added.known += 1,
            Some(here) => conflicts.push(Conflict {
                id: note.id,
                here,
                given: body,
            }),
        }
    }
    if !conflicts.is_empty() {
        return Err(StoreError::Conflicts(conflicts));
    }
    if added.new > 0 {
        sqlx::query("UPDATE jobs SET last_seq = $1, changed = $2 WHERE key = $3")
            .bind(number(added.last_seq))
            .bind(&now)
            .bind(key)
            .execute(change)
            .await?;
    }
    Ok(added)
}

/// The notes received after a number, in the order of arrival.
pub(crate) async fn after(
    connection: &mut SqliteConnection,
    key: &str,
    seq: u64,
) -> Result<Vec<Received>, StoreError> {
    let rows = sqlx::query(
        "SELECT seq, received, body FROM notes WHERE job = $1 AND seq > $2 ORDER BY seq",
    )
    .bind(key)
    .bind(number(seq))
    .fetch_all(connection)
    .await?;
    rows.iter().map(received).collect()
}

/// The notes as they are kept, each checked.
fn bodies(notes: &[Note]) -> Result<Vec<String>, StoreError> {
    let body = |note: &Note| {
        note.check()
            .map_err(|unfit| StoreError::UnfitNote { id: note.id, unfit })?;
        serde_json::to_string(note).map_err(|error| StoreError::Broken {
            what: format!("a note ({error})"),
        })
    };
    notes.iter().map(body).collect()
}

/// The number of the note received last. A database server with several writers at once must
/// lock the row here; this one lets only one change run at a time.
async fn last_seq(connection: &mut SqliteConnection, key: &str) -> Result<u64, StoreError> {
    let row = sqlx::query("SELECT last_seq FROM jobs WHERE key = $1")
        .bind(key)
        .fetch_optional(connection)
        .await?;
    count(&row.ok_or_else(|| no_job(key))?, "last_seq")
}

async fn body_of(
    connection: &mut SqliteConnection,
    key: &str,
    id: Uuid,
) -> Result<Option<String>, StoreError> {
    let row = sqlx::query("SELECT body FROM notes WHERE job = $1 AND id = $2")
        .bind(key)
        .bind(id.to_string())
        .fetch_optional(connection)
        .await?;
    Ok(row.map(|row| row.try_get("body")).transpose()?)
}

async fn insert(
    connection: &mut SqliteConnection,
    key: &str,
    seq: u64,
    id: Uuid,
    body: &str,
    now: &str,
) -> Result<(), StoreError> {
    sqlx::query("INSERT INTO notes (job, seq, id, body, received) VALUES ($1, $2, $3, $4, $5)")
        .bind(key)
        .bind(number(seq))
        .bind(id.to_string())
        .bind(body)
        .bind(now)
        .execute(connection)
        .await?;
    Ok(())
}

/// Whether what is here says the same as what was given, however it was written then.
fn says_the_same(here: &str, given: &str, note: &Note) -> bool {
    here == given || serde_json::from_str::<Note>(here).is_ok_and(|here| here == *note)
}

fn received(row: &SqliteRow) -> Result<Received, StoreError> {
    let body: String = row.try_get("body")?;
    let note = serde_json::from_str(&body).map_err(|error| StoreError::Broken {
        what: format!("a note ({error})"),
    })?;
    Ok(Received {
        seq: count(row, "seq")?,
        received: moment(row, "received")?,
        note,
    })
}

/// A count as the database keeps it.
fn number(count: u64) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}
