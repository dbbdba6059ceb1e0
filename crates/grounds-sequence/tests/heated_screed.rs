//! Tiles are booked on a heated screed three weeks after the pour: that is the day the heat may go
//! on, not a day to tile.
//!
//! Rules: heat off for 21 days after the pour, at most 5 °C a day, three days at full heat (the
//! makers' sheets of this job; usual in trade-association guidance: common practice). At most 75 %
//! relative humidity by hygrometer before tile (maker; usual British practice). Unforced drying of
//! a day for each mm to 50 mm and two for each mm beyond (common practice). The rest is counting.

mod house;

use grounds_site::Kind;
use house::{House, assert_says, working_days};
use jiff::ToSpan as _;

const NOW: &str = "2027-06-21 09:00";

#[test]
fn the_heat_goes_on_when_the_tilers_are_booked() {
    let plan = House::case("heated-screed").planned(NOW);

    // 7 June + 21 days.
    assert_eq!(plan.start("heat-on"), "Mon 2027-06-28 08:00");
    // From 20 °C to 45 °C at 5 °C a day is five rises, the first on the day the heat goes on: the
    // fifth is four days later.
    assert_eq!((45 - 20) / 5 - 1, 4);
    assert_eq!(plan.start("heat-full"), "Fri 2027-07-02 08:00");
    // Three days at full heat.
    assert_eq!(plan.start("heat-off"), "Mon 2027-07-05 08:00");
    assert_says(
        &plan.why("heat-on"),
        &["Screed, kitchen and passage floor is drying 3 weeks, until Mon 28 June"],
    );
}

#[test]
fn tile_waits_for_the_heat_cycle_and_then_for_the_reading() {
    let plan = House::case("heated-screed").planned(NOW);

    // Two days to cool; the reading that morning releases the floor.
    assert_eq!(plan.start("dry-reading"), "Wed 2027-07-07 08:00");
    assert_eq!(plan.start("kitchen.floor/tile"), "Wed 2027-07-07 08:00");
    assert_says(
        &plan.why("kitchen.floor/tile"),
        &["Hygrometer at 75 % or less", "must pass first"],
    );
    assert!(!plan.can_start("kitchen.floor/tile"));
    // The booking of Monday 28 June slips by 29, 30 June, 1, 2, 5, 6 and 7 July.
    assert_eq!(
        working_days("2027-06-28", plan.day("kitchen.floor/tile")),
        7
    );
}

#[test]
fn tile_takes_three_days_and_grout_the_next_working_day() {
    let plan = House::case("heated-screed").planned(NOW);

    assert_eq!(plan.finish("kitchen.floor/tile"), "Fri 2027-07-09 16:00");
    assert_eq!(plan.start("kitchen.floor/grout"), "Mon 2027-07-12 08:00");
}

#[test]
fn the_makers_fourteen_days_beat_the_tilers_five() {
    let plan = House::case("heated-screed").planned(NOW);

    // Grouted by Monday 12 July 16:00, and fourteen days.
    assert_eq!(plan.start("heat-again"), "Mon 2027-07-26 16:00");
    assert_says(
        &plan.why("heat-again"),
        &["adhesive's sheet wants fourteen days"],
    );
    assert!(!plan.why("heat-again").contains("tiler's paper"));
}

#[test]
fn a_failed_reading_falls_back_on_unforced_drying() {
    // 50 days for the first 50 mm and two for each of the other 15.
    let pour: jiff::civil::Date = "2027-06-07".parse().expect("a date");
    let unforced = pour + (50 + 2 * 15).days();
    assert_eq!(unforced.to_string(), "2027-08-26");

    let house = House::case("heated-screed")
        .noted("2027-06-28 08:00", "heat-on", Kind::Passed)
        .noted("2027-07-02 08:00", "heat-full", Kind::Passed)
        .noted("2027-07-05 08:00", "heat-off", Kind::Passed)
        .put(
            "2027-07-07 08:00",
            "dry-reading",
            Kind::Failed,
            None,
            "81 %",
        )
        .noted_for(
            "2027-07-07 08:30",
            "dry-reading",
            Kind::Problem,
            "2027-08-26",
        );
    let plan = house.planned("2027-07-07 09:00");

    plan.assert_proved();
    assert_eq!(plan.start("kitchen.floor/tile"), "Thu 2027-08-26 08:00");
}
