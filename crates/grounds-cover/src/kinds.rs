//! Which layers hide what is under them, and what kind of thing is hidden.

use grounds_model::{Layer, Material, Piece};

/// Parts of names by which open work of timber or metal is known: one can see past it.
const OPEN_WORK: [&str; 12] = [
    "batten", "bearer", "grounds", "joist", "stud", "noggin", "framing", "blocking", "furring",
    "strap", "channel", "gripper",
];

/// Parts of names by which fixings and fire stops are known: later work hangs on them, and nobody
/// finds them again.
const FIXINGS: [&str; 12] = [
    "blocking",
    "backing",
    "noggin",
    "fixing",
    "channel",
    "bracket",
    "anchor",
    "strap",
    "hanger",
    "firestop",
    "fire-stop",
    "fire stop",
];

/// What kind of thing is hidden.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum HiddenKind {
    /// Pipe, cable, duct, wire.
    Service,
    /// A membrane against water or vapour.
    Waterproofing,
    /// Blocking, brackets, channels, fire stops.
    Fixing,
    /// A piece that was set.
    Piece,
    /// A test or an inspection.
    Hold,
    /// Any other layer.
    Layer,
}

impl HiddenKind {
    /// Whether a photo of it is usual before it is covered, where the job says nothing.
    ///
    /// Grade: common practice.
    #[must_use]
    pub fn wants_photo(self) -> bool {
        self != Self::Layer
    }
}

/// Whether a layer hides what is under it from view.
///
/// Coats of paint, oil and grout do not, nor does glass; services, battens and channels can be seen
/// past; what fills the bays between framing can be lifted; protection is taken up again.
#[must_use]
pub fn closes(layer: &Layer) -> bool {
    let seen_through = matches!(
        layer.material,
        Material::Paint
            | Material::Finish
            | Material::Grout
            | Material::Glass
            | Material::Service
            | Material::Void
            | Material::Adhesive
    );
    let closes_at_any_thickness = matches!(
        layer.material,
        Material::Board | Material::Tile | Material::Sheet | Material::Membrane
    );
    let open = matches!(layer.material, Material::Timber | Material::Metal)
        && is_called(layer, &OPEN_WORK);
    let passing = layer.protective || layer.between;
    !passing && !seen_through && !open && (layer.thickness.is_some() || closes_at_any_thickness)
}

/// What kind of thing a layer is once it is hidden.
#[must_use]
pub fn kind_of(layer: &Layer) -> HiddenKind {
    match layer.material {
        Material::Service => HiddenKind::Service,
        Material::Membrane => HiddenKind::Waterproofing,
        _ if is_called(layer, &FIXINGS) => HiddenKind::Fixing,
        _ => HiddenKind::Layer,
    }
}

/// What kind of thing a piece is once it is hidden.
#[must_use]
pub(crate) fn kind_of_piece(piece: &Piece) -> HiddenKind {
    match piece.material {
        Some(Material::Service) => HiddenKind::Service,
        Some(Material::Membrane) => HiddenKind::Waterproofing,
        _ => HiddenKind::Piece,
    }
}

fn is_called(layer: &Layer, parts: &[&str]) -> bool {
    let (name, id) = (layer.name.to_lowercase(), layer.id.as_str());
    parts
        .iter()
        .any(|part| name.contains(part) || id.contains(part))
}
