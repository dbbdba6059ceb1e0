//! A flush floor grille is checked against the duct before the boards around it are nailed.
//!
//! Rule: at least 95 % of the duct open (this job's). The frame is 2 1/8 in off a duct of 4 by 10 in:
//! 1 7/8 of 4 in are open, 46.9 %.

mod house;

use grounds_site::Kind;
use house::{House, assert_says};

#[test]
fn boards_wait_while_the_frame_is_off_the_duct() {
    let plan = House::case("flush-grille").planned("2027-05-03 09:15");

    plan.assert_proved();
    assert!(!plan.can_start("dining-room.floor/boards"));
    // An hour to move the frame, then the check, then boards.
    assert_eq!(plan.start("frame-over-duct"), "Mon 2027-05-03 10:15");
    assert_eq!(
        plan.start("dining-room.floor/boards"),
        "Mon 2027-05-03 10:15"
    );
    assert_says(
        &plan.why("dining-room.floor/boards"),
        &["Grille frame over the duct", "must pass first"],
    );
    let roots = plan.roots("dining-room.floor/boards").join("; ");
    assert_says(&roots, &["Grille frame over the duct, dining room: failed"]);
}

#[test]
fn boards_may_start_when_the_frame_is_signed() {
    let house = House::case("flush-grille")
        .noted_words(
            "2027-05-03 10:00",
            "frame-over-duct",
            Kind::Cleared,
            "frame moved",
        )
        .noted("2027-05-03 10:15", "frame-over-duct", Kind::Passed);
    let plan = house.planned("2027-05-03 10:15");

    assert!(plan.can_start("dining-room.floor/boards"));
}
