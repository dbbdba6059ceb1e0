//! What a layer is made of, as a section drawing would hatch it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The material of a layer or a piece.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum Material {
    /// Gypsum or cement board.
    Board,
    /// Gypsum plaster, veneer, skim.
    Plaster,
    /// Lime plaster, marmorino, tadelakt.
    Lime,
    /// Sand-cement, calcium sulphate or self-levelling screed.
    Screed,
    /// Concrete.
    Concrete,
    /// Brick, block, rubble.
    Masonry,
    /// Natural stone.
    Stone,
    /// Ceramic or porcelain tile.
    Tile,
    /// Grout and sealant.
    Grout,
    /// Adhesive, bonding coat, primer for levelling.
    Adhesive,
    /// Solid or engineered timber.
    Timber,
    /// Plywood and other wood-based sheet.
    Sheet,
    /// Steel, aluminium, brass.
    Metal,
    /// Glass and mirror.
    Glass,
    /// Waterproof or vapour membrane.
    Membrane,
    /// Insulation.
    Insulation,
    /// Paint, primer.
    Paint,
    /// Clear finish: stain, oil, varnish, wax.
    Finish,
    /// Carpet, felt, paper, wall covering.
    Fabric,
    /// Pipe, cable, duct.
    Service,
    /// An empty cavity or a joint left open.
    Void,
}

impl Material {
    /// Every material, in the order of the list above.
    pub const ALL: [Self; 21] = [
        Self::Board,
        Self::Plaster,
        Self::Lime,
        Self::Screed,
        Self::Concrete,
        Self::Masonry,
        Self::Stone,
        Self::Tile,
        Self::Grout,
        Self::Adhesive,
        Self::Timber,
        Self::Sheet,
        Self::Metal,
        Self::Glass,
        Self::Membrane,
        Self::Insulation,
        Self::Paint,
        Self::Finish,
        Self::Fabric,
        Self::Service,
        Self::Void,
    ];

    /// The name it has in documents: `board`, `plaster` …
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Board => "board",
            Self::Plaster => "plaster",
            Self::Lime => "lime",
            Self::Screed => "screed",
            Self::Concrete => "concrete",
            Self::Masonry => "masonry",
            Self::Stone => "stone",
            Self::Tile => "tile",
            Self::Grout => "grout",
            Self::Adhesive => "adhesive",
            Self::Timber => "timber",
            Self::Sheet => "sheet",
            Self::Metal => "metal",
            Self::Glass => "glass",
            Self::Membrane => "membrane",
            Self::Insulation => "insulation",
            Self::Paint => "paint",
            Self::Finish => "finish",
            Self::Fabric => "fabric",
            Self::Service => "service",
            Self::Void => "void",
        }
    }

    /// The material of that name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|material| material.name() == name)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_names_of_materials_are_those_of_the_document() {
        for material in Material::ALL {
            assert_eq!(serde_json::to_value(material).unwrap(), material.name());
        }
    }
}
