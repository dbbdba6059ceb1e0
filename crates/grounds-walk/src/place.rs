//! Where the talk is: the place in play, and when it changes.

use crate::{
    lexicon::Class,
    names::Names,
    noun::is_content,
    tokens::{Token, What},
};

/// Where a sentence takes the walk.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Move {
    /// The place.
    pub(crate) place: usize,
    /// How many tokens of the sentence said so and nothing else.
    pub(crate) used: usize,
}

/// Words that lead into a place: `back in the`, `up to the`, `now the`.
fn leads(token: &Token) -> bool {
    token.mark().is_some()
        || token.what == What::Word
            && (token.any(&[
                Class::Filler,
                Class::Conj,
                Class::Det,
                Class::Adv,
                Class::Particle,
                Class::Level,
            ]) || matches!(
                token.text.as_str(),
                "in" | "into"
                    | "to"
                    | "back"
                    | "up"
                    | "down"
                    | "over"
                    | "through"
                    | "out"
                    | "going"
                    | "go"
                    | "heading"
                    | "head"
                    | "on"
                    | "onto"
                    | "next"
                    | "at"
                    | "it"
                    | "'s"
                    | "is"
                    | "we"
                    | "are"
                    | "i"
                    | "am"
                    | "come"
                    | "coming"
                    | "start"
                    | "starting"
                    | "first"
                    | "last"
                    | "same"
                    | "for"
                    | "and"
                    | "this"
                    | "that"
                    | "off"
                    | "across"
                    | "inside"
                    | "outside"
                    | "walking"
                    | "moving"
                    | "by"
                    | "up to"
                    | "down to"
                    | "out to"
                    | "let us"
                    | "upstairs"
                    | "downstairs"
            ))
}

/// Words that may stand beside a place's name without saying anything more.
fn idle_beside(token: &Token) -> bool {
    token.what == What::Word
        && (token.any(&[Class::Filler, Class::Adv, Class::Det, Class::Level])
            || matches!(
                token.text.as_str(),
                "itself"
                    | "again"
                    | "room"
                    | "now"
                    | "up here"
                    | "then"
                    | "big"
                    | "little"
                    | "small"
                    | "bit"
                    | "on the left"
                    | "side"
                    | "proper"
                    | "area"
            ))
}

/// The change of place that a sentence begins with, if it begins with one.
///
/// A place's name alone at the head of a sentence is one (`Kitchen.`, `Back in the hall,`), and so
/// is a name that something in it follows (`linen closet door is in`). A name after a denial or
/// inside a sentence is none.
///
/// `area` narrows what part of a name can mean: the places that were last spoken of together.
pub(crate) fn change(tokens: &[Token], names: &Names, area: &[usize]) -> Option<Move> {
    let lead = tokens.iter().take_while(|token| leads(token)).count();
    let named = tokens.get(lead)?;
    if let What::Place(place) = named.what {
        let prepositional = tokens.get(..lead).unwrap_or_default().iter().any(|token| {
            matches!(
                token.text.as_str(),
                "in" | "into" | "to" | "at" | "on" | "back in"
            )
        });
        let after = tokens.get(lead + 1..).unwrap_or_default();
        let beside = after.iter().take_while(|token| idle_beside(token)).count();
        let next = after.get(beside);
        let ends = next.is_none_or(|next| next.mark().is_some());
        if ends || prepositional || next.is_some_and(|next| matches!(next.what, What::Place(_))) {
            return Some(Move {
                place,
                used: lead + 1 + if ends { beside } else { 0 },
            });
        }
        // "Kitchen units are in": the place, and the thing keeps its name.
        return Some(Move { place, used: 0 });
    }
    part_of_name(tokens, lead, names).and_then(|(places, used)| {
        let place = match places.as_slice() {
            [only] => Some(*only),
            several => {
                let near: Vec<usize> = several
                    .iter()
                    .filter(|place| area.contains(place))
                    .copied()
                    .collect();
                match near.as_slice() {
                    [only] => Some(*only),
                    _ => None,
                }
            }
        };
        place.map(|place| Move { place, used })
    })
}

/// The place that a sentence goes back to before it says more, `takes me back to the porch.`, and
/// how many tokens say so.
pub(crate) fn back_to(tokens: &[Token]) -> Option<Move> {
    let at = tokens
        .iter()
        .take(12)
        .position(|token| matches!(token.what, What::Place(_)))?;
    let What::Place(place) = tokens.get(at)?.what else {
        return None;
    };
    let before: Vec<&str> = tokens
        .get(..at)?
        .iter()
        .filter(|token| !token.is(Class::Det))
        .map(|token| token.text.as_str())
        .collect();
    let back = before
        .iter()
        .rev()
        .take(2)
        .any(|word| word.starts_with("back"))
        && before.last().is_some_and(|word| {
            word.ends_with("to") || word.ends_with("in") || word.ends_with("at")
        });
    let ends = tokens
        .get(at + 1)
        .is_none_or(|token| token.mark().is_some());
    (back && ends).then_some(Move {
        place,
        used: at + 1,
    })
}

/// The places that a fragment speaks of together, `Flat one.`, and how many tokens said so.
pub(crate) fn area(tokens: &[Token], names: &Names) -> Option<(Vec<usize>, usize)> {
    let lead = tokens.iter().take_while(|token| leads(token)).count();
    part_of_name(tokens, lead, names).filter(|(places, _)| places.len() > 1)
}

/// A fragment of nothing but some words of one place's name: `Mezzanine.`, `Bath up here.`
fn part_of_name(tokens: &[Token], lead: usize, names: &Names) -> Option<(Vec<usize>, usize)> {
    let rest = tokens.get(lead..)?;
    let length = rest
        .iter()
        .take_while(|token| token.mark().is_none())
        .count();
    let said = rest.get(..length)?;
    let words: Vec<String> = said
        .iter()
        .enumerate()
        .filter(|(at, token)| {
            !idle_beside(token) && token.text != "of" || *at > 0 && token.text.len() == 1
        })
        .map(|(_, token)| token)
        .flat_map(|token| token.text.split(' ').map(str::to_owned))
        .collect();
    let plain = said.iter().all(|token| {
        token.what == What::Word
            && (idle_beside(token)
                || is_content(token)
                || matches!(token.text.as_str(), "one" | "of"))
            || token.amount().is_some()
    });
    let telling = words.len() > 1 || said.iter().any(|token| token.is(Class::Room));
    if !plain || words.is_empty() || words.len() > 3 || !telling {
        return None;
    }
    let places = names.places_of_part(&words);
    (!places.is_empty()).then_some((places, lead + length))
}

/// The place that a clause says the thing is in, after its predicate: `down in the hall`.
pub(crate) fn said_inside(tokens: &[Token]) -> Option<usize> {
    let at = tokens
        .iter()
        .rposition(|token| matches!(token.what, What::Place(_)))?;
    let What::Place(place) = tokens.get(at)?.what else {
        return None;
    };
    let before = tokens.get(..at)?;
    let preposition = before.iter().rev().find(|token| !token.is(Class::Det))?;
    matches!(preposition.text.as_str(), "in" | "for" | "to").then_some(place)
}
