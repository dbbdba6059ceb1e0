//! The stack mark: a small section through a face, shown beside every activity.

use crate::ink::{Frame, Ink};
use crate::stack::{Layer, State};
use crate::strip::{Structure, ToCome, draw_strip, frames};

const WIDTH: f64 = 44.0;
const HEIGHT: f64 = 40.0;
const LEAST: f64 = 5.0;

/// The stack mark of a face, 44 × 40 px over its lines: structure on the left, finish on the right. Layers done are
/// hatched and filled, the one in hand or ready is drawn in chalk, those to come are dashed.
///
/// `title` is what a screen reader says; the state of the layers is added to it. Without layers the mark is an empty
/// dashed frame. Needs [`hatch_defs`](crate::hatch_defs) on the page.
#[must_use]
pub fn stack_mark(title: &str, layers: &[Layer]) -> String {
    let mut ink = Ink::new();
    ink.svg("stack-mark", WIDTH, HEIGHT)
        .word("role", "img")
        .end();
    ink.open("title")
        .end()
        .text(&sentence(title, layers))
        .close("title");
    let frame = Frame {
        x: 2.0,
        y: 3.0,
        width: WIDTH - 4.0,
        height: HEIGHT - 6.0,
    };
    if layers.is_empty() {
        ink.open("rect").class("to-come").frame(frame).shut();
    }
    let frames = frames(layers, frame, Structure::Left, LEAST);
    draw_strip(&mut ink, layers, &frames, Structure::Left, ToCome::Outline);
    ink.close("svg");
    ink.done()
}

fn sentence(title: &str, layers: &[Layer]) -> String {
    let done = layers
        .iter()
        .filter(|layer| layer.state == State::Done)
        .count();
    let trouble = layers
        .iter()
        .map(|layer| layer.trouble.word())
        .find(|word| !word.is_empty())
        .unwrap_or("");
    format!("{title}: {done} of {} layers done{trouble}", layers.len())
}
