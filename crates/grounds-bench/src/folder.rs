//! A folder of instances, with the best known values beside them.

use std::collections::BTreeMap;
use std::ffi::OsStr;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use grounds_schedule::Tick;

use crate::report::Published;

/// Larger files are no instances.
const MOST_BYTES: u64 = 4 << 20;

/// The files of a folder with an ending, in the order of their names, whose names (or names without
/// the ending) end with `only`.
///
/// # Errors
///
/// When the folder cannot be read.
pub fn instances(folder: &Path, ending: &str, only: &str) -> io::Result<Vec<PathBuf>> {
    let within = |e: io::Error| io::Error::new(e.kind(), format!("{}: {e}", folder.display()));
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).map_err(within)? {
        let file = entry.map_err(within)?.path();
        if fits(&file, ending, only) {
            files.push(file);
        }
    }
    files.sort();
    Ok(files)
}

/// Whether a file has an ending, in capitals or not.
#[must_use]
pub fn ends(file: &Path, ending: &str) -> bool {
    let found = file.extension();
    found.is_some_and(|found| found.eq_ignore_ascii_case(ending))
}

fn fits(file: &Path, ending: &str, only: &str) -> bool {
    let fits =
        |name: Option<&OsStr>| name.is_some_and(|name| name.to_string_lossy().ends_with(only));
    ends(file, ending) && (fits(file.file_name()) || fits(file.file_stem()))
}

/// The text of an instance.
///
/// # Errors
///
/// When the file cannot be read, is too large, or is not text.
pub fn text(file: &Path) -> io::Result<String> {
    if fs::metadata(file)?.len() > MOST_BYTES {
        let what = format!("larger than {MOST_BYTES} bytes");
        return Err(io::Error::new(io::ErrorKind::FileTooLarge, what));
    }
    fs::read_to_string(file)
}

/// What is published of the instances of a folder, by file name, from `best_known.csv`: its columns
/// `instance`, `lower_bound`, `best_makespan` and `status`, as far as they are there.
#[must_use]
pub fn published(folder: &Path) -> BTreeMap<String, Published> {
    text(&folder.join("best_known.csv"))
        .map(|text| values(&text))
        .unwrap_or_default()
}

/// The best makespans that are [`published`], by file name.
#[must_use]
pub fn best_known(folder: &Path) -> BTreeMap<String, Tick> {
    let known = published(folder).into_iter();
    known
        .filter_map(|(name, published)| Some((name, published.makespan?)))
        .collect()
}

fn values(csv: &str) -> BTreeMap<String, Published> {
    let mut lines = csv.lines();
    let heads: Vec<&str> = lines.next().unwrap_or_default().split(',').collect();
    let value = |line: &str| {
        let cells: Vec<&str> = line.split(',').collect();
        let cell = |head: &str| {
            let column = heads.iter().position(|found| found.trim() == head)?;
            cells.get(column).map(|cell| cell.trim())
        };
        let number = |head: &str| cell(head)?.parse().ok();
        let published = Published {
            bound: number("lower_bound"),
            makespan: number("best_makespan"),
            infeasible: cell("status") == Some("infeasible"),
        };
        Some((cell("instance")?.to_owned(), published))
    };
    lines.filter_map(value).collect()
}
