//! What the section cuts through: layers, the seats cut into them, pieces, the planes and the control line.

use crate::fit_section::field::{Field, Seat};
use crate::fit_section::{Landing, PieceForm, Section, SectionLayer, SectionPiece};
use crate::hatch::{Tone, fill};
use crate::ink::number;
use crate::sheet::{Sheet, at};
use crate::stack::State;

/// Thinner than this, in pixels, a layer is filled solid as thin sections are.
const THIN: f64 = 3.2;
/// How far planes and the control line run past the face, in pixels.
pub(crate) const PAST: f64 = 9.0;

/// Draws everything but the lettering.
pub(crate) fn draw(sheet: &mut Sheet, section: &Section, field: &Field) {
    for layer in &section.layers {
        draw_layer(sheet, layer, field);
    }
    built_outline(sheet, section, field);
    for (piece, seat) in section.pieces.iter().zip(&field.seats) {
        draw_seat(sheet, section, piece, *seat, field);
    }
    for (piece, seat) in section.pieces.iter().zip(&field.seats) {
        draw_piece(sheet, piece, *seat, field);
    }
    if field.axis.is_cut {
        break_line(sheet, field);
    }
    planes(sheet, section, field);
    for landing in &section.landings {
        draw_landing(sheet, landing, field);
    }
}

fn pen(state: State) -> (&'static str, Tone) {
    match state {
        State::Done => ("built", Tone::Bare),
        State::InHand { .. } | State::Next => ("at-hand", Tone::Chalk),
        State::ToCome => ("coming", Tone::Soft),
    }
}

fn draw_layer(sheet: &mut Sheet, layer: &SectionLayer, field: &Field) {
    let (class, tone) = pen(layer.state);
    let (one, other) = (
        field.place(layer.from, 0.0),
        field.place(layer.to, field.across),
    );
    let thick = (layer.to - layer.from) * field.axis.enlargement.px;
    if thick < THIN {
        sheet.block(&format!("fit-thin {class}"), one, other, None);
    } else {
        sheet.block(
            &format!("fit-layer {class}"),
            one,
            other,
            Some(&fill(layer.hatch, tone)),
        );
    }
}

/// What is built has a heavy outline, as everything that is cut through.
fn built_outline(sheet: &mut Sheet, section: &Section, field: &Field) {
    let built = section
        .layers
        .iter()
        .filter(|layer| layer.state == State::Done);
    let (from, to) = built.fold((f64::INFINITY, f64::NEG_INFINITY), |(from, to), layer| {
        (from.min(layer.from), to.max(layer.to))
    });
    if from >= to {
        return;
    }
    let corner = |mm: f64, across: f64| at(field.place(mm, across));
    let (low, high) = (0.0, field.across);
    let end = if field.axis.is_cut { "" } else { "Z" };
    let data = format!(
        "M{}L{}L{}L{}{end}",
        corner(from, low),
        corner(to, low),
        corner(to, high),
        corner(from, high)
    );
    sheet.ink.path("fit-outline", &data);
}

/// The room left in the layers for a piece.
fn draw_seat(
    sheet: &mut Sheet,
    section: &Section,
    piece: &SectionPiece,
    seat: Seat,
    field: &Field,
) {
    let gap = piece.gap * field.axis.enlargement.px;
    let face = section
        .layers
        .iter()
        .map(|layer| layer.to)
        .fold(piece.from, f64::max);
    let front = if piece.covered { piece.to } else { face };
    if front <= piece.from {
        return;
    }
    let (from, to) = (
        (seat.from - gap).max(0.0),
        (seat.to + gap).min(field.across),
    );
    let past = if piece.covered { 0.0 } else { 1.4 };
    let end = field.axis.at(front) + past;
    let (back_low, back_high) = (field.place(piece.from, from), field.place(piece.from, to));
    let (front_low, front_high) = (field.place_px(end, from), field.place_px(end, to));
    sheet.block("fit-void", back_low, front_high, None);
    let data = format!(
        "M{}L{}L{}L{}",
        at(front_low),
        at(back_low),
        at(back_high),
        at(front_high)
    );
    sheet.ink.path("fit-joint", &data);
}

/// A piece, drawn in its own frame: along from its back to its front, across its width.
struct Body<'a> {
    field: &'a Field,
    seat: Seat,
    back: f64,
    front: f64,
}

impl Body<'_> {
    fn deep(&self) -> f64 {
        self.front - self.back
    }

    fn wide(&self) -> f64 {
        self.seat.to - self.seat.from
    }

    /// Wall of a sheet-metal piece, in pixels.
    fn wall(&self) -> f64 {
        (self.deep().min(self.wide()) * 0.14).clamp(2.0, 7.0)
    }

    fn outline(&self, places: &[(f64, f64)]) -> String {
        let mut data = String::new();
        for (index, (along, across)) in places.iter().enumerate() {
            data.push(if index == 0 { 'M' } else { 'L' });
            let place = self
                .field
                .place_px(self.back + along, self.seat.from + across);
            data.push_str(&at(place));
        }
        data.push('Z');
        data
    }
}

