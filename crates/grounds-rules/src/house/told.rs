//! What others know of a house: its plan, and its fits.

use std::collections::BTreeMap;

use grounds_model::{LayerKey, Target};
use jiff::Timestamp;

use crate::input::Spec;

/// What others know of a house. Rules do without; with it, those that speak of air look at the air
/// that a layer will be laid in, and those that speak of what fits need not be told again.
#[derive(Clone, Debug, Default)]
pub struct Told {
    /// When each layer that is still to come is planned to begin.
    pub begins: BTreeMap<LayerKey, Timestamp>,
    /// Figures of things of the house.
    pub figures: Vec<Figured>,
}

/// A figure of a thing of the house, with who says so.
#[derive(Clone, Debug, PartialEq)]
pub struct Figured {
    /// What it is a figure of.
    pub about: Target,
    /// Its key, as rules ask for it: `riser-greatest`.
    pub key: &'static str,
    /// The figure, in the base unit of its kind: metres, pascals, seconds.
    pub base: f64,
    /// Who says so, for the working: `where Fit finds the rises`.
    pub from: String,
}

impl Told {
    /// When a layer is planned to begin.
    pub(super) fn begins(&self, layer: &LayerKey) -> Option<Timestamp> {
        self.begins.get(layer).copied()
    }

    /// What is told of a figure of a thing.
    pub(super) fn figure(&self, about: &Target, spec: &Spec) -> Option<&Figured> {
        let mut figures = self.figures.iter();
        figures.find(|figured| figured.key == spec.name && figured.about == *about)
    }
}
