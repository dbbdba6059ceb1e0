//! The only way to the bathroom is the carpet that is due for cleaning, and the tracks are wrong.
//!
//! Rules: a finish is not cleaned while a later trade's only way crosses it (common practice); new
//! tracks within 14 days, carpets dry after 12 h, silicone 24 h before use (makers, given).

mod house;

use house::{House, assert_says};

const NOW: &str = "2027-01-08 09:00";

#[test]
fn the_chain_runs_from_the_tracks_to_the_bedroom() {
    let plan = House::case("one-way-in").planned(NOW);

    // 8 January and 14 days; the fitting takes the morning.
    assert_eq!(plan.start("shower-tracks:arrive"), "Fri 2027-01-22 08:00");
    assert_eq!(plan.start("shower-tracks"), "Fri 2027-01-22 08:00");
    assert_eq!(plan.finish("shower-glass"), "Fri 2027-01-22 12:00");
    // The cleaners' next morning, from the bedroom out to the hall.
    assert_eq!(
        plan.start("back-bedroom.floor/clean"),
        "Sat 2027-01-23 08:00"
    );
    assert_eq!(plan.finish("hall.floor/clean"), "Sat 2027-01-23 11:00");
    // 12 h to dry: dry at 23:00, so the bedroom is free on Sunday.
    assert_eq!(plan.start("bedroom-free"), "Sat 2027-01-23 23:00");
    // The silicone's 24 h.
    assert_eq!(plan.start("shower-usable"), "Sat 2027-01-23 12:00");
}

#[test]
fn each_thing_is_blocked_by_its_own_cause() {
    let plan = House::case("one-way-in").planned(NOW);

    assert_says(&plan.why("hall.floor/clean"), &["still crosses this floor"]);
    assert_says(
        &plan.why("back-bedroom.floor/clean"),
        &["Shower glass", "kept here until it is set"],
    );
    assert_says(&plan.why("shower-tracks"), &["Shower tracks on site"]);
    assert_says(
        &plan.why("shower-tracks:arrive"),
        &["promised for Fri 22 January"],
    );
    for key in [
        "hall.floor/clean",
        "back-bedroom.floor/clean",
        "shower-glass",
    ] {
        assert_says(&plan.roots(key).join("; "), &["Shower tracks not on site"]);
        assert!(!plan.can_start(key), "{key}");
    }
}

#[test]
fn the_bedroom_is_free_fifteen_days_late() {
    let plan = House::case("one-way-in").planned(NOW);

    // Promised for Saturday 9 January, free on Sunday 24.
    let free = plan.day("bedroom-free").tomorrow().expect("a day");
    let promised: jiff::civil::Date = "2027-01-09".parse().expect("a day");
    assert_eq!(promised.until(free).expect("in days").get_days(), 15);
}

#[test]
fn moving_the_glass_and_covering_the_hall_frees_the_bedroom_in_two_days() {
    // The glass goes back to the shop, and the hall carpet is covered with board for the fitters.
    let house = House::case("one-way-in")
        .with("kept_in = \"back-bedroom\"\n", "")
        .with("last = true\n", "")
        .with(
            r#"after = ["shower-glass", "hall.floor", "back-bedroom.floor"]"#,
            r#"after = ["hall.floor", "back-bedroom.floor"]"#,
        );
    let plan = house.planned(NOW);

    plan.assert_proved();
    assert_eq!(plan.day("hall.floor/clean").to_string(), "2027-01-09");
    assert_eq!(
        plan.day("back-bedroom.floor/clean").to_string(),
        "2027-01-09"
    );
    // Dry at 23:00 on Saturday: free on Sunday 10 January.
    assert_eq!(plan.start("bedroom-free"), "Sat 2027-01-09 23:00");
    assert_eq!(plan.start("shower-usable"), "Sat 2027-01-23 12:00");
}
