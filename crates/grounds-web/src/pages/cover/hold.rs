//! One test or inspection: everything that is asked for it, on one page that prints.

use std::collections::BTreeSet;

use grounds_cover::{AUTHORITY_DECIDES, Cover, Evidence, HoldLook, Register, look_at, looks_at};
use grounds_model::{Hold, HoldKind, Id, Target};
use grounds_sequence::words::{lower_first, upper_first};
use grounds_site::Subject;
use maud::{Markup, PreEscaped, html};

use super::{forms, photos, register_of, words};
use crate::{
    marks, say,
    visit::{Visit, encode},
};

/// Faces that are drawn.
const DRAWN: usize = 2;

/// The page; nothing where there is no hold of that key.
pub(crate) fn hold(visit: &Visit, key: &str) -> Option<Markup> {
    let picture = &visit.picture;
    let (id, hold) = picture.job.holds.get_key_value(key)?;
    let look = look_at(&picture.job, &picture.site, &picture.outlook, id)?;
    let register = register_of(visit);
    let said = words(visit).hold(hold, &look);
    Some(html! {
        header class="opening" {
            p class="place-line" {
                a href=(visit.to("cover")) { "Cover" } " · " (place_line(visit, hold))
            }
            h1 { (hold.name) }
            @if let Some((first, rest)) = said.split_first() {
                p class="lead" { b { (first) } @for sentence in rest { " " (sentence) } }
            }
        }
        div class="columns hold-sheet" {
            div {
                (what(visit, id, hold))
                (asked(visit, &register, id, hold))
                (looked_at(visit, hold))
                (readings(visit, id))
            }
            div {
                (drawn(visit, hold))
                (guards(visit, hold))
                (rules(visit, id, hold))
                (people(visit, hold))
            }
        }
        (signed(&look))
        p class="notice" { (AUTHORITY_DECIDES) }
        div class="screen-only" {
            @if !matches!(look.state, grounds_cover::HoldState::Passed(_)) { (forms::of_hold(visit, id, &hold.name)) }
            p class="go" { a href=(visit.to_work(id.as_str())) { "Its place in the plan" } }
        }
    })
}

fn place_line(visit: &Visit, hold: &Hold) -> String {
    let job = &visit.picture.job;
    let place = job.places.get(&hold.place);
    let level = place.and_then(|place| job.levels.get(&place.level));
    let name = place.map_or_else(|| hold.place.to_string(), |place| place.name.clone());
    match level {
        Some(level) => format!("{name}, {}", lower_first(&level.name)),
        None => name,
    }
}

fn kind_word(kind: HoldKind) -> &'static str {
    match kind {
        HoldKind::OwnCheck => "The site lead looks and signs",
        HoldKind::Test => "A test with a reading",
        HoldKind::Authority => "An inspection by the authority",
    }
}

fn what(visit: &Visit, id: &Id, hold: &Hold) -> Markup {
    let span = |span: grounds_measure::Span| span.to_string();
    html! {
        dl class="facts" {
            div { dt { "Job" } dd { (visit.picture.job.job.name) } }
            div { dt { "What" } dd { (kind_word(hold.kind)) } }
            div { dt { "Where" } dd { (place_line(visit, hold)) } }
            @if let Some(stands) = hold.stands { div { dt { "Stands" } dd { (span(stands)) } } }
            @if let Some(then) = hold.then { div { dt { "Then" } dd { (span(then)) " before work goes on" } } }
            @if let Some(notice) = hold.notice { div { dt { "To book" } dd { (span(notice)) " ahead" } } }
            @if let Some(rule) = &hold.rule { div { dt { "Asked for by" } dd { (rule) } } }
            div { dt { "Key" } dd { code { (id) } } }
        }
    }
}

