//! What a predicate's words say of how far something has got.

use super::{Class, Kind, Token, What};
use crate::{clauses::participle, lexicon::lexicon, noun::is_content};

/// What a predicate says, before denial.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum State {
    /// One of the kinds.
    Is(Kind),
    /// All is well: no news by itself.
    Well,
    /// Goods were ordered.
    Ordered,
}

/// A state that was found: what it is, where, and how sure that is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Found {
    pub(super) state: State,
    pub(super) at: usize,
    pub(super) confidence: u8,
}

/// The state that the tokens of a predicate hold, the first that counts.
pub(super) fn find(tokens: &[Token]) -> Option<Found> {
    let mut found: Option<Found> = None;
    for at in 0..tokens.len() {
        let Some((state, confidence)) = at_token(tokens, at) else {
            continue;
        };
        let here = Found {
            state,
            at,
            confidence,
        };
        // A fault beats what came before it: "it's in but it's cracked", "hung backwards".
        match found {
            None => found = Some(here),
            Some(first)
                if first.state != State::Is(Kind::Wrong)
                    && state == State::Is(Kind::Wrong)
                    && at <= first.at + 3 =>
            {
                found = Some(here);
            }
            Some(first) if first.state == State::Well => found = Some(here),
            Some(_) => {}
        }
    }
    found
}

/// The state that one token holds.
pub(super) fn at_token(tokens: &[Token], at: usize) -> Option<(State, u8)> {
    let token = tokens.get(at)?;
    if token.what != What::Word {
        return None;
    }
    let next = tokens.get(at + 1);
    let before = at.checked_sub(1).and_then(|before| tokens.get(before));
    let after_amount = before.is_some_and(|before| before.amount().is_some());
    let is = |kind: Kind, confidence: u8| Some((State::Is(kind), confidence));
    if token.text == "here"
        && next.is_some_and(|next| {
            is_content(next)
                || next.any(&[Class::FirstPerson, Class::Be]) && !next.is(Class::Arrived)
        })
    {
        return None;
    }
    let moving = before.is_some_and(|before| {
        before.text.ends_with("ing") && before.is(Class::Verb)
            || matches!(
                before.text.as_str(),
                "goes" | "go" | "come" | "comes" | "standing" | "going" | "coming"
            )
    });
    if moving && token.any(&[Class::Particle, Class::Arrived]) {
        return None;
    }
    if token.text == "off"
        && tokens
            .iter()
            .any(|t| OUT_OF_LINE.contains(&t.text.as_str()))
    {
        return is(Kind::Wrong, 82);
    }
    if before.is_some_and(|before| before.text == "too") && token.is(Class::TooWord) {
        return is(Kind::Wrong, 95);
    }
    let goods_short = token.text == "short"
        && before.is_some_and(|b| super::copula::COUNTED_BY.contains(&b.text.as_str()));
    if goods_short {
        return is(Kind::NotDelivered, 86);
    }
    if after_amount
        && !next.is_some_and(|next| {
            next.any(&[Class::Det])
                || next.amount().is_some()
                || is_content(next) && next.is(Class::Thing)
        })
        && matches!(
            token.text.as_str(),
            "short"
                | "shy"
                | "proud"
                | "out"
                | "low"
                | "over"
                | "under"
                | "off"
                | "narrow"
                | "oversize"
                | "undersize"
        )
    {
        return is(Kind::Wrong, 92);
    }
    let ambiguous_fault = matches!(
        token.text.as_str(),
        "off"
            | "out"
            | "dead"
            | "short"
            | "bad"
            | "proud"
            | "dip"
            | "run"
            | "marked"
            | "stained"
            | "exposed"
            | "dry"
            | "raw"
            | "settled"
            | "split"
            | "sunk"
            | "slack"
            | "moves"
            | "hits"
            | "lifting"
            | "rough"
            | "lists"
            | "touches"
            | "frozen"
            | "stuck"
            | "foul"
            | "reversed"
            | "bent"
    );
    if token.is(Class::Wrong) && !ambiguous_fault {
        return is(Kind::Wrong, 93);
    }
    if token.is(Class::NotArrived) {
        return is(Kind::NotDelivered, 88);
    }
    if token.is(Class::NotDone) {
        return is(Kind::NotDone, 90);
    }
    if token.is(Class::Started) {
        return is(Kind::Started, 90);
    }
    if token.is(Class::Fail) {
        return is(Kind::Failed, 92);
    }
    let holds_up = matches!(token.text.as_str(), "held" | "holding" | "holds")
        && next.is_some_and(|n| n.what == What::Word && n.any(&[Class::Prep, Class::Particle]));
    if holds_up {
        return None;
    }
    if token.is(Class::Pass)
        && (!token.is(Class::Act) || tokens.len() == 1 || before.is_some_and(|b| b.text == "a"))
    {
        return is(Kind::Passed, 92);
    }
    let stored = matches!(token.text.as_str(), "stacked" | "stored" | "piled")
        && next.is_some_and(|n| n.what == What::Word && n.is(Class::Prep));
    if stored {
        return None;
    }
    if reaches(tokens, at) {
        return is(Kind::Started, 88);
    }
    if token.is(Class::Particle) && particle_is_state(tokens, at) {
        return is(Kind::Done, 92);
    }
    if token.is(Class::Arrived) && !noun_follows_det(next) {
        return is(Kind::Delivered, 92);
    }
    if token.is(Class::Ordered) {
        return Some((State::Ordered, 85));
    }
    if token.is(Class::Done) && !attributive(next) {
        return is(Kind::Done, 93);
    }
    if token.is(Class::Wrong) && !token.any(&[Class::Particle, Class::FaultNoun]) {
        return is(Kind::Wrong, 85);
    }
    if token.is(Class::FaultVerb) && !token.is(Class::FaultNoun) {
        return is(Kind::Wrong, 88);
    }
    if token.is(Class::Ok) {
        return Some((State::Well, 90));
    }
    let unknown = token.classes.is_empty() || token.is(Class::Done);
    (unknown && participle(&token.text) && token.text.ends_with("ed") && !attributive(next))
        .then_some((State::Is(Kind::Done), 75))
}

