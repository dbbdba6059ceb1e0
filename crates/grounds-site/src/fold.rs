//! Folding notes into a state.

use std::collections::BTreeMap;

use grounds_model::Job;
use jiff::Timestamp;

use crate::{
    apply::Ledger, clash, house, infer, log::Log, nearest, note::Note, order, questions::Questions,
    state::Site, words,
};

/// The state of a job at a moment, by what its notes say.
///
/// The notes may come in any order and any number of times: the result is the same. Only notes
/// dated up to the moment count, so a past day can be shown again. Of notes about one thing the
/// latest word stands, by time and then by id. A note that another replaces no longer counts.
/// Nothing is dropped: what does not add up is kept and asked about in [`Site::questions`].
#[must_use]
pub fn fold(job: &Job, notes: &[Note], at: Timestamp) -> Site {
    let log = Log::at(notes, at);
    let mut questions = Questions::new(job, at);
    ask_about_log(&log, &mut questions);
    ask_about_unknown(&log, &mut questions);
    ask_about_early(&log, &mut questions);

    let mut ledger = Ledger::new(&mut questions);
    for note in &log.counting {
        ledger.take(note);
    }
    let Ledger {
        mut tallies,
        mut climate,
        ..
    } = ledger;
    climate.sort_by(|a, b| (&a.place, a.at, a.note).cmp(&(&b.place, b.at, b.note)));
    infer::uncovered(job, &mut tallies);
    order::ask(&tallies, &mut questions);
    infer::behind(job, &mut tallies);
    clash::ask(&log.counting, &mut questions);

    let asked_about = log.clashes.iter().map(|(kept, _)| kept).chain(&log.ahead);
    let shown = log.known.values().chain(asked_about);
    Site {
        at,
        states: tallies
            .into_iter()
            .map(|(subject, tally)| (subject, tally.state))
            .collect(),
        questions: questions.all(),
        climate,
        notes: shown.map(|note| (note.id, (*note).clone())).collect(),
    }
}

/// Asks about notes that clash with each other, whatever they say.
fn ask_about_log(log: &Log<'_>, questions: &mut Questions<'_>) {
    for (kept, other) in &log.clashes {
        let words = format!(
            "Two notes about “{}” bear the same number but do not say the same. The one of {} that says “{}” counts; the one of {} that says “{}” does not. Is that right?",
            words::plain(kept.about.as_str()),
            questions.day(kept.at),
            kept.kind.word(),
            questions.day(other.at),
            other.kind.word(),
        );
        questions.ask_of(kept, &words);
    }
    for (replaced, by) in &log.rivals {
        let Some(first) = log.known.get(replaced) else {
            continue;
        };
        let said: Vec<String> = by
            .iter()
            .map(|note| format!("“{}” for {}", note.kind.word(), questions.day(note.at)))
            .collect();
        let words = format!(
            "The note “{}” of {} about “{}” was corrected {} times, with {}. All of them count now. Which one is right?",
            first.kind.word(),
            questions.day(first.at),
            words::plain(first.about.as_str()),
            by.len(),
            words::list(&said),
        );
        let mut notes = vec![*first];
        notes.extend(by);
        questions.ask_of_all(&notes, &words);
    }
    for ring in &log.rings {
        let Some(last) = ring.last() else { continue };
        let words = format!(
            "Notes about “{}” each say that they correct the other; the latest, of {}, counts. Is that right?",
            words::plain(last.about.as_str()),
            questions.day(last.at),
        );
        questions.ask_of_all(ring, &words);
    }
    for note in &log.orphans {
        let words = format!(
            "The note of {} about “{}” corrects another that is not here. It counts. Is the other still on somebody's phone?",
            questions.day(note.at),
            words::plain(note.about.as_str()),
        );
        questions.ask_of(note, &words);
    }
    for note in &log.ahead {
        let words = format!(
            "The note “{}” about “{}” is dated {}, later than it was written. It does not count until then. Which day is right?",
            note.kind.word(),
            words::plain(note.about.as_str()),
            questions.day(note.at),
        );
        questions.ask_of(note, &words);
    }
}

/// Asks about notes on what the job does not know, once for each name.
fn ask_about_unknown(log: &Log<'_>, questions: &mut Questions<'_>) {
    let mut unknown: BTreeMap<&str, Vec<&Note>> = BTreeMap::new();
    for note in &log.counting {
        if house::aim(questions.job, &note.about) == house::Aim::Nothing {
            unknown.entry(note.about.as_str()).or_default().push(note);
        }
    }
    if unknown.is_empty() {
        return;
    }
    let references = house::references(questions.job);
    for (about, notes) in unknown {
        let hint = match nearest::among(about, references.iter().map(String::as_str)).as_slice() {
            [] => "What is meant?".to_owned(),
            near => format!("Is {} meant?", words::either(near)),
        };
        let words = format!(
            "The job has nothing called “{}”, which {} about. {hint}",
            words::plain(about),
            if notes.len() == 1 {
                "a note is".to_owned()
            } else {
                format!("{} notes are", notes.len())
            },
        );
        questions.ask_of_all(&notes, &words);
    }
}

/// Asks about notes from before the job began, in one question.
fn ask_about_early(log: &Log<'_>, questions: &mut Questions<'_>) {
    let begins = questions.job.job.begins;
    let early: Vec<&Note> = log
        .counting
        .iter()
        .copied()
        .take_while(|note| questions.clock.date(note.at) < begins)
        .collect();
    let Some(first) = early.first() else { return };
    let what = match early.as_slice() {
        [only] => {
            format!(
                "The note “{}” about “{}” is dated",
                only.kind.word(),
                words::plain(only.about.as_str())
            )
        }
        many => format!(
            "{} notes are dated before the job begins, the first",
            many.len()
        ),
    };
    let words = format!(
        "{what} {}; the job begins on {}. Is the date right?",
        questions.day(first.at),
        questions.clock.civil(begins),
    );
    questions.ask_of_all(&early, &words);
}
