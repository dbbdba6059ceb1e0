//! Pieces and openings: set by trades, in places and on faces that exist.

use super::{Notes, places, refs, step, trades};
use crate::{
    id::{Id, LayerKey},
    job::Job,
    nearest::{listed, mend_by_name},
    piece::Piece,
    view::Target,
};

pub(super) fn check(job: &Job, notes: &mut Notes<'_, '_>) {
    for (key, piece) in &job.pieces {
        if notes.full() {
            return;
        }
        let path = ["pieces", key.as_str()];
        check_piece(job, piece, &path, notes);
        check_align(job, key, piece, &path, notes);
        check_before_its_after(job, piece, &path, notes);
    }
    for (key, opening) in &job.openings {
        if notes.full() {
            return;
        }
        let path = ["openings", key.as_str()];
        places::known(job, opening.place.as_str(), &step(&path, &["place"]), notes);
        face(
            job,
            &opening.place,
            opening.face.as_ref(),
            &step(&path, &["face"]),
            notes,
        );
        if let Some(piece) = &opening.piece
            && !job.pieces.contains_key(piece)
        {
            let known = || job.pieces.keys().map(|key| key.as_str());
            let otherwise = format!("known are {}", listed(known()));
            let mend = mend_by_name(piece.as_str(), known(), &otherwise);
            notes.error(
                &step(&path, &["piece"]),
                format!("there is no piece `{piece}`"),
                mend,
            );
        }
    }
}

/// Notes a face that its place does not have.
fn face(job: &Job, place: &Id, face: Option<&Id>, path: &[&str], notes: &mut Notes<'_, '_>) {
    let (Some(face), Some(here)) = (face, job.places.get(place)) else {
        return;
    };
    if here.faces.contains_key(face) {
        return;
    }
    let known = || here.faces.keys().map(|key| key.as_str());
    let otherwise = format!("the faces of `{place}` are {}", listed(known()));
    let mend = mend_by_name(face.as_str(), known(), &otherwise);
    notes.error(
        path,
        format!("the place `{place}` has no face `{face}`"),
        mend,
    );
}

fn check_piece(job: &Job, piece: &Piece, path: &[&str], notes: &mut Notes<'_, '_>) {
    trades::known(job, piece.trade.as_str(), &step(path, &["trade"]), notes);
    if let Some(trade) = &piece.measured_by {
        trades::known(job, trade.as_str(), &step(path, &["measured_by"]), notes);
    }
    places::known(job, piece.place.as_str(), &step(path, &["place"]), notes);
    face(
        job,
        &piece.place,
        piece.face.as_ref(),
        &step(path, &["face"]),
        notes,
    );
    if let Some(place) = &piece.kept_in {
        places::known(job, place.as_str(), &step(path, &["kept_in"]), notes);
    }
    for (at, shut) in piece.shuts.iter().enumerate() {
        if !job.passages.contains_key(shut) && !job.places.contains_key(shut) {
            let known = job
                .passages
                .keys()
                .chain(job.places.keys())
                .map(|key| key.as_str());
            let mend = mend_by_name(
                shut.as_str(),
                known,
                "write the key of a passage or a place",
            );
            let what = format!("there is no passage or place `{shut}`");
            notes.error(&step(path, &["shuts", &at.to_string()]), what, mend);
        }
    }
    if let Some(decision) = &piece.decision
        && !job.decisions.contains_key(decision)
    {
        let known = job.decisions.keys().map(|key| key.as_str());
        let otherwise = format!("add [decisions.{decision}] with a name and who decides");
        let mend = mend_by_name(decision.as_str(), known, &otherwise);
        notes.error(
            &step(path, &["decision"]),
            format!("there is no decision `{decision}`"),
            mend,
        );
    }
    if piece.count == 0 {
        notes.error(
            &step(path, &["count"]),
            "none of this piece would be set",
            "write count = 1 or more",
        );
    }
    if piece.people == Some(0) {
        notes.error(
            &step(path, &["people"]),
            "nobody would set this piece",
            "write people = 1 or more",
        );
    }
    refs::works(job, &piece.after, &step(path, &["after"]), notes);
    refs::works(job, &piece.before, &step(path, &["before"]), notes);
    refs::works(
        job,
        &piece.measured_after,
        &step(path, &["measured_after"]),
        notes,
    );
}

fn check_align(job: &Job, key: &Id, piece: &Piece, path: &[&str], notes: &mut Notes<'_, '_>) {
    for (at, align) in piece.align.iter().enumerate() {
        let at = at.to_string();
        let path = step(path, &["align", &at, "with"]);
        match refs::target(job, &align.with, &path, notes) {
            Some(Target::Piece(with)) if with == *key => {
                notes.error(
                    &path,
                    "a piece lines up with itself",
                    "name what it lines up with",
                );
            }
            Some(
                Target::Face { .. }
                | Target::Layer(_)
                | Target::Piece(_)
                | Target::Opening(_)
                | Target::Control(_),
            )
            | None => {}
            Some(_) => {
                let what = format!("nothing lines up with `{}`", align.with);
                notes.error(
                    &path,
                    what,
                    "name a face, a layer, a piece, an opening or a control line",
                );
            }
        }
    }
}

/// Notes a layer that the piece shall come before, though the piece sits on that layer or one over it.
fn check_before_its_after(job: &Job, piece: &Piece, path: &[&str], notes: &mut Notes<'_, '_>) {
    for (at, before) in piece.before.iter().enumerate() {
        let Some(Target::Layer(before)) = job.resolve(before) else {
            continue;
        };
        if let Some(after) = under(job, piece, &before) {
            let what = format!(
                "the piece comes after `{after}`, so it cannot come before `{before}`, which is {}",
                if after == before {
                    "the same layer"
                } else {
                    "under it"
                }
            );
            notes.error(
                &step(path, &["before", &at.to_string()]),
                what,
                "name a layer further out, or set the piece earlier",
            );
        }
    }
}

/// A layer that the piece comes after and that lies over, or is, the given layer on the same face.
pub(super) fn under(job: &Job, piece: &Piece, before: &LayerKey) -> Option<LayerKey> {
    let (place, _) = job.layer_at(before)?;
    piece
        .after
        .iter()
        .find_map(|after| match job.resolve(after)? {
            Target::Layer(after) if after.place == before.place && after.face == before.face => {
                (job.layer_at(&after)?.0 >= place).then_some(after)
            }
            _ => None,
        })
}
