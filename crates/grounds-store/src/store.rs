//! The data folder: opening it, and the jobs in it.

use std::{
    fs, io,
    path::{Path, PathBuf},
    sync::Arc,
    time::{Duration, Instant},
};

use grounds_site::Note;
use jiff::Timestamp;
use object_store::{ObjectStore, local::LocalFileSystem};
use sqlx::{
    Row, Sqlite, SqliteConnection, SqlitePool, Transaction,
    sqlite::{
        SqliteConnectOptions, SqliteJournalMode, SqlitePoolOptions, SqliteRow, SqliteSynchronous,
    },
};
use tokio::time::sleep;

use crate::{
    error::StoreError,
    key::{check_document, check_key, name_in},
    notes, schema,
};

/// The database's file in the data folder.
const FILE: &str = "grounds.db";

/// The folder in the data folder that photos are kept in.
const PHOTOS: &str = "photos";

/// How long a change waits for another program to finish its own.
const PATIENCE: Duration = Duration::from_secs(10);

/// How long opening waits before it tries again.
const PAUSE: Duration = Duration::from_millis(20);

/// How many readers work at once.
const READERS: u32 = 4;

/// A data folder. Cheap to clone; clones share their connections.
#[derive(Clone, Debug)]
pub struct Store {
    folder: PathBuf,
    readers: SqlitePool,
    /// One connection: changes of this program wait for each other here, in the order they came.
    writer: SqlitePool,
    /// Where photos are kept.
    pictures: Arc<dyn ObjectStore>,
}

/// A job in a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JobLine {
    /// Its key.
    pub key: String,
    /// What its document calls it.
    pub name: String,
    /// How many notes it has.
    pub notes: u64,
    /// When it was first put here.
    pub created: Timestamp,
    /// When its document or its notes last changed.
    pub changed: Timestamp,
}

/// A job with everything that is kept of it, as it was at one moment.
#[derive(Clone, Debug, PartialEq)]
pub struct StoredJob {
    /// Its key.
    pub key: String,
    /// What its document calls it.
    pub name: String,
    /// Its document, character for character as it was given.
    pub document: String,
    /// Its notes, in the order in which they were received.
    pub notes: Vec<Note>,
    /// The number of the note received last; 0 before the first.
    pub last_seq: u64,
    /// When it was first put here.
    pub created: Timestamp,
    /// When its document or its notes last changed.
    pub changed: Timestamp,
}

impl Store {
    /// Opens a data folder, and makes it where it is missing.
    ///
    /// Every change is on the disk before it is acknowledged (write-ahead log, full
    /// synchronisation). The folder must be on a disk of this machine: a write-ahead log does not
    /// work over a network share.
    ///
    /// # Errors
    ///
    /// [`StoreError`] if the folder cannot be made or written to, if what is in it is no database,
    /// or if a later version of this program wrote it.
    pub async fn open(folder: &Path) -> Result<Self, StoreError> {
        make_private_folder(folder)?;
        let deadline = Instant::now() + PATIENCE;
        loop {
            // Turning on the write-ahead log does not wait for others that do the same just now.
            match Self::connect(folder).await {
                Err(StoreError::Busy) if Instant::now() < deadline => sleep(PAUSE).await,
                opened => return opened,
            }
        }
    }

    async fn connect(folder: &Path) -> Result<Self, StoreError> {
        let options = SqliteConnectOptions::new()
            .filename(folder.join(FILE))
            .create_if_missing(true)
            .journal_mode(SqliteJournalMode::Wal)
            .synchronous(SqliteSynchronous::Full)
            .foreign_keys(true)
            .busy_timeout(PATIENCE);
        let pool = |most| SqlitePoolOptions::new().max_connections(most);
        let writer = pool(1).connect_with(options.clone()).await?;
        schema::bring_up_to_date(&writer, folder).await?;
        let readers = pool(READERS).connect_with(options).await?;
        let photos = folder.join(PHOTOS);
        make_private_folder(&photos)?;
        let pictures = LocalFileSystem::new_with_prefix(photos)?.with_fsync(true);
        Ok(Self {
            folder: folder.to_owned(),
            readers,
            writer,
            pictures: Arc::new(pictures),
        })
    }

    /// The same data folder, with its photos kept somewhere else.
    #[must_use]
    pub fn with_photos_in(self, pictures: Arc<dyn ObjectStore>) -> Self {
        Self { pictures, ..self }
    }

    /// The data folder.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Closes the folder in good order. Without it nothing is lost either.
    pub async fn close(&self) {
        self.readers.close().await;
        self.writer.close().await;
    }

    /// All jobs, by key.
    ///
    /// # Errors
    ///
    /// [`StoreError`] if the database fails.
    pub async fn jobs(&self) -> Result<Vec<JobLine>, StoreError> {
        let rows =
            sqlx::query("SELECT key, name, last_seq, created, changed FROM jobs ORDER BY key")
                .fetch_all(&self.readers)
                .await?;
        rows.iter().map(job_line).collect()
    }

    /// A job with its document and notes, as they were at one moment.
    ///
    /// # Errors
    ///
    /// [`StoreError::NoJob`] if there is none of that key.
    pub async fn job(&self, key: &str) -> Result<StoredJob, StoreError> {
        check_key(key)?;
        let mut look = self.readers.begin().await?;
        let row = sqlx::query(
            "SELECT key, name, last_seq, created, changed, document FROM jobs WHERE key = $1",
        )
        .bind(key)
        .fetch_optional(&mut *look)
        .await?
        .ok_or_else(|| no_job(key))?;
        let line = job_line(&row)?;
        let document = row.try_get("document")?;
        let received = notes::after(&mut look, key, 0).await?;
        look.commit().await?;
        Ok(StoredJob {
            key: line.key,
            name: line.name,
            document,
            notes: received.into_iter().map(|received| received.note).collect(),
            last_seq: line.notes,
            created: line.created,
            changed: line.changed,
        })
    }

