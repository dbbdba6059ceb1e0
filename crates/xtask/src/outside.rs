//! Checks against reference libraries and published examples, in Python.
//!
//! Each script under `checks/` names its sources and prints how many comparisons it made, as
//! `N compared`.

use std::{fs, path::Path};

use crate::{
    release, root,
    step::{Step, counted},
    target,
};

/// The scripts, with the name that a failure is told by.
const SCRIPTS: [(&str, &str); 9] = [
    ("Forecasts against scipy", "forecast.py"),
    ("Nets against numpy and scipy", "fit_net.py"),
    (
        "Openings, planes and cut lists against numpy and scipy",
        "fit_shapes.py",
    ),
    (
        "Rules against psychrolib, fluids, ht, CoolProp and scipy",
        "rules.py",
    ),
    ("Working days against numpy", "working_days.py"),
    ("Networks against networkx", "networks.py"),
    ("Dates against datetime and dateutil", "dates.py"),
    ("Jobs against their JSON Schema", "schema.py"),
    ("Sections as DXF against ezdxf", "dxf.py"),
];

pub(crate) fn run(python: &Path) -> Result<usize, String> {
    let folder = target().join("checks");
    fs::create_dir_all(&folder)
        .map_err(|error| format!("{} cannot be made: {error}", folder.display()))?;
    let cases = Step::cargo("Writing the cases")
        .args("run --quiet --package grounds --example outside")
        .output()?;
    let cases_file = folder.join("cases.json");
    fs::write(&cases_file, cases)
        .map_err(|error| format!("{} cannot be written: {error}", cases_file.display()))?;
    let mut compared = 0;
    for (name, script) in SCRIPTS {
        let said = Step::new(name, python)
            .arg(root().join("checks").join(script))
            .env("GROUNDS_BIN", release("grounds"))
            .env("GROUNDS_CASES", &cases_file)
            .run()?;
        compared += counted(&said, "compared");
    }
    Ok(compared)
}
