//! Talk about a job: read, held against its log, and kept.

use std::{
    fs,
    io::{self, Read},
    path::Path,
    time::SystemTime,
};

use grounds_site::{Kind, Note};
use grounds_store::{Answer, KeptWalk, LONGEST_TRANSCRIPT, WalkAnswer, WalkHead};
use grounds_walk::{
    Certainty, Proposal, Vocabulary, Walk,
    file::{Entry, From, Head, Standing, entries, said},
    from_job, transcript,
};
use jiff::{SignedDuration, Timestamp};

use crate::{
    arguments::Data,
    ending::Trouble,
    folder::read_text,
    opened::{Kept, Opened},
    store,
};

/// The longest name of somebody, in characters.
const LONGEST_NAME: usize = 60;

/// What was said, with what it would be in the log.
#[derive(Debug)]
pub(crate) struct Talk {
    pub(crate) head: Head,
    pub(crate) vocabulary: Vocabulary,
    pub(crate) cues: usize,
    /// How long it is, in milliseconds; nothing where it has no times.
    pub(crate) length_ms: Option<u64>,
    pub(crate) walk: Walk,
    pub(crate) entries: Vec<Entry>,
}

impl Talk {
    /// Reads talk about a job, by somebody, begun at a moment.
    pub(crate) fn read(
        opened: &Opened,
        text: &str,
        begun: Timestamp,
        by: &str,
    ) -> Result<Self, Trouble> {
        let by = a_name(by)?;
        let transcript =
            transcript::read(text).map_err(|error| Trouble::Input(error.to_string()))?;
        let vocabulary = from_job(&opened.job, opened.day(begun));
        let walk = grounds_walk::read(&transcript, &vocabulary);
        let head = Head {
            id: grounds_walk::file::walk_id(begun, &by, text),
            begun,
            by,
        };
        let length_ms = length(&transcript);
        // What was noted since is known as well.
        let until = begun.checked_add(millis(length_ms)).unwrap_or(begun);
        let site = opened.site(until.max(Timestamp::now()));
        let entries = entries(&opened.job, &site, &vocabulary, &walk, &head);
        Ok(Self {
            head,
            vocabulary,
            cues: transcript.cues.len(),
            length_ms,
            walk,
            entries,
        })
    }

    /// The proposal that an entry comes from; nothing for a question.
    pub(crate) fn proposal(&self, entry: &Entry) -> Option<&Proposal> {
        match entry.from {
            From::Proposal(i) => self.walk.proposals.get(i),
            From::Question(_) => None,
        }
    }

    /// What an entry is about, by name; its choices where one has to be made.
    pub(crate) fn about(&self, entry: &Entry) -> String {
        let names = |most: usize| -> Vec<String> {
            let choices = entry.choices.iter().take(most);
            choices.map(|choice| choice.name.clone()).collect()
        };
        match entry.chosen.and_then(|at| entry.choices.get(at)) {
            Some(choice) => choice.name.clone(),
            None => names(entry.choices.len().saturating_sub(1)).join(", or "),
        }
    }

    /// What an entry would say: `the island in the kitchen: done`.
    pub(crate) fn says(&self, entry: &Entry) -> String {
        let what = said(
            entry.kind,
            entry.value.as_ref(),
            self.vocabulary.units,
            self.vocabulary.day,
        );
        let about = self.about(entry);
        let Some(proposal) = self.proposal(entry) else {
            return format!("{about}: {what}");
        };
        let (thing, kind) = (proposal.thing.as_str(), proposal.kind.words());
        match (&entry.standing, entry.kind) {
            (Standing::NotInJob, _) => {
                format!("{thing}: {kind}. Not in the job; a remark about {about}")
            }
            (_, Kind::Remark) => format!("{about}: {kind}, as a remark"),
            _ => format!("{about}: {what}"),
        }
    }
}

/// How sure a proposal is, in words: `certain, read at 96 of 100`.
pub(crate) fn certainty_words(proposal: &Proposal) -> String {
    let said = match proposal.certainty {
        Certainty::Firm if proposal.is_sure() => "certain",
        Certainty::Firm => "said firmly",
        Certainty::Hedged => "said with a doubt",
        Certainty::Hearsay => "hearsay",
    };
    format!("{said}, read at {} of 100", proposal.confidence)
}

/// `1:05`
pub(crate) fn time_code(at_ms: Option<u64>) -> String {
    at_ms.map_or_else(String::new, grounds_walk::file::time_code)
}

