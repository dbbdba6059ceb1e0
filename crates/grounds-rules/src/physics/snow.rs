//! What it takes to melt snow as it falls.
//!
//! Source: ASHRAE Handbook, HVAC Applications, snow melting: the sum and the meaning of the free
//! area \[published\]; its terms and constants \[memory\]. An older set of empirical terms agrees
//! within 1 % on the worked case of the tests \[memory\].

use crate::{
    physics::air,
    quantity::{HeatFlux, Length, Quantity, Ratio, Speed, Temperature, fixed},
};

/// Weather in which snow falls, and the slab it falls on.
#[derive(Clone, Copy, Debug)]
pub struct Snowfall {
    /// Snow, as the depth of the water it melts to, in an hour.
    pub rate: Speed,
    /// The air.
    pub air: Temperature,
    /// The dew point of the air.
    pub dew_point: Temperature,
    /// The wind.
    pub wind: Speed,
    /// The length of the slab along the wind.
    pub length: Length,
    /// The share of the slab that is to stay free of snow: 1 nothing lies, 0 snow lies and melts from
    /// below.
    pub free: Ratio,
}

/// What the melting takes, part by part.
#[derive(Clone, Copy, Debug)]
pub struct Load {
    /// To warm the snow and its water.
    pub warming: HeatFlux,
    /// To melt it.
    pub melting: HeatFlux,
    /// Lost to the wind and the sky where the slab is free.
    pub surface: HeatFlux,
    /// Lost with the water that dries off where the slab is free.
    pub drying: HeatFlux,
    /// All together: warming + melting + free share × (drying + surface).
    pub all: HeatFlux,
}

const WATER: f64 = 62.4;
const ICE_HEAT: f64 = 0.49;
const FUSION: f64 = 143.3;
const FILM: f64 = 33.0;
const STEFAN: f64 = 0.1712e-8;
const EMITS: f64 = 0.9;

/// What the melting takes at the surface, without what is lost to the ground. In the handbook's own
/// units within: inches, °F, mph, Btu/(h ft²).
#[must_use]
pub fn load(snowfall: Snowfall) -> Load {
    let rate = snowfall.rate.base() / fixed::<Speed>("1 in/h").base();
    let air = fahrenheit(snowfall.air);
    let wind = snowfall.wind.base() / fixed::<Speed>("1 mph").base();
    let length = snowfall.length.base() / 0.3048;
    let warming = WATER * rate * (ICE_HEAT * (32.0 - air).max(0.0) + (FILM - 32.0)) / 12.0;
    let melting = WATER * rate * FUSION / 12.0;
    let convection = convection(wind, length);
    let kelvins = |fahrenheit: f64| fahrenheit + 459.67;
    let radiation = STEFAN * EMITS * (kelvins(FILM).powi(4) - kelvins(air).powi(4));
    let surface = convection * (FILM - air) + radiation;
    let saturated = Ratio::of_base(1.0);
    let film: Temperature = fixed("33 F");
    let wet = air::humidity_ratio(film, saturated).base();
    let dry = air::humidity_ratio(snowfall.dew_point, saturated).base();
    let drying =
        (0.7_f64 / 0.6).powf(2.0 / 3.0) * convection / 0.24 * (wet - dry).max(0.0) * 1075.0;
    let flux = |btu: f64| fixed::<HeatFlux>("1 Btu/h.ft2") * btu;
    let all = warming + melting + snowfall.free.base() * (drying + surface);
    Load {
        warming: flux(warming),
        melting: flux(melting),
        surface: flux(surface),
        drying: flux(drying),
        all: flux(all),
    }
}

/// The coefficient of convection in Btu/(h ft² °F): 0.037 (k/L) Re^0.8 Pr^(1/3).
fn convection(mph: f64, feet: f64) -> f64 {
    let feet = feet.max(0.1);
    let reynolds = mph.max(0.0) * 5280.0 * feet / 0.49;
    0.037 * (0.0135 / feet) * reynolds.powf(0.8) * 0.7_f64.cbrt()
}

fn fahrenheit(temperature: Temperature) -> f64 {
    temperature.base() * 1.8 - 459.67
}
