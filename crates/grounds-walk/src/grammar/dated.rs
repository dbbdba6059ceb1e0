//! What is said to happen on a day.

use super::scene::recent_mut;
use super::{
    Certainty, Class, Clause, Dated, Kind, Noun, Reader, Tense, Token, What, blocked::text_of,
};
use crate::{dates::Day, dates::days_of, noun::is_content};

/// Words that may stand beside a date without telling more.
fn idle_beside_date(token: &Token) -> bool {
    token.what == What::Word
        && (token.any(&[
            Class::Be,
            Class::Adv,
            Class::Hedge,
            Class::Prep,
            Class::Filler,
            Class::Conj,
            Class::Modal,
            Class::Will,
            Class::Until,
        ]) || matches!(
            token.text.as_str(),
            "going"
                | "goes"
                | "went"
                | "coming back"
                | "goes back"
                | "gets"
                | "will"
                | "put"
                | "moved"
                | "pushed"
                | "due"
                | "coming"
                | "arriving"
                | "expected"
                | "booked"
                | "back"
                | "back on"
                | "back in"
                | "back up"
                | "up"
                | "down"
                | "here"
                | "starting"
                | "landing"
                | "in"
                | "on"
                | "by"
                | "for"
                | "come"
                | "start"
                | "starts"
                | "comes"
                | "arrives"
                | "now"
                | "booked in"
                | "scheduled"
                | "happening"
                | "set"
                | "be"
                | "delivered"
                | "delivery"
                | "out"
                | "away"
                | "time"
                | "ready"
                | "dropping"
                | "deliver"
        ))
}