/// Keeps a walk with answers and the notes that come of them; gives how many notes were new.
pub(crate) fn keep(
    opened: &Opened,
    data: &Data,
    walk: &KeptWalk,
    notes: &[Note],
) -> Result<u64, Trouble> {
    match &opened.kept {
        Kept::Store(key) => store::answer_walk(key, data, walk, notes),
        Kept::Folder(folder) => {
            let new = grounds_store::add_to_folder(folder, walk, notes);
            new.map(|new| u64::try_from(new).unwrap_or(u64::MAX))
                .map_err(|error| store::store_trouble(&error))
        }
    }
}

/// Adds notes to a job's log; gives how many were new.
pub(crate) fn write(opened: &Opened, data: &Data, notes: &[Note]) -> Result<u64, Trouble> {
    match &opened.kept {
        Kept::Store(key) => store::add_notes(key, data, notes),
        Kept::Folder(folder) => {
            let new = grounds_store::add_notes_to_folder(folder, notes);
            new.map(|new| u64::try_from(new).unwrap_or(u64::MAX))
                .map_err(|error| store::store_trouble(&error))
        }
    }
}

/// The walk that was kept with these very words, if there is one.
pub(crate) fn kept(opened: &Opened, data: &Data, text: &str) -> Result<Option<KeptWalk>, Trouble> {
    let walks = match &opened.kept {
        Kept::Store(key) => store::walks_of(key, data)?,
        Kept::Folder(folder) => {
            grounds_store::read_walks(folder).map_err(|error| store::store_trouble(&error))?
        }
    };
    Ok(walks.into_iter().find(|walk| walk.transcript == text))
}

/// An entry's answer: taken as proposed.
pub(crate) fn accepted(entry: &Entry, notes: &[Note], by: &str, at: Timestamp) -> WalkAnswer {
    WalkAnswer {
        tie: entry.tie.to_string(),
        answer: Answer::Accepted,
        notes: notes.iter().map(|note| note.id).collect(),
        sentence: entry.sentence.clone(),
        at_ms: entry.at_ms,
        at,
        by: by.to_owned(),
    }
}

/// A walk's head as it is kept.
pub(crate) fn kept_head(head: &Head, name: &str) -> WalkHead {
    WalkHead {
        id: head.id,
        begun: head.begun,
        by: head.by.clone(),
        name: name.to_owned(),
    }
}

/// Text from a file, or from standard input for `-`.
pub(crate) fn text_of(file: &Path) -> Result<String, Trouble> {
    let text = if file == Path::new("-") {
        read_input()?
    } else {
        read_text(file)?
    };
    if text.len() > LONGEST_TRANSCRIPT {
        return Err(Trouble::Input(format!(
            "that is more than 5 MB of talk ({} bytes); split it by hour",
            text.len()
        )));
    }
    Ok(text)
}

/// All of standard input, up to a sane length.
pub(crate) fn read_input() -> Result<String, Trouble> {
    let limit = u64::try_from(LONGEST_TRANSCRIPT)
        .unwrap_or(u64::MAX)
        .saturating_add(1);
    let mut text = String::new();
    io::stdin()
        .take(limit)
        .read_to_string(&mut text)
        .map_err(|error| Trouble::Input(format!("cannot read standard input as text: {error}")))?;
    Ok(text)
}

/// When a file's talk began, by the file's own time: a recording is finished when it ends.
pub(crate) fn begun_by_file(file: &Path, text: &str) -> Timestamp {
    let changed = fs::metadata(file).and_then(|found| found.modified());
    let ended = Timestamp::try_from(changed.unwrap_or_else(|_| SystemTime::now()))
        .unwrap_or_else(|_| Timestamp::now());
    let length = transcript::read(text).ok().as_ref().and_then(length);
    let begun = ended.checked_sub(millis(length)).unwrap_or(ended);
    // Whole seconds: nobody knows it better.
    Timestamp::from_second(begun.as_second()).unwrap_or(begun)
}

fn length(transcript: &transcript::Transcript) -> Option<u64> {
    let times = transcript
        .cues
        .iter()
        .filter_map(|cue| cue.until_ms.or(cue.at_ms));
    times.max()
}

fn millis(ms: Option<u64>) -> SignedDuration {
    SignedDuration::from_millis(ms.and_then(|ms| i64::try_from(ms).ok()).unwrap_or(0))
}

/// Somebody's name: one line, not too long.
fn a_name(name: &str) -> Result<String, Trouble> {
    let name = name.trim();
    let is_name = !name.is_empty()
        && name.chars().count() <= LONGEST_NAME
        && !name.chars().any(char::is_control);
    if is_name {
        return Ok(name.to_owned());
    }
    Err(Trouble::Input(format!(
        "--by has to be a name of at most {LONGEST_NAME} characters on one line, like --by Ana"
    )))
}
