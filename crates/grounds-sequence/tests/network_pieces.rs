//! Pieces, holds, decisions and crews: what must come before what.

mod house;

use grounds_site::Kind;
use house::{
    House, assert_says,
    small::{PLASTERED, face, house, plastered_room},
};

const MONDAY: &str = "2027-06-07 08:00";

const GLASS: &str = r#"
[pieces.panel]
name = "Glass panel"
trade = "glass"
place = "room"
takes = "2 h"
after = ["room.walls/paint"]
measured_after = ["room.walls/top"]
measuring = "1 h"
lead = "7 days"
"#;

#[test]
fn a_piece_is_measured_made_brought_and_set() {
    let plan = plastered_room().and(GLASS).planned(MONDAY);

    plan.assert_proved();
    // Top coat done Tuesday 16:00 and 72 h: Friday 16:00, so measured on Monday from 08:00.
    assert_eq!(plan.start("panel:measure"), "Mon 2027-06-14 08:00");
    // A week to make it from 09:00.
    assert_eq!(plan.start("panel:arrive"), "Mon 2027-06-21 09:00");
    assert_eq!(plan.start("panel"), "Mon 2027-06-21 09:00");
    assert_says(&plan.why("panel"), &["Glass panel on site"]);
}

#[test]
fn a_promised_date_beats_the_usual_time_to_make_it() {
    let house = plastered_room()
        .and(GLASS)
        .noted("2027-06-07 07:00", "panel", Kind::Measured)
        .noted_for(
            "2027-06-07 07:30",
            "panel",
            Kind::Ordered,
            "2027-06-18 10:00",
        );
    let plan = house.planned(MONDAY);

    assert_eq!(plan.start("panel:arrive"), "Fri 2027-06-18 10:00");
    assert_says(
        &plan.why("panel:arrive"),
        &["promised for Fri 18 June 10:00"],
    );
}

#[test]
fn a_promise_that_has_gone_by_is_taken_to_be_kept_on_the_next_working_day() {
    let house = plastered_room()
        .and(GLASS)
        .noted("2027-06-01 09:00", "panel", Kind::Measured)
        .noted_for("2027-06-01 09:00", "panel", Kind::Ordered, "2027-06-04");
    let plan = house.planned(MONDAY);

    assert_eq!(plan.start("panel:arrive"), "Tue 2027-06-08 08:00");
    assert_says(
        &plan.why("panel:arrive"),
        &["should have come by now", "Ask for a date"],
    );
}

#[test]
fn a_damaged_piece_is_ordered_anew() {
    let house = plastered_room()
        .and(GLASS)
        .noted("2027-06-01 08:00", "panel", Kind::Measured)
        .noted_for("2027-06-01 09:00", "panel", Kind::Ordered, "2027-06-04")
        .noted("2027-06-04 09:00", "panel", Kind::Arrived)
        .noted_words("2027-06-07 08:00", "panel", Kind::Damaged, "corner chipped");
    let plan = house.planned(MONDAY);

    // A week from today.
    assert_eq!(plan.start("panel:arrive"), "Mon 2027-06-14 08:00");
    assert_says(&plan.why("panel:arrive"), &["not ordered"]);
}

#[test]
fn what_covers_a_piece_waits_for_it() {
    let valve = "[pieces.valve]\nname = \"Valve\"\ntrade = \"glass\"\nplace = \"room\"\ntakes = \"3 h\"\n\
                 before = [\"room.walls/base\"]\n";
    let plan = plastered_room().and(valve).planned(MONDAY);

    assert_eq!(plan.start("room.walls/base"), "Mon 2027-06-07 11:00");
    assert_says(&plan.why("room.walls/base"), &["It covers valve, room"]);
}

const INSPECTION: &str = r#"
[holds.behind-plaster]
name = "Inspection before plaster"
kind = "authority"
by = "inspect"
place = "room"
after = []
before = ["room.walls/base"]
takes = "1 h"
notice = "2 working days"
put_right = "3 h"
put_right_by = "tile"
"#;

#[test]
fn an_inspection_that_is_not_booked_waits_for_its_notice() {
    let plan = plastered_room().and(INSPECTION).planned(MONDAY);

    // Booked on Monday, two working days ahead: Wednesday.
    assert_eq!(plan.start("behind-plaster"), "Wed 2027-06-09 08:00");
    assert_eq!(plan.start("room.walls/base"), "Wed 2027-06-09 09:00");
    assert_says(&plan.why("behind-plaster"), &["not booked", "Wed 9 June"]);
    assert_says(
        &plan.roots("room.walls/base").join("; "),
        &["Inspection before plaster, room: not booked"],
    );
}

