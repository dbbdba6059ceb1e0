//! An invented water-mill with invented work, the same at every call.

use grounds_draw::{
    Bar, Closure, Day, Face, FaceKind, Hatch, House, HouseLevel, Layer, Level, Link, Mark,
    MarkKind, Piece, Place, Room, State, Trouble, Weeks, Zoom,
};

const LEVELS: [(&str, &str, &[&str]); 5] = [
    ("Roof", "+10.90", &["Terrace"]),
    ("Loft", "+7.60", &["Bedroom", "Bath", "Landing", "Bin loft"]),
    (
        "Stone floor",
        "+4.45",
        &[
            "Mill hall",
            "Kitchen",
            "Pantry",
            "Stair hall",
            "Guest room",
            "Guest bath",
        ],
    ),
    (
        "Mill floor",
        "+1.30",
        &[
            "Wheel room",
            "Steam room",
            "Sluice bath",
            "Hall",
            "Cloakroom",
            "Boot room by the weir door",
        ],
    ),
    ("All levels", "", &["Stair tower"]),
];

const WORK: [(&str, Hatch); 9] = [
    ("Board", Hatch::Board),
    ("Base coat", Hatch::Plaster),
    ("Finish coat", Hatch::Plaster),
    ("Membrane", Hatch::Membrane),
    ("Floor tile", Hatch::Tile),
    ("Oak boards", Hatch::Timber),
    ("Glass screen", Hatch::Glass),
    ("Second paint coat", Hatch::Paint),
    ("Stone sills", Hatch::Stone),
];

/// A small generator of equally spread numbers, so that the picture is the same each time (Knuth's multiplier).
struct Dice(u32);

impl Dice {
    fn below(&mut self, end: u32) -> u32 {
        self.0 = self.0.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (self.0 >> 16) % end.max(1)
    }
}

const TODAY: f64 = 3.3;

pub(crate) fn weeks(zoom: Zoom, days: u32) -> Weeks {
    let mut dice = Dice(7);
    let levels = LEVELS
        .iter()
        .map(|(name, height, places)| Level {
            name: (*name).into(),
            height: (*height).into(),
            places: places
                .iter()
                .map(|place| place_of(place, days, &mut dice))
                .collect(),
        })
        .collect();
    Weeks {
        title: "The weeks from 8 June, every trade".into(),
        days: (0..days).map(day).collect(),
        levels,
        closures: vec![
            Closure {
                from: 6.4,
                to: 9.5,
                reason: "boards drying".into(),
                places: ["Bedroom", "Bath", "Landing"].map(String::from).into(),
            },
            Closure {
                from: 9.0,
                to: 11.0,
                reason: "hall floor oiled".into(),
                places: ["Hall", "Cloakroom", "Sluice bath"]
                    .map(String::from)
                    .into(),
            },
        ],
        today: TODAY,
        zoom,
    }
}

fn day(index: u32) -> Day {
    let names = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
    let months = [
        ("Jun", 30),
        ("Jul", 31),
        ("Aug", 31),
        ("Sep", 30),
        ("Oct", 31),
        ("Nov", 30),
    ];
    let (mut date, mut month) = (8 + index, 0);
    while date > months[month].1 {
        date -= months[month].1;
        month += 1;
    }
    let weekday = index as usize % 7;
    Day {
        weekday: names[weekday].into(),
        date: format!("{date} {}", months[month].0),
        rest: weekday > 4,
        begins_week: weekday == 0,
    }
}

fn place_of(name: &str, days: u32, dice: &mut Dice) -> Place {
    let mut bars = Vec::new();
    let mut from = f64::from(dice.below(30)) / 10.0;
    while from < f64::from(days) {
        let length = 0.5 + f64::from(dice.below(25)) / 10.0;
        bars.push(bar(name, from, from + length, dice));
        from += f64::from(dice.below(42)) / 10.0 + 0.6;
    }
    let marks = (0..1 + days / 30)
        .map(|_| {
            let kind = [
                MarkKind::Delivery,
                MarkKind::Inspection,
                MarkKind::Decision,
                MarkKind::Milestone,
            ][dice.below(4) as usize];
            let trouble = [Trouble::None, Trouble::None, Trouble::Care, Trouble::Breach]
                [dice.below(4) as usize];
            Mark {
                at: f64::from(dice.below(days * 10)) / 10.0,
                kind,
                trouble,
                said: "Stair glass arrives".into(),
                href: Link::new("/buy/7"),
            }
        })
        .collect();
    Place {
        key: name.into(),
        name: name.into(),
        bars,
        marks,
    }
}

