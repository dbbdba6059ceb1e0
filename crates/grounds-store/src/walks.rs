//! Spoken walks, kept as they were given, with what was answered to what they propose.
//!
//! A walk is read anew each time it is shown, by whatever reader there is then; what is kept is the
//! talk itself and the answers. An answer is tied to what it answers by words (its *tie*), not by a
//! number, so that a later reader that finds more or less does not misplace it.

mod answer;
mod check;

use grounds_site::Note;
use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use sqlx::{Row, SqliteConnection, sqlite::SqliteRow};
use uuid::Uuid;

use crate::{
    error::StoreError,
    key::check_key,
    notes::{self, Added},
    store::{Store, no_job},
};

pub use answer::{Answer, WalkAnswer};
pub use check::LONGEST_TRANSCRIPT;
pub(crate) use check::walk as check_walk;

/// A walk, without what was said in it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WalkHead {
    /// Its id, a UUID of version 7.
    pub id: Uuid,
    /// When it began.
    pub begun: Timestamp,
    /// Who walked.
    pub by: String,
    /// What it is called: `From the wheel room up`.
    pub name: String,
}

/// A walk with everything that is kept of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeptWalk {
    /// Whose it is, when and what it is called.
    pub head: WalkHead,
    /// What was said, character for character as it was given.
    pub transcript: String,
    /// What was answered, in the order of answering. The last answer to one tie counts.
    pub answers: Vec<WalkAnswer>,
}

/// A walk in a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WalkLine {
    /// Whose it is, when and what it is called.
    pub head: WalkHead,
    /// How long its transcript is, in bytes.
    pub bytes: usize,
    /// How many answers were given.
    pub answers: usize,
}

impl Store {
    /// Keeps a walk of a job. The same walk given again changes nothing; gives whether it is new.
    ///
    /// # Errors
    ///
    /// [`StoreError::NoJob`] if there is no such job; [`StoreError::UnfitWalk`] if it cannot be kept;
    /// [`StoreError::WalkDiffers`] if another walk bears its id.
    pub async fn keep_walk(
        &self,
        key: &str,
        head: &WalkHead,
        transcript: &str,
    ) -> Result<bool, StoreError> {
        let mut change = self.begin().await?;
        let new = keep_in(&mut change, key, head, transcript).await?;
        change.commit().await?;
        Ok(new)
    }

    /// The walks of a job, the latest first.
    ///
    /// # Errors
    ///
    /// [`StoreError::NoJob`] if there is no such job.
    pub async fn walks(&self, key: &str) -> Result<Vec<WalkLine>, StoreError> {
        check_key(key)?;
        let mut look = self.readers().begin().await?;
        job_is_here(&mut look, key).await?;
        let rows = sqlx::query(
            "SELECT head, length(CAST(transcript AS BLOB)) AS bytes, \
             (SELECT count(*) FROM walk_answers WHERE job = walks.job AND walk = walks.id) AS answers \
             FROM walks WHERE job = $1",
        )
        .bind(key)
        .fetch_all(&mut *look)
        .await?;
        look.commit().await?;
        let line = |row: &SqliteRow| -> Result<WalkLine, StoreError> {
            let size = |column: &str| -> Result<usize, StoreError> {
                Ok(usize::try_from(row.try_get::<i64, _>(column)?).unwrap_or(0))
            };
            Ok(WalkLine {
                head: head_of(row)?,
                bytes: size("bytes")?,
                answers: size("answers")?,
            })
        };
        let mut lines: Vec<WalkLine> = rows.iter().map(line).collect::<Result<_, _>>()?;
        lines.sort_by_key(|line| (std::cmp::Reverse(line.head.begun), line.head.id));
        Ok(lines)
    }

    /// The walks of a job with their talk, the earliest first.
    ///
    /// # Errors
    ///
    /// [`StoreError::NoJob`] if there is no such job.
    pub async fn all_walks(&self, key: &str) -> Result<Vec<KeptWalk>, StoreError> {
        check_key(key)?;
        let mut look = self.readers().begin().await?;
        job_is_here(&mut look, key).await?;
        let walks = all_in(&mut look, key).await?;
        look.commit().await?;
        Ok(walks)
    }

    /// A walk of a job; nothing if there is none of that id.
    ///
    /// # Errors
    ///
    /// [`StoreError::NoJob`] if there is no such job.
    pub async fn walk(&self, key: &str, id: Uuid) -> Result<Option<KeptWalk>, StoreError> {
        check_key(key)?;
        let mut look = self.readers().begin().await?;
        job_is_here(&mut look, key).await?;
        let walk = walk_in(&mut look, key, id).await?;
        look.commit().await?;
        Ok(walk)
    }

    /// Keeps answers to what a walk proposes, with the notes that come of them, all or none, and
    /// acknowledges them when they are on the disk. An answer that says what the last answer to the
    /// same tie says already changes nothing.
    ///
    /// # Errors
    ///
    /// [`StoreError::NoWalk`] if there is no such walk; otherwise as [`Store::add_notes`].
    pub async fn answer_walk(
        &self,
        key: &str,
        walk: Uuid,
        answers: &[WalkAnswer],
        notes: &[Note],
    ) -> Result<Added, StoreError> {
        let mut change = self.begin().await?;
        let kept = walk_in(&mut change, key, walk).await?;
        let kept = kept.ok_or(StoreError::NoWalk { walk })?;
        add_answers(&mut change, key, walk, kept.answers, answers).await?;
        let added = notes::add_in(&mut change, key, notes).await?;
        change.commit().await?;
        Ok(added)
    }
}

