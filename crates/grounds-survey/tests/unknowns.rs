//! What nobody knows of a house that was taken over, and what to do about it.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "the test fails where something is not as it should be"
)]

mod house;

use grounds_sequence::{TaskState, Work};
use grounds_site::{Kind, Look, Note, Subject};
use grounds_survey::{Unknown, Weight, decide, stock};
use house::{Survey, at, job, taken_over, up_to};

const MEMBRANE: &str = "bathroom.shower-wall/coat-2";

fn weighty(survey: &Survey) -> Vec<(String, Weight)> {
    let all = survey.planned().unknowns();
    let matters = all.into_iter().filter(|it| it.weight != Weight::Little);
    matters.map(|it| (it.key, it.weight)).collect()
}

#[test]
fn what_weighs_most_and_is_buried_soonest_comes_first() {
    let planned = taken_over().planned();
    let all = planned.unknowns();
    assert!(all.is_sorted_by_key(|it| it.weight));
    let heavy: Vec<&Unknown> = all.iter().filter(|it| it.weight == Weight::Heavy).collect();
    let starts: Vec<_> = heavy
        .iter()
        .map(|it| it.buried_by.map_or(i32::MAX, |(_, at)| at))
        .collect();
    assert!(starts.is_sorted(), "{starts:?}");
    let keys: Vec<&str> = heavy.iter().map(|it| it.key.as_str()).collect();
    for key in [
        MEMBRANE,
        "bathroom.shower-wall/pipes",
        "mixer",
        "hall.north-wall/cables",
    ] {
        assert!(keys.contains(&key), "{key} is not among {keys:?}");
    }
    let some: Vec<(String, Weight)> = weighty(&taken_over());
    assert!(some.contains(&("east-room.ceiling/wool".to_owned(), Weight::Some)));
    assert!(some.contains(&("west-room.ceiling".to_owned(), Weight::Some)));
}

#[test]
fn of_two_coats_of_membrane_one_is_asked_about() {
    let planned = taken_over().planned();
    let all = planned.unknowns();
    assert!(all.iter().all(|it| it.key != "bathroom.shower-wall/coat-1"));
    // Pipes and cables are each asked about: neither tells of the other.
    for layer in ["pipes", "cables"] {
        let key = format!("bathroom.shower-wall/{layer}");
        assert!(all.iter().any(|it| it.key == key), "{key}");
    }
    let it = taken_over().unknown(MEMBRANE);
    assert_eq!(
        it.asks,
        "Behind the wall tile in the bathroom: is there “membrane, second coat”?"
    );
}

#[test]
fn the_flood_test_that_nobody_saw_is_unproven_and_said_with_the_membrane() {
    let it = taken_over().unknown(MEMBRANE);
    assert_eq!(it.tests, ["flood-test".into()]);
    assert!(
        it.because.contains(
            &"Flood test (24 h, water marked): nobody saw it pass, so it is unproven.".to_owned()
        ),
        "{:?}",
        it.because
    );
    let mut survey = taken_over();
    survey.notes.push(Note::new(
        uuid::Uuid::from_u128(9),
        at(30),
        "Ines",
        "flood-test",
        Kind::Passed,
    ));
    let proved = survey.unknown(MEMBRANE);
    assert_eq!(proved.weight, Weight::Little, "{:?}", proved.because);
}

#[test]
fn opening_and_doing_it_again_cost_what_the_working_says() {
    let it = taken_over().unknown(MEMBRANE);
    let (how, opening) = &it.ways[0];
    assert_eq!(*how, Look::Opening);
    // An hour to open it and an hour to make the tile good, one tiler at 40 an hour.
    assert_eq!((opening.minutes, opening.cents), (120, Some(8_000)));
    let again = it.missing.unwrap();
    // The tile off in half its 8 h, a coat 1 h, the tile on 8 h: 13 h of one tiler at 40, so 2 days;
    // the coat dries 48 h and the tile 24 h, so 3 days more.
    assert_eq!(
        (again.minutes, again.cents, again.days),
        (13 * 60, Some(52_000), 5)
    );
    assert_eq!(
        again.working,
        [
            "take off the wall tile: 4 h, Tiler, one",
            "put on the membrane, second coat: 1 h, Tiler, one",
            "the membrane, second coat dries 48 h",
            "put on the wall tile: 8 h, Tiler, one",
            "the wall tile dries 24 h",
        ]
    );
}

