//! What a schema cannot say: that things exist, that dates run forwards, that nothing goes round
//! in a circle.

mod build_ups;
mod calendars;
mod chances;
mod climate;
mod faces;
mod figures;
mod hours;
mod limits;
mod lines;
mod loops;
mod names;
mod order;
mod pieces;
mod places;
mod promises;
mod refs;
mod trades;

use std::collections::BTreeMap;

use toml::{Spanned, de::DeTable};

use crate::{
    build_up::BuildUp,
    document::{Aim, Path, place_of, written},
    faults::{Gathering, Severity},
    id::Id,
    job::Job,
};

/// Checks everything that a job says.
pub(crate) fn job(
    job: &Job,
    root: &Spanned<DeTable<'_>>,
    mended: &[Vec<String>],
    faults: &mut Gathering<'_>,
) {
    let mut notes = Notes {
        root,
        mended,
        faults,
    };
    // A document with so many faults is mended first; what follows from them would be guesswork.
    if notes.full() || !limits::check(job, &mut notes) {
        return;
    }
    names::check(job, &mut notes);
    calendars::check(job, &mut notes);
    trades::check(job, &mut notes);
    places::check(job, &mut notes);
    faces::check(job, &mut notes);
    build_ups::check_own(job, &mut notes);
    pieces::check(job, &mut notes);
    lines::check(job, &mut notes);
    promises::check(job, &mut notes);
    hours::check(job, &mut notes);
    climate::check(job, &mut notes);
    chances::check(job, &mut notes);
    figures::check(job, &mut notes);
    order::check(job, &mut notes);
}

/// Checks a file of build-ups by itself.
pub(crate) fn build_up_file(
    build_ups: &BTreeMap<Id, BuildUp>,
    root: &Spanned<DeTable<'_>>,
    mended: &[Vec<String>],
    faults: &mut Gathering<'_>,
) {
    let mut notes = Notes {
        root,
        mended,
        faults,
    };
    for (key, build_up) in build_ups {
        build_ups::check(build_up, &[key.as_str()], &mut notes);
    }
}

/// Where checks put what they find.
pub(crate) struct Notes<'n, 't> {
    root: &'n Spanned<DeTable<'n>>,
    /// Paths that were faulty and have been replaced: what follows from them is not reported.
    mended: &'n [Vec<String>],
    faults: &'n mut Gathering<'t>,
}

impl Notes<'_, '_> {
    /// An error at the value of a path.
    fn error(&mut self, path: &Path<'_>, what: impl Into<String>, mend: impl Into<String>) {
        self.add(Severity::Error, Aim::Value, path, what, mend);
    }

    /// An error at the key of a path.
    fn error_at_key(&mut self, path: &Path<'_>, what: impl Into<String>, mend: impl Into<String>) {
        self.add(Severity::Error, Aim::Key, path, what, mend);
    }

    /// Advice at the value of a path.
    fn advice(&mut self, path: &Path<'_>, what: impl Into<String>, mend: impl Into<String>) {
        self.add(Severity::Advice, Aim::Value, path, what, mend);
    }

    fn add(
        &mut self,
        severity: Severity,
        aim: Aim,
        path: &Path<'_>,
        what: impl Into<String>,
        mend: impl Into<String>,
    ) {
        if !self.follows_from_another(path) {
            let span = place_of(self.root, path, aim);
            self.faults.add(severity, span, written(path), what, mend);
        }
    }

    /// Whether the value at the path, what it lies in, or one of its own keys was replaced.
    fn follows_from_another(&self, path: &Path<'_>) -> bool {
        self.mended.iter().any(|mended| {
            let common = mended
                .iter()
                .zip(path)
                .take_while(|(a, b)| a.as_str() == **b)
                .count();
            common == mended.len() || (common == path.len() && mended.len() == path.len() + 1)
        })
    }

    /// Whether more faults would only be counted: then there is no use in looking for them.
    fn full(&self) -> bool {
        self.faults.full()
    }

    /// Whether exactly the value at a path was replaced.
    fn was_mended(&self, path: &Path<'_>) -> bool {
        self.mended
            .iter()
            .any(|mended| mended.iter().eq(path.iter().copied()))
    }

    /// Whether anything under a top-level key was replaced.
    fn any_mended(&self, top: &str) -> bool {
        self.mended
            .iter()
            .any(|path| path.first().is_some_and(|first| first == top))
    }
}

/// A path with one step more.
fn step<'p>(path: &Path<'p>, more: &[&'p str]) -> Vec<&'p str> {
    path.iter().chain(more).copied().collect()
}
