//! A wall: cut level or upright, the structure at the left and the room at the right.

use crate::dimension_string::{Span, across_within};
use crate::fit_section::axis::Axis;
use crate::fit_section::column::{Column, Note};
use crate::fit_section::field::{Field, Reach};
use crate::fit_section::foot::{self, INDENT, Sample};
use crate::fit_section::names::{Name, set_in_steps};
use crate::fit_section::notes::{self, Lines};
use crate::fit_section::{Section, cut};
use crate::medium::Medium;
use crate::sheet::{Sheet, count};
use crate::stack::State;

/// Width kept beside the section for notes, in pixels.
const COLUMN: f64 = 232.0;

/// Draws the wall from `top` down; returns the foot of the drawing, and the axis for the scale.
pub(crate) fn draw(sheet: &mut Sheet, section: &Section, top: f64) -> Option<(f64, Axis)> {
    let medium = sheet.medium;
    let beside = match medium {
        Medium::Phone => 10.0,
        Medium::Desk => COLUMN,
        Medium::Paper(_) => COLUMN * 0.76,
    };
    let axis = Axis::of(section, medium, medium.width() - beside, 8.0)?;
    let (least, piece) = if medium.is_wide() {
        (210.0, 170.0)
    } else {
        (150.0, 116.0)
    };
    let mut field = Field::new(
        section,
        axis.clone(),
        (0.0, 0.0),
        Reach {
            least,
            most: 620.0,
            piece,
        },
    );
    let names: Vec<Name> = section
        .layers
        .iter()
        .map(|layer| Name {
            x: f64::midpoint(field.along(layer.from), field.along(layer.to)),
            words: notes::layer_name(layer),
            class: notes::name_class(layer.state),
        })
        .collect();
    let names = set_in_steps(sheet, &names);
    let strip = top + count(names.lines) * medium.line() + 12.0 + cut::PAST;
    field.corner = (0.0, strip);
    let right = field.axis.long;
    let column = Column {
        left: right + 26.0,
        edge: right - 2.0,
        top: strip - 4.0,
        foot: f64::INFINITY,
    };
    let beside = if medium.is_wide() {
        notes_beside(sheet, section, &field, column)
    } else {
        Vec::new()
    };
    cut::draw(sheet, section, &field);
    names.draw(sheet, top, strip + 7.0);
    let low = strip + field.across + cut::PAST;
    let noted = column.draw(sheet, beside);
    let mut foot = strings(sheet, section, &field, low + 14.0).max(noted) + 10.0;
    foot = foot::notes(sheet, &notes_under(sheet, section), foot);
    if !medium.is_wide() {
        for (index, _) in section.pieces.iter().enumerate() {
            ring_beside(sheet, &field, index);
        }
    }
    Some((foot, axis))
}

/// The string of the layers and the further ones; returns their foot.
fn strings(sheet: &mut Sheet, section: &Section, field: &Field, mut y: f64) -> f64 {
    let layers: Vec<Span> = section
        .layers
        .iter()
        .map(|layer| Span {
            from: field.along(layer.from),
            to: field.along(layer.to),
            figure: layer.figure.clone(),
            tolerance: layer.tolerance.clone(),
            soft: layer.state == State::ToCome,
            is_shortened: field.axis.shortens(layer.from, layer.to),
        })
        .collect();
    let further = section.strings.iter().map(|string| spans(string, field));
    // Notes beside the section may reach down beside its strings.
    let end = if sheet.medium.is_wide() {
        field.axis.long + 16.0
    } else {
        sheet.medium.width() - 1.0
    };
    let within = (1.0, end);
    let all: Vec<Vec<Span>> = std::iter::once(layers).chain(further).collect();
    for string in all
        .iter()
        .filter(|string| string.iter().any(|span| !span.figure.is_empty()))
    {
        y = across_within(sheet, string, y, within) + 14.0;
    }
    y - 8.0
}

/// A further string in pixels, in the order of the sheet.
pub(crate) fn spans(string: &[crate::Dimension], field: &Field) -> Vec<Span> {
    let mut spans: Vec<Span> = string
        .iter()
        .map(|dimension| {
            let (one, other) = (field.along(dimension.from), field.along(dimension.to));
            Span {
                from: one.min(other),
                to: one.max(other),
                figure: dimension.figure.clone(),
                tolerance: dimension.tolerance.clone(),
                soft: false,
                is_shortened: field.axis.shortens(dimension.from, dimension.to),
            }
        })
        .collect();
    spans.sort_by(|a, b| (a.from + a.to).total_cmp(&(b.from + b.to)));
    spans
}

/// With room beside: the finish plane, pieces and landings, each led to.
fn notes_beside(sheet: &Sheet, section: &Section, field: &Field, column: Column) -> Vec<Note> {
    let room = column.room(sheet);
    let mut all = Vec::new();
    if let Some(finish) = &section.finish {
        all.push(Note {
            about: field.place(finish.at, 4.0),
            lines: notes::finish(sheet, section, room),
        });
    }
    let landing = section
        .landings
        .iter()
        .find(|landing| landing.piece.is_none());
    if let Some(landing) = landing {
        let at = cut::landing_across(landing, field);
        all.push(Note {
            about: field.place(landing.lands.max(landing.wanted), at + 9.0),
            lines: notes::landings(sheet, section, None, room),
        });
    }
    for (index, (piece, seat)) in section.pieces.iter().zip(&field.seats).enumerate() {
        let wide = seat.to - seat.from;
        let across = if wide > 24.0 {
            seat.to - 4.0
        } else {
            seat.middle()
        };
        all.push(Note {
            about: field.place(piece.to, across),
            lines: notes::piece(sheet, section, index, room),
        });
    }
    all.retain(|note| !note.lines.is_empty());
    all
}

/// Under the section: on a phone everything that has no room beside, and the control line always.
pub(crate) fn notes_under(sheet: &Sheet, section: &Section) -> Vec<(Sample, Lines)> {
    let room = sheet.medium.width() - INDENT - 2.0;
    let mut all = Vec::new();
    if !sheet.medium.is_wide() {
        for (index, letter) in ('A'..='Z').enumerate().take(section.pieces.len()) {
            all.push((
                Sample::Ring(letter),
                notes::piece(sheet, section, index, room),
            ));
        }
        let mut finish = notes::landings(sheet, section, None, room);
        finish.extend(notes::finish(sheet, section, room));
        all.push((Sample::Finish, finish));
    }
    if let Some(control) = &section.control {
        let words = sheet.fitted(&control.words, room);
        all.push((Sample::Control, vec![("fit-name plane".to_owned(), words)]));
    }
    all
}

/// On a phone: the ring of a piece, in the room before the face.
fn ring_beside(sheet: &mut Sheet, field: &Field, index: usize) {
    let (Some(seat), Some(letter)) = (field.seats.get(index), ('A'..='Z').nth(index)) else {
        return;
    };
    let x = (field.corner.0 + field.axis.long + 2.0).min(sheet.medium.width() - 11.0);
    let y = field.corner.1 + seat.middle();
    cut::ring(sheet, (x, y), letter);
}
