//! How fast water leaves a coat or a plaster in some air, by Dalton's law: the plan waits by the same
//! figures.

use grounds_air::{Air, SHEET};

use crate::quantity::{Quantity, Ratio, Temperature};

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
    longer_than(SHEET, temperature, humidity)
}

/// How much longer drying takes in some air than in the air that its hours are known for.
#[must_use]
pub fn longer_than(known: Air, temperature: Temperature, humidity: Ratio) -> f64 {
    grounds_air::longer(known, air(temperature, humidity))
}

/// Air as quantities.
fn air(temperature: Temperature, humidity: Ratio) -> Air {
    Air {
        celsius: temperature.base() - 273.15,
        humidity: humidity.base(),
    }
}
