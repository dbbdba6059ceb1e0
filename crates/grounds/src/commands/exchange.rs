//! `grounds import` and `grounds export`: jobs in and out of the data directory.

use grounds_store::Differing;

use super::show;
use crate::{
    arguments::{Export, Import},
    ending::{Ending, Trouble},
    folder::Folder,
    opened::read_folder,
    page::{PLAIN, Page},
    store,
};

/// Takes in a folder. A job that cannot be read stays outside.
pub(super) fn import(asked: &Import) -> Result<Ending, Trouble> {
    read_folder(&Folder::read(&asked.folder)?)?;
    let imported = store::import(asked, differing(asked.replace))?;
    let mut page = Page::default();
    page.paragraph(
        PLAIN,
        0,
        &format!(
            "Took in {} as {}: {} new notes{}; {} notes were there already.",
            asked.folder.display(),
            imported.key,
            imported.notes.new,
            and_photos(imported.photos, " new"),
            imported.notes.known
        ),
    );
    show(page)?;
    Ok(Ending::Fine)
}

/// Gives out a job to a folder.
pub(super) fn export(asked: &Export) -> Result<Ending, Trouble> {
    let exported = store::export(asked, differing(asked.replace))?;
    let folder = exported.folder.display();
    let photos = and_photos(exported.photos, "");
    let sentence = if exported.is_changed {
        format!(
            "Wrote {} with {} notes{photos} to {folder}.",
            asked.job, exported.notes
        )
    } else {
        format!(
            "{folder} holds {} with its {} notes{photos} already.",
            asked.job, exported.notes
        )
    };
    let mut page = Page::default();
    page.paragraph(PLAIN, 0, &sentence);
    show(page)?;
    Ok(Ending::Fine)
}

/// Photos, where there are any.
fn and_photos(photos: u64, new: &str) -> String {
    match photos {
        0 => String::new(),
        1 => format!(" and 1{new} photo"),
        many => format!(" and {many}{new} photos"),
    }
}

fn differing(replace: bool) -> Differing {
    if replace {
        Differing::Replace
    } else {
        Differing::Refuse
    }
}
