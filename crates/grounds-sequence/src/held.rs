//! What must be settled before work goes on: a fit that fails, a rule that is not kept.
//!
//! Nothing here judges a house. Whoever does hands in what is held up, and the network keeps that
//! work back, says why, and counts what it costs.

use grounds_model::{Id, Ref};

/// Something that must be settled, and what it holds up until then.
///
/// Nobody can say when that will be, so what is held up cannot start today, and the plan takes the
/// next working day, as for a noted problem without an end.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HeldUp {
    /// Its key, steady from day to day: `stair-glass.flush`.
    pub key: String,
    /// What in the house it is about: a note `decided` about it lets it go on as it is.
    pub about: Ref,
    /// What is the matter, as a sentence without its stop: `The grille sits 3 mm shy of the plaster`.
    pub matter: String,
    /// What is known of it, in whole sentences.
    pub said: String,
    /// What it holds up.
    pub holds: Vec<Holds>,
}

/// What is held up.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Holds {
    /// The order of a piece. One that is ordered already, or needs no order, is not held. Measuring
    /// for it goes on: it is often what settles the matter.
    Order(Id),
    /// Work: a layer, the setting of a piece, a hold, everything on a face or in a place.
    Work(Ref),
}
