//! Air that is moved: hoods, baths, dryers, ducts, grilles, doors.

pub(crate) mod bath_exhaust;
pub(crate) mod door_undercut;
pub(crate) mod dryer_duct;
pub(crate) mod duct_pressure;
pub(crate) mod duct_speed;
pub(crate) mod grille;
pub(crate) mod hood_capacity;
pub(crate) mod make_up_air;
pub(crate) mod make_up_air_heat;
pub(crate) mod make_up_air_opening;

use crate::rule::Rule;

pub(super) static RULES: &[&Rule] = &[
    &hood_capacity::RULE,
    &make_up_air::RULE,
    &make_up_air_opening::RULE,
    &make_up_air_heat::RULE,
    &duct_speed::RULE,
    &duct_pressure::RULE,
    &bath_exhaust::RULE,
    &dryer_duct::RULE,
    &grille::RULE,
    &door_undercut::RULE,
];
