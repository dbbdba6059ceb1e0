//! Figures that were read: lengths, moistures, temperatures, and what they should be.

use super::scene::recent;
use super::{
    Class, Clause, Figure, Kind, Noun, Reader, Role, Token, What,
    blocked::text_of,
    figure,
    figures::{is_count, may_be_read},
    state,
};
use crate::{
    clauses::is_verb,
    noun::is_content,
    numbers::{Amount, Manner, Number, Unit},
};

/// Words beside a figure that say which way a length was taken.
pub(super) const DIMENSIONS: [&str; 14] = [
    "thick", "long", "wide", "high", "deep", "tall", "up", "across", "square", "apart", "centres",
    "centers", "down", "diameter",
];

impl Reader<'_> {
    /// Reads a clause with a figure that was read or is wanted; false if it has none.
    pub(super) fn reading(&mut self, clause: &Clause) -> bool {
        let tokens = clause.tokens.as_slice();
        let Some(first) = tokens
            .iter()
            .position(|t| t.amount().is_some_and(may_be_read))
        else {
            return false;
        };
        if is_count(tokens, first)
            || tokens
                .get(first.saturating_sub(1))
                .is_some_and(|t| t.text == "within")
        {
            return false;
        }
        let likened = first >= 2
            && tokens.get(first - 1).is_some_and(|t| t.text == "of")
            && tokens.get(first - 2).is_some_and(|t| t.text == "size");
        let rated = tokens.get(first).and_then(Token::amount).is_some_and(|a| {
            matches!(
                a.unit,
                Unit::Kilowatt | Unit::Watt | Unit::Volt | Unit::BtuPerHour
            )
        }) && !tokens
            .iter()
            .any(|t| t.what == What::Word && t.any(&[Class::Read, Class::AbleNoun, Class::Be]));
        let of_stuff = tokens.get(first + 1).is_some_and(|t| t.text == "of")
            && tokens.get(first + 2).is_some_and(is_content)
            && tokens
                .get(first)
                .and_then(Token::amount)
                .is_some_and(|a| a.said)
            && !tokens
                .iter()
                .any(|t| t.what == What::Word && t.any(&[Class::Read, Class::AbleNoun]));
        let counted_state = tokens.get(first + 1).is_some_and(|t| t.is(Class::Be))
            && tokens
                .get(first + 2)
                .is_some_and(|t| t.any(&[Class::Particle, Class::Done]) && t.what == What::Word)
            && tokens
                .get(first)
                .and_then(Token::amount)
                .is_some_and(|a| a.unit == Unit::None && a.manner == Manner::Full);
        if likened || rated || of_stuff || counted_state {
            return false;
        }
        let by_the_side = tokens.get(first + 1).is_some_and(|t| t.text == "a")
            && tokens.get(first + 2).is_some_and(|t| t.text == "side");
        if by_the_side {
            return true;
        }
        let attributive = tokens
            .get(first)
            .and_then(Token::amount)
            .is_some_and(|a| a.said)
            && tokens.get(first + 1).is_some_and(|t| {
                is_content(t)
                    && !t.any(&[
                        Class::Side,
                        Class::TooWord,
                        Class::Particle,
                        Class::AbleNoun,
                    ])
                    && !DIMENSIONS.contains(&t.text.as_str())
            });
        if attributive {
            return false;
        }
        let moved = tokens
            .iter()
            .any(|t| matches!(t.text.as_str(), "came" | "come"))
            && tokens
                .iter()
                .any(|t| matches!(t.text.as_str(), "up" | "down"));
        if moved {
            return true;
        }
        let zeros: Vec<&Amount> = tokens.iter().filter_map(|t| t.amount()).collect();
        if zeros.len() == 1 && zeros.iter().all(|a| a.number == Number::whole(0)) {
            return true;
        }
        let denied = first > 0 && tokens.get(first - 1).is_some_and(|t| t.is(Class::Not));
        let rate = tokens.get(first + 1).is_some_and(|t| t.text == "in")
            && tokens
                .get(first + 2)
                .is_some_and(|t| t.amount().is_some_and(|a| a.unit.is_time()));
        let rises = tokens.iter().any(|t| {
            t.is(Class::Read) || matches!(t.text.as_str(), "dropped" | "lost" | "fell" | "rose")
        });
        if denied || rate && !rises && self.last_was_measured() {
            return true;
        }
        if self.was_before(tokens) || self.is_out_by(tokens, first) {
            return true;
        }
        let stated = state::find(tokens.get(..first).unwrap_or_default()).is_some_and(|found| {
            matches!(found.state, state::State::Is(Kind::NotDone | Kind::Done))
                && tokens.get(found.at + 1..first).is_some_and(|b| {
                    !b.is_empty() && b.iter().all(|t| t.text == "on" || t.is(Class::Det))
                })
        });
        if stated {
            return false;
        }
        let before = tokens.get(..first).unwrap_or_default();
        let future = before
            .iter()
            .any(|t| matches!(t.text.as_str(), "will" | "not") || t.is(Class::Will));
        if future {
            return false;
        }
        if self.wanted(clause, first) {
            return true;
        }
        let wrong = state::find(tokens).is_some_and(|found| {
            found.state == state::State::Is(Kind::Wrong)
                && found.at > 0
                && (tokens
                    .get(found.at - 1)
                    .is_some_and(|t| t.text == "too" || t.amount().is_some())
                    || found.at < first
                        && tokens
                            .get(found.at)
                            .is_some_and(|t| !t.any(&[Class::Particle])))
        });
        if wrong {
            return false;
        }
        let telling = self.is_reading(tokens, first);
        if !telling {
            return false;
        }
        let subject_end = before
            .iter()
            .enumerate()
            .position(|(at, t)| {
                is_verb(tokens, at)
                    || t.is(Class::Read) && !t.is(Class::AbleNoun)
                    || at > 0 && t.is(Class::Done)
            })
            .unwrap_or(before.len());
        let mut noun = Noun::of(before.get(..subject_end).unwrap_or_default());
        let side_only = is_side(&noun);
        let speaker = before.iter().position(|t| t.is(Class::FirstPerson));
        let named = speaker
            .map(|at| Noun::of(before.get(..at).unwrap_or_default()))
            .unwrap_or_default();
        let people = before
            .get(..subject_end)
            .unwrap_or_default()
            .iter()
            .any(|t| t.any(&[Class::FirstPerson, Class::ThirdPerson]));
        if people {
            // "I've eight hundred and eighty eight to the stud": where it was read names it.
            let after: Vec<Token> = tokens
                .get(first + 1..)
                .unwrap_or_default()
                .iter()
                .take_while(|t| t.amount().is_none())
                .cloned()
                .collect();
            let read_at = before.iter().position(|t| {
                matches!(
                    t.text.as_str(),
                    "measured" | "measure" | "checked" | "taped"
                )
            });
            let between = read_at
                .and_then(|at| before.get(at + 1..))
                .map(Noun::of)
                .unwrap_or_default();
            noun = if !between.is_empty() && !between.refers {
                between
            } else if named.is_empty() {
                Noun::of(&after)
            } else {
                named
            };
            noun.refers = true;
        }
        let mut damp = false;
        if self.damp
            && tokens
                .iter()
                .filter_map(|t| t.amount())
                .any(|a| a.unit != Unit::Percent)
        {
            damp = true;
        }
        if tokens
            .iter()
            .any(|t| matches!(t.text.as_str(), "wet" | "damp"))
            && !noun.refers
        {
            noun = noun.with(&Noun {
                words: vec!["damp".to_owned(), "line".to_owned()],
                head: 0,
                refers: false,
            });
        }
        let leading = before
            .first()
            .is_some_and(|t| t.is(Class::Prep) && !t.is(Class::Thing));
        noun.refers |= leading
            || before
                .get(..subject_end)
                .unwrap_or_default()
                .iter()
                .any(|t| t.text == "it");
        noun.refers |= noun.is_empty() || side_only;
        // "Level, floor to ceiling": the words between verb and figure name it when nothing else does.
        let by_alone = noun.words.is_empty()
            && tokens.iter().any(|t| t.text == "by")
            && tokens
                .iter()
                .all(|t| t.amount().is_some() || t.text == "by")
            && !self.last_was_measured();
        let sizes = by_alone
            && self.facts.last().is_some_and(|f| {
                !f.dropped && f.kind == Kind::Next && f.sentence + 1 >= self.sentence
            });
        if sizes {
            // "Order stop. Three quarter by inch and a half.": how big what is ordered is.
            let of = Noun::default();
            let figures: Vec<Figure> = self
                .figures(tokens, &of)
                .into_iter()
                .map(|f| figure(f.amount, Role::Told, String::new()))
                .collect();
            if let Some(fact) = self.facts.last_mut() {
                fact.figures.extend(figures);
            }
            return true;
        }
        let room = self
            .place
            .and_then(|place| self.vocabulary.places.get(place))
            .filter(|_| by_alone && self.subject.is_none())
            .map(|place| crate::tokens::split_words(&place.name));
        let noun = match room {
            Some(words) => Noun {
                head: words.len(),
                words,
                refers: false,
            },
            None => noun,
        };
        let mut thing = self.resolve(&noun);
        if thing.is_empty() {
            thing = Noun::of(tokens.get(first + 1..).unwrap_or_default());
        }
        let only_able = thing
            .words
            .iter()
            .all(|word| crate::lexicon::lexicon().word(word).has(Class::AbleNoun));
        if only_able {
            // "Reveal's an eighth": the reveal of what was spoken of.
            thing = self.in_context(&thing);
        }
        let mut figures = self.figures(tokens, &thing);
        if figures.is_empty() {
            return false;
        }
        if side_only && let Some(only) = figures.first_mut() {
            only.of = text_of(before.get(..subject_end).unwrap_or_default());
        }
        let in_place = tokens.get(..first).unwrap_or_default();
        let placed = state::find(in_place).is_some_and(|found| {
            found.state == state::State::Is(Kind::Done)
                && in_place
                    .get(found.at)
                    .is_some_and(|t| t.is(Class::Particle))
                && found.at + 1 < first
        });
        if placed && !thing.is_empty() && !noun.refers {
            self.fact(Kind::Done, &thing, 86);
        }
        let detail = text_of(tokens);
        let same = self.continues(&thing);
        if let Some(at) = same
            && let Some(fact) = self.facts.get_mut(at)
        {
            fact.also.push(fact.cue);
            fact.also.push(self.cue);
            if restates(&fact.figures, &figures) {
                fact.figures = figures;
                fact.cue = self.cue;
            } else {
                fact.figures.extend(figures);
            }
            fact.thing = fact.thing.with(&thing);
            return true;
        }
        let mut thing = named_by_unit(&thing, &figures, tokens);
        if damp {
            thing = thing.with(&Noun {
                words: vec!["damp".to_owned(), "line".to_owned()],
                head: 0,
                refers: false,
            });
        }
        let wanted = std::mem::take(&mut self.wanted);
        let span = self
            .span
            .take()
            .filter(|(_, at)| at + 1 >= self.sentence)
            .map(|(amount, _)| figure(amount, Role::Told, String::new()));
        let judged = !wanted.is_empty();
        let unit_said = figures
            .iter()
            .any(|f| f.amount.said || f.amount.manner == Manner::Fraction);
        let confidence = if unit_said { 90 } else { 84 };
        if let Some(fact) = self.fact(Kind::Measured, &thing, confidence) {
            fact.figures = figures;
            fact.figures.extend(wanted);
            fact.figures.extend(span);
            fact.detail = detail;
        }
        if judged {
            let at = self
                .facts
                .iter()
                .rposition(|f| !f.dropped && f.kind == Kind::Measured);
            self.judge(at);
        }
        true
    }

    /// `that wall's out five eighths in forty two inches`: how far a thing is out.
    fn is_out_by(&mut self, tokens: &[Token], first: usize) -> bool {
        let before = tokens.get(..first).unwrap_or_default();
        let out = before
            .iter()
            .rposition(|t| matches!(t.text.as_str(), "out" | "off" | "out by" | "off by"));
        let Some(at) = out.filter(|at| {
            at + 2 >= first
                && before.get(..*at).is_some_and(|subject| {
                    subject
                        .iter()
                        .any(|t| t.any(&[Class::Be]) || t.text == "goes" || t.text == "runs")
                })
        }) else {
            return false;
        };
        let subject = before.get(..at).unwrap_or_default();
        let end = subject
            .iter()
            .position(|t| t.is(Class::Be) || matches!(t.text.as_str(), "goes" | "runs"))
            .unwrap_or(subject.len());
        let noun = Noun::of(subject.get(..end).unwrap_or_default());
        if noun.is_empty() || noun.refers || self.by_somebody_said(subject) {
            return false;
        }
        let thing = self.resolve(&noun);
        let figures = self.how_far_out(tokens, &thing);
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(Kind::Wrong, &thing, 88) {
            fact.figures = figures;
            fact.detail = detail;
        }
        true
    }

    fn by_somebody_said(&self, subject: &[Token]) -> bool {
        subject
            .iter()
            .any(|t| t.any(&[Class::FirstPerson, Class::ThirdPerson]))
    }

    /// The fact that a reading goes on with: the last one measured of the same thing, just before.
    fn continues(&self, thing: &Noun) -> Option<usize> {
        let at = self.facts.iter().rposition(|fact| !fact.dropped)?;
        let fact = self.facts.get(at)?;
        let near = fact.sentence + 1 >= self.sentence;
        let same = fact.thing.words.starts_with(&thing.words)
            || thing.words == fact.thing.words
            || is_part_of(thing, &fact.thing);
        let compared = fact.sentence == self.sentence || fact.cue == self.cue;
        (near && fact.kind == Kind::Measured && (same || compared && self.is_length(fact)))
            .then_some(at)
    }

    fn is_length(&self, fact: &super::Fact) -> bool {
        fact.figures
            .iter()
            .any(|f| f.role == Role::Found && f.amount.unit.is_length())
    }

    /// Whether a figure in the clause was read off something.
    fn is_reading(&self, tokens: &[Token], first: usize) -> bool {
        let read_word = tokens
            .iter()
            .any(|t| t.what == What::Word && t.any(&[Class::Read, Class::AbleNoun]));
        let amounts: Vec<&Amount> = tokens
            .iter()
            .filter_map(|t| t.amount())
            .filter(|a| may_be_read(a))
            .collect();
        let half = Number::fraction(1, 2);
        let explicit = amounts.iter().any(|a| {
            a.said && !a.unit.is_time()
                || a.number.as_whole().is_none() && Some(a.number) != half
                || a.manner == Manner::Digits
        });
        let of_it = tokens.get(first + 1).is_some_and(|t| t.text == "of")
            && tokens.get(first + 2).is_some_and(|t| t.is(Class::Pron));
        if of_it {
            return false;
        }
        let listed = tokens.windows(2).any(|pair| {
            pair.iter().all(|t| {
                t.amount()
                    .is_some_and(|a| a.number >= Number::whole(5) && a.unit == Unit::None)
            })
        });
        let gauged = listed
            || self.gauging.is_some_and(|at| at + 2 >= self.sentence)
                && tokens
                    .iter()
                    .all(|t| t.amount().is_some() || !is_content(t) || t.is(Class::Side));
        let headed = self
            .heading
            .as_ref()
            .is_some_and(|(_, cue)| cue + 1 >= self.cue)
            && amounts.iter().all(|a| a.number >= Number::whole(4))
            && tokens.iter().all(|t| {
                t.amount().is_some()
                    || t.any(&[
                        Class::Side,
                        Class::Det,
                        Class::Be,
                        Class::Prep,
                        Class::Conj,
                        Class::Adv,
                    ])
                    || is_content(t)
                        && t.is(Class::Thing)
                        && !t.any(&[Class::Act, Class::Done, Class::Arrived])
            });
        let goes_on = self.last_was_measured()
            && first == 0
            && tokens
                .get(1)
                .is_some_and(|t| t.any(&[Class::Prep, Class::Side, Class::Adv]));
        if gauged || headed || goes_on {
            return true;
        }
        let dimension = tokens
            .get(first + 1)
            .is_some_and(|t| DIMENSIONS.contains(&t.text.as_str()));
        let just_measured = self.last_was_measured();
        let copula = first > 0
            && (0..first).any(|at| {
                is_verb(tokens, at)
                    && tokens
                        .get(at)
                        .is_some_and(|t| t.any(&[Class::Be, Class::Have]))
            });
        let by_itself = tokens
            .iter()
            .all(|t| t.amount().is_some() || !is_content(t));
        let by = tokens.iter().any(|t| t.text == "by") && amounts.len() >= 2;
        let rising = first > 0
            && tokens.get(first - 1).is_some_and(|t| {
                matches!(
                    t.text.as_str(),
                    "dropped" | "holding" | "fell" | "rose" | "lost" | "at" | "holds" | "held"
                )
            });
        let topic_reads = self
            .subject
            .iter()
            .chain(self.heading.iter().map(|(h, _)| h))
            .any(|n| {
                n.words
                    .iter()
                    .any(|w| crate::lexicon::lexicon().word(w).has(Class::AbleNoun))
            });
        read_word
            || explicit
            || dimension
            || by
            || rising
            || just_measured && (by_itself || copula)
            || topic_reads && (copula || by_itself)
            || copula && amounts.len() >= 2
            || copula
                && !amounts.is_empty()
                && amounts
                    .iter()
                    .all(|a| a.number >= Number::whole(20) || a.number.as_whole().is_none())
    }

    fn last_was_measured(&self) -> bool {
        !self.wanted.is_empty()
            || recent(&self.facts)
                .find(|f| !f.dropped)
                .is_some_and(|f| f.kind == Kind::Measured && f.sentence + 2 >= self.sentence)
    }
}

