//! The pages and the API of Grounds, served to this machine, and to phones that have joined.
//!
//! Nothing is computed here: a page shows what the network, the plan and their words say of a job,
//! and a button writes a note. Every job that is asked for is kept in memory with its plan
//! (a *desk*); a note goes to the disk first, then the plan follows, then the page is answered.
//! Looking never plans.
//!
//! There are two doors. The desk's is of this machine alone, and whoever comes through it may do
//! everything. The phones' is open to the network it listens on, speaks TLS, and answers a phone
//! that has joined; a note that comes through it bears the name of that phone's person.
//!
//! What is deliberately absent: passwords, and any way to let a phone in but from the desk.

mod acts;
mod api;
mod assets;
mod broken;
mod clock;
mod config;
mod covering;
mod demo;
mod desk;
mod desks;
mod door;
mod fault;
mod fit;
mod guard;
mod joining;
mod looking;
mod marks;
mod offline;
mod pages;
mod phones;
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
mod talk;
mod visit;
mod walking;
mod ways;
mod winning;
mod writing;

pub use config::{Config, GivenCertificate, LISTEN, LISTEN_TO_PHONES, PhonesDoor, ServeError};
pub use serve::{Doors, pages, serve};
pub use visit::NOBODY_SAID;
