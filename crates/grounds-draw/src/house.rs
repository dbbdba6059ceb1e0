//! The house by level: each room drawn as a section whose floor, walls and ceiling are their own stacks.

use crate::ink::{Frame, Ink};
use crate::link::Link;
use crate::section::stack_section;
use crate::stack::{Face, FaceKind, State, Trouble};
use crate::strip::{Structure, ToCome, draw_strip, frames, sign};

/// The house.
#[derive(Debug, Clone, PartialEq)]
pub struct House {
    /// Its levels from the highest down.
    pub levels: Vec<HouseLevel>,
}

/// A level.
#[derive(Debug, Clone, PartialEq)]
pub struct HouseLevel {
    /// "Stone floor".
    pub name: String,
    /// Height of the finished floor as the drawings give it ("+4.45"), or empty.
    pub height: String,
    /// Its rooms and other places.
    pub rooms: Vec<Room>,
}

/// A room or other place.
#[derive(Debug, Clone, PartialEq)]
pub struct Room {
    /// "Sluice bath".
    pub name: String,
    /// What is next in it, in a few words ("floor tile can start"), or empty.
    pub next: String,
    /// The page of the room.
    pub href: Option<Link>,
    /// Its faces.
    pub faces: Vec<Face>,
}

const WIDTH: f64 = 176.0;
const HEIGHT: f64 = 128.0;
/// Depth of a stack at the room's edge, and of the thinnest layer in it.
const DEPTH: f64 = 24.0;
const LEAST: f64 = 3.5;

/// The house as HTML: levels from the highest down, each with its level mark and heavy rule, on it the rooms as small
/// sections, and in each room a fold with the lettered section of every face. Needs [`hatch_defs`](crate::hatch_defs).
#[must_use]
pub fn house(house: &House) -> String {
    let mut ink = Ink::new();
    ink.open("div").class("house").end();
    for level in &house.levels {
        ink.open("section").class("level").end();
        level_line(&mut ink, level);
        ink.open("ul").class("rooms").end();
        for room in &level.rooms {
            draw_room(&mut ink, room);
        }
        ink.close("ul").close("section");
    }
    ink.close("div");
    ink.done()
}

/// The line a level stands on, with its mark. It comes first for those who hear the page; the style sheet lays it under
/// the rooms.
fn level_line(ink: &mut Ink, level: &HouseLevel) {
    ink.open("h2").class("level-name").end();
    ink.svg("level-mark", 16.0, 16.0)
        .word("aria-hidden", "true")
        .word("focusable", "false")
        .end();
    ink.path("level-triangle", "M1.5 2H14.5L8 13.5z")
        .close("svg");
    ink.open("span").end().text(&level.name).close("span");
    if !level.height.is_empty() {
        ink.text(" ").open("b").end().text(&level.height).close("b");
    }
    ink.close("h2");
}

fn draw_room(ink: &mut Ink, room: &Room) {
    ink.open("li").class("room").end();
    ink.open("div").class("room-words").end();
    ink.open("h3").class("room-name").end();
    match &room.href {
        Some(link) => ink
            .open("a")
            .word("href", link.as_str())
            .end()
            .text(&room.name)
            .close("a"),
        None => ink.text(&room.name),
    };
    ink.close("h3");
    if !room.next.is_empty() {
        ink.open("p")
            .class("room-next")
            .end()
            .text(&room.next)
            .close("p");
    }
    ink.close("div");
    faces(ink, room);
    section_of(ink, room);
    ink.close("li");
}

/// Every face lettered, folded away until someone asks.
fn faces(ink: &mut Ink, room: &Room) {
    if room.faces.is_empty() {
        return;
    }
    ink.open("details").class("fold faces").end();
    let count = room.faces.len();
    let word = if count == 1 { "face" } else { "faces" };
    ink.open("summary").end().text(&format!("{count} {word}"));
    ink.open("span")
        .class("said")
        .end()
        .text(" of ")
        .text(&room.name)
        .close("span")
        .close("summary");
    for face in &room.faces {
        ink.open("figure").class("face").end();
        ink.open("figcaption")
            .end()
            .text(&face.name)
            .close("figcaption");
        ink.whole(&stack_section(face));
        ink.close("figure");
    }
    ink.close("details");
}

