//! Heated floors and snow melting.

pub(crate) mod floor_warmth;
pub(crate) mod heated_screed;
pub(crate) mod snow_melt_electric;
pub(crate) mod snow_melt_load;
pub(crate) mod snow_melt_water;

use crate::rule::Rule;

pub(super) static RULES: &[&Rule] = &[
    &heated_screed::RULE,
    &floor_warmth::RULE,
    &snow_melt_load::RULE,
    &snow_melt_electric::RULE,
    &snow_melt_water::RULE,
];
