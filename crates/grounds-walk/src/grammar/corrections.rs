//! What takes back or mends what was just said.

use super::scene::recent_mut;
use super::{Class, Clause, Kind, Link, Noun, Reader, Role, Tense, figure, state};
use crate::clauses;

impl Reader<'_> {
    /// Reads a clause that corrects the one before it; false if it does not.
    pub(super) fn correction(&mut self, clause: &Clause) -> bool {
        let tokens = &clause.tokens;
        if self.i_said(clause) {
            return true;
        }
        let Some(first) = tokens.first() else {
            return false;
        };
        if tokens.iter().any(|t| {
            matches!(
                t.text.as_str(),
                "strike that"
                    | "scratch that"
                    | "forget that"
                    | "ignore that"
                    | "delete that"
                    | "take that out"
            )
        }) {
            if let Some(fact) = self.last_fact() {
                fact.dropped = true;
            }
            return true;
        }
        let taken_back = first.is(Class::Correct) && first.text != "actually";
        let rest = tokens.get(1..).unwrap_or_default();
        if first.text == "no" && rest.first().is_some_and(crate::noun::is_content) {
            // "no rail": a denial, not a correction; "no the rail's in" has its article.
            return false;
        }
        if !taken_back {
            return self.or_is_it(clause);
        }
        if rest.is_empty() {
            self.take_back_doubtful();
            return true;
        }
        if let [only] = rest {
            if let Some(amount) = only.amount().copied()
                && let Some(fact) = self.last_fact()
            {
                if let Some(last) = fact.figures.last_mut() {
                    let of = last.of.clone();
                    *last = figure(amount, Role::Found, of);
                }
                return true;
            }
            if let Some(when) = only.when().copied() {
                let dated = self.date(&when, Tense::Coming);
                if let Some(fact) = self.last_fact() {
                    fact.dated = Some(dated);
                    return true;
                }
            }
        }
        let inner = Clause {
            link: Link::Comma,
            tokens: rest.to_vec(),
        };
        self.retarget(rest) || {
            let before = self.facts.len();
            self.clause(&inner, None);
            self.drop_contradicted(before);
            true
        }
    }

    /// `I said Wednesday, it's Thursday`: what carried the first date no longer stands.
    fn i_said(&mut self, clause: &Clause) -> bool {
        let tokens = &clause.tokens;
        let said = tokens
            .iter()
            .position(|token| matches!(token.text.as_str(), "said" | "told you" | "wrote"))
            .filter(|at| *at >= 1 && tokens.get(at - 1).is_some_and(|t| t.is(Class::FirstPerson)));
        let Some(at) = said else {
            return false;
        };
        let rest = tokens.get(at + 1..).unwrap_or_default();
        if let Some(when) = rest.first().and_then(|token| token.when()).copied() {
            let dated = self.date(&when, Tense::Coming);
            if let Some(fact) = recent_mut(&mut self.facts).find(|fact| fact.dated == Some(dated)) {
                fact.dropped = true;
                let thing = fact.thing.clone();
                self.subject = Some(thing);
            }
            return true;
        }
        false
    }

    /// `or is it the sweep`: the last fault and what was to be done about it are in doubt.
    fn or_is_it(&mut self, clause: &Clause) -> bool {
        let words: Vec<&str> = clause
            .tokens
            .iter()
            .map(|t| t.text.as_str())
            .take(3)
            .collect();
        let asks = matches!(
            words.as_slice(),
            ["or", "is", "it"] | ["is", "it", ..] | ["or", "was", "it"]
        );
        if !asks || clause.link != Link::Or && words.first() != Some(&"or") {
            return false;
        }
        self.take_back_doubtful();
        true
    }

    /// Drops the last fault or step: somebody doubts it aloud.
    fn take_back_doubtful(&mut self) {
        let sentence = self.sentence;
        if let Some(fact) = recent_mut(&mut self.facts)
            .find(|fact| !fact.dropped)
            .filter(|fact| fact.sentence + 1 >= sentence)
            .filter(|fact| matches!(fact.kind, Kind::Wrong | Kind::Next))
        {
            fact.dropped = true;
        }
    }

    /// `no, it's the wall`: the fault is another thing's.
    fn retarget(&mut self, rest: &[super::Token]) -> bool {
        let mut after = rest
            .iter()
            .position(|token| token.any(&[Class::Be]))
            .map_or(0, |at| at + 1);
        let pronoun = rest.first().is_some_and(|t| t.text == "it");
        if !pronoun {
            after = 0;
        }
        let named = rest.get(after..).unwrap_or_default();
        let fine = state::find(named).is_some();
        let has_article = named.first().is_some_and(|t| t.is(Class::Det));
        if !pronoun || !has_article || clauses::is_verb(named, 2) {
            return false;
        }
        let noun = Noun::of(named);
        if fine {
            // "no, it's the right side": what was said to be wrong is not.
            self.take_back_doubtful();
            return true;
        }
        let sentence = self.sentence;
        let wrong = recent_mut(&mut self.facts)
            .find(|fact| fact.sentence + 2 >= sentence && matches!(fact.kind, Kind::Wrong));
        self.subject = Some(noun.clone());
        match wrong {
            Some(fact) => {
                fact.dropped = true;
                let confidence = fact.confidence.saturating_sub(5);
                let detail = fact.detail.clone();
                if let Some(fact) = self.fact(Kind::Wrong, &noun, confidence) {
                    fact.detail = detail;
                }
                true
            }
            None => false,
        }
    }

    /// Drops what the facts from a place on contradict: same thing, opposite state.
    fn drop_contradicted(&mut self, from: usize) {
        let new: Vec<(Kind, Noun)> = self
            .facts
            .iter()
            .skip(from)
            .map(|fact| (fact.kind, fact.thing.clone()))
            .collect();
        let sentence = self.sentence;
        for fact in self.facts.iter_mut().take(from).rev().take(4) {
            let near = fact.sentence + 2 >= sentence;
            let same = new.iter().any(|(kind, thing)| {
                fact.thing.shares_word(thing)
                    && (*kind == fact.kind || super::answers::opposite(*kind) == Some(fact.kind))
            });
            if near && same {
                fact.dropped = true;
            }
        }
    }
}
