//! A run over many instances: their lines as they come, then what they come to.

use std::collections::BTreeMap;
use std::fs::File;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use crate::against::{self, Comparison};
use crate::instance::Instance;
use crate::race::{Limits, Outcome, race};
use crate::report::{HEADS, Line, Published, Summary};
use crate::{ReadError, folder};

/// A format of files.
#[derive(Clone, Copy, Debug)]
pub struct Format {
    /// How its names end, without the dot.
    pub ending: &'static str,
    /// Reads it.
    pub read: fn(&str) -> Result<Instance, ReadError>,
}

/// What to run over, and where the lines go.
#[derive(Clone, Debug)]
pub struct Sweep {
    /// The instances, each with its format.
    pub files: Vec<(PathBuf, Format)>,
    /// How long to look at each, and with what.
    pub limits: Limits,
    /// The lines are written to this file too.
    pub csv: Option<PathBuf>,
    /// Lines of somebody else to compare with.
    pub against: Option<PathBuf>,
}

/// How many instances went wrong.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Wrong {
    /// Files that could not be read.
    pub unread: usize,
    /// Instances on which the search claimed what was not true.
    pub mistaken: usize,
}

impl Sweep {
    /// Searches every instance, prints its line, and at the end the sums.
    ///
    /// # Errors
    ///
    /// When lines cannot be written, or the lines of somebody else cannot be read.
    pub fn run(&self) -> io::Result<Wrong> {
        let theirs = match &self.against {
            Some(file) => against::lines(&folder::text(file).map_err(|e| at(file, &e))?),
            None => BTreeMap::new(),
        };
        let mut published = Known::default();
        let mut lines = Lines::to(self.csv.as_deref())?;
        let (mut summary, mut comparison) = (Summary::default(), Comparison::default());
        let mut wrong = Wrong::default();
        lines.put(HEADS)?;
        for (file, format) in &self.files {
            let name = file.file_name().unwrap_or_default().to_string_lossy();
            match attempt(file, *format, self.limits) {
                Ok(outcome) => {
                    let line = Line::of(&name, &outcome);
                    lines.put(&line.to_string())?;
                    let published = published.of(file, &name);
                    summary.add(&line, published);
                    if let Some(theirs) = theirs.get(&line.name) {
                        comparison.add(&line, theirs, published);
                    }
                    if outcome.refused > 0 {
                        wrong.mistaken += 1;
                        let claims = outcome.refused;
                        eprintln!(
                            "mistaken: {}: {claims} claims were not true",
                            file.display()
                        );
                    }
                }
                Err(error) => {
                    wrong.unread += 1;
                    eprintln!("error: {}: {error}", file.display());
                }
            }
        }
        let mut out = io::stdout();
        writeln!(out, "{summary}")?;
        if self.against.is_some() {
            writeln!(out, "\n{comparison}")?;
        }
        Ok(wrong)
    }
}

fn attempt(file: &Path, format: Format, limits: Limits) -> Result<Outcome, String> {
    let text = folder::text(file).map_err(|e| e.to_string())?;
    let instance = (format.read)(&text).map_err(|e| e.to_string())?;
    race(&instance, limits).map_err(|e| e.to_string())
}

/// What is published, folder by folder.
#[derive(Default)]
struct Known(BTreeMap<PathBuf, BTreeMap<String, Published>>);

impl Known {
    fn of(&mut self, file: &Path, name: &str) -> Option<&Published> {
        let folder = file.parent()?;
        let values = self
            .0
            .entry(folder.to_owned())
            .or_insert_with(|| folder::published(folder));
        values.get(name)
    }
}

/// Where the lines of the instances go.
struct Lines {
    file: Option<File>,
}

impl Lines {
    fn to(path: Option<&Path>) -> io::Result<Self> {
        let file = path.map(|path| File::create(path).map_err(|e| at(path, &e)));
        Ok(Self {
            file: file.transpose()?,
        })
    }

    fn put(&mut self, line: &str) -> io::Result<()> {
        writeln!(io::stdout(), "{line}")?;
        match &mut self.file {
            Some(file) => writeln!(file, "{line}"),
            None => Ok(()),
        }
    }
}

fn at(path: &Path, error: &io::Error) -> io::Error {
    io::Error::new(error.kind(), format!("{}: {error}", path.display()))
}
