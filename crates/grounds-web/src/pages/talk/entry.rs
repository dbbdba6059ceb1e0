//! One thing that was said: what it would be in the log, how sure it is, and the buttons.

use grounds_sequence::words::upper_first;
use grounds_site::Kind as NoteKind;
use grounds_store::{Answer, WalkAnswer};
use grounds_walk::{
    Certainty, Proposal, Why,
    file::{Choice, Entry, From, Standing, said, time_code},
};
use maud::{Markup, html};

use super::address;
use crate::{
    say,
    talk::{Status, Talk, is_likely, refs},
    visit::{Visit, encode},
};

/// Whether the log says it already.
pub(super) fn is_known(entry: &Entry) -> bool {
    matches!(entry.standing, Standing::Known(_))
}

/// What was answered, in a word.
pub(super) fn answer_word(answer: Answer) -> &'static str {
    match answer {
        Answer::Accepted => "Accepted",
        Answer::Mended => "Mended",
        Answer::Refused => "Refused",
        Answer::Reopened => "Opened again",
    }
}

/// The entry, by its number in the walk.
pub(super) fn entry(visit: &Visit, talk: &Talk, n: usize, entry: &Entry) -> Markup {
    let status = talk.status(entry.tie.as_str(), &visit.picture);
    let class = match status {
        Status::Answered(answer) => format!(
            "entry answered {}",
            answer_word(answer.answer).to_lowercase()
        ),
        Status::Open if is_known(entry) => "entry known".to_owned(),
        Status::Open => format!("entry {}", mark(talk, entry)),
    };
    let waits = status == Status::Open && !is_known(entry);
    html! {
        article class=(class) id={ "e-" (n) } tabindex="-1" data-entry data-waits[waits] aria-labelledby={ "says-" (n) } {
            p class="entry-says" id={ "says-" (n) } { (says(talk, entry)) }
            @match status {
                Status::Answered(answer) => (answered(visit, talk, entry, answer)),
                Status::Open => {
                    p class="entry-how" { (how(talk, entry)) }
                    (buttons(visit, talk, n, entry))
                }
            }
        }
    }
}

/// The mark of certainty: a class, repeated in words beside it.
fn mark(talk: &Talk, entry: &Entry) -> &'static str {
    match talk.proposal(entry) {
        None => "asked",
        Some(proposal) if proposal.is_sure() => "sure",
        Some(proposal) => match proposal.certainty {
            Certainty::Firm => "firm",
            Certainty::Hedged => "doubt",
            Certainty::Hearsay => "hearsay",
        },
    }
}

/// What the note would say.
fn says(talk: &Talk, entry: &Entry) -> Markup {
    let (units, day) = (talk.read.vocabulary.units, talk.read.vocabulary.day);
    let what = said(entry.kind, entry.value.as_ref(), units, day);
    let proposal = talk.proposal(entry);
    let chosen = entry.chosen.and_then(|at| entry.choices.get(at));
    let name = chosen.map(|choice| upper_first(&choice.name));
    match (&entry.standing, proposal) {
        (Standing::Choose, Some(proposal)) => html! {
            b { (upper_first(&proposal.thing)) } ": " (proposal.kind.words()) ". Which is meant?"
        },
        (Standing::NotInJob, Some(proposal)) => html! {
            b { (upper_first(&proposal.thing)) } ": " (not_in_job(proposal)) "."
        },
        (Standing::Question, _) | (_, None) => html! { "What does that say?" },
        (_, Some(proposal)) if entry.kind == NoteKind::Remark => html! {
            b { (name.unwrap_or_default()) } ": " (proposal.kind.words())
            @if let Some(cause) = &proposal.cause { ", waits for " (cause) }
            "."
        },
        (_, Some(proposal)) => html! {
            b { (name.unwrap_or_default()) } ": " (what)
            @if let Some(cause) = &proposal.cause { ": waits for " (cause) }
            "."
        },
    }
}

fn not_in_job(proposal: &Proposal) -> String {
    let read: Vec<String> = proposal
        .readings
        .iter()
        .map(|reading| {
            format!("{} {}", reading.amount.number, reading.amount.unit)
                .trim_end()
                .to_owned()
        })
        .collect();
    if read.is_empty() {
        proposal.kind.words().to_owned()
    } else {
        format!("{} {}", proposal.kind.words(), read.join(", "))
    }
}

