//! Light and power.

pub(crate) mod box_depth;
pub(crate) mod box_fill;
pub(crate) mod fixture_support;
pub(crate) mod led_driver;
pub(crate) mod led_voltage_drop;
pub(crate) mod tread_light;

use crate::rule::Rule;

pub(super) static RULES: &[&Rule] = &[
    &led_driver::RULE,
    &led_voltage_drop::RULE,
    &tread_light::RULE,
    &box_depth::RULE,
    &box_fill::RULE,
    &fixture_support::RULE,
];
