//! The tiler is booked before the shower deck can even be waterproofed.
//!
//! Rules: mortar 72 h before the membrane, 4 h between coats, 48 h before water or tile (the maker's
//! sheet of this job). IRC P2503.6: at least 2 in deep at the threshold for at least 15 minutes, no
//! leakage (published). 24 h, seen before it is drained, then 4 h to drain and dry: this job's rule.

mod house;

use grounds_site::{Kind, Value};
use house::{House, assert_says, working_days};

const NOW: &str = "2027-10-05 09:00";

#[test]
fn coats_wait_for_the_deck_and_for_each_other() {
    let plan = House::case("shower-deck").planned(NOW);

    // Monday 15:00 and 72 h.
    assert_eq!(
        plan.start("shower-room.floor/coat-1"),
        "Thu 2027-10-07 15:00"
    );
    assert_eq!(
        plan.finish("shower-room.floor/coat-1"),
        "Thu 2027-10-07 16:00"
    );
    // 4 h later is 20:00; the crew is back at eight.
    assert_eq!(
        plan.start("shower-room.floor/coat-2"),
        "Fri 2027-10-08 08:00"
    );
    assert_eq!(
        plan.finish("shower-room.floor/coat-2"),
        "Fri 2027-10-08 09:00"
    );
    assert_says(
        &plan.why("shower-room.floor/coat-1"),
        &["Sloped mortar deck", "drying 3 days"],
    );
}

#[test]
fn the_membrane_cures_over_the_weekend() {
    let plan = House::case("shower-deck").planned(NOW);

    // Friday 09:00 and 48 h, Sunday or not.
    assert_eq!(plan.start("waterproof"), "Sun 2027-10-10 09:00");
}

#[test]
fn the_flood_test_is_filled_on_monday_and_read_on_tuesday() {
    let plan = House::case("shower-deck").planned(NOW);

    assert_eq!(plan.start("flood-test:set-up"), "Mon 2027-10-11 08:00");
    assert_eq!(plan.start("flood-test"), "Tue 2027-10-12 08:00");
}

#[test]
fn the_tiler_is_four_working_days_early() {
    let plan = House::case("shower-deck").planned(NOW);

    // Read at 08:00, then 4 h to drain and dry.
    assert_eq!(plan.start("shower-room.floor/tile"), "Tue 2027-10-12 12:00");
    assert_eq!(
        working_days("2027-10-06", plan.day("shower-room.floor/tile")),
        4
    );
    assert_says(
        &plan.why("shower-room.floor/tile"),
        &["Flood test, 24 h", "must pass first"],
    );
}

#[test]
fn a_pass_of_fifteen_minutes_does_not_stand_for_the_flood_test() {
    let house = coated()
        .noted("2027-10-11 08:00", "code-test", Kind::Started)
        .noted("2027-10-11 08:15", "code-test", Kind::Passed)
        .noted("2027-10-11 08:15", "flood-test", Kind::Started);
    let plan = house.planned("2027-10-11 08:30");

    assert!(!plan.can_start("shower-room.floor/tile"));
    assert_eq!(plan.start("shower-room.floor/tile"), "Tue 2027-10-12 12:15");
}

#[test]
fn a_failed_flood_test_is_put_right_and_stands_again() {
    // Down 5/16 in, of which the open tray shows 1/16 to be evaporation: 1/4 in leaked away.
    let fall = Value::Reading {
        what: "level fell".to_owned(),
        figure: "5/16 in".to_owned(),
    };
    let house = coated()
        .noted("2027-10-11 08:15", "code-test", Kind::Passed)
        .noted("2027-10-11 08:00", "flood-test", Kind::Started)
        .put(
            "2027-10-12 08:00",
            "flood-test",
            Kind::Failed,
            Some(fall),
            "tray beside it fell 1/16 in",
        );
    let plan = house.planned("2027-10-12 08:00");

    plan.assert_proved();
    // An hour for the plug, 24 h, 4 h.
    assert_eq!(plan.start("flood-test:put-right"), "Tue 2027-10-12 08:00");
    assert_eq!(plan.start("flood-test:set-up"), "Tue 2027-10-12 09:00");
    assert_eq!(plan.start("flood-test"), "Wed 2027-10-13 09:00");
    assert_eq!(plan.start("shower-room.floor/tile"), "Wed 2027-10-13 13:00");
    let roots = plan.roots("shower-room.floor/tile").join("; ");
    assert_says(&roots, &["Flood test, 24 h, shower room: failed"]);
}

/// Both coats on.
fn coated() -> House {
    House::case("shower-deck")
        .noted("2027-10-07 16:00", "shower-room.floor/coat-1", Kind::Done)
        .noted("2027-10-08 09:00", "shower-room.floor/coat-2", Kind::Done)
}
