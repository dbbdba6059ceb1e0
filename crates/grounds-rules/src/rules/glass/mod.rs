//! Glass and mirrors.

pub(crate) mod glass_clearance;
pub(crate) mod glass_hinges;
pub(crate) mod glass_weight;
pub(crate) mod safety_glass;

use crate::rule::Rule;

pub(super) static RULES: &[&Rule] = &[
    &safety_glass::RULE,
    &glass_weight::RULE,
    &glass_clearance::RULE,
    &glass_hinges::RULE,
];