/// What it wants, and what is there.
fn asked(visit: &Visit, register: &Register, id: &Id, hold: &Hold) -> Markup {
    let here = register.of_hold(id);
    let words = words(visit);
    html! {
        section class="part" aria-labelledby="wants" {
            h2 id="wants" { "What it wants to see" }
            ul class="checks" {
                @match here {
                    Some(here) => {
                        @for ask in &here.asks {
                            li class=[ask.met.is_some().then_some("seen")] {
                                @match &ask.met {
                                    Some(met) => {
                                        (upper_first(&ask.what)) ": there, " (words.on_by(&met.said))
                                        @if let Some(said) = &met.said.words { " (“" (say::cut(said, 200)) "”)" }
                                        "."
                                    }
                                    None => (words.ask(here, ask)),
                                }
                            }
                        }
                    }
                    None => { @for text in &hold.evidence { li { (text) } } }
                }
            }
        }
    }
}

/// What it looks at: who did it, when, with photos and readings.
fn looked_at(visit: &Visit, hold: &Hold) -> Markup {
    let picture = &visit.picture;
    let subjects = looks_at(&picture.job, hold);
    let words = words(visit);
    html! {
        @if !subjects.is_empty() {
            section class="part" aria-labelledby="looks" {
                h2 id="looks" { "What it looks at" }
                ul class="checks" {
                    @for subject in subjects.iter().take(40) {
                        @let evidence = Evidence::of(&picture.site, subject);
                        @let name = upper_first(&grounds_site::name(&picture.job, subject));
                        li class=[evidence.done.is_some().then_some("seen")] {
                            b { (name) } ": "
                            @match &evidence.done {
                                Some(said) if said.presumed => "taken to be done; nobody saw it",
                                Some(said) => { "done " (words.on_by(said)) }
                                None => "not done yet",
                            }
                            @if let Some(trade) = trade_of(visit, subject) { ", by " (trade) }
                            @for shown in words.shown(&evidence) { "; " (shown) }
                            "."
                            (photos::strip(visit, &evidence.photos))
                        }
                    }
                    @if subjects.len() > 40 { li { "and " (subjects.len() - 40) " more." } }
                }
            }
        }
    }
}

fn trade_of(visit: &Visit, subject: &Subject) -> Option<String> {
    let job = &visit.picture.job;
    let trade = match subject {
        Subject::Layer(key) => &job.layer(key)?.trade,
        Subject::Piece(id) => &job.pieces.get(id)?.trade,
        _ => return None,
    };
    Some(visit.words().trade(trade))
}

/// What waits for it.
fn guards(visit: &Visit, hold: &Hold) -> Markup {
    let job = &visit.picture.job;
    let names = hold.before.iter().filter_map(|about| {
        let subject = Subject::of(job.resolve(about)?)?;
        Some(upper_first(&grounds_site::name(job, &subject)))
    });
    html! {
        section class="part" aria-labelledby="guards" {
            h2 id="guards" { "What waits for it" }
            ul class="reasons" { @for name in names.take(20) { li { (name) } } }
        }
    }
}

/// The code that the job goes by, and rules that speak of what it looks at or guards.
fn rules(visit: &Visit, id: &Id, hold: &Hold) -> Markup {
    let picture = &visit.picture;
    let mut about: BTreeSet<Target> = BTreeSet::from([Target::Hold(id.clone())]);
    about.extend(
        hold.after
            .iter()
            .chain(&hold.before)
            .filter_map(|about| picture.job.resolve(about)),
    );
    let faces: BTreeSet<Target> = about
        .iter()
        .filter_map(|target| match target {
            Target::Layer(key) => Some(Target::Face {
                place: key.place.clone(),
                face: key.face.clone(),
            }),
            _ => None,
        })
        .collect();
    let speaks = |applied: &grounds_rules::house::Applied| {
        about.contains(&applied.about)
            || faces.contains(&applied.about) && applied.rule.family == grounds_rules::Family::Cover
    };
    let applied = picture
        .rules
        .applied
        .iter()
        .filter(|(_, applied)| speaks(applied));
    html! {
        section class="part" aria-labelledby="rules" {
            h2 id="rules" { "The code" }
            p { "The job goes by " (picture.rules.code.title) ", " (picture.rules.code.edition) "." }
            ul class="reasons" {
                @for (key, applied) in applied.take(8) {
                    @let (rule, of) = key.split_once('/').unwrap_or((key, ""));
                    li {
                        a href=(visit.to(&format!("rules/{}/{}", encode(rule, ""), encode(of, ".:")))) { (applied.rule.title) }
                        ", " (applied.called) ": " (lower_first(&applied.answer.said))
                    }
                }
            }
        }
    }
}

