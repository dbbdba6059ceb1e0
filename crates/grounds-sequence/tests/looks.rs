//! Looking behind what covers it is work in the plan, before the next thing goes over it.

#![allow(
    clippy::unwrap_used,
    reason = "the test fails where something is not as it should be"
)]

mod house;

use std::path::Path;

use grounds_schedule::Tick;
use grounds_sequence::{TaskState, Work};
use grounds_site::{Kind, Look};
use house::{House, Planned, assert_says};

const NOW: &str = "2027-06-07 08:00";
const WALL: &str = "bathroom.shower-walls";

/// The bathroom, taken over by somebody who finds tile on the shower walls and nobody to ask.
fn taken_over() -> House {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/one-bathroom");
    let mut house = House::folder(&folder);
    house.notes.clear();
    let behind = ["framing", "pipes", "board", "membrane-1", "membrane-2"];
    behind
        .iter()
        .fold(house, |house, layer| {
            presumed(house, &format!("{WALL}/{layer}"))
        })
        .noted(NOW, &format!("{WALL}/tile"), Kind::Done)
}

fn presumed(house: House, about: &str) -> House {
    unseen(house.noted(NOW, about, Kind::Done))
}

fn unseen(mut house: House) -> House {
    house.notes.last_mut().unwrap().presumed = true;
    house
}

fn look(house: House, about: &str, how: Look) -> House {
    unseen(house.put(NOW, about, Kind::Decided, Some(how.value()), ""))
}

fn let_go(house: House, about: &str) -> House {
    unseen(house.put(NOW, about, Kind::Decided, None, "Dry for years, says Ines"))
}

fn work(plan: &Planned, key: &str) -> Tick {
    plan.finish_tick(key) - plan.start_tick(key)
}

#[test]
fn somebody_looks_behind_the_tile_before_it_is_grouted() {
    let about = format!("{WALL}/membrane-2");
    let plan = look(taken_over(), &about, Look::Opening).planned(NOW);
    let key = format!("{about}:look");
    plan.assert_proved();
    assert!(plan.finish_tick(&key) <= plan.start_tick(&format!("{WALL}/grout")));
    // An hour to open it and look, and an hour to set up and make the tile good.
    assert_eq!(work(&plan, &key), 8);
    let task = plan.outlook.network.task(plan.id(&key)).unwrap();
    assert_eq!(task.trade, Some("tile".into()));
    assert_eq!(
        plan.words().task(plan.id(&key)),
        "Look behind the wall tile for the waterproof membrane, second coat, bathroom walls"
    );
    assert_says(
        &plan.why(&format!("{WALL}/grout")),
        &["before this goes over it"],
    );
}

#[test]
fn a_meter_opens_nothing_and_is_read_by_the_site_lead() {
    let about = format!("{WALL}/membrane-2");
    let plan = look(taken_over(), &about, Look::Meter).planned(NOW);
    let key = format!("{about}:look");
    assert_eq!(work(&plan, &key), 2);
    assert_eq!(
        plan.outlook.network.task(plan.id(&key)).unwrap().trade,
        None
    );
    assert!(plan.can_start(&key));
}

#[test]
fn a_face_that_nobody_could_see_is_looked_at_before_its_first_layer() {
    let house = unseen(taken_over().noted(NOW, "bathroom.walls", Kind::Remark));
    let plan = look(house, "bathroom.walls", Look::Camera).planned(NOW);
    plan.assert_proved();
    let looks: Vec<_> = plan
        .outlook
        .network
        .tasks
        .iter()
        .filter(|task| matches!(task.work, Work::Look(_)))
        .collect();
    assert_eq!(looks.len(), 1, "one look at the whole face");
    let key = "bathroom.walls/skim:look";
    assert!(plan.finish_tick(key) <= plan.start_tick("bathroom.walls/skim"));
    assert_says(
        &plan.words().task(plan.id(key)),
        &["Look how far it has got, bathroom walls"],
    );
}

#[test]
fn a_piece_is_looked_for_through_what_covers_it() {
    let house = presumed(taken_over(), "shower-valve");
    let plan = look(house, "shower-valve", Look::Camera).planned(NOW);
    plan.assert_proved();
    let key = "shower-valve:look";
    assert!(plan.finish_tick(key) <= plan.start_tick(&format!("{WALL}/grout")));
    // An hour with the camera, and an hour to make the tile good.
    assert_eq!(work(&plan, key), 8);
}

#[test]
fn opened_and_not_there_puts_the_work_back() {
    let plan = taken_over()
        .noted("2027-06-07 10:00", &format!("{WALL}/tile"), Kind::Undone)
        .noted(
            "2027-06-07 10:00",
            &format!("{WALL}/membrane-2"),
            Kind::Undone,
        )
        .planned("2027-06-07 10:00");
    plan.assert_proved();
    let state = |key: &str| plan.outlook.network.task(plan.id(key)).unwrap().state;
    assert_eq!(state(&format!("{WALL}/membrane-1")), TaskState::Done);
    assert_eq!(state(&format!("{WALL}/membrane-2")), TaskState::ToCome);
    let membrane = plan.finish_tick(&format!("{WALL}/membrane-2"));
    assert!(membrane <= plan.start_tick(&format!("{WALL}/tile")));
}

#[test]
fn what_is_missing_under_finished_work_is_still_work() {
    let plan = taken_over()
        .noted(
            "2027-06-07 10:00",
            &format!("{WALL}/membrane-2"),
            Kind::Undone,
        )
        .planned("2027-06-07 10:00");
    plan.assert_proved();
    let id = plan.id(&format!("{WALL}/membrane-2"));
    assert_eq!(
        plan.outlook.network.task(id).unwrap().state,
        TaskState::ToCome
    );
}

#[test]
fn a_test_that_somebody_lets_go_holds_nothing_up() {
    let plan = let_go(taken_over(), "flood-test").planned(NOW);
    let task = plan.outlook.network.task(plan.id("flood-test")).unwrap();
    assert_eq!(task.state, TaskState::Done);
    let open = taken_over().planned(NOW);
    let task = open.outlook.network.task(open.id("flood-test")).unwrap();
    assert_eq!(task.state, TaskState::ToCome);
}

#[test]
fn what_an_authority_asks_for_is_not_ours_to_let_go() {
    let house = taken_over().with("kind = \"test\"", "kind = \"authority\"");
    let plan = let_go(house, "flood-test").planned(NOW);
    let task = plan.outlook.network.task(plan.id("flood-test")).unwrap();
    assert_eq!(task.state, TaskState::ToCome);
}

#[test]
fn once_it_is_seen_nobody_looks_any_more() {
    let about = format!("{WALL}/membrane-2");
    let house = look(taken_over(), &about, Look::Opening);
    let plan = house.noted("2027-06-07 10:00", &about, Kind::Done);
    assert!(
        !plan
            .planned("2027-06-07 10:00")
            .has(&format!("{about}:look"))
    );
}

#[test]
fn a_test_that_is_wanted_after_all_comes_before_the_grout() {
    let plan = look(taken_over(), "flood-test", Look::Test).planned(NOW);
    plan.assert_proved();
    let grout = plan.start_tick(&format!("{WALL}/grout"));
    // It stands a day, and a day to drain and dry comes after it.
    assert!(plan.finish_tick("flood-test") + 96 <= grout);
}