fn section_of(ink: &mut Ink, room: &Room) {
    ink.svg("room-section", WIDTH, HEIGHT)
        .word("role", "img")
        .end();
    let sentences: Vec<String> = room.faces.iter().map(Face::sentence).collect();
    ink.open("title")
        .end()
        .text(&format!("{}. {}", room.name, sentences.join(". ")))
        .close("title");
    let floor = room.faces.iter().find(|face| face.kind == FaceKind::Floor);
    let ceiling = room
        .faces
        .iter()
        .find(|face| face.kind == FaceKind::Ceiling);
    let walls: Vec<&Face> = room
        .faces
        .iter()
        .filter(|face| face.kind == FaceKind::Wall)
        .collect();

    let inner = Frame {
        x: 2.0,
        y: 2.0 + if ceiling.is_some() { DEPTH } else { 0.0 },
        width: WIDTH - 4.0,
        height: HEIGHT
            - 4.0
            - if ceiling.is_some() { DEPTH } else { 0.0 }
            - if floor.is_some() { DEPTH } else { 0.0 },
    };
    open_edges(ink, inner);
    draw_walls(ink, &walls, inner);
    if let Some(face) = ceiling {
        stack(
            ink,
            face,
            Frame {
                y: 2.0,
                height: DEPTH,
                ..inner
            },
            Structure::Above,
        );
    }
    if let Some(face) = floor {
        stack(
            ink,
            face,
            Frame {
                y: inner.y + inner.height,
                height: DEPTH,
                ..inner
            },
            Structure::Below,
        );
    }
    count(ink, room, inner);
    ink.close("svg");
}

/// The first two walls stand left and right; further ones rise from the floor between them, as seen beyond.
fn draw_walls(ink: &mut Ink, walls: &[&Face], inner: Frame) {
    if let Some(face) = walls.first() {
        stack(
            ink,
            face,
            Frame {
                width: DEPTH,
                ..inner
            },
            Structure::Left,
        );
    }
    if let Some(face) = walls.get(1) {
        stack(
            ink,
            face,
            Frame {
                x: inner.x + inner.width - DEPTH,
                width: DEPTH,
                ..inner
            },
            Structure::Right,
        );
    }
    let further = walls.get(2..).unwrap_or_default();
    let Ok(count) = u32::try_from(further.len()) else {
        return;
    };
    let room = inner.width - 2.0 * DEPTH - 12.0;
    let step = room / f64::from(count.max(1));
    for (index, face) in (0_u32..).zip(further) {
        let width = 18.0_f64.min(step - 3.0);
        if width < 4.0 {
            return;
        }
        let x = inner.x + DEPTH + 6.0 + step * (f64::from(index) + 0.5) - width / 2.0;
        let height = inner.height * 0.5;
        stack(
            ink,
            face,
            Frame {
                x,
                y: inner.y + inner.height - height,
                width,
                height,
            },
            Structure::Left,
        );
    }
}

fn stack(ink: &mut Ink, face: &Face, frame: Frame, structure: Structure) {
    let frames = frames(&face.layers, frame, structure, LEAST);
    draw_strip(ink, &face.layers, &frames, structure, ToCome::Outline);
    let trouble = face
        .pieces
        .iter()
        .map(|piece| piece.trouble)
        .find(|trouble| *trouble != Trouble::None);
    if let Some(trouble) = trouble {
        sign(
            ink,
            trouble,
            frame.x + frame.width * 0.25,
            frame.y + frame.height * 0.25,
        );
    }
}

/// The bare room in a fine broken line: where a side has a stack it is drawn over, where it has none it stays open.
fn open_edges(ink: &mut Ink, inner: Frame) {
    ink.open("rect").class("open-edge").frame(inner).shut();
}

/// How many layers of the room are done, in the middle of it.
fn count(ink: &mut Ink, room: &Room, inner: Frame) {
    let layers = room.faces.iter().flat_map(|face| &face.layers);
    let (mut done, mut all) = (0_u32, 0_u32);
    for layer in layers {
        all += 1;
        done += u32::from(layer.state == State::Done);
    }
    let x = inner.x + inner.width / 2.0;
    let beyond = room
        .faces
        .iter()
        .filter(|face| face.kind == FaceKind::Wall)
        .count()
        > 2;
    let y = inner.y
        + if beyond {
            inner.height * 0.25
        } else {
            inner.height * 0.5
        }
        + 5.0;
    let words = match (done, all) {
        (_, 0) => return,
        (done, all) if done == all => "done".to_owned(),
        (done, all) => format!("{done} of {all}"),
    };
    ink.letter("room-count", x, y, &words);
}