#[test]
fn a_decision_to_look_is_work_before_the_grout() {
    let it = taken_over().unknown(MEMBRANE);
    let planned = taken_over()
        .said(&decide::look(&it, Look::Opening))
        .planned();
    planned.assert_proved();
    let key = format!("{MEMBRANE}:look");
    assert!(planned.finish(&key) <= planned.start("bathroom.shower-wall/grout"));
    let decided = taken_over()
        .said(&decide::look(&it, Look::Opening))
        .unknown(MEMBRANE)
        .decided;
    assert!(matches!(
        decided,
        Some(grounds_survey::unknowns::Decided::Look {
            how: Look::Opening,
            work: Some(_),
            ..
        })
    ));
}

#[test]
fn looking_by_test_asks_the_test_of_the_job_before_the_grout() {
    let it = taken_over().unknown(MEMBRANE);
    let said = decide::look(&it, Look::Test);
    assert_eq!(said.len(), 1);
    assert_eq!(said[0].about.as_str(), "flood-test");
    let planned = taken_over().said(&said).planned();
    planned.assert_proved();
    assert!(planned.finish("flood-test") <= planned.start("bathroom.shower-wall/grout"));
}

#[test]
fn letting_go_needs_a_reason_and_is_kept_with_the_name() {
    let it = taken_over().unknown(MEMBRANE);
    assert!(decide::let_go(job(), &it, "  ").is_err());
    let said = decide::let_go(job(), &it, "Dry for two winters; the owner knows").unwrap();
    let about: Vec<&str> = said.iter().map(|it| it.about.as_str()).collect();
    assert_eq!(
        about,
        [MEMBRANE, "flood-test"],
        "the test that hangs on it goes with it"
    );
    let survey = taken_over().said(&said);
    let site = survey.site();
    let state = site.state(&Subject::Piece("mixer".into()));
    assert!(state.let_go.is_none());
    let it = survey.unknown(MEMBRANE);
    let Some(grounds_survey::unknowns::Decided::LetGo(seen)) = it.decided else {
        panic!("{:?}", it.decided);
    };
    let note = &site.notes[&seen.note];
    assert_eq!(
        (note.by.as_str(), note.words.as_deref()),
        ("Ines", Some("Dry for two winters; the owner knows"))
    );
    let planned = survey.planned();
    planned.assert_proved();
    let flood = planned.outlook.network.find("flood-test").unwrap();
    assert_eq!(
        planned.outlook.network.task(flood).unwrap().state,
        TaskState::Done
    );
}

#[test]
fn an_inspection_of_the_authority_cannot_be_let_go() {
    let survey = Survey::default().marked("hall", "north-wall", up_to("board"));
    let cables = survey.unknown("hall.north-wall/cables");
    assert_eq!(cables.tests, ["cables-seen".into()]);
    let said = decide::let_go(job(), &cables, "Photos of the last builder").unwrap();
    assert!(said.iter().all(|it| it.about.as_str() != "cables-seen"));
    let planned = survey.said(&said).planned();
    let id = planned.outlook.network.find("cables-seen").unwrap();
    assert_eq!(
        planned.outlook.network.task(id).unwrap().state,
        TaskState::ToCome
    );
}

#[test]
fn opened_and_found_the_unknown_is_gone() {
    let mut survey = taken_over();
    survey.notes.push(Note::new(
        uuid::Uuid::from_u128(9),
        at(60),
        "Ines",
        MEMBRANE,
        Kind::Done,
    ));
    let all = survey.planned().unknowns();
    assert!(
        all.iter()
            .all(|it| it.key != MEMBRANE && it.key != "bathroom.shower-wall/coat-1")
    );
}

