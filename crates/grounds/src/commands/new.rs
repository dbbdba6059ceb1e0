//! `grounds new`: a small job to begin with.

use grounds_model::starter;

use super::show;
use crate::{
    arguments::New,
    ending::{Ending, Trouble},
    folder::{self, JOB_FILE, NOTES_FILE},
    page::{PLAIN, Page},
};

pub(super) fn run(asked: &New) -> Result<Ending, Trouble> {
    let starter = starter();
    folder::make(&asked.folder, starter.job, starter.notes)?;
    let name = asked.folder.display();
    let mut page = Page::default();
    page.paragraph(
        PLAIN,
        0,
        &format!("Made {name} with a small job: {JOB_FILE} is the house, {NOTES_FILE} the log."),
    );
    page.paragraph(PLAIN, 0, &format!("See it with: grounds now {name}"));
    show(page)?;
    Ok(Ending::Fine)
}
