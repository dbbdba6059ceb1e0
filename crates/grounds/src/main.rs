//! The command line of Grounds.
//!
//! Every command reads a job, computes, and prints a page or JSON. Nothing is computed here that
//! the crates below do not compute: this one reads files, knows the clock and prints.

mod annotate;
mod arguments;
mod asked;
mod commands;
mod ending;
mod folder;
mod opened;
mod page;
mod store;
mod talk;

use std::process::ExitCode;

use clap::Parser;

use crate::{arguments::Arguments, page::ALARM};

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    match commands::run(&arguments) {
        Ok(ending) => ending.into(),
        Err(trouble) => {
            let sentence = trouble.to_string();
            for (position, line) in sentence.lines().enumerate() {
                page::remark(if position == 0 { ALARM } else { page::PLAIN }, line);
            }
            trouble.ending().into()
        }
    }
}