#[test]
fn a_face_that_nobody_could_see_is_looked_at_and_its_work_stays_in_the_plan() {
    let it = taken_over().unknown("west-room.ceiling");
    assert_eq!(it.asks, "How far has the ceiling in the west room got?");
    let planned = taken_over()
        .said(&decide::look(&it, Look::Camera))
        .planned();
    planned.assert_proved();
    let looks = planned.outlook.network.tasks.iter();
    let looks = looks
        .filter(|task| matches!(task.work, Work::Look(_)))
        .count();
    assert_eq!(looks, 1);
    assert!(
        planned.finish("west-room.ceiling/wool:look") <= planned.start("west-room.ceiling/wool")
    );
}

#[test]
fn a_house_that_was_never_left_has_nothing_unknown() {
    let planned = Survey::default().planned();
    assert_eq!(planned.unknowns(), vec![]);
}

#[test]
fn what_is_in_store_is_held_against_the_opening_as_it_was_read_today() {
    let arrived = |id: u128, piece: &str| {
        Note::new(
            uuid::Uuid::from_u128(id),
            at(5),
            "Ines",
            piece,
            Kind::Arrived,
        )
    };
    let mut survey = taken_over();
    survey
        .notes
        .extend([arrived(11, "screen"), arrived(12, "east-door-leaf")]);
    let found = stock::stock(job(), &survey.site());
    let names: Vec<&str> = found.iter().map(|it| it.name.as_str()).collect();
    assert_eq!(names, ["East door leaf", "Shower screen"]);

    // The leaf has no size: nobody can tell, and it says which figure is missing.
    let leaf = &found[0];
    assert_eq!(
        leaf.verdict,
        Some(grounds_lines::answers::Verdict::CannotTell)
    );
    assert!(
        leaf.missing
            .iter()
            .any(|(what, _)| what.contains("the width of the east door leaf")),
        "{:?}",
        leaf.missing
    );

    // 915 mm as framed, less 12.5 mm of board and 12 mm of tile on the left, is 890.5 mm: the screen of
    // 900 mm does not go in, let alone with 4 mm at each edge.
    let screen = &found[1];
    assert_eq!(screen.verdict, Some(grounds_lines::answers::Verdict::Fails));
    assert_eq!(screen.kept_in, Some("west-room".into()));

    // Read at 912 mm over the tile, it goes in with 6 mm at each edge.
    let reading = Note::new(
        uuid::Uuid::from_u128(13),
        at(30),
        "Ines",
        "screen-gap",
        Kind::Measured,
    )
    .with_value(grounds_site::Value::Reading {
        what: "width".to_owned(),
        figure: "912 mm".to_owned(),
    });
    survey.notes.push(reading);
    let screen = &stock::stock(job(), &survey.site())[1];
    let width = screen
        .needs
        .iter()
        .find(|(key, ..)| key == "screen.width")
        .unwrap();
    assert_eq!(
        width.1,
        grounds_lines::answers::Verdict::Holds,
        "{}",
        width.2
    );
}

#[test]
fn looked_and_not_there_takes_the_tile_off_and_puts_the_membrane_back_into_the_plan() {
    let survey = taken_over();
    let key = grounds_model::LayerKey {
        place: "bathroom".into(),
        face: "shower-wall".into(),
        layer: "coat-2".into(),
    };
    let said = decide::not_there(
        job(),
        &survey.site(),
        &grounds_sequence::Sought::Layer(vec![key]),
    );
    let about: Vec<&str> = said.iter().map(|it| it.about.as_str()).collect();
    assert_eq!(about, [MEMBRANE, "bathroom.shower-wall/tile"]);
    let planned = survey.said(&said).planned();
    planned.assert_proved();
    assert!(planned.finish(MEMBRANE) <= planned.start("flood-test:set-up"));
    assert!(planned.finish("flood-test") <= planned.start("bathroom.shower-wall/tile"));
}