/// How sure it is, and how it stands to the log.
fn how(talk: &Talk, entry: &Entry) -> Markup {
    let place = entry.choices.last().map_or("", |place| place.name.as_str());
    html! {
        span class="sure-mark" {}
        @if let Some(proposal) = talk.proposal(entry) { (certainty(proposal)) ". " }
        @match &entry.standing {
            Standing::Known(how) => { (how) },
            Standing::NotInJob => { "The job has nothing of that name: it would be a remark about " (place) "." },
            Standing::Question => { (why_asked(talk, entry)) " It would be a remark about " (place) "." },
            Standing::New | Standing::Choose => {
                @if entry.kind == NoteKind::Remark { "A remark; the plan stays as it is." }
            },
        }
        @if let Some(ms) = entry.at_ms { span class="said" { " Said at " (time_code(ms)) "." } }
    }
}

fn certainty(proposal: &Proposal) -> &'static str {
    match proposal.certainty {
        Certainty::Firm if proposal.is_sure() => "Certain",
        Certainty::Firm if is_likely(proposal) => "Said firmly, likely read right",
        Certainty::Firm => "Said firmly, perhaps misread",
        Certainty::Hedged => "Said with a doubt",
        Certainty::Hearsay => "Hearsay",
    }
}

fn why_asked(talk: &Talk, entry: &Entry) -> &'static str {
    let why = match entry.from {
        From::Question(i) => talk.read.walk.questions.get(i).map(|question| question.why),
        From::Proposal(_) => None,
    };
    match why {
        Some(Why::NoPlace) => "Nobody said where.",
        Some(Why::NotInJob) => "The job has nothing of that name.",
        _ => "It tells something of the house and was not understood.",
    }
}

fn buttons(visit: &Visit, talk: &Talk, n: usize, entry: &Entry) -> Markup {
    let page = address(visit, talk);
    let tie = entry.tie.as_str();
    let mend = format!("{page}/mend?tie={}", encode(tie, ""));
    let name = html! { span class="said" { " " (say::cut(&entry.sentence, 80)) } };
    let chooses = entry.standing == Standing::Choose;
    let (accept, refuse) = match entry.standing {
        Standing::Question | Standing::NotInJob => ("File the remark", "Leave it"),
        Standing::Known(_) => ("Note it all the same", "Leave it"),
        _ => ("Accept", "Refuse"),
    };
    let quiet = is_known(entry);
    html! {
        form class="entry-do" method="post" action={ (page) "/answer" } data-act {
            input type="hidden" name="tie" value=(tie);
            @if chooses { (choose(n, entry)) }
            @if let Some(means) = &entry.means {
                label class="entry-passes" {
                    input type="checkbox" name="passes" value="yes" checked;
                    span { "And with it passes “" (means.name) "” (" (means.asks) ")" }
                }
            }
            button class=(if quiet { "quiet" } else { "can" }) name="answer" value="accept" { (accept) (name) }
            @if !quiet {
                a class="can" href=(mend) data-mend { @if matches!(entry.standing, Standing::Question) { "It is about …" } @else { "Mend" } (name) }
                button class="quiet" name="answer" value="refuse" { (refuse) (name) }
            }
        }
    }
}

/// What it may be about, to choose from.
fn choose(n: usize, entry: &Entry) -> Markup {
    let option = |choice: &Choice| {
        html! { option value=(refs(&choice.about)) { (choice.name) } }
    };
    html! {
        label class="entry-choose" for={ "about-" (n) } {
            span class="said" { "What is meant" }
            select id={ "about-" (n) } name="about" {
                @for choice in &entry.choices { (option(choice)) }
            }
        }
    }
}

fn answered(visit: &Visit, talk: &Talk, entry: &Entry, answer: &WalkAnswer) -> Markup {
    let picture = &visit.picture;
    let notes = picture
        .notes
        .iter()
        .filter(|note| answer.notes.contains(&note.id));
    let mended = answer.answer == Answer::Mended;
    html! {
        p class="entry-how" {
            span class="sure-mark" {}
            b { (answer_word(answer.answer)) } " by " (answer.by) ", "
            (say::recent(answer.at, visit.now, picture.zone())) "."
            @if mended {
                @for note in notes.take(3) {
                    " " (upper_first(&grounds_walk::file::about(&picture.job, &note.about))) ": "
                    (said(note.kind, note.value.as_ref(), talk.read.vocabulary.units, talk.read.vocabulary.day)) "."
                }
            }
        }
        form class="entry-do" method="post" action={ (address(visit, talk)) "/answer" } data-act {
            input type="hidden" name="tie" value=(entry.tie.as_str());
            button class="quiet" name="answer" value="reopen" { "Take it back" span class="said" { " " (say::cut(&entry.sentence, 80)) } }
        }
    }
}
