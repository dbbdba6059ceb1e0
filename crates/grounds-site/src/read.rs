//! Reading and writing a log: one note a line, each a JSON object.

use std::fmt;

use serde_json::Value as Json;

use crate::{
    limits::{LONGEST_LINE, MOST_NOTES},
    nearest,
    note::{Kind, Note},
    words,
};

/// The keys of a note, as they are written.
const KEYS: [&str; 12] = [
    "id", "at", "by", "about", "kind", "value", "words", "photos", "replaces", "walk", "walk_ms",
    "presumed",
];

/// The keys that every note must have.
const NEEDED: [&str; 5] = ["id", "at", "by", "about", "kind"];

/// A good note, for those that are not.
const EXAMPLE: &str = r#"{"id":"01974f0c-86a0-7000-8000-000000000001","at":"2027-06-08T14:30:00Z","by":"Ana","about":"stair-hall.walls/base","kind":"done"}"#;

/// A line of a log that could not be read as a note. The other lines stand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoteFault {
    /// The name of the file, as it was given.
    pub file: String,
    /// The line, counted from 1.
    pub line: usize,
    /// What is wrong there.
    pub what: String,
    /// How to mend it.
    pub mend: String,
}

impl fmt::Display for NoteFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{}:{}: {}; {}",
            self.file, self.line, self.what, self.mend
        )
    }
}

impl std::error::Error for NoteFault {}

/// What is wrong with one line, before it is known which.
struct Wrong {
    what: String,
    mend: String,
}

/// Reads a log, one note a line. Empty lines are passed over; a bad line is a fault and the notes
/// of all good lines are kept, in the order in which they stand.
///
/// `name` is what the file is called in the faults.
#[must_use]
pub fn read_notes(name: &str, text: &str) -> (Vec<Note>, Vec<NoteFault>) {
    let mut notes = Vec::new();
    let mut faults = Vec::new();
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    for (index, line) in text.lines().enumerate() {
        let line = line.trim();
        if line.is_empty() {
            continue;
        }
        let fault = |wrong: Wrong| NoteFault {
            file: name.to_owned(),
            line: index + 1,
            what: wrong.what,
            mend: wrong.mend,
        };
        if notes.len() == MOST_NOTES {
            faults.push(fault(Wrong {
                what: format!("the log holds more than {MOST_NOTES} notes"),
                mend: "split the job, or take out what is not of this job".to_owned(),
            }));
            break;
        }
        match read_note(line) {
            Ok(note) => notes.push(note),
            Err(wrong) => faults.push(fault(wrong)),
        }
    }
    (notes, faults)
}

/// Writes notes as a log, one a line, in the order given. It reads back to the same notes.
///
/// # Errors
///
/// None that a note can cause; those of the JSON writer are passed on.
pub fn write_notes(notes: &[Note]) -> Result<String, serde_json::Error> {
    let mut text = String::new();
    for note in notes {
        text.push_str(&serde_json::to_string(note)?);
        text.push('\n');
    }
    Ok(text)
}

fn read_note(line: &str) -> Result<Note, Wrong> {
    if line.len() > LONGEST_LINE {
        return Err(Wrong {
            what: format!("the line is longer than {LONGEST_LINE} bytes"),
            mend: "split the note, and keep photos in the photo store".to_owned(),
        });
    }
    let note: Note = serde_json::from_str(line).map_err(|error| diagnose(line, &error))?;
    note.check().map_err(|unfit| Wrong {
        what: unfit.what,
        mend: unfit.mend.to_owned(),
    })?;
    Ok(note)
}

/// Says what is wrong with a line that did not read, as precisely as can be found out.
fn diagnose(line: &str, error: &serde_json::Error) -> Wrong {
    let json: Json = match serde_json::from_str(line) {
        Ok(json) => json,
        Err(_) => {
            return Wrong {
                what: format!(
                    "not a line of JSON at column {}: {}",
                    error.column(),
                    reason(error)
                ),
                mend: format!("write one note a line, like {EXAMPLE}"),
            };
        }
    };
    let Json::Object(fields) = json else {
        return Wrong {
            what: "the line is not a note".to_owned(),
            mend: format!("write an object, like {EXAMPLE}"),
        };
    };
    if let Some(key) = fields.keys().find(|key| !KEYS.contains(&key.as_str())) {
        return unknown("key", key, &KEYS);
    }
    if let Some(key) = NEEDED.iter().find(|key| !fields.contains_key(**key)) {
        return Wrong {
            what: format!("the note has no “{key}”"),
            mend: format!("write all of {}, like {EXAMPLE}", NEEDED.join(", ")),
        };
    }
    if let Some(Json::String(kind)) = fields.get("kind") {
        let kinds = Kind::ALL.map(Kind::word);
        if !kinds.contains(&kind.as_str()) {
            return unknown("kind", kind, &kinds);
        }
    }
    let key = fields
        .iter()
        .find(|(key, value)| !reads_alone(key, value))
        .map(|(key, _)| key);
    match key {
        Some(key) => Wrong {
            what: format!("“{key}” cannot be read: {}", reason(error)),
            mend: format!("write it {}", good(key)),
        },
        None => Wrong {
            what: reason(error),
            mend: format!("write a note like {EXAMPLE}"),
        },
    }
}

/// Whether a value fits its key: the example reads with it put in.
fn reads_alone(key: &str, value: &Json) -> bool {
    let Ok(Json::Object(mut fields)) = serde_json::from_str(EXAMPLE) else {
        return true;
    };
    fields.insert(key.to_owned(), value.clone());
    serde_json::from_value::<Note>(Json::Object(fields)).is_ok()
}

/// What a good value of a key looks like.
fn good(key: &str) -> &'static str {
    match key {
        "id" | "replaces" | "walk" => "as a UUID, like \"01974f0c-86a0-7000-8000-000000000001\"",
        "at" => "as a moment with its offset, like \"2027-06-08T14:30:00Z\"",
        "by" => "as text, like \"Ana\"",
        "about" => "as text, like \"stair-hall.walls/base\"",
        "kind" => "as text, like \"done\"",
        "value" => {
            "as one of {\"share\":\"60 %\"}, {\"when\":\"2027-06-21\"}, {\"length\":\"1032 mm\"}, \
             {\"temperature\":\"18 C\"}, {\"humidity\":\"55 %\"}, \
             {\"reading\":{\"what\":\"level fell\",\"figure\":\"0 mm\"}}"
        }
        "photos" => "as a list of keys, like [\"4f1c9a.jpg\"]",
        "presumed" => "as true or false",
        "walk_ms" => "as whole milliseconds, like 61500",
        _ => "as text",
    }
}

/// A word that is not one of those there are, with the nearest.
fn unknown(what: &str, found: &str, known: &[&str]) -> Wrong {
    let near = nearest::among(found, known.iter().copied());
    let mend = match near.as_slice() {
        [] => format!("use one of {}", known.join(", ")),
        near => format!("write {}", words::either(near)),
    };
    Wrong {
        what: format!("there is no {what} “{}”", words::plain(found)),
        mend,
    }
}

/// The reader's own words, without its position and fit for one line.
fn reason(error: &serde_json::Error) -> String {
    let text = error.to_string();
    let cut = text.rfind(" at line ").unwrap_or(text.len());
    let text = text.get(..cut).unwrap_or(&text);
    let shown: String = text
        .chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .take(300)
        .collect();
    shown
}
