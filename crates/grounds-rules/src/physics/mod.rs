//! The physics behind several rules: moist air, ducts, drying, melting snow.

pub mod air;
pub mod drying;
pub mod duct;
pub mod snow;
