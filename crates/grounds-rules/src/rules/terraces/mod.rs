//! Terraces and roofs that are walked on.

pub(crate) mod paver_edge;
pub(crate) mod paver_pedestals;
pub(crate) mod terrace_fall;
pub(crate) mod terrace_upstand;

use crate::rule::Rule;

pub(super) static RULES: &[&Rule] = &[
    &terrace_fall::RULE,
    &terrace_upstand::RULE,
    &paver_pedestals::RULE,
    &paver_edge::RULE,
];
