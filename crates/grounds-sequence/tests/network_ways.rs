//! Floors that shut rooms off, and the ways round.

mod house;

use grounds_site::Kind;
use house::{
    assert_says,
    small::{COATED, PLASTERED, face, house},
};

const MONDAY: &str = "2027-06-07 08:00";

/// The hall's floor coated by four hours from Monday 08:00, and something to set in the room.
fn hall_coated() -> house::House {
    house(&[
        COATED,
        &face("hall", "floor", "floor", "coated"),
        "[pieces.mirror]\nname = \"Mirror\"\ntrade = \"glass\"\nplace = \"room\"\ntakes = \"1 h\"\n",
    ])
    .noted("2027-06-07 08:00", "hall.floor/coat", Kind::Started)
    .noted("2027-06-07 12:00", "hall.floor/coat", Kind::Done)
}

const NOON: &str = "2027-06-07 12:00";

#[test]
fn a_wet_hall_cuts_the_room_off() {
    let plan = hall_coated().planned(NOON);

    // Monday 12:00 and 24 h.
    assert_eq!(plan.start("mirror"), "Tue 2027-06-08 12:00");
    assert!(!plan.can_start("mirror"));
    assert_says(
        &plan.why("mirror"),
        &["no way in", "floor coat, hall floor"],
    );
    plan.assert_proved();
}

#[test]
fn a_second_way_round_keeps_the_room_open() {
    let garden = "[passages.garden-door]\nkind = \"door\"\nbetween = [\"room\", \"outside\"]\n";
    let plan = hall_coated().and(garden).planned(NOON);

    assert_eq!(plan.start("mirror"), "Mon 2027-06-07 12:00");
    assert!(plan.can_start("mirror"));
}

#[test]
fn two_ways_round_are_no_way_when_both_are_wet() {
    // The garden door opens into the bath, whose floor is coated too; the bath opens to the room.
    let ways = "[passages.garden-door]\nkind = \"door\"\nbetween = [\"bath\", \"outside\"]\n\
                [passages.bath-room]\nkind = \"opening\"\nbetween = [\"bath\", \"room\"]\n";
    let both = hall_coated()
        .and(ways)
        .and(&face("bath", "floor", "floor", "coated"))
        .noted("2027-06-07 10:00", "bath.floor/coat", Kind::Done);
    let plan = both.planned(NOON);

    // The bath is open again on Tuesday at 10:00, two hours before the hall.
    assert_eq!(plan.start("mirror"), "Tue 2027-06-08 10:00");
}

#[test]
fn heavy_things_wait_longer_than_boots() {
    let heavy = hall_coated()
        .with("boots = \"24 h\"", "boots = \"24 h\", heavy = \"72 h\"")
        .with(
            "place = \"room\"\ntakes",
            "place = \"room\"\nheavy = true\ntakes",
        );
    let plan = heavy.planned(NOON);

    assert_eq!(plan.start("mirror"), "Thu 2027-06-10 12:00");
}

#[test]
fn a_passage_that_is_shut_by_a_problem_cuts_off_too() {
    let house = house(&["[pieces.mirror]\nname = \"Mirror\"\ntrade = \"glass\"\nplace = \"room\"\ntakes = \"1 h\"\n"])
        .put(
            "2027-06-07 08:00",
            "room-door",
            Kind::Problem,
            Some(grounds_site::Value::When("2027-06-09 10:00".parse().expect("a moment"))),
            "scaffold in the doorway",
        );
    let plan = house.planned(MONDAY);

    assert_eq!(plan.start("mirror"), "Wed 2027-06-09 10:00");
    assert_says(&plan.why("mirror"), &["no way in"]);
    assert_says(&plan.roots("mirror").join("; "), &["shut"]);
}

#[test]
fn what_is_done_last_waits_for_all_who_cross_it() {
    let last = COATED.replace("takes = \"4 h\"", "takes = \"4 h\"\nlast = true");
    let house = house(&[
        &last,
        PLASTERED,
        &face("hall", "floor", "floor", "coated"),
        &face("room", "walls", "wall", "plastered"),
    ]);
    let plan = house.planned(MONDAY);

    plan.assert_proved();
    assert_eq!(
        plan.start_tick("hall.floor/coat"),
        plan.finish_tick("room.walls/paint")
    );
    assert_says(&plan.why("hall.floor/coat"), &["still crosses this floor"]);
}

#[test]
fn a_last_coat_whose_window_runs_does_not_wait_for_those_who_cross() {
    let coats = "[build_ups.two-coats]\nname = \"Two coats\"\n\
        [[build_ups.two-coats.layers]]\nid = \"first\"\nname = \"First coat\"\nmaterial = \"finish\"\n\
        trade = \"floor\"\ntakes = \"1 h\"\nrecoat = \"3 h\"\nlatest_recoat = \"24 h\"\n\
        traffic = { boots = \"24 h\" }\n\
        [[build_ups.two-coats.layers]]\nid = \"second\"\nname = \"Second coat\"\nmaterial = \"finish\"\n\
        trade = \"floor\"\ntakes = \"1 h\"\nlast = true\ntraffic = { boots = \"24 h\" }\n";
    let house = house(&[
        coats,
        PLASTERED,
        &face("hall", "floor", "floor", "two-coats"),
        &face("room", "walls", "wall", "plastered"),
    ]);

    // Nothing begun: both coats wait for the plasterer behind the hall.
    let plan = house.planned(MONDAY);
    plan.assert_proved();
    assert!(plan.start_tick("hall.floor/first") + 28 * 4 >= plan.finish_tick("room.walls/paint"));

    // The first coat is on by 09:00: the second follows at 12:00, and the plasterer waits a day.
    let begun = house
        .noted("2027-06-07 08:00", "hall.floor/first", Kind::Started)
        .noted("2027-06-07 09:00", "hall.floor/first", Kind::Done);
    let plan = begun.planned("2027-06-07 09:00");
    plan.assert_proved();
    assert_eq!(plan.start("hall.floor/second"), "Mon 2027-06-07 12:00");
    assert_eq!(plan.start("room.walls/base"), "Tue 2027-06-08 13:00");
}

