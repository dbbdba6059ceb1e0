//! What is asked by hand: how to set out a row, a flight, a cut list, a pocket, a floor of boards,
//! a plane.
//!
//! Text goes in as it was typed, an answer comes out with its sentence, its working and its source,
//! so that a page and a command say the same. Nothing here reads a job.

mod boards;
mod cuts;
mod field;
mod gaps;
mod pocket;
mod risers;
mod shims;
mod wood;

use std::collections::BTreeMap;

use grounds_measure::{Length, Units};

pub use field::{Field, Kind, LONGEST_TEXT, MOST_LINES, Wrong};

/// What was typed, by the key of its field.
pub type Typed = BTreeMap<String, String>;

/// What can be asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Question {
    /// Balusters, slats and registers with equal gaps.
    Gaps,
    /// Boards, tiles, pavers and panels with joints, and what should sit on a joint.
    Boards,
    /// Risers with the finishes that come later.
    Risers,
    /// Pieces out of stock lengths.
    Cuts,
    /// A leaf, a pane or a top between two faces.
    Pocket,
    /// Boards side by side over a year.
    Wood,
    /// Shims that bring pieces into one plane.
    Shims,
}

impl Question {
    /// All of them, in the order in which they are listed.
    pub const ALL: [Self; 7] = [
        Self::Gaps,
        Self::Boards,
        Self::Risers,
        Self::Cuts,
        Self::Pocket,
        Self::Wood,
        Self::Shims,
    ];

    /// Its word in addresses and commands: `gaps`.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Gaps => "gaps",
            Self::Boards => "boards",
            Self::Risers => "risers",
            Self::Cuts => "cuts",
            Self::Pocket => "pocket",
            Self::Wood => "wood",
            Self::Shims => "shims",
        }
    }

    /// The question of a word.
    #[must_use]
    pub fn named(word: &str) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|question| question.word() == word)
    }

    /// What it is called: `Equal gaps`.
    #[must_use]
    pub fn title(self) -> &'static str {
        match self {
            Self::Gaps => "Equal gaps",
            Self::Boards => "Boards, tiles and panels in a row",
            Self::Risers => "Risers of a flight",
            Self::Cuts => "Cut list",
            Self::Pocket => "Pockets and channels",
            Self::Wood => "Wood over the year",
            Self::Shims => "Shims to one plane",
        }
    }

    /// What it tells, in one sentence.
    #[must_use]
    pub fn tells(self) -> &'static str {
        match self {
            Self::Gaps => {
                "Balusters, slats and registers: how many, how wide the gaps, where to mark."
            }
            Self::Boards => {
                "Where to begin so that no cut is a sliver, and outlets sit on joints or mid piece."
            }
            Self::Risers => {
                "How to frame a flight so that it is even once floors and treads are finished."
            }
            Self::Cuts => "What stock to buy and how to cut it, with what the saw takes.",
            Self::Pocket => {
                "What is left beside a leaf, a pane or a top, and whether it goes in deep enough."
            }
            Self::Wood => {
                "How far boards shrink and swell with the air, and the room to leave at the edges."
            }
            Self::Shims => {
                "The least shims that bring measured pieces into one plane, and what the eye sees."
            }
        }
    }

    /// What is typed for it.
    #[must_use]
    pub fn fields(self) -> &'static [Field] {
        match self {
            Self::Gaps => gaps::FIELDS,
            Self::Boards => boards::FIELDS,
            Self::Risers => risers::FIELDS,
            Self::Cuts => cuts::FIELDS,
            Self::Pocket => pocket::FIELDS,
            Self::Wood => wood::FIELDS,
            Self::Shims => shims::FIELDS,
        }
    }

    /// The answer to what was typed; a bare figure is in millimetres or inches, as the units say.
    ///
    /// # Errors
    /// Everything that is wrong with what was typed, each with its field and its mend.
    ///
    /// ```
    /// use grounds_lines::asked::Question;
    /// use grounds_measure::Units;
    /// let typed = [("clear", "72"), ("piece", "1 1/2"), ("under", "4")]
    ///     .map(|(key, text)| (key.to_owned(), text.to_owned()))
    ///     .into();
    /// let answer = Question::Gaps.answer(&typed, Units::Imperial).unwrap();
    /// assert!(answer.said.starts_with("13 pieces"), "{}", answer.said);
    /// ```
    pub fn answer(self, typed: &Typed, units: Units) -> Result<Answer, Vec<Wrong>> {
        let mut form = field::Form::new(self.fields(), typed, units);
        let answer = match self {
            Self::Gaps => gaps::answer(&mut form),
            Self::Boards => boards::answer(&mut form),
            Self::Risers => risers::answer(&mut form),
            Self::Cuts => cuts::answer(&mut form),
            Self::Pocket => pocket::answer(&mut form),
            Self::Wood => wood::answer(&mut form),
            Self::Shims => shims::answer(&mut form),
        };
        match answer {
            Some(answer) if form.wrong.is_empty() => Ok(answer),
            _ => Err(form.wrong),
        }
    }
}

