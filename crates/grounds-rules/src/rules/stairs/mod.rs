//! Stairs, handrails and guards.

pub(crate) mod even_risers;
pub(crate) mod flight;
pub(crate) mod guard_gaps;
pub(crate) mod guard_height;
pub(crate) mod guard_load;
pub(crate) mod handrail;
pub(crate) mod handrail_grip;
pub(crate) mod headroom;
pub(crate) mod nosing;
pub(crate) mod riser_and_going;
pub(crate) mod stair_width;

use crate::rule::Rule;

pub(super) static RULES: &[&Rule] = &[
    &riser_and_going::RULE,
    &even_risers::RULE,
    &flight::RULE,
    &nosing::RULE,
    &headroom::RULE,
    &stair_width::RULE,
    &handrail::RULE,
    &handrail_grip::RULE,
    &guard_height::RULE,
    &guard_gaps::RULE,
    &guard_load::RULE,
];
