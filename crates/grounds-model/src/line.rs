//! Where planes, edges and levels stand: control lines, structure, settings, thresholds, flights,
//! and lines by hand for what the build-ups do not say.

use std::collections::BTreeMap;

use grounds_measure::Length;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{
    id::{Id, Ref},
    place::is_false,
};

/// A control line: a plane or a level that is carried through several places or storeys, and that
/// work in each of them is set out from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Control {
    /// What everyone calls it.
    pub name: String,
    /// How far its mark in one place may be off, either way: how truly it is carried there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub within: Option<Length>,
    /// For a level line: the storey it belongs to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub level: Option<Id>,
    /// For a level line: its height over the finished floor of its storey.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub height: Option<Length>,
}

/// Where the structure of a face stands before anything is put on it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Structure {
    /// What it is placed by: a control line, or the face or layer it is built on. A floor that
    /// names nothing is placed by the finished floor of its level.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<Ref>,
    /// How far it stands out from there, towards the room; behind it is below zero.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<Length>,
    /// How far it may be off its place, either way: how true it stands.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub within: Option<Length>,
    /// The face looks against its control line: the other side of a wall.
    #[serde(default, skip_serializing_if = "is_false")]
    pub reversed: bool,
}

/// Which way a piece can be set.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum Along {
    /// Out of the face it sits in: how far its own face stands out.
    #[default]
    Out,
    /// Up: the height of its bottom.
    Up,
    /// Across: its centre, off the centre it is set to.
    Across,
}

/// A piece that is set to a figure on site: by packers, a box screwed in or out, adjustable feet.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Setting {
    /// Which way.
    #[serde(default)]
    pub along: Along,
    /// What it is set from: a control line, a face, a layer or a piece. Left out: the layer it sits
    /// on, for its height the finished floor of its place.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<Ref>,
    /// The figure it is set to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<Length>,
    /// The least it can be set to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub least: Option<Length>,
    /// The most it can be set to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most: Option<Length>,
    /// How far the hand may be off, either way.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub within: Option<Length>,
}

/// How the finished floors on both sides of a passage must meet.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Threshold {
    /// How far the second floor of `between` stands over the first; nothing for flush.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step: Option<Length>,
    /// How far that may be out, either way.
    pub within: Length,
}

/// A flight of stairs: framed risers between two finished floors. Its treads are the floor of the
/// place it stands in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Flight {
    /// The place at its foot.
    pub foot: Id,
    /// The place at its head.
    pub head: Id,
    /// How many risers there are, the last one up to the floor at the head among them.
    pub risers: u32,
    /// The rise of each as framed, without any finish.
    pub rise: Length,
    /// The framed rise from the floor at the foot to the first tread, where it is not the same: it
    /// makes room for the finish of the floor and of the tread. The last is what is left.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub first: Option<Length>,
    /// How far a framed rise may be off, either way.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub within: Option<Length>,
    /// The most that the greatest and the least rise of the flight may differ, as local code has it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most_difference: Option<Length>,
}

/// What lines the sides of an opening: each a face, up to its finish, or a layer, up to that layer.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Lined {
    /// The left side, seen from the place.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left: Option<Ref>,
    /// The right side.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub right: Option<Ref>,
    /// The head.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head: Option<Ref>,
    /// The sill, or the floor.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sill: Option<Ref>,
}

impl Lined {
    /// The four sides in the order left, right, head, sill, each with its name.
    #[must_use]
    pub fn sides(&self) -> [(&'static str, Option<&Ref>); 4] {
        [
            ("left", self.left.as_ref()),
            ("right", self.right.as_ref()),
            ("head", self.head.as_ref()),
            ("sill", self.sill.as_ref()),
        ]
    }
}

/// A line by hand, for what the build-ups do not say.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Line {
    /// What everyone calls it.
    pub name: String,
    /// Its points: planes, edges, centres.
    pub points: BTreeMap<Id, LinePoint>,
    /// How far they are from each other.
    pub links: BTreeMap<Id, LineLink>,
    /// What must be true of them.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub needs: BTreeMap<Id, LineNeed>,
}

/// A point of a line by hand.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LinePoint {
    /// What everyone calls it.
    pub name: String,
    /// Where it is the same as a plane the job knows: a face's finish, a layer's outside, a piece's
    /// face, a control line.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<Ref>,
}

/// How far one point of a line by hand is from another.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LineLink {
    /// What it is, for words and drawings.
    pub name: String,
    /// The point counted from.
    pub from: Id,
    /// The point counted to.
    pub to: Id,
    /// The distance; left out where it is chosen between `least` and `most`, or not known yet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub is: Option<Length>,
    /// How much more it may be.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub plus: Option<Length>,
    /// How much less it may be.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub minus: Option<Length>,
    /// How far it may be off, either way.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub within: Option<Length>,
    /// The least that can be chosen on site.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub least: Option<Length>,
    /// The most that can be chosen on site.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most: Option<Length>,
    /// What in the house it belongs to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub about: Option<Ref>,
}

/// What must be true of two points of a line by hand.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LineNeed {
    /// What is wanted, in words: `the leaf clears the studs`.
    pub name: String,
    /// The point counted from.
    pub from: Id,
    /// The point counted to.
    pub to: Id,
    /// The least that will do.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub least: Option<Length>,
    /// The most that will do.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most: Option<Length>,
    /// What in the house it holds up: a piece, a layer, an opening.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub about: Option<Ref>,
}
