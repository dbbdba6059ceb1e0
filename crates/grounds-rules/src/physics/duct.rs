//! Air in ducts: equivalent diameters, friction, the flow through an opening.
//!
//! Source: ASHRAE Handbook of Fundamentals, duct design \[published\]: the Darcy–Weisbach and Colebrook
//! equations, equivalent diameters after Huebscher (1948). Compared with the reference library
//! fluids.

use std::f64::consts::PI;

use crate::quantity::{Area, Flow, Length, Pressure, Quantity, Ratio, Speed};

/// The density of air at 20 °C and sea level, in kg/m³.
pub const AIR_DENSITY: f64 = 1.204;

/// The dynamic viscosity of air at 20 °C, in Pa s.
pub const AIR_VISCOSITY: f64 = 1.82e-5;

/// The share of an opening with sharp edges that air makes use of.
pub const SHARP_OPENING: f64 = 0.6;

/// Below this Reynolds number flow is laminar.
const LAMINAR: f64 = 2300.0;

/// The area of a round duct.
#[must_use]
pub fn round_area(diameter: Length) -> Area {
    diameter * diameter * (PI / 4.0)
}

/// The diameter of the round duct that loses as much pressure as a rectangular one at the same flow:
/// D = 1.30 (a b)^0.625 / (a + b)^0.25.
#[must_use]
pub fn equivalent_diameter(a: Length, b: Length) -> Length {
    let (a, b) = (a.base(), b.base());
    Length::of_base(1.30 * (a * b).powf(0.625) / (a + b).powf(0.25))
}

/// The Reynolds number of air in a round duct.
#[must_use]
pub fn reynolds(speed: Speed, diameter: Length) -> f64 {
    AIR_DENSITY * speed.base() * diameter.base() / AIR_VISCOSITY
}

/// The friction factor of Darcy: 1/√f = −2 log₁₀[ε/(3.7 D) + 2.51/(Re √f)], Colebrook; 64/Re where
/// flow is laminar.
#[must_use]
pub fn friction_factor(reynolds: f64, roughness: Ratio) -> f64 {
    if reynolds < LAMINAR {
        return 64.0 / reynolds.max(1.0);
    }
    let rough = roughness.base() / 3.7;
    // The right side hardly moves with x = 1/√f: a few rounds settle it to all digits.
    let mut x = 7.0;
    for _ in 0..20 {
        x = -2.0 * (rough + 2.51 * x / reynolds).log10();
    }
    1.0 / (x * x)
}

/// The pressure that a speed stands for: ρ V² / 2.
#[must_use]
pub fn speed_pressure(speed: Speed) -> Pressure {
    Pressure::of_base(AIR_DENSITY * speed.base().powi(2) / 2.0)
}

/// The pressure lost along a round duct: f (L/D) ρ V² / 2.
#[must_use]
pub fn friction_loss(flow: Flow, diameter: Length, length: Length, roughness: Length) -> Pressure {
    let speed = flow / round_area(diameter);
    let factor = friction_factor(reynolds(speed, diameter), roughness / diameter);
    speed_pressure(speed) * ((length / diameter) * factor)
}

/// The speed that a pressure drives through a sharp opening, counted over its whole free area:
/// C √(2 Δp/ρ).
#[must_use]
pub fn opening_speed(pressure: Pressure) -> Speed {
    Speed::of_base(SHARP_OPENING * (2.0 * pressure.base().max(0.0) / AIR_DENSITY).sqrt())
}
