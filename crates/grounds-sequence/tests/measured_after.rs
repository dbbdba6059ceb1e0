//! Glass, frames and stone that are ordered from the finished wall, and decisions before that.
//!
//! Rules: glass is measured after tile, a frame after plaster, and stone once it is decided how it
//! fits (common practice of glaziers, joiners and fabricators); times as each job says.

mod house;

use grounds_site::Kind;
use house::{House, assert_says};

#[test]
fn glass_is_measured_from_the_tile_and_never_from_the_drawing() {
    let plan = House::case("glass-after-tile").planned("2027-05-03 08:00");

    // Decided by Wednesday 5 May; two days of tile; 24 h before grout; 4 h of grout; 24 h.
    assert_eq!(plan.start("shower.back-wall/tile"), "Wed 2027-05-05 08:00");
    assert_eq!(plan.finish("shower.back-wall/tile"), "Thu 2027-05-06 16:00");
    assert_eq!(plan.start("shower.back-wall/grout"), "Mon 2027-05-10 08:00");
    assert_eq!(plan.start("shower-panel:measure"), "Tue 2027-05-11 12:00");
    // Ten working days from Tuesday 13:00 are 80 crew hours: Tuesday 25 May 13:00.
    assert_eq!(plan.start("shower-panel:arrive"), "Tue 2027-05-25 13:00");
    assert_eq!(plan.start("shower-panel"), "Tue 2027-05-25 13:00");
    assert_says(
        &plan.why("shower-panel:measure"),
        &["measured once grout, shower back wall has dried 24 h"],
    );
    assert_says(
        &plan.why("shower-panel:arrive"),
        &["takes 10 working days to make once it is measured"],
    );
}

#[test]
fn furring_the_wall_is_decided_before_it_is_tiled() {
    let plan = House::case("glass-after-tile").planned("2027-05-03 08:00");

    assert!(!plan.can_start("shower.back-wall/tile"));
    assert_says(
        &plan.why("shower.back-wall/tile"),
        &["Decision: fur the back wall plumb, or not"],
    );
    let roots = plan.roots("shower.back-wall/tile").join("; ");
    assert_says(&roots, &["Fur the back wall plumb, or not not decided"]);
}

#[test]
fn an_early_decision_brings_the_glass_forward() {
    let house =
        House::case("glass-after-tile").noted("2027-05-03 08:00", "fur-the-wall", Kind::Decided);
    let plan = house.planned("2027-05-03 08:00");

    // Tile Monday and Tuesday, 24 h, grout Thursday morning, measured Friday 12:00, then ten working days.
    assert_eq!(plan.start("shower.back-wall/tile"), "Mon 2027-05-03 08:00");
    assert_eq!(plan.start("shower.back-wall/grout"), "Thu 2027-05-06 08:00");
    assert_eq!(plan.start("shower-panel:measure"), "Fri 2027-05-07 12:00");
    assert_eq!(plan.start("shower-panel:arrive"), "Fri 2027-05-21 13:00");
}

#[test]
fn a_frame_is_measured_when_both_sides_of_the_wall_are_plastered_and_dry() {
    let plan = House::case("jamb-after-plaster").planned("2027-05-03 08:00");

    // One plasterer: Monday 08:00 to 14:00 in one room, then 2 h and 4 h of Tuesday in the other.
    // The second side dries from Tuesday 12:00 for 48 h.
    let last = plan
        .finish_tick("hall.study-wall/plaster")
        .max(plan.finish_tick("study.hall-wall/plaster"));
    assert_eq!(plan.wall(last), "Tue 2027-05-04 12:00");
    assert_eq!(plan.start("study-frame:measure"), "Thu 2027-05-06 12:00");
    // Five working days of 8 h from Thursday 12:30.
    assert_eq!(plan.start("study-frame:arrive"), "Thu 2027-05-13 12:30");
    assert_says(
        &plan.why("study-frame:measure"),
        &["measured once one-coat plaster", "has dried 2 days"],
    );
}

#[test]
fn stone_is_templated_once_it_is_decided_how_it_fits() {
    let plan = House::case("stone-under-tile").planned("2027-05-03 08:00");

    assert!(!plan.can_start("worktop:measure"));
    assert_eq!(plan.start("worktop:measure"), "Fri 2027-05-07 08:00");
    assert_eq!(plan.start("worktop:arrive"), "Fri 2027-05-21 10:00");
    assert_says(
        &plan.roots("worktop").join("; "),
        &["Tile row off, thinner stone or a trim"],
    );
}
