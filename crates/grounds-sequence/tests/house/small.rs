//! A small house to build tests from: a hall with a front door, a room and a bath behind it.

#![allow(
    dead_code,
    unreachable_pub,
    reason = "each test file uses its own part of this"
)]

use super::House;

/// The week, the trades and the three places; no build-ups or pieces yet.
///
/// 7 June 2027 is a Monday.
pub const FRAME: &str = r#"
format = 1

[job]
name = "Three rooms"
units = "metric"
zone = "Europe/London"
begins = "2027-06-01"
calendar = "week"
cost_per_day = "100"
currency = "GBP"

[calendars.week]
days = ["mon", "tue", "wed", "thu", "fri"]
hours = ["08:00-16:00"]

[calendars.thursdays]
days = ["thu"]
hours = ["08:00-16:00"]

[trades.plaster]
name = "Plasterer"

[trades.paint]
name = "Painter"

[trades.tile]
name = "Tiler"

[trades.floor]
name = "Floor layer"

[trades.glass]
name = "Glazier"

[trades.inspect]
name = "Inspector"
authority = true

[levels.ground]
name = "Ground floor"
height = "0 mm"

[places.hall]
name = "Hall"
level = "ground"
kind = "hall"
entrance = true

[places.room]
name = "Room"
level = "ground"

[places.bath]
name = "Bath"
level = "ground"

[passages.room-door]
kind = "door"
between = ["hall", "room"]

[passages.bath-door]
kind = "door"
between = ["hall", "bath"]
"#;

/// Two coats of plaster of 4 h each, the first 24 h before the second, the second 72 h before paint
/// of 4 h.
pub const PLASTERED: &str = r#"
[build_ups.plastered]
name = "Plastered and painted"

[[build_ups.plastered.layers]]
id = "base"
name = "Base coat"
material = "plaster"
trade = "plaster"
takes = "4 h"
recoat = "24 h"

[[build_ups.plastered.layers]]
id = "top"
name = "Top coat"
material = "plaster"
trade = "plaster"
takes = "4 h"
cover = "72 h"

[[build_ups.plastered.layers]]
id = "paint"
name = "Paint"
material = "paint"
trade = "paint"
takes = "4 h"
"#;

/// One coat on a floor, 4 h of work, shut for 24 h.
pub const COATED: &str = r#"
[build_ups.coated]
name = "Coated floor"

[[build_ups.coated.layers]]
id = "coat"
name = "Floor coat"
material = "finish"
trade = "floor"
takes = "4 h"
traffic = { socks = "12 h", boots = "24 h" }
"#;

/// A face of a place.
pub fn face(place: &str, face: &str, kind: &str, build_up: &str) -> String {
    format!(
        "[places.{place}.faces.{face}]\nkind = \"{kind}\"\nbuild_up = \"{build_up}\"\narea = \"20 m2\"\n"
    )
}

/// The frame with more in it.
pub fn house(parts: &[&str]) -> House {
    parts
        .iter()
        .fold(House::new(FRAME), |house, part| house.and(part))
}

/// The room's walls plastered.
pub fn plastered_room() -> House {
    house(&[PLASTERED, &face("room", "walls", "wall", "plastered")])
}
