//! Numbers and units, in words and in figures.

mod amount;
mod number;
mod spoken;
mod unit;

pub use amount::{Amount, Role};
pub(crate) use amount::{default_unit, mark};
pub use number::Number;
pub(crate) use spoken::Manner;
pub use unit::Unit;
