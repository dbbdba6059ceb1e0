//! Short ways of saying that something is done, wrong or to be put in: `two coats`, `a crack in the sill`, `a two mil packer`.

use super::{Class, Clause, Kind, Noun, Reader, Role, Token, What, blocked::text_of, figure};
use crate::numbers::Unit;

impl Reader<'_> {
    /// `owner wants it black, architect wants it bare`: two wishes are a choice.
    pub(super) fn wishes(&mut self, clause: &Clause) -> bool {
        let tokens = clause.tokens.as_slice();
        let Some(at) = tokens
            .iter()
            .position(|t| matches!(t.text.as_str(), "wants" | "want" | "prefers" | "would like"))
        else {
            return false;
        };
        let before = tokens.get(..at).unwrap_or_default();
        let who = before.iter().find_map(|t| self.person_name(t)).or_else(|| {
            before
                .iter()
                .find(|t| matches!(t.text.as_str(), "she"))
                .map(|_| "owner".to_owned())
        });
        let rest = tokens.get(at + 1..).unwrap_or_default();
        let Some(who) =
            who.filter(|_| !rest.iter().any(|t| t.amount().is_some() || t.text == "to"))
        else {
            return false;
        };
        let object = Noun::of(rest);
        let thing = self.resolve(&object);
        let sentence = self.sentence;
        if let Some((first, what, at)) = self.wish.take()
            && at + 2 >= sentence
            && first != who
        {
            let detail = text_of(tokens);
            let both = what.with(&thing);
            if let Some(fact) = self.fact(Kind::Decision, &both, 84) {
                fact.who = Some(format!("{first}, {who}"));
                fact.detail = detail;
            }
            return true;
        }
        self.wish = Some((who, thing, sentence));
        true
    }

    /// `a draught in under it`, `big scratch on the door`: a fault without a verb.
    pub(super) fn fault_alone(&mut self, tokens: &[Token]) -> bool {
        let Some(at) = tokens
            .iter()
            .take(4)
            .position(|t| t.what == What::Word && t.is(Class::FaultNoun))
        else {
            return false;
        };
        let before = tokens.get(..at).unwrap_or_default();
        let after = tokens.get(at + 1..).unwrap_or_default();
        let end = after
            .iter()
            .position(|t| t.text == "that" || t.text == "which")
            .unwrap_or(after.len());
        let after = after.get(..end).unwrap_or_default();
        if (0..after.len()).any(|i| crate::clauses::is_verb(after, i)) {
            return false;
        }
        let article = before.first().is_some_and(|t| {
            matches!(
                t.text.as_str(),
                "a" | "an" | "another" | "some" | "big" | "small" | "bit of a"
            )
        });
        let article = article || before.is_empty() && at == 0;
        let placed = after.first().is_some_and(|t| t.is(Class::Prep))
            || !before.is_empty() && after.iter().any(|t| t.is(Class::Prep));
        if !article || !placed {
            return false;
        }
        let mut noun = Noun::of(after);
        noun.refers |= noun.is_empty();
        let thing = self.resolve(&noun);
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(Kind::Wrong, &thing, 86) {
            fact.detail = detail;
        }
        true
    }

    /// `limewash, two coats`: so many coats are on.
    pub(super) fn coats_alone(&mut self, tokens: &[Token]) -> bool {
        let coats = tokens
            .iter()
            .any(|t| t.amount().is_some_and(|a| a.unit == Unit::Coat) || t.text == "coats");
        let bare = tokens.iter().all(|t| {
            t.amount().is_some()
                || t.any(&[Class::Det, Class::Adv, Class::Pron])
                || matches!(t.text.as_str(), "coats" | "coat")
        });
        if !coats || !bare {
            return false;
        }
        let figures: Vec<_> = tokens
            .iter()
            .filter_map(|t| t.amount())
            .map(|a| figure(*a, Role::Told, String::new()))
            .collect();
        let sentence = self.sentence;
        if let Some(fact) = self.last_fact()
            && fact.sentence + 1 >= sentence
            && fact.kind == Kind::Done
        {
            fact.figures.extend(figures);
            return true;
        }
        let thing = self.resolve(&Noun::default());
        let words = tokens
            .iter()
            .flat_map(|t| t.text.split(' '))
            .filter(|w| !matches!(*w, "the" | "its"))
            .map(str::to_owned)
            .collect();
        let thing = thing.with(&Noun {
            words,
            head: 0,
            refers: false,
        });
        if let Some(fact) = self.fact(Kind::Done, &thing, 80) {
            fact.figures = figures;
        }
        true
    }

    /// `so a two mil packer at this end`: what is to be put in.
    pub(super) fn remedy(&mut self, tokens: &[Token]) -> bool {
        let at = tokens.iter().position(|t| {
            matches!(
                t.text.as_str(),
                "packer" | "packers" | "shim" | "shims" | "spacer" | "spacers" | "packing"
            )
        });
        let article = tokens
            .first()
            .is_some_and(|t| t.is(Class::Det) || t.amount().is_some());
        if at.is_none() || !article || (0..tokens.len()).any(|i| crate::clauses::is_verb(tokens, i))
        {
            return false;
        }
        let back = self.resolve(&Noun::default());
        let thing = Noun::of(tokens).with(&back);
        let figures: Vec<_> = tokens
            .iter()
            .filter_map(|t| t.amount())
            .map(|a| figure(*a, Role::Told, String::new()))
            .collect();
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(Kind::Next, &thing, 82) {
            fact.figures = figures;
            fact.detail = detail;
        }
        true
    }
}
