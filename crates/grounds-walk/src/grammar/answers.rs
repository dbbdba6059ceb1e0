//! Questions that are answered in the next breath, and those that are left open.

use super::{Class, Clause, Kind, Noun, Reader, Sentence, Token, What, state};
use crate::fact::Dated;

/// A question that waits for its answer.
#[derive(Clone, Debug)]
pub(super) struct Asked {
    thing: Noun,
    kind: Option<Kind>,
    sentence: usize,
    dated: Option<Dated>,
}

impl Reader<'_> {
    /// Reads a sentence as the answer to an open question; false if it is none.
    pub(super) fn answer(&mut self, sentence: &Sentence) -> bool {
        let Some(asked) = self.asked.clone() else {
            return false;
        };
        if asked.sentence + 2 < self.sentence {
            self.asked = None;
            return false;
        }
        let tokens: Vec<&Token> = sentence
            .tokens
            .iter()
            .filter(|token| token.mark().is_none())
            .collect();
        let Some(first) = tokens.first() else {
            return false;
        };
        let short = tokens.len() <= 4;
        if asked.kind == Some(Kind::Wrong)
            && first.is(Class::No)
            && tokens.get(1).is_some_and(|t| t.text == "it")
            && tokens.get(3).is_some_and(|t| t.is(Class::Det))
        {
            let named: Vec<Token> = tokens.iter().skip(4).map(|t| (*t).clone()).collect();
            let thing = Noun::of(&named);
            self.asked = None;
            self.subject = Some(thing.clone());
            self.fact(Kind::Wrong, &thing, 82);
            return true;
        }
        if let [only] = tokens.as_slice()
            && let Some(amount) = only.amount()
        {
            return self.figure_answer(&asked, *amount);
        }
        let Some(kind) = asked.kind else {
            return false;
        };
        let denied = first.is(Class::No) || tokens.iter().any(|t| t.is(Class::Not)) && short;
        let agreed = first.is(Class::Yes) && short;
        if !short || !(denied || agreed) || tokens.iter().any(|t| t.amount().is_some()) {
            return false;
        }
        let kind = if denied { opposite(kind) } else { Some(kind) };
        self.asked = None;
        if let Some(kind) = kind {
            let thing = asked.thing.clone();
            self.subject = Some(thing.clone());
            if let Some(fact) = self.fact(kind, &thing, 88) {
                fact.dated = asked.dated;
            }
        }
        true
    }

    /// A figure alone answers what was asked: `What's it doing now? Nine and a half.`
    fn figure_answer(&mut self, asked: &Asked, amount: crate::numbers::Amount) -> bool {
        let mut amount = amount;
        let spoken_of = self.last_degrees.filter(|at| at + 2 >= self.sentence);
        let words = if spoken_of.is_some() && amount.unit == crate::numbers::Unit::None {
            amount.unit = self.degree();
            vec!["temperature".to_owned()]
        } else {
            asked.thing.words.clone()
        };
        let thing = Noun {
            head: words.len(),
            words,
            refers: false,
        };
        let figures = self.figures(
            &[Token {
                text: String::new(),
                what: What::Amount(amount),
                classes: crate::lexicon::Classes::default(),
                cue: self.cue,
            }],
            &thing,
        );
        self.asked = None;
        if let Some(fact) = self.fact(Kind::Measured, &thing, 80) {
            fact.figures = figures;
        }
        true
    }

    /// Reads a sentence that asks: a choice that is open, or a question that may be answered next.
    pub(super) fn question(&mut self, clauses: &[Clause]) {
        self.asked = None;
        let all: Vec<Token> = clauses
            .iter()
            .flat_map(|clause| clause.tokens.clone())
            .collect();
        let tokens = all.as_slice();
        if tokens.iter().any(|t| t.is(Class::Idle)) || self.open_choice(tokens) {
            return;
        }
        let predicate: Vec<Token> = tokens
            .iter()
            .filter(|token| token.mark().is_none() && !token.is(Class::Filler))
            .cloned()
            .collect();
        if let [only] = predicate.as_slice()
            && only.when().is_some()
        {
            // "Monday? Tuesday.": the answer dates the last step.
            self.unsure_date = Some(self.sentence);
            return;
        }
        let Some(head) = predicate.first() else {
            return;
        };
        if head.any(&[Class::Be, Class::Have, Class::Do]) && head.what == What::Word {
            let rest = predicate.get(1..).unwrap_or_default();
            if rest
                .first()
                .is_some_and(|t| matches!(t.text.as_str(), "he" | "she" | "you" | "i" | "we"))
            {
                // "Did you get hinges?": the answer is about them.
                let object_tokens = rest.get(2..).unwrap_or_default();
                let object = Noun::of(object_tokens);
                let goods = head.text == "did"
                    && rest.get(1).is_some_and(|t| {
                        matches!(
                            t.text.as_str(),
                            "get" | "order" | "find" | "bring" | "hang" | "fit"
                        )
                    })
                    && !object_tokens
                        .iter()
                        .any(|t| t.is(Class::Side) || t.is(Class::Person));
                if goods && !object.is_empty() && !object.refers {
                    self.subject = Some(object);
                }
                return;
            }
            let found = state::find(rest);
            let verb = rest.iter().position(|t| {
                t.what == What::Word
                    && (t.text == "come" || t.is(Class::Act) && !t.any(&[Class::Thing, Class::Det]))
            });
            if let Some(at) = verb.filter(|at| *at > 0 && head.is(Class::Do)) {
                // "Did the railing come?"
                let noun = Noun::of(rest.get(..at).unwrap_or_default());
                let came = rest.get(at).is_some_and(|t| {
                    matches!(t.text.as_str(), "come" | "arrive" | "turn up" | "show up")
                });
                let thing = self.resolve(&noun);
                self.asked = Some(Asked {
                    thing,
                    kind: Some(if came { Kind::Delivered } else { Kind::Done }),
                    sentence: self.sentence,
                    dated: None,
                });
                return;
            }
            let (noun, kind) = match found {
                Some(found) => (
                    Noun::of(rest.get(..found.at).unwrap_or_default()),
                    match found.state {
                        state::State::Is(kind) => Some(kind),
                        _ => None,
                    },
                ),
                None => (Noun::of(rest), None),
            };
            let thing = self.resolve(&noun);
            self.asked = Some(Asked {
                thing,
                kind,
                sentence: self.sentence,
                dated: None,
            });
        } else if let Some(found) = state::find(&predicate)
            && let state::State::Is(kind) = found.state
            && predicate.len() <= 5
        {
            let noun = Noun::of(predicate.get(..found.at).unwrap_or_default());
            let thing = self.resolve(&noun);
            self.asked = Some(Asked {
                thing,
                kind: Some(kind),
                sentence: self.sentence,
                dated: None,
            });
        } else {
            let asked_of = predicate
                .iter()
                .rposition(|t| t.is(Class::Det) && t.what == What::Word)
                .filter(|_| head.is(Class::Which) || matches!(head.text.as_str(), "who" | "what"))
                .map(|at| Noun::of(predicate.get(at..).unwrap_or_default()))
                .filter(|noun| {
                    !noun.is_empty()
                        && noun.words.len() <= 3
                        && predicate.last().is_some_and(|t| t.is(Class::Thing))
                });
            if let Some(noun) = asked_of {
                // "Who picked this tile?": the talk is about it.
                self.subject = Some(noun);
                return;
            }
            let thing = Noun::of(&predicate);
            if !thing.is_empty()
                && !thing.refers
                && predicate.len() <= 4
                && (predicate.iter().all(crate::noun::is_content)
                    || !predicate.iter().any(|t| t.any(&[Class::Act, Class::Which])))
            {
                self.subject = Some(thing);
            }
        }
    }
}

/// What is said by denying a kind.
pub(super) fn opposite(kind: Kind) -> Option<Kind> {
    match kind {
        Kind::Done | Kind::Started => Some(Kind::NotDone),
        Kind::Delivered => Some(Kind::NotDelivered),
        Kind::NotDone => Some(Kind::Done),
        Kind::NotDelivered => Some(Kind::Delivered),
        Kind::Passed => Some(Kind::NotDone),
        Kind::Failed => Some(Kind::Passed),
        _ => None,
    }
}
