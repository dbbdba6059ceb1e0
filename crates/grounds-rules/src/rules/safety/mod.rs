//! People at work.

pub(crate) mod ladder;
pub(crate) mod lift_by_hand;
pub(crate) mod scaffold;
pub(crate) mod stone_dust;

use crate::rule::Rule;

pub(super) static RULES: &[&Rule] = &[
    &lift_by_hand::RULE,
    &scaffold::RULE,
    &ladder::RULE,
    &stone_dust::RULE,
];
