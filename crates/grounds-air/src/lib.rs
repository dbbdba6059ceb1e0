//! Moist air, and how much longer a coat dries in it.
//!
//! Temperatures are degrees Celsius, humidities the relative humidity as a fraction, pressures
//! pascals. The waits of the plan and the rules of coats are both reckoned with this, so that they never
//! disagree.
//!
//! ```
//! use grounds_air::{Air, SHEET, longer};
//! // A cellar: what the data sheet gives a day for takes more than four.
//! let cellar = Air { celsius: 11.0, humidity: 0.78 };
//! assert!((longer(SHEET, cellar) - 4.32).abs() < 0.05);
//! ```

mod drying;
mod moist;

pub use drying::{MOST, SHEET, longer, pull};
pub use moist::{Air, saturation};
