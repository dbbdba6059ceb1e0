//! What is behind a wall, by place or by asking.

mod house;

use grounds_cover::{Found, PartOf, behind_face, find};
use grounds_site::{Kind, Subject};
use house::{House, assert_says};

fn covered() -> House {
    House::bathroom()
        .noted("2027-06-03T10:00", "bath.wall/blocking", Kind::Done)
        .noted("2027-06-03T15:00", "bath.wall/pipes", Kind::Done)
        .photo("2027-06-03T15:30", "bath.wall/pipes")
        .noted("2027-06-04T09:00", "valve", Kind::Done)
        .noted("2027-06-07T15:00", "bath.wall/board", Kind::Done)
}

fn ask(question: &str) -> (Found, Vec<String>) {
    let look = covered().at("2027-06-08T08:00");
    let found = find(&look.job, &look.site, question, None);
    let names = found
        .faces
        .iter()
        .map(|face| format!("{}.{}", face.place, face.face))
        .collect();
    (found, names)
}

#[test]
fn a_face_is_told_from_the_finish_inwards_with_depths_and_heights() {
    let look = covered().at("2027-06-08T08:00");
    let face = behind_face(&look.job, &look.site, &"bath".into(), &"wall".into()).unwrap();
    let names: Vec<&str> = face.parts.iter().map(|part| part.name.as_str()).collect();
    assert_eq!(
        names,
        [
            "Wall tile",
            "Cement board",
            "Shower valve",
            "Pipes to the shower",
            "Blocking for rails"
        ]
    );
    let words = look.words();
    let pipes = words.part(&face.parts[3]).join(", ");
    // 14 mm of tile and 12.5 mm of board.
    assert_says(
        &pipes,
        &["26.5 mm behind the finish", "in since Thu 3 June by Ana"],
    );
    assert!(!pipes.contains("no photo"), "{pipes}");
    let valve = words.part(&face.parts[2]).join(", ");
    assert_says(&valve, &["1100 mm above the finished floor", "no photo"]);
    assert_eq!(face.holds.len(), 2);
    assert!(face.parts[3].is_covered && !face.parts[1].is_covered);
}

#[test]
fn somebody_asks_where_the_pipe_in_the_shower_is() {
    let (found, faces) = ask("where is the pipe in the shower?");
    assert_eq!(faces, ["bath.wall"]);
    assert!(found.not_known.is_empty(), "{:?}", found.not_known);
    let layer = found.faces[0].parts.iter().find_map(|part| match &part.of {
        PartOf::Layer(key) if key.layer.as_str() == "pipes" => Some(key.clone()),
        _ => None,
    });
    assert_eq!(found.things, [Subject::Layer(layer.unwrap())]);
}

#[test]
fn somebody_asks_what_is_behind_the_bathroom_wall() {
    let (found, faces) = ask("what is behind the bathroom wall");
    assert_eq!(faces, ["bath.wall"]);
    assert!(found.things.is_empty(), "{:?}", found.things);
    let (_, faces) = ask("bathroom");
    assert_eq!(faces, ["bath.floor", "bath.wall"]);
}

#[test]
fn what_the_job_does_not_know_is_said() {
    let (found, faces) = ask("where is the gas in the attic");
    assert!(faces.is_empty());
    assert_eq!(found.not_known, ["gas", "attic"]);
    assert_eq!(ask("").0, Found::default());
    assert_eq!(ask("where is the").0, Found::default());
    let hostile = format!("<script>{}\u{0}", "pipe ".repeat(5000));
    assert!(!ask(&hostile).0.faces.is_empty());
}

#[test]
fn the_mill_is_asked_as_people_ask() {
    let look = House::mill().at("2027-06-10T07:10");
    let faces = |question: &str| -> Vec<String> {
        let found = find(&look.job, &look.site, question, None);
        let faces = found.faces.iter();
        faces
            .map(|face| format!("{}.{}", face.place, face.face))
            .collect()
    };
    assert_eq!(faces("what is behind the kitchen wall")[0], "kitchen.walls");
    assert!(faces("shower pipes main bathroom").contains(&"main-bathroom.shower-walls".to_owned()));
    assert_eq!(
        faces("heating pipes in the kitchen floor")[0],
        "kitchen.floor"
    );
    assert!(
        faces("shower valve")
            .iter()
            .any(|face| face.contains("shower-walls"))
    );
}
