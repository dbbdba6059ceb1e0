//! The section through one face, lettered and dimensioned: what the stack mark grows into.

use crate::hatch::{Tone, fill};
use crate::ink::{Frame, Ink, number};
use crate::lettering::{fitted, width};
use crate::stack::{Face, Layer, Piece, State};
use crate::strip::{Structure, ToCome, draw_strip, frames, sign};

const WIDTH: f64 = 350.0;
const LEFT: f64 = 8.0;
const STACK_WIDTH: f64 = 168.0;
const LEAST: f64 = 11.0;
const LINE: f64 = 22.0;
const STACK_HEIGHT: f64 = 104.0;
const PIECE_LINE: f64 = 30.0;
const BREAK: f64 = 7.0;

/// A section through a face, 350 px wide and as high as its names need: structure on the left, finish on the right,
/// every layer named above with its leader, its thickness below in a dimension string, pieces named at the right.
///
/// Thicknesses are compressed, so the section shows order and state, not scale. Needs [`hatch_defs`](crate::hatch_defs).
#[must_use]
pub fn stack_section(face: &Face) -> String {
    let top = 10.0 + LINE * line_count(face.layers.len());
    let stack_height = STACK_HEIGHT.max(PIECE_LINE * line_count(face.pieces.len()));
    let frame = Frame {
        x: LEFT,
        y: top,
        width: STACK_WIDTH,
        height: stack_height,
    };
    let layers = frames(&face.layers, frame, Structure::Left, LEAST);
    let (dimensions, below) = dimension_string(&face.layers, &layers, top + stack_height + 16.0);

    let mut ink = Ink::new();
    ink.svg("stack-section", WIDTH, below + 6.0)
        .word("role", "img")
        .end();
    ink.open("title").end().text(&spoken(face)).close("title");
    draw_strip(
        &mut ink,
        &face.layers,
        &layers,
        Structure::Left,
        ToCome::Hatched,
    );
    break_line(&mut ink, frame);
    names(&mut ink, &face.layers, &layers, top);
    pieces(&mut ink, &face.pieces, &layers, frame);
    ink.whole(&dimensions);
    ink.close("svg");
    ink.done()
}

#[expect(
    clippy::cast_precision_loss,
    reason = "a face has a handful of layers and pieces"
)]
fn line_count(count: usize) -> f64 {
    count as f64
}

/// Everything the drawing says, in words.
fn spoken(face: &Face) -> String {
    let layers = face.layers.iter().map(|layer| {
        let gap = if layer.thickness_words.is_empty() {
            ""
        } else {
            " "
        };
        format!(
            "{}{gap}{} {}{}",
            layer.name,
            layer.thickness_words,
            layer.state.word(),
            layer.trouble.word()
        )
    });
    let pieces = face.pieces.iter().map(|piece| {
        format!(
            "{} {}{}",
            piece.name,
            piece.state.word(),
            piece.trouble.word()
        )
    });
    let all: Vec<String> = layers.chain(pieces).collect();
    format!("{}, from the structure: {}", face.name, all.join("; "))
}

/// The zigzag that says: the structure goes on behind.
fn break_line(ink: &mut Ink, frame: Frame) {
    let (x, middle) = (number(frame.x), frame.y + frame.height / 2.0);
    let data = format!(
        "M{x} {}V{}l{BREAK} 4l-{} 6l{BREAK} 4V{}",
        number(frame.y - 6.0),
        number(middle - 7.0),
        2.0 * BREAK,
        number(frame.y + frame.height + 6.0),
    );
    ink.path("break-line", &data);
}

/// Names stand in steps: the layer nearest the structure highest, each next one a line lower and further right, so no
/// leader ever crosses a name.
fn names(ink: &mut Ink, layers: &[Layer], frames: &[Frame], top: f64) {
    for (index, (layer, frame)) in layers.iter().zip(frames).enumerate() {
        let y = 8.0 + LINE * line_count(index);
        let x = frame.x + frame.width / 2.0;
        leader(
            ink,
            &format!("M{} {}V{}h7", number(x), number(top + 9.0), number(y)),
            x,
            top + 9.0,
        );
        let class = if layer.state == State::ToCome {
            "name soft"
        } else {
            "name"
        };
        if let Some(words) = fitted(&named(layer), WIDTH - x - 12.0) {
            ink.letter(
                &format!("{class} {}", layer.state.class()),
                x + 11.0,
                y + 5.0,
                &words,
            );
        }
    }
}

fn named(layer: &Layer) -> String {
    match layer.state {
        State::Done => layer.name.clone(),
        state => format!("{}, {}", layer.name, state.word()),
    }
}

