//! The checks a good site lead carries in the head, with their sources.
//!
//! A [`Rule`] is one small formula: its question in a sentence, its inputs, each with who has the
//! figure, the formula, the working line by line with units, and a verdict: passes, fails, or cannot
//! tell for want of a figure. [`all`] lists every rule; [`Rule::check`] evaluates one from figures
//! that [`Given::read`] reads from texts, so that a form or a command line needs no code of its own
//! for any rule. [`house::check`] finds in a job and its site everything that a rule speaks of, and
//! evaluates the rule there.
//!
//! What a building code asks is data: a [`Code`], one file each, chosen for a job and changed for it
//! with a reason.
//!
//! No rule replaces the code that is in force where the house stands, nor the people who are licensed
//! to design and to approve: each says so where work can hurt someone.
//!
//! ```
//! use grounds_measure::Units;
//! use grounds_rules::{Code, Given, Verdict, rule_named};
//!
//! let rule = rule_named("riser-and-going").unwrap();
//! let code = Code::named("irc-2021").unwrap();
//! let given = Given::read(rule, [("riser", "8 in"), ("going", "10 in")]).unwrap();
//! let answer = rule.check(&given, code, Units::Imperial);
//! assert_eq!(answer.verdict, Verdict::Fails);
//! assert!(answer.said.contains("The riser is 8 in; at most 7.75 in"));
//! ```

mod answer;
mod cautions;
mod code;
mod doubt;
pub mod figures;
mod given;
pub mod house;
mod input;
pub mod physics;
pub mod quantity;
mod rule;
mod rules;
mod working;

pub use answer::{Answer, Line, Missing, Relation, Verdict};
pub use code::{Change, Code, CodeFault, Limit, grade_words};
pub use doubt::Doubt;
pub use given::{Given, GivenFault};
pub use input::{Allowance, Guess, Input, InputKind, Origin, Spec, Who, Word};
pub use rule::{Family, Rule, Source};
pub use rules::{all, rule_named, rule_near};

/// The nearest of some names, if one is near enough to be meant.
pub(crate) fn nearest<'n>(name: &str, names: impl Iterator<Item = &'n str>) -> Option<&'n str> {
    // A hostile name is not compared letter by letter.
    if name.len() > 80 {
        return None;
    }
    names
        .map(|known| (strsim::normalized_damerau_levenshtein(name, known), known))
        .filter(|(likeness, _)| *likeness > 0.6)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, known)| known)
}
