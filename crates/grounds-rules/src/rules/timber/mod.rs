//! Timber floors and what moves with the air.

pub(crate) mod heating_before_timber;
pub(crate) mod strip_movement;
pub(crate) mod timber_acclimation;
pub(crate) mod timber_moisture;
pub(crate) mod timber_movement;

use crate::rule::Rule;

pub(super) static RULES: &[&Rule] = &[
    &heating_before_timber::RULE,
    &timber_acclimation::RULE,
    &timber_moisture::RULE,
    &timber_movement::RULE,
    &strip_movement::RULE,
];
