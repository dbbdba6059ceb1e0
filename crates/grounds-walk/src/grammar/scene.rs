//! What talk leans on: the thing in hand, the heading over it, the facts so far.

use crate::signs::Signs;

use super::{Class, Dated, Fact, Kind, Noun, Reader, Tense, Token, What, When, state};

impl Reader<'_> {
    pub(super) fn remember_person(&mut self, tokens: &[Token]) {
        if let Some(token) = tokens
            .iter()
            .rev()
            .find(|t| matches!(t.what, What::Person(_)) || t.is(Class::Person))
        {
            self.person = Some((Noun::of(std::slice::from_ref(token)), token.cue));
        }
    }

    /// The place that a clause's subject stands in or belongs to: `the gas meter in the garage`.
    pub(super) fn place_of_subject(&self, tokens: &[Token]) -> Option<usize> {
        let verb = (0..tokens.len()).find(|at| crate::clauses::is_verb(tokens, *at))?;
        tokens
            .get(..verb)?
            .iter()
            .find_map(|token| match token.what {
                What::Place(place) => Some(place),
                _ => None,
            })
    }

    /// The thing that a noun means: itself, what it points back to, or both.
    pub(super) fn resolve(&mut self, noun: &Noun) -> Noun {
        let back = self
            .pending
            .clone()
            .or_else(|| self.subject.clone())
            .or_else(|| self.heading.as_ref().map(|(heading, _)| heading.clone()));
        let thing = match back {
            Some(back) if noun.is_empty() => back,
            Some(back) if noun.refers || is_part(noun) || back.ends_as(noun) => noun.with(&back),
            _ => noun.clone(),
        };
        if !thing.is_empty() && can_be_meant(&thing) {
            self.subject = Some(thing.clone());
            if self.topic.is_none() {
                self.topic = Some(thing.clone());
            }
            if self
                .cue_topic
                .as_ref()
                .is_none_or(|(_, cue)| *cue != self.cue)
            {
                self.cue_topic = Some((thing.clone(), self.cue));
            }
        }
        thing
    }

    /// The thing with the first thing of the cue behind it, where it only points back or is a step
    /// to take.
    pub(super) fn in_context(&self, thing: &Noun) -> Noun {
        match &self.cue_topic {
            Some((topic, cue)) if self.cue == *cue => thing.with(topic),
            _ => thing.clone(),
        }
    }

    /// The heading that a thing stands under, if it is another than the thing itself.
    pub(super) fn under(&self, thing: &Noun) -> Option<Noun> {
        let (heading, cue) = self.heading.as_ref()?;
        let near = self.cue == *cue
            || self.cue == cue + 1 && (is_part(thing) || thing.shares_word(heading))
            || self.cue <= cue + 2 && self.speakers && thing.words.len() == 1;
        (near && heading.words != thing.words).then(|| heading.clone())
    }

    /// A new fact of a kind about a thing; nothing when there is no thing.
    pub(super) fn fact(&mut self, kind: Kind, thing: &Noun, confidence: u8) -> Option<&mut Fact> {
        if thing.is_empty() || is_idle(thing) {
            return None;
        }
        let mut named = thing.clone();
        if let Some(heading) = self.under(thing) {
            named = named.with(&heading);
        }
        if let Some(begun) = self.under_way.as_ref().filter(|_| thing.words.len() <= 2) {
            // "Rainwater tank, the filter's in.": the filter of the tank.
            named = named.with(begun);
        }
        if matches!(
            kind,
            Kind::Done | Kind::Delivered | Kind::Started | Kind::NotDone
        ) {
            self.last_state = Some(kind);
        }
        let opposed = match kind {
            Kind::Delivered => Some(Kind::NotDelivered),
            Kind::NotDelivered => Some(Kind::Delivered),
            _ => None,
        };
        let (cue, speakers) = (self.cue, self.speakers);
        if let Some(old) = recent_mut(&mut self.facts).take(3).find(|old| {
            speakers
                && !old.dropped
                && Some(old.kind) == opposed
                && old.cue + 2 >= cue
                && old.cue < cue
        }) && old.thing.words == named.words
        {
            // "The lowers didn't come." "They came.": the later word counts.
            old.dropped = true;
        }
        let from = self.facts.len().saturating_sub(3);
        let said_again = (from..self.facts.len()).rev().find(|at| {
            self.facts.get(*at).is_some_and(|last| {
                let stands = !last.dropped;
                stands && {
                    let held = last.kind == kind
                        && last.sentence == self.sentence
                        && matches!(kind, Kind::Done | Kind::NotDone | Kind::Delivered);
                    let waits =
                        last.kind == Kind::Blocked && kind == Kind::NotDone && last.cue == self.cue;
                    (held || waits)
                        && named
                            .words
                            .iter()
                            .all(|word| last.thing.words.contains(word))
                }
            })
        });
        if let Some(at) = said_again {
            return self.facts.get_mut(at);
        }
        self.facts.push(Fact {
            kind,
            place: self.clause_place.or(self.place),
            thing: named,
            figures: Vec::new(),
            dated: None,
            cause: None,
            who: self.speaker_said.clone(),
            detail: String::new(),
            certainty: self.sentence_certainty,
            confidence,
            signs: Signs::of_rule(confidence),
            cue: self.cue,
            also: Vec::new(),
            sentence: self.sentence,
            dropped: false,
        });
        self.facts.last_mut()
    }

    /// The thing with the participle that says what was done to it: `brick cleaned`.
    pub(super) fn with_work(&self, thing: &Noun, token: Option<&Token>) -> Noun {
        let Some(token) = token.filter(|token| state::names_work(token)) else {
            return thing.clone();
        };
        let words = token.text.split(' ').take(1).map(str::to_owned).collect();
        thing.with(&Noun {
            words,
            head: 0,
            refers: false,
        })
    }

    pub(super) fn date(&self, when: &When, tense: Tense) -> Dated {
        Dated {
            day: when
                .day
                .and_then(|day| day.date(self.vocabulary.day, tense)),
            time: when.time,
        }
    }

    /// The last fact that still stands, no further back than the last sentence or so.
    pub(super) fn last_fact(&mut self) -> Option<&mut Fact> {
        let sentence = self.sentence;
        recent_mut(&mut self.facts)
            .find(|fact| !fact.dropped)
            .filter(|fact| fact.sentence + 2 >= sentence)
    }

    pub(super) fn person_name(&self, token: &Token) -> Option<String> {
        match token.what {
            What::Person(i) => self
                .vocabulary
                .people
                .get(i)
                .map(|person| person.name.clone()),
            _ => token.is(Class::Person).then(|| token.text.clone()),
        }
    }
}

