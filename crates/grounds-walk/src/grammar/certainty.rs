//! Doubt and hearsay, taken off a clause before it is read.

use super::{Certainty, Class, Clause, Link, Reader, Token, What};
use crate::tokens;

/// Tenses that make a question of a sentence without its mark: `who puts...`, `is it...`.
pub(super) fn is_question(clauses: &[Clause]) -> bool {
    let Some(first) = clauses.first() else {
        return false;
    };
    let mut tokens = first
        .tokens
        .iter()
        .skip_while(|token| token.is(Class::Filler) && token.what == What::Word);
    let head = tokens.next();
    let next = tokens.next();
    let asks = head.is_some_and(|token| {
        matches!(
            token.text.as_str(),
            "who" | "why" | "what" | "where" | "how" | "whose" | "which"
        )
    });
    let which = head.is_some_and(|token| token.text == "which");
    let verb = next.is_some_and(|token| {
        if which {
            return token.any(&[Class::Do, Class::FirstPerson, Class::Modal]);
        }
        token.any(&[
            Class::Be,
            Class::Have,
            Class::Do,
            Class::Modal,
            Class::Act,
            Class::FirstPerson,
        ]) || token.text.ends_with('s') && token.classes.is_empty()
    });
    let inverted = head.is_some_and(|token| {
        matches!(
            token.text.as_str(),
            "is" | "are"
                | "did"
                | "does"
                | "do"
                | "was"
                | "have"
                | "has"
                | "can"
                | "should"
                | "shall"
        )
    }) && next.is_some_and(|token| {
        token.any(&[
            Class::Pron,
            Class::Det,
            Class::FirstPerson,
            Class::ThirdPerson,
        ])
    });
    asks && verb || inverted
}

impl Reader<'_> {
    /// The clause without what only tells how sure it is or who says so; the certainty is kept.
    pub(super) fn strip(&mut self, clause: &Clause) -> Clause {
        let mut out: Vec<Token> = Vec::with_capacity(clause.tokens.len());
        let mut hedged = false;
        let mut told = false;
        for (at, token) in clause.tokens.iter().enumerate() {
            let word = token.what == What::Word;
            if word && token.is(Class::Hearsay) && self.is_telling(&clause.tokens, at, &out) {
                self.sentence_certainty = Certainty::Hearsay;
                told = true;
                self.take_teller(&mut out);
                continue;
            }
            let round = matches!(
                token.text.as_str(),
                "about"
                    | "around"
                    | "roughly"
                    | "approximately"
                    | "just about"
                    | "near enough"
                    | "more or less"
            ) && !clause.tokens.get(at + 1).is_none_or(|next| {
                next.amount().is_some() || next.when().is_some() || next.is(Class::Det)
            });
            let plain_hedge = word
                && !round
                && token.is(Class::Hedge)
                && !token.any(&[Class::Wanted, Class::Started])
                && !(token.is(Class::Modal) && token.text == "may");
            if plain_hedge {
                hedged = !matches!(token.text.as_str(), "nearly" | "almost") || hedged;
                continue;
            }
            let after_modal = out
                .last()
                .is_some_and(|t| t.any(&[Class::Not, Class::Modal]) || t.text == "to");
            let dropped = word
                && !after_modal
                && token.is(Class::Filler)
                && !token.any(&[Class::No, Class::Correct, Class::Side, Class::Ok])
                || word
                    && out.is_empty()
                    && token.is(Class::Filler)
                    && !token.any(&[Class::Correct, Class::No]);
            if dropped {
                continue;
            }
            out.push(token.clone());
        }
        while out.first().is_some_and(leads_nowhere) {
            out.remove(0);
        }
        if told && out.is_empty() {
            // ", they rang": who says so comes last.
            let from = self.told_from.max(self.sentence_from);
            for fact in self.facts.iter_mut().skip(from) {
                fact.certainty = Certainty::Hearsay;
            }
        }
        if hedged {
            self.hedge_rest(out.is_empty());
        }
        Clause {
            link: clause.link,
            tokens: out,
        }
    }

    /// Marks what is read next in the sentence as doubtful; when the doubt came alone, what was
    /// read before it in the sentence.
    fn hedge_rest(&mut self, alone: bool) {
        if alone {
            let from = self.sentence_from;
            for fact in self.facts.iter_mut().skip(from) {
                fact.certainty = fact.certainty.max(Certainty::Hedged);
            }
        } else if self.sentence_certainty == Certainty::Firm {
            self.sentence_certainty = Certainty::Hedged;
        }
    }

    /// Whether `says` and the like tell what somebody else holds, and not what a label reads.
    fn is_telling(&self, tokens: &[tokens::Token], at: usize, before: &[Token]) -> bool {
        let Some(token) = tokens.get(at) else {
            return false;
        };
        if !token.any(&[Class::Read, Class::Wanted, Class::Will]) && token.text.contains(' ') {
            return !before.iter().any(|t| t.is(Class::FirstPerson));
        }
        if matches!(
            token.text.as_str(),
            "apparently" | "supposedly" | "allegedly"
        ) {
            return true;
        }
        let teller = before.last();
        let dated = tokens.get(at + 1).is_some_and(|t| t.when().is_some());
        let firm = dated
            && token.text == "says"
            && teller
                .is_some_and(|t| crate::noun::is_content(t) && !LABELS.contains(&t.text.as_str()));
        if firm {
            return true;
        }
        teller.is_some_and(|teller| {
            matches!(teller.what, What::Person(_))
                || teller.any(&[Class::Person, Class::ThirdPerson])
                || teller.text == "has"
        })
    }

    /// Takes the one who tells off the head of the clause, and keeps who it is.
    fn take_teller(&mut self, out: &mut Vec<Token>) {
        let from = out
            .iter()
            .rposition(|token| {
                matches!(token.what, What::Person(_))
                    || token.any(&[Class::Person, Class::ThirdPerson])
            })
            .unwrap_or(out.len());
        if let Some(teller) = out.get(from) {
            self.speaker_said = self.person_name(teller);
        }
        // Articles before the teller go too.
        let from = out
            .get(..from)
            .unwrap_or_default()
            .iter()
            .rposition(|token| !token.any(&[Class::Det, Class::Conj]))
            .map_or(0, |before| before + 1);
        out.truncate(from);
    }

    /// A condition makes a next step doubtful: `third coat tomorrow if it stays dry`.
    pub(super) fn certain_if(&mut self, clauses: &[Clause]) {
        let conditional = self.conditional
            && clauses
                .iter()
                .any(|clause| clause.link == Link::When && !clause.tokens.is_empty());
        let from = self.sentence_from;
        for fact in self.facts.iter_mut().skip(from).rev().take(1) {
            if conditional && fact.kind == super::Kind::Next && fact.dated.is_some() {
                fact.certainty = fact.certainty.max(Certainty::Hedged);
            }
        }
    }
}

/// What says something without telling: it is written there.
const LABELS: [&str; 24] = [
    "drawing", "drawings", "book", "sheet", "plate", "sign", "tag", "sticker", "gauge", "meter",
    "label", "notes", "paper", "box", "spec", "plan", "county", "code", "can", "tin", "tape",
    "laser", "schedule", "it",
];

fn leads_nowhere(token: &Token) -> bool {
    token.what == What::Word
        && (token.any(&[Class::Conj])
            || token.is(Class::Filler) && !token.any(&[Class::Correct, Class::No]))
}
