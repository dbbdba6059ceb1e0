//! How fast water leaves a coat or a plaster in some air.
//!
//! A wet face gives off water in proportion to how much more vapour the air at it could hold:
//! p_sat(T) · (1 − RH), Dalton's law \[published, textbook\]. The printed drying hours of joint
//! compound follow it within a tenth up to 80 % humidity \[worked out\].

use crate::{
    physics::air,
    quantity::{Pressure, Quantity, Ratio, Temperature, fixed},
};

/// What pulls water out of a wet face: the vapour that the air can still take up.
#[must_use]
pub fn pull(temperature: Temperature, humidity: Ratio) -> Pressure {
    let room = (Ratio::of_base(1.0) - humidity).base().max(0.0);
    air::saturation(temperature) * Ratio::of_base(room)
}

/// How much longer drying takes in some air than in the air of data sheets, 21 °C (70 °F) and 50 %.
/// Beyond bounds in air that takes up nothing.
///
/// ```
/// use grounds_rules::{physics::drying, quantity::{of_celsius, Quantity, Ratio}};
/// let cold = drying::longer(of_celsius(7.0), Ratio::of_base(0.92));
/// assert!(cold > 10.0 && cold < 20.0);
/// ```
#[must_use]
pub fn longer(temperature: Temperature, humidity: Ratio) -> f64 {
    longer_than(fixed("70 F"), fixed("50 %"), temperature, humidity)
}

/// How much longer drying takes in some air than in other air that its hours are known for.
#[must_use]
pub fn longer_than(
    known_temperature: Temperature,
    known_humidity: Ratio,
    temperature: Temperature,
    humidity: Ratio,
) -> f64 {
    let pull_now = pull(temperature, humidity).base();
    pull(known_temperature, known_humidity).base() / pull_now.max(1e-6)
}
