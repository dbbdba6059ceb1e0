//! The field of a section: the axis turned the way the face looks, and where its pieces sit across.

use crate::fit_section::axis::Axis;
use crate::fit_section::{Section, SectionPiece};
use crate::sheet::count;
use crate::stack::FaceKind;

/// Bare layers left before, between and after pieces, in pixels, where there is room.
const BETWEEN: f64 = 28.0;

/// How long a field may be across, in pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Reach {
    pub(crate) least: f64,
    pub(crate) most: f64,
    /// Pieces wider than this are shortened.
    pub(crate) piece: f64,
}

/// Where a section is drawn.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Field {
    pub(crate) axis: Axis,
    pub(crate) kind: FaceKind,
    /// Its upper left corner on the sheet.
    pub(crate) corner: (f64, f64),
    /// Its length across the axis, in pixels.
    pub(crate) across: f64,
    /// Where each piece begins and ends across, and whether it is shortened.
    pub(crate) seats: Vec<Seat>,
}

/// Where a piece sits across the axis, in pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Seat {
    pub(crate) from: f64,
    pub(crate) to: f64,
    pub(crate) is_shortened: bool,
}

impl Seat {
    pub(crate) fn middle(self) -> f64 {
        f64::midpoint(self.from, self.to)
    }
}

impl Field {
    /// A field with all its pieces, the wide ones shortened.
    pub(crate) fn new(section: &Section, axis: Axis, corner: (f64, f64), reach: Reach) -> Self {
        let pieces = count(section.pieces.len());
        let between = BETWEEN.min(reach.most * 0.3 / (pieces + 1.0));
        let cap = ((reach.most - between * (pieces + 1.0)) / pieces.max(1.0)).min(reach.piece);
        let sizes: Vec<(f64, bool)> = section
            .pieces
            .iter()
            .map(|piece| shown(piece, axis.enlargement.px, cap))
            .collect();
        let used: f64 = sizes.iter().map(|(size, _)| size + between).sum::<f64>() + between;
        let spare = (reach.least - used).max(0.0);
        let mut next = between + spare * 0.6;
        let seats = sizes
            .iter()
            .map(|(size, is_shortened)| {
                let seat = Seat {
                    from: next,
                    to: next + size,
                    is_shortened: *is_shortened,
                };
                next += size + between;
                seat
            })
            .collect();
        Self {
            axis,
            kind: section.kind,
            corner,
            across: used.max(reach.least),
            seats,
        }
    }

    /// A place of the face, in millimetres along and pixels across, on the sheet.
    pub(crate) fn place(&self, mm: f64, across: f64) -> (f64, f64) {
        self.place_px(self.axis.at(mm), across)
    }

    /// A place of the field, in pixels along and across, on the sheet.
    pub(crate) fn place_px(&self, along: f64, across: f64) -> (f64, f64) {
        let (x, y) = self.corner;
        match self.kind {
            FaceKind::Wall => (x + along, y + across),
            FaceKind::Floor => (x + across, y + self.axis.long - along),
            FaceKind::Ceiling => (x + across, y + along),
        }
    }

    /// The place on the sheet along the axis alone: across the sheet for a wall, down it for the others.
    pub(crate) fn along(&self, mm: f64) -> f64 {
        let (x, y) = self.place(mm, 0.0);
        if self.kind == FaceKind::Wall { x } else { y }
    }
}

fn shown(piece: &SectionPiece, px: f64, cap: f64) -> (f64, bool) {
    let size = piece.width * px;
    if size > cap {
        (cap, true)
    } else {
        (size.max(3.0).min(cap), false)
    }
}
