//! `X is Y`, `X has a Y`, `X needs Y`: clauses whose predicate begins with a small verb.

use super::scene::recent_mut;
use super::{
    Class, Clause, Kind, Noun, Reader, Role, Tense, Token, What,
    answers::opposite,
    blocked::text_of,
    existence::there,
    figure,
    parsed::{Parsed, by_person, by_somebody, parse},
    state::{self, State},
};
use crate::{clauses::participle, noun::is_content, numbers::Unit};

impl Reader<'_> {
    /// Reads a clause with a small verb; false if it says nothing of a thing's state.
    pub(super) fn copula(&mut self, clause: &Clause, next: Option<&Clause>) -> bool {
        let tokens = clause.tokens.as_slice();
        let Some(parsed) = parse(tokens) else {
            return false;
        };
        if parsed
            .subject
            .first()
            .is_some_and(|t| matches!(t.text.as_str(), "there" | "there's"))
            || there(parsed.subject)
        {
            return self.there_is(&parsed);
        }
        if parsed.verb.is(Class::Need) {
            return self.needs(&parsed);
        }
        if self.was_measured(&parsed)
            || self.it_is_the(&parsed)
            || self.still_to_be(&parsed)
            || self.long_ago(&parsed)
        {
            return true;
        }
        if parsed.verb.any(&[Class::Modal, Class::Will])
            || parsed
                .complement
                .first()
                .is_some_and(|t| t.what == What::Word && t.is(Class::Will) && !t.is(Class::Do))
        {
            return self.will_be(&parsed);
        }
        if self.does_so(&parsed) || self.does_not(&parsed) || self.has_it_so(&parsed) {
            return true;
        }
        let by_person = by_person(parsed.subject);
        if self.runs_short(&parsed) || by_person && self.failed_to(&parsed) {
            return true;
        }
        if parsed.verb.any(&[Class::Have]) && by_person && self.has_done(&parsed) {
            return true;
        }
        let to_do = parsed.complement.first().is_some_and(|t| t.text == "to")
            && parsed.complement.get(1).is_some_and(|t| t.is(Class::Act));
        if to_do && parsed.verb.is(Class::Be) && by_person && !parsed.denied {
            // "He's to ring with a day."
            let object = Noun::of(parsed.complement.get(2..).unwrap_or_default());
            let who = parsed.subject.iter().find_map(|t| self.person_name(t));
            let mut noun = object;
            noun.refers = true;
            let thing = self.resolve(&noun);
            let thing = self.with_last(&thing);
            self.state_fact(Kind::Next, &thing, &parsed, 82);
            if let Some(fact) = self.facts.last_mut() {
                fact.who = who;
            }
            return true;
        }
        if self.just_done(&parsed) || self.has_had(&parsed) {
            return true;
        }
        if by_person && self.person_state(&parsed) {
            return true;
        }
        self.is_so(&parsed, clause, next)
    }

    /// `X is in`, `X isn't grouted`, `X has been cleaned`, `X is a quarter too tall`.
    fn is_so(&mut self, parsed: &Parsed<'_>, clause: &Clause, _next: Option<&Clause>) -> bool {
        let subject = Noun::of(parsed.subject);
        if parsed.complement.is_empty() && parsed.chain.iter().any(|t| t.text == "nothing") {
            self.waive();
        }
        if parsed.complement.is_empty()
            && (parsed
                .chain
                .iter()
                .any(|t| matches!(t.text.as_str(), "nothing" | "none"))
                || subject.refers && subject.is_empty() && !parsed.denied)
        {
            return true;
        }
        if parsed.complement.is_empty() {
            return self.elliptic(subject, parsed.denied, by_somebody(parsed.subject));
        }
        let coming = parsed
            .complement
            .first()
            .is_some_and(|t| matches!(t.text.as_str(), "coming" | "going"));
        if parsed.denied && coming && !by_somebody(parsed.subject) && !subject.is_empty() {
            let cause = self.last_denial();
            let thing = self.resolve(&subject);
            let delivery = parsed
                .complement
                .first()
                .is_some_and(|t| t.text == "coming");
            let words = if delivery {
                vec!["delivery".to_owned()]
            } else {
                Vec::new()
            };
            let thing = thing.with(&Noun {
                words,
                head: 0,
                refers: false,
            });
            self.state_fact(Kind::Blocked, &thing, parsed, 80);
            if let Some(fact) = self.facts.last_mut() {
                fact.cause = cause;
            }
            return true;
        }
        if self.has_fault(parsed, &subject) || self.is_here(parsed) {
            return true;
        }
        let faulty = parsed.subject.iter().any(|t| {
            t.what == What::Word
                && t.is(Class::Wrong)
                && !t.any(&[Class::Particle, Class::Side, Class::Prep])
                && matches!(
                    t.text.as_str(),
                    "wrong" | "broken" | "cracked" | "damaged" | "loose"
                )
        });
        if faulty && !parsed.denied {
            let thing = self.resolve(&subject);
            let thing = self.in_context(&thing);
            self.state_fact(Kind::Wrong, &thing, parsed, 82);
            return true;
        }
        let plain_fault = parsed.complement.first().is_some_and(|t| {
            t.what == What::Word
                && t.is(Class::FaultNoun)
                && !t.any(&[Class::Done, Class::Ok, Class::Thing, Class::Particle])
                && !matches!(
                    t.text.as_str(),
                    "run" | "lip" | "hole" | "problem" | "damp" | "fall"
                )
        });
        if plain_fault && parsed.verb.is(Class::Be) && !subject.is_empty() && !parsed.denied {
            // "Stone is crack here": the plain word stands for the participle.
            let thing = self.resolve(&subject);
            self.state_fact(Kind::Wrong, &thing, parsed, 80);
            return true;
        }
        let wrong_one = parsed
            .complement
            .iter()
            .position(|t| matches!(t.text.as_str(), "wrong" | "the wrong"))
            .filter(|_| {
                parsed.verb.is(Class::Have) && !parsed.verb.is(Class::Be) && !parsed.denied
            });
        if let Some(at) = wrong_one {
            // "Got the wrong hinges for the larder."
            let noun = Noun::of(parsed.complement.get(at + 1..).unwrap_or_default());
            if !noun.is_empty() {
                let thing = self.resolve(&noun);
                self.state_fact(Kind::Wrong, &thing, parsed, 88);
                return true;
            }
        }
        let Some(found) = state::find(parsed.complement) else {
            let counted = parsed.complement.iter().skip(1).all(|t| {
                t.amount().is_some()
                    || t.any(&[Class::Adv, Class::Pron])
                    || matches!(t.text.as_str(), "time" | "times")
            });
            if let Some(only) = parsed.complement.first().filter(|_| counted)
                && only.what == What::Word
                && (only.is(Class::Act) || only.text == "come")
                && !matches!(only.text.as_str(), "go" | "see" | "wait" | "like")
                && !only.any(&[Class::Ok, Class::Wrong, Class::FaultNoun, Class::Decision])
                && parsed.verb.is(Class::Be)
                && !subject.is_empty()
            {
                // "Door is hang": the plain form stands for the participle.
                let thing = self.resolve(&subject);
                let kind = match (only.text == "come", parsed.denied) {
                    (true, false) => Kind::Delivered,
                    (true, true) => Kind::NotDelivered,
                    (false, false) => Kind::Done,
                    (false, true) => Kind::NotDone,
                };
                self.state_fact(kind, &thing, parsed, 80);
                return true;
            }
            let first = parsed.complement.first();
            if first.is_some_and(state::is_done_word)
                && parsed.verb.is(Class::Be)
                && !subject.is_empty()
            {
                let thing = self.resolve(&subject);
                let thing = self.with_work(&thing, first);
                self.state_fact(
                    if parsed.denied {
                        Kind::NotDone
                    } else {
                        Kind::Done
                    },
                    &thing,
                    parsed,
                    82,
                );
                return true;
            }
            let elsewhere = first.is_some_and(|t| t.text == "at")
                && parsed.complement.iter().skip(1).any(|t| {
                    t.text.split(' ').any(|word| OFF_SITE.contains(&word))
                        || t.text == "'s"
                        || t.is(Class::Person)
                });
            if elsewhere && !by_person(parsed.subject) && !parsed.denied {
                // "Clamps are at the post office."
                let thing = self.resolve(&subject);
                self.state_fact(Kind::NotDelivered, &thing, parsed, 80);
                return true;
            }
            return self.named_so(parsed, subject);
        };
        let named_first = parsed
            .complement
            .first()
            .is_some_and(|t| t.is(Class::Det) && !t.is(Class::Pron) || t.amount().is_some());
        let in_it = Noun::of(parsed.complement.get(..found.at).unwrap_or_default());
        let counted_first = parsed
            .complement
            .first()
            .is_some_and(|t| t.amount().is_some());
        if named_first
            && (found.at > 1 || counted_first && found.at == 1)
            && found.state == State::Is(Kind::Done)
            && !in_it.is_empty()
        {
            if parsed.verb.is(Class::Have) && !by_person(parsed.subject) && !subject.is_empty() {
                // "Walls have one coat on."
                let whole = self.resolve(&subject);
                let thing = in_it.with(&whole);
                let kind = if parsed.denied {
                    Kind::NotDone
                } else {
                    Kind::Done
                };
                self.state_fact(kind, &thing, parsed, found.confidence.saturating_sub(6));
                return true;
            }
            let particle = parsed
                .complement
                .get(found.at)
                .is_some_and(|t| t.is(Class::Particle));
            if particle && subject.refers && parsed.verb.is(Class::Be) {
                // "It's a nice day out."
                return true;
            }
        }
        let denied = parsed.denied
            || parsed
                .complement
                .get(..found.at)
                .is_some_and(|before| before.iter().any(|t| t.is(Class::Not)));
        let kind = match found.state {
            State::Well => {
                return self.is_well(&subject, denied, parsed);
            }
            State::Ordered => {
                let thing = self.resolve(&subject);
                let kind = if denied { Kind::NotDone } else { Kind::Next };
                self.state_fact(kind, &thing, parsed, found.confidence.min(75));
                return true;
            }
            State::Is(kind) => kind,
        };
        let to_be = parsed
            .complement
            .get(..found.at)
            .unwrap_or_default()
            .iter()
            .any(|t| matches!(t.text.as_str(), "to" | "to be"))
            || parsed
                .chain
                .iter()
                .any(|t| matches!(t.text.as_str(), "to be"));
        if to_be
            && matches!(kind, Kind::Done)
            && denied
            && !parsed
                .complement
                .iter()
                .chain(parsed.chain)
                .any(|t| matches!(t.text.as_str(), "yet"))
        {
            // "Not to be walked on till Friday": it must wait.
            let thing = self.resolve(&subject);
            let thing = self.with_work(&thing, parsed.complement.get(found.at));
            self.state_fact(Kind::Blocked, &thing, parsed, 84);
            return true;
        }
        if to_be && matches!(kind, Kind::Done | Kind::Delivered) && !denied {
            let yet = parsed.complement.iter().chain(parsed.chain).any(|t| {
                matches!(
                    t.text.as_str(),
                    "yet" | "still" | "yet to be" | "still to be"
                )
            });
            let thing = self.resolve(&subject);
            let thing = self.with_work(&thing, parsed.complement.get(found.at));
            let thing = if by_person(parsed.subject) {
                self.with_last(&thing)
            } else {
                thing
            };
            self.state_fact(
                if yet { Kind::NotDone } else { Kind::Next },
                &thing,
                parsed,
                86,
            );
            return true;
        }
        let somebody = by_somebody(parsed.subject);
        if somebody && kind == Kind::Wrong {
            // "So he's wrong": it is not the thing that is.
            self.clear_fault();
            return true;
        }
        if somebody
            && parsed.verb.is(Class::Have)
            && !parsed.verb.is(Class::Be)
            && matches!(kind, Kind::Delivered | Kind::NotDelivered)
        {
            return true;
        }
        let stored = subject.refers
            && subject.is_empty()
            && kind == Kind::Done
            && crate::place::said_inside(parsed.complement).is_some();
        let here = stored
            && self.last_fact().is_some_and(|f| {
                matches!(f.kind, Kind::Delivered | Kind::NotDone | Kind::NotDelivered)
            });
        if here {
            // "They're out in the garage.": the goods are here.
            let last = self.last_fact().map(|f| (f.kind, f.thing.clone(), f.place));
            if let Some((Kind::NotDone, thing, place)) = last
                && let Some(fact) = self.fact(Kind::Delivered, &thing, 80)
            {
                fact.place = place;
            }
            return true;
        }
        let off = parsed
            .complement
            .get(found.at)
            .is_some_and(|t| t.text == "off")
            && subject.words.iter().any(|w| {
                matches!(
                    w.as_str(),
                    "wall" | "walls" | "corner" | "line" | "level" | "frame" | "colour" | "color"
                )
            });
        let kind = if off { Kind::Wrong } else { kind };
        let counted = parsed
            .subject
            .iter()
            .all(|t| t.amount().is_some_and(|a| a.unit == Unit::None));
        let of_all = parsed
            .subject
            .first()
            .and_then(|t| t.amount())
            .and_then(|a| a.number.as_whole())
            .zip(self.total.filter(|(_, cue)| *cue == self.cue))
            .is_some_and(|(some, (all, _))| some < all);
        let kind = if counted && of_all && kind == Kind::Done && !parsed.subject.is_empty() {
            Kind::Started
        } else {
            kind
        };
        let switched_off = subject.is_empty()
            && parsed
                .complement
                .get(found.at)
                .is_some_and(|t| t.text == "off")
            && self.last_fact().is_some_and(|f| f.kind == Kind::Wrong);
        if switched_off {
            return true;
        }
        let kind = match (denied, kind) {
            (false, kind) => Some(kind),
            (true, Kind::Wrong) => {
                self.resolve(&subject);
                return true;
            }
            (true, kind) => opposite(kind),
        };
        let Some(kind) = kind else {
            return true;
        };
        let thing = self.resolve(&subject);
        if thing.is_empty() && parsed.subject.is_empty() {
            return false;
        }
        let work_word = parsed.complement.get(found.at);
        let wet = work_word.is_some_and(|t| {
            t.text
                .split(' ')
                .any(|word| matches!(word, "wet" | "damp" | "tacky" | "green"))
        });
        let (cue, said) = (
            self.cue,
            format!("{} {}", thing.text(), work_word.map_or("", |t| &t.text)),
        );
        if wet
            && let Some(fact) = self
                .last_fact()
                .filter(|f| f.kind == Kind::Blocked && f.cue == cue)
        {
            // "I can't paint in there. The patch is still wet.": that is why.
            fact.cause = Some(said);
            return true;
        }
        let progressive =
            parsed.verb.is(Class::Be) && clause.tokens.iter().any(|t| t.text == "being");
        let coming = parsed.complement.iter().any(|t| {
            t.when().is_some_and(|w| {
                w.day.is_some_and(|day| !day.is_past())
                    && w.day != Some(crate::dates::Day::Ahead(0))
            })
        });
        let kind = if coming
            && (progressive && kind == Kind::Done
                || kind == Kind::Started && clause.tokens.iter().any(|t| t.text.contains("being")))
        {
            Kind::Next
        } else if progressive && kind == Kind::Done {
            Kind::Started
        } else {
            kind
        };
        let work = parsed.complement.get(found.at);
        if denied
            && work.is_some_and(|t| {
                matches!(
                    t.text.as_str(),
                    "dry" | "cured" | "dried" | "ready" | "gone off"
                )
            })
        {
            // Not dry is no news by itself; it is why something else must wait.
            self.denial = Some((format!("{} not dry", thing.text()), self.sentence));
            return true;
        }
        let thing = if matches!(kind, Kind::Done | Kind::NotDone) {
            self.with_work(&thing, work)
        } else {
            thing
        };
        let back = work.is_some_and(|t| t.text.starts_with("back"));
        if back {
            self.clear_fault();
        }
        let face = !subject.is_empty()
            && subject.words.iter().all(|w| {
                matches!(
                    w.as_str(),
                    "floor"
                        | "floors"
                        | "wall"
                        | "walls"
                        | "ceiling"
                        | "two"
                        | "three"
                        | "four"
                        | "ceilings"
                        | "treads"
                        | "risers"
                )
            });
        let thing = match (&self.under_way, face) {
            (Some(layer), true) => thing.with(layer),
            _ => thing,
        };
        let surface = surface_of(parsed.complement, found.at, kind);
        let thing = match surface {
            Some(surface) => thing.with(&surface),
            None => thing,
        };
        let thing = thing.with(&where_it_is(parsed.complement, found.at));
        let confidence = if subject.refers || subject.is_empty() {
            found.confidence.saturating_sub(6)
        } else {
            found.confidence
        };
        self.state_fact(kind, &thing, parsed, confidence);
        true
    }

    /// A fact of a state with what goes with it: figures of a fault, a date, the words.
    pub(super) fn state_fact(
        &mut self,
        kind: Kind,
        thing: &Noun,
        parsed: &Parsed<'_>,
        confidence: u8,
    ) {
        let all: Vec<Token> = parsed
            .subject
            .iter()
            .chain(std::iter::once(parsed.verb))
            .chain(parsed.complement)
            .cloned()
            .collect();
        let figures = if kind == Kind::Wrong || kind == Kind::Started {
            self.figures(parsed.complement, thing)
        } else {
            Vec::new()
        };
        let ahead = parsed
            .complement
            .iter()
            .find_map(|t| t.when())
            .is_some_and(|when| when.is_ahead());
        let was =
            parsed.verb.is(Class::Have) || matches!(parsed.verb.text.as_str(), "was" | "were");
        let kind = if ahead && !was && matches!(kind, Kind::Done | Kind::Delivered | Kind::Started)
        {
            // "The glass is in tomorrow": it will be.
            Kind::Next
        } else {
            kind
        };
        let past = matches!(
            kind,
            Kind::Done | Kind::Delivered | Kind::Passed | Kind::Started
        );
        let dated = parsed
            .complement
            .iter()
            .find_map(|t| t.when())
            .copied()
            .map(|when| self.date(&when, if past { Tense::Past } else { Tense::Coming }));
        let detail = text_of(&all);
        let place = crate::place::said_inside(parsed.complement);
        if let Some(fact) = self.fact(kind, thing, confidence) {
            fact.figures = figures
                .into_iter()
                .map(|f| {
                    figure(
                        f.amount,
                        if kind == Kind::Wrong {
                            Role::Out
                        } else {
                            Role::Told
                        },
                        f.of,
                    )
                })
                .collect();
            fact.dated = dated;
            fact.detail = detail;
            if let (Some(place), Kind::Done | Kind::Wrong | Kind::NotDone) = (place, kind) {
                fact.place = Some(place);
            }
        }
    }

    /// `the fourth is not`, `opener isn't`: the last state, denied.
    fn elliptic(&mut self, subject: Noun, denied: bool, person: bool) -> bool {
        let Some(last) = self.last_state.filter(|_| !person) else {
            return false;
        };
        let kind = match last {
            Kind::NotDone => Kind::Done,
            Kind::NotDelivered => Kind::Delivered,
            other => other,
        };
        let kind = if denied { opposite(kind) } else { Some(kind) };
        let short = subject.is_empty() || subject.refers;
        let thing = match (&self.pending, short) {
            (Some(pending), true) => pending.clone(),
            _ => self.partly(subject),
        };
        if denied && short {
            // "They say it's done. It is not.": what was told no longer stands.
            let sentence = self.sentence;
            if let Some(fact) = recent_mut(&mut self.facts)
                .find(|f| !f.dropped)
                .filter(|f| f.certainty == super::Certainty::Hearsay && f.sentence + 1 >= sentence)
            {
                fact.dropped = true;
            }
        }
        let thing = self.resolve(&thing);
        if let Some(kind) = kind
            && !thing.is_empty()
        {
            self.fact(kind, &thing, 88);
            self.last_state = Some(last);
        }
        true
    }

    /// `the fourth`, `the other side`: a part of the last thing, named with it.
    fn partly(&self, noun: Noun) -> Noun {
        let part = noun.words.iter().all(|w| {
            let classes = crate::lexicon::lexicon().word(w);
            classes.any(&[Class::Side, Class::Pron, Class::Det])
                || matches!(
                    w.as_str(),
                    "wall" | "side" | "one" | "half" | "end" | "rest"
                )
        });
        match (&self.subject, part) {
            (Some(subject), true) => noun.with(subject),
            _ => noun,
        }
    }

    /// `X is Y` where Y names something: no state.
    fn named_so(&mut self, parsed: &Parsed<'_>, subject: Noun) -> bool {
        if parsed.verb.is(Class::Have) && parsed.denied {
            // "we haven't got the handles", "hasn't a rail"
            let object = Noun::of(parsed.complement);
            let people = by_person(parsed.subject);
            let told = parsed.complement.iter().any(|t| {
                super::active::NO_WORK.contains(&t.text.as_str())
                    || matches!(
                        t.text.as_str(),
                        "told" | "asked" | "rung" | "seen" | "heard"
                    )
            });
            if told {
                return true;
            }
            if !object.is_empty() && people {
                let thing = self.resolve(&object);
                self.state_fact(Kind::NotDelivered, &thing, parsed, 74);
                return true;
            }
        }
        let doing = parsed.complement.first().is_some_and(|t| {
            t.what == What::Word && participle(&t.text) && t.text.ends_with("ing")
        });
        if doing && parsed.verb.is(Class::Be) && !subject.is_empty() {
            self.resolve(&subject);
            return true;
        }
        let sent = parsed
            .subject
            .iter()
            .any(|t| matches!(t.text.as_str(), "sent" | "came" | "delivered" | "they"));
        if !subject.is_empty() && (!by_person(parsed.subject) || sent) {
            if parsed.verb.is(Class::Be) && !parsed.complement.is_empty() && !parsed.denied {
                self.came_as = Some(self.sentence);
            }
            self.resolve(&subject);
        } else if !Noun::of(parsed.complement).is_empty()
            && subject.refers
            && self.subject.is_none()
        {
            self.subject = Some(Noun::of(parsed.complement));
        }
        false
    }
}

