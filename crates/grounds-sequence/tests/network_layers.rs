//! How layers wait for each other.
//!
//! Drying takes elapsed hours, work takes crew hours from 08:00 to 16:00, Monday to Friday; 7 June
//! 2027 is a Monday. All dates are counted by hand from the times that the house states.

mod house;

use grounds_site::{Kind, Value};
use house::{
    assert_says,
    small::{COATED, PLASTERED, face, house, plastered_room},
};

const MONDAY: &str = "2027-06-07 08:00";

#[test]
fn layers_wait_for_the_one_under_them_to_dry() {
    let plan = plastered_room().planned(MONDAY);

    assert_eq!(plan.start("room.walls/base"), "Mon 2027-06-07 08:00");
    // Ends Monday 12:00; 24 h.
    assert_eq!(plan.start("room.walls/top"), "Tue 2027-06-08 12:00");
    // Ends Tuesday 16:00; 72 h is Friday 16:00, so Monday.
    assert_eq!(plan.start("room.walls/paint"), "Mon 2027-06-14 08:00");
    plan.assert_proved();
}

#[test]
fn an_equal_coat_waits_its_recoat_time_and_another_material_its_cover_time() {
    let house = plastered_room().with("recoat = \"24 h\"", "recoat = \"2 h\"\ncover = \"48 h\"");
    let plan = house.planned(MONDAY);
    assert_eq!(plan.start("room.walls/top"), "Mon 2027-06-07 14:00");

    let other = plastered_room()
        .with("recoat = \"24 h\"", "recoat = \"2 h\"\ncover = \"48 h\"")
        .with(
            "name = \"Top coat\"\nmaterial = \"plaster\"",
            "name = \"Top coat\"\nmaterial = \"lime\"",
        );
    assert_eq!(
        other.planned(MONDAY).start("room.walls/top"),
        "Wed 2027-06-09 12:00"
    );
}

#[test]
fn a_coat_begins_late_enough_for_the_next_to_follow_in_time() {
    // The paint must follow the top coat within 80 h, after 72 h; on Friday 16:00 to 24:00 nobody
    // works, so a top coat on Tuesday is impossible: it must end so that 72 to 80 h later is a
    // crew hour.
    let house = plastered_room().with(
        "cover = \"72 h\"",
        "cover = \"72 h\"\nlatest_recoat = \"80 h\"",
    );
    let plan = house.planned(MONDAY);

    plan.assert_proved();
    let gap = plan.start_tick("room.walls/paint") - plan.finish_tick("room.walls/top");
    assert!((72 * 4..=80 * 4).contains(&gap), "{gap} ticks");
}

#[test]
fn a_window_that_no_crew_can_meet_is_told_in_words() {
    // Paint after 72 h but within 73 h of a coat that ended on Tuesday at 16:00: Friday 16:00.
    let house = plastered_room()
        .with(
            "cover = \"72 h\"",
            "cover = \"72 h\"\nlatest_recoat = \"73 h\"",
        )
        .noted("2027-06-07 12:00", "room.walls/base", Kind::Done)
        .noted("2027-06-08 16:00", "room.walls/top", Kind::Done);
    let plan = house.planned("2027-06-09 08:00");

    let troubles = plan.troubles().join(" ");
    assert_says(
        &troubles,
        &["Paint, room walls cannot follow top coat, room walls within 73 h"],
    );
}

#[test]
fn faces_of_one_build_up_in_one_place_are_one_piece_of_work() {
    let both = house(&[
        PLASTERED,
        &face("room", "north", "wall", "plastered"),
        &face("room", "south", "wall", "plastered"),
    ]);
    let plan = both.planned(MONDAY);

    assert!(plan.has("room.north/base"));
    assert!(!plan.has("room.south/base"));
    assert_eq!(plan.outlook.network.tasks.len(), 3);
}

#[test]
fn a_face_that_is_split_off_is_worked_by_itself() {
    let split = house(&[
        PLASTERED,
        &face("room", "north", "wall", "plastered"),
        &(face("room", "south", "wall", "plastered") + "split = true\n"),
    ]);
    let plan = split.planned(MONDAY);

    // One plasterer: 08:00 to 12:00 on one wall, 12:00 to 16:00 on the other.
    let starts = [plan.start("room.north/base"), plan.start("room.south/base")];
    assert!(
        starts.contains(&"Mon 2027-06-07 08:00".to_owned()),
        "{starts:?}"
    );
    assert!(
        starts.contains(&"Mon 2027-06-07 12:00".to_owned()),
        "{starts:?}"
    );
}

#[test]
fn a_finished_layer_implies_those_under_it() {
    let house = plastered_room().noted("2027-06-04 12:00", "room.walls/top", Kind::Done);
    let plan = house.planned("2027-06-04 13:00");

    // Top coat done Friday 4 June 12:00; 72 h is Monday 12:00.
    assert_eq!(plan.start("room.walls/paint"), "Mon 2027-06-07 12:00");
    assert!(
        !plan
            .outlook
            .network
            .open()
            .any(|id| id == plan.id("room.walls/base"))
    );
}

