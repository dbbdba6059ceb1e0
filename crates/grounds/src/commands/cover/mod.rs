//! `grounds cover`: what is about to be hidden, what is behind a face, how a hold stands.

mod behind;
mod file;
mod hold;
mod whole;

use grounds_cover::{CoverWords, Register};
use grounds_sequence::Words;

use super::{show, show_json};
use crate::{
    arguments::Cover,
    ending::{Ending, Trouble},
    opened::Planned,
};

pub(super) fn run(asked: &Cover) -> Result<Ending, Trouble> {
    let planned = Planned::of(&asked.job)?;
    let words = CoverWords::new(Words::new(&planned.outlook, &planned.job), &planned.site);
    if let Some(question) = &asked.behind {
        return behind::run(&planned, &words, question, asked.json);
    }
    let register = Register::of(&planned.job, &planned.site, &planned.outlook);
    if let Some(key) = &asked.hold {
        return hold::run(&planned, &words, &register, key, asked.json);
    }
    let weeks = (!asked.all).then_some(asked.weeks);
    if asked.json {
        show_json(&file::CoverFile::of(&planned, &words, &register, weeks))?;
    } else {
        show(whole::page(&planned, &words, &register, weeks))?;
    }
    let unanswered = register
        .unseen()
        .into_iter()
        .any(|covering| covering.lacks_what_the_job_asks() && covering.let_go.is_none());
    Ok(if unanswered {
        Ending::CannotBeMet
    } else {
        Ending::Fine
    })
}