/// What a thing can fail to do without anything being wrong with it.
const NO_FAULT: [&str; 37] = [
    "need",
    "have",
    "matter",
    "look",
    "know",
    "include",
    "get",
    "want",
    "mean",
    "exist",
    "belong",
    "care",
    "apply",
    "think",
    "like",
    "say",
    "see",
    "help",
    "understand",
    "remember",
    "believe",
    "feel",
    "seem",
    "make",
    "take",
    "do",
    "be",
    "happen",
    "bother",
    "change",
    "cover",
    "count",
    "worry",
    "show",
    "touch",
    "require",
    "hurt",
];

/// Months and the like: what *was* then is no news.
const LONG_AGO: [&str; 16] = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
    "last month",
    "last year",
    "spring",
    "summer",
];

/// What goods are counted by, so that so many short is so many not here.
pub(super) const COUNTED_BY: [&str; 22] = [
    "roll", "box", "boxes", "length", "lengths", "sheet", "sheets", "bag", "bags", "board",
    "boards", "tile", "tiles", "panel", "panels", "piece", "pieces", "pack", "packs", "tub", "tin",
    "pallet",
];

impl Reader<'_> {
    /// `extract to be commissioned`: what is only meant to be so is not done.
    fn still_to_be(&mut self, parsed: &Parsed<'_>) -> bool {
        let meant = parsed.verb.text == "be"
            && parsed.subject.last().is_some_and(|t| t.text == "to")
            || parsed.verb.text == "to be";
        let done = parsed.complement.first().is_some_and(state::is_done_word);
        let named = parsed
            .subject
            .iter()
            .take_while(|t| t.text != "to")
            .cloned()
            .collect::<Vec<_>>();
        let noun = Noun::of(&named);
        let forbidden = parsed.subject.iter().any(|t| t.is(Class::Not)) || parsed.denied;
        if meant && done && noun.is_empty() && forbidden {
            // "It says not to be sanded until they're at twelve."
            let thing = self.resolve(&noun);
            let thing = self.with_work(&thing, parsed.complement.first());
            self.state_fact(Kind::Blocked, &thing, parsed, 84);
            return true;
        }
        if !meant || !done || noun.is_empty() || by_person(&named) || forbidden {
            return false;
        }
        let thing = self.resolve(&noun);
        let thing = self.with_work(&thing, parsed.complement.first());
        self.state_fact(Kind::NotDone, &thing, parsed, 86);
        true
    }

    /// `it's the window that leans`: the fault is another thing's.
    fn it_is_the(&mut self, parsed: &Parsed<'_>) -> bool {
        let it = matches!(parsed.subject, [only] if only.text == "it");
        let that = parsed
            .complement
            .iter()
            .position(|t| matches!(t.text.as_str(), "that" | "which"));
        let (true, true, Some(at)) = (it, parsed.verb.is(Class::Be), that) else {
            return false;
        };
        let noun = Noun::of(parsed.complement.get(..at).unwrap_or_default());
        let faulty = parsed.complement.iter().skip(at + 1).any(|t| {
            t.what == What::Word
                && t.any(&[Class::FaultVerb, Class::Wrong])
                && !t.is(Class::Particle)
        });
        if noun.is_empty() || !faulty || parsed.denied {
            return false;
        }
        let sentence = self.sentence;
        if let Some(fact) = recent_mut(&mut self.facts)
            .take(3)
            .find(|f| f.kind == Kind::Wrong && !f.dropped && f.sentence + 4 >= sentence)
        {
            fact.dropped = true;
        }
        let thing = self.resolve(&noun);
        self.state_fact(Kind::Wrong, &thing, parsed, 84);
        true
    }

    /// `the counters got measured yesterday`: measuring is the work.
    fn was_measured(&mut self, parsed: &Parsed<'_>) -> bool {
        let at = parsed
            .complement
            .iter()
            .position(|t| matches!(t.text.as_str(), "measured" | "measured up" | "surveyed"));
        let read = parsed.complement.iter().any(|t| t.amount().is_some());
        let noun = Noun::of(parsed.subject);
        let (Some(at), false, false) = (at, read, noun.is_empty() || by_person(parsed.subject))
        else {
            return false;
        };
        if at > 1 || !(parsed.verb.any(&[Class::Be, Class::Have])) {
            return false;
        }
        let thing = self.resolve(&noun);
        let thing = thing.with(&Noun {
            words: vec!["measured".to_owned()],
            head: 0,
            refers: false,
        });
        let kind = if parsed.denied {
            Kind::NotDone
        } else {
            Kind::Done
        };
        self.state_fact(kind, &thing, parsed, 82);
        true
    }

    /// `that was out in June`: no news.
    fn long_ago(&mut self, parsed: &Parsed<'_>) -> bool {
        let was = matches!(parsed.verb.text.as_str(), "was" | "were");
        was && parsed.complement.iter().any(|t| {
            t.what == What::Word
                && (LONG_AGO.contains(&t.text.as_str())
                    || matches!(t.text.as_str(), "due" | "due in" | "supposed" | "meant"))
        })
    }

    /// `they didn't send the screws`, `nobody's sealed the strip`: what somebody failed to do.
    fn failed_to(&mut self, parsed: &Parsed<'_>) -> bool {
        let Some(verb) = parsed.complement.first().filter(|t| t.what == What::Word) else {
            return false;
        };
        let object = Noun::of(parsed.complement.get(1..).unwrap_or_default());
        let speaker = parsed.subject.iter().any(|t| t.is(Class::FirstPerson));
        if !parsed.verb.is(Class::Do) || !parsed.denied || object.is_empty() || speaker {
            return false;
        }
        let kind = if [
            "send", "bring", "deliver", "ship", "supply", "include", "give", "leave",
        ]
        .contains(&verb.text.as_str())
        {
            Kind::NotDelivered
        } else if verb.is(Class::Act) && !verb.any(&[Class::Soft, Class::Talk, Class::Decide]) {
            Kind::NotDone
        } else {
            return false;
        };
        let thing = self.resolve(&object);
        self.state_fact(kind, &thing, parsed, 84);
        true
    }

    /// `they're a roll short`: goods that are missing.
    fn runs_short(&mut self, parsed: &Parsed<'_>) -> bool {
        let short = parsed.complement.windows(2).any(|pair| {
            matches!(pair, [a, b] if COUNTED_BY.contains(&a.text.as_str()) && b.text == "short")
        });
        let lacks = parsed
            .complement
            .first()
            .is_some_and(|t| matches!(t.text.as_str(), "short" | "short of"));
        if lacks && !parsed.denied && by_person(parsed.subject) {
            // "We're short two boxes of tile."
            let noun = Noun::of(parsed.complement.get(1..).unwrap_or_default());
            if !noun.is_empty() {
                let thing = self.resolve(&noun);
                self.state_fact(Kind::NotDelivered, &thing, parsed, 82);
                return true;
            }
        }
        if !short || parsed.denied {
            return false;
        }
        let subject = Noun::of(parsed.subject);
        let mut noun = if by_person(parsed.subject) {
            Noun::default()
        } else {
            subject
        };
        noun.refers = true;
        let thing = self.resolve(&noun);
        self.state_fact(Kind::NotDelivered, &thing, parsed, 82);
        true
    }

    /// `it doesn't now`, `and it does`: the last fault denied, or said again.
    fn does_so(&mut self, parsed: &Parsed<'_>) -> bool {
        let bare = parsed.complement.iter().all(|t| t.is(Class::Adv))
            && parsed
                .subject
                .iter()
                .all(|t| t.any(&[Class::Pron, Class::Conj, Class::Adv]))
            && !parsed.subject.is_empty();
        if !parsed.verb.is(Class::Do) || !bare || by_somebody(parsed.subject) {
            return false;
        }
        let sentence = self.sentence;
        let told = self.sentence_certainty == super::Certainty::Hearsay;
        let fault = recent_mut(&mut self.facts)
            .take(4)
            .find(|f| f.kind == Kind::Wrong && f.sentence + 4 >= sentence);
        if let Some(fact) = fact_unless(fault, told) {
            fact.dropped = parsed.denied;
        }
        true
    }

    /// `Tawny's got the backsplash up`, `he has the stone up to the mantel`: how far somebody has
    /// got a thing.
    fn has_it_so(&mut self, parsed: &Parsed<'_>) -> bool {
        let has = parsed.verb.is(Class::Have)
            && (parsed.verb.text != "'s" || parsed.chain.iter().any(|t| t.text == "got"));
        let determined = parsed
            .complement
            .first()
            .is_some_and(|t| t.is(Class::Det) || t.any(&[Class::Thing, Class::Side]));
        if !has || !by_somebody(parsed.subject) || !determined {
            return false;
        }
        let Some(found) = state::find(parsed.complement.get(1..).unwrap_or_default()) else {
            return false;
        };
        let State::Is(kind) = found.state else {
            return false;
        };
        let object = Noun::of(parsed.complement.get(..found.at + 1).unwrap_or_default());
        let kind = if parsed.denied {
            opposite(kind)
        } else {
            Some(kind)
        };
        let Some(kind) = kind.filter(|_| !object.is_empty()) else {
            return false;
        };
        let thing = self.resolve(&object);
        self.state_fact(kind, &thing, parsed, found.confidence);
        true
    }

    /// `the bar doesn't meet the catch`, `it does not go out through the roof`: what a thing fails
    /// to do is wrong with it; what has not come is not here.
    fn does_not(&mut self, parsed: &Parsed<'_>) -> bool {
        let Some(verb) = parsed.complement.first().filter(|t| t.what == What::Word) else {
            return false;
        };
        let word = verb.text.split(' ').next().unwrap_or_default();
        let plain = verb.any(&[Class::Act, Class::Verb, Class::FaultVerb, Class::Soft])
            || verb.classes.is_empty()
            || verb.any(&[
                Class::Done,
                Class::Pass,
                Class::Read,
                Class::Ok,
                Class::Thing,
            ]);
        if !parsed.verb.is(Class::Do)
            || !parsed.denied
            || parsed.subject.is_empty() && !self.goes_on
            || by_person(parsed.subject)
            || !plain
            || NO_FAULT.contains(&word)
        {
            return false;
        }
        let subject = Noun::of(parsed.subject);
        let thing = self.resolve(&subject);
        let goods = matches!(word, "come" | "arrive" | "turn" | "ship" | "land");
        let kind = if goods && parsed.complement.len() <= 3 {
            Kind::NotDelivered
        } else {
            Kind::Wrong
        };
        self.state_fact(kind, &thing, parsed, 86);
        true
    }
}