fn draw_piece(sheet: &mut Sheet, piece: &SectionPiece, seat: Seat, field: &Field) {
    let body = Body {
        field,
        seat,
        back: field.axis.at(piece.from),
        front: field.axis.at(piece.to),
    };
    let (class, tone) = pen(piece.state);
    let hatch = fill(piece.hatch, tone);
    let glass = fill(crate::hatch::Hatch::Glass, tone);
    for (part, data) in parts(piece.form, &body) {
        let hatch = match part {
            Part::Solid => Some(hatch.as_str()),
            Part::Pane => Some(glass.as_str()),
            Part::Thin | Part::Line => None,
        };
        let name = match part {
            Part::Thin => "fit-thin",
            Part::Line => "fit-diagonal",
            Part::Solid | Part::Pane => "fit-piece",
        };
        sheet.ink.open("path").class(&format!("{name} {class}"));
        if let Some(hatch) = hatch {
            sheet.ink.word("fill", hatch);
        }
        sheet.ink.data(&data).shut();
    }
    if seat.is_shortened {
        shortened(sheet, &body);
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Part {
    /// Hatched in the piece's material.
    Solid,
    /// Hatched as glass.
    Pane,
    /// Too thin to hatch.
    Thin,
    /// A line upon the piece: the diagonal of a solid.
    Line,
}

fn parts(form: PieceForm, body: &Body<'_>) -> Vec<(Part, String)> {
    let (deep, wide) = (body.deep(), body.wide());
    let whole = body.outline(&[(0.0, 0.0), (deep, 0.0), (deep, wide), (0.0, wide)]);
    match form {
        PieceForm::Solid => vec![
            (Part::Solid, whole),
            (Part::Line, body.outline(&[(0.0, 0.0), (deep, wide)])),
        ],
        PieceForm::Glass => vec![(Part::Pane, whole)],
        PieceForm::Box => vec![(Part::Thin, channel(body, 2.2))],
        PieceForm::Track => vec![(Part::Solid, channel(body, body.wall().max(3.0)))],
        PieceForm::Grille => grille(body),
        PieceForm::Frame => frame(body),
    }
}

/// Three sides, open to the room.
fn channel(body: &Body<'_>, wall: f64) -> String {
    let (deep, wide) = (body.deep(), body.wide());
    body.outline(&[
        (deep, 0.0),
        (0.0, 0.0),
        (0.0, wide),
        (deep, wide),
        (deep, wide - wall),
        (wall, wide - wall),
        (wall, wall),
        (deep, wall),
    ])
}

/// Two rails and slanted blades between them.
fn grille(body: &Body<'_>) -> Vec<(Part, String)> {
    let (deep, wide) = (body.deep(), body.wide());
    let rail = (wide * 0.08).clamp(2.5, 6.0);
    let bar = |from: f64| {
        body.outline(&[
            (0.0, from),
            (deep, from),
            (deep, from + rail),
            (0.0, from + rail),
        ])
    };
    let mut parts = vec![(Part::Solid, bar(0.0)), (Part::Solid, bar(wide - rail))];
    let clear = wide - 2.0 * rail;
    if clear < 6.0 {
        return parts;
    }
    let blades = (clear / 9.0).floor().clamp(1.0, 40.0);
    let pitch = clear / blades;
    let mut at = rail + pitch * 0.25;
    while at < wide - rail - pitch * 0.4 {
        let slant = pitch * 0.35;
        parts.push((
            Part::Thin,
            body.outline(&[
                (deep * 0.15, at + slant),
                (deep, at),
                (deep, at + 1.6),
                (deep * 0.15, at + slant + 1.6),
            ]),
        ));
        at += pitch;
    }
    parts
}

/// A rebate on both sides with a pane behind it.
fn frame(body: &Body<'_>) -> Vec<(Part, String)> {
    let (deep, wide) = (body.deep(), body.wide());
    let side = (wide * 0.16).clamp(3.0, 12.0);
    let lip = (side * 2.0).min(wide * 0.36);
    let face = deep * 0.32;
    let low = body.outline(&[
        (0.0, 0.0),
        (deep, 0.0),
        (deep, lip),
        (deep - face, lip),
        (deep - face, side),
        (0.0, side),
    ]);
    let high = body.outline(&[
        (0.0, wide),
        (deep, wide),
        (deep, wide - lip),
        (deep - face, wide - lip),
        (deep - face, wide - side),
        (0.0, wide - side),
    ]);
    let pane = body.outline(&[
        (deep * 0.2, side + 2.0),
        (deep - face - 1.5, side + 2.0),
        (deep - face - 1.5, wide - side - 2.0),
        (deep * 0.2, wide - side - 2.0),
    ]);
    vec![(Part::Pane, pane), (Part::Solid, low), (Part::Solid, high)]
}

/// Two break lines and a strip of bare sheet through a piece that is drawn shorter than it is.
fn shortened(sheet: &mut Sheet, body: &Body<'_>) {
    let middle = body.seat.middle();
    let (back, front) = (body.back - 2.0, body.front + 2.0);
    let place = |along: f64, across: f64| body.field.place_px(along, across);
    sheet.block(
        "fit-void",
        place(back, middle - 3.0),
        place(front, middle + 3.0),
        None,
    );
    for across in [middle - 3.0, middle + 3.0] {
        let half = f64::midpoint(back, front);
        let data = format!(
            "M{}L{}L{}L{}L{}",
            at(place(back - 2.0, across)),
            at(place(half - 3.0, across)),
            at(place(half - 1.0, across - 3.0)),
            at(place(half + 1.0, across + 3.0)),
            at(place(half + 3.0, across))
        );
        let end = at(place(front + 2.0, across));
        sheet.ink.path("fit-joint", &format!("{data}L{end}"));
    }
}

/// The zigzag behind which the structure goes on.
fn break_line(sheet: &mut Sheet, field: &Field) {
    let along = field.axis.at(field.axis.from);
    let half = field.across / 2.0;
    let place = |off: f64, across: f64| at(field.place_px(along + off, across));
    let data = format!(
        "M{}L{}L{}L{}L{}L{}",
        place(0.0, -PAST),
        place(0.0, half - 10.0),
        place(8.0, half - 4.0),
        place(-8.0, half + 4.0),
        place(0.0, half + 10.0),
        place(0.0, field.across + PAST),
    );
    sheet.ink.path("fit-break", &data);
}

/// The band of the finish plane, the plane itself and the control line.
fn planes(sheet: &mut Sheet, section: &Section, field: &Field) {
    let (start, end) = (-PAST, field.across + PAST);
    if let Some(finish) = &section.finish {
        let (low, high) = (finish.at - finish.minus, finish.at + finish.plus);
        if high > low {
            sheet.block(
                "fit-band",
                field.place(low, start),
                field.place(high, end),
                None,
            );
        }
        sheet.line(
            "fit-plane",
            field.place(finish.at, start),
            field.place(finish.at, end),
        );
    }
    if let Some(control) = &section.control {
        sheet.line(
            "fit-control",
            field.place(control.at, start),
            field.place(control.at, end),
        );
    }
}

/// Across where a landing is shown.
pub(crate) fn landing_across(landing: &Landing, field: &Field) -> f64 {
    landing
        .piece
        .and_then(|piece| field.seats.get(piece))
        .map_or(16.0, |seat| {
            seat.from + (0.5 * (seat.to - seat.from)).min(9.0)
        })
}

/// Two witness lines, and the distance between them: with ticks where there is room, else with arrows from outside.
fn draw_landing(sheet: &mut Sheet, landing: &Landing, field: &Field) {
    let class = landing.verdict.class();
    let across = landing_across(landing, field);
    let (lands, wanted) = (field.axis.at(landing.lands), field.axis.at(landing.wanted));
    let (low, high) = (lands.min(wanted), lands.max(wanted));
    for along in [lands, wanted] {
        let ends = (
            field.place_px(along, across - 11.0),
            field.place_px(along, across + 11.0),
        );
        sheet.line(&format!("fit-witness {class}"), ends.0, ends.1);
    }
    let class = format!("fit-land {class}");
    if high - low >= 16.0 {
        sheet.line(
            &class,
            field.place_px(low, across),
            field.place_px(high, across),
        );
        return;
    }
    for (tip, out) in [(low, -1.0), (high, 1.0)] {
        let head = format!(
            "M{}L{}L{}Z",
            at(field.place_px(tip, across)),
            at(field.place_px(tip + out * 7.0, across - 3.0)),
            at(field.place_px(tip + out * 7.0, across + 3.0)),
        );
        sheet.line(
            &class,
            field.place_px(tip + out * 6.0, across),
            field.place_px(tip + out * 17.0, across),
        );
        sheet
            .ink
            .path(&format!("fit-arrow {}", landing.verdict.class()), &head);
    }
}

/// A ring with a letter in it, by which a note refers to a piece.
pub(crate) fn ring(sheet: &mut Sheet, place: (f64, f64), letter: char) {
    let size = sheet.medium.size();
    sheet.ink.open("circle").class("fit-ring");
    sheet
        .ink
        .num("cx", place.0)
        .num("cy", place.1)
        .num("r", size * 0.66)
        .shut();
    sheet.letter(
        "fit-strong",
        crate::sheet::Anchor::Middle,
        place.0,
        place.1 + size * 0.36,
        &letter.to_string(),
    );
}

/// A leader with a dot where it points.
pub(crate) fn leader(sheet: &mut Sheet, places: &[(f64, f64)]) {
    let Some(first) = places.first() else {
        return;
    };
    let mut data = String::new();
    for (index, place) in places.iter().enumerate() {
        data.push(if index == 0 { 'M' } else { 'L' });
        data.push_str(&at(*place));
    }
    sheet.ink.path("fit-leader", &data);
    let (x, y) = (number(first.0), number(first.1));
    sheet
        .ink
        .open("circle")
        .class("fit-dot")
        .word("cx", &x)
        .word("cy", &y);
    sheet.ink.word("r", "1.9").shut();
}
