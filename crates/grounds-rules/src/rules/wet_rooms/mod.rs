//! Showers, bathrooms and other wet rooms.

pub(crate) mod flood_test;
pub(crate) mod membrane_upturn;
pub(crate) mod shower_fall;
pub(crate) mod wet_threshold;

use crate::rule::Rule;

pub(super) static RULES: &[&Rule] = &[
    &shower_fall::RULE,
    &wet_threshold::RULE,
    &membrane_upturn::RULE,
    &flood_test::RULE,
];
