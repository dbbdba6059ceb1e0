//! The program as a whole, run as a user runs it.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may fail loudly")]

mod arguments;
mod bathroom;
mod cover;
mod data;
mod faulty;
mod readme;
mod rules;
mod running;
mod serving;
mod set_out;
mod walks;
