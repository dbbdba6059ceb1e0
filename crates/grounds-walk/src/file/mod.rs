//! From what is proposed to notes in a job's log.
//!
//! [`entries`] says of each proposal which note it would be: about which thing, of which kind, with
//! which value, at which moment. What could be about several things asks which; what is about nothing
//! that the job has becomes a remark about its place, so that nothing is lost; what the log knows
//! already says so. Nothing is written here: [`Entry::notes`] makes the notes of whoever accepts.

mod candidates;
mod hold;
mod id;
mod kind;
mod known;
mod says;
mod value;

use grounds_model::{Job, Ref};
use grounds_site::{Kind as NoteKind, Note, Site, Value};
use jiff::{SignedDuration, Timestamp, tz::TimeZone};
use uuid::Uuid;

use crate::{
    proposals::{Moment, Proposal},
    questions::Question,
    vocabulary::Vocabulary,
    walk::Walk,
};

use candidates::NameWords;

pub use candidates::Choice;
pub use hold::Means;
pub use id::{Tie, walk_id};
pub use kind::can_be_said;
pub use says::{about, kind_words, said, time_code};

/// A walk as it is kept: when it began and who walked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Head {
    /// Its id; the ids of its notes follow from it.
    pub id: Uuid,
    /// When it began.
    pub begun: Timestamp,
    /// Who walked and talked.
    pub by: String,
}

/// What an entry stands for in the talk.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum From {
    /// The proposal of that number.
    Proposal(usize),
    /// The question of that number.
    Question(usize),
}

/// How an entry stands to the job and its log.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It is clear what it is about, and the log does not say it yet.
    New,
    /// The log says it already; how, as a sentence.
    Known(String),
    /// It may be about several things: one has to be chosen.
    Choose,
    /// The job has nothing of that name: it becomes a remark about its place.
    NotInJob,
    /// It was not understood: it becomes a remark, or somebody says what it is.
    Question,
}

/// A note that would be written.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// What ties it to its place in the talk, also when the talk is read again by a later reader.
    pub tie: Tie,
    /// The proposal or question that it comes from.
    pub from: From,
    /// What was said, word for word.
    pub sentence: String,
    /// The cue it was said in, by its number in the transcript.
    pub cue: usize,
    /// Its time in the walk, in milliseconds.
    pub at_ms: Option<u64>,
    /// When it was true.
    pub at: Timestamp,
    /// What kind of note it would be.
    pub kind: NoteKind,
    /// The figure or date that goes with it.
    pub value: Option<Value>,
    /// What it may be about, the best first; the place last.
    pub choices: Vec<Choice>,
    /// Which of the choices, where that is clear.
    pub chosen: Option<usize>,
    /// How it stands to the job and its log.
    pub standing: Standing,
    /// A test that the reading would pass.
    pub means: Option<Means>,
}

/// What somebody makes of an entry where it is not right as proposed.
#[derive(Clone, Debug, PartialEq)]
pub struct Mended {
    /// What it is about.
    pub about: Vec<Ref>,
    /// What kind of note it is.
    pub kind: NoteKind,
    /// The figure or date that goes with it.
    pub value: Option<Value>,
}

impl Entry {
    /// Whether it is clear and new, and the talk was sure and surely read: such an entry may be taken
    /// together with others like it.
    #[must_use]
    pub fn is_sure(&self, walk: &Walk) -> bool {
        self.standing == Standing::New
            && matches!(self.from, From::Proposal(i) if walk.proposals.get(i).is_some_and(Proposal::is_sure))
    }

    /// How surely the talk was read, from 0 to 100; nothing for a question.
    #[must_use]
    pub fn confidence(&self, walk: &Walk) -> u8 {
        match self.from {
            From::Proposal(i) => walk.proposals.get(i).map_or(0, |p| p.confidence),
            From::Question(_) => 0,
        }
    }

    /// What it would say as proposed; nothing where a choice has to be made first.
    #[must_use]
    pub fn as_proposed(&self) -> Option<Mended> {
        let choice = self.choices.get(self.chosen?)?;
        Some(Mended {
            about: choice.about.clone(),
            kind: self.kind,
            value: self.value.clone(),
        })
    }

    /// The notes that say it. `turn` counts what was answered about it before: the same turn gives
    /// the same ids, so that accepting twice writes nothing new. With `means` the test that the
    /// reading passes is noted as well.
    #[must_use]
    pub fn notes(
        &self,
        head: &Head,
        says: &Mended,
        turn: usize,
        means: Option<&Means>,
    ) -> Vec<Note> {
        let note = |(n, (about, kind, value)): (usize, (Ref, NoteKind, Option<Value>))| {
            let id = id::note_id(head, &self.tie, self.at, turn, n);
            let note = Note {
                value,
                walk_ms: self.at_ms,
                ..Note::new(id, self.at, head.by.clone(), about, kind)
            };
            note.with_words(self.sentence.clone()).in_walk(head.id)
        };
        let said = says
            .about
            .iter()
            .map(|about| (about.clone(), says.kind, says.value.clone()));
        let passed = means.map(|means| (Ref::from(means.hold.to_string()), NoteKind::Passed, None));
        said.chain(passed).enumerate().map(note).collect()
    }
}

