//! `cargo xtask readme`: what the commands of the README's tour print, shown anew.

use std::fs;

use crate::{release, root, step::Step};

/// What stands before a command whose output is shown.
const OPEN: &str = "```text\n$ grounds ";

/// What ends it.
const CLOSE: &str = "```";

pub(crate) fn run() -> Result<(), String> {
    Step::cargo("Release build")
        .args("build --release --quiet --package grounds")
        .run()?;
    let path = root().join("README.md");
    let failed = |error| format!("{} failed: {error}", path.display());
    let text = fs::read_to_string(&path).map_err(failed)?;
    let mut parts = text.split(OPEN);
    let mut fresh = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let (command, rest) = part.split_once('\n').unwrap_or((part, ""));
        let (_, after) = rest.split_once(CLOSE).unwrap_or(("", rest));
        let shown = Step::new("A command of the tour", release("grounds"))
            .args(command)
            .output()?;
        fresh.push_str(&format!("{OPEN}{command}\n{shown}{CLOSE}{after}"));
    }
    fs::write(&path, fresh).map_err(failed)
}
