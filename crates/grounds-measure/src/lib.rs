//! Lengths, areas, weights, temperatures, durations and money as the building trade types and
//! prints them.
//!
//! Every type here reads text the way it is said on site, keeps it as a whole number of a small
//! unit so that sums never drift, and prints text that reads back to exactly the same value.
//!
//! ```
//! use grounds_measure::{Length, Units};
//!
//! let opening: Length = "3' 4 5/8\"".parse()?;
//! let door = Length::parse_in("40-5/8", Units::Imperial)?;
//! assert_eq!(opening, door);
//! assert_eq!(opening.display(Units::Metric).to_string(), "~1031.9 mm");
//! # Ok::<(), grounds_measure::MeasureError>(())
//! ```
//!
//! In documents each type is a string (`"12 mm ±1.5"`, `"10..27 C"`, `"2 / 3 / 5 weeks"`). A text
//! that cannot be read gives a [`MeasureError`]: where, what was found, what was expected, and a
//! good example.
//!
//! # Definitions
//!
//! All conversions are exact by definition:
//! - 1 inch = 25.4 mm and 1 pound = 0.453 592 37 kg: international yard and pound agreement, 1959
//!   (published; repeated in NIST Special Publication 811, appendix B).
//! - 1 US gallon = 231 cubic inches (published: NIST Handbook 44, appendix C).
//! - degrees Fahrenheit = degrees Celsius × 9/5 + 32 (published: NIST Special Publication 811,
//!   appendix B).

mod amount;
mod amount_sums;
mod area;
mod coverage;
mod error;
mod estimate;
mod humidity;
mod length;
mod limits;
mod money;
mod percent;
mod price;
mod print;
mod quantity;
mod rate;
mod reading;
mod size;
mod span;
mod temperature;
mod thickness;
mod units;
mod volume;
mod weight;

pub use amount::{Amount, Pack};
pub use area::Area;
pub use coverage::Coverage;
pub use error::MeasureError;
pub use estimate::{Estimate, Range3};
pub use humidity::{Humidity, HumidityRange};
pub use length::{Length, Rounding, Step};
pub use limits::Limits;
pub use money::Money;
pub use percent::Percent;
pub use price::{Per, Price};
pub use quantity::{Count, Quantity, QuantityKind};
pub use rate::Rate;
pub use size::Size;
pub use span::{Span, SpanKind};
pub use temperature::{Temperature, TemperatureRange};
pub use thickness::Thickness;
pub use units::Units;
pub use volume::Volume;
pub use weight::Weight;
