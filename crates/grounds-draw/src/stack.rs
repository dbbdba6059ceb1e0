//! A face of a room as a stack of layers: what the drawings of faces are drawn from.

use crate::hatch::{Hatch, Tone};

/// How far a layer, or the work of a bar, has got.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// Finished.
    Done,
    /// Begun; the share finished in percent (above 100 counts as 100).
    InHand {
        /// Percent finished.
        percent: u8,
    },
    /// Can start.
    Next,
    /// Waits for something.
    ToCome,
}

impl State {
    pub(crate) fn class(self) -> &'static str {
        match self {
            Self::Done => "done",
            Self::InHand { .. } => "in-hand",
            Self::Next => "next",
            Self::ToCome => "to-come",
        }
    }

    pub(crate) fn tone(self) -> Tone {
        match self {
            Self::Done => Tone::Filled,
            Self::InHand { .. } | Self::Next => Tone::Chalk,
            Self::ToCome => Tone::Soft,
        }
    }

    /// The state in words, for those who hear the drawing.
    pub(crate) fn word(self) -> &'static str {
        match self {
            Self::Done => "done",
            Self::InHand { .. } => "in hand",
            Self::Next => "can start",
            Self::ToCome => "to come",
        }
    }

    /// Share finished, 0 to 1, while in hand.
    pub(crate) fn share_in_hand(self) -> Option<f64> {
        match self {
            Self::InHand { percent } => Some(f64::from(percent.min(100)) / 100.0),
            _ => None,
        }
    }
}

/// Whether something is wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Trouble {
    /// Nothing known.
    #[default]
    None,
    /// Wants attention: ochre, and a triangle.
    Care,
    /// A rule is broken or a test has failed: oxide, and a cross.
    Breach,
}

impl Trouble {
    pub(crate) fn word(self) -> &'static str {
        match self {
            Self::None => "",
            Self::Care => ", trouble",
            Self::Breach => ", breach",
        }
    }
}

/// One layer of a face.
#[derive(Debug, Clone, PartialEq)]
pub struct Layer {
    /// What it is, as the trade says it ("finish coat").
    pub name: String,
    /// Its material.
    pub hatch: Hatch,
    /// Thickness in millimetres. Drawings show it compressed (by its square root), so that paint stays visible beside a
    /// stud; what is not above zero is drawn as the thinnest line there is.
    pub thickness: f64,
    /// Thickness in the job's own units ("11.5 ±0.5", `1/2"`), or empty.
    pub thickness_words: String,
    /// How far it has got.
    pub state: State,
    /// Whether something is wrong with it.
    pub trouble: Trouble,
}

/// A thing set into the stack: a frame, a track, a box, a grille.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// What it is.
    pub name: String,
    /// Index of the layer it is set on; 0 is the layer nearest to the structure. Past the last layer means on the last.
    pub after: usize,
    /// How far it has got.
    pub state: State,
    /// Whether something is wrong with it.
    pub trouble: Trouble,
}

/// Which way a face looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FaceKind {
    /// Underfoot.
    Floor,
    /// Upright.
    Wall,
    /// Overhead: ceilings and soffits.
    Ceiling,
}

/// A face of a room.
#[derive(Debug, Clone, PartialEq)]
pub struct Face {
    /// What people call it ("wall to the tower").
    pub name: String,
    /// Which way it looks.
    pub kind: FaceKind,
    /// Its layers, from the structure to the finish.
    pub layers: Vec<Layer>,
    /// What is set into it.
    pub pieces: Vec<Piece>,
}

impl Face {
    /// The face in one sentence: "floor: 2 of 5 layers done, screed in hand".
    pub(crate) fn sentence(&self) -> String {
        let done = self
            .layers
            .iter()
            .filter(|layer| layer.state == State::Done)
            .count();
        let now = self
            .layers
            .iter()
            .find(|layer| layer.state != State::Done)
            .map(|layer| {
                format!(
                    ", {} {}{}",
                    layer.name,
                    layer.state.word(),
                    layer.trouble.word()
                )
            })
            .unwrap_or_default();
        format!(
            "{}: {done} of {} layers done{now}",
            self.name,
            self.layers.len()
        )
    }
}
