//! Drying takes elapsed hours through nights, weekends and clock changes; crews keep the wall clock.
//!
//! In Europe/London clocks go forward at 01:00 on 28 March 2027 and back at 02:00 on 31 October
//! 2027 (Summer Time Order 2002: last Sundays of March and October; published).

mod house;

use grounds_site::Kind;
use house::small::plastered_room;

#[test]
fn the_short_day_in_march_shifts_drying_by_an_hour_on_the_wall_clock() {
    // Done Saturday 27 March 13:00; 72 h later, one of them skipped, is Tuesday 14:00.
    let house = plastered_room()
        .with("begins = \"2027-06-01\"", "begins = \"2027-03-01\"")
        .noted("2027-03-27 13:00", "room.walls/top", Kind::Done);
    let plan = house.planned("2027-03-27 13:30");

    plan.assert_proved();
    assert_eq!(plan.start("room.walls/paint"), "Tue 2027-03-30 14:00");
}

#[test]
fn the_long_day_in_october_shifts_it_back() {
    // Done Friday 29 October 13:00; 72 h later, one of them twice, is Monday 12:00.
    let house = plastered_room()
        .with("begins = \"2027-06-01\"", "begins = \"2027-10-01\"")
        .noted("2027-10-29 13:00", "room.walls/top", Kind::Done);
    let plan = house.planned("2027-10-29 13:30");

    plan.assert_proved();
    assert_eq!(plan.start("room.walls/paint"), "Mon 2027-11-01 12:00");
}

#[test]
fn crews_begin_at_eight_by_the_wall_on_both_sides_of_a_change() {
    for (begins, friday, monday) in [
        ("2027-03-01", "2027-03-26 14:00", "Mon 2027-03-29 08:00"),
        ("2027-10-01", "2027-10-29 14:00", "Mon 2027-11-01 08:00"),
    ] {
        let house = plastered_room()
            .with("begins = \"2027-06-01\"", &format!("begins = \"{begins}\""))
            .with(
                "takes = \"4 h\"\nrecoat",
                "takes = \"4 h\"\nunbroken = true\nrecoat",
            );
        // Two hours are left of Friday; four are needed in one go.
        assert_eq!(house.planned(friday).start("room.walls/base"), monday);
    }
}

#[test]
fn a_day_shift_over_the_change_still_has_its_hours() {
    // A crew that works nights from Saturday loses an hour of the night in March.
    let nights = plastered_room()
        .with("begins = \"2027-06-01\"", "begins = \"2027-03-01\"")
        .with(
            "days = [\"mon\", \"tue\", \"wed\", \"thu\", \"fri\"]\nhours = [\"08:00-16:00\"]",
            "days = [\"mon\", \"tue\", \"wed\", \"thu\", \"fri\", \"sat\", \"sun\"]\nhours = [\"00:00-08:00\"]",
        );
    let plan = nights.planned("2027-03-28 00:00");

    // 00:00 to 08:00 on the wall are seven hours; four of work from midnight end at 05:00.
    assert_eq!(plan.start("room.walls/base"), "Sun 2027-03-28 00:00");
    assert_eq!(plan.finish("room.walls/base"), "Sun 2027-03-28 05:00");
    plan.assert_proved();
}