/// Whether a noun names only a part or a count of something: `the fourth`, `left side`, `two`.
fn is_part(noun: &Noun) -> bool {
    let alone = matches!(noun.words.as_slice(), [only] if only == "wall");
    !noun.is_empty()
        && !alone
        && noun.words.iter().all(|word| {
            let classes = crate::lexicon::lexicon().word(word);
            classes.any(&[Class::Side, Class::Pron, Class::Det, Class::Level])
                && !classes.is_empty()
                || matches!(
                    word.as_str(),
                    "new"
                        | "old"
                        | "tall"
                        | "short"
                        | "big"
                        | "small"
                        | "long"
                        | "odd"
                        | "piece"
                        | "bit"
                        | "nail"
                        | "lick"
                        | "scrap"
                        | "bringing"
                        | "wall"
                        | "side"
                        | "one"
                        | "half"
                        | "end"
                        | "rest"
                        | "two"
                        | "three"
                        | "four"
                        | "five"
                        | "coats"
                        | "coat"
                        | "edge"
                        | "others"
                        | "widest"
                        | "narrowest"
                        | "tightest"
                        | "worst"
                        | "highest"
                        | "lowest"
                        | "biggest"
                        | "smallest"
                        | "longest"
                        | "shortest"
                        | "tallest"
                        | "thickest"
                        | "deepest"
                        | "bits"
                        | "pieces"
                        | "part"
                )
        })
}

/// Words that no later *it* points back to.
const NEVER_MEANT: [&str; 30] = [
    "time",
    "times",
    "number",
    "paper",
    "size",
    "way",
    "thing",
    "things",
    "lot",
    "string",
    "tape",
    "rule",
    "morning",
    "afternoon",
    "evening",
    "night",
    "today",
    "reason",
    "idea",
    "picture",
    "photo",
    "date",
    "day",
    "week",
    "email",
    "book",
    "thumb",
    "hand",
    "eye",
    "prayer",
];

/// Whether a thing is none of the house: idle talk, or a mere word of speech.
fn is_idle(thing: &Noun) -> bool {
    let lexicon = crate::lexicon::lexicon();
    let idle = thing.words.iter().any(|word| {
        let classes = lexicon.word(word);
        classes.has(Class::Idle) && !classes.has(Class::Thing)
    });
    let trade = thing.words.iter().any(|word| {
        lexicon
            .word(word)
            .any(&[Class::Thing, Class::AbleNoun, Class::TestNoun])
    });
    idle && !trade
        || thing
            .words
            .iter()
            .all(|word| NEVER_MEANT.contains(&word.as_str()) && word != "number")
}

/// Whether a later *it* can mean this thing: it is neither somebody nor a mere word of speech.
fn can_be_meant(thing: &Noun) -> bool {
    let lexicon = crate::lexicon::lexicon();
    let somebody = thing.words.split_first().is_some_and(|(first, rest)| {
        lexicon
            .phrase(first, |i| rest.get(i).map(String::as_str))
            .is_some_and(|(used, classes)| used == thing.words.len() && classes.has(Class::Person))
    });
    !somebody
        && !thing.words.iter().all(|word| {
            NEVER_MEANT.contains(&word.as_str())
                || lexicon.word(word).any(&[Class::Person, Class::Owners])
                    && !lexicon.word(word).is_empty()
        })
}

/// How many facts back anything is looked for: talk does not point further back.
const RECENT: usize = 60;

/// The facts said last, the last first.
pub(super) fn recent(facts: &[Fact]) -> impl Iterator<Item = &Fact> {
    facts.iter().rev().take(RECENT)
}

/// The facts said last, the last first, to be changed.
pub(super) fn recent_mut(facts: &mut [Fact]) -> impl Iterator<Item = &mut Fact> {
    facts.iter_mut().rev().take(RECENT)
}
