//! Lists that are read out: each item says what was reported, and then how it stands today.

use super::{Class, Kind, Reader, Token, What};

/// An item of a list that is read out.
#[derive(Clone, Copy, Debug)]
pub(super) struct Item {
    cue: usize,
    sentence: usize,
    from: usize,
    /// Whether somebody said that it is still so.
    holds: bool,
}

/// What says that an item is dealt with.
const DEALT_WITH: [&str; 9] = [
    "closed", "done", "sorted", "fixed", "cleared", "resolved", "finished", "complete", "mended",
];

impl Reader<'_> {
    /// The sentence names an item.
    pub(super) fn begin_item(&mut self) {
        self.item = Some(Item {
            cue: self.cue,
            sentence: self.sentence,
            from: self.facts.len(),
            holds: false,
        });
        self.subject = None;
        self.heading = None;
    }

    /// What a later sentence of an item makes of what the item reports: `Closed.`, `It still does.`
    pub(super) fn settle_item(&mut self, tokens: &[Token]) {
        let reach = if self.lists { 3 } else { 0 };
        let Some(mut item) = self.item.filter(|item| self.cue <= item.cue + reach) else {
            return;
        };
        let words: Vec<&str> = tokens
            .iter()
            .filter(|t| t.mark().is_none() && !t.is(Class::Filler))
            .map(|t| t.text.as_str())
            .collect();
        let first = item.sentence == self.sentence || self.lists && self.cue == item.cue;
        let reported = |fact: &super::Fact| {
            fact.sentence == item.sentence || fact.cue == item.cue && fact.sentence > item.sentence
        };
        let lists = self.lists;
        let still = words.contains(&"still");
        let so = matches!(words.as_slice(), ["it" | "they", verb] if matches!(*verb, "is" | "are" | "does" | "do" | "has"));
        let dealt_with = words.iter().any(|word| DEALT_WITH.contains(word))
            && words.len() <= 5
            && !tokens.iter().any(|t| t.is(Class::Not));
        if !first && (still || so) {
            item.holds = true;
            for fact in self.facts.iter_mut().skip(item.from) {
                if (fact.sentence == item.sentence || lists && reported(fact))
                    && fact.kind == Kind::Wrong
                {
                    fact.dropped = false;
                }
            }
        }
        let news = self
            .facts
            .iter()
            .skip(self.sentence_from.max(item.from))
            .any(|fact| {
                !fact.dropped
                    && fact.sentence > item.sentence
                    && !(lists && reported(fact))
                    && matches!(fact.kind, Kind::Done | Kind::Passed | Kind::Delivered)
            });
        if !first && !item.holds && (news || dealt_with) {
            self.close_item(item, news);
        }
        self.item = Some(item);
    }

    /// Drops what an item reported, and says that it is done if nothing else does.
    fn close_item(&mut self, item: Item, news: bool) {
        let mut reported = None;
        for fact in self.facts.iter_mut().skip(item.from) {
            let told = fact.sentence == item.sentence || self.lists && fact.cue == item.cue;
            if told
                && !fact.dropped
                && matches!(fact.kind, Kind::Wrong | Kind::NotDone | Kind::Failed)
            {
                fact.dropped = true;
                reported = Some(fact.thing.clone());
            }
        }
        if let (Some(thing), false) = (reported, news) {
            self.fact(Kind::Done, &thing, 84);
        }
    }

    /// Notes a count that stands by itself: `closet doors, six panels`, `door frames five`.
    pub(super) fn count_all(&mut self, tokens: &[Token]) {
        let count = tokens.iter().enumerate().find_map(|(at, token)| {
            let amount = token.amount()?;
            let alone = amount.unit == crate::numbers::Unit::None
                && !tokens.get(at + 1).is_some_and(|next| {
                    next.what == What::Word
                        && next.any(&[Class::Be, Class::Have, Class::Done, Class::Particle])
                });
            amount.number.as_whole().filter(|_| alone)
        });
        if let Some(count) = count {
            self.total = Some((count, self.cue));
        }
    }
}
