//! An enamelled door would stick to its seal, and caulk would be painted the day it is laid.
//!
//! Rules (the makers' sheets of this job): caulk 24 h before paint, not below 40 °F; enamel 24 h
//! before the door is hung without its seal and 14 days before anything presses on it; hours below
//! 50 °F do not count.

mod house;

use house::{House, assert_says};

#[test]
fn caulk_of_this_morning_is_painted_tomorrow() {
    let plan = House::case("door-seal").planned("2027-03-02 09:15");

    // Tuesday 09:00 and 24 h; the painter is booked for Tuesday 14:00, 19 h too early.
    assert_eq!(plan.start("hall.trim/paint"), "Wed 2027-03-03 09:00");
    assert_eq!(
        (24 - 5) * 4,
        plan.start_tick("hall.trim/paint") - plan.tick("2027-03-02 14:00")
    );
    assert_says(
        &plan.why("hall.trim/paint"),
        &["Caulk, hall trim", "drying 24 h"],
    );
}

#[test]
fn the_door_hangs_without_its_seal_a_day_after_the_last_coat() {
    let plan = House::case("door-seal").planned("2027-03-02 09:15");

    assert_eq!(plan.start("entry-door"), "Tue 2027-03-02 15:00");
}

#[test]
fn a_cold_night_in_the_first_day_keeps_the_door_off_for_eight_hours_more() {
    // The first of the three nights moved to that of 1 March: 15:00 + 8 h is 23:00, so Wednesday.
    let house = House::case("door-seal")
        .with(
            r#"from = "2027-03-03 22:00""#,
            r#"from = "2027-03-01 22:00""#,
        )
        .with(
            r#"until = "2027-03-04 06:00""#,
            r#"until = "2027-03-02 06:00""#,
        );
    let plan = house.planned("2027-03-02 09:15");

    assert_eq!(plan.start("entry-door"), "Wed 2027-03-03 08:00");
}

#[test]
fn cold_hours_do_not_count_for_the_seal() {
    let plan = House::case("door-seal").planned("2027-03-02 09:15");

    // Monday 1 March 15:00, 14 days, and three nights of 8 h that do not count.
    assert_eq!(plan.start("door-seal"), "Tue 2027-03-16 15:00");
    assert_says(
        &plan.why("door-seal"),
        &[
            "Nothing may press on the enamel for 14 days",
            "until Tue 16 March 15:00",
        ],
    );

    // The offer of 9 March 14:00 was 7 days and an hour too early, cold nights or not.
    let early = plan.start_tick("door-seal") - plan.tick("2027-03-09 14:00");
    assert_eq!(early, (7 * 24 + 1) * 4);
    assert!(!plan.can_start("door-seal"));
}

#[test]
fn without_the_cold_nights_the_seal_would_go_in_a_day_sooner() {
    let warm = House::case("door-seal").with(r#"temperature = "44 F""#, r#"temperature = "50 F""#);
    let plan = warm.planned("2027-03-02 09:15");

    // 50 °F is on the limit, and counts: 14 days alone.
    assert_eq!(plan.start("door-seal"), "Mon 2027-03-15 15:00");
}
