//! What stands under a section: notes with a sample of the line they speak of, and the scale.

use crate::fit_section::cut::ring;
use crate::fit_section::notes::Lines;
use crate::sheet::count;
use crate::sheet::{Anchor, Sheet};

/// What a note under the section points to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Sample {
    /// The finish plane and its band.
    Finish,
    /// The control line.
    Control,
    /// A piece with a ring and this letter.
    Ring(char),
}

/// From the left to a note's words, in pixels.
pub(crate) const INDENT: f64 = 34.0;

/// Draws notes from `y` down; returns their foot.
pub(crate) fn notes(sheet: &mut Sheet, notes: &[(Sample, Lines)], mut y: f64) -> f64 {
    let (line, size) = (sheet.medium.line(), sheet.medium.size());
    for (sample, lines) in notes.iter().filter(|(_, lines)| !lines.is_empty()) {
        let middle = y + line / 2.0;
        match sample {
            Sample::Ring(letter) => ring(sheet, (12.0, middle), *letter),
            Sample::Control => sheet.line("fit-control", (2.0, middle), (26.0, middle)),
            Sample::Finish => {
                sheet.block("fit-band", (2.0, middle - 5.0), (26.0, middle + 5.0), None);
                sheet.line("fit-plane", (2.0, middle), (26.0, middle));
            }
        }
        for (index, (class, words)) in lines.iter().enumerate() {
            let base = middle + line * count(index) + size * 0.36;
            sheet.letter(class, Anchor::Start, INDENT, base, words);
        }
        y += line * count(lines.len()) + 6.0;
    }
    y
}