/// The fact, unless somebody else only says so.
fn fact_unless(fact: Option<&mut super::Fact>, told: bool) -> Option<&mut super::Fact> {
    fact.filter(|_| !told)
}

/// Where goods are that are not on site.
const OFF_SITE: [&str; 20] = [
    "office",
    "shop",
    "works",
    "workshop",
    "yard",
    "factory",
    "depot",
    "warehouse",
    "mill",
    "merchant",
    "merchants",
    "supplier",
    "suppliers",
    "dealer",
    "fabricator",
    "fabricators",
    "quarry",
    "foundry",
    "docks",
    "dock",
];

/// Where a thing is that is said to be so: `by the font`, `at the top step`.
pub(super) fn where_it_is(tokens: &[Token], state_at: usize) -> Noun {
    let after = tokens.get(state_at + 1..).unwrap_or_default();
    let Some(at) = after.iter().take(3).position(|t| {
        matches!(
            t.text.as_str(),
            "at" | "by"
                | "behind"
                | "under"
                | "over"
                | "above"
                | "below"
                | "near"
                | "between"
                | "beside"
                | "along"
                | "around"
        )
    }) else {
        return Noun::default();
    };
    let phrase: Vec<Token> = after
        .iter()
        .skip(at + 1)
        .take_while(|t| {
            t.mark().is_none()
                && t.amount().is_none()
                && t.when().is_none()
                && (t.is(Class::Det) || is_content(t) && !matches!(t.what, What::Person(_)))
        })
        .take(4)
        .cloned()
        .collect();
    let noun = Noun::of(&phrase);
    if noun.refers || noun.words.len() > 3 {
        return Noun::default();
    }
    noun
}

/// The surfaces that a layer is said to be on: `on front wall and back wall`.
fn surface_of(complement: &[Token], at: usize, kind: Kind) -> Option<Noun> {
    let word = complement.get(at)?;
    let on = word.text == "on"
        || complement.get(at + 1).is_some_and(|t| t.text == "on")
            && word.any(&[Class::Particle, Class::Done]);
    let noun = Noun::of(complement.get(at + 1..)?);
    (on && matches!(kind, Kind::Done | Kind::NotDone) && !noun.is_empty() && noun.words.len() <= 4)
        .then_some(noun)
}
