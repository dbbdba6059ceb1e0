//! Pieces that are on site or in store already, against the house as it was read today.

use grounds_lines::{
    answers::{Answers, Verdict},
    lines::Lines,
};
use grounds_model::{Id, Job};
use grounds_site::{Site, Subject};

/// A piece that is here and not set.
#[derive(Clone, Debug, PartialEq)]
pub struct Stock {
    /// The piece.
    pub piece: Id,
    /// What everyone calls it.
    pub name: String,
    /// Where it is kept, if anybody says.
    pub kept_in: Option<Id>,
    /// The worst that its needs come to; nothing where the job says nothing of what it goes into.
    pub verdict: Option<Verdict>,
    /// What each of its needs comes to: the key of the need, its verdict and a sentence or two.
    pub needs: Vec<(String, Verdict, String)>,
    /// What must be read to know: `the width of the study door opening`, and who reads it.
    pub missing: Vec<(String, String)>,
}

/// The pieces that are on site and not set, by key, each measured against what it goes into.
#[must_use]
pub fn stock(job: &Job, site: &Site) -> Vec<Stock> {
    let here: Vec<&Id> = job
        .pieces
        .keys()
        .filter(|id| {
            let state = site.state(&Subject::Piece((*id).clone()));
            state.arrived.is_some() && state.done.is_none()
        })
        .collect();
    if here.is_empty() {
        return Vec::new();
    }
    let lines = Lines::of(job, site);
    let answers = Answers::standing(&lines);
    here.into_iter()
        .map(|id| of_piece(job, id, answers.as_ref().ok()))
        .collect()
}

fn of_piece(job: &Job, id: &Id, answers: Option<&Answers>) -> Stock {
    let about = |answer: &&grounds_lines::answers::Answer| answer.about.as_str() == id.as_str();
    let needs = answers.map_or(&[][..], |answers| &answers.answers);
    let needs: Vec<_> = needs.iter().filter(about).collect();
    let mut missing: Vec<(String, String)> = needs
        .iter()
        .flat_map(|answer| &answer.missing)
        .map(|missing| (missing.what.clone(), missing.who.clone()))
        .collect();
    missing.sort();
    missing.dedup();
    let design = job.pieces.get(id);
    Stock {
        piece: id.clone(),
        name: design.map_or_else(|| id.to_string(), |piece| piece.name.clone()),
        kept_in: design.and_then(|piece| piece.kept_in.clone()),
        verdict: needs.iter().map(|answer| answer.verdict).min(),
        needs: needs
            .iter()
            .map(|answer| (answer.key.clone(), answer.verdict, answer.said.clone()))
            .collect(),
        missing,
    }
}
