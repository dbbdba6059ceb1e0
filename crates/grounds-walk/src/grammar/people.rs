//! What people did, do or are about to: `they have hung the doors`, `he is tiling`, `painters are done`.

use super::scene::recent;
use super::{
    Class, Kind, Noun, Reader, Token, What,
    parsed::Parsed,
    state::{self},
};

impl Reader<'_> {
    /// `he isn't here`: whoever the work waits for has not come; what waits for them is not done.
    pub(super) fn is_here(&mut self, parsed: &Parsed<'_>) -> bool {
        let somebody = !parsed.subject.is_empty()
            && parsed
                .subject
                .iter()
                .all(|t| matches!(t.text.as_str(), "he" | "she"));
        let here = parsed.complement.iter().any(|t| t.text == "here")
            && parsed
                .complement
                .iter()
                .all(|t| t.any(&[Class::Arrived, Class::Adv]) || t.when().is_some());
        if !somebody || !here || parsed.complement.is_empty() {
            return false;
        }
        let sentence = self.sentence;
        let awaited = recent(&self.facts)
            .find(|f| !f.dropped && f.sentence + 3 >= sentence && f.kind == Kind::Blocked)
            .and_then(|f| f.cause.clone());
        if let (Some(cause), true) = (awaited, parsed.denied) {
            let words: Vec<String> = crate::tokens::split_words(&cause);
            let thing = Noun {
                head: words.len(),
                words,
                refers: false,
            };
            self.state_fact(Kind::NotDone, &thing, parsed, 76);
        }
        true
    }

    /// `they've hung the doors`, `he has not finished the ceiling`, `I've got ten`.
    pub(super) fn has_done(&mut self, parsed: &Parsed<'_>) -> bool {
        let Some(at) = parsed
            .complement
            .iter()
            .position(|t| state::is_done_word(t) || t.text == "run" && parsed.verb.is(Class::Have))
        else {
            return false;
        };
        let object = Noun::of(parsed.complement.get(at + 1..).unwrap_or_default());
        if at > 1 || object.is_empty() && !parsed.complement.iter().any(|t| t.is(Class::Pron)) {
            return false;
        }
        let tried = parsed
            .complement
            .get(at)
            .is_some_and(|t| super::active::NO_WORK.contains(&t.text.as_str()));
        if tried
            && parsed
                .subject
                .iter()
                .any(|t| t.any(&[Class::FirstPerson, Class::Not]))
        {
            self.resolve(&object);
            return true;
        }
        let thing = self.resolve(&object);
        let kind = if parsed.denied {
            Kind::NotDone
        } else {
            Kind::Done
        };
        let some = parsed
            .complement
            .get(at + 1..)
            .unwrap_or_default()
            .iter()
            .find_map(|t| t.amount())
            .and_then(|a| a.number.as_whole());
        let part = some
            .zip(self.total.filter(|(_, cue)| *cue == self.cue))
            .is_some_and(|(some, (all, _))| some < all);
        let kind = if part && kind == Kind::Done {
            Kind::Started
        } else {
            kind
        };
        let thing = self.with_work(&thing, parsed.complement.get(at));
        let wrong = parsed
            .complement
            .get(at..)
            .unwrap_or_default()
            .iter()
            .any(|t| t.what == What::Word && t.is(Class::Wrong) && !t.any(&[Class::Particle]));
        self.state_fact(if wrong { Kind::Wrong } else { kind }, &thing, parsed, 86);
        true
    }

    /// `Fintan's after connecting the sink`: it is just done.
    pub(super) fn just_done(&mut self, parsed: &Parsed<'_>) -> bool {
        let after = parsed.complement.first().is_some_and(|t| t.text == "after");
        let doing = parsed
            .complement
            .get(1)
            .filter(|t| t.what == What::Word && t.text.ends_with("ing"));
        let Some(doing) = doing.filter(|_| after) else {
            return false;
        };
        let object = Noun::of(parsed.complement.get(2..).unwrap_or_default());
        let came = matches!(doing.text.as_str(), "arriving" | "coming" | "landing");
        let subject = Noun::of(parsed.subject);
        let thing = if came {
            subject
        } else if object.is_empty() {
            Noun::of(std::slice::from_ref(doing))
        } else {
            object
        };
        let thing = self.resolve(&thing);
        let kind = match (parsed.denied, came) {
            (true, true) => Kind::NotDelivered,
            (false, true) => Kind::Delivered,
            (true, false) => Kind::NotDone,
            (false, false) => Kind::Done,
        };
        self.state_fact(kind, &thing, parsed, 86);
        true
    }

    /// `Lockwood's ringing them`: somebody is about to.
    pub(super) fn will_talk(&mut self, doing: &Token, parsed: &Parsed<'_>) -> bool {
        let stem = crate::lexicon::stem(&doing.text);
        let talks = [
            "ring", "call", "phone", "send", "bring", "order", "chas", "ask", "email",
        ]
        .contains(&stem.as_str());
        let who = parsed.subject.iter().find_map(|t| self.person_name(t));
        if !talks || parsed.denied || who.is_none() {
            return false;
        }
        let after = parsed.complement.get(1..).unwrap_or_default();
        let mut object = Noun::of(after);
        object.refers |= after
            .iter()
            .any(|t| matches!(t.text.as_str(), "it" | "them" | "those" | "that" | "these"));
        let thing = self.resolve(&object);
        self.state_fact(Kind::Next, &thing, parsed, 80);
        if let Some(fact) = self.facts.last_mut() {
            fact.who = who;
        }
        true
    }

    /// `painters are done`, `sweep's been`, `Teddy isn't finished`, `he's tiling the hall`.
    pub(super) fn person_state(&mut self, parsed: &Parsed<'_>) -> bool {
        let person = parsed
            .subject
            .iter()
            .find(|t| t.is(Class::Person) || matches!(t.what, What::Person(_)));
        let doing = parsed
            .complement
            .first()
            .filter(|t| t.what == What::Word && t.text.ends_with("ing") && t.text.len() > 4);
        if let Some(doing) = doing
            && !doing.any(&[
                Class::Read,
                Class::Block,
                Class::Adv,
                Class::Will,
                Class::Arrived,
            ])
            && parsed.verb.is(Class::Be)
        {
            let object = Noun::of(parsed.complement.get(1..).unwrap_or_default());
            if self.will_talk(doing, parsed) {
                return true;
            }
            let idle = doing.is(Class::Verb) && !doing.is(Class::Thing)
                || !is_work(&doing.text)
                || doing.text == "working"
                    && (parsed.denied || parsed.complement.iter().any(|t| t.when().is_some()));
            if idle {
                return false;
            }
            if parsed.denied && parsed.subject.iter().any(|t| t.is(Class::FirstPerson)) {
                // "I'm not cutting that panel": a refusal; "so we're not sanding": it waits.
                if self.so || self.last_denial().is_some() && self.waits {
                    let cause = self.last_denial();
                    let mut noun = object.with(&Noun::of(std::slice::from_ref(doing)));
                    noun.refers = object.is_empty();
                    let thing = self.resolve(&noun);
                    self.state_fact(Kind::Blocked, &thing, parsed, 80);
                    if let Some(fact) = self.facts.last_mut() {
                        fact.cause = fact.cause.take().or(cause);
                    }
                }
                return true;
            }
            let working = matches!(
                doing.text.as_str(),
                "working" | "busy with" | "finishing" | "starting" | "doing"
            );
            let mut noun = if working {
                object
            } else {
                object.with(&Noun::of(std::slice::from_ref(doing)))
            };
            noun.refers = noun.is_empty();
            noun.refers |= parsed
                .complement
                .iter()
                .any(|t| matches!(t.text.as_str(), "it" | "them" | "that"));
            let thing = self.resolve(&noun);
            let coming = parsed.complement.iter().any(|t| {
                t.when().is_some_and(|w| {
                    w.day.is_some_and(|day| !day.is_past())
                        && w.day != Some(crate::dates::Day::Ahead(0))
                })
            });
            let kind = match (parsed.denied, coming) {
                (true, _) => Kind::NotDone,
                // "They're cutting it Monday": they will.
                (false, true) => Kind::Next,
                (false, false) => Kind::Started,
            };
            self.state_fact(kind, &thing, parsed, 78);
            return true;
        }
        let Some(person) = person else {
            return false;
        };
        let coat = parsed.complement.first().is_some_and(|t| t.text == "on")
            && parsed.complement.iter().any(|t| {
                matches!(t.text.as_str(), "coat" | "fix" | "pass")
                    || t.text.ends_with(" coat")
                    || t.text.ends_with(" fix")
            });
        if coat && !parsed.denied {
            // "The painter's on his second coat."
            let noun = Noun::of(parsed.complement);
            let thing = self.resolve(&noun);
            self.state_fact(Kind::Started, &thing, parsed, 78);
            return true;
        }
        let is_there = parsed.complement.is_empty()
            || parsed
                .complement
                .iter()
                .all(|t| t.any(&[Class::Adv, Class::Arrived]));
        if is_there && !parsed.denied {
            // "Sweep's been": their work is done.
            let noun = Noun::of(std::slice::from_ref(person));
            let back = self.subject.clone().unwrap_or_default();
            let thing = if back.is_empty() {
                noun
            } else {
                back.with(&noun)
            };
            self.state_fact(Kind::Done, &thing, parsed, 72);
            return true;
        }
        false
    }
}

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
        bases.push(
            base.get(..base.len() - a.len_utf8())
                .unwrap_or_default()
                .to_owned(),
        );
    }
    bases.iter().any(|word| {
        crate::lexicon::lexicon()
            .word(word)
            .any(&[Class::Act, Class::Thing])
    }) || matches!(doing, "working" | "finishing" | "doing")
}