#[test]
fn notice_is_counted_in_working_days() {
    let plan = plastered_room().and(INSPECTION).planned("2027-06-04 10:00");

    // Told on Friday: Monday is the first working day, Tuesday the second.
    assert_eq!(plan.start("behind-plaster"), "Tue 2027-06-08 08:00");
}

#[test]
fn an_inspection_that_is_booked_keeps_its_date() {
    let house = plastered_room().and(INSPECTION).noted_for(
        "2027-06-01 09:00",
        "behind-plaster",
        Kind::Ordered,
        "2027-06-07 13:00",
    );
    let plan = house.planned(MONDAY);

    assert_eq!(plan.start("behind-plaster"), "Mon 2027-06-07 13:00");
}

#[test]
fn a_booking_later_than_the_plan_moves_the_plan_and_so_does_a_booking_that_is_moved() {
    let booked = |house: House, on: &str| {
        house.noted_for("2027-06-07 07:30", "behind-plaster", Kind::Ordered, on)
    };
    let first = booked(plastered_room().and(INSPECTION), "2027-06-10 10:00");
    let plan = first.planned("2027-06-07 08:00");
    assert_eq!(plan.start("behind-plaster"), "Thu 2027-06-10 10:00");
    assert_eq!(plan.start("room.walls/base"), "Thu 2027-06-10 11:00");

    let moved = first.noted_for(
        "2027-06-08 09:00",
        "behind-plaster",
        Kind::Promised,
        "2027-06-14 08:00",
    );
    let plan = moved.planned("2027-06-08 09:00");
    assert_eq!(plan.start("behind-plaster"), "Mon 2027-06-14 08:00");
    assert_eq!(plan.start("room.walls/base"), "Mon 2027-06-14 09:00");
}

#[test]
fn an_inspector_who_did_not_come_is_booked_again() {
    let house = plastered_room().and(INSPECTION).noted_for(
        "2027-06-01 09:00",
        "behind-plaster",
        Kind::Ordered,
        "2027-06-04 09:00",
    );
    // Friday went by without a word. Told on Monday, two working days ahead: Wednesday.
    let plan = house.planned(MONDAY);
    assert_eq!(plan.start("behind-plaster"), "Wed 2027-06-09 08:00");
    assert_says(&plan.why("behind-plaster"), &["not booked", "Wed 9 June"]);
}

#[test]
fn notice_is_counted_in_the_days_of_whoever_comes() {
    // The inspectors are off on Tuesday: Wednesday is their first working day, Thursday the second.
    let own = "[calendars.office]\ndays = [\"mon\", \"wed\", \"thu\", \"fri\"]\nhours = [\"08:00-16:00\"]\n";
    let house = plastered_room().and(INSPECTION).and(own);
    let house = house.with(
        "[trades.inspect]",
        "[trades.inspect]\ncalendar = \"office\"",
    );
    let plan = house.planned(MONDAY);
    assert_eq!(plan.start("behind-plaster"), "Thu 2027-06-10 08:00");
}

#[test]
fn what_failed_is_put_right_before_it_is_tried_again() {
    let house = plastered_room()
        .and(INSPECTION)
        .noted_for(
            "2027-06-01 09:00",
            "behind-plaster",
            Kind::Ordered,
            "2027-06-07",
        )
        .noted_words(
            "2027-06-07 09:00",
            "behind-plaster",
            Kind::Failed,
            "two clips missing",
        );
    let plan = house.planned("2027-06-07 09:00");

    plan.assert_proved();
    assert_eq!(
        plan.start("behind-plaster:put-right"),
        "Mon 2027-06-07 09:00"
    );
    // The booking is used up: two working days of notice again.
    assert_eq!(plan.start("behind-plaster"), "Wed 2027-06-09 08:00");
    assert!(plan.start_tick("behind-plaster") >= plan.finish_tick("behind-plaster:put-right"));
    assert_says(&plan.roots("room.walls/base").join("; "), &["failed"]);
}

const READING: &str = r#"
[holds.dry]
name = "Wall dry enough to plaster"
kind = "test"
place = "room"
after = []
before = ["room.walls/base"]
put_right = "3 days"
"#;

