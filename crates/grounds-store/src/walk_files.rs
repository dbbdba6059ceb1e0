//! Walks in a job's folder: `walks.jsonl`, with a line for each walk and for each answer, and the
//! transcripts in `walks/`, each as it was given.

use std::{
    collections::BTreeMap,
    fs::{self, OpenOptions},
    io::Write,
    path::Path,
};

use grounds_site::{Note, read_notes, write_notes};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::{
    error::StoreError,
    folder::{LOG, LONGEST_LOG, file_error, read_text, replace_file, sync_folder},
    walks::{self, KeptWalk, LONGEST_TRANSCRIPT, WalkAnswer, WalkHead},
};

/// The walks and answers of a folder.
const LIST: &str = "walks.jsonl";

/// Where the transcripts are.
const TRANSCRIPTS: &str = "walks";

/// A line of the list.
#[derive(Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Line {
    /// A walk, with the name of its transcript's file.
    Walk {
        #[serde(flatten)]
        head: WalkHead,
        file: String,
    },
    /// An answer to a walk.
    Answer {
        walk: Uuid,
        #[serde(flatten)]
        answer: WalkAnswer,
    },
}

/// The walks of a folder, in the order of its list; none where it has no list.
///
/// # Errors
///
/// [`StoreError::BadWalks`] with the line that cannot be used; [`StoreError::Path`] and
/// [`StoreError::File`] if a file is not there, is a link, is no text or is too long.
pub fn read_walks(folder: &Path) -> Result<Vec<KeptWalk>, StoreError> {
    let path = folder.join(LIST);
    let list = read_text(&path, LONGEST_LOG)?.unwrap_or_default();
    let mut walks: Vec<KeptWalk> = Vec::new();
    for (at, text) in list
        .lines()
        .enumerate()
        .filter(|(_, text)| !text.trim().is_empty())
    {
        let wrong = |why: String| StoreError::BadWalks {
            path: path.clone(),
            line: at + 1,
            why,
        };
        let line: Line = serde_json::from_str(text).map_err(|error| wrong(error.to_string()))?;
        match line {
            Line::Walk { head, file } => {
                if !is_plain(&file) {
                    return Err(wrong(
                        "file has to be a plain name, like walk-1.vtt".to_owned(),
                    ));
                }
                let path = folder.join(TRANSCRIPTS).join(file);
                let transcript =
                    read_text(&path, LONGEST_TRANSCRIPT)?.ok_or_else(|| StoreError::Path {
                        path,
                        why: "is not there, though walks.jsonl names it",
                        mend: "put the transcript back",
                    })?;
                walks.push(KeptWalk {
                    head,
                    transcript,
                    answers: Vec::new(),
                });
            }
            Line::Answer { walk, answer } => {
                let named = walks.iter_mut().find(|known| known.head.id == walk);
                let named =
                    named.ok_or_else(|| wrong(format!("no line before it is the walk {walk}")))?;
                named.answers.push(answer);
            }
        }
    }
    Ok(walks)
}

/// Keeps a walk in a folder, with answers to it and the notes that come of them, as the store does
/// for a job. Gives how many notes were new.
///
/// # Errors
///
/// [`StoreError::WalkDiffers`] if another walk bears its id; [`StoreError::UnfitNote`] for a note that
/// cannot be kept; [`StoreError::BadLog`] if the log cannot be read; otherwise as [`read_walks`].
pub fn add_to_folder(folder: &Path, walk: &KeptWalk, notes: &[Note]) -> Result<usize, StoreError> {
    let mut all = read_walks(folder)?;
    walks::check_walk(&walk.head, &walk.transcript)?;
    match all.iter_mut().find(|known| known.head.id == walk.head.id) {
        None => all.push(walk.clone()),
        Some(here) if here.head != walk.head || here.transcript != walk.transcript => {
            return Err(StoreError::WalkDiffers { walk: walk.head.id });
        }
        Some(here) => {
            let new: Vec<WalkAnswer> = walk
                .answers
                .iter()
                .filter(|it| walks::is_new(&here.answers, it))
                .cloned()
                .collect();
            here.answers.extend(new);
        }
    }
    // The notes come first: an answer never names a note that is not there.
    let count = add_notes_to_folder(folder, notes)?;
    make_folder(folder)?;
    for (name, text) in texts(&all)? {
        let path = folder.join(name);
        if read_text(&path, usize::MAX)?.as_ref() != Some(&text) {
            replace_file(&path, text.as_bytes()).map_err(|e| file_error("write", &path, e))?;
        }
    }
    Ok(count)
}

