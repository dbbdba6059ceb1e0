//! Faults that are put right or waived.

use super::scene::recent_mut;
use super::{Kind, Noun, Reader, parsed::Parsed};

impl Reader<'_> {
    /// Drops what was only reckoned to be out: somebody says that it is nothing.
    pub(super) fn waive(&mut self) {
        let sentence = self.sentence;
        for fact in recent_mut(&mut self.facts).take(3) {
            if fact.kind == Kind::Wrong
                && fact.detail == super::judged::RECKONED
                && fact.sentence + 3 >= sentence
            {
                fact.dropped = true;
            }
        }
    }

    /// Drops the last fault of the thing in hand: it is put right.
    pub(super) fn clear_fault(&mut self) {
        let sentence = self.sentence;
        if let Some(fact) = recent_mut(&mut self.facts)
            .take(3)
            .find(|f| !f.dropped && f.kind == Kind::Wrong && f.sentence + 5 >= sentence)
        {
            fact.dropped = true;
        }
    }

    /// `colour's wrong`, `they are right`: no news by itself, but it may clear a doubt.
    pub(super) fn is_well(&mut self, subject: &Noun, denied: bool, parsed: &Parsed<'_>) -> bool {
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
        if let Some(fact) = recent_mut(&mut self.facts)
            .take(2)
            .find(|f| !f.dropped && f.kind == Kind::Wrong && f.sentence + 4 >= sentence)
            && refers
            && fact.sentence < sentence
        {
            fact.dropped = true;
        }
        true
    }
}
