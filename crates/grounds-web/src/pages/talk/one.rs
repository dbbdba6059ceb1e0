//! One walk: the talk on one side, what it proposes on the other, tied by time.

use grounds_sequence::words::upper_first;
use grounds_walk::{
    file::{Entry, time_code},
    transcript::Cue,
};
use maud::{Markup, html};

use super::{entry, moved};
use crate::{
    say,
    talk::{Least, Status, Talk},
    visit::Visit,
};

/// Cues on one page.
const SHOWN: usize = 400;

/// The address of a walk.
pub(crate) fn address(visit: &Visit, talk: &Talk) -> String {
    visit.to(&format!("walks/{}", talk.kept.head.id))
}

/// The page.
pub(crate) fn walk(visit: &Visit, talk: &Talk) -> Markup {
    let head = &talk.kept.head;
    let only_open = visit.asked("show") == Some("open");
    let from = from(visit, talk);
    html! {
        header class="opening" {
            p class="place-line" {
                a href=(visit.to("walks")) { "Walks" } " · " (say::short(head.begun, visit.picture.zone())) " · " (head.by)
            }
            h1 { (headline(visit, talk)) }
            p class="lead" { (lead(visit, talk)) }
        }
        (moved::moved(visit, talk))
        (together(visit, talk))
        (tools(visit, talk, only_open))
        (cues(visit, talk, from, only_open))
        (adrift(visit, talk))
        @for remark in talk.read.transcript.remarks.iter().take(10) {
            p class="nothing" { "Line " (remark.line) " of the transcript: " (remark.what) "." }
        }
    }
}

/// The first cue of the page that is asked for: by number, or by the time that a note leads back to.
fn from(visit: &Visit, talk: &Talk) -> usize {
    let number = |name: &str| {
        visit
            .asked(name)
            .and_then(|text| text.parse::<usize>().ok())
    };
    let at = visit.asked("at").and_then(|text| text.parse::<u64>().ok());
    let cue = at.and_then(|at| {
        talk.read
            .transcript
            .cues
            .iter()
            .position(|cue| cue.at_ms == Some(at))
    });
    cue.map_or_else(|| number("from").unwrap_or(0), |cue| cue / SHOWN * SHOWN)
}

/// What a note leads back to: the time of a cue, or its number.
fn place(i: usize, cue: &Cue) -> String {
    cue.at_ms
        .map_or_else(|| format!("c-{i}"), |ms| format!("t-{ms}"))
}

fn headline(visit: &Visit, talk: &Talk) -> String {
    let waiting = talk.waiting(&visit.picture);
    if talk.entries.is_empty() {
        return "Nothing in it tells of the house.".to_owned();
    }
    match waiting {
        0 => "Everything in it is answered.".to_owned(),
        n => {
            let waits = if n == 1 { "waits" } else { "wait" };
            let things = say::counted(n, "thing", "things");
            upper_first(&format!(
                "{things} that {} said {waits} for your answer.",
                was(n)
            ))
        }
    }
}

fn was(n: usize) -> &'static str {
    if n == 1 { "was" } else { "were" }
}

fn lead(visit: &Visit, talk: &Talk) -> Markup {
    let likely = talk.together(Least::Likely, &visit.picture).len();
    let is_open = |entry: &&Entry| talk.status(entry.tie.as_str(), &visit.picture) == Status::Open;
    let open = talk.entries.iter().filter(is_open);
    let known = open.clone().filter(|entry| entry::is_known(entry)).count();
    let answered = talk.entries.len() - open.count();
    html! {
        @if likely > 0 {
            b { (likely) } " of them " @if likely == 1 { "is" } @else { "are" } " new and likely right. "
        }
        span class="soft" {
            @if known > 0 { (known) " more the log knows already. " }
            @if answered > 0 { (say::counted(answered, "answer is", "answers are")) " given. " }
            "Nothing changes before you accept it."
        }
    }
}