fn bar(place: &str, from: f64, to: f64, dice: &mut Dice) -> Bar {
    let (label, hatch) = WORK[dice.below(9) as usize];
    let state = if to < TODAY {
        State::Done
    } else if from < TODAY {
        State::InHand {
            percent: (100.0 * (TODAY - from) / (to - from)) as u8,
        }
    } else if dice.below(6) == 0 && from < TODAY + 3.0 {
        State::Next
    } else {
        State::ToCome
    };
    let drives = state != State::Done && dice.below(6) == 0;
    let spare = state == State::ToCome && !drives && dice.below(3) > 0;
    Bar {
        from,
        to,
        latest: spare.then(|| to + f64::from(dice.below(90)) / 10.0),
        hatch,
        state,
        drives,
        trouble: if dice.below(14) == 0 {
            Trouble::Care
        } else {
            Trouble::None
        },
        label: label.into(),
        said: format!("{label}, {place}, Thu 11 June to Fri noon"),
        href: Link::new(&format!("/why/{}", dice.below(900))),
    }
}

fn layer(name: &str, hatch: Hatch, thickness: f64, words: &str, state: State) -> Layer {
    Layer {
        name: name.into(),
        hatch,
        thickness,
        thickness_words: words.into(),
        state,
        trouble: Trouble::None,
    }
}

pub(crate) fn faces() -> Vec<Face> {
    let piece = |name: &str, after, state, trouble| Piece {
        name: name.into(),
        after,
        state,
        trouble,
    };
    let (done, next, to_come) = (State::Done, State::Next, State::ToCome);
    let mut tile = layer("wall tile", Hatch::Tile, 9.0, "9", to_come);
    tile.trouble = Trouble::Care;
    vec![
        Face {
            name: "Wall to the tower".into(),
            kind: FaceKind::Wall,
            layers: vec![
                layer("stud", Hatch::Timber, 38.0, "38 ±1.5", done),
                layer("board", Hatch::Board, 15.0, "15 ±0.4", done),
                layer(
                    "base coat",
                    Hatch::Plaster,
                    11.5,
                    "11.5",
                    State::InHand { percent: 60 },
                ),
                layer("finish coat", Hatch::Plaster, 3.0, "3 ±0.5", to_come),
                layer("two paint coats", Hatch::Paint, 0.2, "0.2", to_come),
            ],
            pieces: vec![
                piece("glass channel", 1, done, Trouble::None),
                piece("rail brackets", 2, to_come, Trouble::Care),
            ],
        },
        Face {
            name: "Shower wall".into(),
            kind: FaceKind::Wall,
            layers: vec![
                layer("concrete", Hatch::Concrete, 140.0, "140", done),
                layer("insulation", Hatch::Insulation, 60.0, "60", done),
                layer("render", Hatch::Plaster, 12.0, "12", done),
                layer("membrane", Hatch::Membrane, 2.0, "2", next),
                tile,
            ],
            pieces: vec![piece("niche", 2, done, Trouble::None)],
        },
        Face {
            name: "Floor".into(),
            kind: FaceKind::Floor,
            layers: vec![
                layer("screed", Hatch::Screed, 65.0, "65", done),
                layer("felt", Hatch::Fabric, 3.0, "3", next),
                layer("stone", Hatch::Stone, 20.0, "20", to_come),
            ],
            pieces: vec![],
        },
        Face {
            name: "Ceiling".into(),
            kind: FaceKind::Ceiling,
            layers: vec![
                layer("air", Hatch::Void, 50.0, "50", done),
                layer("metal grid", Hatch::Metal, 27.0, "27", done),
                layer("board", Hatch::Board, 12.5, "12.5", done),
                layer(
                    "skim",
                    Hatch::Plaster,
                    2.0,
                    "2",
                    State::InHand { percent: 30 },
                ),
            ],
            pieces: vec![],
        },
    ]
}

pub(crate) fn house() -> House {
    let mut dice = Dice(3);
    let levels = LEVELS
        .iter()
        .map(|(name, height, rooms)| HouseLevel {
            name: (*name).into(),
            height: (*height).into(),
            rooms: rooms.iter().map(|room| room_of(room, &mut dice)).collect(),
        })
        .collect();
    House { levels }
}

fn room_of(name: &str, dice: &mut Dice) -> Room {
    let known = faces();
    let mut faces = Vec::new();
    for (at, times) in [(2, 1), (3, 1), (0, 1), (1, dice.below(4))] {
        for _ in 0..times {
            let mut face = known[at].clone();
            let done = dice.below(6) as usize;
            for (index, layer) in face.layers.iter_mut().enumerate() {
                layer.state = match index.cmp(&done) {
                    std::cmp::Ordering::Less => State::Done,
                    std::cmp::Ordering::Equal if dice.below(2) == 0 => {
                        State::InHand { percent: 55 }
                    }
                    std::cmp::Ordering::Equal => State::Next,
                    std::cmp::Ordering::Greater => State::ToCome,
                };
            }
            faces.push(face);
        }
    }
    Room {
        name: name.into(),
        next: "floor tile can start".into(),
        href: Link::new("/place/1"),
        faces,
    }
}
