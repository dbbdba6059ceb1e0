//! One hall, and all the rooms open to it: who is cut off while its floor is wet.
//!
//! Rules: varnish bears socks after 24 h, boots and tools after 72 h, and is dust-dry after 8 h; tile
//! is not walked on for 24 h (makers' sheets, given). Who is cut off: reachability with the wet rooms
//! taken out of the map, at each moment (arithmetic).

mod house;

use std::collections::BTreeSet;

use house::{House, assert_says};

const NOW: &str = "2027-04-12 07:00";

#[test]
fn the_hall_opens_to_boots_on_saturday_and_to_crews_on_monday() {
    let plan = House::case("one-hallway").planned(NOW);

    assert_eq!(plan.finish("hall.floor/coat-3"), "Wed 2027-04-14 16:00");
    // 72 h after the last coat.
    assert_eq!(plan.start("hall-open"), "Sat 2027-04-17 16:00");
}

#[test]
fn bedrooms_and_bath_have_no_other_way_in() {
    let plan = House::case("one-hallway").planned(NOW);
    let network = &plan.outlook.network;
    let hall = network.node(&"hall".into()).expect("the hall");
    let cut: BTreeSet<&str> = network
        .cut_off_by(hall)
        .into_iter()
        .map(|id| id.as_str())
        .collect();
    let rooms: BTreeSet<&str> = cut
        .into_iter()
        .filter(|id| plan.job.places.contains_key(*id))
        .collect();

    assert_eq!(rooms, BTreeSet::from(["bath", "bed-a", "bed-b", "hall"]));
}

#[test]
fn painter_and_plumber_wait_until_monday() {
    let plan = House::case("one-hallway").planned(NOW);

    for key in ["bed-a.walls/paint", "basin"] {
        assert_eq!(plan.start(key), "Mon 2027-04-19 08:00", "{key}");
        assert_says(
            &plan.why(key),
            &["no way in", "varnish, last coat, hall floor keeps it shut"],
        );
    }
}

#[test]
fn the_tiler_comes_through_the_yard() {
    let plan = House::case("one-hallway").planned(NOW);

    assert_eq!(plan.start("kitchen.floor/tile"), "Tue 2027-04-13 08:00");
    assert_eq!(plan.finish("kitchen.floor/tile"), "Wed 2027-04-14 16:00");
}

#[test]
fn the_lounge_is_reached_neither_way_until_the_tile_bears_boots() {
    let plan = House::case("one-hallway").planned(NOW);

    // Booked for Thursday 15 April; tile ends Wednesday 16:00 and 24 h is Thursday 16:00.
    assert_eq!(plan.start("lounge-lights"), "Fri 2027-04-16 08:00");
    assert_says(
        &plan.why("lounge-lights"),
        &[
            "no way in",
            "floor tile, kitchen floor",
            "varnish, last coat, hall floor",
        ],
    );
}

#[test]
fn with_the_connecting_door_open_the_coat_and_the_tile_saw_would_clash() {
    // On one air, coats and cutting overlap on Tuesday and Wednesday between three and four.
    let open = House::case("one-hallway")
        .with(
            "name = \"Hall\"\nlevel = \"ground\"",
            "name = \"Hall\"\nlevel = \"ground\"\nair = \"flat\"",
        )
        .with(
            "name = \"Kitchen\"\nlevel = \"ground\"",
            "name = \"Kitchen\"\nlevel = \"ground\"\nair = \"flat\"",
        );
    let plan = open.planned(NOW);

    let troubles = plan.troubles().join(" ");
    assert!(!plan.outlook.breaches.is_empty());
    assert!(
        troubles.contains("dust") || troubles.contains("must be done by"),
        "{troubles}"
    );
}

#[test]
fn coating_the_hall_last_costs_nobody_a_day() {
    let bookings = ["12", "13", "14"].map(|day| {
        format!("not_before = \"2027-04-{day} 15:00\"\nnot_after = \"2027-04-{day} 16:00\"",)
    });
    let mut house =
        House::case("one-hallway").with("id = \"coat-1\"", "id = \"coat-1\"\nlast = true");
    for booking in bookings {
        house = house.with(&booking, "not_before = \"2027-04-12\"");
    }
    let plan = house.planned(NOW);

    plan.assert_proved();
    assert_eq!(plan.day("bed-a.walls/paint").to_string(), "2027-04-13");
    assert_eq!(plan.day("basin").to_string(), "2027-04-14");
    assert_eq!(plan.day("kitchen.floor/tile").to_string(), "2027-04-13");
    // The first coat waits for those who must cross the hall.
    let crossed = plan
        .finish_tick("bed-a.walls/paint")
        .max(plan.finish_tick("basin"));
    assert!(plan.start_tick("hall.floor/coat-1") >= crossed);
    assert_says(
        &plan.why("hall.floor/coat-1"),
        &["still crosses this floor"],
    );
}
