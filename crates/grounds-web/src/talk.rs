//! Spoken walks on pages: read anew each time they are shown, held against the log as it is, and
//! answered one by one or together.

mod answering;
mod figure;
mod taking_in;

use std::{collections::BTreeMap, sync::Arc};

use axum::extract::Path;
use grounds_site::Note;
use grounds_store::{Answer, KeptWalk, WalkAnswer};
use grounds_walk::{
    Certainty, Proposal, Vocabulary, Walk,
    file::{Entry, From, Head, Standing, entries},
    from_job,
    transcript::{self, Transcript},
};
use maud::Markup;
use tokio::task::spawn_blocking;
use uuid::Uuid;

use crate::{
    desk::Desk,
    fault::Fault,
    looking::{Looking, Lost},
    pages::{self, Tab, frame},
    picture::Picture,
    visit::Visit,
};

pub(crate) use answering::{Answered, accept_together, answer, refs};
pub(crate) use taking_in::{Filled, LONGEST_FORM, Wrong, take_in};

/// Walks that a list shows.
const LISTED: usize = 40;

/// What was said and what was read from it: the same for as long as the job's document is.
#[derive(Debug)]
pub(crate) struct Reading {
    /// What was said, cue by cue.
    pub(crate) transcript: Transcript,
    /// What the job knows.
    pub(crate) vocabulary: Vocabulary,
    /// What was read from it.
    pub(crate) walk: Walk,
}

/// A walk, read and held against the log.
#[derive(Debug)]
pub(crate) struct Talk {
    /// What is kept of it.
    pub(crate) kept: KeptWalk,
    /// What was said and read.
    pub(crate) read: Arc<Reading>,
    /// What it would be in the log.
    pub(crate) entries: Vec<Entry>,
}

/// How an entry stands with whoever answers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Status<'a> {
    /// Nobody has answered, or an answer was taken back.
    Open,
    /// Somebody has answered, and it stands.
    Answered(&'a WalkAnswer),
}

/// What is accepted together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Least {
    /// What was said firmly, however it was read.
    Firm,
    /// What was said firmly and is likely read right.
    Likely,
    /// What was said firmly and surely read.
    Sure,
}

/// From this confidence on a proposal is likely read right.
const LIKELY: u8 = 75;

/// Whether a proposal was said firmly and is likely read right.
pub(crate) fn is_likely(proposal: &Proposal) -> bool {
    proposal.certainty == Certainty::Firm && proposal.confidence >= LIKELY
}

impl Reading {
    fn of(kept: &KeptWalk, picture: &Picture) -> Result<Self, Fault> {
        let transcript = transcript::read(&kept.transcript)
            .map_err(|error| Fault::Input(format!("The walk cannot be read: {error}.")))?;
        let begun = kept.head.begun.to_zoned_datetime(picture.zone().clone());
        let vocabulary = from_job(&picture.job, begun.date());
        let walk = grounds_walk::read(&transcript, &vocabulary);
        Ok(Self {
            transcript,
            vocabulary,
            walk,
        })
    }
}

impl Talk {
    /// Reads a walk of the job that is looked at.
    pub(crate) async fn open(looking: &Looking, id: Uuid) -> Result<Self, Lost> {
        let visit = &looking.visit;
        let lost = |fault: Fault| Lost::new(fault).back_to(&visit.to("walks"));
        let store = looking.desk.store();
        let kept = store
            .walk(&visit.key, id)
            .await
            .map_err(|e| lost(e.into()))?;
        let missing = || Fault::Missing("There is no such walk in this job.".to_owned());
        let kept = kept.ok_or_else(|| lost(missing()))?;
        let picture = visit.picture.clone();
        let desk = looking.desk.clone();
        let read = spawn_blocking(move || Self::read(kept, &desk, &picture)).await;
        read.map_err(|error| lost(Fault::broke_off(error)))?
            .map_err(lost)
    }

    fn read(kept: KeptWalk, desk: &Desk, picture: &Picture) -> Result<Self, Fault> {
        let read = match desk.reading(kept.head.id) {
            Some(read) => read,
            None => {
                let read = Arc::new(Reading::of(&kept, picture)?);
                desk.keep_reading(kept.head.id, read.clone());
                read
            }
        };
        let head = head(&kept);
        let (vocabulary, walk) = (&read.vocabulary, &read.walk);
        let entries = entries(&picture.job, &picture.site, vocabulary, walk, &head);
        Ok(Self {
            kept,
            read,
            entries,
        })
    }

    /// The head that notes take their ids from.
    pub(crate) fn head(&self) -> Head {
        head(&self.kept)
    }

    /// The proposal that an entry comes from; nothing for a question.
    pub(crate) fn proposal(&self, entry: &Entry) -> Option<&Proposal> {
        match entry.from {
            From::Proposal(i) => self.read.walk.proposals.get(i),
            From::Question(_) => None,
        }
    }

    /// The entry of a tie.
    pub(crate) fn entry(&self, tie: &str) -> Option<&Entry> {
        self.entries.iter().find(|entry| entry.tie.as_str() == tie)
    }

