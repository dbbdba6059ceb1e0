//! A spoken walk, read into proposed notes and questions.
//!
//! The user walks the house and talks. [`transcript::read`] takes what a recogniser or a person
//! wrote down; [`read`] turns it into [`Proposal`]s, each with its place, thing, kind, value,
//! certainty, sentence and time, and [`Question`]s about what was said and became none. Nothing
//! here learns, guesses with chance, or calls out: the same talk gives the same proposals.
//!
//! In order: cues to tokens (mis-hearings mended, contractions opened), phrases and their classes,
//! numbers with units, dates, names; sentences to clauses; clauses to facts, with the place, the
//! heading and the thing in hand carried over; facts to proposals. The trade's words stand in the
//! files of `lexicon/`. What a proposal would be in the log of a job stands in [`file`].

mod clauses;
mod dates;
mod fact;
pub mod file;
mod grammar;
mod kinds;
mod lexicon;
mod matching;
mod names;
mod noun;
mod numbers;
mod place;
mod proposals;
mod questions;
mod roles;
mod same;
mod sentences;
mod signs;
mod tokens;
pub mod transcript;
mod vocabulary;
mod walk;

pub use kinds::{Certainty, Kind};
pub use numbers::{Amount, Number, Role, Unit};
pub use proposals::{Moment, Proposal, Reading};
pub use questions::{Question, Why};
pub use same::{content_stems, same_thing};
pub use signs::Signs;
pub use vocabulary::{Person, Place, Sort, Thing, Vocabulary, from_job};
pub use walk::{Walk, read};
