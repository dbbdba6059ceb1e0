//! Air with water in it.

/// The triple point of water, in K: below it saturation is over ice.
const TRIPLE_POINT: f64 = 273.16;

/// The air of a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Its temperature, in °C.
    pub celsius: f64,
    /// Its relative humidity, 0 to 1.
    pub humidity: f64,
}

/// The pressure of water vapour in saturated air, in Pa, for −100 to 200 °C; beyond, that of the nearer
/// end.
///
/// Source: ASHRAE Handbook of Fundamentals (2017), chapter 1, equations 5 and 6 (Hyland and Wexler,
/// 1983) \[published\]; compared with the reference library psychrolib.
#[must_use]
pub fn saturation(celsius: f64) -> f64 {
    let t = (celsius + 273.15).clamp(173.15, 473.15);
    let logarithm = if t <= TRIPLE_POINT {
        -5.674_535_9e3 / t + 6.392_524_7 - 9.677_843e-3 * t
            + 6.221_570_1e-7 * t.powi(2)
            + 2.074_782_5e-9 * t.powi(3)
            - 9.484_024e-13 * t.powi(4)
            + 4.163_501_9 * t.ln()
    } else {
        -5.800_220_6e3 / t + 1.391_499_3 - 4.864_023_9e-2 * t + 4.176_476_8e-5 * t.powi(2)
            - 1.445_209_3e-8 * t.powi(3)
            + 6.545_967_3 * t.ln()
    };
    logarithm.exp()
}

#[cfg(test)]
mod tests {
    use super::saturation;

    #[test]
    fn saturation_is_that_of_the_steam_tables() {
        // ASHRAE Fundamentals (2017) chapter 1, table 3 [published]: 0.6112, 1.2282, 2.3392 and
        // 4.2467 kPa at 0, 10, 20 and 30 °C; over ice 0.2599 kPa at −10 °C.
        for (celsius, kilopascals) in [
            (0.0, 0.6112),
            (10.0, 1.2282),
            (20.0, 2.3392),
            (30.0, 4.2467),
            (-10.0, 0.2599),
        ] {
            let ours = saturation(celsius) / 1000.0;
            assert!((ours / kilopascals - 1.0).abs() < 3e-4, "{celsius}: {ours}");
        }
    }
}
