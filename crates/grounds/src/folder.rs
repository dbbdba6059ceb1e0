//! A job as a folder: `job.toml`, the design, and `notes.jsonl`, the log.

use std::{
    fs, io,
    path::{Path, PathBuf},
};

use crate::ending::Trouble;

/// The design.
pub(crate) const JOB_FILE: &str = "job.toml";
/// The log.
pub(crate) const NOTES_FILE: &str = "notes.jsonl";

/// The largest file that is read, in bytes. A note is at most a few kilobytes, and a house has a
/// few thousand of them.
const LARGEST: u64 = 256 * 1024 * 1024;

/// The two texts of a job, as they stand in its folder.
#[derive(Debug)]
pub(crate) struct Folder {
    /// What the document is called in reports.
    pub(crate) job_path: PathBuf,
    /// The document.
    pub(crate) job: String,
    /// What the log is called in reports.
    pub(crate) notes_path: PathBuf,
    /// The log; empty where there is none yet.
    pub(crate) notes: String,
}

impl Folder {
    /// Reads a folder, or the folder of a job document that is named itself.
    pub(crate) fn read(path: &Path) -> Result<Self, Trouble> {
        let folder = if path.is_dir() {
            path
        } else if path.file_name().is_some_and(|name| name == JOB_FILE) {
            path.parent().unwrap_or(Path::new(""))
        } else {
            return Err(not_a_job(path));
        };
        let job_path = folder.join(JOB_FILE);
        let notes_path = folder.join(NOTES_FILE);
        if !job_path.is_file() {
            return Err(not_a_job(path));
        }
        let job = read_text(&job_path)?;
        let notes = if notes_path.exists() {
            read_text(&notes_path)?
        } else {
            String::new()
        };
        Ok(Self {
            job_path,
            job,
            notes_path,
            notes,
        })
    }
}

fn not_a_job(path: &Path) -> Trouble {
    let path = path.display();
    Trouble::Input(format!(
        "there is no job at {path}: name a folder with a {JOB_FILE} in it, or make one with \
         `grounds new {path}`"
    ))
}

/// Reads a text file of a sane size.
pub(crate) fn read_text(path: &Path) -> Result<String, Trouble> {
    let trouble = |error: io::Error| Trouble::file("read", path, &error);
    let size = fs::metadata(path).map_err(trouble)?.len();
    if size > LARGEST {
        return Err(Trouble::Input(format!(
            "{} has {size} bytes; at most {LARGEST} are read",
            path.display()
        )));
    }
    let bytes = fs::read(path).map_err(trouble)?;
    String::from_utf8(bytes).map_err(|error| {
        Trouble::Input(format!(
            "{} is not UTF-8 text: byte {} cannot be read; save it as UTF-8",
            path.display(),
            error.utf8_error().valid_up_to()
        ))
    })
}

/// Makes a folder with a job in it. A job that is there already is left as it is.
pub(crate) fn make(folder: &Path, job: &str, notes: &str) -> Result<(), Trouble> {
    for name in [JOB_FILE, NOTES_FILE] {
        if folder.join(name).exists() {
            return Err(Trouble::Input(format!(
                "{} holds a {name} already; name another folder",
                folder.display()
            )));
        }
    }
    fs::create_dir_all(folder).map_err(|error| Trouble::file("make", folder, &error))?;
    for (name, text) in [(JOB_FILE, job), (NOTES_FILE, notes)] {
        let path = folder.join(name);
        fs::write(&path, text).map_err(|error| Trouble::file("write", &path, &error))?;
    }
    Ok(())
}
