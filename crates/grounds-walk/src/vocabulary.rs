//! What is known before the walk: places, people, things, units and the day.

mod from_job;

use grounds_measure::Units;
use jiff::civil::Date;

pub use from_job::from_job;

/// What is known before the walk.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Vocabulary {
    /// The walk's day; *tomorrow* and *Friday* are reckoned from it.
    pub day: Date,
    /// What a bare length is measured in: millimetres or inches.
    pub units: Units,
    /// Rooms, halls, stairs and decks.
    pub places: Vec<Place>,
    /// People and trades.
    pub people: Vec<Person>,
    /// Layers, pieces, holds and decisions that things can be matched with; may be empty.
    pub things: Vec<Thing>,
}

/// A place and what it is called.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// How the job names it: `kitchen`.
    pub id: String,
    /// What it is called on pages.
    pub name: String,
    /// What else it is called.
    pub also: Vec<String>,
}

/// A person or a trade and what they are called.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Person {
    /// How the job names them: `tiler`.
    pub id: String,
    /// What they are called on pages.
    pub name: String,
    /// What else they are called: first names, `the floor guy`.
    pub also: Vec<String>,
}

/// What sort of thing of the job it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sort {
    /// A layer of a face's stack.
    Layer,
    /// A piece that is brought and set.
    Piece,
    /// An opening that something has to fit.
    Opening,
    /// A test or inspection.
    Hold,
    /// A choice that somebody has to make.
    Decision,
}

/// Something of the job that a note can be about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Thing {
    /// How a note names it: `kitchen.floor/tile`, or the id of a piece, hold or decision.
    pub id: String,
    /// The place it is in, by its id; none for what is everywhere.
    pub place: Option<String>,
    /// What sort of thing it is.
    pub sort: Sort,
    /// What it is called, and what else.
    pub names: Vec<String>,
}
