//! What the tests need beside Rust: found, or installed where that can be done.

use std::{
    env, fs,
    path::{Path, PathBuf},
    process::{Command, Stdio},
};

use crate::{root, step::Step, target};

/// Where a program is on the path, if it is.
pub(crate) fn find(program: &str) -> Option<PathBuf> {
    env::split_paths(&env::var_os("PATH")?)
        .map(|folder| folder.join(format!("{program}{}", env::consts::EXE_SUFFIX)))
        .find(|path| path.is_file())
}

/// Node of a version that the web assets can be bundled with.
pub(crate) fn node() -> Result<(), String> {
    let said = Command::new("node")
        .arg("--version")
        .stderr(Stdio::null())
        .output();
    let version = said
        .ok()
        .map(|output| String::from_utf8_lossy(&output.stdout).trim().to_owned());
    let major = version.as_deref().and_then(|v| {
        v.trim_start_matches('v')
            .split('.')
            .next()?
            .parse::<u32>()
            .ok()
    });
    match major {
        Some(major) if major >= 20 && find("npm").is_some() => Ok(()),
        _ => Err("Node 20 or newer with npm is needed: install it from nodejs.org or your system's packages.".to_owned()),
    }
}

/// A browser for the tests of the pages; installed from Debian's packages where possible.
pub(crate) fn chromium() -> Result<PathBuf, String> {
    let found = || {
        env::var_os("GROUNDS_CHROMIUM")
            .map(PathBuf::from)
            .or_else(|| find("chromium"))
            .or_else(|| find("chromium-browser"))
    };
    if let Some(path) = found() {
        return Ok(path);
    }
    debian("chromium")?;
    found().ok_or_else(|| "Chromium was installed, but is not on the path.".to_owned())
}

/// A Python with the pinned reference libraries of the checks, in the target folder.
pub(crate) fn python() -> Result<PathBuf, String> {
    let wanted = root().join("checks/requirements.txt");
    let wanted_text = fs::read_to_string(&wanted)
        .map_err(|error| format!("{} cannot be read: {error}", wanted.display()))?;
    let folder = target().join("python");
    let python = folder.join("bin/python");
    let installed = folder.join("installed.txt");
    if python.is_file() && fs::read_to_string(&installed).is_ok_and(|text| text == wanted_text) {
        return Ok(python);
    }
    make_venv(&folder)?;
    Step::new("Installing the reference libraries", &python)
        .args("-m pip install --quiet --disable-pip-version-check --requirement")
        .arg(&wanted)
        .run()?;
    fs::write(&installed, wanted_text)
        .map_err(|error| format!("{} cannot be written: {error}", installed.display()))?;
    Ok(python)
}

fn make_venv(folder: &Path) -> Result<(), String> {
    let make = || {
        Step::new("Making a Python environment", "python3")
            .args("-m venv --clear")
            .arg(folder)
            .run()
    };
    if find("python3").is_some() && make().is_ok() {
        return Ok(());
    }
    debian("python3 python3-venv")?;
    make().map(|_| ())
}

/// Installs packages of Debian, which only root on Debian can.
fn debian(packages: &str) -> Result<(), String> {
    if find("apt-get").is_none() || !is_root() {
        return Err(format!(
            "{packages} is missing: install it (on Debian, apt-get install {packages})."
        ));
    }
    Step::new("Looking for Debian packages", "apt-get")
        .args("update --quiet")
        .run()?;
    Step::new("Installing Debian packages", "apt-get")
        .args("install --yes --quiet --no-install-recommends")
        .args(packages)
        .env("DEBIAN_FRONTEND", "noninteractive")
        .run()?;
    Ok(())
}

fn is_root() -> bool {
    Command::new("id")
        .arg("-u")
        .output()
        .is_ok_and(|output| String::from_utf8_lossy(&output.stdout).trim() == "0")
}

/// Installs the packages of a folder's lock file, unless that was done for this very lock file.
pub(crate) fn npm(name: &'static str, folder: &Path) -> Result<(), String> {
    let lock = fs::read_to_string(folder.join("package-lock.json"))
        .map_err(|error| format!("{} has no lock file: {error}", folder.display()))?;
    let mark = folder.join("node_modules/.installed-lock");
    if fs::read_to_string(&mark).is_ok_and(|text| text == lock) {
        return Ok(());
    }
    Step::new(name, "npm")
        .args("ci --no-audit --no-fund")
        .within(folder)
        .run()?;
    // Without the mark it is only installed once more.
    let _ = fs::write(mark, lock);
    Ok(())
}
