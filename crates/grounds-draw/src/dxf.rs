//! A section as DXF, the open interchange format that shops read: ASCII, release 12 (AC1009), in millimetres.
//!
//! Release 12 is what every reader takes. It is written here, by the group codes of the published DXF reference
//! (release 12), because a face needs four entities of it: `LINE`, `POLYLINE`, `TEXT` and the tables they refer to. Our
//! checks read it back with a library of others (ezdxf).
//!
//! | layer of the file | holds |
//! |---|---|
//! | `BUILT` | outlines of layers that are up |
//! | `TO-COME` | outlines of layers that are not, dashed |
//! | `PIECES` | outlines of pieces; form and wall are the maker's |
//! | `FINISH-PLANE`, `BAND` | the finish plane, and how far it may be off |
//! | `CONTROL-LINE` | the line measured from |
//! | `LANDS`, `WANTED` | where something lands, and where it is wanted |
//! | `NAMES`, `DIMENSIONS` | names, thicknesses with their tolerances |

use std::fmt::Write as _;

use crate::fit_section::{Section, sound};
use crate::stack::{FaceKind, State};

/// Height of lettering, in millimetres (ISO 3098, published, has 2.5 among its sizes).
const LETTER: f64 = 2.5;
/// Face drawn before, between and after pieces, in millimetres.
const BETWEEN: f64 = 60.0;
/// Face drawn at the least, in millimetres.
const LEAST: f64 = 200.0;

/// A layer of the file: its name, pen number and line.
struct Pen(&'static str, u8, &'static str);

const PENS: [Pen; 10] = [
    Pen("BUILT", 7, "CONTINUOUS"),
    Pen("TO-COME", 8, "DASHED"),
    Pen("PIECES", 7, "CONTINUOUS"),
    Pen("FINISH-PLANE", 5, "CENTER"),
    Pen("BAND", 5, "DASHED"),
    Pen("CONTROL-LINE", 5, "CENTER"),
    Pen("LANDS", 1, "CONTINUOUS"),
    Pen("WANTED", 3, "DASHED"),
    Pen("NAMES", 7, "CONTINUOUS"),
    Pen("DIMENSIONS", 8, "CONTINUOUS"),
];

/// The section as a DXF file in millimetres, at full size and without breaks. Along the axis every position is as given:
/// to the right for a wall, upward for a floor, downward for a ceiling. Across it, pieces have their own width and the
/// face between them none that means anything.
#[must_use]
pub fn section_dxf(section: &Section) -> String {
    let section = sound::sound(section);
    let widths: f64 = section
        .pieces
        .iter()
        .map(|piece| piece.width + BETWEEN)
        .sum();
    let mut file = File {
        text: String::new(),
        kind: section.kind,
        across: (widths + BETWEEN).max(LEAST),
    };
    file.head();
    file.tables();
    file.group(0, "SECTION");
    file.group(2, "ENTITIES");
    file.layers(&section);
    file.pieces(&section);
    file.planes(&section);
    file.letter("NAMES", (0.0, -4.0 * LETTER), &section.title);
    file.group(0, "ENDSEC");
    file.group(0, "EOF");
    file.text
}

struct File {
    text: String,
    kind: FaceKind,
    across: f64,
}

impl File {
    fn group(&mut self, code: u16, value: &str) {
        let _ = write!(self.text, "{code}\r\n{value}\r\n");
    }

    fn number(&mut self, code: u16, value: f64) {
        let value = if value == 0.0 { 0.0 } else { value };
        self.group(code, &format!("{value:.4}"));
    }

    fn place(&mut self, code: u16, (x, y): (f64, f64)) {
        self.number(code, x);
        self.number(code + 10, y);
        self.number(code + 20, 0.0);
    }

    fn head(&mut self) {
        self.group(0, "SECTION");
        self.group(2, "HEADER");
        self.group(9, "$ACADVER");
        self.group(1, "AC1009");
        self.group(9, "$INSUNITS");
        self.group(70, "4");
        self.group(0, "ENDSEC");
    }

    fn tables(&mut self) {
        self.group(0, "SECTION");
        self.group(2, "TABLES");
        self.group(0, "TABLE");
        self.group(2, "LTYPE");
        self.group(70, "3");
        self.line_type("CONTINUOUS", "", &[]);
        self.line_type("DASHED", "__ __", &[6.0, -3.0]);
        self.line_type("CENTER", "____ _ ____", &[16.0, -3.0, 3.0, -3.0]);
        self.group(0, "ENDTAB");
        self.group(0, "TABLE");
        self.group(2, "LAYER");
        self.group(70, &PENS.len().to_string());
        for Pen(name, colour, line) in PENS {
            self.group(0, "LAYER");
            self.group(2, name);
            self.group(70, "0");
            self.group(62, &colour.to_string());
            self.group(6, line);
        }
        self.group(0, "ENDTAB");
        self.group(0, "ENDSEC");
    }

    fn line_type(&mut self, name: &str, looks: &str, dashes: &[f64]) {
        self.group(0, "LTYPE");
        self.group(2, name);
        self.group(70, "0");
        self.group(3, looks);
        self.group(72, "65");
        self.group(73, &dashes.len().to_string());
        self.number(40, dashes.iter().map(|dash| dash.abs()).sum());
        for dash in dashes {
            self.number(49, *dash);
        }
    }

