//! What may be said of each sort of thing, by how far it has got. The page and the phone offer the
//! same; the first of them in one tap.

use std::collections::BTreeMap;

use grounds_site::{Kind, Subject};
use serde::Serialize;

/// A sort of thing that is met on a walk.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Sort {
    /// A layer on a face.
    Layer,
    /// A piece.
    Piece,
    /// A test or an inspection.
    Hold,
    /// A decision.
    Decision,
    /// An opening.
    Opening,
    /// A place.
    Place,
}

/// How far a thing has got.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Standing {
    /// Waits for something.
    #[default]
    ToCome,
    /// Can start.
    Next,
    /// A piece is on site.
    OnSite,
    /// Begun.
    InHand,
    /// A hold failed.
    Failed,
    /// Finished, set, passed, decided.
    Done,
}

impl Standing {
    /// Whether there is nothing to say of it yet that a reader would miss.
    pub(crate) fn is_to_come(&self) -> bool {
        *self == Self::ToCome
    }
}

/// What a button says, and the kind of note that it writes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub(crate) struct Tap(pub(crate) Kind, pub(crate) &'static str);

/// Something that can be read of a sort of thing: the word of the note (nothing for a plain
/// length), how it is asked for, and its unit (`length` is millimetres or inches, as the job has it).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub(crate) struct Reading(&'static str, &'static str, &'static str);

impl Sort {
    const ALL: [Self; 6] = [
        Self::Layer,
        Self::Piece,
        Self::Hold,
        Self::Decision,
        Self::Opening,
        Self::Place,
    ];

    /// What sort of thing a subject is; nothing for what is not met on a walk.
    pub(crate) fn of(subject: &Subject) -> Option<Self> {
        Some(match subject {
            Subject::Layer(_) => Self::Layer,
            Subject::Piece(_) => Self::Piece,
            Subject::Hold(_) => Self::Hold,
            Subject::Decision(_) => Self::Decision,
            Subject::Opening(_) => Self::Opening,
            Subject::Place(_) => Self::Place,
            _ => return None,
        })
    }

