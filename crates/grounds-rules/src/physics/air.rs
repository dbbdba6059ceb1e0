//! Moist air: saturation, dew point, the water it carries, its density.
//!
//! Source: ASHRAE Handbook of Fundamentals (2017), chapter 1 \[published\]: equations 5 and 6 for
//! saturation (Hyland and Wexler, 1983), equation 20 for the humidity ratio. Compared with the
//! reference library psychrolib.

use crate::quantity::{Density, Pressure, Quantity, Ratio, Temperature};

/// The pressure of the standard atmosphere at sea level, in Pa.
pub const ATMOSPHERE: f64 = 101_325.0;

/// The mass of a mole of water over that of a mole of dry air.
const MOLAR_SHARE: f64 = 0.621_945;

/// The gas constant of dry air, in J/(kg K).
const DRY_AIR: f64 = 287.042;

/// The pressure of water vapour in saturated air, for −100 to 200 °C.
#[must_use]
pub fn saturation(temperature: Temperature) -> Pressure {
    Pressure::of_base(grounds_air::saturation(temperature.base() - 273.15))
}

/// The pressure of the water vapour in air of a relative humidity.
#[must_use]
pub fn vapour(temperature: Temperature, humidity: Ratio) -> Pressure {
    saturation(temperature) * humidity
}

/// The temperature at which air begins to give off water; −100 °C for air without any.
#[must_use]
pub fn dew_point(temperature: Temperature, humidity: Ratio) -> Temperature {
    let wanted = vapour(temperature, humidity).base();
    let (mut low, mut high) = (173.15, temperature.base());
    // Saturation rises with the temperature, so halving finds it to a millionth of a kelvin.
    for _ in 0..40 {
        let middle = f64::midpoint(low, high);
        if saturation(Temperature::of_base(middle)).base() < wanted {
            low = middle;
        } else {
            high = middle;
        }
    }
    Temperature::of_base(f64::midpoint(low, high))
}

/// The water in air over its dry mass, at sea level.
#[must_use]
pub fn humidity_ratio(temperature: Temperature, humidity: Ratio) -> Ratio {
    let vapour = vapour(temperature, humidity).base();
    Ratio::of_base(MOLAR_SHARE * vapour / (ATMOSPHERE - vapour).max(1.0))
}

/// The density of dry air at sea level.
#[must_use]
pub fn density(temperature: Temperature) -> Density {
    Density::of_base(ATMOSPHERE / (DRY_AIR * temperature.base().max(1.0)))
}