    /// How an entry stands. An answer whose notes were all taken back in the log no longer counts.
    pub(crate) fn status<'a>(&'a self, tie: &str, picture: &Picture) -> Status<'a> {
        let last = self
            .kept
            .answers
            .iter()
            .rev()
            .find(|answer| answer.tie == tie);
        match last {
            None => Status::Open,
            Some(answer) if answer.answer == Answer::Reopened => Status::Open,
            Some(answer) if !answer.notes.is_empty() && all_taken_back(answer, &picture.notes) => {
                Status::Open
            }
            Some(answer) => Status::Answered(answer),
        }
    }

    /// How often notes came of an entry before: it marks the ids of those that come now.
    pub(crate) fn turn(&self, tie: &str) -> usize {
        let answers = self.kept.answers.iter();
        answers
            .filter(|answer| answer.tie == tie && !answer.notes.is_empty())
            .count()
    }

    /// What is accepted together: new, clear, not answered yet, and sure enough.
    pub(crate) fn together(&self, least: Least, picture: &Picture) -> Vec<&Entry> {
        let taken = |entry: &&Entry| {
            let sure = match (least, self.proposal(entry)) {
                (_, None) => false,
                (Least::Sure, Some(proposal)) => proposal.is_sure(),
                (Least::Likely, Some(proposal)) => is_likely(proposal),
                (Least::Firm, Some(proposal)) => proposal.certainty == Certainty::Firm,
            };
            sure && entry.standing == Standing::New
                && self.status(entry.tie.as_str(), picture) == Status::Open
        };
        self.entries.iter().filter(taken).collect()
    }

    /// How many entries wait for an answer: those that the log knows do not.
    pub(crate) fn waiting(&self, picture: &Picture) -> usize {
        let open = |entry: &&Entry| {
            !matches!(entry.standing, Standing::Known(_))
                && self.status(entry.tie.as_str(), picture) == Status::Open
        };
        self.entries.iter().filter(open).count()
    }

    /// Answers to what the reader of today does not propose.
    pub(crate) fn adrift(&self) -> Vec<&WalkAnswer> {
        let mut last: BTreeMap<&str, &WalkAnswer> = BTreeMap::new();
        for answer in &self.kept.answers {
            last.insert(&answer.tie, answer);
        }
        last.into_values()
            .filter(|answer| answer.answer != Answer::Reopened && self.entry(&answer.tie).is_none())
            .collect()
    }
}

fn head(kept: &KeptWalk) -> Head {
    Head {
        id: kept.head.id,
        begun: kept.head.begun,
        by: kept.head.by.clone(),
    }
}

fn all_taken_back(answer: &WalkAnswer, notes: &[Note]) -> bool {
    let is_back = |id: &Uuid| notes.iter().any(|note| note.replaces == Some(*id));
    answer.notes.iter().all(is_back)
}

/// Every walk of a job, read: the latest first.
pub(crate) async fn all(looking: &Looking) -> Result<Vec<Talk>, Lost> {
    let visit = &looking.visit;
    let lost = |fault: Fault| Lost::new(fault).back_to(&visit.to("more"));
    let kept = looking.desk.store().all_walks(&visit.key).await;
    let kept = kept.map_err(|error| lost(error.into()))?;
    let picture: Arc<Picture> = visit.picture.clone();
    let desk = looking.desk.clone();
    let read = spawn_blocking(move || {
        let latest = kept.into_iter().rev().take(LISTED);
        latest
            .filter_map(|kept| Talk::read(kept, &desk, &picture).ok())
            .collect()
    });
    read.await.map_err(|error| lost(Fault::broke_off(error)))
}

/// The page of a walk that is named in an address.
type OfWalk = Path<(String, String)>;

/// The id in an address; nobody's where it is none.
fn id_of(text: &str) -> Uuid {
    text.parse().unwrap_or(Uuid::nil())
}

/// Answers `GET /j/{job}/walks`.
pub(crate) async fn list(looking: Looking) -> Result<Markup, Lost> {
    let talks = all(&looking).await?;
    let visit = &looking.visit;
    let page = pages::walks(visit, &talks, &Filled::of(visit), None);
    Ok(frame(visit, "Walks", Some(Tab::Walk), &page))
}

/// Answers `GET /j/{job}/walks/{id}`.
pub(crate) async fn show(looking: Looking, Path((_, id)): OfWalk) -> Result<Markup, Lost> {
    let talk = Talk::open(&looking, id_of(&id)).await?;
    let visit = &looking.visit;
    Ok(frame(
        visit,
        &talk.kept.head.name,
        Some(Tab::Walk),
        &pages::spoken_walk(visit, &talk),
    ))
}

/// Answers `GET /j/{job}/walks/{id}/mend?tie=…`.
pub(crate) async fn mend(looking: Looking, Path((_, id)): OfWalk) -> Result<Markup, Lost> {
    let talk = Talk::open(&looking, id_of(&id)).await?;
    let visit = &looking.visit;
    let entry = entry_of(visit, &talk, visit.asked("tie").unwrap_or_default())?;
    let page = pages::mend(visit, &talk, entry, None);
    Ok(frame(visit, "Mend it", Some(Tab::Walk), &page))
}

/// The entry that a tie names, or that it is no longer proposed.
fn entry_of<'t>(visit: &Visit, talk: &'t Talk, tie: &str) -> Result<&'t Entry, Lost> {
    talk.entry(tie).ok_or_else(|| {
        let why = "That is not proposed any more: the walk was read anew since.".to_owned();
        Lost::new(Fault::Missing(why)).back_to(&visit.to(&format!("walks/{}", talk.kept.head.id)))
    })
}
