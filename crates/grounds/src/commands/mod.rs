//! The commands, one file each.

mod check;
mod cover;
mod exchange;
mod fit;
mod forecast;
mod new;
mod note;
mod now;
mod options;
mod rule;
mod rules;
mod schema;
mod serve;
mod set_out;
mod verify;
mod walk;
mod weeks;
mod what_if;
mod why;

use crate::{
    arguments::{Arguments, Command},
    ending::{Ending, Trouble},
    page,
};

/// Does what was asked.
pub(crate) fn run(arguments: &Arguments) -> Result<Ending, Trouble> {
    match &arguments.command {
        None => serve::demo(),
        Some(Command::Now(asked)) => now::run(asked),
        Some(Command::Weeks(asked)) => weeks::run(asked),
        Some(Command::Why(asked)) => why::run(asked),
        Some(Command::Fit(asked)) => fit::run(asked),
        Some(Command::Cover(asked)) => cover::run(asked),
        Some(Command::Rules(asked)) => rules::run(asked),
        Some(Command::Rule(asked)) => rule::run(asked),
        Some(Command::SetOut(asked)) => set_out::run(asked),
        Some(Command::Forecast(asked)) => forecast::run(asked),
        Some(Command::Options(asked)) => options::run(asked),
        Some(Command::WhatIf(asked)) => what_if::run(asked),
        Some(Command::Walk(asked)) => walk::run(asked),
        Some(Command::Note(asked)) => note::run(asked),
        Some(Command::Check(asked)) => check::run(asked),
        Some(Command::Verify(asked)) => verify::run(asked),
        Some(Command::New(asked)) => new::run(asked),
        Some(Command::Serve(asked)) => serve::run(asked),
        Some(Command::Import(asked)) => exchange::import(asked),
        Some(Command::Export(asked)) => exchange::export(asked),
        Some(Command::Schema) => schema::run(),
    }
}

pub(crate) use now::written;

/// Prints a page; that it cannot be written is the only way this fails.
fn show(page: page::Page) -> Result<(), Trouble> {
    page.print().map_err(unwritten)
}

/// Prints anything as indented JSON.
fn show_json(value: &impl serde::Serialize) -> Result<(), Trouble> {
    let mut text = serde_json::to_string_pretty(value)
        .map_err(|error| Trouble::Failure(format!("cannot write JSON: {error}")))?;
    text.push('\n');
    page::print(&text).map_err(unwritten)
}

fn unwritten(error: std::io::Error) -> Trouble {
    Trouble::Failure(format!("cannot write to standard output: {error}"))
}
