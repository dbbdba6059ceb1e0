//! `cargo xtask test`: everything that must hold.

use std::time::Instant;

use crate::{
    instances, outside, release, root,
    step::{Step, counted},
    tools,
};

pub(crate) fn run() -> Result<(), String> {
    let began = Instant::now();
    tools::node()?;
    let chromium = tools::chromium()?;
    let python = tools::python()?;

    Step::cargo("Format").args("fmt --all --check").run()?;
    Step::cargo("Lints")
        .args("clippy --workspace --all-targets --quiet -- -D warnings")
        .run()?;
    web()?;
    let rust = rust_tests(&python)?;
    Step::cargo("Release build")
        .args("build --release --quiet --package grounds")
        .run()?;
    let outside = outside::run(&python)?;
    let pages = page_tests(&chromium)?;

    println!(
        "\nAll is well: {rust} Rust tests, {outside} checks from outside and {pages} page tests \
         passed in {} min.",
        began.elapsed().as_secs().div_ceil(60)
    );
    Ok(())
}

fn rust_tests(python: &std::path::Path) -> Result<usize, String> {
    let mut tests = Step::cargo("Rust tests");
    if let Some(folder) = instances::bring(python) {
        tests = tests.env("GROUNDS_INSTANCES", folder);
    }
    let tests = if tools::find("cargo-nextest").is_some() {
        tests.args("nextest run --workspace --no-fail-fast")
    } else {
        tests.args("test --workspace --lib --bins --tests --examples --quiet")
    };
    let said = tests.run()?;
    let examples = Step::cargo("Examples in the documentation")
        .args("test --workspace --doc --quiet")
        .run()?;
    Ok(counted(&said, "passed") + counted(&examples, "passed"))
}

/// The types and the small tests of the scripts.
fn web() -> Result<(), String> {
    let web = root().join("web");
    // The build of the pages, which the lints needed, has installed the packages unless somebody
    // removed them since.
    if !web.join("node_modules").is_dir() {
        tools::npm("Installing the web assets' packages", &web)?;
    }
    Step::new("Types of the scripts", "npm")
        .args("run --silent check")
        .within(&web)
        .run()?;
    Step::new("Tests of the scripts", "npm")
        .args("run --silent test --if-present")
        .within(&web)
        .run()?;
    Ok(())
}

/// The pages in a real browser, served by the release build.
fn page_tests(chromium: &std::path::Path) -> Result<usize, String> {
    let folder = root().join("tests-web");
    tools::npm("Installing the page tests' packages", &folder)?;
    let said = Step::new("Pages", "npx")
        .args("--no-install playwright test")
        .env("GROUNDS_BIN", release("grounds"))
        .env("GROUNDS_CHROMIUM", chromium)
        .within(&folder)
        .run()?;
    Ok(counted(&said, "passed"))
}
