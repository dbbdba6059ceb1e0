//! Proof and search by learning from what cannot be.

mod atom;
mod conflict;
mod cumulative;
mod energy;
mod engine;
mod interest;
mod nogoods;
mod pairs;
mod prepare;
#[cfg(test)]
mod tests;
mod trail;
mod waits;
mod window;
mod worker;

pub use window::Windows;
pub use worker::Exact;
