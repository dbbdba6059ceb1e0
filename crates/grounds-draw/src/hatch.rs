//! Material hatches in the usual manner of building drawings, as SVG patterns.

use crate::ink::{Ink, number};

/// A material as drawn in section. The manner follows common drafting practice (compare ISO 128-3 on hatching and the
/// material conventions taught for building sections); there is no one binding set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hatch {
    /// Plaster and render: stipple.
    Plaster,
    /// Gypsum and other sheet board: fine lines along the sheet.
    Board,
    /// Timber along the grain.
    Timber,
    /// Tile: a grid.
    Tile,
    /// Stone: broken diagonals.
    Stone,
    /// Glass: groups of short strokes.
    Glass,
    /// Metal: close diagonals.
    Metal,
    /// Screed and levelling: triangles.
    Screed,
    /// Concrete: triangles and stipple.
    Concrete,
    /// Membranes and sheets against water or vapour: a heavy broken line.
    Membrane,
    /// Insulation: a running curve.
    Insulation,
    /// Paint, stain, oil and other thin coats: upright strokes.
    Paint,
    /// Fabric and felt: small crosses.
    Fabric,
    /// An air space, or work that leaves nothing behind (a test, a delivery): nearly empty.
    Void,
}

impl Hatch {
    /// Every hatch, in the order of the key.
    pub const ALL: [Self; 14] = [
        Self::Plaster,
        Self::Board,
        Self::Timber,
        Self::Tile,
        Self::Stone,
        Self::Glass,
        Self::Metal,
        Self::Screed,
        Self::Concrete,
        Self::Membrane,
        Self::Insulation,
        Self::Paint,
        Self::Fabric,
        Self::Void,
    ];

    /// The material in a plain word, for the key.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Plaster => "plaster",
            Self::Board => "board",
            Self::Timber => "timber",
            Self::Tile => "tile",
            Self::Stone => "stone",
            Self::Glass => "glass",
            Self::Metal => "metal",
            Self::Screed => "screed",
            Self::Concrete => "concrete",
            Self::Membrane => "membrane",
            Self::Insulation => "insulation",
            Self::Paint => "paint or oil",
            Self::Fabric => "fabric or felt",
            Self::Void => "air, or nothing left behind",
        }
    }

    /// Name of the pattern: short, because a chart names it a thousand times. A pattern is called
    /// `h-`, this, `-` and the letter of its tone.
    #[must_use]
    pub fn stem(self) -> &'static str {
        match self {
            Self::Plaster => "plaster",
            Self::Board => "board",
            Self::Timber => "timber",
            Self::Tile => "tile",
            Self::Stone => "stone",
            Self::Glass => "glass",
            Self::Metal => "metal",
            Self::Screed => "screed",
            Self::Concrete => "concrete",
            Self::Membrane => "membrane",
            Self::Insulation => "insul",
            Self::Paint => "paint",
            Self::Fabric => "fabric",
            Self::Void => "void",
        }
    }

    /// Tile of the pattern: width and height in pixels, path of its lines, whether the pen is broad.
    fn tile(self) -> Tile {
        let (width, height, lines, pen) = match self {
            Self::Plaster => (
                13.0,
                11.0,
                "M2 2h0M8.5 1h0M5 5h0M11.5 5.5h0M1.5 8h0M8 9h0",
                Pen::Dot,
            ),
            Self::Board => (12.0, 4.0, "M0 2H12", Pen::Fine),
            Self::Timber => (
                28.0,
                9.0,
                "M0 2.5q7-1.8 14 0t14 0M0 7q7-1.8 14 0t14 0",
                Pen::Fine,
            ),
            Self::Tile => (8.0, 8.0, "M0 4H8M4 0V8", Pen::Fine),
            Self::Stone => (
                14.0,
                14.0,
                "M0 7L7 0M9.5 11.5L14 7M7 14L8 13M2 12L4 10",
                Pen::Fine,
            ),
            Self::Glass => (
                18.0,
                13.0,
                "M3 9L7 4M6 10.5L10 5.5M12.5 4.5L15 1.5",
                Pen::Fine,
            ),
            Self::Metal => (4.0, 4.0, "M-1 1L1 -1M0 4L4 0M3 5L5 3", Pen::Fine),
            Self::Screed => (
                15.0,
                13.0,
                "M2 6h4.4L4.2 2.4zM9 11.5h4.4L11.2 7.9z",
                Pen::Fine,
            ),
            Self::Concrete => (
                17.0,
                14.0,
                "M2 6h4.6L4.3 2.2zM9.5 12h4.6L11.8 8.2zM11 2h.8M4 10.5h.8M15 5h.8",
                Pen::Fine,
            ),
            Self::Membrane => (11.0, 6.0, "M0 3H7", Pen::Broad),
            Self::Insulation => (10.0, 12.0, "M0 12C4 12 1 0 5 0S6 12 10 12", Pen::Fine),
            Self::Paint => (5.0, 6.0, "M2.5 0V6", Pen::Fine),
            Self::Fabric => (
                9.0,
                9.0,
                "M1.5 1.5l2.6 2.6m0-2.6l-2.6 2.6M6 6l2.6 2.6m0-2.6l-2.6 2.6",
                Pen::Fine,
            ),
            Self::Void => (16.0, 16.0, "M5 11L11 5", Pen::Fine),
        };
        Tile {
            width,
            height,
            lines,
            pen,
        }
    }
}

