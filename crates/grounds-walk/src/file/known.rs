//! What the log says already.

use grounds_model::Ref;
use grounds_site::{Kind as NoteKind, Seen, State, Value};
use jiff::Timestamp;

use super::{Desk, Entry, Mended, Standing, says};
use crate::{kinds::Kind, proposals::Proposal};

/// Marks what the same walk said before: the same of the same thing.
pub(super) fn said_before(entries: &mut [Entry]) {
    let mut met: Vec<(Mended, Option<u64>)> = Vec::new();
    for entry in entries {
        let Some(says) = entry
            .as_proposed()
            .filter(|_| entry.standing == Standing::New)
        else {
            continue;
        };
        if says.kind == NoteKind::Remark {
            continue;
        }
        match met.iter().find(|(said, _)| *said == says) {
            Some((_, at)) => {
                let when = at.map_or_else(String::new, |ms| format!(" at {}", says::time_code(ms)));
                entry.standing = Standing::Known(format!("The same was said{when} already."));
            }
            None => met.push((says, entry.at_ms)),
        }
    }
}

impl Desk<'_> {
    /// How the log says it already, as a sentence; nothing where it is news.
    pub(super) fn known(
        &self,
        proposal: &Proposal,
        kind: NoteKind,
        value: Option<&Value>,
        about: &Ref,
    ) -> Option<String> {
        let state = self.state(about)?;
        let since = |what: &str, seen: Option<Seen>| {
            seen.map(|seen| format!("The log has it {what} on {}.", self.day(seen.at)))
        };
        match (proposal.kind, kind) {
            (_, NoteKind::Progress) => since("done", state.done),
            (Kind::Done, _) => since("done", state.done),
            (Kind::Started, _) => {
                since("done", state.done).or_else(|| since("begun", state.started))
            }
            (Kind::Passed, _) => since("passed", state.done),
            (Kind::Failed, _) => since("failed", state.failed),
            (_, NoteKind::Promised) => self.promised(&state, value),
            (Kind::Delivered, _) => {
                since("set", state.done).or_else(|| since("on site", state.arrived))
            }
            (_, NoteKind::Damaged) => since("damaged", state.damaged),
            (Kind::NotDone, _) if state.done.is_none() => {
                Some("It is still to be done in the plan too.".to_owned())
            }
            (Kind::NotDelivered, _) if state.arrived.is_none() && state.done.is_none() => {
                Some("The log has no delivery of it either.".to_owned())
            }
            (Kind::Decision, _) if state.done.is_none() => {
                Some("It is still asked in the plan too.".to_owned())
            }
            (Kind::Measured, _) => self.read_before(&state, value),
            _ => None,
        }
    }

    fn promised(&self, state: &State, value: Option<&Value>) -> Option<String> {
        let (known, seen) = state.promised?;
        let Some(Value::When(said)) = value else {
            return None;
        };
        let same = known.date == said.date && (said.time.is_none() || said.time == known.time);
        same.then(|| format!("The log has had that day since {}.", self.day(seen.at)))
    }

    /// Whether the same figure was read of it on the same day.
    fn read_before(&self, state: &State, value: Option<&Value>) -> Option<String> {
        let notes = state.notes.iter().filter_map(|id| self.site.notes.get(id));
        let same = notes.rev().find(|note| {
            let day = note.at.to_zoned_datetime(self.zone.clone()).date();
            note.kind == NoteKind::Measured
                && note.value.as_ref() == value
                && day == self.vocabulary.day
        })?;
        Some(format!("The log has that reading, by {}.", same.by))
    }

    fn day(&self, at: Timestamp) -> String {
        says::day(
            at.to_zoned_datetime(self.zone.clone()).date(),
            self.vocabulary.day,
        )
    }
}
