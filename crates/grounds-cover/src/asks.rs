//! What is asked of a thing before it is hidden, by whom, from whom, and whether it is there.

use grounds_model::{Hold, HoldKind, Id, Job};
use grounds_schedule::Tick;
use grounds_site::{Kind, Note};
use grounds_walk::content_stems;

use crate::{evidence::Said, kinds::HiddenKind};

/// How the words of a note begin that says where a photo is kept which is not among those of the job.
pub const KEPT_ELSEWHERE: &str = "photo kept elsewhere:";

/// What kind of thing is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Wanted {
    /// That a test or an inspection passed.
    Pass,
    /// A photo.
    Photo,
    /// A reading.
    Reading,
    /// A sheet, a certificate, a log.
    Paper,
    /// That somebody looked and says so.
    Look,
}

/// Who asks for it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum AskedBy {
    /// A hold of the job.
    Hold(Id),
    /// The layer or the piece itself, in the job.
    Job,
    /// Nobody in particular: it is common practice.
    Practice,
}

impl AskedBy {
    /// Whether the job asks for it, and not common practice alone.
    #[must_use]
    pub fn is_the_job(&self) -> bool {
        *self != Self::Practice
    }
}

/// Who must give it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Giver {
    /// The site lead.
    SiteLead,
    /// A trade of the job.
    Trade(Id),
    /// An inspector or another authority; nobody in particular where the job names none.
    Inspector(Option<Id>),
}

/// That something asked for is there.
#[derive(Clone, Debug, PartialEq)]
pub struct Met {
    /// Who says so, and when.
    pub said: Said,
    /// It came only after the thing was covered.
    pub late: bool,
}

/// Something that is asked for before a thing is hidden.
#[derive(Clone, Debug, PartialEq)]
pub struct Ask {
    /// What kind of thing is wanted.
    pub wanted: Wanted,
    /// What is wanted, as the job words it: `Gauge at start and end`, `Photo`.
    pub what: String,
    /// Who asks.
    pub asked_by: AskedBy,
    /// Who must give it.
    pub from: Giver,
    /// By when: the planned start of what covers, or the last moment at which it can still be booked.
    pub by: Tick,
    /// That it is there.
    pub met: Option<Met>,
}

/// What a text of `evidence` wants, by its words.
pub(crate) fn wanted_by(text: &str) -> Wanted {
    const PHOTO: [&str; 2] = ["photo", "picture"];
    const PAPER: [&str; 9] = [
        "sheet",
        "certificate",
        "paper",
        "report",
        "drawing",
        "letter",
        "log",
        "record",
        "invoice",
    ];
    const READING: [&str; 15] = [
        "reading",
        "gauge",
        "level",
        "mark",
        "torque",
        "plumb",
        "moisture",
        "measure",
        "pressure",
        "depth",
        "temperature",
        "hygrometer",
        "humidity",
        "figure",
        "test",
    ];
    let text = text.to_lowercase();
    let says = |parts: &[&str]| parts.iter().any(|part| text.contains(part));
    if says(&PHOTO) {
        Wanted::Photo
    } else if says(&PAPER) {
        Wanted::Paper
    } else if says(&READING) {
        Wanted::Reading
    } else {
        Wanted::Look
    }
}

/// Who gives what a hold wants: the inspector or the trade that does it, else the site lead.
pub(crate) fn giver_of(job: &Job, hold: &Hold) -> Giver {
    let by = hold.by.clone();
    let is_authority = |id: &Id| job.trades.get(id).is_some_and(|trade| trade.authority);
    match (hold.kind, by) {
        (HoldKind::Authority, by) => Giver::Inspector(by),
        (_, Some(by)) if is_authority(&by) => Giver::Inspector(Some(by)),
        (HoldKind::OwnCheck, _) | (_, None) => Giver::SiteLead,
        (HoldKind::Test, Some(by)) => Giver::Trade(by),
    }
}

/// The texts that a thing is asked for, and who asks: its own, or what is usual for its kind.
pub(crate) fn texts(own: Option<&Vec<String>>, kind: HiddenKind) -> (AskedBy, Vec<String>) {
    match own {
        Some(texts) => (AskedBy::Job, texts.clone()),
        None if kind.wants_photo() => (AskedBy::Practice, vec!["Photo".to_owned()]),
        None => (AskedBy::Practice, Vec::new()),
    }
}

/// The first note that gives what is asked, of notes in order of time.
///
/// A note that shares a word with one of several asks of a kind is taken for that one alone.
pub(crate) fn answered<'n>(
    wanted: Wanted,
    what: &str,
    others: &[String],
    notes: &[&'n Note],
) -> Option<&'n Note> {
    let mine = content_stems(what);
    let theirs: Vec<Vec<String>> = others.iter().map(|other| content_stems(other)).collect();
    let shared = |words: &[String], of: &[String]| of.iter().filter(|w| words.contains(w)).count();
    let is_for_it = |note: &&&Note| {
        let words = content_stems(&words_of(note));
        let best = theirs.iter().map(|of| shared(&words, of)).max();
        shared(&words, &mine) >= best.unwrap_or(0)
    };
    let gives = |note: &&&Note| match wanted {
        Wanted::Photo => !note.photos.is_empty() || is_kept_elsewhere(note),
        Wanted::Reading => {
            note.value.as_ref().is_some_and(crate::evidence::is_reading) || has_figure(note)
        }
        // A paper is a photo of it, or words that name it.
        Wanted::Paper => {
            let named = shared(&content_stems(&words_of(note)), &mine) > 0;
            named && is_statement(note.kind)
        }
        Wanted::Look => {
            let named = shared(&content_stems(&words_of(note)), &mine) > 0;
            note.kind == Kind::Passed || named && is_statement(note.kind)
        }
        Wanted::Pass => note.kind == Kind::Passed,
    };
    // What is only taken to be so was seen by nobody.
    let seen = notes.iter().filter(|note| !note.presumed);
    seen.filter(gives).find(is_for_it).copied()
}

/// Whether a note says that something was seen, and not that it is planned or in the way.
fn is_statement(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Passed | Kind::Measured | Kind::Remark | Kind::Done | Kind::Arrived
    )
}

/// Whether a note says that there is a photo which is kept somewhere else.
pub(crate) fn is_kept_elsewhere(note: &Note) -> bool {
    let words = note.words.as_deref().unwrap_or_default().to_lowercase();
    is_statement(note.kind) && words.starts_with(KEPT_ELSEWHERE)
}

fn has_figure(note: &Note) -> bool {
    matches!(note.kind, Kind::Passed | Kind::Measured)
        && note
            .words
            .as_deref()
            .is_some_and(|words| words.chars().any(|c| c.is_ascii_digit()))
}

fn words_of(note: &Note) -> String {
    let mut text = note.words.clone().unwrap_or_default();
    if let Some(grounds_site::Value::Reading { what, .. }) = &note.value {
        text.push(' ');
        text.push_str(what);
    }
    text
}

/// Who gives what a hold wants to see, beside its pass: photos the site lead, papers and an inspector's
/// readings whoever did the work.
pub(crate) fn evidence_from(job: &Job, hold: &Hold, wanted: Wanted, worked: Option<&Id>) -> Giver {
    let trade = |id: Option<&Id>| id.cloned().map_or(Giver::SiteLead, Giver::Trade);
    let worker = || trade(hold.put_right_by.as_ref().or(worked));
    match (wanted, giver_of(job, hold)) {
        (Wanted::Photo | Wanted::Look, _) => Giver::SiteLead,
        (Wanted::Paper, _) | (_, Giver::Inspector(_)) => worker(),
        (_, giver) => giver,
    }
}