#[derive(Debug, Clone, Copy)]
enum Pen {
    Fine,
    Broad,
    Dot,
}

struct Tile {
    width: f64,
    height: f64,
    lines: &'static str,
    pen: Pen,
}

/// The ink a hatch is drawn in and the ground under it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Tone {
    /// Ink on a filled ground: it is there.
    Filled,
    /// Ink on the bare sheet.
    Bare,
    /// Soft ink on the bare sheet: to come.
    Soft,
    /// Chalk: the one in question.
    Chalk,
}

impl Tone {
    const ALL: [Self; 4] = [Self::Filled, Self::Bare, Self::Soft, Self::Chalk];

    fn letter(self) -> char {
        match self {
            Self::Filled => 'f',
            Self::Bare => 'b',
            Self::Soft => 's',
            Self::Chalk => 'c',
        }
    }
}

/// The `fill` value that refers to a hatch in a tone.
pub(crate) fn fill(hatch: Hatch, tone: Tone) -> String {
    format!("url(#h-{}-{})", hatch.stem(), tone.letter())
}

/// The patterns that every other drawing of this crate refers to, as one unseen `<svg>`. Put it once on each page that
/// holds a drawing, not inside an element that is hidden (a hidden pattern paints nothing).
#[must_use]
pub fn hatch_defs() -> String {
    let mut ink = Ink::new();
    ink.open("svg")
        .class("hatches")
        .word("width", "0")
        .word("height", "0");
    ink.word("aria-hidden", "true")
        .word("focusable", "false")
        .end();
    ink.open("defs").end();
    for tone in Tone::ALL {
        for hatch in Hatch::ALL {
            pattern(&mut ink, hatch, tone);
        }
    }
    shut_pattern(&mut ink);
    ink.close("defs").close("svg");
    ink.done()
}

fn pattern(ink: &mut Ink, hatch: Hatch, tone: Tone) {
    let tile = hatch.tile();
    let pen = match tile.pen {
        Pen::Fine => "fine",
        Pen::Broad => "broad",
        Pen::Dot => "dot",
    };
    ink.open("pattern")
        .word("id", &format!("h-{}-{}", hatch.stem(), tone.letter()));
    ink.class(&format!("hatch-{}", tone.letter()));
    ink.num("width", tile.width)
        .num("height", tile.height)
        .word("patternUnits", "userSpaceOnUse")
        .end();
    ink.open("path").class("ground").data(&ground(&tile)).shut();
    ink.path(pen, tile.lines).close("pattern");
}

fn ground(tile: &Tile) -> String {
    format!("M0 0H{}V{}H0z", number(tile.width), number(tile.height))
}

/// The hatch over a place that nobody can cross: wide falling diagonals, the other way round from any material.
fn shut_pattern(ink: &mut Ink) {
    ink.open("pattern").word("id", "h-shut").class("hatch-shut");
    ink.word("width", "13")
        .word("height", "13")
        .word("patternUnits", "userSpaceOnUse")
        .end();
    ink.path("fine", "M-1 -1L14 14M-1 12L1 14M12 -1L14 1")
        .close("pattern");
}
