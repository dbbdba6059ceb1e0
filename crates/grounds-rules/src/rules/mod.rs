//! Every rule, a file each, by family.

pub(crate) mod air;
pub(crate) mod coats;
pub(crate) mod cover;
pub(crate) mod electric;
pub(crate) mod glass;
pub(crate) mod heating;
mod prelude;
pub(crate) mod safety;
pub(crate) mod stairs;
pub(crate) mod terraces;
pub(crate) mod tile_and_stone;
pub(crate) mod timber;
pub(crate) mod wet_rooms;

use std::sync::OnceLock;

use crate::rule::Rule;

/// Every rule, by family, in the order that a site lead meets them.
#[must_use]
pub fn all() -> &'static [&'static Rule] {
    static ALL: OnceLock<Vec<&'static Rule>> = OnceLock::new();
    ALL.get_or_init(|| {
        [
            air::RULES,
            stairs::RULES,
            glass::RULES,
            timber::RULES,
            tile_and_stone::RULES,
            wet_rooms::RULES,
            heating::RULES,
            terraces::RULES,
            electric::RULES,
            cover::RULES,
            coats::RULES,
            safety::RULES,
        ]
        .concat()
    })
}

/// The rule of that key.
#[must_use]
pub fn rule_named(name: &str) -> Option<&'static Rule> {
    all().iter().copied().find(|rule| rule.name == name)
}

/// The rule that a mistyped key most likely means.
#[must_use]
pub fn rule_near(name: &str) -> Option<&'static Rule> {
    rule_named(crate::nearest(name, all().iter().map(|rule| rule.name))?)
}
