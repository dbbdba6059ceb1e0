//! Screeds, flatness, tile and stone.

pub(crate) mod floor_flatness;
pub(crate) mod lippage;
pub(crate) mod movement_joints;
pub(crate) mod screed_drying;
pub(crate) mod slab_moisture;
pub(crate) mod tile_joint;
pub(crate) mod wall_flatness;

use crate::rule::Rule;

pub(super) static RULES: &[&Rule] = &[
    &screed_drying::RULE,
    &slab_moisture::RULE,
    &floor_flatness::RULE,
    &wall_flatness::RULE,
    &tile_joint::RULE,
    &lippage::RULE,
    &movement_joints::RULE,
];
