//! A skim coat that is still wet after six weeks in an empty, unheated house.
//!
//! Rule: 168 hours at 10 °C or more and 65 % or less, then a surface reading on every wall (the
//! maker's sheet of this job). Time only forecasts; the reading releases.

mod house;

use grounds_site::Kind;
use house::{House, assert_says};

const NOW: &str = "2027-01-09 09:00";

#[test]
fn only_warm_and_dry_hours_count() {
    let plan = House::case("cold-skim").planned(NOW);

    // Six weekends of 16 h are 96 of 168; the other 72 h run from Saturday 09:00 with the heat on.
    assert_eq!(168 - 6 * 16, 72);
    assert_eq!(plan.start("surface-reading"), "Tue 2027-01-12 09:00");
    assert_says(
        &plan.why("surface-reading"),
        &[
            "Skim, front bedroom walls is drying 7 days within its limits of air, until Tue 12 January 9:00",
        ],
    );
}

#[test]
fn painters_on_monday_are_a_day_and_an_hour_early_at_least() {
    let plan = House::case("cold-skim").planned(NOW);

    for room in ["front-bedroom", "back-bedroom"] {
        let paint = format!("{room}.walls/paint");
        assert!(!plan.can_start(&paint));
        let booked = plan.tick("2027-01-11 08:00");
        assert_eq!(plan.start_tick(&paint) - booked, 25 * 4);
        assert_says(
            &plan.why(&paint),
            &["Surface reading, all walls", "must pass first"],
        );
    }
}

#[test]
fn the_reading_holds_paint_though_the_hours_are_up() {
    let plan = House::case("cold-skim")
        .noted_words(
            "2027-01-12 09:00",
            "surface-reading",
            Kind::Failed,
            "one wall still dark",
        )
        .planned("2027-01-12 09:30");

    assert!(!plan.can_start("front-bedroom.walls/paint"));
}

#[test]
fn with_heat_at_weekends_only_it_takes_five_more() {
    let unchanged = House::case("cold-skim").with(
        "from = \"2027-01-09 09:00\"\ntemperature = \"16 C\"\nhumidity = \"55 %\"\nforecast = true",
        "from = \"2027-01-09 09:00\"\nuntil = \"2027-01-09 09:15\"\ntemperature = \"5 C\"\nforecast = true",
    );
    let plan = unchanged.planned(NOW);

    // 72 h at 16 h a weekend are four and a half: 9, 16, 23, 30 January and Saturday 6 February,
    // full at 18:00; read on Monday.
    assert_eq!((72.0_f64 / 16.0).ceil(), 5.0);
    assert_eq!(plan.start("surface-reading"), "Mon 2027-02-08 08:00");
}
