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
//! | section to true scale, with planes, pieces and how they land | [`fit_section`] | [`Section`] |
//! | the same as a file for the shop | [`section_dxf`] | [`Section`] |
//! | a need on a list: what is wanted, where it lands | [`bands`](fn@bands) | [`Bands`] |
//! | where to put the tape in an opening, what to order | [`opening_sheet`](fn@opening_sheet) | [`OpeningSheet`] |
//! | a flight with each rise | [`stair_layout`](fn@stair_layout) | [`StairLayout`] |
//! | boards, tiles, balusters along a run | [`spacing_layout`](fn@spacing_layout) | [`SpacingLayout`] |
//! | cuts from stock | [`cut_layout`](fn@cut_layout) | [`CutLayout`] |
//! | pieces along a plane with their shims | [`plane_layout`](fn@plane_layout) | [`PlaneLayout`] |
//! | what lines and hatches mean | [`sheet_key`] | [`Hatch`]es |
//!
//! Materials are told by hatch and state by line, as on a drawing; colour only repeats what line and hatch say.

mod bands;
mod curve;
mod cut_layout;
mod dimension_string;
mod dxf;
mod fit_section;
mod hatch;
mod house;
mod ink;
mod key;
mod lettering;
mod link;
mod mark;
mod medium;
mod opening_sheet;
mod plane_layout;
mod section;
mod sheet;
mod spacing_layout;
mod spread;
mod stack;
mod stair_layout;
mod strip;
mod verdict;
mod weeks;

pub use bands::{Bands, bands};
pub use curve::{Curve, CurveMark, CurveMarkKind, CurveRead, curve};
pub use cut_layout::{CutLayout, StockCut, StockLength, cut_layout};
pub use dxf::section_dxf;
pub use fit_section::{
    ControlLine, Dimension, FinishPlane, Landing, PieceForm, Section, SectionLayer, SectionPiece,
    fit_section,
};
pub use hatch::{Hatch, hatch_defs};
pub use house::{House, HouseLevel, Room, house};
pub use key::sheet_key;
pub use link::Link;
pub use mark::stack_mark;
pub use medium::{Medium, Scale, Units, on_every_medium};
pub use opening_sheet::{EdgeClearances, OpeningSheet, Rectangle, TapeReading, opening_sheet};
pub use plane_layout::{PlaneLayout, PlanePiece, plane_layout};
pub use section::stack_section;
pub use spacing_layout::{SpacingKind, SpacingLayout, SpacingPart, spacing_layout};
pub use stack::{Face, FaceKind, Layer, Piece, State, Trouble};
pub use stair_layout::{FloorFinish, Rise, StairLayout, stair_layout};
pub use verdict::Verdict;
pub use weeks::{Bar, Closure, Day, Level, Mark, MarkKind, Place, Weeks, Zoom, weeks};