/// What each proposal and question of a walk would be in the log of its job, in the order of the
/// talk. `site` is the state to compare with; the vocabulary must be the one that the talk was read
/// with.
#[must_use]
pub fn entries(
    job: &Job,
    site: &Site,
    vocabulary: &Vocabulary,
    walk: &Walk,
    head: &Head,
) -> Vec<Entry> {
    let desk = Desk::new(job, site, vocabulary, head);
    let proposals = walk.proposals.iter().enumerate();
    let questions = walk.questions.iter().enumerate();
    let mut all: Vec<Entry> = proposals
        .map(|(i, proposal)| desk.proposed(i, proposal))
        .chain(questions.map(|(i, question)| desk.asked(i, question)))
        .collect();
    all.sort_by_key(|entry| entry.cue);
    id::tell_apart(&mut all);
    known::said_before(&mut all);
    all
}

/// What an entry would say about one of its choices: of goods a day is a promise, about a place
/// everything but a reading is a remark.
#[must_use]
pub fn as_chosen(
    job: &Job,
    site: &Site,
    vocabulary: &Vocabulary,
    walk: &Walk,
    head: &Head,
    entry: &Entry,
    choice: &Choice,
) -> Mended {
    let desk = Desk::new(job, site, vocabulary, head);
    let remark = || (NoteKind::Remark, None);
    let target = choice.about.first().and_then(|about| job.resolve(about));
    let (kind, value) = match (entry.from, &target) {
        (From::Proposal(i), Some(target)) => {
            let proposal = walk.proposals.get(i);
            let said = proposal.map(|proposal| desk.kind_and_value(proposal, Some(target)));
            said.filter(|(kind, _)| can_be_said(*kind, target))
                .unwrap_or_else(remark)
        }
        _ => remark(),
    };
    Mended {
        about: choice.about.clone(),
        kind,
        value,
    }
}

/// What proposals are held against.
struct Desk<'a> {
    job: &'a Job,
    site: &'a Site,
    vocabulary: &'a Vocabulary,
    names: NameWords,
    head: &'a Head,
    zone: TimeZone,
}

impl<'a> Desk<'a> {
    fn new(job: &'a Job, site: &'a Site, vocabulary: &'a Vocabulary, head: &'a Head) -> Self {
        Self {
            job,
            site,
            vocabulary,
            names: NameWords::of_all(vocabulary),
            head,
            zone: job.time_zone().unwrap_or(TimeZone::UTC),
        }
    }

    fn proposed(&self, i: usize, proposal: &Proposal) -> Entry {
        let place = self.place(proposal.place);
        let found = self.candidates(proposal);
        let best = found.chosen.and_then(|at| found.choices.get(at));
        let about = best.and_then(|choice| choice.about.first()).cloned();
        let target = about.as_ref().and_then(|about| self.job.resolve(about));
        let (kind, value) = self.kind_and_value(proposal, target.as_ref());
        let in_job = !found.choices.is_empty();
        let standing = match (&about, in_job) {
            (Some(about), _) => match self.known(proposal, kind, value.as_ref(), about) {
                Some(how) => Standing::Known(how),
                None => Standing::New,
            },
            (None, true) => Standing::Choose,
            (None, false) => Standing::NotInJob,
        };
        let means = about
            .as_ref()
            .and_then(|about| self.means(kind, value.as_ref(), about));
        let (mut choices, mut chosen) = (found.choices, found.chosen);
        let (kind, value) = if in_job {
            (kind, value)
        } else {
            (NoteKind::Remark, None)
        };
        if !in_job {
            chosen = Some(0);
        }
        choices.push(place);
        Entry {
            tie: Tie::of_proposal(proposal),
            from: From::Proposal(i),
            sentence: proposal.sentence.clone(),
            cue: proposal.cue,
            at_ms: proposal.at_ms,
            at: self.moment(proposal.at_ms, proposal.when),
            kind,
            value,
            choices,
            chosen,
            standing,
            means,
        }
    }

    fn asked(&self, i: usize, question: &Question) -> Entry {
        Entry {
            tie: Tie::of_question(question),
            from: From::Question(i),
            sentence: question.sentence.clone(),
            cue: question.cue,
            at_ms: question.at_ms,
            at: self.moment(question.at_ms, None),
            kind: NoteKind::Remark,
            value: None,
            choices: vec![self.place(question.place)],
            chosen: Some(0),
            standing: Standing::Question,
            means: None,
        }
    }

    /// The place that was in play, or the whole job.
    fn place(&self, place: Option<usize>) -> Choice {
        let place = place.and_then(|place| self.vocabulary.places.get(place));
        let about = place.map_or(grounds_model::WHOLE_JOB, |place| place.id.as_str());
        let about = Ref::from(about);
        Choice {
            name: says::about(self.job, &about),
            about: vec![about],
        }
    }

    /// When what was said was true: at its time in the walk, or on the past day that was said.
    fn moment(&self, at_ms: Option<u64>, when: Option<Moment>) -> Timestamp {
        let after =
            SignedDuration::from_millis(at_ms.and_then(|ms| ms.try_into().ok()).unwrap_or(0));
        let at = self
            .head
            .begun
            .checked_add(after)
            .unwrap_or(self.head.begun);
        let Some(day) = when
            .and_then(|when| when.day)
            .filter(|day| *day < self.vocabulary.day)
        else {
            return at;
        };
        let time = when
            .and_then(|when| when.time)
            .unwrap_or(jiff::civil::time(12, 0, 0, 0));
        let then = self
            .zone
            .to_ambiguous_timestamp(day.to_datetime(time))
            .compatible();
        then.unwrap_or(at).min(at)
    }

    /// Whether a day lies on or after the walk's.
    fn to_come(&self, when: Option<Moment>) -> Option<grounds_model::Moment> {
        let when = when?;
        let date = when.day.filter(|day| *day >= self.vocabulary.day)?;
        Some(grounds_model::Moment {
            date,
            time: when.time,
        })
    }
}
