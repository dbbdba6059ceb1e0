//! The last coat of floor varnish needs 48 hours, not 24, and every booking slides.
//!
//! Rules: on foot after 48 h, heavy things after 72 h (the maker's sheet of this job); the crews'
//! own days (given); the way through a wet floor is shut (arithmetic).

mod house;

use grounds_site::Kind;
use house::{House, assert_says, working_days};

const NOW: &str = "2027-09-29 10:30";

#[test]
fn the_mason_of_thursdays_loses_a_week() {
    let plan = House::case("floor-varnish").planned(NOW);

    // Wednesday 10:00 and 48 h is Friday 10:00; the next Thursday is 7 October.
    assert_eq!(plan.day("worktop-repair").to_string(), "2027-10-07");
    assert_eq!(plan.start("worktop-repair"), "Thu 2027-10-07 08:00");
    assert!(!plan.can_start("worktop-repair"));
    assert_says(
        &plan.why("worktop-repair"),
        &["last coat of varnish, kitchen floor keeps it shut"],
    );
}

#[test]
fn even_after_24_hours_the_mason_would_have_come_an_hour_early() {
    let told = House::case("floor-varnish").with(r#"boots = "48 h""#, r#"boots = "24 h""#);
    let plan = told.planned(NOW);

    // Wednesday 10:00 and 24 h: he was booked for 09:00.
    assert_eq!(plan.start("worktop-repair"), "Thu 2027-09-30 10:00");
}

#[test]
fn the_tiler_begins_the_moment_the_floor_bears_boots() {
    let plan = House::case("floor-varnish").planned(NOW);

    assert_eq!(
        plan.start("kitchen.splash-back/tile"),
        "Fri 2027-10-01 10:00"
    );
    // The rest of Friday and all of Monday.
    assert_eq!(
        plan.finish("kitchen.splash-back/tile"),
        "Mon 2027-10-04 16:00"
    );
    assert_says(
        &plan.why("kitchen.splash-back/tile"),
        &["no way in", "last coat of varnish"],
    );
}

#[test]
fn the_cooker_waits_until_the_floor_bears_heavy_things() {
    let plan = House::case("floor-varnish").planned(NOW);

    // 72 h end on Saturday 2 October at 10:00; the next crew hour is on Monday.
    assert_eq!(plan.start("cooker:arrive"), "Mon 2027-10-04 08:00");
    assert_says(
        &plan.why("cooker:arrive"),
        &["last coat of varnish, kitchen floor keeps it shut"],
    );
}

#[test]
fn heavy_things_may_come_on_saturday_at_ten_if_anybody_works_then() {
    let days = r#"days = ["mon", "tue", "wed", "thu", "fri"]"#;
    let saturday = r#"days = ["mon", "tue", "wed", "thu", "fri", "sat"]"#;
    let plan = House::case("floor-varnish")
        .with(days, saturday)
        .planned(NOW);

    assert_eq!(plan.start("cooker:arrive"), "Sat 2027-10-02 10:00");
}

#[test]
fn the_kitchen_is_usable_five_working_days_late() {
    let plan = House::case("floor-varnish").planned(NOW);

    // The fitter of Fridays needs the cooker in the room.
    assert_eq!(plan.day("hook-up").to_string(), "2027-10-08");
    assert_says(&plan.why("hook-up"), &["It sits on cooker, kitchen"]);
    assert_eq!(plan.day("kitchen-usable").to_string(), "2027-10-08");
    assert_eq!(working_days("2027-10-01", plan.day("kitchen-usable")), 5);
}

#[test]
fn asking_the_fitter_for_any_day_wins_back_four() {
    let any_day =
        House::case("floor-varnish").with(r#"calendar = "fridays""#, r#"calendar = "crews""#);
    let plan = any_day.planned(NOW);

    assert_eq!(plan.day("hook-up").to_string(), "2027-10-04");
}

#[test]
fn every_crew_that_is_cut_off_has_the_floor_for_its_root() {
    let plan = House::case("floor-varnish").planned(NOW);

    for key in [
        "worktop-repair",
        "kitchen.splash-back/tile",
        "cooker:arrive",
        "hook-up",
    ] {
        assert_says(
            &plan.roots(key).join("; "),
            &["Last coat of varnish, kitchen floor"],
        );
    }
}

#[test]
fn a_remark_moves_nobody() {
    let house = House::case("floor-varnish");
    let first = house.planned(NOW);
    let later = house
        .noted_words("2027-09-29 10:40", "kitchen", Kind::Remark, "told all four")
        .planned_after("2027-09-29 10:45", &first);

    for key in [
        "worktop-repair",
        "kitchen.splash-back/tile",
        "cooker:arrive",
        "hook-up",
    ] {
        assert_eq!(later.start(key), first.start(key), "{key}");
    }
}
