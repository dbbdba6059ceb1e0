//! The moisture that wood comes to in still air.

/// How the four figures of the formula depend on the temperature: constant, linear, square.
struct Figures {
    w: [f64; 3],
    k: [f64; 3],
    k1: [f64; 3],
    k2: [f64; 3],
}

const CELSIUS: Figures = Figures {
    w: [349.0, 1.29, 0.0135],
    k: [0.805, 0.000_736, -0.000_002_73],
    k1: [6.27, -0.009_38, -0.000_303],
    k2: [1.91, 0.0407, -0.000_293],
};

const FAHRENHEIT: Figures = Figures {
    w: [330.0, 0.452, 0.004_15],
    k: [0.791, 0.000_463, -0.000_000_844],
    k1: [6.34, 0.000_775, -0.000_093_5],
    k2: [1.09, 0.0284, -0.000_090_4],
};

/// The moisture in percent that wood comes to at a temperature in °C and a relative humidity in
/// percent, if both last; humidity is held to 0–100 %.
///
/// With h the humidity as a fraction,
/// M = (1800/W) · (K·h/(1 − K·h) + (K₁·K·h + 2·K₁·K₂·K²·h²)/(1 + K₁·K·h + K₁·K₂·K²·h²)),
/// the model of two hydrates (Hailwood and Horrobin, 1946), W, K, K₁ and K₂ squares in the
/// temperature. Source: USDA Wood Handbook, equation 4-5 \[published\]. Meant for 0–55 °C.
///
/// ```
/// let living = grounds_fit::wood::moisture_in_celsius(20.0, 50.0);
/// assert!((living - 9.27).abs() < 0.01);
/// ```
#[must_use]
pub fn moisture_in_celsius(degrees: f64, humidity: f64) -> f64 {
    moisture(&CELSIUS, degrees, humidity)
}

/// The same at a temperature in °F. The handbook's two sets of figures agree within 0.02 % of
/// moisture.
#[must_use]
pub fn moisture_in_fahrenheit(degrees: f64, humidity: f64) -> f64 {
    moisture(&FAHRENHEIT, degrees, humidity)
}

fn moisture(figures: &Figures, degrees: f64, humidity: f64) -> f64 {
    let at = |[constant, linear, square]: [f64; 3]| {
        constant + linear * degrees + square * degrees * degrees
    };
    let (k1, k2) = (at(figures.k1), at(figures.k2));
    let kh = at(figures.k) * humidity.clamp(0.0, 100.0) / 100.0;
    let hydrated = k1 * kh + 2.0 * k1 * k2 * kh * kh;
    let all = 1.0 + k1 * kh + k1 * k2 * kh * kh;
    1800.0 / at(figures.w) * (kh / (1.0 - kh) + hydrated / all)
}
