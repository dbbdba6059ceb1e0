//! How text becomes exact numbers: a cursor, exact fractions, and tables of units.

mod exact;
mod scanner;
mod unit;
mod written;

pub(crate) use exact::Exact;
pub(crate) use scanner::{Number, Scanner};
pub(crate) use unit::{Scaled, Signed, Unit, read_scaled, read_scaled_or_one};
pub(crate) use written::{Written, read_whole, written_as_string};
