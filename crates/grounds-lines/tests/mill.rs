//! The demo house as it stands on the tenth of June 2027. Its figures are invented.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at the first surprise"
)]

mod house;

use std::collections::BTreeSet;

use grounds_lines::{answers::Verdict, lines::NeedKind};
use house::{House, assert_says};

fn mill() -> House {
    House::example("alder-sluice")
}

#[test]
fn the_mill_has_more_than_sixty_needs_on_its_four_levels() {
    let house = mill();
    let answers = house.answers();
    assert!(answers.answers.len() >= 60, "{}", answers.answers.len());

    let levels: BTreeSet<&str> = answers
        .answers
        .iter()
        .filter_map(|answer| house.job.pieces.get(answer.about.as_str()))
        .filter_map(|piece| house.job.places.get(&piece.place))
        .map(|place| place.level.as_str())
        .collect();
    for level in ["wheel-level", "mill-floor", "stone-floor", "bin-floor"] {
        assert!(levels.contains(level), "no need on {level}");
    }
}

#[test]
fn the_grille_of_the_mill_was_set_for_a_thinner_skim() {
    let grille = mill().answer("kitchen-slot-grille.flush");
    assert_eq!(grille.verdict, Verdict::Fails);
    assert_says(
        &grille.said,
        &[
            "sits 2.2 mm shy of the plaster",
            "It was set for 3 mm",
            "5.2 mm went on",
        ],
    );
    assert_says(&grille.working.join("\n"), &["read by Ines", "worst cases"]);
}

#[test]
fn what_is_in_trouble_at_the_mill_says_why() {
    let answers = mill().answers();
    for (key, why) in [
        ("wheel-screen.width", "3204 mm"),
        ("cellar-door.width", "782 mm"),
        ("dining-glass.flush", "6 mm went on"),
        ("wash-valves.flush", "8.5 mm went on"),
        ("stair-upper-rail.clear", "−104 mm was read"),
        ("stair-upper.last-rise", "−32 mm was read"),
        ("hall-tower.threshold", "−7 mm was read"),
    ] {
        let answer = answers.get(key).unwrap();
        assert_eq!(answer.verdict, Verdict::Fails, "{key}");
        assert_says(&answer.said, &[why]);
    }
}

#[test]
fn one_plane_holds_through_three_levels() {
    let house = mill();
    let answers = house.answers();
    let in_plane: Vec<_> = answers
        .answers
        .iter()
        .filter(|answer| answer.kind == NeedKind::InPlane && answer.name.contains("tower plane"))
        .collect();
    let levels: BTreeSet<&str> = in_plane
        .iter()
        .filter_map(|answer| house.job.pieces.get(answer.about.as_str()))
        .map(|piece| house.job.places[&piece.place].level.as_str())
        .collect();
    assert_eq!(levels.len(), 3);
    assert!(
        in_plane
            .iter()
            .all(|answer| answer.verdict == Verdict::Holds)
    );
}

#[test]
fn what_nobody_has_said_yet_is_asked_of_who_has_it() {
    let valve = mill().answer("guest-valve.flush");
    assert_eq!(valve.verdict, Verdict::CannotTell);
    assert_says(
        &valve.said,
        &["the thickness of the shower valve", "Dai Merrick"],
    );
}

#[test]
fn a_floor_is_read_before_it_is_covered() {
    let answers = mill().answers();
    let level = |about: &str| {
        let mut all = answers.measure.iter();
        all.find(|it| it.about.as_str() == about && it.telling.is_some())
    };
    let kitchen = level("kitchen.floor").unwrap();
    assert_says(
        &kitchen.said,
        &["level of the floor in the kitchen", "before"],
    );
    assert_eq!(
        kitchen.before.as_ref().map(|it| it.as_str()),
        Some("kitchen.floor/membrane")
    );
}

#[test]
fn a_glass_that_will_not_sit_right_holds_its_order_until_somebody_decides() {
    let house = mill();
    let held = |house: &House| {
        let all = house.holdups();
        all.into_iter()
            .find(|held| held.need == "dining-glass.flush")
    };
    let found = held(&house).unwrap();
    assert_eq!(found.order.map(|id| id.0), Some("dining-glass".to_owned()));
    assert_eq!(found.overruled, None);

    let decided = house.noted(
        "2027-06-09T12:00:00+01:00",
        "dining-glass",
        grounds_site::Kind::Decided,
        None,
    );
    assert!(held(&decided).unwrap().overruled.is_some());

    let measured = decided.read_off(
        "2027-06-09T15:00:00+01:00",
        "dining-glass",
        "depth",
        "21 mm",
    );
    assert_eq!(held(&measured).and_then(|held| held.overruled), None);
}