#[test]
fn a_wall_that_was_too_damp_dries_on_by_itself() {
    let house = plastered_room().and(READING).noted_words(
        "2027-06-04 15:00",
        "dry",
        Kind::Failed,
        "still dark in the corner",
    );
    let plan = house.planned(MONDAY);

    plan.assert_proved();
    // Three days by the clock from Friday 15:00, the weekend too: Monday 15:00. Nobody works on it.
    assert_eq!(plan.start("dry"), "Mon 2027-06-07 15:00");
    assert_eq!(plan.start("room.walls/base"), "Mon 2027-06-07 15:00");
}

#[test]
fn a_pass_lets_work_go_on() {
    let house =
        plastered_room()
            .and(INSPECTION)
            .noted("2027-06-07 08:00", "behind-plaster", Kind::Passed);
    let plan = house.planned(MONDAY);

    assert!(plan.can_start("room.walls/base"));
}

#[test]
fn a_decision_holds_an_order() {
    let decision = "[decisions.handle]\nname = \"Which handle\"\nby = \"The owner\"\nexpected = \"2027-06-10\"\n\
        [pieces.handle-set]\nname = \"Handles\"\ntrade = \"glass\"\nplace = \"room\"\ntakes = \"1 h\"\n\
        decision = \"handle\"\nlead = \"7 days\"\n";
    let plan = house(&[decision]).planned(MONDAY);

    // Decided Thursday 10 June; a week.
    assert_eq!(plan.start("handle-set:arrive"), "Thu 2027-06-17 08:00");
    assert_says(
        &plan.roots("handle-set").join("; "),
        &["Which handle not decided"],
    );

    let decided = house(&[decision])
        .noted("2027-06-07 08:00", "handle", Kind::Decided)
        .planned(MONDAY);
    assert_eq!(decided.start("handle-set:arrive"), "Mon 2027-06-14 08:00");
}

#[test]
fn a_decision_nobody_dated_takes_its_usual_time_from_today() {
    let decision = "[decisions.colour]\nname = \"Colour\"\nby = \"The owner\"\nusual = \"3 working days\"\n\
                    before = [\"room.walls/paint\"]\n";
    let house =
        plastered_room()
            .and(decision)
            .noted("2027-06-04 12:00", "room.walls/top", Kind::Done);
    let plan = house.planned("2027-06-07 12:00");

    assert_eq!(plan.start("colour"), "Thu 2027-06-10 08:00");
    assert_eq!(plan.start("room.walls/paint"), "Thu 2027-06-10 08:00");
    assert_says(&plan.why("colour"), &["not decided"]);
}

#[test]
fn a_crew_that_is_away_moves_all_its_work() {
    let house = house(&[
        PLASTERED,
        &face("room", "walls", "wall", "plastered"),
        &face("bath", "walls", "wall", "plastered"),
    ])
    .put(
        "2027-06-07 07:00",
        "plaster",
        Kind::Problem,
        Some(grounds_site::Value::When(
            "2027-06-09".parse().expect("a moment"),
        )),
        "van broken down",
    );
    let plan = house.planned(MONDAY);

    plan.assert_proved();
    let bases = ["room.walls/base", "bath.walls/base"];
    assert!(bases.iter().all(|base| !plan.can_start(base)));
    let first = bases
        .into_iter()
        .min_by_key(|base| plan.start_tick(base))
        .expect("two");
    assert_eq!(plan.start(first), "Wed 2027-06-09 08:00");
    assert_says(&plan.why(first), &["Van broken down"]);
    assert_says(&plan.roots(first).join("; "), &["Van broken down"]);
}

#[test]
fn a_crew_that_comes_on_thursdays_only_comes_on_a_thursday() {
    let thursdays = plastered_room().with(
        "name = \"Plasterer\"",
        "name = \"Plasterer\"\ncalendar = \"thursdays\"",
    );
    let plan = thursdays.planned(MONDAY);

    assert_eq!(plan.start("room.walls/base"), "Thu 2027-06-10 08:00");
    assert_eq!(plan.start("room.walls/top"), "Thu 2027-06-17 08:00");
    assert_says(
        &plan.why("room.walls/base"),
        &["plasterer is here next Thu 10 June 8:00"],
    );
}

