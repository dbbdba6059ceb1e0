//! The register of the demo house on the morning that it opens with.

mod house;

use grounds_cover::HoldState;
use house::{House, assert_says};

const MORNING: &str = "2027-06-10T07:10";

#[test]
fn the_mill_has_its_fire_stopping_in_the_register_before_the_void_is_boarded() {
    let look = House::mill().at(MORNING);
    let within = look
        .register
        .to_come(Some(4))
        .filter(|c| c.is_asked())
        .count();
    assert!(
        (15..60).contains(&within),
        "{within} coverings in four weeks"
    );
    assert!(
        look.register.coverings.len() > 150,
        "{}",
        look.register.coverings.len()
    );
    let said = look.missing("plant-room.void/board").join("\n");
    assert_says(
        &said,
        &[
            "Fire stopping seen before the plant void is boarded must pass: from the inspector",
            "Photo of every penetration",
            "Maker's sheet of the sealant",
        ],
    );
}

#[test]
fn the_mill_lists_nothing_as_missing_without_saying_from_whom() {
    let look = House::mill().at(MORNING);
    for covering in look.register.to_come(None) {
        for sentence in look.words().missing(covering) {
            assert_says(&sentence, &[": from "]);
        }
    }
    assert!(!look.register.unseen().is_empty());
    assert!(
        look.register
            .unseen()
            .iter()
            .all(|covering| covering.missing().count() > 0)
    );
}

#[test]
fn every_hold_of_the_mill_stands_somehow_in_words() {
    let look = House::mill().at(MORNING);
    let failed = look.hold("steam-flood");
    assert!(matches!(failed.0.state, HoldState::Failed { .. }));
    assert_says(
        &failed.1,
        &["Failed Wed 9 June by Marta", "Down 11 mm overnight"],
    );
    assert!(matches!(
        look.hold("plant-fire-stopping").0.state,
        HoldState::ToBook { .. }
    ));
    assert!(matches!(
        look.hold("void-pressure").0.state,
        HoldState::Passed(_)
    ));
    for id in look.job.holds.keys() {
        assert!(look.hold(id.as_str()).1.ends_with('.'), "{id}");
    }
}
