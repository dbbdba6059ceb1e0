//! Proof and search by learning from what cannot be.
//!
//! [`Exact`] closes in on the best makespan of a plain problem, from above or from below, and ends with
//! the proof. [`Windows`] makes parts of the best plan anew, and so comes far where proof is out of reach.
//!
//! It is lazy clause generation made for one kind of problem: starts with waits between them, resources,
//! and a makespan. How it goes together:
//!
//! - `prepare` orders what can be ordered before any search;
//! - `atom` is what can be said of a number, `trail` what has been found to hold and why;
//! - `waits`, `pairs`, `cumulative` and `nogoods` draw conclusions, each with a reason that is spelt out
//!   only when a conflict asks for it;
//! - `conflict` learns a nogood from each conflict, `interest` remembers what conflicts were about;
//! - `engine` chooses, and begins again from time to time;
//! - `worker` and `window` are what others see.
//!
//! Work is counted in steps, not in time, so that the same calls always bring the same.

mod atom;
mod conflict;
mod cumulative;
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
