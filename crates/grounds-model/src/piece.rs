//! Pieces (glass, tracks, frames, grilles, cabinets) and the openings they go into.

use std::collections::BTreeMap;

use grounds_measure::{Estimate, Length, Money, Size, Span, Thickness, Weight};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{
    figure::{Figures, PieceKind},
    id::{Id, Ref},
    line::{Lined, Setting},
    material::Material,
    place::is_false,
};

/// Something that is made or bought, arrives, and is set in one place.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Piece {
    /// What everyone calls it.
    pub name: String,
    /// Other names it goes by on site.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub aliases: Vec<String>,
    /// What it is to the rules that speak of such pieces.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kind: Option<PieceKind>,
    /// What it is made of.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub material: Option<Material>,
    /// Who sets it.
    pub trade: Id,
    /// Where it goes.
    pub place: Id,
    /// The face it sits in, a key of the place's faces.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub face: Option<Id>,
    /// What must be done before it is set; with a face, the layer it sits on.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub after: Vec<Ref>,
    /// What covers or laps it, and so waits for it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub before: Vec<Ref>,
    /// What must be seen of it before it is covered: photos, readings, papers; `[]` for nothing. Left
    /// out, a photo.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub evidence: Option<Vec<String>>,
    /// How many are set in one go.
    #[serde(default = "one", skip_serializing_if = "is_one")]
    pub count: u32,
    /// Width × height (× depth).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size: Option<Size>,
    /// How far its width and its height may be off, either way.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size_within: Option<Length>,
    /// Width × height that was ordered, where it is not the size designed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ordered: Option<Size>,
    /// Thickness across the face, with tolerance.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thickness: Option<Thickness>,
    /// Weight of one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weight: Option<Weight>,
    /// Time to set it, in hours of work.
    pub takes: Span,
    /// People needed to set it, where it differs from the trade's crew.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub people: Option<u32>,
    /// Easily spoiled: wants to go in late.
    #[serde(default, skip_serializing_if = "is_false")]
    pub fragile: bool,
    /// Protects other work once it is in.
    #[serde(default, skip_serializing_if = "is_false")]
    pub protective: bool,
    /// Needs a trolley or a lifting crew to get in: must not cross a floor that bears boots only.
    #[serde(default, skip_serializing_if = "is_false")]
    pub heavy: bool,
    /// Setting it fills the air with dust.
    #[serde(default, skip_serializing_if = "is_false")]
    pub dusty: bool,
    /// Passages or places that are shut while it is being set.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub shuts: Vec<Id>,
    /// Wait after it is set before the next work on it (sealant, adhesive).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cover: Option<Span>,
    /// Time from order to site, low / likely / high.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lead: Option<Estimate>,
    /// Who makes or brings it: pieces of one supplier tend to be late together.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub supplier: Option<String>,
    /// What must be finished before it is measured for order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub measured_after: Vec<Ref>,
    /// Time to measure, where it is measured on site.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub measuring: Option<Span>,
    /// Who measures, where it is not who sets.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub measured_by: Option<Id>,
    /// The decision that comes before the order.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub decision: Option<Id>,
    /// The place it is kept in until it is set.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kept_in: Option<Id>,
    /// Needs to be reached for service; it may not be covered without an access panel.
    #[serde(default, skip_serializing_if = "is_false")]
    pub serviced: bool,
    /// What it is set to on site, by packers, a box screwed in or out, adjustable feet. A piece
    /// that is not set stands with its back on the layer it sits on.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub set: Vec<Setting>,
    /// How it must line up.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub align: Vec<Align>,
    /// What its maker asks for bringing it sooner than promised.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub expedite: Option<Money>,
    /// Price of all of them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<Money>,
    /// Figures that rules ask for, by the key that rules know them by.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub figures: Figures,
}

/// One way in which a piece must line up.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Align {
    /// The relation.
    pub how: Relation,
    /// What it lines up with: a face (its finish plane), a layer, a piece, an opening or a control
    /// line.
    pub with: Ref,
    /// By how much: proud (+) or shy (−), the reveal, the clearance, the height.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<Length>,
    /// How far it may be out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub within: Option<Length>,
}

/// A relation between a piece and what it lines up with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Relation {
    /// In the finish plane, or proud or shy of it.
    Flush,
    /// A reveal of a given width.
    Reveal,
    /// In one plane with another piece, or with a control line.
    InPlane,
    /// Centred on it.
    Centred,
    /// Equal gaps on both sides.
    EqualGaps,
    /// Clear of it by at least.
    Clear,
    /// Its bottom above the finished floor.
    AboveFloor,
}

/// A hole that something must go into: a window, a doorway, a niche, a shaft.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Opening {
    /// What everyone calls it.
    pub name: String,
    /// The place it is seen from.
    pub place: Id,
    /// The face it is in, a key of the place's faces.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub face: Option<Id>,
    /// Width × height as framed.
    pub rough: Size,
    /// Width × height once finished, where it is set and not left to the build-ups.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub finished: Option<Size>,
    /// The piece that goes in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub piece: Option<Id>,
    /// Clearance wanted at each edge.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clearance: Option<Length>,
    /// The widest gap at each edge that can still be closed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most: Option<Length>,
    /// How far the framed width and height may be off, either way.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub within: Option<Length>,
    /// What lines its sides.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lined: Option<Lined>,
}

fn one() -> u32 {
    1
}

fn is_one(value: &u32) -> bool {
    *value == 1
}