/// A refrigerator bought on the strength of one reading, standing in the hall: the case of the recess lost to the
/// thickness of its boards. Arithmetic of the case: 35-1/2 in at the floor is the smallest of three readings, 35-7/8
/// in are needed with 1/8 in of air at each side, so it is 3/8 in short.
#[test]
fn a_refrigerator_in_store_is_held_against_the_narrowest_of_three_readings() {
    let read = grounds_model::read("job.toml", RECESS).unwrap();
    let at: jiff::Timestamp = "2027-05-04T12:00:00Z".parse().unwrap();
    let measured = |number: u128, what: &str, figure: &str| {
        Note::new(
            uuid::Uuid::from_u128(number),
            at,
            "Nora",
            "recess",
            Kind::Measured,
        )
        .with_value(grounds_site::Value::Reading {
            what: what.to_owned(),
            figure: figure.to_owned(),
        })
    };
    let note = |number: u128, about: &str, kind| {
        Note::new(uuid::Uuid::from_u128(number), at, "Nora", about, kind)
    };
    let notes = [
        note(1, "kitchen.cheeks/board", Kind::Done),
        note(2, "fridge", Kind::Arrived),
        measured(3, "width floor", "35-1/2"),
        measured(4, "width waist", "35-5/8"),
        measured(5, "width head", "35-3/4"),
    ];
    let site = grounds_site::fold(&read, &notes, at);
    let found = &stock::stock(&read, &site)[0];
    assert_eq!(found.verdict, Some(grounds_lines::answers::Verdict::Fails));
    let (.., said) = found
        .needs
        .iter()
        .find(|(key, ..)| key == "fridge.width")
        .unwrap();
    assert!(said.contains("1/8\" too large"), "{said}");
    // Only one reading, at the head, gives the false pass of the body alone.
    assert!(said.contains("1/4\""), "the air that is wanted: {said}");
}

const RECESS: &str = r#"
format = 1

[job]
name = "Chapel House"
units = "imperial"
zone = "America/New_York"
begins = "2027-05-03"
calendar = "crews"

[calendars.crews]
days = ["mon", "tue", "wed", "thu", "fri"]
hours = ["08:00-16:00"]

[trades.board]
name = "Boarding"

[trades.fitter]
name = "Kitchen fitter"

[levels.ground]
name = "Ground floor"
height = "0 ft"

[places.kitchen]
name = "Kitchen"
level = "ground"
entrance = true
faces.cheeks = { kind = "wall", build_up = "cheek", area = "40 sq ft" }

[build_ups.cheek]
name = "Boarded cheek"
layers = [
  { id = "board", name = "Board", material = "board", trade = "board", thickness = "5/8 in", takes = "4 h" },
]

[pieces.fridge]
name = "Refrigerator"
trade = "fitter"
place = "kitchen"
takes = "1 h"
size = "35 5/8 x 70 in"

[openings.recess]
name = "Recess"
place = "kitchen"
face = "cheeks"
rough = "37 x 72 in"
piece = "fridge"
clearance = "1/8 in"
lined = { left = "kitchen.cheeks", right = "kitchen.cheeks" }
"#;

/// The case of the shower deck tested by the code's quarter of an hour only: the job asks for 24 h, so
/// its own test stays unproven until it passes itself (IRC P2503.6: 15 min, published; 24 h: this job's rule).
#[test]
fn a_pass_of_another_test_does_not_prove_the_test_of_the_job() {
    let mut survey = taken_over();
    let remark = Note::new(
        uuid::Uuid::from_u128(21),
        at(20),
        "Ines",
        "flood-test",
        Kind::Remark,
    );
    survey
        .notes
        .push(remark.with_words("15 min by the code, says the last builder"));
    let it = survey.unknown(MEMBRANE);
    assert_eq!(it.weight, Weight::Heavy);
    assert_eq!(it.tests, ["flood-test".into()]);
    // A fail is no proof either.
    survey.notes.push(Note::new(
        uuid::Uuid::from_u128(22),
        at(25),
        "Ines",
        "flood-test",
        Kind::Failed,
    ));
    assert_eq!(survey.unknown(MEMBRANE).weight, Weight::Heavy);
}
