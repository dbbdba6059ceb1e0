//! What is to be done next: orders, intents, and orders not to.

use super::scene::{recent, recent_mut};
use super::{
    Class, Clause, Kind, Link, Noun, Reader, Role, Tense, Token, What, blocked::text_of, figure,
};
use crate::{
    clauses::{is_verb, participle},
    fact::Fact,
    noun::is_content,
};

/// Verbs of warning and of looking that head talk more than orders.
const NO_ORDER: [&str; 18] = [
    "mind", "watch", "see", "look", "come", "wait", "imagine", "guess", "trust", "forget",
    "listen", "hear", "smell", "feel", "think", "know", "say", "help",
];

/// Nouns that stand for the thing in hand.
const STAND_INS: [&str; 12] = [
    "order", "thing", "things", "job", "bit", "edge", "bottom", "top", "end", "side", "back",
    "corner",
];

impl Reader<'_> {
    /// Reads an order or an intent; false if the clause is neither.
    pub(super) fn order(&mut self, clause: &Clause, next: Option<&Clause>) -> bool {
        let tokens = clause.tokens.as_slice();
        if let Some(found) = negative(tokens) {
            return self.hold_off(clause, found, next);
        }
        if let [who, wants, det, ..] = tokens
            && who.is(Class::FirstPerson)
            && matches!(wants.text.as_str(), "want" | "need")
            && (det.is(Class::Det) && !det.is(Class::Pron) || det.text == "that")
        {
            // "I want the handrail down to nine hundred."
            return self.next_step(clause, 1, None);
        }
        let wants = tokens.first().is_some_and(|t| {
            matches!(t.text.as_str(), "i want" | "we want" | "i need" | "we need")
        });
        if wants
            && tokens
                .get(1)
                .is_some_and(|t| t.is(Class::Det) && !t.is(Class::Pron))
        {
            return self.next_step(clause, 0, None);
        }
        let chosen = self
            .facts
            .iter()
            .skip(self.sentence_from)
            .any(|fact| !fact.dropped && fact.kind == Kind::Decision);
        if chosen && (clause.link == Link::Or || next.is_some_and(|n| n.link == Link::Or)) {
            // "The architect must say, cut the step or make a ramp": the options.
            return true;
        }
        let (verb_at, who) = match imperative(tokens) {
            Some(at) => (at, None),
            None => match self.intent(tokens) {
                Some(found) => found,
                None => return false,
            },
        };
        self.next_step(clause, verb_at, who)
    }

    fn next_step(&mut self, clause: &Clause, verb_at: usize, who: Option<String>) -> bool {
        let tokens = clause.tokens.as_slice();
        let Some(verb) = tokens.get(verb_at) else {
            return false;
        };
        let object = tokens.get(verb_at + 1..).unwrap_or_default();
        if verb.is(Class::Soft) && NO_ORDER.contains(&verb.text.as_str()) {
            // "Mind that cable": care, and no step. It says nothing of the house.
            return true;
        }
        let gauges = matches!(verb.text.as_str(), "put" | "stick" | "hold" | "get" | "run")
            && object
                .iter()
                .any(|t| super::active::TOOLS.contains(&t.text.as_str()));
        let as_it_is = matches!(verb.text.as_str(), "leave" | "keep" | "take" | "live with")
            && object.iter().all(|t| t.any(&[Class::Pron, Class::Adv]))
            && self.sentence_certainty != super::Certainty::Hearsay;
        if gauges || as_it_is || tokens.iter().any(|t| t.is(Class::Idle)) {
            return true;
        }
        let mut noun = Noun::of(object);
        let stands_in = object.first().is_some_and(|t| t.is(Class::Det))
            && noun
                .words
                .first()
                .is_some_and(|w| STAND_INS.contains(&w.as_str()));
        noun.refers |= stands_in
            || object
                .iter()
                .any(|t| t.is(Class::Pron) && t.what == What::Word && !t.is(Class::Det))
            || object.first().is_some_and(|t| t.amount().is_some());
        let talks = verb.is(Class::Talk);
        let cue = self.cue;
        if verb.text == "ask"
            && let Some(fact) = recent_mut(&mut self.facts)
                .find(|f| !f.dropped)
                .filter(|f| f.kind == Kind::Decision && f.cue + 1 >= cue)
        {
            let asked = object
                .iter()
                .filter(|t| is_content(t))
                .map(|t| t.text.clone())
                .collect::<Vec<_>>()
                .join(" ");
            fact.who = Some(asked);
            return true;
        }
        let person = object.iter().find_map(|token| self.person_name(token));
        if talks || noun.words.is_empty() {
            noun.refers = true;
        }
        let keep = talks || self.subject.is_some();
        let thing = self.resolve_keeping(&noun, keep);
        let thing = if self.closing {
            Noun::of(object)
        } else {
            self.with_last(&thing)
        };
        if thing.is_empty() {
            return false;
        }
        let dated = tokens
            .iter()
            .find_map(|t| t.when())
            .copied()
            .map(|when| self.date(&when, Tense::Coming));
        let figures: Vec<_> = object
            .iter()
            .filter_map(|t| t.amount())
            .map(|amount| figure(*amount, Role::Told, String::new()))
            .collect();
        let detail = text_of(tokens.get(verb_at..).unwrap_or_default());
        let able = who.is_none()
            && tokens
                .get(..verb_at)
                .unwrap_or_default()
                .iter()
                .any(|t| matches!(t.text.as_str(), "can" | "could" | "i can" | "we can"));
        let confidence = match (able && dated.is_none(), verb.is(Class::Soft)) {
            // "I can take an eighth off": an offer, and no step yet.
            (true, _) => 70,
            (false, true) => 78,
            (false, false) => 88,
        };
        let who = who.or(if talks { None } else { person });
        let away = matches!(
            verb.text.as_str(),
            "stay off" | "keep off" | "keep out" | "keep out of" | "stay out of" | "keep clear of"
        );
        if away && !noun.is_empty() {
            // "It isn't up, so please stay off the stairs."
            let cause = self.last_denial();
            let of = Noun::of(object);
            if let Some(fact) = self.fact(Kind::Blocked, &of, 84) {
                fact.cause = cause;
                fact.detail = detail;
                fact.dated = dated;
            }
            return true;
        }
        if let Some(fact) = self.fact(Kind::Next, &thing, confidence) {
            fact.dated = dated;
            fact.figures = figures;
            fact.detail = detail;
            fact.who = who.or_else(|| fact.who.take());
        }
        true
    }

    /// The thing of a step with what was spoken of just before behind it.
    pub(super) fn with_last(&self, thing: &Noun) -> Noun {
        let near = recent(&self.facts)
            .find(|f| !f.dropped)
            .filter(|f| f.cue + 1 >= self.cue && f.place == self.place && !self.closing);
        let thing = self.in_context(thing);
        match near {
            Some(fact) if thing.words.len() <= 4 => thing.with(&fact.thing),
            _ => thing,
        }
    }

    /// The thing of a step, without making a person that is told the subject of what follows.
    fn resolve_keeping(&mut self, noun: &Noun, keep: bool) -> Noun {
        let before = self.subject.clone();
        let thing = self.resolve(noun);
        if keep {
            self.subject = before;
        }
        thing
    }

    /// `I'll plane it`, `let me call the inspector`, `he has to move it`: the verb and who.
    fn intent(&self, tokens: &[Token]) -> Option<(usize, Option<String>)> {
        let at = tokens.iter().position(|token| {
            token.what == What::Word
                && (token.is(Class::Will) || token.text == "will")
                && !token.is(Class::Hedge)
                && !matches!(
                    token.text.as_str(),
                    "got to" | "i'd" | "i would" | "would" | "we'd" | "we would"
                )
                || matches!(token.text.as_str(), "can" | "could")
        })?;
        let before = tokens.get(..at)?;
        let first_person = before.iter().any(|t| t.is(Class::FirstPerson));
        let token = tokens.get(at)?;
        let named = before.iter().any(|t| matches!(t.what, What::Person(_)));
        if matches!(token.text.as_str(), "can" | "could") && !first_person && !named {
            return None;
        }
        let personal = before.iter().all(|t| {
            t.any(&[
                Class::Pron,
                Class::FirstPerson,
                Class::ThirdPerson,
                Class::Person,
                Class::Det,
                Class::Adv,
                Class::Conj,
                Class::Be,
                Class::Filler,
            ]) || matches!(t.what, What::Person(_))
                || t.when().is_some()
        });
        let verb = tokens
            .iter()
            .enumerate()
            .skip(at + 1)
            .find(|(_, t)| !t.is(Class::Adv) && !t.is(Class::Hedge))
            .filter(|(_, t)| t.is(Class::Act) || t.classes.is_empty())?;
        if !personal || tokens.get(at + 1).is_some_and(|t| t.is(Class::Not)) {
            return None;
        }
        let talked_at = verb.1.is(Class::Talk)
            && !first_person
            && tokens.get(verb.0 + 1).is_some_and(|t| {
                matches!(
                    t.text.as_str(),
                    "you" | "me" | "us" | "anyone" | "everybody"
                )
            });
        if talked_at {
            return None;
        }
        let who = before.iter().find_map(|t| self.person_name(t));
        Some((verb.0, who))
    }

    /// `don't bring it in till the floor's coated`, `so don't use it`: a wait, or a step not to take.
    fn hold_off(&mut self, clause: &Clause, at: usize, next: Option<&Clause>) -> bool {
        let tokens = clause.tokens.as_slice();
        let Some(verb) = tokens.get(at) else {
            return false;
        };
        let quiet = [
            "be", "come", "touch", "start", "let", "even", "go", "step", "fall", "trip", "know",
            "think", "worry", "care", "ask", "mind", "tell", "forget", "say", "see", "like", "get",
            "want", "believe", "have", "need",
        ];
        if quiet.contains(&verb.text.as_str()) {
            return true;
        }
        let object = tokens.get(at + 1..).unwrap_or_default();
        let mut noun = Noun::of(object);
        noun.refers |= object
            .iter()
            .any(|t| t.is(Class::Pron) && t.what == What::Word && !t.is(Class::Det));
        let same = noun.words.is_empty() || noun.refers;
        let thing = self.resolve(&noun);
        if thing.is_empty() {
            return false;
        }
        let until = next.filter(|next| next.link == Link::Until);
        let held_by = self.denial_in_sentence();
        let detail = text_of(tokens);
        let use_of = matches!(
            verb.text.as_str(),
            "run"
                | "use"
                | "open"
                | "light"
                | "fire"
                | "turn"
                | "turn on"
                | "switch on"
                | "walk"
                | "stand"
                | "load"
                | "energise"
                | "plug"
        );
        let so = self.so || clause.link == Link::So;
        let blocked = until.is_some() || (so || use_of) && held_by.is_some() && (!same || use_of);
        if so && same && !use_of {
            // "It isn't on, so don't put it on": the step says it all.
            let sentence = self.sentence;
            if let Some(fact) = recent_mut(&mut self.facts)
                .find(|f| !f.dropped && f.kind == Kind::NotDone && f.sentence == sentence)
            {
                fact.dropped = true;
            }
        }
        let thing = if blocked {
            thing
        } else {
            self.with_last(&thing)
        };
        let cause = held_by
            .as_ref()
            .map(|fact| format!("{} {}", fact.thing.text(), fact.kind.words()));
        let kind = if blocked { Kind::Blocked } else { Kind::Next };
        if let Some(fact) = self.fact(kind, &thing, if blocked || so { 84 } else { 70 }) {
            fact.detail = detail;
            if blocked {
                fact.cause = cause.filter(|_| until.is_none());
            }
        }
        true
    }

    pub(super) fn denial_in_sentence(&self) -> Option<Fact> {
        recent(&self.facts)
            .find(|fact| {
                !fact.dropped
                    && fact.sentence + 1 >= self.sentence
                    && matches!(
                        fact.kind,
                        Kind::NotDone
                            | Kind::NotDelivered
                            | Kind::Wrong
                            | Kind::Failed
                            | Kind::Measured
                    )
            })
            .cloned()
    }
}