#[test]
fn of_two_floors_done_last_the_inner_comes_first() {
    let last = COATED.replace("takes = \"4 h\"", "takes = \"4 h\"\nlast = true");
    let house = house(&[
        &last,
        &face("hall", "floor", "floor", "coated"),
        &face("room", "floor", "floor", "coated"),
    ]);
    let plan = house.planned(MONDAY);

    assert!(plan.finish_tick("room.floor/coat") <= plan.start_tick("hall.floor/coat"));
}

#[test]
fn a_crew_may_go_on_over_its_own_drying_floor() {
    // Three coats an hour apart: the floor layer does not wait for his own floor to bear boots.
    let coats = "[build_ups.two-coats]\nname = \"Two coats\"\n\
        [[build_ups.two-coats.layers]]\nid = \"first\"\nname = \"First coat\"\nmaterial = \"finish\"\n\
        trade = \"floor\"\ntakes = \"1 h\"\nrecoat = \"2 h\"\ntraffic = { boots = \"24 h\" }\n\
        [[build_ups.two-coats.layers]]\nid = \"second\"\nname = \"Second coat\"\nmaterial = \"finish\"\n\
        trade = \"floor\"\ntakes = \"1 h\"\ntraffic = { boots = \"24 h\" }\n";
    let house = house(&[coats, &face("room", "floor", "floor", "two-coats")]);
    let plan = house.planned(MONDAY);

    assert_eq!(plan.start("room.floor/second"), "Mon 2027-06-07 11:00");
}

#[test]
fn a_piece_on_a_floor_waits_until_the_floor_bears_it() {
    let screen = "[pieces.screen]\nname = \"Screen\"\ntrade = \"glass\"\nplace = \"room\"\nface = \"floor\"\n\
                  takes = \"1 h\"\nafter = [\"room.floor/coat\"]\n";
    let house = house(&[COATED, &face("room", "floor", "floor", "coated"), screen]);
    let plan = house.planned(MONDAY);

    // Coated by Monday 12:00; it bears boots 24 h later.
    assert_eq!(plan.start("screen"), "Tue 2027-06-08 12:00");
    let heavy = house
        .with("boots = \"24 h\"", "boots = \"24 h\", heavy = \"72 h\"")
        .with("face = \"floor\"", "face = \"floor\"\nheavy = true");
    assert_eq!(
        heavy.planned(MONDAY).start("screen"),
        "Thu 2027-06-10 12:00"
    );
}

#[test]
fn no_floor_is_coated_under_a_piece_that_is_kept_there() {
    let kept = "[pieces.mirror]\nname = \"Mirror\"\ntrade = \"glass\"\nplace = \"bath\"\ntakes = \"1 h\"\n\
                lead = \"5 days\"\nkept_in = \"room\"\n\
                [[bookings]]\nwork = \"mirror\"\nnot_before = \"2027-06-10 08:00\"\n";
    let house = house(&[COATED, &face("room", "floor", "floor", "coated"), kept]).noted(
        "2027-06-07 07:30",
        "mirror",
        Kind::Arrived,
    );
    let plan = house.planned(MONDAY);

    assert_eq!(plan.start("room.floor/coat"), "Thu 2027-06-10 09:00");
    assert_says(&plan.why("room.floor/coat"), &["kept here until it is set"]);
}

#[test]
fn dust_does_not_fly_while_a_finish_needs_still_air() {
    let still = COATED.replace("takes = \"4 h\"", "takes = \"4 h\"\nstill = \"8 h\"");
    let dusty = "[build_ups.sanded]\nname = \"Sanded\"\n[[build_ups.sanded.layers]]\nid = \"sand\"\n\
        name = \"Sanding\"\nmaterial = \"timber\"\ntrade = \"tile\"\ntakes = \"2 h\"\ndusty = true\n";
    let parts = [
        &still,
        dusty,
        &face("room", "floor", "floor", "coated"),
        &face("bath", "walls", "wall", "sanded"),
    ];
    let apart = house(&parts);
    let one_air = apart
        .clone()
        .with("name = \"Room\"\n", "name = \"Room\"\nair = \"back\"\n")
        .with("name = \"Bath\"\n", "name = \"Bath\"\nair = \"back\"\n");

    assert_eq!(
        apart.planned(MONDAY).start("bath.walls/sand"),
        "Mon 2027-06-07 08:00"
    );
    let plan = one_air.planned(MONDAY);
    plan.assert_proved();
    // One of them goes first: sanding for two hours, or the coat for four and 8 h of still air.
    let (sand, coat) = ("bath.walls/sand", "room.floor/coat");
    assert!(
        plan.finish_tick(sand) <= plan.start_tick(coat)
            || plan.finish_tick(coat) + 8 * 4 <= plan.start_tick(sand)
    );
}
