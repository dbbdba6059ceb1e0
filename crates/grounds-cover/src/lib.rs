//! What is about to be hidden in a house, what was seen of it, and what is behind its faces.
//!
//! 1. [`hides`] tells from the job alone which layer or piece hides which layers, pieces and holds.
//! 2. [`Register::of`] puts that beside the site and the plan: for each covering, what it hides, what
//!    was seen, measured, photographed and passed, what is asked, what is missing, who must give it and
//!    by when; and what was covered without.
//! 3. [`look_at`] tells how a test or an inspection stands: to book, booked, due, passed, failed.
//! 4. [`behind`] tells what is behind a face, from the finish inwards, by place or by asking.
//!
//! Nothing is computed from a clock: dates come from the outlook, whose *now* is an argument.

mod asks;
mod behind;
mod evidence;
mod find;
mod hides;
mod hold;
mod kinds;
mod register;
mod words;

pub use asks::{Ask, AskedBy, Giver, KEPT_ELSEWHERE, Met, Wanted};
pub use behind::{BehindFace, Part, PartOf, behind, behind_face};
pub use evidence::{Evidence, Said};
pub use find::{Found, find};
pub use hides::{Cover, Hiding, covers_named, hides, looks_at};
pub use hold::{HoldLook, HoldState, look_at};
pub use kinds::{HiddenKind, closes, kind_of};
pub use register::{Covering, Hidden, LetGo, Register, Standing};
pub use words::CoverWords;

/// Said wherever somebody may cut or drill into what is hidden.
pub const BEFORE_DRILLING: &str = "What is written here is what was noted, not what is there: find \
     pipes and cables with a detector before you drill or cut, switch off and isolate first, and \
     leave live work to licensed people.";

/// Said wherever a test or an inspection is prepared.
pub const AUTHORITY_DECIDES: &str = "The authority having jurisdiction decides what it wants to see \
     and when; this page only gathers what was noted.";