/// Where the verb of an order stands, if the clause is one.
fn imperative(tokens: &[Token]) -> Option<usize> {
    let at = tokens.iter().position(|t| {
        !(t.what == What::Word
            && t.any(&[Class::Adv, Class::Filler, Class::Conj])
            && !t.is(Class::Act))
            && t.when().is_none()
    })?;
    let verb = tokens.get(at)?;
    // "Tension them": a word that is no known noun, and a pronoun, at the head.
    let odd = verb.what == What::Word
        && verb.classes.is_empty()
        && !participle(&verb.text)
        && tokens.len() <= at + 3
        && tokens
            .get(at + 1)
            .is_some_and(|t| matches!(t.text.as_str(), "it" | "them"));
    let phrasal = verb.what == What::Word
        && !verb.any(&[
            Class::Det,
            Class::Pron,
            Class::Be,
            Class::Have,
            Class::Do,
            Class::Prep,
            Class::Adv,
        ])
        && !participle(&verb.text)
        && tokens
            .get(at + 1)
            .is_some_and(|t| matches!(t.text.as_str(), "it" | "them" | "that" | "those" | "this"))
        && tokens.get(at + 2).is_some_and(|t| t.is(Class::Particle))
        && tokens.len() <= at + 4;
    if odd || phrasal {
        return Some(at);
    }
    if verb.what != What::Word || !verb.is(Class::Act) {
        return None;
    }
    let after = tokens.get(at + 1..)?;
    let next = after.first();
    // "Plaster is cured" and "paint's on" are things; so is a word before a state.
    let verb_later = (0..after.len()).take(6).any(|i| {
        is_verb(after, i)
            && !after
                .get(i)
                .is_some_and(|t| t.any(&[Class::Modal]) && t.is(Class::Pron))
    });
    if verb_later
        && !matches!(
            verb.text.as_str(),
            "make sure"
                | "tell"
                | "ask"
                | "check"
                | "find out"
                | "remind"
                | "let"
                | "see"
                | "double check"
        )
    {
        return None;
    }
    let passive = super::state::find(after).is_some_and(|found| {
        found.at > 0
            && matches!(
                found.state,
                super::state::State::Is(Kind::Done | Kind::Passed | Kind::Wrong | Kind::NotDone)
            )
            && after.get(found.at).is_some_and(|t| {
                !t.any(&[Class::Particle, Class::Act, Class::Prep, Class::FaultNoun])
            })
            && after
                .get(..found.at)
                .is_some_and(|object| object.iter().all(is_content))
    });
    if passive
        && !matches!(
            verb.text.as_str(),
            "get" | "make sure" | "keep" | "leave" | "check"
        )
    {
        return None;
    }
    let object = next.is_some_and(|next| {
        next.any(&[Class::Det, Class::Pron, Class::Person])
            || next.amount().is_some()
            || matches!(next.what, What::Person(_) | What::Place(_))
            || next.any(&[Class::Which])
    });
    let also_noun = verb.any(&[
        Class::Done,
        Class::Wrong,
        Class::FaultNoun,
        Class::AbleNoun,
        Class::TestNoun,
        Class::Decision,
        Class::Fail,
        Class::Pass,
        Class::Particle,
        Class::Ok,
    ]) || verb.is(Class::Thing)
        || NOUNS.contains(&verb.text.as_str());
    let orders = verb.text == "order" && next.is_some_and(is_content) && tokens.len() <= at + 4;
    if object || orders {
        return Some(at);
    }
    if also_noun {
        return None;
    }
    let plain = next.is_some_and(|next| {
        is_content(next) && !next.any(&[Class::Done, Class::NotDone, Class::Wrong, Class::Arrived])
            || next.is(Class::Prep)
            || next.is(Class::Adv)
            || next.is(Class::Particle)
    });
    plain.then_some(at)
}

