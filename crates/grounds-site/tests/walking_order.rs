//! The order in which somebody walks a house to look at all of it.

#![allow(
    clippy::unwrap_used,
    reason = "the houses of these tests are known to be sound"
)]

mod house;

use grounds_model::Job;
use grounds_site::walking_order;

/// A house from its levels, its places (level, key, entrance) and its ways (kind, from, to).
fn built(
    levels: &[(&str, &str)],
    places: &[(&str, &str, bool)],
    ways: &[(&str, &str, &str)],
) -> Job {
    let mut text = r#"
format = 1
[job]
name = "House"
units = "metric"
zone = "Europe/London"
begins = "2027-05-03"
calendar = "week"
[calendars.week]
days = ["mon"]
hours = ["08:00-12:00"]
"#
    .to_owned();
    for (level, height) in levels {
        text += &format!("[levels.{level}]\nname = \"{level}\"\nheight = \"{height}\"\n");
    }
    for (level, place, entrance) in places {
        text += &format!(
            "[places.{place}]\nname = \"{place}\"\nlevel = \"{level}\"\nentrance = {entrance}\n"
        );
    }
    for (number, (kind, from, to)) in ways.iter().enumerate() {
        text += &format!(
            "[passages.way-{number}]\nkind = \"{kind}\"\nbetween = [\"{from}\", \"{to}\"]\n"
        );
    }
    toml::from_str(&text).unwrap()
}

fn order(job: &Job) -> Vec<String> {
    walking_order(job).iter().map(ToString::to_string).collect()
}

#[test]
fn the_walk_begins_at_the_door_and_takes_the_nearest_room_first() {
    let job = built(
        &[("ground", "0 m")],
        &[
            ("ground", "bath", false),
            ("ground", "attic-room", false),
            ("ground", "hall", true),
        ],
        &[
            ("door", "outside", "hall"),
            ("door", "hall", "bath"),
            ("door", "bath", "attic-room"),
        ],
    );
    assert_eq!(order(&job), ["hall", "bath", "attic-room"]);
}

#[test]
fn a_level_is_seen_to_its_end_before_the_next() {
    let job = built(
        &[("upper", "3 m"), ("ground", "0 m")],
        &[
            ("ground", "hall", true),
            ("ground", "far-room", false),
            ("ground", "kitchen", false),
            ("upper", "landing", false),
            ("upper", "bedroom", false),
        ],
        &[
            ("stair", "hall", "landing"),
            ("door", "landing", "bedroom"),
            ("door", "hall", "kitchen"),
            ("door", "kitchen", "far-room"),
        ],
    );
    assert_eq!(
        order(&job),
        ["hall", "kitchen", "far-room", "landing", "bedroom"]
    );
}

#[test]
fn of_two_ways_in_the_lower_one_is_taken() {
    let job = built(
        &[("cellar", "-3 m"), ("ground", "0 m")],
        &[("ground", "hall", true), ("cellar", "yard-room", true)],
        &[("stair", "hall", "yard-room")],
    );
    assert_eq!(order(&job), ["yard-room", "hall"]);
}

#[test]
fn a_room_that_nothing_leads_to_comes_last() {
    let job = built(
        &[("ground", "0 m")],
        &[
            ("ground", "a-sealed-room", false),
            ("ground", "hall", true),
            ("ground", "study", false),
        ],
        &[("opening", "hall", "study")],
    );
    assert_eq!(order(&job), ["hall", "study", "a-sealed-room"]);
}

#[test]
fn a_house_without_a_door_or_without_a_room_is_walked_all_the_same() {
    let closed = built(
        &[("ground", "0 m")],
        &[("ground", "b", false), ("ground", "a", false)],
        &[],
    );
    assert_eq!(order(&closed), ["a", "b"]);
    assert_eq!(order(&built(&[], &[], &[])), [""; 0]);
}

#[test]
fn the_small_house_is_walked_from_its_stair_hall() {
    assert_eq!(order(house::job()), ["stair-hall", "shower-room"]);
}

#[test]
fn every_place_of_the_mill_is_walked_once_and_no_level_twice() {
    let text = include_str!("../../../examples/alder-sluice/job.toml");
    let job = grounds_model::read("job.toml", text).unwrap();
    let order = walking_order(&job);
    let mut places = order.clone();
    places.sort();
    assert_eq!(places, job.places.keys().cloned().collect::<Vec<_>>());
    assert!(job.places[&order[0]].entrance);
    let mut levels: Vec<_> = order.iter().map(|id| &job.places[id].level).collect();
    levels.dedup();
    assert_eq!(levels.len(), job.levels.len(), "{levels:?}");
}
