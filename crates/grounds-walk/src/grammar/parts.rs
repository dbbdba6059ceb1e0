//! Parts of a thing, done and left out: `five of six`, `all bar one`, `party wall no`, `minus a knob`.

use super::scene::{recent, recent_mut};
use super::{
    Class, Clause, Kind, Link, Noun, Reader, Role, Tense, Token, What,
    answers::opposite,
    blocked::text_of,
    figure,
    state::{self},
};
use crate::{noun::is_content, numbers::Unit};

impl Reader<'_> {
    /// `all bar the third step`, `except over the fridge`: a part is left out.
    pub(super) fn exception(&mut self, clause: &Clause) -> bool {
        let tokens = clause.tokens.as_slice();
        let Some(at) = tokens.iter().enumerate().position(|(at, t)| {
            let a_bar = at
                .checked_sub(1)
                .and_then(|before| tokens.get(before))
                .is_some_and(|before| {
                    before.is(Class::Det) && !before.is(Class::Pron) || before.is(Class::Thing)
                });
            t.what == What::Word
                && !a_bar
                && matches!(
                    t.text.as_str(),
                    "all but"
                        | "everything but"
                        | "all except"
                        | "all bar"
                        | "bar"
                        | "but for"
                        | "save for"
                        | "other than"
                        | "except"
                        | "except for"
                        | "apart from"
                        | "barring"
                        | "excepting"
                )
        }) else {
            return false;
        };
        let rest = tokens.get(at + 1..).unwrap_or_default();
        if rest.iter().any(|t| t.amount().is_some()) && !rest.iter().any(is_content) {
            return false;
        }
        let part = Noun::of(rest);
        if part.is_empty() {
            return false;
        }
        let before = Clause {
            link: clause.link,
            tokens: tokens.get(..at).unwrap_or_default().to_vec(),
        };
        let count = self.facts.len();
        let of_all = before.tokens.iter().all(|t| {
            matches!(
                t.text.as_str(),
                "all" | "most" | "everything" | "all of it" | "all of them" | "every one"
            )
        });
        let all_but = tokens.get(at).is_some_and(|t| {
            matches!(
                t.text.as_str(),
                "all but" | "everything but" | "all except" | "all bar"
            )
        });
        if at == 0 && all_but || at > 0 && of_all {
            let whole = self.resolve(&Noun::default());
            self.fact(Kind::Done, &whole, 78);
        } else if at > 0 {
            self.clause(&before, None);
        }
        let whole = self.subject.clone().unwrap_or_default();
        let fact = self
            .facts
            .get(count..)
            .and_then(|new| new.last())
            .or_else(|| {
                recent(&self.facts).find(|f| !f.dropped && f.sentence + 2 >= self.sentence)
            });
        let kind = fact.map(|f| f.kind);
        let lacking = match kind {
            Some(Kind::Done | Kind::Started) => Kind::NotDone,
            Some(Kind::Passed) => Kind::Failed,
            Some(Kind::Delivered) => Kind::NotDelivered,
            _ => return at > 0,
        };
        let thing = part.with(&whole);
        self.fact(lacking, &thing, 84);
        true
    }

    /// What was read or denied one sentence further back.
    pub(super) fn held_before(&self) -> Option<super::Fact> {
        let back = recent(&self.facts).find(|f| !f.dropped)?;
        let near = back.sentence + 3 >= self.sentence && self.so;
        (near
            && matches!(
                back.kind,
                Kind::Measured | Kind::NotDone | Kind::Wrong | Kind::Failed | Kind::Decision
            ))
        .then(|| back.clone())
    }

    /// `stubbed out with no valve on it`: the part that lacks, beside what the rest says.
    pub(super) fn without(&mut self, clause: &Clause) -> bool {
        let tokens = clause.tokens.as_slice();
        let Some(at) = tokens
            .windows(2)
            .position(|pair| matches!(pair, [a, b] if a.text == "with" && b.text == "no"))
        else {
            return false;
        };
        let part = Noun::of(tokens.get(at + 2..).unwrap_or_default());
        let faulty = tokens
            .get(at + 2..)
            .unwrap_or_default()
            .iter()
            .any(|t| t.any(&[Class::FaultNoun, Class::Ok]));
        if part.is_empty() || faulty || at == 0 {
            return false;
        }
        let rest = Clause {
            link: clause.link,
            tokens: tokens.get(..at).unwrap_or_default().to_vec(),
        };
        self.clause(&rest, None);
        let whole = self.subject.clone().unwrap_or_default();
        let thing = part.with(&whole);
        self.fact(Kind::NotDone, &thing, 82);
        true
    }

    /// `five of six fitted`, `about sixty percent`, `on one side only`.
    pub(super) fn share(&mut self, tokens: &[Token]) -> bool {
        let damp = [
            "boards",
            "board",
            "floorboards",
            "screed",
            "slab",
            "timber",
            "plaster",
            "concrete",
            "joists",
            "studs",
            "oak",
            "pine",
            "wood",
        ];
        let copula = tokens.windows(2).any(|pair| {
            matches!(pair, [a, b] if a.what == What::Word && a.is(Class::Be)
                && b.amount().is_some_and(|a| a.unit == Unit::Percent))
        });
        if copula
            && !tokens.iter().any(state::is_done_word)
            && tokens.iter().any(|t| damp.contains(&t.text.as_str()))
        {
            return false;
        }
        let reads = tokens
            .iter()
            .any(|t| t.what == What::Word && t.any(&[Class::Read, Class::AbleNoun]));
        if reads
            || tokens
                .iter()
                .any(|t| matches!(t.text.as_str(), "humidity" | "moisture"))
        {
            return false;
        }
        let of_at = tokens
            .iter()
            .position(|t| matches!(t.text.as_str(), "of" | "out of"));
        let count = of_at.filter(|at| {
            let number = |i: Option<usize>| {
                i.and_then(|i| tokens.get(i))
                    .is_some_and(|t| t.amount().is_some_and(|a| a.unit == Unit::None))
            };
            number(at.checked_sub(1)) && number(Some(at + 1))
        });
        let percent = tokens
            .iter()
            .position(|t| t.amount().is_some_and(|a| a.unit == Unit::Percent));
        let fraction = tokens
            .iter()
            .position(|t| {
                t.amount().is_some_and(|a| {
                    a.manner == crate::numbers::Manner::Fraction && a.unit == Unit::None
                })
            })
            .filter(|at| {
                tokens.get(at + 1).is_some_and(|t| {
                    t.text == "of"
                        || t.what == What::Word
                            && t.any(&[Class::Particle, Class::Done])
                            && tokens
                                .get(*at)
                                .and_then(Token::amount)
                                .is_some_and(|a| matches!(a.number.parts().1, 2..=5))
                }) && tokens
                    .iter()
                    .any(|t| state::is_done_word(t) || t.is(Class::Particle))
            });
        let Some(at) = count.map(|at| at - 1).or(percent).or(fraction) else {
            return false;
        };
        let other: Vec<Token> = tokens
            .iter()
            .filter(|t| {
                t.amount().is_none()
                    && !state::is_done_word(t)
                    && !t.any(&[Class::Particle, Class::Prep])
            })
            .cloned()
            .collect();
        let noun = Noun::of(&other);
        let thing = self.resolve(&noun);
        let figures: Vec<_> = tokens
            .get(at..)
            .unwrap_or_default()
            .iter()
            .filter_map(|t| t.amount())
            .map(|a| figure(*a, Role::Told, String::new()))
            .collect();
        // "fitted, five of six": the state before it is only begun.
        let sentence = self.sentence;
        if let Some(fact) = recent_mut(&mut self.facts).find(|f| !f.dropped)
            && fact.sentence + 1 >= sentence
            && fact.kind == Kind::Done
            && (fact.thing.words == thing.words || fact.thing.shares_word(&thing))
        {
            fact.kind = Kind::Started;
            fact.figures = figures;
            return true;
        }
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(Kind::Started, &thing, 84) {
            fact.figures = figures;
            fact.detail = detail;
        }
        true
    }

    /// `no rail`, `no colour yet`, `no oil till twelve`, `no tile in here`.
    pub(super) fn none_of(&mut self, clause: &Clause, next: Option<&Clause>) -> bool {
        let tokens = clause.tokens.as_slice();
        let not_a = tokens.first().is_some_and(|t| t.is(Class::Not))
            && tokens
                .get(1)
                .is_some_and(|t| matches!(t.text.as_str(), "a" | "an" | "one"));
        let at = if not_a {
            Some(0)
        } else {
            tokens
                .iter()
                .position(|t| matches!(t.text.as_str(), "no" | "zero"))
        };
        let Some(at) = at.filter(|at| {
            *at == 0
                || tokens.get(..*at).is_some_and(|b| {
                    b.iter().all(|t| {
                        t.any(&[Class::Conj, Class::Adv, Class::Filler, Class::Not])
                            || t.when().is_some()
                    })
                })
        }) else {
            return self.noun_no(tokens);
        };
        let rest = tokens.get(at + 1..).unwrap_or_default();
        let noun = Noun::of(rest);
        let more = rest.first().is_some_and(|t| {
            matches!(
                t.text.as_str(),
                "more" | "problem" | "need" | "rush" | "change" | "issue" | "idea" | "way" | "harm"
            )
        });
        if more || noun.is_empty() || rest.iter().any(|t| t.any(&[Class::FaultNoun, Class::Idle])) {
            return false;
        }
        let thing = self.resolve(&noun);
        let before = rest
            .windows(2)
            .any(|pair| matches!(pair, [a, b] if matches!(a.text.as_str(), "before" | "till" | "until") && b.when().is_some()));
        let until = before || next.is_some_and(|n| n.link == Link::Until);
        let dated = rest
            .iter()
            .find_map(|t| t.when())
            .copied()
            .map(|w| self.date(&w, Tense::Coming));
        let denial = self
            .denial
            .clone()
            .filter(|(_, at)| at + 2 >= self.sentence)
            .map(|(text, _)| text);
        let here = rest
            .iter()
            .any(|t| matches!(t.text.as_str(), "in here" | "this week" | "week" | "today"))
            || until;
        let cause = self.denial_in_sentence().or_else(|| self.held_before());
        let cause = denial
            .or_else(|| cause.map(|fact| format!("{} {}", fact.thing.text(), fact.kind.words())));
        let kind = if (here || self.so || self.waits) && (until || cause.is_some()) {
            Kind::Blocked
        } else if rest
            .iter()
            .any(|t| matches!(t.text.as_str(), "on site" | "here"))
        {
            Kind::NotDelivered
        } else {
            Kind::NotDone
        };
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(kind, &thing, 84) {
            fact.dated = dated.filter(|_| kind == Kind::Blocked);
            fact.detail = detail;
            if kind == Kind::Blocked && !until {
                fact.cause = cause;
            }
        }
        true
    }

    /// `party wall no, chimney breast no`: the last state denied for another part.
    pub(super) fn noun_no(&mut self, tokens: &[Token]) -> bool {
        let ends = tokens
            .last()
            .is_some_and(|t| matches!(t.text.as_str(), "no" | "not" | "nope" | "not yet" | "yet"))
            && tokens
                .iter()
                .any(|t| t.any(&[Class::No]) || t.is(Class::Not) || t.text == "no");
        let before: Vec<Token> = tokens
            .iter()
            .filter(|t| !t.any(&[Class::No, Class::Not]) && t.text != "no" && t.text != "yet")
            .cloned()
            .collect();
        let noun = Noun::of(&before);
        let told = self.sentence_certainty == super::Certainty::Hearsay;
        let Some(last) = self
            .last_state
            .filter(|_| ends && !noun.is_empty() && !told)
        else {
            return false;
        };
        let of = self.subject.clone();
        let positive = if matches!(last, Kind::NotDone | Kind::NotDelivered) {
            opposite(last).unwrap_or(last)
        } else {
            last
        };
        let Some(kind) = opposite(positive) else {
            return false;
        };
        let surface = noun
            .words
            .iter()
            .any(|w| matches!(w.as_str(), "wall" | "side" | "end" | "ceiling" | "breast"));
        let thing = match of {
            Some(of) if surface => of.with(&noun),
            _ => noun.clone(),
        };
        let keep = self.subject.clone();
        self.fact(kind, &thing, 86);
        self.last_state = Some(last);
        if !surface {
            self.subject = Some(noun);
        } else {
            self.subject = keep;
        }
        true
    }

    /// `minus a knob`, `missing a leg`: something of it lacks.
    pub(super) fn part_without(&mut self, tokens: &[Token]) -> bool {
        let Some(at) = tokens
            .iter()
            .position(|t| matches!(t.text.as_str(), "minus" | "missing" | "less" | "short"))
        else {
            return false;
        };
        let after = tokens.get(at + 1..).unwrap_or_default();
        let before = Noun::of(tokens.get(..at).unwrap_or_default());
        let lacks = after
            .first()
            .is_some_and(|t| t.is(Class::Det) || t.amount().is_some());
        let noun = Noun::of(after);
        if !lacks || noun.is_empty() || self.subject.is_none() && before.is_empty() {
            return false;
        }
        let back = self.resolve(&before);
        let thing = back.with(&noun);
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(Kind::Wrong, &thing, 86) {
            fact.detail = detail;
        }
        true
    }
}
