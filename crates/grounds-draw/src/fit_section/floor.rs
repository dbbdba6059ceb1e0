//! A floor or ceiling: cut upright, names beside it, dimensions on its other side.

use crate::dimension_string::{Span, upright, upright_room};
use crate::fit_section::axis::Axis;
use crate::fit_section::column::{Column, Note, height};
use crate::fit_section::field::{Field, Reach};
use crate::fit_section::foot;
use crate::fit_section::notes;
use crate::fit_section::wall::{notes_under, spans};
use crate::fit_section::{Section, cut};
use crate::medium::Medium;
use crate::sheet::Sheet;
use crate::stack::{FaceKind, State};

/// Draws the floor or ceiling from `top` down; returns the foot of the drawing, and the axis for the scale.
pub(crate) fn draw(sheet: &mut Sheet, section: &Section, top: f64) -> Option<(f64, Axis)> {
    let medium = sheet.medium;
    let room = match medium {
        Medium::Phone => 300.0,
        Medium::Desk => 380.0,
        Medium::Paper(_) => 560.0,
    };
    let axis = Axis::of(section, medium, room, 8.0)?;
    let (least, column_room) = if medium.is_wide() {
        (240.0, 210.0)
    } else {
        (96.0, 120.0)
    };
    let reach = |across: f64| Reach {
        least: across,
        most: across,
        piece: across * 0.56,
    };
    let mut field = Field::new(section, axis.clone(), (0.0, 0.0), reach(least));
    let strings = strings(section, &field);
    let widths: Vec<f64> = strings
        .iter()
        .map(|string| upright_room(sheet, string))
        .collect();
    let left = widths.iter().sum::<f64>() + 10.0;
    field.across = (medium.width() - left - column_room - 30.0).max(least);
    field = Field::new(section, axis.clone(), (left, 0.0), reach(field.across));
    let column = Column {
        left: left + field.across + 28.0,
        edge: left + field.across + 3.0,
        top,
        foot: f64::INFINITY,
    };
    let notes = notes_beside(sheet, section, &field, column.room(sheet));
    let needed = height(sheet, &notes);
    let (above, below) = room_for_rings(section, medium);
    let strip = top + ((needed - axis.long) / 2.0).max(above);
    field.corner = (left, strip);
    let notes = notes_beside(sheet, section, &field, column.room(sheet));
    cut::draw(sheet, section, &field);
    let within = (top, f64::INFINITY);
    let mut x = left - 10.0;
    for (string, wide) in strings_moved(&strings, strip).iter().zip(&widths) {
        upright(sheet, string, x, within);
        x -= wide;
    }
    let foot = column.draw(sheet, notes).max(strip + axis.long + below) + 8.0;
    if !medium.is_wide() {
        rings(sheet, section, &field);
    }
    let foot = foot::notes(sheet, &notes_under(sheet, section), foot);
    Some((foot, axis))
}

/// The string of the layers, then the further ones, where the field stands now.
fn strings(section: &Section, field: &Field) -> Vec<Vec<Span>> {
    let mut layers: Vec<Span> = section
        .layers
        .iter()
        .map(|layer| {
            let (one, other) = (field.along(layer.from), field.along(layer.to));
            Span {
                from: one.min(other),
                to: one.max(other),
                figure: layer.figure.clone(),
                tolerance: layer.tolerance.clone(),
                soft: layer.state == State::ToCome,
                is_shortened: field.axis.shortens(layer.from, layer.to),
            }
        })
        .collect();
    layers.sort_by(|a, b| (a.from + a.to).total_cmp(&(b.from + b.to)));
    let further = section.strings.iter().map(|string| spans(string, field));
    std::iter::once(layers).chain(further).collect()
}

fn strings_moved(strings: &[Vec<Span>], by: f64) -> Vec<Vec<Span>> {
    let moved = |span: &Span| Span {
        from: span.from + by,
        to: span.to + by,
        ..span.clone()
    };
    strings
        .iter()
        .map(|string| string.iter().map(moved).collect())
        .collect()
}

/// Layers, pieces, the finish plane and landings, each led to.
fn notes_beside(sheet: &Sheet, section: &Section, field: &Field, room: f64) -> Vec<Note> {
    let mut all: Vec<Note> = section
        .layers
        .iter()
        .map(|layer| Note {
            about: field.place_px(middle(field, layer.from, layer.to), field.across - 7.0),
            lines: notes::layer(sheet, layer, room),
        })
        .collect();
    if !sheet.medium.is_wide() {
        return all;
    }
    for (index, (piece, seat)) in section.pieces.iter().zip(&field.seats).enumerate() {
        let depth = piece.from + (piece.to - piece.from) * 0.7;
        all.push(Note {
            about: field.place(depth, seat.to - 3.0),
            lines: notes::piece(sheet, section, index, room),
        });
    }
    let mut finish = notes::finish(sheet, section, room);
    finish.extend(notes::landings(sheet, section, None, room));
    if let Some(plane) = &section.finish {
        all.push(Note {
            about: field.place(plane.at, field.across + cut::PAST - 2.0),
            lines: finish,
        });
    }
    all.retain(|note| !note.lines.is_empty());
    all
}

/// Room over and under the section for what stands before the face: arrows, and on a phone rings.
fn room_for_rings(section: &Section, medium: Medium) -> (f64, f64) {
    let room = if medium.is_wide() || section.pieces.is_empty() {
        8.0
    } else {
        28.0
    };
    match section.kind {
        FaceKind::Ceiling => (0.0, room),
        _ => (room, 0.0),
    }
}

/// The middle of a stretch as drawn, in pixels along the axis.
fn middle(field: &Field, from: f64, to: f64) -> f64 {
    f64::midpoint(field.axis.at(from), field.axis.at(to))
}

/// On a phone: rings in the room before the face, over or under their pieces.
fn rings(sheet: &mut Sheet, section: &Section, field: &Field) {
    let front = section.layers.last().map_or(0.0, |layer| layer.to);
    for ((piece, seat), letter) in section.pieces.iter().zip(&field.seats).zip('A'..='Z') {
        let along = field.axis.at(front.max(piece.to)) + 24.0;
        let across = seat.to + 4.0;
        cut::ring(sheet, field.place_px(along, across), letter);
    }
}
