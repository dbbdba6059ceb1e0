//! Clauses with a small verb as subject and predicate, and whether the subject is somebody.

use super::{Class, Token, What};
use crate::{clauses::is_verb, noun::is_content};

/// A clause as subject and predicate.
pub(super) struct Parsed<'t> {
    pub(super) subject: &'t [Token],
    pub(super) verb: &'t Token,
    pub(super) denied: bool,
    pub(super) chain: &'t [Token],
    pub(super) complement: &'t [Token],
}

/// The clause as subject and predicate, if it has a small verb.
pub(super) fn parse(tokens: &[Token]) -> Option<Parsed<'_>> {
    let at = (0..tokens.len()).find(|at| is_verb(tokens, *at))?;
    let subject = tokens.get(..at)?;
    let verb = tokens.get(at)?;
    let rest = tokens.get(at + 1..)?;
    let chain = rest
        .iter()
        .take_while(|t| {
            t.what == What::Word
                && t.any(&[
                    Class::Be,
                    Class::Have,
                    Class::Do,
                    Class::Not,
                    Class::Adv,
                    Class::Filler,
                    Class::Hedge,
                ])
                && !t.any(&[
                    Class::Particle,
                    Class::Arrived,
                    Class::Started,
                    Class::Prep,
                    Class::Wrong,
                    Class::Ok,
                    Class::Will,
                ])
                || t.text == "got"
        })
        .count();
    let complement = rest.get(chain..)?;
    let denied = rest.get(..chain)?.iter().any(|t| t.is(Class::Not))
        || subject.iter().any(|t| {
            matches!(
                t.text.as_str(),
                "none" | "none of" | "neither" | "nothing" | "nobody" | "no one"
            )
        })
        || subject.first().is_some_and(|t| t.text == "no")
        || rest.get(..chain)?.iter().any(|t| t.text == "no");
    Some(Parsed {
        subject,
        verb,
        denied,
        chain: rest.get(..chain)?,
        complement,
    })
}

/// Whether the subject can only be somebody: `I`, `he`, a trade.
pub(super) fn by_somebody(subject: &[Token]) -> bool {
    by_person(subject)
        && !subject.iter().all(|t| {
            matches!(t.text.as_str(), "they")
                || !t.any(&[Class::ThirdPerson, Class::FirstPerson, Class::Person])
                    && !matches!(t.what, What::Person(_))
        })
}

/// Whether the subject is somebody and not something.
pub(super) fn by_person(subject: &[Token]) -> bool {
    let people = subject.iter().any(|t| {
        t.any(&[Class::FirstPerson, Class::ThirdPerson, Class::Person])
            || matches!(t.what, What::Person(_))
            || matches!(t.text.as_str(), "nobody" | "no one")
    });
    let things = subject
        .iter()
        .any(|t| is_content(t) && !t.is(Class::Person) && !matches!(t.what, What::Person(_)));
    people && !things
}