    /// A place of the face in the file.
    fn at(&self, along: f64, across: f64) -> (f64, f64) {
        match self.kind {
            FaceKind::Wall => (along, across),
            FaceKind::Floor => (across, along),
            FaceKind::Ceiling => (across, -along),
        }
    }

    fn line(&mut self, pen: &str, one: (f64, f64), other: (f64, f64)) {
        self.group(0, "LINE");
        self.group(8, pen);
        self.place(10, one);
        self.place(11, other);
    }

    /// A line across the whole face.
    fn plane(&mut self, pen: &str, along: f64) {
        let (one, other) = (self.at(along, 0.0), self.at(along, self.across));
        self.line(pen, one, other);
    }

    fn block(&mut self, pen: &str, (from, to): (f64, f64), (low, high): (f64, f64)) {
        self.group(0, "POLYLINE");
        self.group(8, pen);
        self.group(66, "1");
        self.place(10, (0.0, 0.0));
        self.group(70, "1");
        for (along, across) in [(from, low), (to, low), (to, high), (from, high)] {
            let place = self.at(along, across);
            self.group(0, "VERTEX");
            self.group(8, pen);
            self.place(10, place);
        }
        self.group(0, "SEQEND");
        self.group(8, pen);
    }

    fn letter(&mut self, pen: &str, place: (f64, f64), words: &str) {
        let words = plain(words);
        if words.is_empty() {
            return;
        }
        self.group(0, "TEXT");
        self.group(8, pen);
        self.place(10, place);
        self.number(40, LETTER);
        self.group(1, &words);
    }

    /// Layers with their names and thicknesses in steps beyond the far side.
    fn layers(&mut self, section: &Section) {
        let mut step = self.across + 2.0 * LETTER;
        for layer in &section.layers {
            let pen = if layer.state == State::Done {
                "BUILT"
            } else {
                "TO-COME"
            };
            self.block(pen, (layer.from, layer.to), (0.0, self.across));
            let middle = f64::midpoint(layer.from, layer.to);
            let (foot, head) = match self.kind {
                FaceKind::Wall => (self.at(middle, self.across), (middle, step)),
                _ => (self.at(middle, self.across), self.at(middle, step)),
            };
            self.line("NAMES", foot, head);
            let words = format!("{} {} {}", layer.name, layer.figure, layer.tolerance);
            self.letter("NAMES", (head.0 + 1.0, head.1), &words);
            step += LETTER * 2.0;
        }
        for string in &section.strings {
            step += LETTER * 2.0;
            for dimension in string {
                let (one, other) = (self.at(dimension.from, step), self.at(dimension.to, step));
                self.line("DIMENSIONS", one, other);
                let place = self.at(f64::midpoint(dimension.from, dimension.to), step + LETTER);
                self.letter(
                    "DIMENSIONS",
                    place,
                    &format!("{} {}", dimension.figure, dimension.tolerance),
                );
            }
        }
    }

    fn pieces(&mut self, section: &Section) {
        let mut across = BETWEEN;
        for (index, piece) in section.pieces.iter().enumerate() {
            let end = across + piece.width;
            self.block("PIECES", (piece.from, piece.to), (across, end));
            let place = self.at(piece.from, f64::midpoint(across, end));
            self.letter(
                "NAMES",
                (place.0 + 1.0, place.1 - LETTER / 2.0),
                &piece.name,
            );
            for landing in section
                .landings
                .iter()
                .filter(|landing| landing.piece == Some(index))
            {
                let (lands, wanted) = (landing.lands, landing.wanted);
                self.line("LANDS", self.at(lands, across), self.at(lands, end));
                self.line("WANTED", self.at(wanted, across), self.at(wanted, end));
            }
            across = end + BETWEEN;
        }
    }

    fn planes(&mut self, section: &Section) {
        if let Some(finish) = &section.finish {
            self.plane("FINISH-PLANE", finish.at);
            self.plane("BAND", finish.at - finish.minus);
            self.plane("BAND", finish.at + finish.plus);
            let place = self.at(finish.at, -2.0 * LETTER);
            self.letter("NAMES", place, &finish.words);
        }
        if let Some(control) = &section.control {
            self.plane("CONTROL-LINE", control.at);
            let place = self.at(control.at, -2.0 * LETTER);
            self.letter("NAMES", place, &control.words);
        }
        for landing in section
            .landings
            .iter()
            .filter(|landing| landing.piece.is_none())
        {
            self.plane("LANDS", landing.lands);
            self.plane("WANTED", landing.wanted);
        }
    }
}

/// Words on one line of ASCII: other letters as `\U+0041`, no control codes of the format (`%%d`) and no line ends.
fn plain(words: &str) -> String {
    let mut plain = String::new();
    for letter in words
        .trim()
        .chars()
        .filter(|letter| !letter.is_control())
        .take(120)
    {
        match letter {
            '%' if plain.ends_with('%') => plain.push_str(" %"),
            '\\' => plain.push('/'),
            letter if letter.is_ascii() => plain.push(letter),
            letter => {
                let _ = write!(plain, "\\U+{:04X}", u32::from(letter).min(0xFFFF));
            }
        }
    }
    plain
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_stay_on_their_line() {
        assert_eq!(plain("a\r\n0\r\nEOF"), "a0EOF");
        assert_eq!(plain("5 %%d ±1"), "5 % %d \\U+00B11");
        assert_eq!(plain("back\\slash"), "back/slash");
    }
}
