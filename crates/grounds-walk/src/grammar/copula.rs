//! `X is Y`, `X has a Y`, `X needs Y`: clauses whose predicate begins with a small verb.

use super::{Class, Clause, Kind, Noun, Reader, Role, Tense, Token, What, answers::opposite, blocked::text_of, figure, state::{self, State}};
use crate::{clauses::{is_verb, participle}, noun::is_content, numbers::Unit};

/// A clause as subject and predicate.
struct Parsed<'t> {
    subject: &'t [Token],
    verb: &'t Token,
    denied: bool,
    chain: &'t [Token],
    complement: &'t [Token],
}

fn parse(tokens: &[Token]) -> Option<Parsed<'_>> {
    let at = (0..tokens.len()).find(|at| is_verb(tokens, *at))?;
    let subject = tokens.get(..at)?;
    let verb = tokens.get(at)?;
    let rest = tokens.get(at + 1..)?;
    let chain = rest
        .iter()
        .take_while(|t| {
            t.what == What::Word
                && t.any(&[Class::Be, Class::Have, Class::Do, Class::Not, Class::Adv, Class::Filler, Class::Hedge])
                && !t.any(&[Class::Particle, Class::Arrived, Class::Started, Class::Prep, Class::Wrong, Class::Ok, Class::Will])
                || t.text == "got"
        })
        .count();
    let complement = rest.get(chain..)?;
    let denied = rest.get(..chain)?.iter().any(|t| t.is(Class::Not))
        || subject.iter().any(|t| matches!(t.text.as_str(), "none" | "none of" | "neither" | "nothing" | "nobody" | "no one"))
        || subject.first().is_some_and(|t| t.text == "no")
        || rest.get(..chain)?.iter().any(|t| t.text == "no");
    Some(Parsed { subject, verb, denied, chain: rest.get(..chain)?, complement })
}

