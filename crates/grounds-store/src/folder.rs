//! Taking a job in from a folder (`job.toml`, `notes.jsonl`, walks, photos), and giving it out to one.

use std::{
    collections::BTreeMap,
    fs::{self, File},
    io::{self, Read, Write},
    path::{Path, PathBuf},
};

use grounds_site::{Note, read_notes, write_notes};

use crate::{
    error::StoreError,
    key::{LONGEST_DOCUMENT, check_key},
    notes::{self, Added},
    photo_folder::{self, PHOTO_INDEX},
    photos::{self, Photo},
    store::{self, Store},
    walk_files,
    walks::{self, KeptWalk},
};

/// The job document in a folder.
const DOCUMENT: &str = "job.toml";

/// The log of notes in a folder.
pub(crate) const LOG: &str = "notes.jsonl";

/// The longest log that is taken in, in bytes.
pub(crate) const LONGEST_LOG: usize = 256 * 1024 * 1024;

/// What is done where something else is there already.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Differing {
    /// It is left as it is, and that is an error.
    Refuse,
    /// It is written over.
    Replace,
}

/// What became of a folder that was taken in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Imported {
    /// The key of the job.
    pub key: String,
    /// What became of its notes.
    pub notes: Added,
    /// How many photos were new and are now here.
    pub photos: u64,
}

/// What was given out to a folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Exported {
    /// The folder.
    pub folder: PathBuf,
    /// How many notes it holds.
    pub notes: u64,
    /// How many photos it holds.
    pub photos: u64,
    /// Whether anything had to be written.
    pub is_changed: bool,
}

/// What a folder says.
struct Files {
    document: String,
    notes: Vec<Note>,
    walks: Vec<KeptWalk>,
}

impl Store {
    /// Takes a folder in as the job that bears the folder's name. A job that is here already must
    /// have the same document; its notes and those of the folder are put together.
    ///
    /// # Errors
    ///
    /// As [`Store::import_folder_as`].
    pub async fn import_folder(&self, folder: &Path) -> Result<Imported, StoreError> {
        let whole = folder
            .canonicalize()
            .map_err(|e| file_error("read", folder, e))?;
        let key = whole
            .file_name()
            .and_then(|name| name.to_str())
            .unwrap_or_default()
            .to_owned();
        self.import_folder_as(&key, folder, Differing::Refuse).await
    }

    /// Takes a folder in as the job of a key, all of it or nothing.
    ///
    /// # Errors
    ///
    /// [`StoreError::BadKey`] for a key that is none; [`StoreError::File`] and
    /// [`StoreError::Path`] if the files are not there, are links, are not plain files or are too
    /// long; [`StoreError::UnfitPhoto`] for a photo that is none; [`StoreError::BadLog`] with every line that is no note;
    /// [`StoreError::DocumentDiffers`] if the job is here with another document, unless that is to
    /// be replaced; [`StoreError::Conflicts`] as for [`Store::add_notes`].
    pub async fn import_folder_as(
        &self,
        key: &str,
        folder: &Path,
        differing: Differing,
    ) -> Result<Imported, StoreError> {
        check_key(key)?;
        let from = folder.to_owned();
        let files = aside(folder, move || read_folder(&from)).await?;
        let photos = self.take_in_photos(key, folder, &files.notes).await?;
        let mut change = self.begin().await?;
        let here = store::document_in(&mut change, key).await?;
        if differing == Differing::Refuse && here.as_ref().is_some_and(|d| *d != files.document) {
            let (key, folder) = (key.to_owned(), folder.to_owned());
            return Err(StoreError::DocumentDiffers { key, folder });
        }
        if here.as_ref() != Some(&files.document) {
            store::put_in(&mut change, key, &files.document).await?;
        }
        let notes = notes::add_in(&mut change, key, &files.notes).await?;
        for walk in &files.walks {
            walks::take_in(&mut change, key, walk).await?;
        }
        let mut new = 0;
        for photo in &photos {
            new += u64::from(photos::record_in(&mut change, key, photo).await?);
        }
        if new > 0 {
            store::touch_in(&mut change, key).await?;
        }
        change.commit().await?;
        Ok(Imported {
            key: key.to_owned(),
            notes,
            photos: new,
        })
    }

