//! Drawings of a house in its finish phase, as SVG and a little HTML around it.
//!
//! The crate knows nothing of jobs, plans or servers: it takes the plain types defined here and returns markup as a
//! [`String`]. Every word it is given is taken for hostile and escaped; every link must stay on the same server
//! ([`Link`]). The markup holds class names only, never a colour: light, dark and print come from the style sheet.
//!
//! | drawing | function | drawn from |
//! |---|---|---|
//! | the hatches all others refer to, once per page | [`hatch_defs`] | |
//! | stack mark, 44 × 40 px | [`stack_mark`] | [`Layer`]s |
//! | section through one face, named and dimensioned | [`stack_section`] | [`Face`] |
//! | weeks ahead by place | [`weeks`] | [`Weeks`] |
//! | house by level, each room as a section | [`house`] | [`House`] |
//! | how likely the finish is by each day | [`curve`] | [`Curve`] |
//! | what lines and hatches mean | [`sheet_key`] | [`Hatch`]es |
//!
//! Materials are told by hatch and state by line, as on a drawing; colour only repeats what line and hatch say.

mod curve;
mod hatch;
mod house;
mod ink;
mod key;
mod lettering;
mod link;
mod mark;
mod section;
mod stack;
mod strip;
mod weeks;

pub use curve::{Curve, CurveMark, CurveMarkKind, CurveRead, curve};
pub use hatch::{Hatch, hatch_defs};
pub use house::{House, HouseLevel, Room, house};
pub use key::sheet_key;
pub use link::Link;
pub use mark::stack_mark;
pub use section::stack_section;
pub use stack::{Face, FaceKind, Layer, Piece, State, Trouble};
pub use weeks::{Bar, Closure, Day, Level, Mark, MarkKind, Place, Weeks, Zoom, weeks};
