//! What is needed, meant or refused: `needs sanding`, `will be in Friday`, `won't close`.

use super::{
    Class, Kind, Noun, Reader, Role, Tense, Token, What,
    blocked::text_of,
    figure,
    parsed::{Parsed, by_person, by_somebody},
    state::{self, State},
};
use crate::numbers::Unit;

impl Reader<'_> {
    /// `X needs sanding`, `X wants moving`, `X still needs a coat`.
    pub(super) fn needs(&mut self, parsed: &Parsed<'_>) -> bool {
        let complement = parsed.complement;
        let subject = Noun::of(parsed.subject);
        let Some(_first) = complement.iter().find(|t| !t.is(Class::Adv)) else {
            return false;
        };
        if parsed.denied {
            return true;
        }
        let people = by_person(parsed.subject);
        let named = if people {
            subject_or(&subject, complement, true)
        } else {
            Noun::of(complement).with(&subject)
        };
        let mut named = named;
        named.refers |= subject.refers || subject.is_empty() && !people;
        let thing = self.resolve(&named);
        if thing.is_empty() {
            return false;
        }
        let figures: Vec<_> = complement
            .iter()
            .filter_map(|t| t.amount())
            .map(|a| {
                let mut amount = *a;
                if amount.unit == Unit::None && amount.manner != crate::numbers::Manner::Full {
                    amount.unit = crate::numbers::default_unit(self.vocabulary.units);
                }
                figure(amount, Role::Told, String::new())
            })
            .collect();
        let dated = complement
            .iter()
            .find_map(|t| t.when())
            .copied()
            .map(|w| self.date(&w, Tense::Coming));
        let detail = text_of(complement);
        if let Some(fact) = self.fact(Kind::Next, &thing, 80) {
            fact.figures = figures;
            fact.dated = dated;
            fact.detail = detail;
        }
        true
    }

    /// `X will be in Friday`, `X should be here`, `X can go Monday`: a date makes it a next step.
    pub(super) fn will_be(&mut self, parsed: &Parsed<'_>) -> bool {
        let when = parsed.complement.iter().find_map(|t| t.when()).copied();
        let wants = parsed.verb.is(Class::Wanted) || parsed.verb.text == "should";
        let subject = Noun::of(parsed.subject);
        if parsed.denied {
            let thing = self.resolve(&subject);
            let done_to =
                state::find(parsed.complement).filter(|found| found.state == State::Is(Kind::Done));
            let passive = parsed.complement.first().is_some_and(|t| t.text == "be")
                || parsed.chain.iter().any(|t| t.text == "be");
            if let (Some(found), true) = (done_to, passive && when.is_none()) {
                // "It'll not be sanded till it is."
                let cause = self.last_denial();
                let thing = self.with_work(&thing, parsed.complement.get(found.at));
                self.state_fact(Kind::Blocked, &thing, parsed, 82);
                if let Some(fact) = self.facts.last_mut() {
                    fact.cause = cause;
                }
                return true;
            }
            let able = parsed.complement.first().is_some_and(|t| {
                t.what == What::Word
                    && !STEADY.contains(&t.text.split(' ').next().unwrap_or_default())
                    && (t.any(&[Class::Act, Class::Verb, Class::FaultVerb, Class::Soft])
                        || t.text.starts_with("back")
                        || t.classes.is_empty())
            });
            let refuses = able
                && !by_somebody(parsed.subject)
                && when.is_none()
                && matches!(parsed.verb.text.as_str(), "will" | "would")
                && parsed.complement.first().is_none_or(|t| t.text != "be");
            if refuses {
                self.state_fact(Kind::Wrong, &thing, parsed, 80);
            }
            return true;
        }
        let returns =
            parsed
                .subject
                .iter()
                .find_map(|t| self.person_name(t))
                .filter(|_| {
                    parsed.chain.iter().chain(parsed.complement).any(|t| {
                        matches!(t.text.as_str(), "come" | "come back" | "be back" | "return")
                    })
                });
        if let (Some(who), None) = (returns, when) {
            let at = parsed
                .complement
                .iter()
                .position(|t| matches!(t.text.as_str(), "for" | "to") && t.what == What::Word);
            let work = Noun::of(
                at.and_then(|at| parsed.complement.get(at + 1..))
                    .unwrap_or_default(),
            );
            let thing = work.with(&subject);
            if let Some(fact) = self.fact(Kind::Next, &thing, 80) {
                fact.who = Some(who);
                fact.detail = text_of(parsed.complement);
            }
            return true;
        }
        let Some(when) = when else {
            let out = state::find(parsed.complement)
                .is_some_and(|found| found.state == State::Is(Kind::Wrong));
            let has_to = parsed.verb.is(Class::Will)
                || parsed
                    .chain
                    .iter()
                    .any(|t| matches!(t.text.as_str(), "to" | "got to"))
                || parsed
                    .complement
                    .first()
                    .is_some_and(|t| matches!(t.text.as_str(), "have to" | "need to" | "got to"));
            if out && !wants && !has_to {
                let thing = self.resolve(&subject);
                self.state_fact(Kind::Wrong, &thing, parsed, 80);
                return true;
            }
            let must = parsed.verb.is(Class::Will)
                && matches!(
                    parsed.verb.text.as_str(),
                    "has to"
                        | "have to"
                        | "needs to"
                        | "need to"
                        | "must"
                        | "is to"
                        | "are to"
                        | "got to"
                        | "ought to"
                        | "should"
                )
                || parsed
                    .complement
                    .first()
                    .is_some_and(|t| matches!(t.text.as_str(), "have to" | "need to" | "got to"));
            let amount = parsed.complement.iter().any(|t| t.amount().is_some());
            if must && !amount && !by_somebody(parsed.subject) && !wants {
                let thing = self.resolve(&subject);
                self.state_fact(Kind::Next, &thing, parsed, 80);
                return true;
            }
            if !subject.is_empty() && !by_person(parsed.subject) {
                self.resolve(&subject);
            }
            return true;
        };
        let people = by_person(parsed.subject) && subject.words.is_empty();
        let comes = people
            && parsed
                .subject
                .iter()
                .all(|t| matches!(t.text.as_str(), "he" | "she"))
            && parsed.complement.iter().any(|t| t.text == "here");
        if comes {
            return true;
        }
        if parsed
            .complement
            .iter()
            .any(|t| t.any(&[Class::Wrong]) && !t.any(&[Class::Particle]))
        {
            let thing = self.resolve(&subject);
            self.state_fact(Kind::Wrong, &thing, parsed, 80);
            return true;
        }
        let object = Noun::of(parsed.complement);
        let named = subject_or(&subject, parsed.complement, people && !object.is_empty());
        let thing = self.resolve(&named);
        let dated = self.date(&when, Tense::Coming);
        let detail = text_of(parsed.complement);
        let who = parsed.subject.iter().find_map(|t| self.person_name(t));
        if let Some(fact) = self.fact(Kind::Next, &thing, 84) {
            fact.dated = Some(dated);
            fact.detail = detail;
            fact.who = who.or_else(|| fact.who.take());
            if wants {
                fact.certainty = fact.certainty.max(super::Certainty::Hedged);
            }
        }
        true
    }
}

/// What a thing can be said not to do without refusing.
const STEADY: [&str; 27] = [
    "be", "have", "happen", "matter", "need", "take", "know", "dry", "cure", "make", "arrive",
    "get", "change", "help", "want", "cost", "last", "do", "bother", "say", "tell", "hurt", "show",
    "lose", "harden", "see", "notice",
];

/// The subject, or what the predicate names when the subject is somebody or nothing.
fn subject_or(subject: &Noun, complement: &[Token], object: bool) -> Noun {
    if object {
        let noun = Noun::of(complement);
        if noun.is_empty() {
            subject.clone()
        } else {
            noun
        }
    } else {
        subject.clone()
    }
}