impl Reader<'_> {
    /// Reads a clause that gives something a date; false if it does not.
    pub(super) fn dated(&mut self, clause: &Clause, next: Option<&Clause>) -> bool {
        let tokens = clause.tokens.as_slice();
        if self.doubtful_day(tokens) {
            return true;
        }
        let plain_past = tokens.windows(2).any(|pair| {
            matches!(pair, [a, b] if matches!(a.text.as_str(), "he" | "she")
                && b.what == What::Word
                && b.is(Class::Act)
                && !b.any(&[Class::Modal, Class::Soft, Class::Done, Class::Verb]))
        });
        if plain_past {
            return false;
        }
        let Some(dated_at) = tokens
            .iter()
            .position(|t| t.when().is_some())
            .or_else(|| span_at(tokens))
        else {
            return false;
        };
        if tokens.iter().any(|t| t.any(&[Class::Not, Class::Hearsay])) {
            return false;
        }
        let others = tokens.iter().enumerate().any(|(at, t)| {
            at != dated_at
                && t.amount().is_some_and(|a| !a.unit.is_time())
                && tokens.get(at + 1).is_none_or(|n| !is_content(n))
        });
        if others {
            return false;
        }
        let clock = tokens
            .get(dated_at)
            .and_then(Token::when)
            .is_some_and(|w| w.day.is_none())
            && tokens.first().is_some_and(|t| t.text == "it")
            && tokens.len() <= 5;
        if clock && self.facts.last().is_none_or(|f| f.kind != Kind::Next) {
            // "It's three o'clock now."
            return true;
        }
        let noted = tokens.iter().all(|t| {
            super::active::NO_WORK.contains(&t.text.as_str())
                || t.when().is_some()
                || t.any(&[Class::Prep, Class::Adv])
        }) && tokens
            .first()
            .is_some_and(|t| super::active::NO_WORK.contains(&t.text.as_str()));
        if noted {
            return true;
        }
        let planned = tokens
            .iter()
            .any(|t| t.what == What::Word && t.any(&[Class::Will, Class::Wanted]))
            && tokens
                .iter()
                .any(|t| matches!(t.text.as_str(), "was" | "were"))
            || tokens.iter().any(|t| t.text.starts_with("this "))
                && tokens
                    .iter()
                    .any(|t| matches!(t.text.as_str(), "was" | "were"));
        if planned {
            // "were meant to be today": it was planned so, and something else follows.
            let end = tokens.iter().position(|t| t.is(Class::Be)).unwrap_or(0);
            let noun = Noun::of(tokens.get(..end).unwrap_or_default());
            self.resolve(&noun);
            return true;
        }
        let past = tokens.iter().any(|t| {
            matches!(
                t.text.as_str(),
                "was" | "were" | "since" | "had" | "ago" | "went"
            )
        });
        let verbless = !(0..tokens.len()).any(|at| crate::clauses::is_verb(tokens, at));
        let weekday = tokens
            .get(dated_at)
            .and_then(Token::when)
            .is_some_and(|w| matches!(w.day, Some(Day::Weekday(_))));
        let today = self.vocabulary.day;
        let listed = self.facts.iter().skip(self.sentence_from).any(|f| {
            f.kind == Kind::Done
                && f.dated
                    .is_some_and(|d| d.day.is_some_and(|day| day < today))
        });
        let past = past || verbless && weekday && listed;
        let after = tokens.get(dated_at + 1..).unwrap_or_default();
        let before = tokens.get(..dated_at).unwrap_or_default();
        let goes = before
            .iter()
            .any(|t| matches!(t.text.as_str(), "goes" | "going" | "go" | "gets"));
        let end = before.len()
            - before
                .iter()
                .rev()
                .take_while(|t| idle_beside_date(t) || goes && t.is(Class::Particle))
                .count();
        let subject = before.get(..end).unwrap_or_default();
        let plain_subject = subject.iter().all(|t| {
            is_content(t)
                || t.any(&[
                    Class::Det,
                    Class::Pron,
                    Class::Adv,
                    Class::Prep,
                    Class::Side,
                ])
                || t.amount().is_some()
                || t.text == "'s"
        });
        let state = super::state::find(subject);
        // "Thursday for the glass": the thing comes after its date.
        let for_thing = after.first().is_some_and(|t| t.text == "for")
            && after.len() <= 8
            && !after.iter().any(|t| t.any(&[Class::Act, Class::Verb]));
        let to_do = after.first().is_some_and(|t| t.text == "to")
            && after.get(1).is_some_and(|t| t.is(Class::Act));
        let rest_idle = for_thing
            || to_do
            || after
                .iter()
                .all(|t| idle_beside_date(t) || t.when().is_some());
        if !plain_subject
            || !rest_idle
            || state.is_some_and(|s| s.confidence > 80 && s.state != super::state::State::Well)
            || subject.iter().any(|t| t.is(Class::FirstPerson))
        {
            return false;
        }
        let Some(dated) = self.date_at(tokens, dated_at, past) else {
            return false;
        };
        let tense_past = past
            || tokens
                .get(dated_at)
                .and_then(Token::when)
                .and_then(|w| w.day)
                .is_some_and(Day::is_past);
        let mut noun = Noun::of(subject);
        noun.refers |= to_do && after.iter().any(|t| t.is(Class::Pron));
        if noun.is_empty() && for_thing {
            noun = Noun::of(after);
        }
        noun.refers |= subject
            .iter()
            .any(|t| matches!(t.text.as_str(), "it" | "them"));
        if noun.is_empty() && !noun.refers {
            return self.bare_date(dated, tense_past);
        }
        let alone = !before.iter().any(|t| t.is(Class::Be) || t.text == "'s")
            && next.is_none()
            && subject.len() > 3;
        if alone {
            return false;
        }
        let who = subject.iter().find_map(|t| self.person_name(t));
        let he = subject
            .iter()
            .any(|t| matches!(t.text.as_str(), "he" | "she"))
            && noun.words.is_empty();
        let cue = self.cue;
        let thing = match self.person.clone().filter(|(_, at)| he && at + 2 >= cue) {
            Some((person, _)) => person,
            None => self.resolve(&noun),
        };
        let somebody = subject
            .iter()
            .any(|t| matches!(t.what, What::Person(_)) || t.is(Class::Person));
        let about = self
            .last_fact()
            .filter(|f| {
                f.cue == cue
                    && matches!(
                        f.kind,
                        Kind::NotDone | Kind::NotDelivered | Kind::Blocked | Kind::Wrong
                    )
            })
            .map(|f| f.thing.clone());
        let thing = match about {
            // "The lantern isn't wired. Mick's here on Tuesday.": for that.
            Some(about) if somebody && thing.words.len() <= 3 => thing.with(&about),
            _ => thing,
        };
        if for_thing {
            self.clause_place = crate::place::said_inside(after).or(self.clause_place);
        }
        self.supersede(&thing);
        let kind = if tense_past { Kind::Done } else { Kind::Next };
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(kind, &thing, 88) {
            fact.dated = Some(dated);
            fact.detail = detail;
            fact.who = who.or_else(|| fact.who.take());
        }
        true
    }

    /// A new date for a step replaces the one said just before.
    pub(super) fn supersede(&mut self, thing: &Noun) {
        let (sentence, place) = (self.sentence, self.place);
        for fact in recent_mut(&mut self.facts).take(14) {
            if fact.kind == Kind::Next
                && fact.dated.is_some()
                && fact.place == place
                && fact.sentence + 25 >= sentence
                && fact.thing.words.first() == thing.words.first()
            {
                fact.dropped = true;
            }
        }
    }

    /// A date alone: it dates what was last said, or the thing in hand.
    fn bare_date(&mut self, dated: Dated, past: bool) -> bool {
        let (sentence, teller) = (self.sentence, self.speaker_said.clone());
        let cue = self.cue;
        let unsure = self.unsure_date.is_some_and(|at| at + 1 >= sentence);
        if unsure
            && let Some(fact) = self.last_fact()
            && fact.kind == Kind::Next
        {
            fact.certainty = fact.certainty.max(Certainty::Hedged);
        }
        if teller.is_none()
            && let Some(fact) = self.last_fact()
            && (fact.sentence + 2 >= sentence)
            && matches!(fact.kind, Kind::Next | Kind::Blocked | Kind::Decision)
        {
            fact.dated = Some(match fact.dated {
                Some(old) if dated.day.is_none() => Dated {
                    day: old.day,
                    time: dated.time,
                },
                _ => dated,
            });
            fact.also.push(fact.cue);
            fact.cue = cue.max(fact.cue);
            return true;
        }
        if past {
            if let Some(fact) = self.last_fact()
                && matches!(fact.kind, Kind::Done | Kind::Delivered)
            {
                fact.dated = Some(dated);
                return true;
            }
            return false;
        }
        let noun = match &teller {
            Some(name) => Noun {
                words: name.to_lowercase().split(' ').map(str::to_owned).collect(),
                head: 1,
                refers: false,
            },
            None => Noun::default(),
        };
        let thing = if noun.is_empty() {
            self.resolve(&noun)
        } else {
            let about = self
                .last_fact()
                .filter(|f| {
                    matches!(
                        f.kind,
                        Kind::NotDone | Kind::NotDelivered | Kind::Blocked | Kind::Wrong
                    )
                })
                .map(|f| f.thing.clone());
            about.map_or(noun.clone(), |about| noun.with(&about))
        };
        let from = self.sentence_from;
        let theirs = self
            .facts
            .iter()
            .skip(from)
            .any(|f| f.who.is_some() && f.kind == Kind::Done);
        if let Some(fact) = self.fact(Kind::Next, &thing, 76) {
            fact.dated = Some(dated);
            if theirs {
                // A time that somebody else gave for their own work.
                fact.certainty = Certainty::Hearsay;
            }
        }
        true
    }

    /// `so Monday's a maybe`: the step of that day is doubtful.
    fn doubtful_day(&mut self, tokens: &[Token]) -> bool {
        let mut words = tokens
            .iter()
            .filter(|t| !t.any(&[Class::Conj, Class::Filler]));
        let Some(when) = words.next().and_then(Token::when).copied() else {
            return false;
        };
        let rest: Vec<&str> = words.map(|t| t.text.as_str()).collect();
        let doubtful = rest.iter().any(|w| {
            matches!(
                *w,
                "maybe"
                    | "doubtful"
                    | "unlikely"
                    | "tight"
                    | "optimistic"
                    | "pushing"
                    | "not happening"
                    | "doubt"
            )
        });
        let a_maybe = self.sentence_certainty == Certainty::Hedged
            && rest.len() <= 3
            && rest.last().is_some_and(|w| *w == "a");
        if !(doubtful || a_maybe) {
            return false;
        }
        let dated = self.date(&when, Tense::Coming);
        let (cue, sentence) = (self.cue, self.sentence);
        if let Some(fact) = recent_mut(&mut self.facts)
            .take(8)
            .find(|fact| fact.dated.is_some_and(|d| d.day == dated.day))
        {
            fact.certainty = Certainty::Hedged;
            fact.also.push(fact.cue);
            fact.cue = cue;
            fact.sentence = sentence;
        }
        true
    }

    /// The date at a token: a day that was named, or a stretch of time from the walk's day.
    pub(super) fn date_at(&self, tokens: &[Token], at: usize, past: bool) -> Option<Dated> {
        let token = tokens.get(at)?;
        let tense = if past { Tense::Past } else { Tense::Coming };
        if let Some(when) = token.when() {
            let time = tokens.iter().filter_map(|t| t.when()).find_map(|w| w.time);
            let mut dated = self.date(when, tense);
            dated.time = dated.time.or(time);
            return Some(dated);
        }
        let amount = token.amount()?;
        // "Measured yesterday, two weeks": two weeks from then.
        let base = self
            .facts
            .iter()
            .skip(self.sentence_from)
            .rev()
            .find(|f| !f.dropped)
            .and_then(|f| f.dated)
            .and_then(|d| d.day);
        let days = days_of(amount.number, amount.unit)?;
        let day = Day::Ahead(if past { -days } else { days })
            .date(base.unwrap_or(self.vocabulary.day), tense);
        Some(Dated { day, time: None })
    }
}

/// A stretch of days or weeks.
fn span_at(tokens: &[Token]) -> Option<usize> {
    tokens.iter().position(|t| {
        t.amount()
            .is_some_and(|a| days_of(a.number, a.unit).is_some())
    })
}
