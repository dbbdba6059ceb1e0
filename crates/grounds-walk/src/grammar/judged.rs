//! What a reading should be, what it was before, and whether it is out.

use super::scene::recent_mut;
use super::{
    Class, Clause, Figure, Kind, Noun, Reader, Role, Token, What, figure, figures::sense_of,
};
use crate::numbers::{Amount, Unit};

impl Reader<'_> {
    /// `Wednesday it was seven ten`: what was read before, beside what is read now.
    pub(super) fn was_before(&mut self, tokens: &[Token]) -> bool {
        let was = tokens
            .iter()
            .any(|t| matches!(t.text.as_str(), "was" | "were"));
        let then = tokens.iter().any(|t| {
            t.when().is_some()
                || matches!(t.text.as_str(), "ago" | "fortnight" | "last" | "before")
                || t.amount().is_some_and(|a| a.unit.is_time())
        });
        let today = tokens.iter().any(|t| {
            t.when()
                .is_some_and(|w| w.day == Some(crate::dates::Day::Ahead(0)))
        });
        if !(was && then) || today {
            return false;
        }
        let thing = self.subject.clone().unwrap_or_default();
        let mut figures = self.figures(tokens, &thing);
        for figure in &mut figures {
            figure.role = Role::Told;
        }
        let sentence = self.sentence;
        match recent_mut(&mut self.facts)
            .find(|f| !f.dropped)
            .filter(|f| f.kind == Kind::Measured && f.sentence + 2 >= sentence)
        {
            Some(fact) => {
                fact.figures.extend(figures);
                true
            }
            None => false,
        }
    }

    /// `needs six`, `I want fifty three`, `limit is seventy five`: what it should be.
    pub(super) fn wanted(&mut self, clause: &Clause, first: usize) -> bool {
        let tokens = clause.tokens.as_slice();
        let before = tokens.get(..first).unwrap_or_default();
        let wants = before
            .iter()
            .any(|t| t.what == What::Word && t.any(&[Class::Wanted, Class::Need]))
            || self.sentence_certainty == super::Certainty::Hearsay
            || tokens.iter().skip(first + 1).any(|t| {
                t.what == What::Word
                    && t.is(Class::Wanted)
                    && !t.any(&[Class::Read, Class::Prep, Class::Need])
            })
            || tokens.iter().skip(first).any(|t| {
                matches!(
                    t.text.as_str(),
                    "limit"
                        | "limit is"
                        | "max"
                        | "maximum"
                        | "spec"
                        | "drawing"
                        | "drawings"
                        | "plan"
                        | "the most"
                        | "most"
                )
            });
        if !wants {
            return false;
        }
        let after = tokens.get(first + 1..).unwrap_or_default();
        if after
            .iter()
            .any(|t| matches!(t.text.as_str(), "off" | "more" | "coats" | "coat"))
        {
            return false;
        }
        let thing = self.subject.clone().unwrap_or_default();
        let mut figures = self.figures(tokens, &thing);
        let sense = sense_of(tokens, self.sentence_certainty == super::Certainty::Hearsay);
        for figure in &mut figures {
            figure.role = Role::Wanted;
            figure.of = sense.to_owned();
        }
        let sentence = self.sentence;
        let measured = self.facts.iter().rposition(|f| !f.dropped).filter(|at| {
            self.facts
                .get(*at)
                .is_some_and(|f| f.kind == Kind::Measured && f.sentence + 2 >= sentence)
        });
        if let Some(fact) = measured.and_then(|at| self.facts.get_mut(at)) {
            fact.figures.extend(figures);
            self.judge(measured);
            return true;
        }
        let noun = Noun::of(
            before
                .get(
                    ..before
                        .iter()
                        .position(|t| t.any(&[Class::Wanted, Class::Need, Class::Be]))
                        .unwrap_or(0),
                )
                .unwrap_or_default(),
        );
        if !noun.is_empty() && !noun.refers {
            self.resolve(&noun);
        }
        self.wanted = figures;
        true
    }

    /// What was read against what is wanted: out of it is wrong. Moisture and humidity are not
    /// judged; they say what must wait.
    pub(super) fn judge(&mut self, at: Option<usize>) {
        let Some(fact) = at.and_then(|at| self.facts.get(at)) else {
            return;
        };
        let Some(wanted) = fact
            .figures
            .iter()
            .find(|f| f.role == Role::Wanted)
            .cloned()
        else {
            return;
        };
        let short: Vec<Figure> = fact
            .figures
            .iter()
            .filter(|f| {
                f.role == Role::Found
                    && f.amount.unit == wanted.amount.unit
                    && !matches!(
                        f.amount.unit,
                        Unit::Percent | Unit::SquareMetre | Unit::SquareFoot
                    )
            })
            .filter(|f| match wanted.of.as_str() {
                "most" => f.amount.number > wanted.amount.number,
                "least" => f.amount.number < wanted.amount.number,
                "exact" => f.amount.number != wanted.amount.number,
                _ => false,
            })
            .filter_map(|f| {
                let by = if f.amount.number > wanted.amount.number {
                    f.amount.number.minus(wanted.amount.number)?
                } else {
                    wanted.amount.number.minus(f.amount.number)?
                };
                Some(figure(
                    Amount {
                        number: by,
                        ..f.amount
                    },
                    Role::Out,
                    f.of.clone(),
                ))
            })
            .collect();
        if short.is_empty() {
            return;
        }
        let mut thing = fact.thing.clone();
        for figure in &short {
            thing = thing.with(&Noun {
                words: figure
                    .of
                    .split(' ')
                    .filter(|w| !w.is_empty())
                    .map(str::to_owned)
                    .collect(),
                head: 0,
                refers: false,
            });
        }
        if let Some(fact) = self.fact(Kind::Wrong, &thing, 80) {
            fact.figures = short;
            fact.detail = RECKONED.to_owned();
        }
    }
}

/// The detail of a fault that was reckoned from a reading and what it should be.
pub(super) const RECKONED: &str = "out of what is wanted";