#[test]
fn one_crew_is_in_one_place_at_a_time() {
    let house = house(&[
        PLASTERED,
        &face("room", "walls", "wall", "plastered"),
        &face("bath", "walls", "wall", "plastered"),
    ]);
    let plan = house.planned(MONDAY);

    let mut starts = [plan.start("room.walls/base"), plan.start("bath.walls/base")];
    starts.sort();
    assert_eq!(starts, ["Mon 2027-06-07 08:00", "Mon 2027-06-07 12:00"]);
    let later = if plan.start("room.walls/base") == starts[1] {
        "room.walls/base"
    } else {
        "bath.walls/base"
    };
    assert_says(
        &plan.why(later),
        &["The one plasterer crew is on base coat"],
    );

    let two = house
        .with("name = \"Plasterer\"", "name = \"Plasterer\"\ncrews = 2")
        .planned(MONDAY);
    assert_eq!(two.start("room.walls/base"), two.start("bath.walls/base"));
}

#[test]
fn a_place_takes_only_so_many_crews() {
    let pieces = ["a", "b"].map(|key| {
        format!("[pieces.{key}]\nname = \"Piece {key}\"\ntrade = \"{}\"\nplace = \"room\"\ntakes = \"2 h\"\n",
            if key == "a" { "glass" } else { "tile" })
    });
    let roomy = house(&[&pieces[0], &pieces[1]]);
    let narrow = roomy
        .clone()
        .with("name = \"Room\"\n", "name = \"Room\"\ncrews = 1\n");

    let plan = roomy.planned(MONDAY);
    assert_eq!(plan.start("a"), plan.start("b"));
    let plan = narrow.planned(MONDAY);
    assert_ne!(plan.start("a"), plan.start("b"));
    let later = if plan.start_tick("a") > plan.start_tick("b") {
        "a"
    } else {
        "b"
    };
    assert_says(&plan.why(later), &["No room for another crew in the room"]);
}

#[test]
fn a_booking_bounds_its_work_from_both_sides_and_says_why() {
    let booking = "[[bookings]]\nwork = \"room.walls/base\"\nnot_before = \"2027-06-08\"\n\
                   not_after = \"2027-06-08\"\nwhy = \"The lane is open on Tuesday only\"\n";
    let plan = plastered_room().and(booking).planned(MONDAY);
    assert_eq!(plan.start("room.walls/base"), "Tue 2027-06-08 08:00");
    assert_says(
        &plan.why("room.walls/base"),
        &["The lane is open on Tuesday only"],
    );

    let missed = plastered_room().and(booking).planned("2027-06-09 08:00");
    assert_says(
        &missed.troubles().join(" "),
        &["Base coat, room walls must be done by"],
    );
}

#[test]
fn a_firm_date_that_cannot_be_kept_is_told() {
    let milestone =
        "[milestones.handover]\nname = \"Handover\"\ndue = \"2027-06-09\"\nfirm = true\n";
    let plan = plastered_room().and(milestone).planned(MONDAY);

    // Paint cannot end before Monday 14 June 12:00.
    assert_eq!(plan.start("handover"), "Mon 2027-06-14 12:00");
    assert_says(&plan.troubles().join(" "), &["Handover must be done by"]);
}

#[test]
fn a_milestone_may_wait_for_full_cure() {
    let milestone =
        "[milestones.dry]\nname = \"Dry\"\nafter = [\"room.walls/top\"]\ncured = true\n";
    let house = plastered_room()
        .with("cover = \"72 h\"", "cover = \"72 h\"\ncure = \"7 days\"")
        .and(milestone);
    let plan = house.planned(MONDAY);

    assert_eq!(plan.start("dry"), "Tue 2027-06-15 16:00");
}

#[test]
fn air_outside_the_limits_stops_work_and_drying() {
    let cold = "[[climate]]\nplaces = [\"room\"]\nfrom = \"2027-06-07 16:00\"\nuntil = \"2027-06-09 10:00\"\n\
                temperature = \"3 C\"\n";
    let house = plastered_room()
        .with(
            "takes = \"4 h\"\nrecoat",
            "takes = \"4 h\"\ntemperature = \">= 5 C\"\nrecoat",
        )
        .and(cold);
    let plan = house.planned(MONDAY);

    plan.assert_proved();
    // Ends Monday 12:00: four hours until it turns cold, and twenty more from Wednesday 10:00.
    assert_eq!(plan.start("room.walls/top"), "Thu 2027-06-10 08:00");

    let later = house.planned("2027-06-08 08:00");
    assert_eq!(later.start("room.walls/base"), "Wed 2027-06-09 10:00");
    assert_says(
        &later.roots("room.walls/base").join("; "),
        &["Air in the room"],
    );
}