/// What can be accepted at once: three measures, each with how much it takes.
fn together(visit: &Visit, talk: &Talk) -> Markup {
    let taken = |least| talk.together(least, &visit.picture).len();
    let (sure, likely, firm) = (taken(Least::Sure), taken(Least::Likely), taken(Least::Firm));
    let is = |n: usize, one: &'static str, many: &'static str| if n == 1 { one } else { many };
    let offers = [
        (
            "sure",
            sure,
            is(sure, "that is certain", "that are certain"),
        ),
        (
            "likely",
            likely,
            is(likely, "that is likely right", "that are likely right"),
        ),
        (
            "firm",
            firm,
            is(firm, "that was said firmly", "that were said firmly"),
        ),
    ];
    // The same again under another name is no choice.
    let offered: Vec<_> = offers
        .iter()
        .enumerate()
        .filter(|(i, (_, n, _))| offers.iter().take(*i).all(|(_, before, _)| before < n) && *n > 0)
        .map(|(_, offer)| offer)
        .collect();
    let action = format!("{}/accept", address(visit, talk));
    html! {
        @if !offered.is_empty() {
            form class="together" method="post" action=(action) data-act {
                p class="together-what" { "Accept what is new and clear:" }
                @for (i, (least, n, which)) in offered.iter().enumerate() {
                    button class=(if i == 0 { "do" } else { "can" }) name="least" value=(least) {
                        "The " (n) " " (which)
                    }
                }
            }
        }
    }
}

fn tools(visit: &Visit, talk: &Talk, only_open: bool) -> Markup {
    let page = address(visit, talk);
    html! {
        div class="tools talk-tools" {
            nav class="pick" aria-label="Which sentences" {
                a href=(page) aria-current=[(!only_open).then_some("true")] { "All that was said" }
                a href={ (page) "?show=open" } aria-current=[only_open.then_some("true")] { "What waits" }
            }
            p class="keys-hint" data-keys-hint hidden {
                kbd { "j" } " " kbd { "k" } " next, before   " kbd { "a" } " accept   " kbd { "m" } " mend   " kbd { "r" } " refuse"
            }
        }
    }
}

fn cues(visit: &Visit, talk: &Talk, from: usize, only_open: bool) -> Markup {
    let of = |cue: usize| {
        let entries = talk.entries.iter().enumerate();
        entries.filter(move |(_, entry)| entry.cue == cue)
    };
    let waits = |cue: usize| {
        of(cue).any(|(_, entry)| {
            !entry::is_known(entry)
                && talk.status(entry.tie.as_str(), &visit.picture) == Status::Open
        })
    };
    let all = talk.read.transcript.cues.iter().enumerate();
    let shown: Vec<(usize, &Cue)> = all.filter(|(i, _)| !only_open || waits(*i)).collect();
    let page: Vec<&(usize, &Cue)> = shown.iter().skip(from).take(SHOWN).collect();
    let next = from + page.len();
    html! {
        @if page.is_empty() { p class="nothing" { "Nothing waits." } }
        ol class="talk" {
            @for (i, cue) in page {
                li class="talk-row" {
                    div class="talk-said" id=(place(*i, cue)) tabindex="-1" {
                        @if let Some(ms) = cue.at_ms { p class="talk-time" { (time_code(ms)) } }
                        p class="talk-words" { (say::cut(&cue.text, 2000)) }
                    }
                    div class="talk-notes" {
                        @for (n, each) in of(*i) { (entry::entry(visit, talk, n, each)) }
                    }
                }
            }
        }
        @if next < shown.len() {
            p class="onward" {
                a class="can" href={ (address(visit, talk)) "?from=" (next) @if only_open { "&show=open" } } { "Further on" }
            }
        }
    }
}

/// Answers to what is not proposed any more: kept, and shown with their sentences.
fn adrift(visit: &Visit, talk: &Talk) -> Markup {
    let adrift = talk.adrift();
    html! {
        @if !adrift.is_empty() {
            section class="part" aria-labelledby="adrift" {
                h2 id="adrift" { "Answered before" }
                p { "The walk is read otherwise today. These answers stand all the same." }
                ul class="rows plain" {
                    @for answer in adrift.iter().take(100) {
                        li class="row" {
                            div class="row-words" {
                                p { "“" (say::cut(&answer.sentence, 300)) "”" }
                                p class="row-why" {
                                    (entry::answer_word(answer.answer)) " by " (answer.by) ", "
                                    (say::short(answer.at, visit.picture.zone()))
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}