impl Reader<'_> {
    /// Reads a clause with a small verb; false if it says nothing of a thing's state.
    pub(super) fn copula(&mut self, clause: &Clause, next: Option<&Clause>) -> bool {
        let tokens = clause.tokens.as_slice();
        let Some(parsed) = parse(tokens) else {
            return false;
        };
        if parsed.subject.first().is_some_and(|t| matches!(t.text.as_str(), "there" | "there's")) || there(parsed.subject) {
            return self.there_is(&parsed);
        }
        if parsed.verb.is(Class::Need) {
            return self.needs(&parsed);
        }
        if parsed.verb.any(&[Class::Modal, Class::Will]) || parsed.complement.first().is_some_and(|t| t.what == What::Word && t.is(Class::Will) && !t.is(Class::Do)) {
            return self.will_be(&parsed);
        }
        let by_person = by_person(parsed.subject);
        if parsed.verb.any(&[Class::Have]) && by_person && self.has_done(&parsed) {
            return true;
        }
        let to_do = parsed.complement.first().is_some_and(|t| t.text == "to") && parsed.complement.get(1).is_some_and(|t| t.is(Class::Act));
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
    fn is_so(&mut self, parsed: &Parsed<'_>, clause: &Clause, next: Option<&Clause>) -> bool {
        let subject = Noun::of(parsed.subject);
        if parsed.complement.is_empty() && parsed.chain.iter().any(|t| t.text == "nothing") {
            self.waive();
        }
        if parsed.complement.is_empty() && (parsed.chain.iter().any(|t| matches!(t.text.as_str(), "nothing" | "none")) || subject.refers && subject.is_empty() && !parsed.denied) {
            return true;
        }
        if parsed.complement.is_empty() {
            return self.elliptic(subject, parsed.denied, by_somebody(parsed.subject));
        }
        let coming = parsed.complement.first().is_some_and(|t| matches!(t.text.as_str(), "coming" | "going"));
        if parsed.denied && coming && !by_somebody(parsed.subject) && !subject.is_empty() {
            let cause = self.last_denial();
            let thing = self.resolve(&subject);
            let delivery = parsed.complement.first().is_some_and(|t| t.text == "coming");
            let words = if delivery { vec!["delivery".to_owned()] } else { Vec::new() };
            let thing = thing.with(&Noun { words, head: 0, refers: false });
            self.state_fact(Kind::Blocked, &thing, parsed, 80);
            if let Some(fact) = self.facts.last_mut() {
                fact.cause = cause;
            }
            return true;
        }
        if self.has_fault(parsed, &subject) || self.is_here(parsed) {
            return true;
        }
        let faulty = parsed.subject.iter().any(|t| t.what == What::Word && t.is(Class::Wrong) && !t.any(&[Class::Particle, Class::Side, Class::Prep]) && matches!(t.text.as_str(), "wrong" | "broken" | "cracked" | "damaged" | "loose"));
        if faulty && !parsed.denied {
            let thing = self.resolve(&subject);
            let thing = self.in_context(&thing);
            self.state_fact(Kind::Wrong, &thing, parsed, 82);
            return true;
        }
        let Some(found) = state::find(parsed.complement) else {
            if let [only] = parsed.complement
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
            if first.is_some_and(state::is_done_word) && parsed.verb.is(Class::Be) && !subject.is_empty() {
                let thing = self.resolve(&subject);
                let thing = self.with_work(&thing, first);
                self.state_fact(if parsed.denied { Kind::NotDone } else { Kind::Done }, &thing, parsed, 82);
                return true;
            }
            let elsewhere = first.is_some_and(|t| t.text == "at")
                && parsed.complement.iter().skip(1).any(|t| {
                    t.text.split(' ').any(|word| OFF_SITE.contains(&word)) || t.text == "'s" || t.is(Class::Person)
                });
            if elsewhere && !by_person(parsed.subject) && !parsed.denied {
                // "Clamps are at the post office."
                let thing = self.resolve(&subject);
                self.state_fact(Kind::NotDelivered, &thing, parsed, 80);
                return true;
            }
            return self.named_so(parsed, subject);
        };
        let denied = parsed.denied
            || parsed.complement.get(..found.at).is_some_and(|before| before.iter().any(|t| t.is(Class::Not)));
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
        let to_be = parsed.complement.get(..found.at).unwrap_or_default().iter().any(|t| matches!(t.text.as_str(), "to" | "to be")) || parsed.chain.iter().any(|t| matches!(t.text.as_str(), "to be"));
        if to_be && matches!(kind, Kind::Done) && denied && !parsed.complement.iter().chain(parsed.chain).any(|t| matches!(t.text.as_str(), "yet")) {
            // "Not to be walked on till Friday": it must wait.
            let thing = self.resolve(&subject);
            let thing = self.with_work(&thing, parsed.complement.get(found.at));
            self.state_fact(Kind::Blocked, &thing, parsed, 84);
            return true;
        }
        if to_be && matches!(kind, Kind::Done | Kind::Delivered) && !denied {
            let yet = parsed.complement.iter().chain(parsed.chain).any(|t| matches!(t.text.as_str(), "yet" | "still" | "yet to be" | "still to be"));
            let thing = self.resolve(&subject);
            let thing = self.with_work(&thing, parsed.complement.get(found.at));
            let thing = if by_person(parsed.subject) { self.with_last(&thing) } else { thing };
            self.state_fact(if yet { Kind::NotDone } else { Kind::Next }, &thing, parsed, 86);
            return true;
        }
        let somebody = by_somebody(parsed.subject);
        if somebody && kind == Kind::Wrong {
            // "So he's wrong": it is not the thing that is.
            self.clear_fault();
            return true;
        }
        if somebody && parsed.verb.is(Class::Have) && !parsed.verb.is(Class::Be) && matches!(kind, Kind::Delivered | Kind::NotDelivered) {
            return true;
        }
        let off = parsed.complement.get(found.at).is_some_and(|t| t.text == "off") && subject.words.iter().any(|w| matches!(w.as_str(), "wall" | "walls" | "corner" | "line" | "level" | "frame" | "colour" | "color"));
        let kind = if off { Kind::Wrong } else { kind };
        let counted = parsed.subject.iter().all(|t| t.amount().is_some_and(|a| a.unit == Unit::None));
        let kind = if counted && kind == Kind::Done && !parsed.subject.is_empty() { Kind::Started } else { kind };
        let switched_off = subject.is_empty() && parsed.complement.get(found.at).is_some_and(|t| t.text == "off") && self.last_fact().is_some_and(|f| f.kind == Kind::Wrong);
        if switched_off {
            return true;
        }
        let kind = match (denied, kind) {
            (false, kind) => Some(kind),
            (true, Kind::Wrong) => {
                let thing = self.resolve(&subject);
                let _ = thing;
                return true;
            }
            (true, kind) => opposite(kind),
        };
        let Some(kind) = kind else {
            return true;
        };
        let before = parsed.complement.get(..found.at).unwrap_or_default();
        let dimension = before.iter().any(|t| t.is(Class::Prep)) && kind == Kind::Wrong;
        let _ = dimension;
        let thing = self.resolve(&subject);
        if thing.is_empty() && parsed.subject.is_empty() {
            return false;
        }
        let progressive = parsed.verb.is(Class::Be) && clause.tokens.iter().any(|t| t.text == "being");
        let kind = if progressive && kind == Kind::Done { Kind::Started } else { kind };
        let work = parsed.complement.get(found.at);
        if denied && work.is_some_and(|t| matches!(t.text.as_str(), "dry" | "cured" | "dried" | "ready" | "gone off")) {
            // Not dry is no news by itself; it is why something else must wait.
            self.denial = Some((format!("{} not dry", thing.text()), self.sentence));
            return true;
        }
        let thing = if matches!(kind, Kind::Done | Kind::NotDone) { self.with_work(&thing, work) } else { thing };
        let back = work.is_some_and(|t| t.text.starts_with("back"));
        if back {
            self.clear_fault();
        }
        let face = !subject.is_empty() && subject.words.iter().all(|w| matches!(w.as_str(), "floor" | "floors" | "wall" | "walls" | "ceiling" | "two" | "three" | "four" | "ceilings" | "treads" | "risers"));
        let thing = match (&self.under_way, face) {
            (Some(layer), true) => thing.with(layer),
            _ => thing,
        };
        let surface = surface_of(parsed.complement, found.at, kind);
        let thing = match surface {
            Some(surface) => thing.with(&surface),
            None => thing,
        };
        let confidence = if subject.refers || subject.is_empty() { found.confidence.saturating_sub(6) } else { found.confidence };
        self.state_fact(kind, &thing, parsed, confidence);
        let _ = next;
        true
    }

    /// A fact of a state with what goes with it: figures of a fault, a date, the words.
    fn state_fact(&mut self, kind: Kind, thing: &Noun, parsed: &Parsed<'_>, confidence: u8) {
        let all: Vec<Token> = parsed.subject.iter().chain(std::iter::once(parsed.verb)).chain(parsed.complement).cloned().collect();
        let figures = if kind == Kind::Wrong || kind == Kind::Started { self.figures(parsed.complement, thing) } else { Vec::new() };
        let past = matches!(kind, Kind::Done | Kind::Delivered | Kind::Passed | Kind::Started);
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
                .map(|f| figure(f.amount, if kind == Kind::Wrong { Role::Out } else { Role::Told }, f.of))
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
            if let Some(fact) = self.facts.iter_mut().rev().find(|f| !f.dropped).filter(|f| f.certainty == super::Certainty::Hearsay && f.sentence + 1 >= sentence) {
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
            classes.any(&[Class::Side, Class::Pron, Class::Det]) || matches!(w.as_str(), "wall" | "side" | "one" | "half" | "end" | "rest")
        });
        match (&self.subject, part) {
            (Some(subject), true) => noun.with(subject),
            _ => noun,
        }
    }

    /// `X has a crack`, `there's a drip in X`, `X's got a run in the paint`.
    fn has_fault(&mut self, parsed: &Parsed<'_>, subject: &Noun) -> bool {
        let has = parsed.verb.is(Class::Have);
        let lacks = parsed.verb.text == "has" || parsed.verb.text == "have";
        let none = parsed.complement.first().is_some_and(|t| t.text == "no") || parsed.chain.iter().any(|t| t.text == "no");
        if has && lacks && none && !by_somebody(parsed.subject) && !parsed.complement.iter().any(|t| t.any(&[Class::FaultNoun, Class::Idle])) {
            let part = Noun::of(parsed.complement);
            if !part.is_empty() {
                let whole = self.resolve(subject);
                let thing = part.with(&whole);
                self.state_fact(Kind::NotDone, &thing, parsed, 82);
                return true;
            }
        }
        let fault = parsed.complement.iter().position(|t| t.what == What::Word && t.is(Class::FaultNoun));
        let article = parsed.complement.iter().take(3).any(|t| matches!(t.text.as_str(), "a" | "an" | "some" | "two" | "three" | "no") || t.amount().is_some());
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

    /// `he isn't here`: whoever the work waits for has not come; what waits for them is not done.
    fn is_here(&mut self, parsed: &Parsed<'_>) -> bool {
        let somebody = !parsed.subject.is_empty() && parsed.subject.iter().all(|t| matches!(t.text.as_str(), "he" | "she"));
        let here = parsed.complement.iter().any(|t| t.text == "here") && parsed.complement.iter().all(|t| t.any(&[Class::Arrived, Class::Adv]) || t.when().is_some());
        if !somebody || !here || parsed.complement.is_empty() {
            return false;
        }
        let sentence = self.sentence;
        let awaited = self.facts.iter().rev().find(|f| !f.dropped && f.sentence + 3 >= sentence && f.kind == Kind::Blocked).and_then(|f| f.cause.clone());
        if let (Some(cause), true) = (awaited, parsed.denied) {
            let words: Vec<String> = crate::tokens::split_words(&cause);
            let thing = Noun { head: words.len(), words, refers: false };
            self.state_fact(Kind::NotDone, &thing, parsed, 76);
        }
        true
    }

    /// Drops what was only reckoned to be out: somebody says that it is nothing.
    pub(super) fn waive(&mut self) {
        let sentence = self.sentence;
        for fact in self.facts.iter_mut().rev().take(3) {
            if fact.kind == Kind::Wrong && fact.detail == super::readings::RECKONED && fact.sentence + 3 >= sentence {
                fact.dropped = true;
            }
        }
    }

    /// Drops the last fault of the thing in hand: it is put right.
    pub(super) fn clear_fault(&mut self) {
        let sentence = self.sentence;
        if let Some(fact) = self.facts.iter_mut().rev().take(3).find(|f| !f.dropped && f.kind == Kind::Wrong && f.sentence + 5 >= sentence) {
            fact.dropped = true;
        }
    }

    /// `there's no rail`, `there's a crack in the sill`, `there are two boxes here`.
    fn there_is(&mut self, parsed: &Parsed<'_>) -> bool {
        let complement = parsed.complement;
        let none = parsed.denied || complement.first().is_some_and(|t| t.text == "no");
        let noun = Noun::of(complement);
        if none {
            let faulty = complement.iter().any(|t| t.any(&[Class::FaultNoun, Class::Wrong]));
            if faulty || noun.is_empty() || complement.iter().any(|t| t.is(Class::Idle)) {
                return true;
            }
            let for_it = complement.iter().any(|t| t.text == "for") && complement.iter().any(|t| matches!(t.text.as_str(), "it" | "them" | "that"));
            let waits = self.facts.iter().rposition(|f| !f.dropped && f.sentence == self.sentence && f.kind == Kind::NotDone);
            if let (true, Some(at)) = (for_it, waits) {
                // "It's not connected, there's no trap for it": that is why.
                if let Some(held) = self.facts.get(at).cloned() {
                    let cause = Some(format!("no {}", noun.text()));
                    self.facts.push(super::Fact { kind: Kind::Blocked, cause, confidence: 86, ..held });
                }
                return true;
            }
            let thing = self.resolve(&noun);
            let kind = if complement.iter().any(|t| matches!(t.text.as_str(), "on site" | "here")) { Kind::NotDelivered } else { Kind::NotDone };
            self.state_fact(kind, &thing, parsed, 80);
            return true;
        }
        let fault = complement.iter().position(|t| t.what == What::Word && t.any(&[Class::FaultNoun, Class::Wrong]));
        if let Some(at) = fault {
            let where_it_is = Noun::of(complement.get(at + 1..).unwrap_or_default());
            let thing = if where_it_is.is_empty() { Noun::of(complement).with(&self.subject.clone().unwrap_or_default()) } else { where_it_is };
            let thing = self.resolve(&thing);
            self.state_fact(Kind::Wrong, &thing, parsed, 86);
            return true;
        }
        if complement.iter().any(|t| matches!(t.text.as_str(), "sticker" | "tag" | "label" | "note")) {
            self.aside = Some(noun.clone());
        }
        if let Some(found) = state::find(complement)
            && let State::Is(kind) = found.state
            && (kind == Kind::NotDone || kind == Kind::Delivered && complement.get(found.at).is_some_and(|t| matches!(t.text.as_str(), "here" | "on site")))
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

    /// `X needs sanding`, `X wants moving`, `X still needs a coat`.
    fn needs(&mut self, parsed: &Parsed<'_>) -> bool {
        let complement = parsed.complement;
        let subject = Noun::of(parsed.subject);
        let Some(first) = complement.iter().find(|t| !t.is(Class::Adv)) else {
            return false;
        };
        if parsed.denied {
            return true;
        }
        let people = by_person(parsed.subject);
        let doing = first.what == What::Word && (first.text.ends_with("ing") || first.is(Class::Done) || first.text == "to" || first.text == "to be" || participle(&first.text));
        let named = if people { subject_or(&subject, complement, true) } else { Noun::of(complement).with(&subject) };
        let mut named = named;
        named.refers |= subject.refers || subject.is_empty() && !people;
        let thing = self.resolve(&named);
        if thing.is_empty() {
            return false;
        }
        let _ = doing;
        let figures: Vec<_> = complement.iter().filter_map(|t| t.amount()).map(|a| {
            let mut amount = *a;
            if amount.unit == Unit::None && amount.manner != crate::numbers::Manner::Full {
                amount.unit = crate::numbers::default_unit(self.vocabulary.units);
            }
            figure(amount, Role::Told, String::new())
        }).collect();
        let dated = complement.iter().find_map(|t| t.when()).copied().map(|w| self.date(&w, Tense::Coming));
        let detail = text_of(complement);
        if let Some(fact) = self.fact(Kind::Next, &thing, 80) {
            fact.figures = figures;
            fact.dated = dated;
            fact.detail = detail;
        }
        true
    }

    /// `X will be in Friday`, `X should be here`, `X can go Monday`: a date makes it a next step.
    fn will_be(&mut self, parsed: &Parsed<'_>) -> bool {
        let when = parsed.complement.iter().find_map(|t| t.when()).copied();
        let wants = parsed.verb.is(Class::Wanted) || parsed.verb.text == "should";
        let subject = Noun::of(parsed.subject);
        if parsed.denied {
            let thing = self.resolve(&subject);
            let done_to = state::find(parsed.complement).filter(|found| found.state == State::Is(Kind::Done));
            let passive = parsed.complement.first().is_some_and(|t| t.text == "be") || parsed.chain.iter().any(|t| t.text == "be");
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
            let able = parsed.complement.first().is_some_and(|t| REFUSED.contains(&t.text.split(' ').next().unwrap_or_default()));
            let refuses = able && !by_somebody(parsed.subject) && when.is_none() && matches!(parsed.verb.text.as_str(), "will" | "would") && !parsed.complement.first().is_some_and(|t| t.text == "be");
            if refuses {
                self.state_fact(Kind::Wrong, &thing, parsed, 80);
            }
            return true;
        }
        let Some(when) = when else {
            let out = state::find(parsed.complement).is_some_and(|found| found.state == State::Is(Kind::Wrong));
            if out && !wants {
                let thing = self.resolve(&subject);
                self.state_fact(Kind::Wrong, &thing, parsed, 80);
                return true;
            }
            let must = parsed.verb.is(Class::Will) && matches!(parsed.verb.text.as_str(), "has to" | "have to" | "needs to" | "need to" | "must" | "is to" | "are to" | "got to" | "ought to" | "should")
                || parsed.complement.first().is_some_and(|t| matches!(t.text.as_str(), "have to" | "need to" | "got to"));
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
        let comes = people && parsed.subject.iter().all(|t| matches!(t.text.as_str(), "he" | "she")) && parsed.complement.iter().any(|t| t.text == "here");
        if comes {
            return true;
        }
        if parsed.complement.iter().any(|t| t.any(&[Class::Wrong]) && !t.any(&[Class::Particle])) {
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

    /// `they've hung the doors`, `he has not finished the ceiling`, `I've got ten`.
    fn has_done(&mut self, parsed: &Parsed<'_>) -> bool {
        let Some(at) = parsed.complement.iter().position(state::is_done_word) else {
            return false;
        };
        let object = Noun::of(parsed.complement.get(at + 1..).unwrap_or_default());
        if at > 1 || object.is_empty() && !parsed.complement.iter().any(|t| t.is(Class::Pron)) {
            return false;
        }
        let thing = self.resolve(&object);
        let kind = if parsed.denied { Kind::NotDone } else { Kind::Done };
        let wrong = parsed.complement.get(at..).unwrap_or_default().iter().any(|t| t.what == What::Word && t.is(Class::Wrong) && !t.any(&[Class::Particle]));
        self.state_fact(if wrong { Kind::Wrong } else { kind }, &thing, parsed, 86);
        true
    }

    /// `Fintan's after connecting the sink`: it is just done.
    fn just_done(&mut self, parsed: &Parsed<'_>) -> bool {
        let after = parsed.complement.first().is_some_and(|t| t.text == "after");
        let doing = parsed.complement.get(1).filter(|t| t.what == What::Word && t.text.ends_with("ing"));
        let Some(doing) = doing.filter(|_| after) else {
            return false;
        };
        let object = Noun::of(parsed.complement.get(2..).unwrap_or_default());
        let thing = if object.is_empty() { Noun::of(std::slice::from_ref(doing)) } else { object };
        let thing = self.resolve(&thing);
        let kind = if parsed.denied { Kind::NotDone } else { Kind::Done };
        self.state_fact(kind, &thing, parsed, 86);
        true
    }

    /// `ceiling's had its two coats`: what it had is done.
    fn has_had(&mut self, parsed: &Parsed<'_>) -> bool {
        let had = self.words_of(parsed).contains(&"had".to_owned());
        let noun = Noun::of(parsed.complement);
        let coats = parsed.complement.iter().any(|t| t.amount().is_some_and(|a| a.unit == Unit::Coat) || matches!(t.text.as_str(), "coat" | "coats" | "mist coat" | "wash" | "sanding"));
        if !had || !coats || by_person(parsed.subject) {
            return false;
        }
        let subject = Noun::of(parsed.subject);
        let thing = self.resolve(&subject);
        let thing = thing.with(&noun);
        let kind = if parsed.denied { Kind::NotDone } else { Kind::Done };
        self.state_fact(kind, &thing, parsed, 86);
        true
    }

    fn words_of(&self, parsed: &Parsed<'_>) -> Vec<String> {
        parsed.chain.iter().chain(std::iter::once(parsed.verb)).map(|t| t.text.clone()).collect()
    }

    /// `Lockwood's ringing them`: somebody is about to.
    fn will_talk(&mut self, doing: &Token, parsed: &Parsed<'_>) -> bool {
        let stem = crate::lexicon::stem(&doing.text);
        let talks = ["ring", "call", "phone", "send", "bring", "order", "chas", "ask", "email"].contains(&stem.as_str());
        let who = parsed.subject.iter().find_map(|t| self.person_name(t));
        if !talks || parsed.denied || who.is_none() {
            return false;
        }
        let object = Noun::of(parsed.complement.get(1..).unwrap_or_default());
        let thing = self.resolve(&object);
        self.state_fact(Kind::Next, &thing, parsed, 80);
        if let Some(fact) = self.facts.last_mut() {
            fact.who = who;
        }
        true
    }

    /// `painters are done`, `sweep's been`, `Teddy isn't finished`, `he's tiling the hall`.
    fn person_state(&mut self, parsed: &Parsed<'_>) -> bool {
        let person = parsed.subject.iter().find(|t| t.is(Class::Person) || matches!(t.what, What::Person(_)));
        let doing = parsed.complement.first().filter(|t| t.what == What::Word && t.text.ends_with("ing") && t.text.len() > 4);
        if let Some(doing) = doing
            && !doing.any(&[Class::Read, Class::Block, Class::Adv, Class::Will, Class::Arrived])
            && parsed.verb.is(Class::Be)
        {
            let object = Noun::of(parsed.complement.get(1..).unwrap_or_default());
            if self.will_talk(doing, parsed) {
                return true;
            }
            let idle = doing.is(Class::Verb) && !doing.is(Class::Thing) || !is_work(&doing.text) || doing.text == "working" && (parsed.denied || parsed.complement.iter().any(|t| t.when().is_some()));
            if idle {
                return false;
            }
            let working = matches!(doing.text.as_str(), "working" | "busy with" | "finishing" | "starting" | "doing");
            let mut noun = if working { object } else { object.with(&Noun::of(std::slice::from_ref(doing))) };
            noun.refers = noun.is_empty();
            let thing = self.resolve(&noun);
            let kind = if parsed.denied { Kind::NotDone } else { Kind::Started };
            self.state_fact(kind, &thing, parsed, 78);
            return true;
        }
        let Some(person) = person else {
            return false;
        };
        let is_there = parsed.complement.is_empty() || parsed.complement.iter().all(|t| t.any(&[Class::Adv, Class::Arrived]));
        if is_there && !parsed.denied {
            // "Sweep's been": their work is done.
            let noun = Noun::of(std::slice::from_ref(person));
            let back = self.subject.clone().unwrap_or_default();
            let thing = if back.is_empty() { noun } else { back.with(&noun) };
            self.state_fact(Kind::Done, &thing, parsed, 72);
            return true;
        }
        false
    }

    /// `colour's wrong`, `they are right`: no news by itself, but it may clear a doubt.
    fn is_well(&mut self, subject: &Noun, denied: bool, parsed: &Parsed<'_>) -> bool {
        let thing = self.resolve(subject);
        if denied {
            self.state_fact(Kind::Wrong, &thing, parsed, 84);
            return true;
        }
        if subject.refers || subject.is_empty() {
            self.waive();
        }
        let sentence = self.sentence;
        let refers = subject.refers || subject.is_empty();
        if let Some(fact) = self.facts.iter_mut().rev().take(2).find(|f| !f.dropped && f.kind == Kind::Wrong && f.sentence + 4 >= sentence)
            && refers
            && fact.sentence < sentence
        {
            fact.dropped = true;
        }
        true
    }

    /// `X is Y` where Y names something: no state.
    fn named_so(&mut self, parsed: &Parsed<'_>, subject: Noun) -> bool {
        if parsed.verb.is(Class::Have) && parsed.denied {
            // "we haven't got the handles", "hasn't a rail"
            let object = Noun::of(parsed.complement);
            let people = by_person(parsed.subject);
            if !object.is_empty() && people {
                let thing = self.resolve(&object);
                self.state_fact(Kind::NotDelivered, &thing, parsed, 74);
                return true;
            }
        }
        let doing = parsed.complement.first().is_some_and(|t| t.what == What::Word && participle(&t.text) && t.text.ends_with("ing"));
        if doing && parsed.verb.is(Class::Be) && !subject.is_empty() {
            self.resolve(&subject);
            return true;
        }
        if !subject.is_empty() && !by_person(parsed.subject) {
            self.resolve(&subject);
        } else if !Noun::of(parsed.complement).is_empty() && subject.refers && self.subject.is_none() {
            self.subject = Some(Noun::of(parsed.complement));
        }
        false
    }
}

/// Where goods are that are not on site.
const OFF_SITE: [&str; 20] = [
    "office", "shop", "works", "workshop", "yard", "factory", "depot", "warehouse", "mill", "merchant", "merchants",
    "supplier", "suppliers", "dealer", "fabricator", "fabricators", "quarry", "foundry", "docks", "dock",
];

/// What a thing can refuse to do.
const REFUSED: [&str; 30] = [
    "close", "open", "shut", "latch", "lock", "fit", "go", "turn", "light", "start", "fire", "run", "drain", "stay",
    "work", "come", "back", "reach", "seal", "sit", "meet", "line", "clear", "budge", "move", "hold", "shift", "slide",
    "flush", "fill",
];

/// Whether an *-ing* word is work that somebody does.
fn is_work(doing: &str) -> bool {
    let Some(base) = doing.strip_suffix("ing") else {
        return true;
    };
    let mut bases = vec![base.to_owned(), format!("{base}e")];
    let mut letters = base.chars().rev();
    if let (Some(a), Some(b)) = (letters.next(), letters.next())
        && a == b
    {
        bases.push(base.get(..base.len() - a.len_utf8()).unwrap_or_default().to_owned());
    }
    bases.iter().any(|word| crate::lexicon::lexicon().word(word).any(&[Class::Act, Class::Thing]))
        || matches!(doing, "working" | "finishing" | "doing")
}

/// Whether the subject can only be somebody: `I`, `he`, a trade.
pub(super) fn by_somebody(subject: &[Token]) -> bool {
    by_person(subject) && !subject.iter().all(|t| matches!(t.text.as_str(), "they") || !t.any(&[Class::ThirdPerson, Class::FirstPerson, Class::Person]) && !matches!(t.what, What::Person(_)))
}

/// Whether the subject is somebody and not something.
pub(super) fn by_person(subject: &[Token]) -> bool {
    let people = subject.iter().any(|t| {
        t.any(&[Class::FirstPerson, Class::ThirdPerson, Class::Person]) || matches!(t.what, What::Person(_)) || matches!(t.text.as_str(), "nobody" | "no one")
    });
    let things = subject.iter().any(|t| is_content(t) && !t.is(Class::Person) && !matches!(t.what, What::Person(_)));
    people && !things
}

fn there(subject: &[Token]) -> bool {
    subject.first().is_some_and(|t| t.text == "there")
}

/// What stands after the first fault noun: where the fault is.
fn after_fault(tokens: &[Token]) -> &[Token] {
    let at = tokens.iter().position(|t| t.is(Class::FaultNoun)).map_or(tokens.len(), |at| at + 1);
    tokens.get(at..).unwrap_or_default()
}

/// The surfaces that a layer is said to be on: `on front wall and back wall`.
fn surface_of(complement: &[Token], at: usize, kind: Kind) -> Option<Noun> {
    let word = complement.get(at)?;
    let on = word.text == "on" || complement.get(at + 1).is_some_and(|t| t.text == "on") && word.is(Class::Particle);
    let noun = Noun::of(complement.get(at + 1..)?);
    (on && matches!(kind, Kind::Done | Kind::NotDone) && !noun.is_empty() && noun.words.len() <= 4).then_some(noun)
}

/// The subject, or what the predicate names when the subject is somebody or nothing.
fn subject_or(subject: &Noun, complement: &[Token], object: bool) -> Noun {
    if object {
        let noun = Noun::of(complement);
        if noun.is_empty() { subject.clone() } else { noun }
    } else {
        subject.clone()
    }
}

