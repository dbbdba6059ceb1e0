//! Job folders as tests use them.

#![allow(
    dead_code,
    unreachable_pub,
    clippy::unwrap_used,
    clippy::panic,
    reason = "each test file uses what it needs, and stops at the first surprise"
)]

use std::{fs, path::PathBuf};

use grounds_lines::{
    answers::{Answer, Answers},
    holdups::{Holdup, holdups},
    lines::Lines,
};
use grounds_measure::Length;
use grounds_model::Job;
use grounds_site::{Kind, Note, Site, Value, fold, read_notes};

/// A job folder with its notes.
pub struct House {
    pub job: Job,
    pub notes: Vec<Note>,
}

impl House {
    /// A case of `tests/cases`.
    pub fn case(name: &str) -> Self {
        Self::read(&format!("tests/cases/{name}"), |text| text)
    }

    /// The same with some text of its document changed.
    pub fn case_with(name: &str, changes: &[(&str, &str)]) -> Self {
        Self::read(&format!("tests/cases/{name}"), |text| {
            changes.iter().fold(text, |text, (from, to)| {
                assert!(text.contains(from), "no `{from}` in {name}");
                text.replacen(from, to, 1)
            })
        })
    }

    /// A folder beside the crates.
    pub fn example(name: &str) -> Self {
        Self::read(&format!("../../examples/{name}"), |text| text)
    }

    fn read(folder: &str, change: impl Fn(String) -> String) -> Self {
        let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(folder);
        let text = change(fs::read_to_string(folder.join("job.toml")).unwrap());
        let job = Job::from_toml(&text).unwrap_or_else(|faults| panic!("{faults}"));
        let notes = fs::read_to_string(folder.join("notes.jsonl")).unwrap_or_default();
        let (notes, faults) = read_notes("notes.jsonl", &notes);
        assert_eq!(faults, []);
        Self { job, notes }
    }

    /// The same with one more note, by Nora.
    pub fn noted(mut self, at: &str, about: &str, kind: Kind, value: Option<Value>) -> Self {
        let number = u128::try_from(self.notes.len()).unwrap() + 1;
        let id = uuid::Uuid::from_u128(0x0197_0000_0000_7000_8000_0000_0000_0000 + number);
        let mut note = Note::new(id, at.parse().unwrap(), "Nora", about, kind);
        note.value = value;
        self.notes.push(note);
        self
    }

    /// The same with a reading.
    pub fn read_off(self, at: &str, about: &str, what: &str, figure: &str) -> Self {
        let value = Value::Reading {
            what: what.to_owned(),
            figure: figure.to_owned(),
        };
        self.noted(at, about, Kind::Measured, Some(value))
    }

    /// The site on the tenth of June 2027.
    pub fn site(&self) -> Site {
        fold(
            &self.job,
            &self.notes,
            "2027-06-10T06:10:00Z".parse().unwrap(),
        )
    }

    /// Every answer.
    pub fn answers(&self) -> Answers {
        let site = self.site();
        Answers::of(&Lines::of(&self.job, &site)).unwrap()
    }

    /// The answer to one need.
    pub fn answer(&self, key: &str) -> Answer {
        let answers = self.answers();
        let keys: Vec<&str> = answers.answers.iter().map(|it| it.key.as_str()).collect();
        answers
            .get(key)
            .unwrap_or_else(|| panic!("no need {key}; there are {keys:?}"))
            .clone()
    }

    /// What is held up.
    pub fn holdups(&self) -> Vec<Holdup> {
        let site = self.site();
        let lines = Lines::of(&self.job, &site);
        let answers = Answers::of(&lines).unwrap();
        holdups(&lines, &answers)
    }
}

/// A length in millimetres.
pub fn mm(text: &str) -> f64 {
    text.parse::<Length>().unwrap().mm()
}

/// That a figure in millimetres is that length, to a hundredth of a millimetre.
#[track_caller]
pub fn assert_is(figure: f64, length: &str) {
    assert!(
        (figure - mm(length)).abs() < 0.01,
        "{figure} mm ({} in) is not {length}",
        figure / 25.4
    );
}

/// That a sentence holds all of these.
#[track_caller]
pub fn assert_says(text: &str, parts: &[&str]) {
    for part in parts {
        assert!(text.contains(part), "`{part}` is not in: {text}");
    }
}
