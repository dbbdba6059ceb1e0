//! Coats: when they may be laid and when the next one.

pub(crate) mod coat_air;
pub(crate) mod dew_point;
pub(crate) mod joint_compound;
pub(crate) mod recoat;

use crate::rule::Rule;

pub(super) static RULES: &[&Rule] = &[
    &coat_air::RULE,
    &dew_point::RULE,
    &recoat::RULE,
    &joint_compound::RULE,
];
