//! What a sentence comes to when all of it was read: parts of one thing, goods that are in, doubts.

use super::{Class, Fact, Kind, Noun, Reader, Token, What};

impl Reader<'_> {
    /// Lowers the confidence of what was read from a sentence by what was not understood in it, and
    /// of things that the trade's words do not know.
    pub(super) fn weigh(&mut self, tokens: &[Token]) {
        let from = self.sentence_from;
        let named: Vec<String> = self
            .facts
            .iter()
            .skip(from)
            .flat_map(|fact| fact.thing.words.clone())
            .collect();
        let strange = tokens
            .iter()
            .filter(|token| {
                token.what == What::Word
                    && token.classes.is_empty()
                    && crate::noun::is_content(token)
            })
            .filter(|token| !named.contains(&token.text))
            .count();
        let lost = match strange {
            0 => 0,
            1 => 2,
            2 => 5,
            _ => 10,
        };
        for fact in self.facts.iter_mut().skip(from) {
            let known = fact.thing.words.iter().any(|word| {
                crate::lexicon::lexicon().word(word).any(&[
                    Class::Thing,
                    Class::AbleNoun,
                    Class::TestNoun,
                    Class::Room,
                    Class::Person,
                ])
            });
            let long = if fact.thing.words.len() > 6 { 4 } else { 0 };
            let less = lost + long + if known { 0 } else { 4 };
            let least = fact.confidence.min(74);
            fact.confidence = fact.confidence.saturating_sub(less).max(least);
        }
    }

    /// The parts of one thing, some done and some not: it is begun.
    pub(super) fn settle_parts(&mut self) {
        let from = self.sentence_from;
        let facts = self.facts.get(from..).unwrap_or_default();
        let pair = facts.iter().enumerate().find_map(|(i, fact)| {
            let other =
                facts.iter().enumerate().skip(i + 1).find(|(_, other)| {
                    other.thing == fact.thing && !other.dropped && !fact.dropped
                })?;
            match (fact.kind, other.1.kind) {
                (Kind::Done, Kind::NotDone) | (Kind::NotDone, Kind::Done) => Some((i, other.0)),
                _ => None,
            }
        });
        if let Some((first, second)) = pair {
            if let Some(fact) = self.facts.get_mut(from + first) {
                fact.kind = Kind::Started;
            }
            if let Some(fact) = self.facts.get_mut(from + second) {
                fact.dropped = true;
            }
        }
        self.drop_goods_that_are_in();
    }

    /// What is in place has also come: one fact is enough.
    pub(super) fn drop_goods_that_are_in(&mut self) {
        let from = self.sentence_from;
        let done: Vec<Noun> = self
            .facts
            .iter()
            .skip(from)
            .filter(|f| f.kind == Kind::Done && !f.dropped)
            .map(|f| f.thing.clone())
            .collect();
        for fact in self.facts.iter_mut().skip(from) {
            if fact.kind == Kind::Delivered
                && done
                    .iter()
                    .any(|thing| thing.words.starts_with(&fact.thing.words) || *thing == fact.thing)
            {
                fact.dropped = true;
            }
        }
    }

    /// In the walk's last words: what was proposed before is not proposed again, and what is new
    /// belongs where its thing was spoken of.
    pub(super) fn drop_repeats(&mut self) {
        let from = self.sentence_from;
        let (before, new) = self.facts.split_at_mut(from);
        for fact in new {
            let told: Vec<&Fact> = before
                .iter()
                .rev()
                .filter(|old| {
                    !old.dropped && old.cue + 1 < fact.cue && old.thing.head_shares(&fact.thing)
                })
                .collect();
            let step = told.iter().any(|old| old.kind == Kind::Next);
            if fact.kind == Kind::Next && told.is_empty() {
                // New in the last words: asked about, since its place is not known.
                fact.confidence = fact.confidence.min(60);
            } else if fact.kind != Kind::Next || step {
                fact.dropped = true;
            } else if let Some(old) = told.first() {
                fact.place = old.place;
                fact.thing = fact.thing.with(&old.thing);
            }
        }
    }
}