/// Who does it, who did the work, and how to ring them.
fn people(visit: &Visit, hold: &Hold) -> Markup {
    let job = &visit.picture.job;
    let mut trades: Vec<&Id> = hold.by.iter().chain(&hold.put_right_by).collect();
    for subject in looks_at(job, hold) {
        let trade = match &subject {
            Subject::Layer(key) => job.layer(key).map(|layer| &layer.trade),
            Subject::Piece(id) => job.pieces.get(id).map(|piece| &piece.trade),
            _ => None,
        };
        trades.extend(
            trade
                .and_then(|id| job.trades.get_key_value(id))
                .map(|(id, _)| id),
        );
    }
    let mut met = BTreeSet::new();
    trades.retain(|id| met.insert((*id).clone()));
    html! {
        section class="part" aria-labelledby="people" {
            h2 id="people" { "Who" }
            dl class="facts" {
                @for id in trades.iter().take(10) {
                    @if let Some(trade) = job.trades.get(*id) {
                        div {
                            dt { (trade.name) }
                            dd {
                                @match &trade.contact {
                                    Some(contact) => {
                                        @for part in [&contact.name, &contact.phone, &contact.email].into_iter().flatten() { (part) " " }
                                    }
                                    None => span class="soft" { "no contact in the job" },
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// What was read and said of the hold itself.
fn readings(visit: &Visit, id: &Id) -> Markup {
    let picture = &visit.picture;
    let subject = Subject::Hold(id.clone());
    let evidence = Evidence::of(&picture.site, &subject);
    let words = words(visit);
    let state = picture.site.states.get(&subject);
    let notes = state.into_iter().flat_map(|state| &state.notes);
    let notes = notes.filter_map(|id| picture.site.notes.get(id));
    html! {
        (photos::strip(visit, &evidence.photos))
        @if state.is_some_and(|state| !state.notes.is_empty()) {
            section class="part" aria-labelledby="said" {
                h2 id="said" { "Written down" }
                ul class="reasons" {
                    @for note in notes.take(20) {
                        li {
                            b { (upper_first(note.kind.word())) } ", " (words.day_of(note.at)) ", " (note.by)
                            @if let Some(said) = &note.words { ": " (say::cut(said, 300)) }
                        }
                    }
                }
            }
        }
    }
}

/// The faces that it looks at or guards, drawn as sections.
fn drawn(visit: &Visit, hold: &Hold) -> Markup {
    let picture = &visit.picture;
    let mut faces: BTreeSet<(Id, Id)> = BTreeSet::new();
    for about in hold.before.iter().chain(&hold.after) {
        for cover in grounds_cover::covers_named(&picture.job, about) {
            if let Cover::Layer(key) = cover {
                faces.insert((key.place, key.face));
            }
        }
    }
    html! {
        @for (place, key) in faces.iter().take(DRAWN) {
            @if let Some(face) = marks::face(picture, place, key) {
                figure class="face" {
                    figcaption { "Section: " (face.name) }
                    (PreEscaped(grounds_draw::stack_section(&face)))
                }
            }
        }
    }
}

/// Lines to sign on, on paper.
fn signed(look: &HoldLook) -> Markup {
    let passed = matches!(look.state, grounds_cover::HoldState::Passed(_));
    html! {
        section class="sign" aria-labelledby="sign" {
            h2 id="sign" class="said" { "To sign" }
            dl {
                div { dt { "Passed" @if passed { " ✓" } } dd {} }
                div { dt { "Failed, because" } dd {} }
                div { dt { "Name" } dd {} }
                div { dt { "Date" } dd {} }
                div class="wide" { dt { "Signature" } dd {} }
            }
        }
    }
}
