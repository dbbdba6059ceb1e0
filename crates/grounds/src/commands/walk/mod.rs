//! `grounds walk`: what was said on a walk, as notes that are proposed.

mod file;

use grounds_site::Note;
use grounds_store::KeptWalk;
use grounds_walk::{
    Certainty, Why,
    file::{Entry, From, Standing},
};
use jiff::Timestamp;

use super::{show, show_json};
use crate::{
    arguments::Walk,
    ending::{Ending, Trouble},
    opened::Opened,
    page::{HEAD, PLAIN, Page, QUIET},
    talk::{self, Talk},
};

pub(super) fn run(asked: &Walk) -> Result<Ending, Trouble> {
    let least = asked.accept_above.map(least).transpose()?;
    let opened = Opened::open(&asked.job, &asked.data)?;
    let text = talk::text_of(&asked.file)?;
    let kept = talk::kept(&opened, &asked.data, &text)?;
    let begun = match (asked.at, &kept) {
        (Some(at), _) => opened.moment(Some(at))?,
        (None, Some(kept)) => kept.head.begun,
        (None, None) => talk::begun_by_file(&asked.file, &text),
    };
    let mut talk = Talk::read(&opened, &text, begun, &asked.by)?;
    let name = match &kept {
        Some(kept) if kept.head.begun == begun => {
            talk.head.id = kept.head.id;
            talk.head.by.clone_from(&kept.head.by);
            kept.head.name.clone()
        }
        _ => named(asked),
    };
    let taken = match least {
        Some(least) => {
            let taken = take(&talk, least, kept.as_ref());
            let walk = KeptWalk {
                head: talk::kept_head(&talk.head, &name),
                transcript: text,
                answers: taken
                    .iter()
                    .map(|(entry, notes)| {
                        talk::accepted(entry, notes, &talk.head.by, Timestamp::now())
                    })
                    .collect(),
            };
            let notes: Vec<Note> = taken.iter().flat_map(|(_, notes)| notes.clone()).collect();
            talk::keep(&opened, &asked.data, &walk, &notes)?;
            Some(notes)
        }
        None => None,
    };
    if asked.json {
        show_json(&file::WalkFile::of(&opened, &talk, taken.as_deref()))?;
    } else {
        show(page(&opened, &talk, taken.as_deref()))?;
    }
    Ok(Ending::Fine)
}

/// The least confidence that is accepted, of 100.
fn least(share: f64) -> Result<u8, Trouble> {
    if !(0.0..=1.0).contains(&share) {
        let sentence = "--accept-above takes a share from 0 to 1, like --accept-above 0.9";
        return Err(Trouble::Input(sentence.to_owned()));
    }
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held in range"
    )]
    Ok((share * 100.0).round() as u8)
}

/// What a walk is called where nobody has said: by its file.
fn named(asked: &Walk) -> String {
    let stem = asked.file.file_stem().and_then(|name| name.to_str());
    let plain: String = stem
        .unwrap_or("walk")
        .chars()
        .filter(|c| !c.is_control())
        .take(80)
        .collect();
    if plain == "-" || plain.is_empty() {
        "walk".to_owned()
    } else {
        plain
    }
}

/// What is accepted, each with its notes: what is new, clear, said firmly and read surely enough, and
/// has no answer yet.
fn take<'t>(talk: &'t Talk, least: u8, kept: Option<&KeptWalk>) -> Vec<(&'t Entry, Vec<Note>)> {
    let answered = |entry: &Entry| {
        let mut answers = kept.into_iter().flat_map(|kept| &kept.answers);
        answers.any(|answer| answer.tie == entry.tie.as_str())
    };
    let is_taken = |entry: &&Entry| {
        let firm = talk
            .proposal(entry)
            .is_some_and(|it| it.certainty == Certainty::Firm && it.confidence >= least);
        firm && entry.standing == Standing::New && !answered(entry)
    };
    let notes = |entry: &'t Entry| {
        let says = entry.as_proposed()?;
        Some((
            entry,
            entry.notes(&talk.head, &says, 0, entry.means.as_ref()),
        ))
    };
    talk.entries
        .iter()
        .filter(is_taken)
        .filter_map(notes)
        .collect()
}

