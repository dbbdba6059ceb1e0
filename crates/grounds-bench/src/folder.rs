//! A folder of instances, with the best known values beside them.

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use grounds_schedule::Tick;

/// Larger files are no instances.
const MOST_BYTES: u64 = 4 << 20;

/// The files with an ending, in the order of their names, whose names (or names without the ending)
/// end with `only`.
///
/// # Errors
///
/// When the folder cannot be read.
pub fn instances(folder: &Path, ending: &str, only: &str) -> io::Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        let fits = path
            .extension()
            .is_some_and(|found| found.eq_ignore_ascii_case(ending));
        let ends = |name: Option<&std::ffi::OsStr>| {
            name.is_some_and(|name| name.to_string_lossy().ends_with(only))
        };
        if fits && (ends(path.file_name()) || ends(path.file_stem())) {
            files.push(path);
        }
    }
    files.sort();
    Ok(files)
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

/// The best makespans that are known, by file name, from `best_known.csv`; none without that file or
/// without the columns `instance` and `best_makespan` in it.
#[must_use]
pub fn best_known(folder: &Path) -> BTreeMap<String, Tick> {
    text(&folder.join("best_known.csv"))
        .map(|text| values(&text))
        .unwrap_or_default()
}

fn values(csv: &str) -> BTreeMap<String, Tick> {
    let mut lines = csv.lines();
    let heads: Vec<&str> = lines.next().unwrap_or_default().split(',').collect();
    let column = |name: &str| heads.iter().position(|head| head.trim() == name);
    let (Some(names), Some(values)) = (column("instance"), column("best_makespan")) else {
        return BTreeMap::new();
    };
    let value = |line: &str| {
        let cells: Vec<&str> = line.split(',').collect();
        let value = cells.get(values)?.trim().parse().ok()?;
        Some((cells.get(names)?.trim().to_owned(), value))
    };
    lines.filter_map(value).collect()
}
