//! Clauses without a verb: `units in`, `doors not on`, `no rail`, `Joists.`, `wrong colour`.

use super::scene::recent;
use super::{
    Class, Clause, Kind, Link, Noun, Reader, Tense, What,
    answers::opposite,
    blocked::text_of,
    state::{self, State},
};
use crate::noun::is_content;

impl Reader<'_> {
    /// Reads a clause without a verb.
    pub(super) fn fragment(&mut self, clause: &Clause, next: Option<&Clause>) -> bool {
        let tokens = clause.tokens.as_slice();
        self.not_on(tokens)
            || self.coats_alone(tokens)
            || self.remedy(tokens)
            || self.none_of(clause, next)
            || self.part_without(tokens)
            || self.state_alone(clause)
            || self.heading(clause, next)
    }

    /// `done on the short sides, not on the long side`: where the last state does not hold.
    fn not_on(&mut self, tokens: &[super::Token]) -> bool {
        let negated = matches!(tokens, [a, b, ..] if a.is(Class::Not)
            && matches!(b.text.as_str(), "on" | "in" | "at" | "under" | "behind" | "over"));
        let where_not = Noun::of(tokens.get(2..).unwrap_or_default());
        if !negated || where_not.is_empty() || where_not.refers || where_not.words.len() > 4 {
            return false;
        }
        let from = self.sentence_from;
        let Some(kind) = self
            .facts
            .iter()
            .skip(from)
            .rev()
            .find(|f| !f.dropped)
            .and_then(|f| opposite(f.kind))
        else {
            return false;
        };
        let whole = self.heading.as_ref().map(|(noun, _)| noun.clone());
        let whole = whole.or_else(|| self.subject.clone()).unwrap_or_default();
        let thing = whole.with(&where_not);
        let keep = self.subject.clone();
        self.fact(kind, &thing, 86);
        self.subject = keep;
        true
    }

    /// `units in`, `doors not on`, `refinished`, `wrong colour`, `two coats on`.
    fn state_alone(&mut self, clause: &Clause) -> bool {
        let tokens = clause.tokens.as_slice();
        if (0..tokens.len()).any(|at| crate::clauses::is_verb(tokens, at)) {
            return false;
        }
        let Some(found) = state::find(tokens) else {
            return false;
        };
        let before = tokens.get(..found.at).unwrap_or_default();
        let must = before
            .iter()
            .any(|t| t.what == What::Word && t.is(Class::Wanted) && t.text.ends_with(" be"));
        if must && matches!(found.state, State::Is(Kind::Done)) {
            // "That needs to be replaced."
            let noun = Noun::of(before);
            let mut noun = noun;
            noun.refers |= noun.is_empty();
            let thing = self.resolve(&noun);
            let thing = self.with_work(&thing, tokens.get(found.at));
            let detail = text_of(tokens);
            if let Some(fact) = self.fact(Kind::Next, &thing, 82) {
                fact.detail = detail;
            }
            return true;
        }
        let meant = before
            .iter()
            .any(|t| matches!(t.text.as_str(), "to" | "to be" | "be"));
        let denied = before.iter().any(|t| t.is(Class::Not)) || meant;
        let State::Is(kind) = found.state else {
            let well = matches!(found.state, State::Well) && before.is_empty();
            if well {
                self.waive();
            }
            return well;
        };
        let judged = kind == Kind::Passed
            && denied
            && recent(&self.facts).take(3).any(|f| {
                !f.dropped && f.cue == self.cue && matches!(f.kind, Kind::Wrong | Kind::Measured)
            });
        if judged {
            // "Two specified. Not accepted.": the fault is filed already.
            return true;
        }
        let kind = if denied { opposite(kind) } else { Some(kind) };
        let Some(kind) = kind else {
            return true;
        };
        let subject = Noun::of(before);
        let after = Noun::of(tokens.get(found.at + 1..).unwrap_or_default());
        let wrong = kind == Kind::Wrong;
        // "wrong colour", "cracked tile": the fault's noun comes after.
        let named = if subject.is_empty() && wrong && !after.is_empty() {
            let back = self.subject.clone().unwrap_or_default();
            after.with(&back)
        } else {
            subject
        };
        // A participle that follows a state says how it was done, not that something else was.
        let same = recent(&self.facts).find(|f| !f.dropped).is_some_and(|f| {
            f.kind == Kind::Done && f.sentence == self.sentence && kind == Kind::Done
        });
        let lone_particle = named.is_empty()
            && tokens.len() <= 2
            && tokens.get(found.at).is_some_and(|t| t.is(Class::Particle));
        if lone_particle
            && self.pending.is_none()
            && tokens.first().is_none_or(|t| !t.text.starts_with("back"))
            && self.last_fact().is_none_or(|f| f.kind != Kind::Done)
        {
            return true;
        }
        let tried = tokens
            .get(found.at)
            .is_some_and(|t| matches!(t.text.as_str(), "tested" | "tapped" | "sounded" | "run"));
        if tried && tokens.get(found.at + 1).is_some_and(|t| t.is(Class::Pron)) {
            return true;
        }
        if tokens.iter().any(|t| t.text == "since") && named.is_empty() {
            let dated = tokens
                .iter()
                .find_map(|t| t.when())
                .copied()
                .map(|w| self.date(&w, Tense::Past));
            if let Some(fact) = self.last_fact() {
                fact.dated = fact.dated.or(dated);
            }
            return true;
        }
        if tokens
            .get(found.at)
            .is_some_and(|t| t.text.starts_with("back"))
        {
            self.clear_fault();
        }
        if denied
            && tokens
                .get(found.at)
                .is_some_and(|t| matches!(t.text.as_str(), "dry" | "cured" | "dried" | "ready"))
        {
            let thing = self.resolve(&named);
            self.denial = Some((format!("{} not dry", thing.text()), self.sentence));
            return true;
        }
        if named.is_empty() && same && !denied {
            let detail = text_of(tokens);
            if let Some(fact) = self.last_fact() {
                fact.detail = format!("{}, {detail}", fact.detail);
            }
            return true;
        }
        let lone_noun = kind != Kind::Passed
            && before.is_empty()
            && tokens.get(found.at).is_some_and(|t| {
                t.any(&[Class::FaultNoun, Class::Act])
                    && tokens.len() == 1
                    && !t.any(&[Class::Done])
            });
        if lone_noun {
            return false;
        }
        let begun = recent(&self.facts)
            .find(|f| !f.dropped)
            .is_some_and(|f| f.kind == Kind::Started && f.cue == self.cue);
        if begun && kind == Kind::Done && before.first().is_some_and(|t| t.amount().is_some()) {
            // "Started. Three courses up": how far it has got.
            return true;
        }
        let thing = self.resolve(&named);
        if thing.is_empty() {
            return false;
        }
        let ahead = tokens
            .iter()
            .find_map(|t| t.when())
            .is_some_and(|when| when.is_ahead());
        let counted = before
            .first()
            .and_then(|t| t.amount())
            .and_then(|a| a.number.as_whole());
        let of_all = counted
            .filter(|_| before.len() == 1)
            .zip(self.total.filter(|(_, cue)| *cue == self.cue))
            .is_some_and(|(some, (all, _))| some < all);
        let kind = if of_all && kind == Kind::Done {
            Kind::Started
        } else {
            kind
        };
        let kind = if self.wished && kind == Kind::Done
            || ahead && matches!(kind, Kind::Done | Kind::Delivered)
        {
            Kind::Next
        } else {
            kind
        };
        let past = !matches!(kind, Kind::NotDone | Kind::NotDelivered | Kind::Next);
        let thing = if matches!(kind, Kind::Done | Kind::NotDone) {
            self.with_work(&thing, tokens.get(found.at))
        } else {
            thing
        };
        let thing = if tokens.get(found.at).is_some_and(|t| t.text == "on")
            && !after.is_empty()
            && matches!(kind, Kind::Done)
        {
            thing.with(&after)
        } else {
            thing
        };
        let thing = thing.with(&super::copula::where_it_is(tokens, found.at));
        let dated = tokens
            .iter()
            .find_map(|t| t.when())
            .copied()
            .map(|w| self.date(&w, if past { Tense::Past } else { Tense::Coming }));
        let figures = if wrong {
            self.how_far_out(tokens, &thing)
        } else {
            Vec::new()
        };
        let detail = text_of(tokens);
        let confidence = if before.is_empty() {
            found.confidence.saturating_sub(6)
        } else {
            found.confidence
        };
        if let Some(fact) = self.fact(kind, &thing, confidence) {
            fact.dated = dated;
            fact.detail = detail;
            fact.figures = figures;
        }
        true
    }

    /// `Joists.`, `Steel windows.`: what the next sentences are about.
    fn heading(&mut self, clause: &Clause, next: Option<&Clause>) -> bool {
        let tokens = clause.tokens.as_slice();
        let short = tokens.len() <= 7;
        let noun = Noun::of(tokens);
        let things = tokens.iter().all(|t| {
            is_content(t)
                || t.any(&[
                    Class::Det,
                    Class::Adv,
                    Class::Prep,
                    Class::Pron,
                    Class::Conj,
                ])
                || t.amount().is_some()
        });
        if noun.is_empty()
            || !short
            || !things
            || tokens
                .iter()
                .any(|t| t.what == What::Word && t.is(Class::Idle))
        {
            return false;
        }
        let alone = clause.link == Link::Start && next.is_none();
        let restated = match (&self.pending, &self.heading) {
            (Some(pending), _) => pending.clone(),
            (None, Some((heading, cue)))
                if alone && *cue + 1 >= self.cue && heading.shares_word(&noun) =>
            {
                heading.clone()
            }
            _ => Noun::default(),
        };
        let surface = is_surface(&noun);
        let from = self.sentence_from;
        if surface
            && let Some(fact) = self.facts.iter_mut().skip(from).rev().find(|f| !f.dropped)
            && matches!(fact.kind, Kind::Done | Kind::NotDone)
        {
            // "skim's on the front wall, back wall": the list goes on.
            fact.thing = fact.thing.with(&noun);
            return true;
        }
        if tokens.first().is_some_and(|t| t.amount().is_some()) {
            if alone && tokens.iter().any(|t| t.is(Class::Thing)) {
                // "Two tanks. One's plumbed in."
                self.subject = Some(noun.clone());
                self.heading = Some((noun, self.cue));
            }
            return false;
        }
        if clause.link != Link::Start
            && let Some(fact) = self.facts.iter_mut().skip(from).rev().find(|f| !f.dropped)
            && fact.kind == Kind::Wrong
        {
            // "a run in the paint, top rail": where the fault is.
            fact.thing = fact.thing.with(&noun);
            return true;
        }
        let prepositional = tokens
            .first()
            .is_some_and(|t| t.is(Class::Prep) && !t.is(Class::Thing) && t.text != "between");
        let of_it = tokens
            .first()
            .is_some_and(|t| matches!(t.text.as_str(), "for" | "with" | "as for"))
            && tokens.iter().any(|t| t.is(Class::Thing))
            && next.is_some();
        if of_it {
            // "And for the fan out here, Mrs Amory has to say black or white."
            self.subject = Some(noun);
            return false;
        }
        if prepositional {
            return false;
        }
        let whole = noun.with(&restated);
        self.pending = Some(whole.clone());
        self.subject = Some(whole.clone());
        if alone {
            self.heading = Some((whole, self.cue));
        }
        false
    }
}

/// Whether a noun names a face of a room and nothing else.
fn is_surface(noun: &Noun) -> bool {
    noun.words.iter().any(|w| {
        matches!(
            w.as_str(),
            "wall" | "walls" | "ceiling" | "side" | "end" | "breast"
        )
    }) && noun.words.len() <= 3
}