    /// What is said of it in one tap.
    pub(crate) fn taps(self, standing: Standing) -> &'static [Tap] {
        const STARTED: Tap = Tap(Kind::Started, "Started");
        const DONE: Tap = Tap(Kind::Done, "Done");
        const SET: Tap = Tap(Kind::Done, "Set");
        const WRONG: Tap = Tap(Kind::Problem, "Not right");
        const AGAIN: Tap = Tap(Kind::Undone, "Not right");
        const PASSED: Tap = Tap(Kind::Passed, "Passed");
        const FAILED: Tap = Tap(Kind::Failed, "Failed");
        match (self, standing) {
            (Self::Layer | Self::Piece | Self::Hold | Self::Decision, Standing::Done) => &[AGAIN],
            (Self::Layer, Standing::InHand) => &[DONE, WRONG],
            (Self::Layer, _) => &[STARTED, DONE, WRONG],
            (Self::Piece, Standing::InHand) => &[SET, WRONG],
            (Self::Piece, Standing::OnSite) => &[STARTED, SET, WRONG],
            (Self::Piece, _) => &[Tap(Kind::Arrived, "On site"), SET, WRONG],
            (Self::Hold, Standing::Failed) => &[Tap(Kind::Cleared, "Put right"), PASSED],
            (Self::Hold, _) => &[PASSED, FAILED],
            (Self::Decision, _) => &[Tap(Kind::Decided, "Decided")],
            (Self::Opening | Self::Place, _) => &[],
        }
    }

    /// What else can be said of it, with a figure, a day or words.
    pub(crate) fn more(self) -> &'static [Tap] {
        const SO_FAR: Tap = Tap(Kind::Progress, "How far");
        const READ: Tap = Tap(Kind::Measured, "Reading");
        const WRONG: Tap = Tap(Kind::Problem, "In the way");
        const CLEARED: Tap = Tap(Kind::Cleared, "Out of the way");
        const WORDS: Tap = Tap(Kind::Remark, "Words");
        const DAMAGED: Tap = Tap(Kind::Damaged, "Damaged");
        const PROMISED: Tap = Tap(Kind::Promised, "Day given");
        match self {
            Self::Layer => &[SO_FAR, READ, DAMAGED, WRONG, CLEARED, WORDS],
            Self::Piece => &[
                Tap(Kind::Arrived, "On site"),
                DAMAGED,
                READ,
                Tap(Kind::Started, "Started"),
                Tap(Kind::Ordered, "Ordered"),
                PROMISED,
                WRONG,
                CLEARED,
                WORDS,
            ],
            Self::Hold => &[
                READ,
                Tap(Kind::Started, "Set up"),
                Tap(Kind::Ordered, "Booked"),
                WRONG,
                CLEARED,
                WORDS,
            ],
            Self::Decision => &[PROMISED, WORDS],
            Self::Opening => &[READ, WRONG, CLEARED, WORDS],
            Self::Place => &[READ, WRONG, CLEARED, WORDS],
        }
    }

    /// Whether a kind of note can be said of it.
    pub(crate) fn takes(self, kind: Kind) -> bool {
        const EVERY: [Standing; 6] = [
            Standing::ToCome,
            Standing::Next,
            Standing::OnSite,
            Standing::InHand,
            Standing::Failed,
            Standing::Done,
        ];
        let taps = EVERY.iter().flat_map(|standing| self.taps(*standing));
        taps.chain(self.more()).any(|saying| saying.0 == kind)
    }

    /// What can be read of it.
    fn reads(self) -> &'static [Reading] {
        match self {
            Self::Layer => &[
                Reading("thickness", "How thick it came out", "length"),
                Reading("moisture", "Moisture", "%"),
            ],
            Self::Piece => &[
                Reading("width", "Width of the piece", "length"),
                Reading("height", "Height of the piece", "length"),
                Reading("thickness", "Thickness of the piece", "length"),
                Reading("above floor", "From the floor to its bottom", "length"),
                Reading("", "Clear width for it", "length"),
            ],
            Self::Hold => &[
                Reading("moisture", "Moisture", "%"),
                Reading("water level fell", "Water level fell", "length"),
                Reading("pressure", "Pressure", "bar"),
            ],
            Self::Decision => &[],
            Self::Opening => &[
                Reading("width", "Width", "length"),
                Reading("height", "Height", "length"),
                Reading(
                    "diagonal rising",
                    "Diagonal, left foot to right head",
                    "length",
                ),
                Reading(
                    "diagonal falling",
                    "Diagonal, left head to right foot",
                    "length",
                ),
            ],
            Self::Place => &[
                Reading("temperature", "Temperature of the air", "C"),
                Reading("humidity", "Humidity of the air", "%"),
            ],
        }
    }
}

/// What can be said of each sort of thing, for the phone.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct Says {
    /// In one tap, by how far it has got; `to-come` stands for what is not listed.
    taps: BTreeMap<Standing, &'static [Tap]>,
    /// With a figure, a day or words.
    more: &'static [Tap],
    /// What can be read.
    reads: &'static [Reading],
}

impl Says {
    /// Of every sort.
    pub(crate) fn all() -> BTreeMap<Sort, Self> {
        let of = |sort: Sort| Self {
            taps: [
                Standing::ToCome,
                Standing::OnSite,
                Standing::InHand,
                Standing::Failed,
                Standing::Done,
            ]
            .into_iter()
            .filter(|s| *s == Standing::ToCome || sort.taps(*s) != sort.taps(Standing::ToCome))
            .map(|standing| (standing, sort.taps(standing)))
            .collect(),
            more: sort.more(),
            reads: sort.reads(),
        };
        Sort::ALL.into_iter().map(|sort| (sort, of(sort))).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_thing_that_is_done_can_be_found_not_right() {
        for sort in [Sort::Layer, Sort::Piece, Sort::Hold, Sort::Decision] {
            assert_eq!(sort.taps(Standing::Done), [Tap(Kind::Undone, "Not right")]);
        }
    }

    #[test]
    fn nothing_is_offered_that_cannot_be_said() {
        assert!(Sort::Layer.takes(Kind::Done) && !Sort::Layer.takes(Kind::Passed));
        assert!(Sort::Hold.takes(Kind::Failed) && !Sort::Hold.takes(Kind::Done));
        assert!(Sort::Place.takes(Kind::Measured) && !Sort::Place.takes(Kind::Done));
    }

    #[test]
    fn three_taps_at_most_stand_beside_each_other() {
        for sort in Sort::ALL {
            for standing in [
                Standing::ToCome,
                Standing::OnSite,
                Standing::InHand,
                Standing::Done,
            ] {
                assert!(sort.taps(standing).len() <= 3, "{sort:?} {standing:?}");
            }
        }
    }
}