/// Adds notes to the log of a folder; those that are there already change nothing. Gives how many
/// were new.
///
/// # Errors
///
/// [`StoreError::UnfitNote`] for a note that cannot be kept; [`StoreError::BadLog`] if the log cannot
/// be read; [`StoreError::File`] if it cannot be written.
pub fn add_notes_to_folder(folder: &Path, notes: &[Note]) -> Result<usize, StoreError> {
    let path = folder.join(LOG);
    let log = read_text(&path, LONGEST_LOG)?.unwrap_or_default();
    let (here, faults) = read_notes(&path.to_string_lossy(), &log);
    if !faults.is_empty() {
        return Err(StoreError::BadLog(faults));
    }
    let here: BTreeMap<Uuid, &Note> = here.iter().map(|note| (note.id, note)).collect();
    let mut new = Vec::new();
    for note in notes {
        note.check()
            .map_err(|unfit| StoreError::UnfitNote { id: note.id, unfit })?;
        if !here.contains_key(&note.id) {
            new.push(note.clone());
        }
    }
    if new.is_empty() {
        return Ok(0);
    }
    let mut text = write_notes(&new).map_err(|error| StoreError::Broken {
        what: format!("a note ({error})"),
    })?;
    if !log.is_empty() && !log.ends_with('\n') {
        text.insert(0, '\n');
    }
    let write = || -> std::io::Result<()> {
        let mut file = OpenOptions::new().append(true).create(true).open(&path)?;
        file.write_all(text.as_bytes())?;
        file.sync_all()?;
        sync_folder(folder)
    };
    write().map_err(|e| file_error("write", &path, e))?;
    Ok(new.len())
}

/// The files of walks, by their names below the folder; none where there are no walks.
pub(crate) fn texts(walks: &[KeptWalk]) -> Result<Vec<(String, String)>, StoreError> {
    if walks.is_empty() {
        return Ok(Vec::new());
    }
    let mut list = String::new();
    let mut put = |line: &Line| -> Result<(), StoreError> {
        let text = serde_json::to_string(line).map_err(|error| StoreError::Broken {
            what: format!("a walk ({error})"),
        })?;
        list.push_str(&text);
        list.push('\n');
        Ok(())
    };
    let mut files = Vec::new();
    for walk in walks {
        let file = format!("{}.{}", walk.head.id, ending(&walk.transcript));
        files.push((format!("{TRANSCRIPTS}/{file}"), walk.transcript.clone()));
        let head = walk.head.clone();
        put(&Line::Walk { head, file })?;
        for answer in &walk.answers {
            put(&Line::Answer {
                walk: walk.head.id,
                answer: answer.clone(),
            })?;
        }
    }
    // The transcripts first: the list never names one that is not there.
    files.push((LIST.to_owned(), list));
    Ok(files)
}

/// Whether a file of a folder is of its walks.
pub(crate) fn is_one(name: &str) -> bool {
    name == LIST || name.starts_with(&format!("{TRANSCRIPTS}/"))
}

/// Makes the folder that transcripts are put in.
pub(crate) fn make_folder(folder: &Path) -> Result<(), StoreError> {
    let folder = folder.join(TRANSCRIPTS);
    let is_link = fs::symlink_metadata(&folder).is_ok_and(|found| found.file_type().is_symlink());
    if is_link {
        return Err(StoreError::Path {
            path: folder,
            why: "is a link",
            mend: "put the folder itself there",
        });
    }
    fs::create_dir_all(&folder).map_err(|e| file_error("make", &folder, e))
}

/// How a file of such a transcript ends, so that other programs know it.
fn ending(transcript: &str) -> &'static str {
    let text = transcript.trim_start_matches('\u{feff}');
    if text.starts_with("WEBVTT") {
        "vtt"
    } else if text.lines().take(10).any(|line| line.contains(" --> ")) {
        "srt"
    } else {
        "txt"
    }
}

/// Whether a file's name is plain: it can never lead out of the folder.
fn is_plain(name: &str) -> bool {
    let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.');
    !name.is_empty() && name.len() <= 120 && !name.starts_with('.') && name.chars().all(plain)
}
