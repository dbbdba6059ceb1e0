//! Small drawings to test, and a reader of markup that is not this crate: roxmltree, an XML parser. It
//! refuses what is not well formed, so each test that reads a drawing also checks that.

#![allow(dead_code, reason = "each test file uses a part")]

use grounds_draw::{
    Bar, Closure, Day, Face, FaceKind, Hatch, Layer, Level, Link, Mark, MarkKind, Piece, Place,
    State, Trouble, Weeks, Zoom,
};
use roxmltree::{Document, Node};

/// Reads markup as XML and hands it to a check.
pub(crate) fn read<T>(markup: &str, check: impl FnOnce(&Document<'_>) -> T) -> T {
    let whole = format!("<page>{markup}</page>");
    let document = Document::parse(&whole)
        .unwrap_or_else(|fault| panic!("not well formed: {fault}\n{markup}"));
    check(&document)
}

pub(crate) fn has_class(node: &Node<'_, '_>, class: &str) -> bool {
    node.attribute("class")
        .is_some_and(|names| names.split(' ').any(|name| name == class))
}

pub(crate) fn with_class<'a, 'i>(document: &'a Document<'i>, class: &'a str) -> Vec<Node<'a, 'i>> {
    document
        .descendants()
        .filter(|node| has_class(node, class))
        .collect()
}

pub(crate) fn length(node: &Node<'_, '_>, name: &str) -> f64 {
    node.attribute(name)
        .and_then(|value| value.parse().ok())
        .unwrap_or_else(|| panic!("no {name} on {node:?}"))
}

pub(crate) fn layer(name: &str, hatch: Hatch, thickness: f64, state: State) -> Layer {
    Layer {
        name: name.into(),
        hatch,
        thickness,
        thickness_words: format!("{thickness}"),
        state,
        trouble: Trouble::None,
    }
}

pub(crate) fn skimmed_wall() -> Face {
    Face {
        name: "Wall to the tower".into(),
        kind: FaceKind::Wall,
        layers: vec![
            layer("stud", Hatch::Timber, 38.0, State::Done),
            layer("board", Hatch::Board, 12.5, State::Done),
            layer(
                "finish coat",
                Hatch::Plaster,
                3.0,
                State::InHand { percent: 50 },
            ),
            layer("two paint coats", Hatch::Paint, 0.2, State::ToCome),
        ],
        pieces: vec![Piece {
            name: "glass channel".into(),
            after: 1,
            state: State::Done,
            trouble: Trouble::None,
        }],
    }
}

pub(crate) fn bar(label: &str, from: f64, to: f64, state: State) -> Bar {
    Bar {
        from,
        to,
        latest: None,
        hatch: Hatch::Plaster,
        state,
        drives: false,
        trouble: Trouble::None,
        label: label.into(),
        said: format!("{label}, wheel room"),
        href: Link::new("/why/1"),
    }
}

pub(crate) fn place(name: &str, bars: Vec<Bar>) -> Place {
    Place {
        key: name.to_lowercase(),
        name: name.into(),
        bars,
        marks: vec![],
    }
}

pub(crate) fn days(count: u32) -> Vec<Day> {
    let names = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
    (0..count)
        .map(|index| {
            let weekday = index as usize % 7;
            Day {
                weekday: names[weekday].into(),
                date: format!("{} Jun", index + 1),
                rest: weekday > 4,
                begins_week: weekday == 0,
            }
        })
        .collect()
}

/// Two levels, three places, work that overlaps, a closure on two of the places, one of each kind of mark.
pub(crate) fn small_chart(zoom: Zoom) -> Weeks {
    let mark = |at, kind| Mark {
        at,
        kind,
        trouble: Trouble::None,
        said: "stair glass arrives".into(),
        href: None,
    };
    let mut hall = place(
        "Hall",
        vec![
            bar("Oak boards", 1.0, 4.5, State::ToCome),
            bar("Skim", 2.0, 3.0, State::Next),
        ],
    );
    hall.marks = vec![
        mark(0.5, MarkKind::Delivery),
        mark(6.0, MarkKind::Inspection),
        mark(8.0, MarkKind::Milestone),
        mark(9.5, MarkKind::Decision),
    ];
    let bath = place(
        "Bath",
        vec![
            bar("Membrane", -2.0, 1.0, State::Done),
            bar("Floor tile", 1.2, 3.9, State::InHand { percent: 40 }),
        ],
    );
    let mut terrace = place("Terrace", vec![bar("Pavers", 11.0, 40.0, State::ToCome)]);
    terrace.bars[0].drives = true;
    Weeks {
        title: "Two weeks from 1 June, every trade".into(),
        days: days(14),
        levels: vec![
            Level {
                name: "Roof".into(),
                height: "+10.90".into(),
                places: vec![terrace],
            },
            Level {
                name: "Mill floor".into(),
                height: "+1.30".into(),
                places: vec![hall, bath],
            },
        ],
        closures: vec![Closure {
            from: 5.0,
            to: 7.5,
            reason: "hall floor oiled".into(),
            places: vec!["hall".into(), "bath".into(), "no such place".into()],
        }],
        today: 2.3,
        zoom,
    }
}
