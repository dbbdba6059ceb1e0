//! Reading and writing the job document.

use std::str::FromStr;

use serde::Deserialize;
use toml::{
    Spanned,
    de::{DeTable, DeValue},
};

use crate::{
    checks,
    document::{Aim, parse, place_of, written},
    faults::{Faults, Found, Gathering, Severity},
    job::{FORMAT, Job},
    schema::job_schema,
    walk::Walk,
};

/// Reads a job document. `name` is what faults call the file.
///
/// # Errors
/// Everything that is wrong with the document, each fault with its place and its mend. Advice
/// alone is no error; [`examine`] gives it as well.
pub fn read(name: &str, text: &str) -> Result<Job, Faults> {
    match examine(name, text) {
        (Some(job), _) => Ok(job),
        (None, faults) => Err(faults),
    }
}

/// Reads a job document and gives advice beside the errors. There is a job if and only if there is
/// no error.
#[must_use]
pub fn examine(name: &str, text: &str) -> (Option<Job>, Faults) {
    let mut faults = Gathering::new(name, text);
    let job = examine_into(text, &mut faults);
    let faults = faults.finish();
    (job.filter(|_| !faults.has_errors()), faults)
}

/// Tells where in a document each of some faults stands that were found in what it says. `name` is
/// what the faults call the file, `text` the document.
#[must_use]
pub fn faults_at(name: &str, text: &str, found: Vec<Found>) -> Faults {
    let mut faults = Gathering::new(name, text);
    if let Some(root) = parse(text, &mut faults) {
        for fault in found {
            let path: Vec<&str> = fault.path.iter().map(String::as_str).collect();
            let aim = if fault.in_key { Aim::Key } else { Aim::Value };
            let span = place_of(&root, &path, aim);
            faults.add(fault.severity, span, written(&path), fault.what, fault.mend);
        }
    }
    faults.finish()
}

fn examine_into(text: &str, faults: &mut Gathering<'_>) -> Option<Job> {
    let mut root = parse(text, faults)?;
    if !known_format(&root, faults) {
        return None;
    }
    let mut walk = Walk::new(job_schema(), faults);
    walk.document(&mut root);
    let mended = std::mem::take(&mut walk.mended);
    match Job::deserialize(toml::Deserializer::from(root.clone())) {
        Ok(job) => {
            checks::job(&job, &root, &mended, faults);
            Some(job)
        }
        Err(error) => {
            note_unread(&error, faults);
            None
        }
    }
}

/// A document of a later format is not looked at further: its other faults would mean nothing.
fn known_format(root: &Spanned<DeTable<'_>>, faults: &mut Gathering<'_>) -> bool {
    let Some(node) = root.get_ref().get("format") else {
        return true;
    };
    let DeValue::Integer(number) = node.get_ref() else {
        return true;
    };
    let version = i64::from_str_radix(&number.as_str().replace('_', ""), number.radix());
    let (what, mend) = match version {
        Ok(version) if version == i64::from(FORMAT) => return true,
        Ok(version) if version > i64::from(FORMAT) => (
            format!(
                "this file is written for a newer Grounds: its format is {version}, known is {FORMAT}"
            ),
            "use a newer Grounds to read it".to_owned(),
        ),
        _ => (
            "there is no such format".to_owned(),
            format!("write format = {FORMAT}"),
        ),
    };
    faults.add(
        Severity::Error,
        node.span(),
        "format".to_owned(),
        what,
        mend,
    );
    false
}

/// Notes what serde still refused after the walk: a sign that schema and types disagree.
pub(crate) fn note_unread(error: &toml::de::Error, faults: &mut Gathering<'_>) {
    let span = error.span().unwrap_or(0..0);
    faults.add(Severity::Error, span, String::new(), error.message(), "");
}

impl Job {
    /// Reads a job document; faults call it `job.toml`.
    ///
    /// # Errors
    /// As for [`read`].
    pub fn from_toml(text: &str) -> Result<Self, Faults> {
        read("job.toml", text)
    }

    /// Writes the job as a document that reads back to the same job.
    ///
    /// # Errors
    /// None that a job read from a document can cause.
    pub fn to_toml(&self) -> Result<String, toml::ser::Error> {
        toml::to_string(self)
    }
}

impl FromStr for Job {
    type Err = Faults;

    fn from_str(text: &str) -> Result<Self, Faults> {
        Self::from_toml(text)
    }
}
