//! A small house for the tests, and notes about it.

#![allow(
    dead_code,
    unreachable_pub,
    clippy::unwrap_used,
    reason = "each test file uses its own part of a house that is known to be sound"
)]

use std::sync::LazyLock;

use grounds_model::{Job, LayerKey, Moment};
use grounds_site::{Kind, Note, Site, State, Subject, Value, fold};
use jiff::Timestamp;
use uuid::Uuid;

/// A stair hall and a shower room, in London time.
const JOB: &str = r#"
format = 1

[job]
name = "Two rooms"
units = "metric"
zone = "Europe/London"
begins = "2027-05-03"
calendar = "week"

[calendars.week]
days = ["mon", "tue", "wed", "thu", "fri"]
hours = ["08:00-12:00", "13:00-17:00"]

[trades.plasterer]
name = "Plasterer"

[trades.tiler]
name = "Tiler"

[trades.glazier]
name = "Glazier"

[levels.ground]
height = "0 m"
name = "Ground"

[places.stair-hall]
name = "Stair hall"
level = "ground"
kind = "hall"
entrance = true
faces.walls = { kind = "wall", build_up = "plaster" }

[places.shower-room]
name = "Shower room"
level = "ground"
faces.walls = { kind = "wall", build_up = "tiled" }
faces.floor = { kind = "floor", build_up = "tiled" }

[passages.shower-door]
name = "Shower room door"
kind = "door"
between = ["stair-hall", "shower-room"]

[build_ups.plaster]
name = "Plastered wall"
layers = [
  { id = "board", name = "Board", material = "board", trade = "plasterer" },
  { id = "base", name = "Base coat", material = "plaster", trade = "plasterer" },
  { id = "finish", name = "Finish coat", material = "plaster", trade = "plasterer" },
]

[build_ups.tiled]
name = "Tiled"
layers = [
  { id = "membrane", name = "Membrane", material = "membrane", trade = "tiler" },
  { id = "felt", name = "Felt", material = "fabric", trade = "tiler", protective = true },
  { id = "tile", name = "Tile", material = "tile", trade = "tiler" },
]

[pieces.stair-glass]
name = "Stair glass"
trade = "glazier"
place = "stair-hall"
takes = "4 h"
lead = "5 / 6 / 8 weeks"
measured_after = ["stair-hall.walls/finish"]
measuring = "1 h"
after = ["stair-hall.walls/finish"]
decision = "glass-tint"

[pieces.mixer]
name = "Mixer body"
trade = "tiler"
place = "shower-room"
takes = "1 h"
before = ["shower-room.walls/tile"]

[holds.flood-test]
name = "Flood test"
kind = "test"
place = "shower-room"
after = ["shower-room.floor/membrane"]
before = ["shower-room.floor/tile"]

[decisions.glass-tint]
name = "Tint of the glass"
by = "Owner"

[milestones.keys]
name = "Keys handed over"

[openings.niche]
name = "Niche"
place = "shower-room"
rough = "300 x 600 mm"
"#;

/// The small house.
pub fn job() -> &'static Job {
    static HOUSE: LazyLock<Job> = LazyLock::new(|| toml::from_str(JOB).unwrap());
    &HOUSE
}

/// A moment, as `2027-06-08T12:00:00Z`.
pub fn moment(text: &str) -> Timestamp {
    text.parse().unwrap()
}

/// Noon of a day in June 2027, in London.
pub fn june(day: i64) -> Timestamp {
    moment("2027-05-31T11:00:00Z") + jiff::SignedDuration::from_hours(24 * day)
}

/// The id of the note of that number. It does not tell when the note was written.
pub fn id(number: u128) -> Uuid {
    Uuid::from_u128(0x0193_0000_0000_4000_8000_0000_0000_0000 + number)
}

/// A note by Ana.
pub fn note(number: u128, at: Timestamp, about: &str, kind: Kind) -> Note {
    Note::new(id(number), at, "Ana", about, kind)
}

/// The site on the last of June.
pub fn site(notes: &[Note]) -> Site {
    fold(job(), notes, june(30))
}

/// A date without a time, as a note's value.
pub fn on(date: &str) -> Value {
    Value::When(Moment {
        date: date.parse().unwrap(),
        time: None,
    })
}

/// The state of a layer or of a thing with a key of its own.
pub fn state(site: &Site, about: &str) -> State {
    let subject = site
        .states
        .keys()
        .find(|subject| subject.to_string() == about);
    subject
        .map(|subject| site.state(subject))
        .unwrap_or_default()
}

/// A layer of the stair hall's walls.
pub fn wall(layer: &str) -> Subject {
    Subject::Layer(LayerKey {
        place: "stair-hall".into(),
        face: "walls".into(),
        layer: layer.into(),
    })
}

/// The questions, as sentences.
pub fn asked(site: &Site) -> Vec<&str> {
    site.questions
        .iter()
        .map(|question| question.words.as_str())
        .collect()
}
