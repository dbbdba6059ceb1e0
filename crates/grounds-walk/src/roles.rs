//! What a word is where it stands: `clips` names things in `sink clips missing` and tells what one
//! does in `door clips the lamp`; `nine` counts in `nine panes` and names one in `pane nine`.

use crate::{
    lexicon::Class,
    noun::is_content,
    numbers::{Manner, Unit},
    tokens::{Token, What},
};

/// Classes that make a name of a word.
const NAMES: [Class; 4] = [
    Class::Thing,
    Class::FaultNoun,
    Class::AbleNoun,
    Class::TestNoun,
];

/// Classes that make a verb of a word.
const VERBS: [Class; 3] = [Class::FaultVerb, Class::Act, Class::Verb];

/// Settles the classes of words that could be several, by their neighbours.
pub(crate) fn settle(tokens: &mut [Token]) {
    for at in 0..tokens.len() {
        if is_number_of_one(tokens, at) {
            if let Some(token) = tokens.get_mut(at) {
                token.what = What::Word;
                token.classes = crate::lexicon::Classes::default();
                token.classes.add(Class::Thing);
            }
            continue;
        }
        match role(tokens, at) {
            Some(Role::Name) => drop(tokens, at, &[Class::FaultVerb]),
            Some(Role::Verb) => drop(tokens, at, &[Class::Thing, Class::FaultNoun]),
            None => {}
        }
    }
}

enum Role {
    Name,
    Verb,
}

fn drop(tokens: &mut [Token], at: usize, classes: &[Class]) {
    if let Some(token) = tokens.get_mut(at) {
        for class in classes {
            token.classes.take(*class);
        }
    }
}

/// The role of a word that could be a name and a verb.
fn role(tokens: &[Token], at: usize) -> Option<Role> {
    let token = tokens.get(at)?;
    if token.what != What::Word || !token.any(&NAMES) || !token.any(&VERBS) {
        return None;
    }
    let before = at.checked_sub(1).and_then(|b| tokens.get(b));
    let after = tokens.get(at + 1);
    let told = after.is_some_and(|next| {
        next.what == What::Word
            && (next.any(&[Class::Be, Class::Have, Class::Modal])
                || next.any(&[Class::NotDone, Class::Not])
                || next.is(Class::Done) && !next.any(&[Class::Prep, Class::Thing]))
    });
    let named = before.is_some_and(|b| {
        b.amount().is_some_and(|a| a.unit == Unit::None)
            || b.what == What::Word && (b.is(Class::Det) && !b.is(Class::Pron) || b.is(Class::Side))
    });
    if named || told {
        return Some(Role::Name);
    }
    let somebody = before.is_some_and(|b| {
        b.what == What::Word
            && (matches!(
                b.text.as_str(),
                "it" | "they" | "which" | "he" | "she" | "still" | "always"
            ) || b.is(Class::Modal))
    });
    if somebody {
        return Some(Role::Verb);
    }
    let singular = before.is_some_and(|b| {
        b.what == What::Word && is_content(b) && !b.text.ends_with('s') && !b.any(&[Class::Done])
    });
    let ends = after.is_none_or(|next| {
        next.mark().is_some()
            || next.what == What::Word
                && (next.any(&[Class::Prep, Class::Det, Class::Adv, Class::Conj])
                    && !next.is(Class::Thing))
    });
    (singular && ends && token.text.ends_with('s') && token.is(Class::FaultVerb))
        .then_some(Role::Verb)
}

/// Words of things that are told apart by numbers.
const NUMBERED: [&str; 38] = [
    "number",
    "item",
    "loop",
    "zone",
    "flat",
    "unit",
    "bay",
    "pane",
    "window",
    "step",
    "riser",
    "tread",
    "circuit",
    "plot",
    "lot",
    "level",
    "phase",
    "stage",
    "bedroom",
    "bath",
    "bathroom",
    "radiator",
    "light",
    "socket",
    "door",
    "post",
    "panel",
    "frame",
    "box",
    "valve",
    "joint",
    "row",
    "course",
    "board",
    "riser number",
    "no",
    "sheet",
    "drawing",
];

/// Whether a number names one of several: `loop six`, `number nine`.
fn is_number_of_one(tokens: &[Token], at: usize) -> bool {
    let Some(amount) = tokens.get(at).and_then(Token::amount) else {
        return false;
    };
    let Some(before) = at.checked_sub(1).and_then(|b| tokens.get(b)) else {
        return false;
    };
    let small = amount.unit == Unit::None
        && amount.manner == Manner::Full
        && amount
            .number
            .as_whole()
            .is_some_and(|n| (1..=40).contains(&n));
    let numbered = before.what == What::Word && NUMBERED.contains(&before.text.as_str());
    let listed = tokens.get(at + 1).is_some_and(|next| {
        next.mark() == Some(',') && tokens.get(at + 2).is_some_and(|t| t.amount().is_some())
            || next.amount().is_some()
            || next.text == "by"
    });
    let counted = at
        .checked_sub(2)
        .and_then(|b| tokens.get(b))
        .is_some_and(|t| t.amount().is_some());
    let always = matches!(
        before.text.as_str(),
        "number" | "item" | "loop" | "zone" | "circuit"
    );
    small
        && numbered
        && !counted
        && (always
            || !listed
                && tokens.get(at + 1).is_some_and(|next| {
                    next.what == What::Word
                        && next.any(&[
                            Class::Be,
                            Class::Have,
                            Class::Done,
                            Class::NotDone,
                            Class::Prep,
                            Class::FaultVerb,
                            Class::Wrong,
                        ])
                        && !matches!(
                            next.text.as_str(),
                            "in" | "of"
                                | "off"
                                | "out"
                                | "short"
                                | "over"
                                | "under"
                                | "shy"
                                | "proud"
                                | "low"
                        )
                }))
}
