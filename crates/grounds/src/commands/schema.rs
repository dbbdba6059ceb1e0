//! `grounds schema`: the JSON Schema of the job document.

use grounds_model::schema;

use super::show_json;
use crate::ending::{Ending, Trouble};

pub(super) fn run() -> Result<Ending, Trouble> {
    show_json(&schema())?;
    Ok(Ending::Fine)
}
