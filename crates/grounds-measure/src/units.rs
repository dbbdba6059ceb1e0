//! The two systems a job can be typed and printed in.

use serde::{Deserialize, Serialize};

/// The system of units of a job: what a bare number means and how values are printed for people.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Default,
    Serialize,
    Deserialize,
    schemars::JsonSchema,
)]
#[serde(rename_all = "lowercase")]
pub enum Units {
    /// Millimetres, square metres, litres, kilograms, degrees Celsius.
    #[default]
    Metric,
    /// Feet and inches, square feet, US gallons, pounds, degrees Fahrenheit.
    Imperial,
}
