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