fn leader(ink: &mut Ink, data: &str, x: f64, y: f64) {
    ink.path("leader", data);
    ink.open("circle")
        .class("leader-end")
        .num("cx", x)
        .num("cy", y)
        .num("r", 2.2)
        .shut();
}

/// Pieces are small crossed boxes on the plane of the layer they are set on, each on a line of its own.
fn pieces(ink: &mut Ink, pieces: &[Piece], frames: &[Frame], stack: Frame) {
    let right = stack.x + stack.width;
    let step = stack.height / line_count(pieces.len().max(1));
    for (index, piece) in pieces.iter().enumerate() {
        let plane = frames
            .get(piece.after)
            .or(frames.last())
            .map_or(right, |frame| frame.x + frame.width);
        let y = stack.y + step * (line_count(index) + 0.5);
        crossed_box(
            ink,
            piece,
            Frame {
                x: plane - 1.0,
                y: y - 8.0,
                width: 13.0,
                height: 16.0,
            },
        );
        ink.path(
            "leader",
            &format!(
                "M{} {}H{}",
                number(plane + 12.0),
                number(y),
                number(right + 22.0)
            ),
        );
        let words = if piece.state == State::Done {
            piece.name.clone()
        } else {
            format!("{}, {}", piece.name, piece.state.word())
        };
        if let Some(words) = fitted(&words, WIDTH - right - 28.0) {
            ink.letter(
                &format!("name {}", piece.state.class()),
                right + 26.0,
                y + 5.0,
                &words,
            );
        }
        sign(ink, piece.trouble, plane + 5.5, y);
    }
}

fn crossed_box(ink: &mut Ink, piece: &Piece, frame: Frame) {
    let tone = if piece.state == State::Done {
        Tone::Filled
    } else {
        Tone::Bare
    };
    ink.open("rect").class(piece.state.class()).frame(frame);
    ink.word("fill", &fill(crate::hatch::Hatch::Void, tone))
        .shut();
    let (x, y, right, bottom) = (
        frame.x,
        frame.y,
        frame.x + frame.width,
        frame.y + frame.height,
    );
    let data = format!(
        "M{} {}L{} {}M{} {}L{} {}",
        number(x),
        number(y),
        number(right),
        number(bottom),
        number(right),
        number(y),
        number(x),
        number(bottom)
    );
    ink.path(&format!("cross {}", piece.state.class()), &data);
}

/// The dimension string under the stack, and the y of its lowest line. Figures too wide for their layer step down to
/// the next free line and hang from a fine line.
fn dimension_string(layers: &[Layer], frames: &[Frame], y: f64) -> (String, f64) {
    if layers.iter().all(|layer| layer.thickness_words.is_empty()) {
        return (String::new(), y - 10.0);
    }
    let mut ink = Ink::new();
    let (Some(first), Some(last)) = (frames.first(), frames.last()) else {
        return (String::new(), y);
    };
    let end = last.x + last.width;
    ink.path(
        "dimension",
        &format!(
            "M{} {}H{}",
            number(first.x - 5.0),
            number(y),
            number(end + 5.0)
        ),
    );
    for x in frames.iter().map(|frame| frame.x).chain([end]) {
        ink.path(
            "tick",
            &format!("M{} {}l8 -8", number(x - 4.0), number(y + 4.0)),
        );
    }
    let mut taken: Vec<f64> = Vec::new();
    let mut lowest = y;
    for (layer, frame) in layers
        .iter()
        .zip(frames)
        .filter(|(layer, _)| !layer.thickness_words.is_empty())
    {
        let words = fitted(&layer.thickness_words, 110.0).unwrap_or_default();
        let (half, middle) = (width(&words) / 2.0, frame.x + frame.width / 2.0);
        let line = free_line(&mut taken, middle - half, middle + half);
        let text_y = y + 19.0 + 18.0 * line_count(line);
        if line > 0 {
            ink.path(
                "leader",
                &format!(
                    "M{} {}V{}",
                    number(middle),
                    number(y + 6.0),
                    number(text_y - 13.0)
                ),
            );
        }
        ink.letter(
            &format!("figure {}", layer.state.class()),
            middle,
            text_y,
            &words,
        );
        lowest = lowest.max(text_y);
    }
    (ink.done(), lowest)
}

/// The first line on which from..to is free. `taken` holds where each line ends. A line once stepped down is kept for
/// what follows close behind, since the fine line of the lower figure would cross it.
fn free_line(taken: &mut Vec<f64>, from: f64, to: f64) -> usize {
    let gap = 6.0;
    let line = taken
        .iter()
        .position(|end| end + gap <= from)
        .unwrap_or(taken.len());
    match taken.get_mut(line) {
        Some(end) => *end = to,
        None => taken.push(to),
    }
    line
}
