//! How fast water leaves a coat or a plaster in some air.
//!
//! A wet face gives off water in proportion to how much more vapour the air at it could hold:
//! p_sat(T) · (1 − RH), Dalton's law \[published, textbook\]. The printed drying hours of joint
//! compound follow it within a tenth up to 80 % humidity, and fall behind it in damper air \[worked
//! out\].

use crate::moist::{Air, saturation};

/// The air that data sheets give their times for: 21 °C (70 °F) and 50 % \[common practice\].
pub const SHEET: Air = Air {
    celsius: (70.0 - 32.0) / 1.8,
    humidity: 0.5,
};

/// How many times longer a plan takes drying to last at most: what the printed hours of joint compound
/// come to near freezing and at 90 %, 9 days for 17 h. In worse air nobody waits; it is heated.
pub const MOST: f64 = 12.7;

/// What pulls water out of a wet face, in Pa: the vapour that the air can still take up.
#[must_use]
pub fn pull(air: Air) -> f64 {
    saturation(air.celsius) * (1.0 - air.humidity).max(0.0)
}

/// How many times longer drying takes in some air than in the air that its hours are known for; less
/// than one where it is quicker. Beyond bounds in air that takes up nothing.
#[must_use]
pub fn longer(known: Air, now: Air) -> f64 {
    pull(known) / pull(now).max(1e-6)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Hours of a coat of joint compound of 1/16 in by °F and percent: gypsum handbooks, GA-236, ASTM
    /// C840 [from memory]; at 70 °F and 50 % it takes 17 h.
    const PRINTED: [(f64, f64, f64); 9] = [
        (60.0, 0.0, 13.0),
        (80.0, 20.0, 8.0),
        (50.0, 40.0, 29.0),
        (60.0, 40.0, 20.0),
        (70.0, 60.0, 20.0),
        (60.0, 70.0, 38.0),
        (40.0, 50.0, 50.0),
        (70.0, 80.0, 38.0),
        (80.0, 80.0, 27.0),
    ];

    fn fahrenheit(degrees: f64, percent: f64) -> Air {
        Air {
            celsius: (degrees - 32.0) / 1.8,
            humidity: percent / 100.0,
        }
    }

    #[test]
    fn the_printed_hours_of_joint_compound_follow_it() {
        for (degrees, percent, hours) in PRINTED {
            let ours = 17.0 * longer(SHEET, fahrenheit(degrees, percent));
            assert!(
                (ours / hours - 1.0).abs() < 0.13,
                "{degrees} °F, {percent} %: {ours:.1} h for {hours} h"
            );
        }
    }

    #[test]
    fn colder_or_damper_air_never_dries_quicker() {
        for step in 0..60 {
            let celsius = f64::from(step) / 2.0;
            let at = |celsius, humidity| longer(SHEET, Air { celsius, humidity });
            assert!(at(celsius, 0.6) > at(celsius + 0.5, 0.6));
            assert!(at(celsius, 0.65) > at(celsius, 0.6));
        }
        assert!((longer(SHEET, SHEET) - 1.0).abs() < 1e-12);
    }
}
