//! Building codes as data: what each asks, where it says so, and how far that can be trusted.

use std::{collections::BTreeMap, sync::OnceLock};

use grounds_measure::Units;
use grounds_model::Grade;
use serde::{Deserialize, Serialize};

/// The largest file of a code that is read, in bytes.
const LARGEST: usize = 256 * 1024;

/// A building code, or a set of rules of several: the limits that rules go by.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Code {
    /// Its key: `irc-2021`.
    pub name: String,
    /// What everyone calls it.
    pub title: String,
    /// Which edition, and what it is a set of.
    pub edition: String,
    /// What it is good for, and what it leaves out.
    pub about: String,
    /// The limits, by key of the input they stand for.
    pub limits: BTreeMap<String, Limit>,
    /// Limits that are changed for one job, each with its reason.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub changes: BTreeMap<String, Change>,
}

/// One limit of a code.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Limit {
    /// The figure, as text with its unit.
    pub is: String,
    /// Where the code says so.
    pub source: String,
    /// How far that can be trusted.
    pub grade: Grade,
    /// What to mind with it: exceptions, other editions.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// A limit that is changed for one job.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Change {
    /// The figure, as text with its unit.
    pub is: String,
    /// Why.
    pub why: String,
}

/// Why a file is no code.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "this is no file of a building code: {what}; begin it with name, title, edition and about, then [limits.KEY] with is, source and grade"
)]
pub struct CodeFault {
    /// What is wrong, and where.
    pub what: String,
}

/// The codes that come with the program, one file each.
const FILES: [&str; 3] = [
    include_str!("../codes/ibc-2021.toml"),
    include_str!("../codes/irc-2021.toml"),
    include_str!("../codes/metric-europe.toml"),
];

impl Code {
    /// Reads a code from its file.
    ///
    /// # Errors
    /// If it is not well formed; whether its keys and figures mean something to the rules is told by
    /// [`crate::figures::of_code`].
    pub fn read(text: &str) -> Result<Self, CodeFault> {
        if text.len() > LARGEST {
            return Err(CodeFault {
                what: format!("it has {} bytes; at most {LARGEST} are read", text.len()),
            });
        }
        toml::from_str(text).map_err(|error: toml::de::Error| CodeFault {
            what: error.to_string().trim().to_owned(),
        })
    }

    /// The codes that come with the program, by name.
    #[must_use]
    pub fn all() -> &'static [Self] {
        static CODES: OnceLock<Vec<Code>> = OnceLock::new();
        CODES.get_or_init(|| {
            FILES
                .iter()
                .filter_map(|text| Self::read(text).ok())
                .collect()
        })
    }

    /// The code of that name.
    #[must_use]
    pub fn named(name: &str) -> Option<&'static Self> {
        Self::all().iter().find(|code| code.name == name)
    }

    /// The code for jobs that name none.
    #[must_use]
    pub fn usual(units: Units) -> &'static Self {
        static NONE: OnceLock<Code> = OnceLock::new();
        let name = match units {
            Units::Metric => "metric-europe",
            Units::Imperial => "irc-2021",
        };
        Self::named(name).unwrap_or_else(|| {
            NONE.get_or_init(|| Self {
                name: "none".to_owned(),
                title: "No code".to_owned(),
                edition: String::new(),
                about: String::new(),
                limits: BTreeMap::new(),
                changes: BTreeMap::new(),
            })
        })
    }

    /// The same code with one limit changed for a job.
    #[must_use]
    pub fn changed(mut self, key: &str, is: impl Into<String>, why: impl Into<String>) -> Self {
        let change = Change {
            is: is.into(),
            why: why.into(),
        };
        self.changes.insert(key.to_owned(), change);
        self
    }

    /// The text of a limit and where it stands; nothing where the code is silent.
    pub(crate) fn limit_said(&self, key: &str) -> Option<(&str, String)> {
        if let Some(change) = self.changes.get(key) {
            return Some((&change.is, format!("changed for this job: {}", change.why)));
        }
        let limit = self.limits.get(key)?;
        let grade = grade_words(limit.grade);
        Some((&limit.is, format!("{} ({grade})", limit.source)))
    }
}

/// How far a figure can be trusted, in words.
#[must_use]
pub fn grade_words(grade: Grade) -> &'static str {
    match grade {
        Grade::Published => "published",
        Grade::Memory => "from memory",
        Grade::Practice => "common practice",
        Grade::Maker => "the maker's sheet",
    }
}
