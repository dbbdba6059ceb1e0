//! What may be kept of a walk.

use uuid::Uuid;

use super::{WalkAnswer, WalkHead};
use crate::error::StoreError;

/// The longest transcript that is kept, in bytes: a day of talk has less than one.
pub const LONGEST_TRANSCRIPT: usize = 5 * 1024 * 1024;

/// The longest name of a walk or a person, in characters.
const LONGEST_NAME: usize = 200;

/// The longest sentence that is kept with an answer, in characters.
const LONGEST_SENTENCE: usize = 10_000;

/// The most notes that come of one answer.
const MOST_NOTES: usize = 100;

pub(crate) fn walk(head: &WalkHead, transcript: &str) -> Result<(), StoreError> {
    let unfit = |why, mend| {
        Err(StoreError::UnfitWalk {
            walk: head.id,
            why,
            mend,
        })
    };
    if !is_name(&head.by) {
        return unfit(
            "does not say who walked",
            "give a name of at most 200 characters, on one line",
        );
    }
    if !is_name(&head.name) {
        return unfit(
            "has no name",
            "give one of at most 200 characters, on one line",
        );
    }
    if transcript.len() > LONGEST_TRANSCRIPT {
        return unfit("has more than 5 MB of talk", "split it by hour");
    }
    if transcript.contains('\0') {
        return unfit("holds a null character", "save it as plain text in UTF-8");
    }
    Ok(())
}

pub(super) fn answer(walk: Uuid, answer: &WalkAnswer) -> Result<(), StoreError> {
    let unfit = |why, mend| Err(StoreError::UnfitWalk { walk, why, mend });
    if answer.tie.chars().count() > 2 * LONGEST_NAME || answer.tie.trim().is_empty() {
        return unfit(
            "has an answer that is tied to nothing",
            "answer on its page",
        );
    }
    if !is_name(&answer.by) {
        return unfit(
            "has an answer by nobody",
            "give a name of at most 200 characters, on one line",
        );
    }
    if answer.sentence.chars().count() > LONGEST_SENTENCE || answer.notes.len() > MOST_NOTES {
        return unfit("has an answer that is too long", "answer on its page");
    }
    Ok(())
}

fn is_name(text: &str) -> bool {
    !text.trim().is_empty()
        && text.chars().count() <= LONGEST_NAME
        && !text.chars().any(char::is_control)
}
