//! The program as a whole, run as a user runs it.

mod arguments;
mod bathroom;
mod faulty;
mod running;
