//! Jobs that are kept in the data directory.

use grounds_model::Job;
use grounds_site::Note;

use crate::{arguments::Data, ending::Trouble};

/// Reads a job of the data directory.
pub(crate) fn job(key: &str, _data: &Data) -> Result<(Job, Vec<Note>), Trouble> {
    Err(Trouble::Input(format!(
        "there is no folder {key}: name a folder with a job.toml in it, or make one with \
         `grounds new {key}`"
    )))
}