#[test]
fn a_layer_that_is_begun_was_begun_on_something() {
    let house = plastered_room().noted("2027-06-07 09:00", "room.walls/top", Kind::Started);
    let plan = house.planned("2027-06-07 10:00");

    assert!(
        !plan
            .outlook
            .network
            .open()
            .any(|id| id == plan.id("room.walls/base"))
    );
    assert_eq!(plan.start("room.walls/top"), "Mon 2027-06-07 09:00");
}

#[test]
fn work_in_hand_keeps_its_start_and_does_what_is_left() {
    let share = Value::Share("50 %".parse().expect("a share"));
    let house = plastered_room()
        .noted("2027-06-07 08:00", "room.walls/base", Kind::Started)
        .put(
            "2027-06-07 12:00",
            "room.walls/base",
            Kind::Progress,
            Some(share),
            "",
        );
    let plan = house.planned("2027-06-07 12:00");

    assert_eq!(plan.start("room.walls/base"), "Mon 2027-06-07 08:00");
    // Half of four hours is left at noon.
    assert_eq!(plan.finish("room.walls/base"), "Mon 2027-06-07 14:00");
    assert_eq!(plan.start("room.walls/top"), "Tue 2027-06-08 14:00");
}

#[test]
fn facts_never_move() {
    let house = plastered_room()
        .noted("2027-06-05 10:00", "room.walls/base", Kind::Started)
        .noted("2027-06-05 13:15", "room.walls/base", Kind::Done);
    // A Saturday, outside the crew's hours, and shorter than planned: it is so because it was so.
    for now in ["2027-06-05 14:00", "2027-06-07 09:00", "2027-07-01 09:00"] {
        let plan = house.planned(now);
        plan.assert_proved();
        assert_eq!(plan.start("room.walls/base"), "Sat 2027-06-05 10:00");
        assert_eq!(plan.finish("room.walls/base"), "Sat 2027-06-05 13:15");
    }
}

#[test]
fn nothing_new_starts_in_the_past() {
    let plan = plastered_room().planned("2027-06-09 09:05");

    // The next whole quarter-hour.
    assert_eq!(plan.start("room.walls/base"), "Wed 2027-06-09 09:15");
}

#[test]
fn undone_work_comes_back() {
    let house = plastered_room()
        .noted("2027-06-07 12:00", "room.walls/base", Kind::Done)
        .noted("2027-06-08 09:00", "room.walls/base", Kind::Undone);
    let plan = house.planned("2027-06-08 09:00");

    assert_eq!(plan.start("room.walls/base"), "Tue 2027-06-08 09:00");
    assert_eq!(plan.start("room.walls/top"), "Wed 2027-06-09 13:00");
}

#[test]
fn work_that_must_not_stop_overnight_waits_for_the_morning() {
    let unbroken = plastered_room().with(
        "takes = \"4 h\"\nrecoat",
        "takes = \"6 h\"\nunbroken = true\nrecoat",
    );
    let plan = unbroken.planned("2027-06-07 11:00");

    // Five hours are left of Monday; six are needed.
    assert_eq!(plan.start("room.walls/base"), "Tue 2027-06-08 08:00");
    assert_says(&plan.why("room.walls/base"), &["must not stop overnight"]);
}

#[test]
fn layers_wait_for_what_their_build_up_names_in_the_same_place_only() {
    let named = COATED.replace(
        "takes = \"4 h\"",
        "takes = \"4 h\"\nafter = [\"wall:paint\"]",
    );
    let both = house(&[
        PLASTERED,
        &named,
        &face("room", "walls", "wall", "plastered"),
        &face("room", "floor", "floor", "coated"),
        &face("bath", "floor", "floor", "coated"),
    ]);
    let plan = both.planned(MONDAY);

    plan.assert_proved();
    assert!(plan.start_tick("room.floor/coat") >= plan.finish_tick("room.walls/paint"));
    assert_eq!(plan.start("bath.floor/coat"), "Mon 2027-06-07 08:00");
}

#[test]
fn a_wait_of_the_job_counts_from_either_end_and_has_an_upper_bound() {
    let waits = r#"
[[waits]]
from = "room.walls/base"
from_end = "start"
to = "bath.walls/base"
least = "6 h"
why = "The mixer is shared"
"#;
    let both = house(&[
        PLASTERED,
        &face("room", "walls", "wall", "plastered"),
        &face("bath", "walls", "wall", "plastered"),
        waits,
    ]);
    let plan = both.planned(MONDAY);

    // From the start at 08:00, not the finish at 12:00.
    assert_eq!(plan.start("bath.walls/base"), "Mon 2027-06-07 14:00");
    assert_says(&plan.why("bath.walls/base"), &["The mixer is shared"]);
}
