//! What somebody still has to choose.

use super::scene::recent;
use super::{Class, Clause, Kind, Link, Noun, Reader, Token, What, blocked::text_of};
use crate::clauses::is_verb;

/// Things one chooses between: after *which* and *what* they make a question a choice.
const CHOSEN: [&str; 22] = [
    "colour", "color", "finish", "height", "size", "side", "way", "hand", "handle", "handles",
    "pattern", "grout", "tile", "tiles", "paint", "stain", "position", "level", "width", "depth",
    "style", "shade",
];

impl Reader<'_> {
    /// Reads a clause that says that a choice is open.
    pub(super) fn decision(&mut self, clause: &Clause, next: Option<&Clause>) -> bool {
        self.whose_call(clause)
            || self.not_chosen(clause)
            || self.either_order(clause, next)
            || self.doubtful_need(clause)
    }

    /// `that's Mrs Cole's call`, `that's for Nuala to say`: who has to choose about the thing in hand.
    fn whose_call(&mut self, clause: &Clause) -> bool {
        let tokens = &clause.tokens;
        let that = tokens
            .first()
            .is_some_and(|t| matches!(t.text.as_str(), "that" | "it" | "which" | "this"));
        let calls = tokens.last().is_some_and(|t| {
            matches!(
                t.text.as_str(),
                "call" | "decision" | "choice" | "pick" | "say" | "decide" | "choose"
            )
        });
        let who = tokens.iter().find_map(|t| self.person_name(t)).or_else(|| {
            tokens
                .iter()
                .find(|t| t.is(Class::Owners))
                .map(|t| t.text.clone())
        });
        let Some(who) = who.filter(|_| that && calls && tokens.len() <= 9) else {
            return false;
        };
        let sentence = self.sentence;
        if let Some(fact) = super::scene::recent_mut(&mut self.facts)
            .take(3)
            .find(|f| !f.dropped && f.kind == Kind::Decision && f.sentence + 2 >= sentence)
        {
            fact.who = Some(who);
            return true;
        }
        let thing = self.resolve(&Noun::default());
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(Kind::Decision, &thing, 84) {
            fact.who = Some(who);
            fact.detail = detail;
        }
        true
    }

    /// `she hasn't picked`, `colour's not decided`, `up to the owner`, `needs to choose`.
    fn not_chosen(&mut self, clause: &Clause) -> bool {
        let tokens = &clause.tokens;
        let is_open = |token: &Token| {
            token.what == What::Word
                && token.is(Class::Decision)
                && !matches!(
                    token.text.as_str(),
                    "call" | "question" | "choice" | "decision"
                )
        };
        let open = tokens.iter().position(is_open);
        let verb = tokens.iter().position(|token| {
            token.what == What::Word
                && token.is(Class::Decide)
                && !matches!(
                    token.text.as_str(),
                    "confirm" | "approve" | "agree" | "agreed"
                )
        });
        let denied = tokens
            .iter()
            .any(|token| token.is(Class::Not) || token.text == "still");
        let meant = tokens
            .iter()
            .any(|token| token.any(&[Class::Will, Class::Need, Class::Modal]));
        let at = match (open, verb) {
            (Some(at), _) => at,
            (None, Some(at)) if denied || meant => at,
            _ => return false,
        };
        let before = tokens.get(..at).unwrap_or_default();
        let after = tokens.get(at + 1..).unwrap_or_default();
        let subject_end = (0..before.len())
            .find(|i| is_verb(before, *i))
            .unwrap_or(before.len());
        let subject = before.get(..subject_end).unwrap_or_default();
        let person = subject
            .iter()
            .find_map(|token| self.person_name(token))
            .or_else(|| {
                subject
                    .iter()
                    .find(|t| t.is(Class::ThirdPerson))
                    .map(|_| "owner".to_owned())
            });
        let object = Noun::of(after);
        let thing = if !object.is_empty() && !object.refers {
            object
        } else if person.is_none() {
            Noun::of(subject)
        } else {
            Noun::default()
        };
        let thing = if thing.is_empty() {
            self.last_named()
        } else {
            thing
        };
        let options = tokens.iter().any(|t| t.text == "or");
        let thing = match (&self.subject, options) {
            // "Mrs Amory has to say black or white.": of what was spoken of.
            (Some(subject), true) if !thing.is_empty() => thing.with(subject),
            _ => thing,
        };
        let thing = self.resolve(&thing);
        let who = person.or_else(|| {
            tokens
                .get(at)
                .and_then(|t| t.text.strip_prefix("up to "))
                .map(str::to_owned)
        });
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(Kind::Decision, &thing, 88) {
            fact.who = who;
            fact.detail = detail;
        }
        true
    }

    /// `pad them, or drop a step`: two orders between which one has to choose.
    fn either_order(&mut self, clause: &Clause, next: Option<&Clause>) -> bool {
        let lead = clause
            .tokens
            .iter()
            .take_while(|t| lead_of_option(t))
            .count();
        let clause = &Clause {
            link: clause.link,
            tokens: clause.tokens.get(lead..).unwrap_or_default().to_vec(),
        };
        let is_order = |clause: &Clause| {
            clause.tokens.first().is_some_and(|t| {
                t.what == What::Word
                    && (t.is(Class::Act) || t.classes.is_empty())
                    && !t.is(Class::Done)
            }) && (0..clause.tokens.len()).all(|at| !is_verb(&clause.tokens, at))
        };
        let Some(next) = next.filter(|next| {
            next.link == Link::Or || next.tokens.first().is_some_and(|t| t.text == "or")
        }) else {
            return false;
        };
        let after_or: Vec<Token> = next
            .tokens
            .iter()
            .skip_while(|t| lead_of_option(t))
            .cloned()
            .collect();
        let other = Clause {
            link: Link::Or,
            tokens: after_or,
        };
        if !is_order(clause)
            || !is_order(&other)
            || !other.tokens.first().is_some_and(|t| t.is(Class::Act))
        {
            return false;
        }
        let noun = Noun::of(clause.tokens.get(1..).unwrap_or_default());
        let thing = self.resolve(&noun);
        let detail = format!("{} or {}", text_of(&clause.tokens), text_of(&other.tokens));
        self.skip = 1;
        if let Some(fact) = self.fact(Kind::Decision, &thing, 82) {
            fact.detail = detail;
        }
        true
    }

    /// `wants an air brick or something`: what is needed is not settled.
    fn doubtful_need(&mut self, clause: &Clause) -> bool {
        let tokens = &clause.tokens;
        let hedged = self.sentence_certainty == super::Certainty::Hedged;
        let Some(at) = tokens
            .iter()
            .position(|t| t.is(Class::Need) && t.what == What::Word)
        else {
            return false;
        };
        let after = tokens.get(at + 1..).unwrap_or_default();
        let amount = after.iter().any(|t| {
            t.amount()
                .is_some_and(|a| a.unit.is_length() || a.unit == crate::numbers::Unit::None)
        });
        if !hedged || amount || after.first().is_none_or(|t| t.text == "to") {
            return false;
        }
        let subject = Noun::of(tokens.get(..at).unwrap_or_default());
        let back = self.resolve(&subject);
        let thing = Noun::of(after).with(&back);
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(Kind::Decision, &thing, 75) {
            fact.detail = detail;
        }
        true
    }

    /// A question between choices: `left or right?`, `which colour?`, `do we box it or leave it?`.
    pub(super) fn open_choice(&mut self, tokens: &[Token]) -> bool {
        if tokens.iter().any(|t| t.is(Class::Idle)) {
            return false;
        }
        let which = tokens.windows(2).any(|pair| {
            let [first, second] = pair else {
                return false;
            };
            matches!(first.text.as_str(), "which" | "what")
                && CHOSEN.contains(&second.text.as_str())
        });
        let between = tokens.iter().any(|t| t.text == "or")
            && !tokens.iter().any(|t| matches!(t.text.as_str(), "what"))
            && tokens.iter().any(|t| {
                t.what == What::Word && t.any(&[Class::Be, Class::Do, Class::Modal, Class::Act])
            })
            && tokens.iter().filter(|t| crate::noun::is_content(t)).count() >= 2;
        let ours = tokens.windows(2).any(|pair| {
            let [first, second] = pair else {
                return false;
            };
            matches!(first.text.as_str(), "do" | "should" | "shall" | "are") && second.text == "we"
        }) && between;
        if !(which || between || ours) {
            return false;
        }
        let thing = self.resolve(&Noun::of(tokens));
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(Kind::Decision, &thing, 72) {
            fact.detail = detail;
        }
        true
    }

    /// The thing of the last fact of this sentence: what a choice without an object is about.
    fn last_named(&self) -> Noun {
        recent(&self.facts)
            .find(|fact| !fact.dropped && fact.sentence + 1 >= self.sentence)
            .map(|fact| fact.thing.clone())
            .unwrap_or_default()
    }
}

/// What may stand before an option: `either`, `we can`, `or`.
fn lead_of_option(token: &Token) -> bool {
    token.any(&[
        Class::Pron,
        Class::Be,
        Class::Conj,
        Class::FirstPerson,
        Class::Modal,
    ]) || matches!(
        token.text.as_str(),
        "either" | "we can" | "i can" | "we could"
    )
}
