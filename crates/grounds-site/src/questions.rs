//! Collecting what does not add up.

use std::collections::BTreeSet;

use grounds_model::Job;
use jiff::Timestamp;

use crate::{
    house,
    note::Note,
    state::{Question, Seen, Subject},
    words::{self, Clock},
};

/// Questions as they come up, and the words to ask them in.
#[derive(Debug)]
pub(crate) struct Questions<'a> {
    pub(crate) job: &'a Job,
    pub(crate) clock: Clock,
    asked: Vec<Question>,
}

impl<'a> Questions<'a> {
    /// Nothing asked yet.
    pub(crate) fn new(job: &'a Job, at: Timestamp) -> Self {
        Self {
            job,
            clock: Clock::new(job.time_zone(), at),
            asked: Vec::new(),
        }
    }

    /// Asks something about a subject.
    pub(crate) fn ask(&mut self, about: &Subject, words: &str, seen: &[Seen]) {
        self.push(
            about.to_string(),
            words,
            seen.iter().map(|seen| seen.note).collect(),
        );
    }

    /// Asks something about a note.
    pub(crate) fn ask_of(&mut self, note: &Note, words: &str) {
        self.push(note.about.as_str().to_owned(), words, vec![note.id]);
    }

    /// Asks something that several notes raise, the first of them for what it is about.
    pub(crate) fn ask_of_all(&mut self, notes: &[&Note], words: &str) {
        let about = notes
            .first()
            .map_or("", |note| note.about.as_str())
            .to_owned();
        self.push(about, words, notes.iter().map(|note| note.id).collect());
    }

    /// What people call a subject, mid-sentence.
    pub(crate) fn name(&self, subject: &Subject) -> String {
        house::name(self.job, subject)
    }

    /// The same at the head of a sentence.
    pub(crate) fn head(&self, subject: &Subject) -> String {
        words::capital(&self.name(subject))
    }

    /// `Tue 8 June`.
    pub(crate) fn day(&self, at: Timestamp) -> String {
        self.clock.day(at)
    }

    /// Everything asked, sorted, each question once.
    pub(crate) fn all(self) -> Vec<Question> {
        let mut asked = self.asked;
        asked.sort_by(|a, b| (&a.about, &a.words, &a.notes).cmp(&(&b.about, &b.words, &b.notes)));
        asked.dedup();
        asked
    }

    fn push(&mut self, about: String, words: &str, notes: Vec<uuid::Uuid>) {
        let mut met = BTreeSet::new();
        let notes = notes.into_iter().filter(|id| met.insert(*id)).collect();
        self.asked.push(Question {
            about,
            words: words::capital(words),
            notes,
        });
    }
}
