//! Clauses whose verb is a full one: `panel came`, `I scribed the kick`, `door drags on it`.

use crate::dates::When;

use super::{
    Class, Clause, Kind, Noun, Reader, Role, Tense, Token, What,
    blocked::text_of,
    figure,
    parsed::by_person,
    state::{self, State},
};

/// What somebody does that changes nothing in the house.
pub(super) const NO_WORK: [&str; 45] = [
    "checked",
    "looked",
    "saw",
    "seen",
    "noticed",
    "asked",
    "told",
    "called",
    "rang",
    "phoned",
    "texted",
    "emailed",
    "counted",
    "thought",
    "wanted",
    "liked",
    "tried",
    "walked",
    "talked",
    "wondered",
    "worried",
    "promised",
    "needed",
    "used",
    "learned",
    "turned",
    "shut",
    "opened",
    "pressed",
    "lifted",
    "pushed",
    "pulled",
    "walked on",
    "tapped",
    "touched",
    "ran",
    "left",
    "read",
    "counted",
    "shook",
    "reported",
    "noted",
    "mentioned",
    "flagged",
    "logged",
];

/// Tools of the one who looks: putting them on something is no work.
pub(super) const TOOLS: [&str; 24] = [
    "bucket",
    "marble",
    "flow",
    "thermometer",
    "anemometer",
    "multimeter",
    "camera",
    "string",
    "ruler",
    "probe",
    "spirit level",
    "straight edge",
    "tape",
    "level",
    "meter",
    "straightedge",
    "laser",
    "square",
    "torch",
    "rule",
    "gauge",
    "plumb bob",
    "ball",
    "finger",
];

