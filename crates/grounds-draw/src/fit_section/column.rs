//! Notes in a column beside a section, each led to what it is about, none on another.

use crate::fit_section::cut::leader;
use crate::sheet::count;
use crate::sheet::{Anchor, Sheet};
use crate::spread::{Wish, spread};

/// A note of one or more lines.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Note {
    /// What it is about, on the sheet.
    pub(crate) about: (f64, f64),
    /// Its lines: class and words.
    pub(crate) lines: Vec<(String, String)>,
}

/// A column of notes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Column {
    /// Its left edge.
    pub(crate) left: f64,
    /// Where leaders leave the section.
    pub(crate) edge: f64,
    /// The highest a note may stand.
    pub(crate) top: f64,
    /// The lowest.
    pub(crate) foot: f64,
}

impl Column {
    /// Width of a column's lines in pixels.
    pub(crate) fn room(&self, sheet: &Sheet) -> f64 {
        sheet.medium.width() - self.left - 1.0
    }

    /// Draws the notes; returns the foot of the lowest.
    pub(crate) fn draw(&self, sheet: &mut Sheet, mut notes: Vec<Note>) -> f64 {
        notes.sort_by(|a, b| a.about.1.total_cmp(&b.about.1));
        let (line, size) = (sheet.medium.line(), sheet.medium.size());
        let wishes: Vec<Wish> = notes
            .iter()
            .map(|note| {
                let long = count(note.lines.len()) * line;
                Wish {
                    middle: note.about.1 + long / 2.0 - line / 2.0,
                    long,
                }
            })
            .collect();
        let middles = spread(&wishes, 3.0, self.top, self.foot);
        let mut foot = self.top;
        for ((note, wish), middle) in notes.iter().zip(&wishes).zip(middles) {
            let top = middle - wish.long / 2.0;
            let y = top + line / 2.0;
            let (x, about_y) = note.about;
            let mut places = vec![(x, about_y)];
            if x < self.edge {
                places.push((self.edge, about_y));
            }
            places.extend([(self.left - 11.0, y), (self.left - 4.0, y)]);
            leader(sheet, &places);
            for (index, (class, words)) in note.lines.iter().enumerate() {
                let base = y + line * count(index) + size * 0.36;
                sheet.letter(class, Anchor::Start, self.left, base, words);
            }
            foot = foot.max(top + wish.long);
        }
        foot
    }
}

/// The height of notes in a column, in pixels.
pub(crate) fn height(sheet: &Sheet, notes: &[Note]) -> f64 {
    notes
        .iter()
        .map(|note| count(note.lines.len()) * sheet.medium.line() + 3.0)
        .sum()
}
