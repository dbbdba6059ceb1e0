//! What must be settled first holds orders and work back, and nothing else.
//!
//! Dates are derived in each test from the hours and waits that it states.

mod house;

use grounds_sequence::Holds;
use grounds_site::Kind;
use house::{
    House, assert_says,
    small::{PLASTERED, face, house},
};

const MONDAY: &str = "2027-06-07 07:00";

const GRILLE: &str = "The grille sits 3 mm shy of the plaster";

/// A plastered room with a grille that takes three weeks to come, and a test of the base coat.
fn room() -> House {
    house(&[PLASTERED, &face("room", "walls", "wall", "plastered")]).and(
        r#"
        [pieces.grille]
        name = "Grille"
        trade = "glass"
        place = "room"
        takes = "2 h"
        after = ["room.walls/paint"]
        lead = "3 weeks"

        [milestones.ready]
        name = "Ready"
        after = ["grille"]
        "#,
    )
}

fn order() -> [Holds; 1] {
    [Holds::Order("grille".into())]
}

fn layer() -> [Holds; 1] {
    [Holds::Work("room.walls/base".into())]
}

#[test]
fn a_layer_that_is_held_up_cannot_start_today() {
    assert!(room().planned(MONDAY).can_start("room.walls/base"));

    let plan = room().held_up("grille", GRILLE, &layer()).planned(MONDAY);

    plan.assert_proved();
    assert!(!plan.can_start("room.walls/base"));
    assert_eq!(plan.start("room.walls/base"), "Tue 2027-06-08 08:00");
    assert_says(
        &plan.why("room.walls/base"),
        &["until this is settled: the grille sits 3 mm shy of the plaster"],
    );
}

#[test]
fn what_holds_work_up_is_a_cause_with_both_ways_out_of_it() {
    let plan = room().held_up("grille", GRILLE, &layer()).planned(MONDAY);

    assert_eq!(plan.roots("room.walls/base"), [GRILLE]);
    // The base coat and both coats on it wait; the grille takes three weeks in any case.
    let root = plan
        .outlook
        .roots
        .iter()
        .find(|root| plan.words().root(root).title == GRILLE)
        .unwrap();
    assert!(root.cause.is_trouble());
    assert_eq!(root.holds.len(), 3, "{:?}", plan.words().root(root));
    assert_says(
        &plan.words().root(root).detail,
        &["Wanted within 1 mm.", "Settle it", "goes on as it is"],
    );
}

#[test]
fn an_order_that_is_held_up_goes_out_on_the_next_working_day() {
    let free = room().planned(MONDAY);
    let held = room().held_up("grille", GRILLE, &order()).planned(MONDAY);

    held.assert_proved();
    // Three weeks from Monday, and three weeks from Tuesday.
    assert_says(&free.start("grille:arrive"), &["Mon 2027-06-28"]);
    assert_says(&held.start("grille:arrive"), &["Tue 2027-06-29"]);
    assert!(held.can_start("room.walls/base"));
    assert_says(
        &held.why("grille:arrive"),
        &["Its order waits", "it would come Tue 29 June"],
    );
    let roots = held.roots("grille:arrive").join("; ");
    assert_says(&roots, &[GRILLE, "Grille not on site"]);
}

#[test]
fn what_is_held_up_over_a_weekend_waits_for_monday() {
    let plan = room()
        .held_up("grille", GRILLE, &layer())
        .planned("2027-06-11 07:00");

    assert_eq!(plan.start("room.walls/base"), "Mon 2027-06-14 08:00");
}

#[test]
fn what_is_ordered_or_begun_is_not_held() {
    let both = [order(), layer()].concat();
    let ordered = room().noted_for("2027-06-07 06:00", "grille", Kind::Ordered, "2027-06-18");
    let begun = ordered.noted("2027-06-07 06:30", "room.walls/base", Kind::Started);
    let free = begun.planned(MONDAY);
    let held = begun.held_up("grille", GRILLE, &both).planned(MONDAY);

    assert_eq!(held.start("grille:arrive"), free.start("grille:arrive"));
    assert_eq!(
        held.finish("room.walls/base"),
        free.finish("room.walls/base")
    );
    assert!(held.roots("grille").iter().all(|root| root != GRILLE));
}

#[test]
fn one_matter_that_holds_several_things_is_one_cause() {
    let both = [order(), layer()].concat();
    let plan = room().held_up("grille", GRILLE, &both).planned(MONDAY);

    let words = plan.words();
    let titles = plan.outlook.roots.iter().map(|root| words.root(root).title);
    assert_eq!(titles.filter(|title| title == GRILLE).count(), 1);
}

#[test]
fn what_holds_the_most_is_said_as_a_sentence() {
    let walls = [PLASTERED, &face("room", "walls", "wall", "plastered")];
    let plan = house(&walls)
        .held_up("room.walls/base", GRILLE, &layer())
        .planned(MONDAY);

    assert_says(
        &plan.words().heaviest().unwrap(),
        &["That the grille sits 3 mm shy of the plaster holds the most: three activities"],
    );
}
