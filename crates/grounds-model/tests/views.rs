//! What a job says about one thing.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at the first surprise"
)]

use grounds_measure::{Area, Length};
use grounds_model::{Id, Job, LayerKey, Ref, Selector, Target, Work, starter};

fn job() -> Job {
    Job::from_toml(starter().job).unwrap()
}

fn layer(place: &str, face: &str, layer: &str) -> LayerKey {
    LayerKey {
        place: place.into(),
        face: face.into(),
        layer: layer.into(),
    }
}

fn area(text: &str) -> Option<Area> {
    Some(text.parse().unwrap())
}

#[test]
fn a_face_without_an_area_takes_that_of_its_room() {
    let job = job();
    // The bath is 2.4 m x 1.8 m x 2.4 m: floor 2.4 * 1.8, walls 2 * (2.4 + 1.8) * 2.4.
    assert_eq!(job.face_area("bath", "floor"), area("4.32 m2"));
    assert_eq!(job.face_area("bath", "ceiling"), area("4.32 m2"));
    assert_eq!(job.face_area("bath", "walls"), area("20.16 m2"));
    assert_eq!(
        job.face_length("bath", "walls"),
        Some(Length::from_mm(8400))
    );
}

#[test]
fn a_face_with_its_own_area_keeps_it() {
    assert_eq!(job().face_area("front-room", "walls"), area("37 m2"));
    assert_eq!(job().face_area("front-room", "roof"), None);
}

#[test]
fn a_reference_finds_layers_faces_and_things() {
    let job = job();
    let found = |text: &str| job.resolve(&Ref::from(text));
    assert_eq!(
        found("bath.walls/tile"),
        Some(Target::Layer(layer("bath", "walls", "tile")))
    );
    assert_eq!(
        found("bath.walls"),
        Some(Target::Face {
            place: "bath".into(),
            face: "walls".into()
        })
    );
    assert_eq!(found("bath"), Some(Target::Place("bath".into())));
    assert_eq!(
        found("shower-screen"),
        Some(Target::Piece("shower-screen".into()))
    );
    assert_eq!(
        found("first-fix-seen"),
        Some(Target::Hold("first-fix-seen".into()))
    );
    assert_eq!(
        found("moved-in"),
        Some(Target::Milestone("moved-in".into()))
    );
    assert_eq!(
        found("bath-door"),
        Some(Target::Passage("bath-door".into()))
    );
    assert_eq!(found("glass"), Some(Target::Trade("glass".into())));
    assert_eq!(found("job"), Some(Target::Job));
    assert_eq!(found("bath.walls/gold"), None);
}

#[test]
fn a_build_up_of_the_job_beats_that_of_the_library() {
    let mut job = job();
    let ours = job.build_ups["damp-proof-ceiling"].clone();
    assert_ne!(job.build_up_named("skimmed-ceiling"), Some(&ours));
    job.build_ups.insert("skimmed-ceiling".into(), ours.clone());
    assert_eq!(job.build_up_named("skimmed-ceiling"), Some(&ours));
}

#[test]
fn a_selector_chooses_by_face_and_by_layer_or_material() {
    let job = job();
    let bath = Id::from("bath");
    let chosen = |text: &str| job.selected(&bath, &Selector::from(text));
    assert_eq!(chosen("wall:grout"), [layer("bath", "walls", "grout")]);
    assert_eq!(
        chosen("any:grout"),
        [
            layer("bath", "floor", "grout"),
            layer("bath", "walls", "grout")
        ]
    );
    assert_eq!(chosen("ceiling:wet"), [layer("bath", "ceiling", "joints")]);
    assert_eq!(chosen("ceiling:*").len(), 3);
    assert_eq!(chosen("soffit:*"), []);
}

#[test]
fn the_ceiling_is_painted_after_the_walls_are_grouted() {
    let awaited = job().awaited(&layer("bath", "ceiling", "paint"));
    assert_eq!(awaited, [layer("bath", "walls", "grout")]);
}

