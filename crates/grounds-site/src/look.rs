//! Looking at what is covered: how, and how a note says it.

use grounds_measure::Span;

use crate::note::{Kind, Note, Value};

/// What a reading is called that says how somebody is to look.
const WHAT: &str = "look";

/// A way to find out what nobody saw.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Look {
    /// Open it at one spot, look, and make it good.
    Opening,
    /// A camera on a rod through a small hole, or through an outlet.
    Camera,
    /// A test that tells without opening: a flood test, a pressure test.
    Test,
    /// A meter on the surface: moisture, metal, a pipe finder.
    Meter,
}

impl Look {
    /// Every way, the surest first.
    pub const ALL: [Self; 4] = [Self::Opening, Self::Camera, Self::Test, Self::Meter];

    /// The word for it, as a note is written: `opening`.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Opening => "opening",
            Self::Camera => "camera",
            Self::Test => "test",
            Self::Meter => "meter",
        }
    }

    /// The way of that word.
    #[must_use]
    pub fn named(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|look| look.word() == word)
    }

    /// The work of looking itself, beside what is taken off and put back. Common practice for one
    /// spot: a hole is cut and looked into in an hour, a camera takes as long, a test is set up and
    /// read in two, a meter takes half an hour.
    #[must_use]
    pub fn takes(self) -> Span {
        Span::Working(match self {
            Self::Opening | Self::Camera => 60,
            Self::Test => 120,
            Self::Meter => 30,
        })
    }

    /// The value of the note that decides it.
    #[must_use]
    pub fn value(self) -> Value {
        Value::Reading {
            what: WHAT.to_owned(),
            figure: self.word().to_owned(),
        }
    }

    /// How a note decides to look; nothing where it decides something else.
    #[must_use]
    pub fn of(note: &Note) -> Option<Self> {
        match &note.value {
            Some(Value::Reading { what, figure })
                if note.kind == Kind::Decided && note.presumed && what == WHAT =>
            {
                Self::named(figure)
            }
            _ => None,
        }
    }
}