    /// Gives a job out to a folder, which is made where it is missing: the document byte for byte,
    /// the notes in the order in which they were received, the walks, and the photos with what is
    /// known of each. Other files in the folder are left alone.
    ///
    /// # Errors
    ///
    /// [`StoreError::NoJob`] if there is no such job; [`StoreError::FolderDiffers`] if the folder
    /// holds another document or other notes, unless they are to be written over;
    /// [`StoreError::File`] and [`StoreError::Path`] if it cannot be written.
    pub async fn export_folder(
        &self,
        key: &str,
        folder: &Path,
        differing: Differing,
    ) -> Result<Exported, StoreError> {
        let job = self.job(key).await?;
        let photos = self.photos(key).await?;
        let walks = walks::all_in(&mut *self.readers().acquire().await?, key).await?;
        let mut texts = walk_files::texts(&walks)?;
        texts.extend(self::texts(&job.document, &job.notes, &photos)?);
        let to = folder.to_owned();
        let texts = aside(folder, move || differing_texts(&to, texts, differing)).await?;
        let given = self
            .give_out_photos(key, photos.keys(), folder, differing)
            .await?;
        let is_changed = given.is_changed || !texts.is_empty();
        let to = folder.to_owned();
        aside(folder, move || write_texts(&to, &texts)).await?;
        Ok(Exported {
            folder: folder.to_owned(),
            notes: job.last_seq,
            photos: given.photos,
            is_changed,
        })
    }
}

/// Runs work on files where it does not hold up others.
pub(crate) async fn aside<T: Send + 'static>(
    folder: &Path,
    work: impl FnOnce() -> Result<T, StoreError> + Send + 'static,
) -> Result<T, StoreError> {
    let done = tokio::task::spawn_blocking(work).await;
    done.map_err(|error| file_error("work on", folder, io::Error::other(error)))?
}

fn read_folder(folder: &Path) -> Result<Files, StoreError> {
    let path = folder.join(DOCUMENT);
    let document = read_text(&path, LONGEST_DOCUMENT)?.ok_or_else(|| StoreError::Path {
        path,
        why: "is not there, so the folder is no job",
        mend: "name a folder that holds a job.toml",
    })?;
    let path = folder.join(LOG);
    let log = read_text(&path, LONGEST_LOG)?.unwrap_or_default();
    let (notes, faults) = read_notes(&path.to_string_lossy(), &log);
    if !faults.is_empty() {
        return Err(StoreError::BadLog(faults));
    }
    let walks = walk_files::read_walks(folder)?;
    Ok(Files {
        document,
        notes,
        walks,
    })
}

/// A text file of a folder: its name, and what it says.
type Text = (String, String);

/// The text files of a job, in the order in which they are written: a document is never newer than
/// its log, nor a log than its photos.
fn texts(
    document: &str,
    notes: &[Note],
    photos: &BTreeMap<String, Photo>,
) -> Result<[Text; 3], StoreError> {
    let broken = |what: &str, error| StoreError::Broken {
        what: format!("{what} ({error})"),
    };
    let log = write_notes(notes).map_err(|error| broken("a note", error))?;
    let index = photo_folder::index(photos).map_err(|error| broken("a photo", error))?;
    Ok([
        (PHOTO_INDEX.to_owned(), index),
        (LOG.to_owned(), log),
        (DOCUMENT.to_owned(), document.to_owned()),
    ])
}