/// Words of things that are also verbs: without an article after them they are things.
const NOUNS: [&str; 64] = [
    "paint", "prime", "tape", "seal", "plane", "tile", "board", "plaster", "skim", "screw", "nail",
    "glue", "bolt", "drill", "core", "pad", "guard", "prop", "brace", "support", "saw", "round",
    "box", "cap", "sleeve", "fire", "plug", "wire", "drain", "heat", "cover", "wedge", "pack",
    "shim", "patch", "mark", "lift", "lock", "stack", "sign", "price", "quote", "plan", "template",
    "polish", "oil", "wax", "clear", "press", "start up", "level", "square", "grout", "spray",
    "felt", "slate", "batten", "gutter", "render", "point", "stain", "varnish", "silicone",
    "sheet",
];

/// Where the verb of an order not to do something stands.
fn negative(tokens: &[Token]) -> Option<usize> {
    let at = tokens.iter().position(|t| {
        !(t.what == What::Word
            && t.any(&[Class::Adv, Class::Filler, Class::Conj])
            && !t.is(Class::Do))
    })?;
    let texts: Vec<&str> = tokens
        .iter()
        .skip(at)
        .take(3)
        .map(|t| t.text.as_str())
        .collect();
    match texts.as_slice() {
        ["do", "not", _] => Some(at + 2),
        ["never", _, ..] if tokens.get(at + 1).is_some_and(|t| t.is(Class::Act)) => Some(at + 1),
        ["please", "do", "not"] => Some(at + 3),
        _ => None,
    }
}
