//! Running the program as a user does.

use std::{
    io::Write,
    path::{Path, PathBuf},
    process::{Command, Stdio},
};

/// How a command ended and what it printed.
#[derive(Debug)]
pub(crate) struct Ended {
    pub(crate) code: Option<i32>,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Ended {
    /// Everything that was printed, its lines joined: sentences are wrapped where they happen to be.
    pub(crate) fn sentences(&self) -> String {
        let words: Vec<&str> = self
            .out
            .split_whitespace()
            .chain(self.err.split_whitespace())
            .collect();
        words.join(" ")
    }
}

/// Runs `grounds` with arguments.
pub(crate) fn grounds<S: AsRef<std::ffi::OsStr>>(arguments: &[S]) -> Ended {
    grounds_reading(arguments, "")
}

/// Runs `grounds` with arguments and a text on standard input.
pub(crate) fn grounds_reading<S: AsRef<std::ffi::OsStr>>(arguments: &[S], input: &str) -> Ended {
    let mut child = Command::new(env!("CARGO_BIN_EXE_grounds"))
        .args(arguments)
        // The tests know nothing of the jobs of whoever runs them.
        .env("XDG_DATA_HOME", root().join("no-data"))
        .env_remove("NO_COLOR")
        .env_remove("CLICOLOR_FORCE")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // A command that does not read its input may have ended before this.
    let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
    let output = child.wait_with_output().unwrap();
    let ended = Ended {
        code: output.status.code(),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    };
    assert!(!ended.err.contains("panicked"), "{}", ended.err);
    ended
}

/// The checkout.
pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// An example, as an argument.
pub(crate) fn example(name: &str) -> String {
    root().join("examples").join(name).display().to_string()
}

/// A folder with a job of one room, changed by the caller.
pub(crate) fn house(change: impl Fn(String) -> String) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let job = change(ONE_ROOM.to_owned());
    std::fs::write(folder.path().join("job.toml"), job).unwrap();
    folder
}

/// A room with one painted wall, and a shelf that goes on it.
pub(crate) const ONE_ROOM: &str = r#"format = 1

[job]
name = "One room"
units = "metric"
zone = "Europe/London"
begins = "2027-06-07"
calendar = "week"

[calendars.week]
days = ["mon", "tue", "wed", "thu", "fri"]
hours = ["08:00-16:00"]

[trades.paint]
name = "Painting"

[trades.joinery]
name = "Joinery"

[levels.ground]
name = "Ground floor"
height = "0 m"

[places.room]
name = "Room"
level = "ground"
entrance = true
size = "4 x 3 x 2.4 m"

[places.room.faces]
wall = { kind = "wall", build_up = "paint", area = "16 m2" }

[build_ups.paint]
name = "Two coats"
source = { grade = "practice", text = "Common practice: a coat dries a day" }

[[build_ups.paint.layers]]
id = "first"
name = "First coat"
material = "paint"
trade = "paint"
takes = "8 h"
recoat = "16 h"

[[build_ups.paint.layers]]
id = "last"
name = "Last coat"
material = "paint"
trade = "paint"
takes = "8 h"

[pieces.shelf]
name = "Shelf"
trade = "joinery"
place = "room"
face = "wall"
after = ["room.wall/last"]
takes = "4 h"
"#;
