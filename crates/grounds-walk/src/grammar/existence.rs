//! What there is, what something has, and what it lacks: `there is no rail`, `it has a crack`.

use super::{
    Class, Kind, Noun, Reader, Token, What,
    parsed::{Parsed, by_person, by_somebody},
    state::{self, State},
};
use crate::numbers::Unit;

impl Reader<'_> {
    /// `X has a crack`, `there's a drip in X`, `X's got a run in the paint`.
    pub(super) fn has_fault(&mut self, parsed: &Parsed<'_>, subject: &Noun) -> bool {
        let has = parsed.verb.is(Class::Have);
        let lacks = parsed.verb.text == "has" || parsed.verb.text == "have";
        let none = parsed.complement.first().is_some_and(|t| t.text == "no")
            || parsed.chain.iter().any(|t| t.text == "no");
        if has
            && lacks
            && none
            && !by_somebody(parsed.subject)
            && !parsed
                .complement
                .iter()
                .any(|t| t.any(&[Class::FaultNoun, Class::Idle]))
        {
            let part = Noun::of(parsed.complement);
            if !part.is_empty() {
                let whole = self.resolve(subject);
                let thing = part.with(&whole);
                self.state_fact(Kind::NotDone, &thing, parsed, 82);
                return true;
            }
        }
        let fault = parsed
            .complement
            .iter()
            .position(|t| t.what == What::Word && t.is(Class::FaultNoun));
        let article = parsed.complement.iter().take(3).any(|t| {
            matches!(
                t.text.as_str(),
                "a" | "an" | "some" | "two" | "three" | "no"
            ) || t.amount().is_some()
        });
        let Some(_) = fault.filter(|_| has && article) else {
            return false;
        };
        let thing = self.resolve(subject);
        if parsed.denied {
            return true;
        }
        let place_in = Noun::of(after_fault(parsed.complement));
        let thing = thing.with(&place_in);
        self.state_fact(Kind::Wrong, &thing, parsed, 90);
        true
    }

    /// `there's no rail`, `there's a crack in the sill`, `there are two boxes here`.
    pub(super) fn there_is(&mut self, parsed: &Parsed<'_>) -> bool {
        let complement = parsed.complement;
        let none = parsed.denied || complement.first().is_some_and(|t| t.text == "no");
        let noun = Noun::of(complement);
        if none {
            let faulty = complement
                .iter()
                .any(|t| t.any(&[Class::FaultNoun, Class::Wrong]));
            if faulty || noun.is_empty() || complement.iter().any(|t| t.is(Class::Idle)) {
                return true;
            }
            let for_it = complement.iter().any(|t| t.text == "for")
                && complement
                    .iter()
                    .any(|t| matches!(t.text.as_str(), "it" | "them" | "that"));
            let waits = self.facts.iter().rposition(|f| {
                !f.dropped && f.sentence == self.sentence && f.kind == Kind::NotDone
            });
            if let (true, Some(at)) = (for_it, waits) {
                // "It's not connected, there's no trap for it": that is why.
                if let Some(held) = self.facts.get(at).cloned() {
                    let cause = Some(format!("no {}", noun.text()));
                    self.facts.push(super::Fact {
                        kind: Kind::Blocked,
                        cause,
                        confidence: 86,
                        ..held
                    });
                }
                return true;
            }
            let of_it = complement
                .first()
                .is_some_and(|t| t.text.starts_with("none"))
                || parsed.chain.iter().any(|t| t.text == "none");
            let thing = match (&self.subject, of_it) {
                // "There's none on the north wall."
                (Some(subject), true) => subject.clone().with(&noun),
                _ => self.resolve(&noun),
            };
            let kind = if complement
                .iter()
                .any(|t| matches!(t.text.as_str(), "on site" | "here"))
            {
                Kind::NotDelivered
            } else {
                Kind::NotDone
            };
            self.state_fact(kind, &thing, parsed, 80);
            return true;
        }
        let gap = complement.iter().all(|t| t.amount().is_none());
        let fault = complement.iter().position(|t| {
            t.what == What::Word
                && (t.any(&[Class::FaultNoun, Class::Wrong])
                    || gap && matches!(t.text.as_str(), "gap" | "gaps"))
        });
        if let Some(at) = fault {
            let where_it_is = Noun::of(complement.get(at + 1..).unwrap_or_default());
            let before = Noun::of(complement.get(..at).unwrap_or_default());
            let described = complement
                .get(at)
                .is_some_and(|t| t.is(Class::Wrong) && !t.is(Class::FaultNoun));
            let thing = if described && !before.is_empty() {
                // "There's a tile cracked by the door."
                before.with(&where_it_is)
            } else if where_it_is.is_empty() {
                Noun::of(complement).with(&self.subject.clone().unwrap_or_default())
            } else {
                where_it_is
            };
            let thing = self.resolve(&thing);
            self.state_fact(Kind::Wrong, &thing, parsed, 86);
            return true;
        }
        if complement
            .iter()
            .any(|t| matches!(t.text.as_str(), "sticker" | "tag" | "label" | "note"))
        {
            self.aside = Some(noun.clone());
        }
        if let Some(found) = state::find(complement)
            && let State::Is(kind) = found.state
            && (kind == Kind::NotDone
                || kind == Kind::Delivered
                    && complement
                        .get(found.at)
                        .is_some_and(|t| matches!(t.text.as_str(), "here" | "on site")))
        {
            let noun = Noun::of(complement.get(..found.at).unwrap_or_default());
            let thing = self.resolve(&noun);
            self.state_fact(kind, &thing, parsed, 75);
            return true;
        }
        let back = self.subject.clone().unwrap_or_default();
        self.subject = Some(noun.with(&back));
        self.aside = Some(noun);
        true
    }

    /// `ceiling's had its two coats`: what it had is done.
    pub(super) fn has_had(&mut self, parsed: &Parsed<'_>) -> bool {
        let had = self.words_of(parsed).contains(&"had".to_owned());
        let noun = Noun::of(parsed.complement);
        let coats = parsed.complement.iter().any(|t| {
            t.amount().is_some_and(|a| a.unit == Unit::Coat)
                || matches!(
                    t.text.as_str(),
                    "coat" | "coats" | "mist coat" | "wash" | "sanding"
                )
                || t.text.ends_with(" coat")
                || t.text.ends_with(" coats")
        });
        if !had || !coats || by_person(parsed.subject) {
            return false;
        }
        let subject = Noun::of(parsed.subject);
        let thing = self.resolve(&subject);
        let thing = thing.with(&noun);
        let kind = if parsed.denied {
            Kind::NotDone
        } else {
            Kind::Done
        };
        self.state_fact(kind, &thing, parsed, 86);
        true
    }

    pub(super) fn words_of(&self, parsed: &Parsed<'_>) -> Vec<String> {
        parsed
            .chain
            .iter()
            .chain(std::iter::once(parsed.verb))
            .map(|t| t.text.clone())
            .collect()
    }
}

/// Whether a clause begins with *there*.
pub(super) fn there(subject: &[Token]) -> bool {
    subject.first().is_some_and(|t| t.text == "there")
}

/// What stands after the first fault noun: where the fault is.
fn after_fault(tokens: &[Token]) -> &[Token] {
    let at = tokens
        .iter()
        .position(|t| t.is(Class::FaultNoun))
        .map_or(tokens.len(), |at| at + 1);
    tokens.get(at..).unwrap_or_default()
}