impl Reader<'_> {
    /// Reads a clause with a full verb; false if it has none that tells.
    pub(super) fn active(&mut self, clause: &Clause) -> bool {
        let tokens = clause.tokens.as_slice();
        self.somebody_did(tokens) || self.something_did(tokens)
    }

    /// `I scribed the kick`, `they sent the wrong one`, `glass guy measured yesterday`.
    fn somebody_did(&mut self, tokens: &[Token]) -> bool {
        if let Some(at) = tokens.iter().position(|t| {
            matches!(
                t.text.as_str(),
                "checked" | "counted" | "measured" | "tried" | "pressed"
            )
        }) && by_person(tokens.get(..at).unwrap_or_default())
        {
            let object = Noun::of(tokens.get(at + 1..).unwrap_or_default());
            if object.is_empty() && tokens.iter().any(|t| t.is(Class::FirstPerson)) {
                return true;
            }
            if !object.is_empty()
                && !object.refers
                && tokens.iter().any(|t| t.is(Class::FirstPerson))
            {
                self.subject = Some(object.clone());
                self.heading = Some((object, self.cue));
                return true;
            }
        }
        if self.object_first(tokens)
            || self.forgot(tokens)
            || self.not_as_ordered(tokens)
            || self.plain_verb(tokens)
        {
            return true;
        }
        let Some(at) = tokens.iter().position(|t| {
            t.what == What::Word
                && !matches!(t.text.as_str(), "went" | "gone")
                && (state::is_done_word(t)
                    || t.any(&[
                        Class::FaultVerb,
                        Class::Arrived,
                        Class::Ordered,
                        Class::Started,
                    ])
                    || matches!(
                        t.text.as_str(),
                        "did"
                            | "took"
                            | "sent"
                            | "brought"
                            | "gave"
                            | "measured"
                            | "ran out"
                            | "drew"
                            | "made"
                            | "put"
                    ))
        }) else {
            return false;
        };
        let subject = tokens.get(..at).unwrap_or_default();
        if !by_person(subject) {
            return false;
        }
        let Some(verb) = tokens.get(at) else {
            return false;
        };
        if NO_WORK.contains(&verb.text.as_str())
            || verb.is(Class::Verb)
                && !verb.any(&[Class::Done, Class::Arrived])
                && !matches!(
                    verb.text.as_str(),
                    "put" | "brought" | "sent" | "took" | "gave" | "made"
                )
        {
            return false;
        }
        let object_tokens = tokens.get(at + 1..).unwrap_or_default();
        if object_tokens
            .iter()
            .any(|t| TOOLS.contains(&t.text.as_str()))
        {
            // "I put the flow hood on that fan": what it is put on is read.
            let onto = object_tokens
                .iter()
                .position(|t| t.what == What::Word && t.is(Class::Prep))
                .and_then(|at| object_tokens.get(at + 1..))
                .map(Noun::of)
                .filter(|noun| !noun.is_empty() && !noun.refers);
            if let Some(noun) = onto {
                self.subject = Some(noun.clone());
                self.topic = Some(noun);
            }
            self.gauging = Some(self.sentence);
            return true;
        }
        let mut object = Noun::of(object_tokens);
        if object.is_empty()
            && matches!(verb.text.as_str(), "changed" | "moved" | "switched")
            && object_tokens.iter().any(|t| t.is(Class::Pron))
        {
            return true;
        }
        object.refers |= object_tokens
            .iter()
            .any(|t| t.is(Class::Pron) && t.what == What::Word);
        let wrong = object_tokens.iter().any(|t| {
            t.what == What::Word
                && t.is(Class::Wrong)
                && !t.any(&[Class::Particle, Class::AbleNoun])
        }) || verb.any(&[Class::FaultVerb, Class::Wrong])
            && !verb.any(&[Class::Arrived, Class::Particle])
            || matches!(verb.text.as_str(), "drew");
        let kind = if wrong {
            Kind::Wrong
        } else if verb.is(Class::Ordered) {
            Kind::Next
        } else if verb.is(Class::Arrived) || matches!(verb.text.as_str(), "brought") {
            Kind::Delivered
        } else if verb.is(Class::Started) {
            Kind::Started
        } else if matches!(
            verb.text.as_str(),
            "took" | "gave" | "made" | "did" | "sent"
        ) {
            return false;
        } else {
            Kind::Done
        };
        let person = subject.iter().find_map(|t| self.person_name(t));
        let mut noun = object;
        if noun.is_empty() && !noun.refers {
            match &person {
                Some(name) => {
                    let named = Noun {
                        words: name.to_lowercase().split(' ').map(str::to_owned).collect(),
                        head: 1,
                        refers: false,
                    };
                    noun = named.with(&Noun::of(std::slice::from_ref(verb)));
                }
                None if subject.iter().any(|t| t.is(Class::Person)) => noun = Noun::of(subject),
                None => noun.refers = true,
            }
        }
        let thing = self.resolve(&noun);
        let past = kind != Kind::Next;
        let dated = tokens
            .iter()
            .find_map(|t| t.when())
            .copied()
            .map(|w| self.date(&w, if past { Tense::Past } else { Tense::Coming }));
        let figures: Vec<_> = if wrong {
            object_tokens
                .iter()
                .filter_map(|t| t.amount())
                .map(|a| figure(*a, Role::Told, String::new()))
                .collect()
        } else {
            Vec::new()
        };
        let detail = text_of(tokens);
        let confidence = if object_tokens.is_empty() { 74 } else { 82 };
        if let Some(fact) = self.fact(kind, &thing, confidence) {
            fact.dated = dated;
            fact.figures = figures;
            fact.detail = detail;
            fact.who = person.or_else(|| fact.who.take());
        }
        true
    }

    /// `they forgot the waste`, `he left out the third step`: what somebody left undone.
    fn forgot(&mut self, tokens: &[Token]) -> bool {
        let Some(at) = tokens.iter().position(|t| {
            matches!(
                t.text.as_str(),
                "forgot" | "forget" | "forgotten" | "missed" | "left out" | "left off" | "skipped"
            )
        }) else {
            return false;
        };
        let subject = tokens.get(..at).unwrap_or_default();
        let somebody = subject.iter().any(|t| {
            t.any(&[Class::ThirdPerson, Class::Person]) || matches!(t.what, What::Person(_))
        });
        let after = tokens.get(at + 1..).unwrap_or_default();
        let object = Noun::of(after);
        let about = after.first().is_some_and(|t| {
            t.any(&[Class::Det, Class::Thing, Class::Pron]) || t.amount().is_some()
        });
        if !somebody || object.is_empty() || !about || !by_person(subject) {
            return false;
        }
        let thing = self.resolve(&object);
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(Kind::NotDone, &thing, 82) {
            fact.detail = detail;
        }
        true
    }

    /// `the brackets are brass, we ordered black`: what came is not what was asked for.
    fn not_as_ordered(&mut self, tokens: &[Token]) -> bool {
        let asked = tokens.iter().position(|t| {
            matches!(
                t.text.as_str(),
                "ordered" | "asked for" | "wanted" | "specified" | "asked" | "was ordered"
            )
        });
        let Some(at) = asked.filter(|at| *at >= 1) else {
            return false;
        };
        let by_us = tokens.get(..at).is_some_and(|before| {
            before.iter().any(|t| t.is(Class::FirstPerson)) && by_person(before)
        });
        let after = tokens.get(at + 1..).unwrap_or_default();
        let else_asked = !after.is_empty()
            && after.len() <= 4
            && after.iter().all(|t| {
                t.what == What::Word
                    && (crate::noun::is_content(t)
                        || t.any(&[Class::Det, Class::Prep, Class::Pron]))
            });
        let said_before = self.came_as.is_some_and(|at| at + 1 >= self.sentence);
        if !(by_us && else_asked && said_before) {
            return false;
        }
        let thing = self.resolve(&Noun {
            refers: true,
            ..Noun::default()
        });
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(Kind::Wrong, &thing, 80) {
            fact.detail = detail;
        }
        true
    }

    /// `track in floor I checked with laser`, `closet pole i cut already`: the thing comes first.
    fn object_first(&mut self, tokens: &[Token]) -> bool {
        let Some(at) = tokens
            .iter()
            .position(|t| t.what == What::Word && t.any(&[Class::FirstPerson, Class::ThirdPerson]))
        else {
            return false;
        };
        let before = tokens.get(..at).unwrap_or_default();
        let noun = Noun::of(before);
        let Some(verb) = tokens.get(at + 1).filter(|t| t.what == What::Word) else {
            return false;
        };
        let after = tokens.get(at + 2..).unwrap_or_default();
        let end = after
            .iter()
            .position(|t| t.is(Class::Prep) && t.what == What::Word)
            .unwrap_or(after.len());
        let object = Noun::of(after.get(..end).unwrap_or_default());
        let things = before.iter().any(|t| t.is(Class::Thing))
            && before.iter().all(|t| {
                crate::noun::is_content(t)
                    || t.any(&[Class::Det, Class::Prep, Class::Adv, Class::Filler])
            });
        if at == 0 || noun.is_empty() || !things || !object.is_empty() || object.refers {
            return false;
        }
        let looks = matches!(
            crate::lexicon::stem(&verb.text).as_str(),
            "measur" | "check" | "test" | "count" | "look" | "see" | "saw" | "hear" | "try" | "tri"
        );
        if looks {
            self.subject = Some(noun.clone());
            self.topic = Some(noun.clone());
            self.heading = Some((noun, self.cue));
            self.gauging = Some(self.sentence);
            return true;
        }
        let starts = matches!(
            crate::lexicon::stem(&verb.text).as_str(),
            "start" | "begin" | "begun"
        );
        let works = state::is_done_word(verb)
            || matches!(verb.text.as_str(), "make" | "put" | "do" | "fix" | "glue")
            || verb.is(Class::Act)
                && !verb.any(&[Class::Soft, Class::Talk, Class::Decide, Class::Verb]);
        if !(works || starts) {
            return false;
        }
        let when = tokens.iter().find_map(|t| t.when()).copied();
        let ahead = when.is_some_and(When::is_ahead);
        let kind = match (ahead, starts) {
            (true, _) => Kind::Next,
            (false, true) => Kind::Started,
            (false, false) => Kind::Done,
        };
        let tense = if ahead { Tense::Coming } else { Tense::Past };
        let dated = when.map(|w| self.date(&w, tense));
        let thing = self.resolve(&noun);
        let thing = self.with_work(&thing, Some(verb));
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(kind, &thing, 78) {
            fact.dated = dated;
            fact.detail = detail;
        }
        true
    }

    /// `marek he close it`, `they change the glass`: the plain form told as the past.
    fn plain_verb(&mut self, tokens: &[Token]) -> bool {
        let Some(at) = tokens
            .iter()
            .position(|t| t.any(&[Class::ThirdPerson, Class::FirstPerson]))
        else {
            return false;
        };
        let Some(verb) = tokens.get(at + 1).filter(|t| t.what == What::Word) else {
            return false;
        };
        let told = tokens
            .get(at)
            .is_some_and(|t| matches!(t.text.as_str(), "somebody" | "someone"));
        if told {
            return matches!(verb.text.as_str(), "write" | "note" | "remember" | "tell");
        }
        let work = verb.is(Class::Act)
            && !verb.any(&[
                Class::Soft,
                Class::Talk,
                Class::Done,
                Class::Verb,
                Class::Read,
                Class::Decide,
            ])
            && !matches!(
                verb.text.as_str(),
                "check"
                    | "measure"
                    | "get"
                    | "want"
                    | "need"
                    | "test"
                    | "stop"
                    | "order"
                    | "send"
                    | "take"
                    | "bring"
                    | "ship"
                    | "deliver"
                    | "give"
                    | "leave"
                    | "keep"
            );
        let object = Noun::of(tokens.get(at + 2..).unwrap_or_default());
        let before = Noun::of(tokens.get(..at).unwrap_or_default());
        let refers = tokens
            .get(at + 2..)
            .unwrap_or_default()
            .iter()
            .any(|t| t.is(Class::Pron));
        if !work || object.is_empty() && !refers && before.is_empty() {
            return false;
        }
        let named: Vec<Token> = tokens
            .get(..at)
            .unwrap_or_default()
            .iter()
            .filter(|t| !matches!(t.what, What::Person(_)) && !t.is(Class::Person))
            .cloned()
            .collect();
        let before = Noun::of(&named);
        let mut noun = if object.is_empty() || refers && !before.is_empty() {
            before
        } else {
            object
        };
        noun.refers |= refers && noun.is_empty();
        let thing = self.resolve(&noun);
        let detail = text_of(tokens);
        let when = tokens.iter().find_map(|t| t.when()).copied();
        let ahead = when.is_some_and(When::is_ahead);
        let kind = if ahead { Kind::Next } else { Kind::Done };
        let tense = if ahead { Tense::Coming } else { Tense::Past };
        let dated = when.map(|w| self.date(&w, tense));
        if let Some(fact) = self.fact(kind, &thing, 76) {
            fact.detail = detail;
            fact.dated = dated;
        }
        true
    }

    /// `panel came`, `door drags on it`, `spray foam passed`, `one won't close`.
    fn something_did(&mut self, tokens: &[Token]) -> bool {
        if let Some(at) = plain_fault(tokens) {
            let noun = Noun::of(tokens.get(..at).unwrap_or_default());
            let thing = self.resolve(&noun);
            let detail = text_of(tokens);
            if let Some(fact) = self.fact(Kind::Wrong, &thing, 78) {
                fact.detail = detail;
            }
            return true;
        }
        let Some(at) = tokens.iter().enumerate().position(|(i, t)| {
            i > 0
                && t.what == What::Word
                && t.any(&[
                    Class::FaultVerb,
                    Class::Arrived,
                    Class::Pass,
                    Class::Fail,
                    Class::Started,
                    Class::NotArrived,
                ])
                && !matches!(t.text.as_str(), "run" | "hits")
        }) else {
            return false;
        };
        let subject = tokens.get(..at).unwrap_or_default();
        let denied = subject.iter().any(|t| t.is(Class::Not));
        // "every time it swings out it whacks the bar": the nearest pronoun is who does it.
        let pronoun = subject
            .iter()
            .rposition(|t| matches!(t.text.as_str(), "it" | "they"))
            .filter(|i| i + 2 >= subject.len() && *i > 0);
        let subject = pronoun.map_or(subject, |i| subject.get(i..).unwrap_or_default());
        let Some((State::Is(kind), confidence)) = state::at_token(tokens, at) else {
            return false;
        };
        if by_person(subject) && kind == Kind::Delivered && subject.len() <= 2 {
            return false;
        }
        let noun = Noun::of(subject);
        let thing = self.resolve(&noun);
        if thing.is_empty() {
            return false;
        }
        let after = tokens.get(at + 1..).unwrap_or_default();
        let wrong_after = after
            .iter()
            .any(|t| t.what == What::Word && t.is(Class::Wrong) && !t.any(&[Class::Particle]));
        let kind = match (denied, wrong_after) {
            (true, _) => match super::answers::opposite(kind) {
                Some(kind) => kind,
                None => return true,
            },
            (_, true) => Kind::Wrong,
            _ => kind,
        };
        let past = !matches!(kind, Kind::NotDelivered | Kind::NotDone);
        let dated = tokens
            .iter()
            .find_map(|t| t.when())
            .copied()
            .map(|w| self.date(&w, if past { Tense::Past } else { Tense::Coming }));
        let detail = text_of(tokens);
        let figures = if kind == Kind::Wrong {
            self.how_far_out(after, &thing)
        } else {
            Vec::new()
        };
        if kind == Kind::Delivered {
            self.came_as = Some(self.sentence);
        }
        if let Some(fact) = self.fact(kind, &thing, confidence) {
            fact.dated = dated;
            fact.detail = detail;
            fact.figures = figures;
        }
        true
    }
}