/// An answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// Whether what was asked for can be had.
    pub does: bool,
    /// The answer as a sentence.
    pub said: String,
    /// What to do, or what else follows; may be empty.
    pub then: String,
    /// What is drawn of it.
    pub drawn: Drawn,
    /// What to set by, row by row.
    pub table: Table,
    /// How it was reckoned, line by line.
    pub working: Vec<String>,
    /// Where it can hurt somebody.
    pub cautions: &'static [&'static str],
    /// Where rules and figures come from.
    pub sources: Vec<Source>,
}

/// Rows under heads; no rows where there is nothing to list.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Table {
    /// What the rows are.
    pub title: &'static str,
    /// The heads of the columns.
    pub heads: &'static [&'static str],
    /// The rows, each with as many words as there are heads.
    pub rows: Vec<Vec<String>>,
}

/// Where a rule or a figure comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// What it is.
    pub what: &'static str,
    /// How well it is known.
    pub grade: Grade,
}

/// How well a rule or a figure is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grade {
    /// Seen in print.
    Published,
    /// From a named print, recalled.
    Memory,
    /// What the trade does.
    CommonPractice,
    /// Arithmetic that a pencil can check.
    Arithmetic,
}

impl Grade {
    /// In words: `published`.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::Memory => "from memory",
            Self::CommonPractice => "common practice",
            Self::Arithmetic => "arithmetic",
        }
    }
}

fn source(what: &'static str, grade: Grade) -> Source {
    Source { what, grade }
}

/// What is drawn of an answer. Lengths are exact.
#[derive(Clone, Debug, PartialEq)]
pub enum Drawn {
    /// Parts along a run.
    Run(Run),
    /// A flight.
    Flight(Stepped),
    /// Stock with its cuts.
    Cuts {
        /// What the saw takes.
        kerf: Length,
        /// Each way of cutting.
        bars: Vec<BarCut>,
    },
    /// Pieces along a plane, in millimetres.
    Plane {
        /// The pieces.
        pieces: Vec<Faced>,
        /// What the eye is let off with.
        limit: f64,
    },
}

/// Parts along a run.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Run {
    /// Its length.
    pub length: Length,
    /// The parts from its beginning; at most as many as can be drawn.
    pub parts: Vec<Part>,
}

/// One part of a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Part {
    /// What it is.
    pub kind: PartKind,
    /// Where it begins.
    pub from: Length,
    /// Where it ends.
    pub to: Length,
}

/// Kinds of parts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartKind {
    /// A whole piece.
    Whole,
    /// A cut piece.
    Cut,
    /// A gap or a joint.
    Gap,
}

/// The most parts of a run that are drawn.
const MOST_PARTS: usize = 400;

/// A flight once it is finished.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stepped {
    /// The finished risers, from the lowest up.
    pub risers: Vec<Length>,
    /// The finish at the foot, on the treads and at the head.
    pub finishes: [Length; 3],
    /// The greatest riser less the least.
    pub differ: Length,
    /// What they may differ.
    pub allowed: Length,
}

/// One way of cutting, as often as it is used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BarCut {
    /// How many are cut so.
    pub count: usize,
    /// The stock length.
    pub stock: Length,
    /// The pieces: length and name, which may be empty.
    pub pieces: Vec<(Length, String)>,
    /// What is left over.
    pub left: Length,
}

/// A piece and the plane, in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct Faced {
    /// Its name.
    pub name: String,
    /// How far it stands off the plane as measured, towards the room above zero.
    pub off: f64,
    /// The shim behind it.
    pub shim: f64,
    /// Whether it ends up further off than the eye is let off with.
    pub seen: bool,
}

/// `1 gap`, `14 gaps`.
fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}