#[test]
fn a_layer_never_waits_for_its_own_stack_nor_for_its_like_on_another_wall() {
    let mut job = job();
    let ceiling = job.build_ups.get_mut("damp-proof-ceiling").unwrap();
    ceiling.layers[1].after = vec![Selector::from("any:*")];
    let bath = job.places.get_mut("bath").unwrap();
    let twin = bath.faces["ceiling"].clone();
    bath.faces.insert("ceiling-bay".into(), twin);
    let awaited = job.awaited(&layer("bath", "ceiling", "joints"));
    assert!(awaited.iter().all(|key| key.face.as_str() != "ceiling"));
    assert!(awaited.iter().all(|key| key.face.as_str() != "ceiling-bay"));
    assert!(awaited.contains(&layer("bath", "walls", "tile")));
    // A bay that is done by itself is waited for, but not in the very layer that waits for it too.
    job.places
        .get_mut("bath")
        .unwrap()
        .faces
        .get_mut("ceiling-bay")
        .unwrap()
        .split = true;
    let awaited = job.awaited(&layer("bath", "ceiling", "joints"));
    assert!(!awaited.contains(&layer("bath", "ceiling-bay", "joints")));
    assert!(awaited.contains(&layer("bath", "ceiling-bay", "board")));
}

#[test]
fn faces_of_one_build_up_are_worked_on_in_one_go_unless_split() {
    let mut job = job();
    let hall = job.places.get_mut("hall").unwrap();
    let walls = hall.faces["walls"].clone();
    hall.faces.insert("alcove".into(), walls);
    let together = |job: &Job, face: &str| job.worked_together(&"hall".into(), &face.into());
    assert_eq!(
        together(&job, "walls"),
        [Id::from("alcove"), Id::from("walls")]
    );
    job.places
        .get_mut("hall")
        .unwrap()
        .faces
        .get_mut("alcove")
        .unwrap()
        .split = true;
    assert_eq!(together(&job, "walls"), [Id::from("walls")]);
    assert_eq!(together(&job, "alcove"), [Id::from("alcove")]);
}

#[test]
fn a_place_stands_for_its_layers_and_its_pieces() {
    let works = job().works(&Target::Place("bath".into()));
    assert!(works.contains(&Work::Layer(layer("bath", "floor", "tile"))));
    assert!(works.contains(&Work::Piece("shower-screen".into())));
    assert!(!works.contains(&Work::Layer(layer("hall", "walls", "board"))));
    assert!(!works.iter().any(|work| matches!(work, Work::Hold(_))));
}

#[test]
fn a_trade_works_by_its_own_calendar_else_by_the_job_s() {
    let job = job();
    assert_eq!(job.calendar_of("glass"), job.calendars.get("two-days"));
    assert_eq!(job.calendar_of("tile"), job.calendars.get("site-week"));
    assert_eq!(job.calendars["site-week"].longest_shift_minutes(), 480);
}

#[test]
fn a_shower_screen_is_known_by_the_names_it_goes_by() {
    let job = job();
    let names = job.names();
    let screen = names
        .iter()
        .find(|named| named.target == Target::Piece("shower-screen".into()))
        .unwrap();
    assert_eq!(screen.name, "Shower screen");
    assert_eq!(screen.aliases, ["the screen", "shower glass"]);
    assert!(
        names
            .iter()
            .any(|named| named.target == Target::Layer(layer("hall", "walls", "board")))
    );
}

#[test]
fn the_house_stands_in_its_time_zone() {
    let zone = job().time_zone().unwrap();
    // British Summer Time is one hour ahead (published: Summer Time Act 1972).
    let noon = jiff::civil::date(2027, 6, 7).at(12, 0, 0, 0);
    let summer = zone.to_zoned_datetime(noon).unwrap();
    assert_eq!(summer.offset().seconds(), 3600);
}