/// Where the plain form of a fault stands as a verb: `roof window leak when it rains`, `door stick`.
fn plain_fault(tokens: &[Token]) -> Option<usize> {
    let at = tokens.iter().position(|t| {
        t.what == What::Word
            && (t.is(Class::FaultNoun) && t.is(Class::Act)
                || matches!(
                    t.text.as_str(),
                    "leak"
                        | "drip"
                        | "stick"
                        | "rock"
                        | "wobble"
                        | "squeak"
                        | "rattle"
                        | "sag"
                        | "bind"
                        | "jam"
                        | "creak"
                ))
    })?;
    let before = tokens.get(..at)?;
    let after = tokens.get(at + 1);
    let thing = before
        .last()
        .is_some_and(|t| t.is(Class::Thing) && !t.any(&[Class::Act, Class::Det]) || t.text == "it");
    let plain = !before
        .iter()
        .any(|t| t.any(&[Class::Be, Class::Have, Class::Modal, Class::Not]))
        && before
            .first()
            .is_some_and(|t| !t.is(Class::Act) && t.amount().is_none());
    let ends = after.is_none_or(|t| {
        t.any(&[Class::When, Class::Adv, Class::Prep, Class::Conj]) || t.mark().is_some()
    });
    (at > 0 && thing && plain && ends).then_some(at)
}
