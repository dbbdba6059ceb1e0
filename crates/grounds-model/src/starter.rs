//! A small job to begin with.

/// The two files of a new job.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Starter {
    /// The text of `job.toml`.
    pub job: &'static str,
    /// The text of `notes.jsonl`: no notes yet.
    pub notes: &'static str,
}

/// A small job that reads without fault and teaches the format: two rooms and a hall.
#[must_use]
pub fn starter() -> Starter {
    Starter {
        job: include_str!("starter.toml"),
        notes: "",
    }
}