/// What is *off* when it is out of line.
const OUT_OF_LINE: [&str; 8] = [
    "wall", "walls", "line", "level", "corner", "colour", "color", "pattern",
];

/// Words of work that goes along, up or across.
const GOES_ALONG: [&str; 18] = [
    "up",
    "down",
    "in",
    "done",
    "laid",
    "tiled",
    "boarded",
    "built",
    "painted",
    "plastered",
    "finished",
    "sanded",
    "clad",
    "papered",
    "on",
    "panelled",
    "insulated",
    "paved",
];

/// How far is all the way.
const ALL_THE_WAY: [&str; 14] = [
    "ceiling", "ceilings", "top", "ridge", "height", "end", "soffit", "roof", "eaves", "wall",
    "corner", "drain", "full", "line",
];

/// Whether work has got as far as something: `up to the mantel`, `laid as far as the door`.
fn reaches(tokens: &[Token], at: usize) -> bool {
    let goes = tokens
        .get(at)
        .is_some_and(|t| GOES_ALONG.contains(&t.text.as_str()));
    let rest = tokens.get(at + 1..).unwrap_or_default();
    let to = rest
        .first()
        .is_some_and(|t| matches!(t.text.as_str(), "to" | "up to" | "as far as" | "down to"));
    let end = rest
        .iter()
        .skip(1)
        .take(4)
        .take_while(|t| t.mark().is_none())
        .collect::<Vec<_>>();
    goes && to
        && end.iter().any(|t| is_content(t))
        && !end.iter().any(|t| {
            t.amount().is_some()
                || t.any(&[Class::Act, Class::Side]) && !t.is(Class::Thing)
                || ALL_THE_WAY.contains(&t.text.as_str())
        })
}

