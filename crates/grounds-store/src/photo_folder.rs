//! Photos in a folder: the pictures as `photos/<key>.jpg`, and what is known of each, one a line,
//! in `photos.jsonl`.

use std::{
    collections::BTreeMap,
    fs, io,
    path::{Path, PathBuf},
};

use grounds_photo::{LONGEST_BYTES, Ready};
use grounds_site::Note;
use jiff::Timestamp;

use crate::{
    error::StoreError,
    folder::{Differing, aside, file_error, read_bytes, read_text, replace_file, sync_folder},
    key::check_photo,
    photos::{Photo, Size, Taken, photo_of},
    store::Store,
};

/// What is known of the photos of a folder.
pub(crate) const PHOTO_INDEX: &str = "photos.jsonl";

/// The pictures of a folder.
const PICTURES: &str = "photos";

/// How the name of a picture ends.
const ENDING: &str = ".jpg";

/// The longest index that is taken in, in bytes.
const LONGEST_INDEX: usize = 64 * 1024 * 1024;

/// The most photos that are taken in.
const MOST_PHOTOS: usize = 100_000;

/// Who is said to have sent a photo of which neither index nor notes say so.
const NOBODY: &str = "taken in from a folder";

/// What became of photos that were given out.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Given {
    pub(crate) photos: u64,
    pub(crate) is_changed: bool,
}

/// What is known of photos, one a line, by key.
pub(crate) fn index(photos: &BTreeMap<String, Photo>) -> serde_json::Result<String> {
    let mut text = String::new();
    for photo in photos.values() {
        text.push_str(&serde_json::to_string(photo)?);
        text.push('\n');
    }
    Ok(text)
}

impl Store {
    /// Puts the pictures of a folder into the photo store, and gives what is to be written down of
    /// each. Those that are here already are passed over.
    pub(crate) async fn take_in_photos(
        &self,
        job: &str,
        folder: &Path,
        notes: &[Note],
    ) -> Result<Vec<Photo>, StoreError> {
        let from = folder.to_owned();
        let (known, keys) = aside(folder, move || Ok((known(&from)?, keys(&from)?))).await?;
        let mut photos = Vec::new();
        for key in keys {
            if self.has_photo(job, &key).await? {
                continue;
            }
            let path = place(folder, &key);
            let picture = aside(folder, move || picture(&path)).await?;
            self.put_pictures(job, &key, &picture).await?;
            photos.push(said_of(&key, &picture, known.get(&key), notes));
        }
        Ok(photos)
    }

    /// Writes the pictures of photos to a folder. One that is missing from the photo store is
    /// passed over: the rest must come out all the same.
    pub(crate) async fn give_out_photos(
        &self,
        job: &str,
        keys: impl Iterator<Item = &String>,
        folder: &Path,
        differing: Differing,
    ) -> Result<Given, StoreError> {
        let mut given = Given::default();
        for key in keys {
            let Some(bytes) = self.picture(job, key, Size::Whole).await? else {
                continue;
            };
            let path = place(folder, key);
            given.photos += 1;
            given.is_changed |= aside(folder, move || write(&path, &bytes, differing)).await?;
        }
        Ok(given)
    }
}

fn place(folder: &Path, key: &str) -> PathBuf {
    folder.join(PICTURES).join(format!("{key}{ENDING}"))
}

/// What the index of a folder says, by key.
fn known(folder: &Path) -> Result<BTreeMap<String, Photo>, StoreError> {
    let path = folder.join(PHOTO_INDEX);
    let text = read_text(&path, LONGEST_INDEX)?.unwrap_or_default();
    let mut known = BTreeMap::new();
    for line in text.lines().filter(|line| !line.trim().is_empty()) {
        let photo: Photo = serde_json::from_str(line).map_err(|_| StoreError::Path {
            path: path.clone(),
            why: "has a line that says nothing of a photo",
            mend: "give the job out again, or take that line out",
        })?;
        known.insert(photo.key.clone(), photo);
    }
    Ok(known)
}

/// The keys of the pictures in a folder, sorted. Files of other names are left alone.
fn keys(folder: &Path) -> Result<Vec<String>, StoreError> {
    let pictures = folder.join(PICTURES);
    no_link(&pictures)?;
    let failed = |error| file_error("read", &pictures, error);
    let entries = match fs::read_dir(&pictures) {
        Ok(entries) => entries,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        Err(error) => return Err(failed(error)),
    };
    let mut keys = Vec::new();
    for entry in entries {
        let name = entry.map_err(failed)?.file_name();
        let key = name.to_str().and_then(|name| name.strip_suffix(ENDING));
        keys.extend(
            key.filter(|key| check_photo(key).is_ok())
                .map(str::to_owned),
        );
        if keys.len() > MOST_PHOTOS {
            return Err(StoreError::Path {
                path: pictures,
                why: "holds too many photos",
                mend: "split the job",
            });
        }
    }
    keys.sort();
    Ok(keys)
}

/// Links are not followed: pictures stay in the folder.
fn no_link(pictures: &Path) -> Result<(), StoreError> {
    match fs::symlink_metadata(pictures) {
        Ok(found) if found.is_symlink() => Err(StoreError::Path {
            path: pictures.to_owned(),
            why: "is a link",
            mend: "put the folder itself there",
        }),
        _ => Ok(()),
    }
}

/// A picture of a folder, fit to be kept.
fn picture(path: &Path) -> Result<Ready, StoreError> {
    let bytes = read_bytes(path, LONGEST_BYTES)?.unwrap_or_default();
    grounds_photo::kept(&bytes).map_err(|refused| StoreError::UnfitPhoto {
        path: path.to_owned(),
        refused,
    })
}

/// What is to be written down of a picture: what the index says, else what the notes let know.
fn said_of(key: &str, picture: &Ready, known: Option<&Photo>, notes: &[Note]) -> Photo {
    let note = notes
        .iter()
        .find(|note| note.photos.iter().any(|photo| photo == key));
    let by = known
        .map(|photo| photo.by.as_str())
        .or(note.map(|note| note.by.as_str()));
    let taken = Taken {
        at: known.and_then(|photo| photo.taken),
        facing: known.and_then(|photo| photo.facing),
        by: crate::key::shown(by.unwrap_or(NOBODY)),
    };
    let received = known.map_or_else(Timestamp::now, |photo| photo.received);
    photo_of(key, picture, &taken, received)
}

/// Writes a picture where it is missing or differs. Gives whether it had to be written.
fn write(path: &Path, bytes: &[u8], differing: Differing) -> Result<bool, StoreError> {
    match read_bytes(path, usize::MAX)? {
        Some(there) if there == bytes => return Ok(false),
        Some(_) if differing == Differing::Refuse => {
            let path = path.to_owned();
            return Err(StoreError::FolderDiffers { path });
        }
        _ => {}
    }
    let folder = path.parent().unwrap_or(path);
    no_link(folder)?;
    fs::create_dir_all(folder).map_err(|e| file_error("make", folder, e))?;
    replace_file(path, bytes).map_err(|e| file_error("write", path, e))?;
    sync_folder(folder).map_err(|e| file_error("write", folder, e))?;
    Ok(true)
}
