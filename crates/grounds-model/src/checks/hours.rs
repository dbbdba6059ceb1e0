//! Hours of work: whoever writes `3 days` of work means three working days, not 72 hours of a crew.

use grounds_measure::Span;

use super::{Notes, step};
use crate::{build_up::Layer, job::Job};

/// Minutes in a day of the clock.
const DAY: u32 = 24 * 60;

/// Checks the work of pieces and holds.
pub(super) fn check(job: &Job, notes: &mut Notes<'_, '_>) {
    for (key, piece) in &job.pieces {
        if notes.full() {
            return;
        }
        let path = ["pieces", key.as_str()];
        worked(Some(piece.takes), &step(&path, &["takes"]), notes);
        worked(piece.measuring, &step(&path, &["measuring"]), notes);
    }
    for (key, hold) in &job.holds {
        if notes.full() {
            return;
        }
        let path = ["holds", key.as_str()];
        worked(hold.takes, &step(&path, &["takes"]), notes);
    }
}

/// Checks the work of a layer.
pub(super) fn check_layer(layer: &Layer, path: &[&str], notes: &mut Notes<'_, '_>) {
    worked(layer.takes, &step(path, &["takes"]), notes);
    worked(layer.set_up, &step(path, &["set_up"]), notes);
}

fn worked(span: Option<Span>, path: &[&str], notes: &mut Notes<'_, '_>) {
    let Some(Span::Elapsed(minutes)) = span.filter(|_| !notes.full()) else {
        return;
    };
    if minutes < DAY {
        return;
    }
    let days = minutes.div_ceil(DAY);
    let hours = minutes.div_ceil(60);
    notes.error(
        path,
        "a day or more by the clock: is that the crew's days, or its hours?",
        format!("write {days} working days, or {hours} working hours"),
    );
}