/// Whether a participle stands before a noun that it describes.
fn attributive(next: Option<&Token>) -> bool {
    next.is_some_and(|next| {
        next.what == What::Word
            && is_content(next)
            && (next.classes.is_empty() && !participle(&next.text)
                || next.is(Class::Thing) && !next.any(&[Class::Particle, Class::Act, Class::Done]))
    })
}

fn noun_follows_det(next: Option<&Token>) -> bool {
    next.is_some_and(|next| next.what == What::Word && next.is(Class::Det) && !next.is(Class::Pron))
}

/// What a layer can be on, so that "on the walls" says that it is done.
const SURFACES: [&str; 22] = [
    "wall",
    "walls",
    "ceiling",
    "ceilings",
    "floor",
    "floors",
    "side",
    "sides",
    "face",
    "faces",
    "treads",
    "roof",
    "soffit",
    "front",
    "back",
    "three",
    "both",
    "all",
    "two",
    "everything",
    "top",
    "boards",
];

/// Whether `in`, `on`, `up` and the like say that something is in place, and do not begin to say
/// where it is.
pub(super) fn particle_is_state(tokens: &[Token], at: usize) -> bool {
    let Some(token) = tokens.get(at) else {
        return false;
    };
    let after = tokens.get(at + 1..).unwrap_or_default();
    let Some(next) = after.first() else {
        return true;
    };
    if token.text.contains(' ') {
        return true;
    }
    if next.what == What::Word && next.is(Class::Adv) && !next.is(Class::Prep) {
        return true;
    }
    if next.when().is_some() || next.mark().is_some() {
        return true;
    }
    if matches!(next.what, What::Place(_)) {
        return false;
    }
    if next.amount().is_some() {
        return after
            .iter()
            .take(3)
            .any(|t| SURFACES.contains(&t.text.as_str()));
    }
    let words = after.iter().take(4);
    if token.text == "on" && words.clone().any(|t| SURFACES.contains(&t.text.as_str())) {
        return !words
            .clone()
            .any(|t| matches!(t.text.as_str(), "right" | "left" | "wrong"))
            && after.first().is_none_or(|t| {
                !(t.text == "the" && after.get(1).is_some_and(|n| n.text == "side"))
            });
    }
    // "up to the ceiling", "in and tested", "down but loose", "in with two screws"
    next.is(Class::Conj)
        || next.is(Class::Until)
        || next.is(Class::When)
        || (next.is(Class::Prep) && !next.is(Class::Particle) && token.text != "out")
        || next.is(Class::Particle) && tokens.len() > at + 2 && token.text != next.text
        || next.any(&[Class::Done, Class::Ok, Class::Wrong]) && !next.is(Class::Side)
}

/// Whether a word is a participle or state that the lexicon knows as finished work.
pub(super) fn is_done_word(token: &Token) -> bool {
    token.what == What::Word
        && (token.is(Class::Done)
            || token.classes.is_empty() && token.text.ends_with("ed") && participle(&token.text)
            || lexicon().word(&token.text).has(Class::Done))
}

/// Participles that say that work is finished, and not which.
const GENERAL: [&str; 34] = [
    "went",
    "gone",
    "put",
    "came",
    "done",
    "finished",
    "complete",
    "completed",
    "installed",
    "fitted",
    "in",
    "fixed",
    "sorted",
    "made",
    "running",
    "working",
    "live",
    "up",
    "on",
    "down",
    "hung",
    "set",
    "laid",
    "dry",
    "dried",
    "cured",
    "stood",
    "hard",
    "shot",
    "ground",
    "happened",
    "replaced",
    "covered",
    "all",
];

/// Whether a word names the work that was done: `grouted`, `sealed`, `wired`.
pub(super) fn names_work(token: &Token) -> bool {
    is_done_word(token)
        && !token.is(Class::Particle)
        && !GENERAL
            .iter()
            .any(|word| token.text == *word || token.text.starts_with(&format!("{word} ")))
}