fn page(opened: &Opened, talk: &Talk, taken: Option<&[Note]>) -> Page {
    let mut page = Page::default();
    page.heading(HEAD, &opened.title(talk.head.begun));
    page.paragraph(PLAIN, 0, &summary(talk));
    let (questions, proposals): (Vec<&Entry>, Vec<&Entry>) = talk
        .entries
        .iter()
        .partition(|entry| matches!(entry.from, From::Question(_)));
    if !proposals.is_empty() {
        page.heading(HEAD, "Proposed");
    }
    for entry in proposals {
        proposal(&mut page, talk, entry);
    }
    if !questions.is_empty() {
        page.heading(HEAD, "Said, and not understood");
    }
    for entry in questions {
        question(&mut page, talk, entry);
    }
    page.heading(HEAD, "Written");
    match taken {
        None => page.paragraph(
            PLAIN,
            2,
            "Nothing. --accept-above 0.9 writes what is certain and new.",
        ),
        Some([]) => page.paragraph(PLAIN, 2, "Nothing new."),
        Some(notes) => {
            let sentence = format!(
                "{} The walk is kept with them.",
                counted(notes.len(), "note.", "notes.")
            );
            page.paragraph(PLAIN, 2, &sentence);
        }
    }
    page
}

/// `60 cues in 14:20: 41 proposals, 30 of them certain and new; 3 questions.`
fn summary(talk: &Talk) -> String {
    let proposals = talk.walk.proposals.len();
    let sure = talk
        .entries
        .iter()
        .filter(|entry| entry.is_sure(&talk.walk))
        .count();
    let length = talk.length_ms.map_or_else(String::new, |ms| {
        format!(" in {}", talk::time_code(Some(ms)))
    });
    format!(
        "{}{length}: {}, {sure} of them certain and new; {}.",
        counted(talk.cues, "cue", "cues"),
        counted(proposals, "proposal", "proposals"),
        counted(talk.walk.questions.len(), "question", "questions"),
    )
}

fn proposal(page: &mut Page, talk: &Talk, entry: &Entry) {
    let time = talk::time_code(entry.at_ms);
    page.row(2, &[(time.as_str(), 6)], &talk.says(entry));
    if let Some(proposal) = talk.proposal(entry) {
        page.paragraph(QUIET, 10, &format!("“{}”", entry.sentence));
        let mut more = talk::certainty_words(proposal);
        if let Some(cause) = &proposal.cause {
            more.push_str(&format!("; waits for {cause}"));
        }
        page.paragraph(QUIET, 10, &more);
    }
    match &entry.standing {
        Standing::Known(how) => page.paragraph(PLAIN, 10, how),
        Standing::Choose => page.paragraph(PLAIN, 10, "Which is meant has to be chosen."),
        _ => {}
    }
    if let Some(means) = &entry.means {
        let sentence = format!("With it passes: {} ({}).", means.name, means.asks);
        page.paragraph(PLAIN, 10, &sentence);
    }
}

fn question(page: &mut Page, talk: &Talk, entry: &Entry) {
    let time = talk::time_code(entry.at_ms);
    page.row(2, &[(time.as_str(), 6)], &format!("“{}”", entry.sentence));
    let why = match entry.from {
        From::Question(i) => talk.walk.questions.get(i).map(|question| question.why),
        From::Proposal(_) => None,
    };
    let asked = match why {
        Some(Why::NoPlace) => "Where? File it as a remark",
        Some(Why::NotInJob) => "The job has nothing of that name. File it as a remark",
        _ => "File it as a remark",
    };
    page.paragraph(QUIET, 10, &format!("{asked} about {}?", talk.about(entry)));
}

/// `1 note`, `12 notes`
pub(super) fn counted(n: usize, one: &str, many: &str) -> String {
    format!("{n} {}", if n == 1 { one } else { many })
}
