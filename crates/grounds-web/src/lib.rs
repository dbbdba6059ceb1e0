//! The pages and the API of Grounds, served on this machine only.
//!
//! Nothing is computed here: a page shows what the network, the plan and their words say of a job,
//! and a button writes a note. Every job that is asked for is kept in memory with its plan
//! (a *desk*); a note goes to the disk first, then the plan follows, then the page is answered.
//! Looking never plans.
//!
//! What is deliberately absent: people and roles, and so any address but this machine's own.

mod acts;
mod api;
mod assets;
mod broken;
mod clock;
mod config;
mod demo;
mod desk;
mod desks;
mod fault;
mod fit;
mod guard;
mod looking;
mod marks;
mod pages;
mod photos;
mod picture;
mod routes;
mod rules;
mod say;
mod serve;
mod study;
mod supposing;
mod surveying;
mod taking;
mod visit;
mod ways;
mod winning;
mod writing;

pub use config::{Config, LISTEN, ServeError};
pub use serve::{pages, serve};
