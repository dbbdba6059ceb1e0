//! What can go wrong, in words, with the mend.

use std::{fmt, io, path::PathBuf};

use grounds_site::{NoteFault, Unfit};
use uuid::Uuid;

use crate::key::LONGEST_KEY;

/// Why something could not be stored, read, taken in or given out. Nothing was changed.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum StoreError {
    /// A job key that is no key.
    #[error(
        "`{shown}` is no key for a job; write 1 to {LONGEST_KEY} lower-case letters, digits and single \
         hyphens, like alder-sluice"
    )]
    BadKey {
        /// The key as given, fit to print.
        shown: String,
    },
    /// A photo's key that is no key.
    #[error(
        "`{shown}` is no key for a photo; it is the SHA-256 of the photo's bytes in 64 lower-case \
         hexadecimal digits"
    )]
    BadPhotoKey {
        /// The key as given, fit to print.
        shown: String,
    },
    /// A file that is no photo.
    #[error("{path} cannot be taken in: {refused}")]
    UnfitPhoto {
        /// Which.
        path: PathBuf,
        /// What is wrong with it, and the mend.
        refused: grounds_photo::Refused,
    },
    /// The photo store failed.
    #[error(
        "the photo store failed: {0}; see that the disk is not full and that the folder can be \
         written to"
    )]
    Photos(#[from] object_store::Error),
    /// There is no such job.
    #[error(
        "there is no job `{key}` in this data folder; take one in with import, or mend the key"
    )]
    NoJob {
        /// The key.
        key: String,
    },
    /// A document that no database can keep as text.
    #[error("the job document {why}; {mend}")]
    BadDocument {
        /// What is wrong.
        why: &'static str,
        /// How to mend it.
        mend: &'static str,
    },
    /// A note that cannot be kept.
    #[error("the note {id} cannot be kept: {unfit}")]
    UnfitNote {
        /// The note.
        id: Uuid,
        /// What is wrong with it, and the mend.
        unfit: Unfit,
    },
    /// Notes that bear the id of a note already here but say something else.
    #[error(
        "{}; a note is never changed: give the new one an id of its own and let it replace the other",
        Listed(.0)
    )]
    Conflicts(Vec<Conflict>),
    /// There is no such walk.
    #[error("there is no walk {walk} in this job; take it in first")]
    NoWalk {
        /// The walk.
        walk: Uuid,
    },
    /// A walk that cannot be kept.
    #[error("the walk {walk} {why}; {mend}")]
    UnfitWalk {
        /// The walk.
        walk: Uuid,
        /// What is wrong with it.
        why: &'static str,
        /// How to mend it.
        mend: &'static str,
    },
    /// A walk that bears the id of another.
    #[error("the walk {walk} is here already and says something else; a walk is never changed")]
    WalkDiffers {
        /// The id of both.
        walk: Uuid,
    },
    /// A list of walks with lines that are none.
    #[error("{path}, line {line}: {why}")]
    BadWalks {
        /// Which file.
        path: PathBuf,
        /// The line, counted from 1.
        line: usize,
        /// What is wrong there.
        why: String,
    },
    /// The database was written by a later version of this program.
    #[error(
        "the data folder {folder} was written by a later version (its tables are of version {found}, this \
         program knows {known}); run that version"
    )]
    Newer {
        /// The data folder.
        folder: PathBuf,
        /// The version found.
        found: i64,
        /// The latest version known here.
        known: i64,
    },
    /// Somebody else held the database for too long.
    #[error(
        "the data folder is in use by another program that did not let go of it in time; close that program, \
         or try again"
    )]
    Busy,
    /// The database failed.
    #[error(
        "the database in the data folder failed: {0}; see that the disk is not full and that the folder can be \
         written to"
    )]
    Database(#[source] sqlx::Error),
    /// Something in the database is not what was written there.
    #[error("the database holds {what} that cannot be read; put back a copy of the data folder")]
    Broken {
        /// What.
        what: String,
    },
    /// A file or folder could not be read or written.
    #[error("cannot {doing} {path}: {source}; see that it is there and that you may")]
    File {
        /// `read`, `write`, `make` …
        doing: &'static str,
        /// Which.
        path: PathBuf,
        /// What the system says.
        source: io::Error,
    },
    /// A path that is not what it should be.
    #[error("{path} {why}; {mend}")]
    Path {
        /// Which.
        path: PathBuf,
        /// What is wrong with it.
        why: &'static str,
        /// How to mend it.
        mend: &'static str,
    },
    /// A log with lines that are no notes.
    #[error("{}", Lines(.0))]
    BadLog(Vec<NoteFault>),
    /// The job is here already, with another document.
    #[error(
        "the job `{key}` is here already and its document is not the one in {folder}; take it in under another \
         key, or say that it replaces the document here"
    )]
    DocumentDiffers {
        /// The key.
        key: String,
        /// The folder that was to be taken in.
        folder: PathBuf,
    },
    /// The folder to write to holds something else.
    #[error(
        "{path} is there already and is not the same; give out to another folder, or say that it is to be \
         written over"
    )]
    FolderDiffers {
        /// The file that differs.
        path: PathBuf,
    },
}

impl From<sqlx::Error> for StoreError {
    fn from(error: sqlx::Error) -> Self {
        // SQLITE_BUSY and its extended codes, which keep it in their low byte.
        const BUSY: u32 = 5;
        let code = error.as_database_error().and_then(|error| error.code());
        let is_busy = code
            .and_then(|code| code.parse::<u32>().ok())
            .is_some_and(|c| c & 0xff == BUSY);
        if is_busy || matches!(error, sqlx::Error::PoolTimedOut) {
            Self::Busy
        } else {
            Self::Database(error)
        }
    }
}

/// A note that bears the id of another but says something else.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Conflict {
    /// The id of both.
    pub id: Uuid,
    /// The note that is here, as JSON.
    pub here: String,
    /// The note that was given, as JSON.
    pub given: String,
}

/// Conflicts in one sentence.
struct Listed<'a>(&'a [Conflict]);

impl fmt::Display for Listed<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            [one] => write!(
                f,
                "the note {} is here already and says something else",
                one.id
            ),
            [first, rest @ ..] => write!(
                f,
                "the note {} and {} more are here already and say something else",
                first.id,
                rest.len()
            ),
            [] => f.write_str("some notes are here already and say something else"),
        }
    }
}

/// Faults of a log, one a line, the first of them.
struct Lines<'a>(&'a [NoteFault]);

impl fmt::Display for Lines<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        const SHOWN: usize = 20;
        write!(f, "the log has {} lines that cannot be read:", self.0.len())?;
        for fault in self.0.iter().take(SHOWN) {
            write!(f, "\n{fault}")?;
        }
        if self.0.len() > SHOWN {
            write!(f, "\nand {} more", self.0.len() - SHOWN)?;
        }
        Ok(())
    }
}
