//! What stands in the way of what.

use super::scene::{recent, recent_mut};
use super::{Class, Clause, Fact, Kind, Link, Noun, Reader, Tense, Token, What};
use crate::{clauses::is_verb, noun::is_content};

/// Verbs after *cannot* that tell of the speaker and not of the work.
const OF_THE_MIND: [&str; 25] = [
    "feel",
    "smell",
    "notice",
    "spot",
    "blame",
    "tell",
    "speak",
    "swear",
    "count",
    "see",
    "find",
    "remember",
    "believe",
    "hear",
    "think",
    "say",
    "imagine",
    "know",
    "understand",
    "complain",
    "help",
    "wait",
    "fault",
    "be",
    "stand",
];

/// Stems of what nobody is to do to a thing till it is ready.
const WORK_ON_IT: [&str; 24] = [
    "hang", "til", "paint", "load", "lean", "fit", "fix", "plug", "pour", "sand", "cut", "dril",
    "glu", "clos", "cover", "board", "stand", "plaster", "mov", "pul", "seal", "grout", "mount",
    "nail",
];

impl Reader<'_> {
    /// `because ...`: the cause of what was last said not to be done.
    pub(super) fn cause_of_last(&mut self, clause: &Clause) -> bool {
        if clause.link != Link::Cause {
            return false;
        }
        let text = text_of(&clause.tokens);
        let (sentence, cue) = (self.sentence, self.cue);
        let certainty = self.sentence_certainty;
        let held = recent_mut(&mut self.facts)
            .find(|fact| !fact.dropped)
            .filter(|fact| fact.sentence + 2 >= sentence);
        match held {
            Some(fact) if fact.kind == Kind::Blocked => {
                fact.cause.get_or_insert(text);
            }
            Some(fact)
                if matches!(
                    fact.kind,
                    Kind::NotDone | Kind::NotDelivered | Kind::Started
                ) =>
            {
                let blocked = Fact {
                    kind: Kind::Blocked,
                    cause: Some(text),
                    cue,
                    sentence,
                    certainty,
                    confidence: 88,
                    figures: Vec::new(),
                    dated: None,
                    ..fact.clone()
                };
                self.facts.push(blocked);
            }
            _ => {}
        }
        self.cause_is_so(clause);
        true
    }

    /// `because the heat pump is not connected`: the cause is news of its own.
    fn cause_is_so(&mut self, clause: &Clause) {
        let tokens = clause.tokens.as_slice();
        let Some(parsed) = super::parsed::parse(tokens) else {
            return;
        };
        let noun = Noun::of(parsed.subject);
        let found = super::state::find(parsed.complement);
        let is_state = found.is_some_and(|found| {
            matches!(
                found.state,
                super::state::State::Is(
                    Kind::Done | Kind::Delivered | Kind::NotDelivered | Kind::Wrong
                )
            )
        });
        let named = !noun.is_empty()
            && !noun.refers
            && parsed.subject.iter().any(|t| t.is(Class::Thing))
            && !super::parsed::by_person(parsed.subject)
            && !parsed.subject.iter().any(|t| t.is(Class::Person));
        if parsed.denied && is_state && named && parsed.verb.is(Class::Be) {
            let plain = Clause {
                link: Link::Comma,
                tokens: tokens.to_vec(),
            };
            let keep = self.subject.clone();
            self.clause(&plain, None);
            self.subject = keep;
        }
    }

    /// `till ...`: what the last clause waits for.
    pub(super) fn until_of_last(&mut self, clause: &Clause) -> bool {
        if clause.link != Link::Until {
            return false;
        }
        let when = clause
            .tokens
            .first()
            .and_then(|token| token.when())
            .copied();
        let dated = when.map(|when| self.date(&when, Tense::Coming));
        let text = text_of(&clause.tokens);
        let sentence = self.sentence;
        if self.held_clause.take() == Some(sentence) {
            // "The sink's sitting in its box till there's a top": it waits.
            let thing = self.resolve(&Noun::default());
            let before = self.facts.len();
            if let Some(fact) = self.fact(Kind::Blocked, &thing, 80) {
                fact.cause = dated.is_none().then_some(text);
                fact.dated = dated;
            }
            for fact in self.facts.iter_mut().take(before).rev().take(2) {
                if fact.sentence == sentence && fact.kind == Kind::Delivered {
                    fact.dropped = true;
                }
            }
            return true;
        }
        let mut facts_to_add = None;
        if let Some(fact) =
            recent_mut(&mut self.facts).find(|fact| !fact.dropped && fact.sentence == sentence)
        {
            if fact.kind == Kind::NotDelivered && dated.is_some() {
                // "They're on back order till the twenty eighth": not here, and then they come.
                let coming = Fact {
                    kind: Kind::Next,
                    dated,
                    ..fact.clone()
                };
                facts_to_add = Some(coming);
            } else if matches!(fact.kind, Kind::NotDone | Kind::NotDelivered) {
                fact.kind = Kind::Blocked;
            }
            if fact.kind == Kind::Blocked {
                fact.dated = fact.dated.or(dated);
                if dated.is_none() && fact.cause.is_none() {
                    fact.cause = Some(text);
                }
            } else if fact.kind == Kind::Next && dated.is_some() {
                fact.dated = fact.dated.or(dated);
            }
        }
        self.facts.extend(facts_to_add);
        true
    }

    /// Reads a clause that says that something cannot go on.
    pub(super) fn blocked(&mut self, clause: &Clause, next: Option<&Clause>) -> bool {
        if next.is_some_and(|n| n.link == Link::Until) && stays(&clause.tokens) {
            self.held_clause = Some(self.sentence);
        }
        self.not_doing_till(clause, next)
            || self.waiting(clause, next)
            || self.cannot(clause, next)
            || self.nobody_until(clause, next)
            || self.first_of_all(clause)
            || self.not_ready_for(clause)
    }

    /// `I'm not touching it till the air's on`: it waits.
    fn not_doing_till(&mut self, clause: &Clause, next: Option<&Clause>) -> bool {
        let tokens = clause.tokens.as_slice();
        let doing = tokens
            .iter()
            .position(|t| t.what == What::Word && t.text.ends_with("ing") && t.text.len() > 4);
        let until = next.is_some_and(|n| n.link == Link::Until);
        let (Some(at), true) = (doing, until) else {
            return false;
        };
        let before = tokens.get(..at).unwrap_or_default();
        let denied = before.iter().any(|t| t.is(Class::Not));
        let somebody = before
            .iter()
            .any(|t| t.any(&[Class::FirstPerson, Class::ThirdPerson, Class::Person]));
        let plain = before.iter().all(|t| {
            t.any(&[
                Class::FirstPerson,
                Class::ThirdPerson,
                Class::Person,
                Class::Be,
                Class::Not,
                Class::Conj,
                Class::Adv,
                Class::Det,
            ]) || matches!(t.what, What::Person(_))
        });
        if !denied || !somebody || !plain {
            return false;
        }
        let after = tokens.get(at + 1..).unwrap_or_default();
        let mut noun = Noun::of(after);
        noun.refers |= noun.is_empty();
        let thing = self.resolve(&noun);
        self.fact(Kind::Blocked, &thing, 84).is_some()
    }

    /// `waiting for the cable`, `held up by the frame`, `dressers in the way`.
    fn waiting(&mut self, clause: &Clause, next: Option<&Clause>) -> bool {
        let tokens = &clause.tokens;
        let Some(at) = tokens
            .iter()
            .position(|token| token.what == What::Word && token.is(Class::Block))
        else {
            return false;
        };
        if tokens
            .get(..at)
            .unwrap_or_default()
            .iter()
            .any(|t| t.is(Class::Not) || t.is(Class::Act))
        {
            return false;
        }
        let before = Noun::of(tokens.get(..at).unwrap_or_default());
        let after = tokens.get(at + 1..).unwrap_or_default();
        let word = tokens.get(at).map(|t| t.text.clone()).unwrap_or_default();
        let filled = word == "stopped"
            && tokens
                .get(..at)
                .unwrap_or_default()
                .iter()
                .any(|t| matches!(t.text.as_str(), "been" | "is" | "are" | "'s"))
            && after
                .first()
                .is_none_or(|t| t.any(&[Class::Conj, Class::Done]));
        if filled {
            return false;
        }
        let of_access = [
            "in the way",
            "cannot get in",
            "can not get in",
            "no access",
            "off limits",
            "out of bounds",
            "nobody can get in",
            "can not get at",
            "can not get to",
        ];
        if of_access.contains(&word.as_str()) {
            let access = Noun {
                words: vec!["access".to_owned()],
                head: 1,
                refers: false,
            };
            let cause = if before.is_empty() {
                next.map(|n| text_of(&n.tokens))
            } else {
                Some(before.text())
            };
            let sentence = self.sentence;
            if let Some(fact) = recent_mut(&mut self.facts).find(|f| {
                f.sentence == sentence
                    && f.kind == Kind::Blocked
                    && f.thing.words.first().is_some_and(|w| w == "access")
            }) {
                fact.cause = cause.or_else(|| fact.cause.take());
                return true;
            }
            if let Some(fact) = self.fact(Kind::Blocked, &access, 85) {
                fact.cause = cause;
            }
            return true;
        }
        let causes = matches!(
            word.as_str(),
            "stopping" | "blocking" | "holding up" | "hold up"
        );
        let (thing, cause) = if causes {
            (Noun::of(after), before.text())
        } else {
            let person = tokens.get(..at).unwrap_or_default().iter().any(|t| {
                t.any(&[Class::FirstPerson, Class::ThirdPerson, Class::Person])
                    || matches!(t.what, What::Person(_))
            });
            let thing = if person && before.words.len() <= 1 {
                Noun::default()
            } else {
                before
            };
            (thing, text_of(after))
        };
        if thing.is_empty() && at == 0 && next.is_some_and(|n| n.link == Link::So) {
            // "Waiting on the stone, so no tap."
            self.denial = Some((cause, self.sentence));
            return true;
        }
        let thing = self.resolve(&thing);
        let cause = if cause.is_empty() {
            next.map(|n| text_of(&n.tokens))
        } else {
            Some(cause)
        };
        let dated = after
            .iter()
            .find_map(|t| t.when())
            .copied()
            .map(|w| self.date(&w, Tense::Coming));
        if let Some(fact) = self.fact(Kind::Blocked, &thing, 88) {
            fact.cause = cause;
            fact.dated = dated;
        }
        true
    }

    /// `cannot be made till`, `can't, the pipe isn't sleeved`, `we can't tile`.
    fn cannot(&mut self, clause: &Clause, next: Option<&Clause>) -> bool {
        let tokens = &clause.tokens;
        let Some(at) = tokens.iter().position(|token| {
            matches!(
                token.text.as_str(),
                "can" | "could" | "can not" | "i can" | "we can" | "we could"
            )
        }) else {
            return false;
        };
        let denied = tokens.get(at + 1).is_some_and(|t| t.is(Class::Not))
            || tokens
                .get(..at)
                .unwrap_or_default()
                .iter()
                .any(|t| matches!(t.text.as_str(), "nobody" | "no one" | "none" | "nothing"));
        let verb = tokens
            .get(at + 1..)
            .unwrap_or_default()
            .iter()
            .find(|t| !t.any(&[Class::Not, Class::Adv]));
        let mind = verb.is_some_and(|t| OF_THE_MIND.contains(&t.text.as_str()) && t.text != "be");
        if denied && mind {
            return true;
        }
        if !denied {
            return false;
        }
        let refuses = verb.is_some_and(|t| {
            matches!(
                t.text.as_str(),
                "shut" | "open" | "close" | "turn" | "lock" | "latch" | "budge"
            )
        }) && tokens
            .iter()
            .any(|t| matches!(t.text.as_str(), "it" | "them"))
            && tokens
                .first()
                .is_some_and(|t| t.any(&[Class::FirstPerson]) || t.text == "you");
        if refuses {
            // "I can't shut it with one hand."
            let thing = self.resolve(&Noun::default());
            let known = recent(&self.facts)
                .take(2)
                .any(|f| !f.dropped && f.kind == Kind::Wrong && f.cue == self.cue);
            if !known {
                self.fact(Kind::Wrong, &thing, 80);
            }
            return true;
        }
        let subject = Noun::of(tokens.get(..at).unwrap_or_default());
        let people = tokens.get(..at).unwrap_or_default().iter().all(|t| {
            t.any(&[
                Class::FirstPerson,
                Class::ThirdPerson,
                Class::Pron,
                Class::Person,
                Class::Conj,
                Class::Not,
            ]) || matches!(t.what, What::Person(_))
        });
        let after = tokens.get(at + 2..).unwrap_or_default();
        let it = at > 0
            && tokens.get(..at).unwrap_or_default().iter().all(|t| {
                matches!(
                    t.text.as_str(),
                    "it" | "that" | "this" | "and" | "so" | "but"
                )
            });
        let thing = if it {
            Noun::default()
        } else if people {
            let object = Noun::of(after);
            let work = verb.filter(|t| {
                t.is(Class::Act) && t.is(Class::Thing) || {
                    matches!(
                        t.text.as_str(),
                        "paint" | "tile" | "sand" | "plaster" | "board" | "skim" | "grout" | "lay"
                    )
                }
            });
            if let (true, Some(work)) = (object.is_empty(), work) {
                // "I can't paint in there."
                Noun::of(std::slice::from_ref(work))
            } else if object.is_empty() {
                Noun::default()
            } else {
                object
            }
        } else {
            subject
        };
        let thing = self.resolve(&thing);
        let given = next.filter(|n| !matches!(n.link, Link::But | Link::And | Link::When));
        let cause = given
            .map(|n| text_of(&n.tokens))
            .or_else(|| self.last_denial());
        self.skip = usize::from(given.is_some_and(|n| !matches!(n.link, Link::Until)));
        if let Some(fact) = self.fact(Kind::Blocked, &thing, 86) {
            fact.cause = cause;
        }
        true
    }

    /// `nobody walks in here till four`: the place cannot be entered.
    fn nobody_until(&mut self, clause: &Clause, next: Option<&Clause>) -> bool {
        let tokens = &clause.tokens;
        let nobody = tokens.iter().take(2).any(|t| {
            matches!(
                t.text.as_str(),
                "nobody" | "no one" | "no foot traffic" | "no traffic"
            )
        });
        let nobody = nobody
            || tokens
                .iter()
                .take(2)
                .any(|t| t.text == "nobody" || t.text == "no one");
        if let (true, true, [_, verb]) = (nobody, self.so || self.waits, tokens.as_slice())
            && WORK_ON_IT.contains(&crate::lexicon::stem(&verb.text).as_str())
        {
            // "So nobody grouts."
            let cause = self
                .held_before()
                .map(|fact| format!("{} {}", fact.thing.text(), fact.kind.words()));
            let back = self.subject.clone().unwrap_or_default();
            let thing = Noun::of(std::slice::from_ref(verb)).with(&back);
            if let Some(fact) = self.fact(Kind::Blocked, &thing, 84) {
                fact.cause = cause;
            }
            return true;
        }
        let waits = next.is_some_and(|n| n.link == Link::Until)
            || tokens.get(1).is_some_and(|t| t.text.ends_with('s'))
                && tokens.get(2).is_some_and(|t| t.is(Class::Det));
        let used = tokens.iter().position(|t| {
            matches!(
                t.text.as_str(),
                "runs" | "uses" | "touches" | "opens" | "lays" | "runs it" | "lights" | "turns on"
            ) || waits
                && t.what == What::Word
                && WORK_ON_IT.contains(&crate::lexicon::stem(&t.text).as_str())
        });
        let used = used.or_else(|| {
            // "Nobody rides it till there's a sticker on it."
            let verb = tokens.get(1).filter(|t| {
                t.what == What::Word && t.text.ends_with('s') && !t.any(&[Class::Be, Class::Have])
            });
            let it = tokens
                .get(2)
                .is_some_and(|t| matches!(t.text.as_str(), "it" | "them" | "that"));
            (verb.is_some() && it && waits).then_some(1)
        });
        if let (true, Some(at)) = (nobody, used) {
            let after = tokens.get(at + 1..).unwrap_or_default();
            let mut noun = Noun::of(after);
            if after
                .iter()
                .any(|t| matches!(t.text.as_str(), "it" | "them"))
            {
                noun = Noun {
                    refers: true,
                    ..Noun::default()
                };
            }
            let thing = self.resolve(&noun);
            if self.fact(Kind::Blocked, &thing, 86).is_some() {
                return true;
            }
        }
        let walks = tokens.iter().any(|t| {
            matches!(
                t.text.as_str(),
                "sets"
                    | "foot"
                    | "walks"
                    | "walk"
                    | "goes"
                    | "in"
                    | "steps"
                    | "works"
                    | "on"
                    | "in here"
            )
        });
        let until = next.filter(|n| n.link == Link::Until);
        if !(nobody && walks && until.is_some()) {
            return false;
        }
        let access = Noun {
            words: vec!["access".to_owned()],
            head: 1,
            refers: false,
        };
        let cause = self.last_thing();
        let onto = tokens.iter().any(|t| t.is(Class::Pron) && t.text == "it");
        let to = tokens
            .iter()
            .position(|t| matches!(t.what, What::Place(_)))
            .and_then(|at| tokens.get(at..=at))
            .map(Noun::of)
            .unwrap_or_default();
        let access = access.with(&to);
        let access = match (&self.topic, &self.subject) {
            (Some(topic), _) if onto => access.with(topic),
            (None, Some(subject)) if onto => access.with(subject),
            _ => access,
        };
        if let Some(fact) = self.fact(Kind::Blocked, &access, 88) {
            fact.cause = cause;
        }
        true
    }

    /// `noggings first`: the thing in hand waits for them.
    fn first_of_all(&mut self, clause: &Clause) -> bool {
        let tokens = &clause.tokens;
        let (Some(last), true) = (tokens.last(), tokens.len() <= 5) else {
            return false;
        };
        let before = tokens.get(..tokens.len() - 1).unwrap_or_default();
        let bare = before
            .iter()
            .all(|t| is_content(t) || t.any(&[Class::Det, Class::Need]));
        let Some((heading, true)) = self
            .subject
            .clone()
            .map(|s| (s, last.text == "first" && bare))
        else {
            return false;
        };
        let cause = Noun::of(before);
        if cause.is_empty()
            || is_verb(before, 0)
            || before.first().is_some_and(|t| t.is(Class::Act))
        {
            return false;
        }
        if let Some(fact) = self.fact(Kind::Blocked, &heading, 85) {
            fact.cause = Some(cause.text());
        }
        true
    }

    /// `it's not plaster dry`, `not ready for paint`: the layer to come waits.
    fn not_ready_for(&mut self, clause: &Clause) -> bool {
        let tokens = &clause.tokens;
        let Some(at) = tokens.iter().position(|t| t.is(Class::Not)) else {
            return false;
        };
        let after: Vec<&Token> = tokens
            .get(at + 1..)
            .unwrap_or_default()
            .iter()
            .filter(|t| !t.is(Class::Adv))
            .collect();
        let layer = match after.as_slice() {
            [noun, state, ..]
                if is_content(noun) && matches!(state.text.as_str(), "dry" | "ready") =>
            {
                Some((*noun).clone())
            }
            [ready, to, noun, ..]
                if ready.text == "ready" && matches!(to.text.as_str(), "for" | "to") =>
            {
                Some((*noun).clone())
            }
            _ => None,
        };
        let Some(layer) = layer else {
            return false;
        };
        let cause = self.subject.as_ref().map(Noun::text);
        let thing = Noun::of(&[layer]);
        if let Some(fact) = self.fact(Kind::Blocked, &thing, 85) {
            fact.cause = cause.map(|cause| format!("{cause} not dry"));
        }
        true
    }

    /// What was last said not to be so, in words.
    pub(super) fn last_denial(&self) -> Option<String> {
        let sentence = self.sentence;
        if let Some((text, _)) = self.denial.as_ref().filter(|(_, at)| at + 2 >= sentence) {
            return Some(text.clone());
        }
        recent(&self.facts)
            .take(3)
            .find(|fact| {
                !fact.dropped
                    && fact.sentence + 2 >= sentence
                    && matches!(
                        fact.kind,
                        Kind::NotDone
                            | Kind::NotDelivered
                            | Kind::Wrong
                            | Kind::Measured
                            | Kind::Failed
                    )
            })
            .map(|fact| format!("{} {}", fact.thing.text(), fact.kind.words()))
    }

    fn last_thing(&self) -> Option<String> {
        let fact = recent(&self.facts).find(|fact| !fact.dropped)?;
        Some(fact.thing.text())
    }
}

/// Whether a clause says that a thing stays as it is: `is sitting in its box`, `stays wrapped`.
fn stays(tokens: &[Token]) -> bool {
    let thing = tokens.iter().any(|t| is_content(t) && t.is(Class::Thing));
    let stays = tokens.iter().any(|t| {
        matches!(
            t.text.as_str(),
            "sitting"
                | "stays"
                | "staying"
                | "stay"
                | "sits"
                | "waits"
                | "parked"
                | "sitting in"
                | "sat in"
                | "idle"
                | "remains"
        )
    });
    thing && stays
}

/// The words of tokens, as they are shown.
pub(super) fn text_of(tokens: &[Token]) -> String {
    let mut text = String::new();
    for token in tokens {
        if !text.is_empty() && token.text != "'s" {
            text.push(' ');
        }
        text.push_str(&token.text);
    }
    text
}