/// Keeps a walk within a change; gives whether it is new.
pub(crate) async fn keep_in(
    change: &mut SqliteConnection,
    key: &str,
    head: &WalkHead,
    transcript: &str,
) -> Result<bool, StoreError> {
    check_key(key)?;
    job_is_here(change, key).await?;
    check::walk(head, transcript)?;
    if let Some(here) = walk_in(change, key, head.id).await? {
        return if here.head == *head && here.transcript == transcript {
            Ok(false)
        } else {
            Err(StoreError::WalkDiffers { walk: head.id })
        };
    }
    sqlx::query(
        "INSERT INTO walks (job, id, head, transcript, received) VALUES ($1, $2, $3, $4, $5)",
    )
    .bind(key)
    .bind(head.id.to_string())
    .bind(written(head)?)
    .bind(transcript)
    .bind(Timestamp::now().to_string())
    .execute(change)
    .await?;
    Ok(true)
}

/// Takes in a walk with its answers, within a change.
pub(crate) async fn take_in(
    change: &mut SqliteConnection,
    key: &str,
    walk: &KeptWalk,
) -> Result<(), StoreError> {
    keep_in(change, key, &walk.head, &walk.transcript).await?;
    let here = walk_in(change, key, walk.head.id).await?;
    let here = here.map(|walk| walk.answers).unwrap_or_default();
    add_answers(change, key, walk.head.id, here, &walk.answers).await
}

/// Adds answers to those that are here, within a change.
pub(crate) async fn add_answers(
    change: &mut SqliteConnection,
    key: &str,
    walk: Uuid,
    mut here: Vec<WalkAnswer>,
    answers: &[WalkAnswer],
) -> Result<(), StoreError> {
    for answer in answers {
        check::answer(walk, answer)?;
        if !is_new(&here, answer) {
            continue;
        }
        here.push(answer.clone());
        sqlx::query("INSERT INTO walk_answers (job, walk, seq, body) VALUES ($1, $2, $3, $4)")
            .bind(key)
            .bind(walk.to_string())
            .bind(i64::try_from(here.len()).unwrap_or(i64::MAX))
            .bind(written(answer)?)
            .execute(&mut *change)
            .await?;
    }
    Ok(())
}

/// Whether an answer says what the last one to the same tie does not.
pub(crate) fn is_new(here: &[WalkAnswer], answer: &WalkAnswer) -> bool {
    let last = here.iter().rev().find(|known| known.tie == answer.tie);
    !last.is_some_and(|last| last.says_the_same(answer)) && !here.contains(answer)
}

/// All walks of a job within a look or a change, by their beginning.
pub(crate) async fn all_in(
    connection: &mut SqliteConnection,
    key: &str,
) -> Result<Vec<KeptWalk>, StoreError> {
    let rows = sqlx::query("SELECT id FROM walks WHERE job = $1")
        .bind(key)
        .fetch_all(&mut *connection)
        .await?;
    let mut walks = Vec::with_capacity(rows.len());
    for row in &rows {
        let id: String = row.try_get("id")?;
        let id = id.parse().map_err(|_| broken("a walk", &id))?;
        walks.extend(walk_in(connection, key, id).await?);
    }
    walks.sort_by_key(|walk| (walk.head.begun, walk.head.id));
    Ok(walks)
}

pub(crate) async fn walk_in(
    connection: &mut SqliteConnection,
    key: &str,
    id: Uuid,
) -> Result<Option<KeptWalk>, StoreError> {
    let row = sqlx::query("SELECT head, transcript FROM walks WHERE job = $1 AND id = $2")
        .bind(key)
        .bind(id.to_string())
        .fetch_optional(&mut *connection)
        .await?;
    let Some(row) = row else {
        return Ok(None);
    };
    let rows =
        sqlx::query("SELECT body FROM walk_answers WHERE job = $1 AND walk = $2 ORDER BY seq")
            .bind(key)
            .bind(id.to_string())
            .fetch_all(connection)
            .await?;
    let answers = rows.iter().map(|row| {
        let body: String = row.try_get("body")?;
        serde_json::from_str(&body).map_err(|error| broken("an answer", &error))
    });
    Ok(Some(KeptWalk {
        head: head_of(&row)?,
        transcript: row.try_get("transcript")?,
        answers: answers.collect::<Result<_, StoreError>>()?,
    }))
}

async fn job_is_here(connection: &mut SqliteConnection, key: &str) -> Result<(), StoreError> {
    let row = sqlx::query("SELECT 1 FROM jobs WHERE key = $1")
        .bind(key)
        .fetch_optional(connection)
        .await?;
    row.map(|_| ()).ok_or_else(|| no_job(key))
}

fn head_of(row: &SqliteRow) -> Result<WalkHead, StoreError> {
    let head: String = row.try_get("head")?;
    serde_json::from_str(&head).map_err(|error| broken("a walk", &error))
}

fn written(what: &impl Serialize) -> Result<String, StoreError> {
    serde_json::to_string(what).map_err(|error| broken("a walk", &error))
}

fn broken(what: &str, why: &impl ToString) -> StoreError {
    StoreError::Broken {
        what: format!("{what} ({})", why.to_string()),
    }
}