/// Whether new figures say the old ones again, in other units or digits: `two oh four. Two metres
/// oh four.`
fn restates(old: &[Figure], new: &[Figure]) -> bool {
    let found = |figures: &[Figure]| -> Vec<Amount> {
        figures
            .iter()
            .filter(|f| f.role == Role::Found)
            .map(|f| f.amount)
            .collect()
    };
    let (old, new) = (found(old), found(new));
    old.len() == new.len()
        && old.iter().zip(&new).all(|(a, b)| {
            a == b
                || match (a.length(), b.length()) {
                    (Some(a), Some(b)) => a == b,
                    _ => a.number == b.number,
                }
        })
}

/// Whether a thing is a part of another, or the other said again: all its words are among them.
fn is_part_of(thing: &Noun, whole: &Noun) -> bool {
    !thing.is_empty() && thing.words.iter().all(|word| whole.words.contains(word))
}

/// The thing with the name of what was read, where the unit tells: `area`, `weight`.
fn named_by_unit(thing: &Noun, figures: &[Figure], tokens: &[Token]) -> Noun {
    let unit = figures.first().map(|f| f.amount.unit);
    let out = tokens.iter().any(|t| t.text == "out");
    let word = match unit {
        Some(Unit::SquareMetre | Unit::SquareFoot) => "area",
        Some(Unit::Kilogram | Unit::Pound | Unit::Tonne) => "weight",
        Some(Unit::Celsius | Unit::Fahrenheit) => "temperature",
        Some(Unit::Bar | Unit::Psi) => "pressure",
        Some(unit) if unit.is_length() && out => "level",
        _ => return thing.clone(),
    };
    thing.with(&Noun {
        words: vec![word.to_owned()],
        head: 0,
        refers: false,
    })
}

/// Whether a noun names only a side: `left`, `top`.
fn is_side(noun: &Noun) -> bool {
    !noun.is_empty()
        && noun
            .words
            .iter()
            .all(|word| crate::lexicon::lexicon().word(word).has(Class::Side))
}
