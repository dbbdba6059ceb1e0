//! The figures that rules ask for, as a job's document or a file of a code writes them: what each
//! key means, and what is wrong with those that mean nothing.

use std::{collections::BTreeMap, sync::OnceLock};

use grounds_model::{Faults, Figures, Found, Job, Severity, faults_at};

use crate::{
    code::Code,
    given::{GivenFault, read_value},
    input::{Origin, Spec},
    quantity::shown,
    rules::all,
};

/// Every input of every rule, by key.
#[must_use]
pub fn vocabulary() -> &'static BTreeMap<&'static str, &'static Spec> {
    static WORDS: OnceLock<BTreeMap<&'static str, &'static Spec>> = OnceLock::new();
    WORDS.get_or_init(|| {
        let inputs = all().iter().flat_map(|rule| rule.inputs);
        inputs.map(|spec| (spec.name, spec)).collect()
    })
}

/// What is wrong with the figures of a job, each with its line in the document. `name` is what the
/// faults call the file. Nothing for a document that is no job.
#[must_use]
pub fn examine(name: &str, text: &str, job: &Job) -> Faults {
    faults_at(name, text, of_job(job))
}

/// What is wrong with the figures of a job: keys that no rule knows, texts that are no value of their
/// key, limits that no code has, a code that does not come with the program.
#[must_use]
pub fn of_job(job: &Job) -> Vec<Found> {
    let mut found = Vec::new();
    for (key, place) in &job.places {
        look_at(&place.figures, &["places", key.as_str()], &mut found);
        for (face_key, face) in &place.faces {
            let path = ["places", key.as_str(), "faces", face_key.as_str()];
            look_at(&face.figures, &path, &mut found);
        }
    }
    for (key, piece) in &job.pieces {
        look_at(&piece.figures, &["pieces", key.as_str()], &mut found);
    }
    let Some(rules) = &job.rules else {
        return found;
    };
    look_at(&rules.figures, &["rules"], &mut found);
    if let Some(code) = &rules.code
        && Code::named(code.as_str()).is_none()
    {
        let known: Vec<&str> = Code::all().iter().map(|code| code.name.as_str()).collect();
        found.push(Found {
            path: vec!["rules".to_owned(), "code".to_owned()],
            in_key: false,
            what: format!("there is no code `{code}` here"),
            mend: format!("write one of {}", known.join(", ")),
            severity: Severity::Error,
        });
    }
    for (key, change) in &rules.changed {
        if let Err(fault) = limit_value(key.as_str(), change.is.as_str()) {
            let in_key = fault.in_key;
            let step = if in_key {
                Vec::new()
            } else {
                vec!["is".to_owned()]
            };
            let path = ["rules", "changed", key.as_str()].map(str::to_owned);
            found.push(fault.found(path.into_iter().chain(step).collect()));
        }
    }
    found
}

/// What is wrong with the limits of a code.
#[must_use]
pub fn of_code(code: &Code) -> Vec<GivenFault> {
    let limits = code.limits.iter().map(|(key, limit)| (key, &limit.is));
    let changes = code.changes.iter().map(|(key, change)| (key, &change.is));
    limits
        .chain(changes)
        .filter_map(|(key, is)| {
            let fault = limit_value(key, is).err()?;
            Some(GivenFault {
                key: shown(key),
                what: fault.what,
                mend: fault.mend,
            })
        })
        .collect()
}

struct Wrong {
    in_key: bool,
    what: String,
    mend: String,
}

impl Wrong {
    fn found(self, path: Vec<String>) -> Found {
        Found {
            path,
            in_key: self.in_key,
            what: self.what,
            mend: self.mend,
            severity: Severity::Error,
        }
    }
}

fn look_at(figures: &Figures, path: &[&str], found: &mut Vec<Found>) {
    for (key, figure) in figures {
        if let Err(wrong) = value(key.as_str(), figure.as_str()) {
            let steps = path.iter().copied().chain(["figures", key.as_str()]);
            found.push(wrong.found(steps.map(str::to_owned).collect()));
        }
    }
}

fn value(key: &str, text: &str) -> Result<&'static Spec, Wrong> {
    let spec = vocabulary()
        .get(key)
        .ok_or_else(|| unknown(key, vocabulary().keys().copied()))?;
    match read_value(spec, text) {
        Ok(_) => Ok(spec),
        Err(misread) => Err(Wrong {
            in_key: false,
            what: misread.what,
            mend: format!("write {}", misread.example),
        }),
    }
}

fn limit_value(key: &str, text: &str) -> Result<(), Wrong> {
    let limits = || {
        let limits = vocabulary().values();
        limits.filter(|spec| matches!(spec.origin, Origin::Limit(_)))
    };
    if !limits().any(|spec| spec.name == key) {
        return Err(unknown(key, limits().map(|spec| spec.name)));
    }
    value(key, text).map(|_| ())
}

fn unknown<'n>(key: &str, names: impl Iterator<Item = &'n str>) -> Wrong {
    Wrong {
        in_key: true,
        what: format!("no rule knows the figure `{}`", shown(key)),
        mend: match crate::nearest(key, names) {
            Some(near) => format!("did you mean `{near}`?"),
            None => "take it out, or see what each rule asks for".to_owned(),
        },
    }
}
