//! The search for a good plan.

pub(crate) mod arcs;
pub(crate) mod blocks;
pub(crate) mod clock;
pub(crate) mod compiled;
pub(crate) mod construct;
pub(crate) mod fit;
pub(crate) mod improve;
pub(crate) mod incumbent;
pub(crate) mod justify;
pub(crate) mod lists;
pub(crate) mod moves;
pub(crate) mod passes;
pub(crate) mod profile;
pub(crate) mod state;
pub(crate) mod together;
pub(crate) mod ways;