/// The texts that a folder does not hold yet. Makes the folder where it is missing.
fn differing_texts(
    folder: &Path,
    texts: Vec<Text>,
    differing: Differing,
) -> Result<Vec<Text>, StoreError> {
    fs::create_dir_all(folder).map_err(|e| file_error("make", folder, e))?;
    let mut to_write = Vec::new();
    for (name, text) in texts {
        let path = folder.join(&name);
        match read_bytes(&path, usize::MAX)? {
            Some(there) if there == text.as_bytes() => {}
            Some(_) if differing == Differing::Refuse => {
                return Err(StoreError::FolderDiffers { path });
            }
            // A job without notes needs no log, but an old log must not stay.
            None if name != DOCUMENT && text.is_empty() => {}
            _ => to_write.push((name, text)),
        }
    }
    Ok(to_write)
}

fn write_texts(folder: &Path, texts: &[Text]) -> Result<(), StoreError> {
    if texts.iter().any(|(name, _)| walk_files::is_one(name)) {
        walk_files::make_folder(folder)?;
    }
    for (name, text) in texts {
        let path = folder.join(name);
        replace_file(&path, text.as_bytes()).map_err(|e| file_error("write", &path, e))?;
    }
    if texts.is_empty() {
        return Ok(());
    }
    sync_folder(folder).map_err(|e| file_error("write", folder, e))
}

/// Writes a file beside its place and then moves it there, so that it is never half written.
pub(crate) fn replace_file(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut name = std::ffi::OsString::from(".");
    name.push(path.file_name().unwrap_or_default());
    name.push(format!(".{}.new", std::process::id()));
    let beside = path.with_file_name(name);
    // Left over from a program of the same number that was killed.
    match fs::remove_file(&beside) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => return Err(error),
        _ => {}
    }
    let mut file = File::create_new(&beside)?;
    file.write_all(bytes)?;
    file.sync_all()?;
    fs::rename(&beside, path)
}

/// Makes the names in a folder last through a power cut, where the system can.
pub(crate) fn sync_folder(folder: &Path) -> io::Result<()> {
    if cfg!(unix) {
        File::open(folder)?.sync_all()
    } else {
        Ok(())
    }
}

/// A text file; nothing if there is none.
pub(crate) fn read_text(path: &Path, longest: usize) -> Result<Option<String>, StoreError> {
    let Some(bytes) = read_bytes(path, longest)? else {
        return Ok(None);
    };
    String::from_utf8(bytes)
        .map(Some)
        .map_err(|_| StoreError::Path {
            path: path.to_owned(),
            why: "is not text in UTF-8",
            mend: "save it as UTF-8",
        })
}

/// The bytes of a plain file; nothing if there is none. Links are not followed: a folder from
/// somewhere else must not be able to take in, or write over, a file outside it.
pub(crate) fn read_bytes(path: &Path, longest: usize) -> Result<Option<Vec<u8>>, StoreError> {
    let wrong = |why, mend| StoreError::Path {
        path: path.to_owned(),
        why,
        mend,
    };
    let kind = match fs::symlink_metadata(path) {
        Ok(found) => found.file_type(),
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
        Err(error) => return Err(file_error("read", path, error)),
    };
    if kind.is_symlink() {
        return Err(wrong("is a link", "put the file itself there"));
    }
    if !kind.is_file() {
        return Err(wrong("is not a file", "put a plain file there"));
    }
    let file = File::open(path).map_err(|e| file_error("read", path, e))?;
    let limit = u64::try_from(longest).unwrap_or(u64::MAX).saturating_add(1);
    let mut bytes = Vec::new();
    file.take(limit)
        .read_to_end(&mut bytes)
        .map_err(|e| file_error("read", path, e))?;
    if bytes.len() > longest {
        return Err(wrong("is too long", "see that it is the right file"));
    }
    Ok(Some(bytes))
}

pub(crate) fn file_error(doing: &'static str, path: &Path, source: io::Error) -> StoreError {
    StoreError::File {
        doing,
        path: path.to_owned(),
        source,
    }
}
