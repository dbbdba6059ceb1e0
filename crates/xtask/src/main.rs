//! What developers run: `cargo xtask test`, `cargo xtask instances`, `cargo xtask pictures`,
//! `cargo xtask readme`, `cargo xtask bench`.
//!
//! It uses the standard library alone, so that it compiles in a moment.

mod bench;
mod instances;
mod outside;
mod pictures;
mod readme;
mod step;
mod test;
mod tools;

use std::{env, path::PathBuf, process::ExitCode};

const USAGE: &str = "\
cargo xtask test       everything that must hold: format, lints, tests, checks from outside, pages
cargo xtask instances  brings published scheduling instances into the target folder
cargo xtask pictures   draws the pictures of the README anew from the demo house
cargo xtask readme     shows anew what the commands of the README's tour print
cargo xtask bench      runs the benchmarks
";

fn main() -> ExitCode {
    let task = env::args().nth(1).unwrap_or_default();
    let result = match task.as_str() {
        "test" => test::run(),
        "instances" => instances::run(),
        "pictures" => pictures::run(),
        "readme" => readme::run(),
        "bench" => bench::run(),
        _ => {
            print!("{USAGE}");
            return if task.is_empty() {
                ExitCode::SUCCESS
            } else {
                ExitCode::from(2)
            };
        }
    };
    match result {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => {
            eprintln!("\n{sentence}");
            ExitCode::FAILURE
        }
    }
}

/// The root of the checkout.
fn root() -> PathBuf {
    let here = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    here.ancestors().nth(2).map_or(here.clone(), PathBuf::from)
}

/// The folder that cargo builds into.
fn target() -> PathBuf {
    env::var_os("CARGO_TARGET_DIR").map_or_else(|| root().join("target"), PathBuf::from)
}

/// A program that cargo has built with the release profile.
fn release(program: &str) -> PathBuf {
    target()
        .join("release")
        .join(format!("{program}{}", env::consts::EXE_SUFFIX))
}
