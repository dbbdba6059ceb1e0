//! Ids that follow from what was said, and what ties an answer to its place in the talk.

use std::{collections::BTreeMap, fmt};

use jiff::Timestamp;
use uuid::{Builder, Uuid};

use super::{Entry, Head};
use crate::{proposals::Proposal, questions::Question, same::content_stems};

/// The longest tie, in characters.
const LONGEST: usize = 160;

/// What ties an answer to what it answers: the time of its cue (its number where the talk has no
/// times), the kind and the thing.
///
/// A number would not do: a later reader may find one proposal more or fewer, and an answer must not
/// slip to the next sentence. A proposal that a later reader reads otherwise is a new one, and is
/// asked about again; the answer that no proposal has any more stays with its sentence.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Tie(String);

impl Tie {
    /// A tie as it was kept; nothing if it cannot be one.
    #[must_use]
    pub fn kept(text: &str) -> Option<Self> {
        let fits = !text.is_empty() && text.chars().count() <= 2 * LONGEST;
        (fits && !text.chars().any(char::is_control)).then(|| Self(text.to_owned()))
    }

    /// The text of it.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    pub(super) fn of_proposal(proposal: &Proposal) -> Self {
        let thing = content_stems(&proposal.thing).join("-");
        let kind = proposal.kind.words().replace(' ', "-");
        let text = format!("{} {kind} {thing}", when(proposal.at_ms, proposal.cue));
        Self(text.chars().take(LONGEST).collect())
    }

    pub(super) fn of_question(question: &Question) -> Self {
        Self(format!("{} asked", when(question.at_ms, question.cue)))
    }
}

impl fmt::Display for Tie {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

fn when(at_ms: Option<u64>, cue: usize) -> String {
    at_ms.map_or_else(|| format!("cue{cue}"), |ms| ms.to_string())
}

/// Numbers ties that are the same: two readings of one thing in one cue.
pub(super) fn tell_apart(entries: &mut [Entry]) {
    let mut met: BTreeMap<Tie, usize> = BTreeMap::new();
    for entry in entries {
        let times = met.entry(entry.tie.clone()).or_default();
        *times += 1;
        if *times > 1 {
            entry.tie = Tie(format!("{} #{times}", entry.tie));
        }
    }
}

/// The id of a walk: a UUID of version 7 of its beginning that follows from what was said and by
/// whom, so that the same walk taken in again is the same walk.
#[must_use]
pub fn walk_id(begun: Timestamp, by: &str, transcript: &str) -> Uuid {
    version_7(begun, &[by, transcript])
}

/// The id of a note: always the same for the same entry of the same walk in the same turn.
pub(super) fn note_id(head: &Head, tie: &Tie, at: Timestamp, turn: usize, n: usize) -> Uuid {
    let (walk, turn) = (head.id.to_string(), format!("{turn}.{n}"));
    version_7(at, &[walk.as_str(), tie.as_str(), turn.as_str()])
}

fn version_7(at: Timestamp, parts: &[&str]) -> Uuid {
    let mut bytes = [0; 10];
    let hash = hash(parts).to_be_bytes();
    bytes
        .iter_mut()
        .zip(hash)
        .for_each(|(byte, from)| *byte = from);
    let millis = u64::try_from(at.as_millisecond()).unwrap_or(0);
    Builder::from_unix_timestamp_millis(millis, &bytes).into_uuid()
}

/// FNV-1a in 128 bits (draft-eastlake-fnv, published): the same on every machine and in every
/// version, which the standard library's hash does not promise.
fn hash(parts: &[&str]) -> u128 {
    const OFFSET: u128 = 0x6c62_272e_07bb_0142_62b8_2175_6295_c58d;
    const PRIME: u128 = 0x0000_0000_0100_0000_0000_0000_0000_013b;
    let bytes = parts.iter().flat_map(|part| part.bytes().chain([0]));
    bytes.fold(OFFSET, |hash, byte| {
        (hash ^ u128::from(byte)).wrapping_mul(PRIME)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hash_is_the_published_one() {
        // Published with FNV: the 128-bit FNV-1a hash of no bytes is the offset basis, and of "a"
        // 0xd228cb696f1a8caf78912b704e4a8964. Ours ends each part with a zero byte.
        const A: u128 = 0xd228_cb69_6f1a_8caf_7891_2b70_4e4a_8964;
        const PRIME: u128 = 0x0000_0000_0100_0000_0000_0000_0000_013b;
        assert_eq!(hash(&["a"]), A.wrapping_mul(PRIME));
    }
}