    /// Puts a document under a key: a new job, or the next version of one. Its notes stay. Gives
    /// the moment at which it was saved.
    ///
    /// The document is kept as it is given; whether it is a good one is not looked at.
    ///
    /// # Errors
    ///
    /// [`StoreError`] if the key is no key, the document is no text or too long, or the database
    /// fails.
    pub async fn put_job(&self, key: &str, document: &str) -> Result<Timestamp, StoreError> {
        let mut change = self.begin().await?;
        let saved = put_in(&mut change, key, document).await?;
        change.commit().await?;
        Ok(saved)
    }

    /// When the document or the notes of a job were last saved.
    ///
    /// # Errors
    ///
    /// [`StoreError::NoJob`] if there is none of that key.
    pub async fn saved_at(&self, key: &str) -> Result<Timestamp, StoreError> {
        check_key(key)?;
        let row = sqlx::query("SELECT changed FROM jobs WHERE key = $1")
            .bind(key)
            .fetch_optional(&self.readers)
            .await?;
        moment(&row.ok_or_else(|| no_job(key))?, "changed")
    }

    /// How the connections that write are set: how they synchronise (2 is full), whether references
    /// are kept, and how many milliseconds they wait for others.
    ///
    /// # Errors
    ///
    /// [`StoreError`] if the database fails.
    pub async fn settings(&self) -> Result<[(&'static str, i64); 3], StoreError> {
        let mut connection = self.writer.acquire().await?;
        let mut settings = [("synchronous", 0), ("foreign_keys", 0), ("busy_timeout", 0)];
        let asked = [
            "PRAGMA synchronous",
            "PRAGMA foreign_keys",
            "PRAGMA busy_timeout",
        ];
        for (setting, asked) in settings.iter_mut().zip(asked) {
            setting.1 = sqlx::query(asked)
                .fetch_one(&mut *connection)
                .await?
                .try_get(0)?;
        }
        Ok(settings)
    }

    /// Begins a change. It takes its turn at once, so that it never has to be tried again.
    pub(crate) async fn begin(&self) -> Result<Transaction<'static, Sqlite>, StoreError> {
        Ok(self.writer.begin_with("BEGIN IMMEDIATE").await?)
    }

    /// Where photos are kept.
    pub(crate) fn pictures(&self) -> &dyn ObjectStore {
        self.pictures.as_ref()
    }

    /// The connections for looking.
    pub(crate) fn readers(&self) -> &SqlitePool {
        &self.readers
    }
}

/// Puts a document under a key, within a change.
pub(crate) async fn put_in(
    change: &mut SqliteConnection,
    key: &str,
    document: &str,
) -> Result<Timestamp, StoreError> {
    check_key(key)?;
    check_document(document)?;
    let now = Timestamp::now();
    sqlx::query(
        "INSERT INTO jobs (key, name, document, created, changed) VALUES ($1, $2, $3, $4, $4) \
         ON CONFLICT (key) DO UPDATE SET name = $2, document = $3, changed = $4",
    )
    .bind(key)
    .bind(name_in(document, key))
    .bind(document)
    .bind(now.to_string())
    .execute(change)
    .await?;
    Ok(now)
}

/// The document of a job, within a change; nothing where there is no such job.
pub(crate) async fn document_in(
    change: &mut SqliteConnection,
    key: &str,
) -> Result<Option<String>, StoreError> {
    let row = sqlx::query("SELECT document FROM jobs WHERE key = $1")
        .bind(key)
        .fetch_optional(change)
        .await?;
    Ok(row.map(|row| row.try_get("document")).transpose()?)
}

/// Notes within a change that a job changed now.
pub(crate) async fn touch_in(change: &mut SqliteConnection, key: &str) -> Result<(), StoreError> {
    sqlx::query("UPDATE jobs SET changed = $1 WHERE key = $2")
        .bind(Timestamp::now().to_string())
        .bind(key)
        .execute(change)
        .await?;
    Ok(())
}

pub(crate) fn no_job(key: &str) -> StoreError {
    StoreError::NoJob {
        key: key.to_owned(),
    }
}

/// A moment in a column.
pub(crate) fn moment(row: &SqliteRow, column: &str) -> Result<Timestamp, StoreError> {
    let text: String = row.try_get(column)?;
    text.parse().map_err(|_| StoreError::Broken {
        what: format!("a moment `{text}`"),
    })
}

/// A count in a column.
pub(crate) fn count(row: &SqliteRow, column: &str) -> Result<u64, StoreError> {
    let number: i64 = row.try_get(column)?;
    u64::try_from(number).map_err(|_| StoreError::Broken {
        what: format!("a count `{number}`"),
    })
}

fn job_line(row: &SqliteRow) -> Result<JobLine, StoreError> {
    Ok(JobLine {
        key: row.try_get("key")?,
        name: row.try_get("name")?,
        notes: count(row, "last_seq")?,
        created: moment(row, "created")?,
        changed: moment(row, "changed")?,
    })
}

/// Makes a folder that only its owner may look into, where there is none yet.
fn make_private_folder(folder: &Path) -> Result<(), StoreError> {
    if folder.is_dir() {
        return Ok(());
    }
    let mut maker = fs::DirBuilder::new();
    maker.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut maker, 0o700);
    maker
        .create(folder)
        .map_err(|source: io::Error| StoreError::File {
            doing: "make the data folder",
            path: folder.to_owned(),
            source,
        })
}
