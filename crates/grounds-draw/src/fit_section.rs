//! The section through a face to true scale: where every layer and piece stands and where the finish plane lands.

mod axis;
mod column;
mod cut;
mod field;
mod floor;
mod foot;
mod names;
mod notes;
pub(crate) mod sound;
mod wall;

use crate::hatch::Hatch;
use crate::medium::{Medium, Units};
use crate::sheet::Sheet;
use crate::stack::{FaceKind, State};
use crate::verdict::Verdict;

/// A section through one face. Every position is in millimetres along the face's axis, which runs from the structure
/// out into the room; its zero may be anywhere (the control line is usual). What is not a number is left out.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// What is cut ("Stair hall, wall to the tower, at the glass frame").
    pub title: String,
    /// The whole of it in words, for those who hear it.
    pub said: String,
    /// Which way the face looks: a wall is drawn from left to right, a floor upward, a ceiling downward.
    pub kind: FaceKind,
    /// What the scale bar is divided in.
    pub units: Units,
    /// The layers from the structure to the finish. The first is the structure: where it is thick it is cut short with a
    /// break line, so that the rest can be drawn larger.
    pub layers: Vec<SectionLayer>,
    /// What is set into the face.
    pub pieces: Vec<SectionPiece>,
    /// Where the finish plane comes to be.
    pub finish: Option<FinishPlane>,
    /// The line everything is measured from.
    pub control: Option<ControlLine>,
    /// Where a piece or plane lands against where it is wanted.
    pub landings: Vec<Landing>,
    /// Further dimension strings beside the one of the layers, the next to the face first.
    pub strings: Vec<Vec<Dimension>>,
}

/// One layer of a section.
#[derive(Debug, Clone, PartialEq)]
pub struct SectionLayer {
    /// What it is, with what is to be said of it ("base coat, read 11.5 (drawn 10)").
    pub name: String,
    /// Its material.
    pub hatch: Hatch,
    /// Where its back is, in millimetres.
    pub from: f64,
    /// Where its face is or will be, in millimetres, beyond `from`.
    pub to: f64,
    /// Its thickness in the job's units (`11.5`, `1/2`), or empty.
    pub figure: String,
    /// Its tolerance (`±0.5`), or empty.
    pub tolerance: String,
    /// How far it has got: what is done is drawn solid, what is to come light and dashed.
    pub state: State,
}

/// Something set into the face.
#[derive(Debug, Clone, PartialEq)]
pub struct SectionPiece {
    /// What it is.
    pub name: String,
    /// Its form in section.
    pub form: PieceForm,
    /// Its material.
    pub hatch: Hatch,
    /// Where its back seats, in millimetres.
    pub from: f64,
    /// Where its front is or will be, in millimetres, beyond `from`.
    pub to: f64,
    /// How wide it is along the face, in millimetres. A wide piece is drawn shortened, with break lines.
    pub width: f64,
    /// Clear gap between it and the layers, on each side, in millimetres.
    pub gap: f64,
    /// Whether layers go over it (a box behind plaster) or stop at it.
    pub covered: bool,
    /// How far it has got.
    pub state: State,
}

/// The form of a piece in section.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PieceForm {
    /// A solid: blocking, a cabinet's end, a sill.
    Solid,
    /// An open-fronted box: for a switch, a valve, a lamp.
    Box,
    /// A channel open to the room: a track.
    Track,
    /// A frame with blades.
    Grille,
    /// A pane seen at its edge.
    Glass,
    /// A rebated frame.
    Frame,
}

/// The finish plane.
#[derive(Debug, Clone, PartialEq)]
pub struct FinishPlane {
    /// Where it comes to be, in millimetres.
    pub at: f64,
    /// How far it may fall back, in millimetres, not below zero.
    pub minus: f64,
    /// How far it may stand out, in millimetres, not below zero.
    pub plus: f64,
    /// "finish plane 67.5 ±1.6".
    pub words: String,
    /// "from the control line; the band holds nineteen in twenty", or empty.
    pub note: String,
}

/// A line that everything is measured from.
#[derive(Debug, Clone, PartialEq)]
pub struct ControlLine {
    /// Where it is, in millimetres. If it is far off the face it is drawn nearer, with a break.
    pub at: f64,
    /// "control line, tower".
    pub words: String,
}

/// Where something lands against where it is wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct Landing {
    /// Index of the piece it is about; none for the face itself.
    pub piece: Option<usize>,
    /// Where it lands, in millimetres.
    pub lands: f64,
    /// Where it is wanted, or the plane it is judged by, in millimetres.
    pub wanted: f64,
    /// "frame 1.5 behind the plaster".
    pub words: String,
    /// "wanted: flush, up to 1 proud", or empty.
    pub note: String,
    /// Whether that will do.
    pub verdict: Verdict,
}

/// One dimension of a string.
#[derive(Debug, Clone, PartialEq)]
pub struct Dimension {
    /// Where it begins, in millimetres.
    pub from: f64,
    /// Where it ends, in millimetres.
    pub to: f64,
    /// The length in the job's units.
    pub figure: String,
    /// Its tolerance, or empty.
    pub tolerance: String,
}

/// A section through a face, to true scale, with its scale bar. Empty if no layer has a thickness.
///
/// What is built is drawn solid with a heavy outline, what is to come light and dashed. A thick structure is cut short
/// by a break line and a far control line drawn nearer; everything in between is to one scale, and nothing is drawn
/// larger than it is: what is too small for its figures is led to from outside. Layers thinner than a pen stroke are
/// filled solid. Needs [`hatch_defs`](crate::hatch_defs).
///
/// On paper the scale is the one asked for, or the next smaller of 1:2, 1:5, 1:10 … at which the face fits the sheet;
/// the sheet says which.
#[must_use]
pub fn fit_section(section: &Section, medium: Medium) -> String {
    let section = sound::sound(section);
    let mut sheet = Sheet::new(medium);
    let top = sheet.heading(&section.title);
    let drawn = match section.kind {
        FaceKind::Wall => wall::draw(&mut sheet, &section, top),
        FaceKind::Floor | FaceKind::Ceiling => floor::draw(&mut sheet, &section, top),
    };
    let Some((foot, axis)) = drawn else {
        return String::new();
    };
    let end = foot + 8.0 + sheet.scale_bar(axis.enlargement, section.units, foot + 8.0);
    sheet.done("fit-section", &section.title, &section.said, end + 4.0)
}
