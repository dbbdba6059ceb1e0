//! What must be in before a face is covered.

pub(crate) mod access_panel;
pub(crate) mod blocking;
pub(crate) mod fire_block;
pub(crate) mod nail_plate;

use crate::rule::Rule;

pub(super) static RULES: &[&Rule] = &[
    &access_panel::RULE,
    &blocking::RULE,
    &fire_block::RULE,
    &nail_plate::RULE,
];
