//! Where work happens: levels, places, passages and faces.

use std::collections::BTreeMap;

use grounds_measure::{Area, Length, Size};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{
    figure::Figures,
    id::Id,
    line::{Flight, Structure, Threshold},
};

/// A storey, from its finished floor.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Level {
    /// What everyone calls it.
    pub name: String,
    /// Height of the finished floor over the job's datum.
    pub height: Length,
    /// How far its mark may be off the datum, either way: how truly the height is carried up.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub within: Option<Length>,
}

/// What kind of place it is.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum PlaceKind {
    /// A room.
    #[default]
    Room,
    /// A hall, landing or corridor.
    Hall,
    /// A flight of stairs.
    Stair,
    /// A terrace, balcony or roof deck.
    Deck,
}

/// A room, hall, stair or deck.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Place {
    /// What everyone calls it.
    pub name: String,
    /// Other names it goes by on site.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub aliases: Vec<String>,
    /// The level it belongs to.
    pub level: Id,
    /// What kind of place it is.
    #[serde(default)]
    pub kind: PlaceKind,
    /// Length × width × height inside, for areas that no face states.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size: Option<Size>,
    /// The air it shares with others; without one it has its own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub air: Option<Id>,
    /// How many crews fit at once.
    #[serde(default = "two", skip_serializing_if = "is_two")]
    pub crews: u32,
    /// People come in here straight from outside.
    #[serde(default, skip_serializing_if = "is_false")]
    pub entrance: bool,
    /// Its floors, walls, ceilings and soffits.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub faces: BTreeMap<Id, Face>,
    /// For a stair: its risers, between the floors it joins.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub flight: Option<Flight>,
    /// Figures that rules ask for, by the key that rules know them by.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub figures: Figures,
}

/// Which way a face looks.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum FaceKind {
    /// Walked on: floors, treads, decks.
    Floor,
    /// Upright: walls, jambs, joinery.
    Wall,
    /// Overhead inside a room.
    Ceiling,
    /// Overhead under a stair, a beam or an eave.
    Soffit,
}

/// One floor, wall, ceiling or soffit: a stack of layers.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Face {
    /// What everyone calls it, where the key is not enough.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Which way it looks.
    pub kind: FaceKind,
    /// The build-up it gets: a key of `build_ups` or of the starter library.
    pub build_up: Id,
    /// Its area, where the size of the place does not give it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub area: Option<Area>,
    /// Its running length, for work that is done by length.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub length: Option<Length>,
    /// Worked on by itself, even where another face of the place has the same build-up.
    #[serde(default, skip_serializing_if = "is_false")]
    pub split: bool,
    /// Where its structure stands before anything is put on it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub structure: Option<Structure>,
    /// Figures that rules ask for, by the key that rules know them by.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub figures: Figures,
}

/// What joins two places.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum PassageKind {
    /// A door.
    Door,
    /// A flight of stairs or a ladder.
    Stair,
    /// An opening without a door.
    Opening,
}

/// A way between two places, or from outside.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Passage {
    /// What everyone calls it, where the two places are not enough.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// What it is.
    pub kind: PassageKind,
    /// The two places it joins; `outside` is the open air.
    pub between: [Id; 2],
    /// How the finished floors on both sides must meet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub threshold: Option<Threshold>,
}

/// The key that stands for the open air in [`Passage::between`].
pub const OUTSIDE: &str = "outside";

pub(crate) fn is_false(value: &bool) -> bool {
    !value
}

fn two() -> u32 {
    2
}

fn is_two(value: &u32) -> bool {
    *value == 2
}
