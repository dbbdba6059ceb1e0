//! Marking how far a house has got: what is outermost was seen, what lies behind is presumed.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "the test fails where something is not as it should be"
)]

mod house;

use grounds_site::{Kind, Note, State, Subject, fold};
use grounds_survey::{
    Reach, again,
    mark::{self, reach},
    progress,
    several::{self, Part},
};
use house::{Survey, at, job, mark, state, taken_over, up_to, written};
use proptest::{prelude::*, sample::Index};

#[test]
fn tile_is_seen_and_what_lies_behind_it_is_presumed() {
    let site = Survey::default()
        .marked("bathroom", "shower-wall", up_to("tile"))
        .site();
    let wall = |layer| state(&site, "bathroom", "shower-wall", layer);
    assert!(wall("tile").is_seen_done());
    for layer in ["framing", "pipes", "board", "coat-1", "coat-2"] {
        assert!(
            wall(layer).done.is_some() && wall(layer).presumed.is_some(),
            "{layer}"
        );
    }
    assert!(wall("grout").done.is_none() && wall("grout").undone.is_some());
    let mixer = site.state(&Subject::Piece("mixer".into()));
    assert!(mixer.presumed.is_some(), "the board over it is on");
    let screen = site.state(&Subject::Piece("screen".into()));
    assert_eq!(screen, State::default(), "nobody said a word of it");
    // All that is asked is what nobody can have seen: the test under the tile.
    let asked: Vec<&str> = site.questions.iter().map(|it| it.about.as_str()).collect();
    assert_eq!(asked, ["flood-test"]);
}

#[test]
fn a_layer_tapped_by_mistake_was_not_seen() {
    let write = |log: &[Note], minute: i64, reach: Reach| {
        let it = mark("bathroom", "shower-wall", reach);
        again::notes(job(), log, &it, ("Ines", at(minute)), |_, index| {
            uuid::Uuid::from_u128(
                0x0193_0000_0000_4000_8000_0000_0000_0000
                    + ((minute as u128) << 16 | index as u128),
            )
        })
    };
    let coat = |notes: &[Note]| {
        state(
            &fold(job(), notes, at(600)),
            "bathroom",
            "shower-wall",
            "coat-2",
        )
    };
    let mut log = write(&[], 1, up_to("coat-2"));
    assert!(coat(&log).is_seen_done());
    // A minute later the right one is tapped: the membrane is presumed, not seen.
    log.extend(write(&log, 2, up_to("tile")));
    assert!(coat(&log).done.is_some() && coat(&log).presumed.is_some());
    // Then it turns out that nobody can look at all.
    log.extend(write(&log, 3, Reach::Unknown));
    let site = fold(job(), &log, at(600));
    assert_eq!(
        reach(job(), &site, &"bathroom".into(), &"shower-wall".into()),
        Some(Reach::Unknown)
    );

    // A mark of another day is no slip: what was seen then was seen.
    let mut log = write(&[], 1, up_to("coat-2"));
    log.extend(write(&log, 300, up_to("tile")));
    assert!(coat(&log).is_seen_done());
}

#[test]
fn nothing_there_is_not_the_same_as_nobody_could_look() {
    let site = Survey::default()
        .marked("hall", "stove-wall", Reach::Nothing)
        .marked("west-room", "ceiling", Reach::Unknown)
        .site();
    let reached = |place: &str, face: &str| reach(job(), &site, &place.into(), &face.into());
    assert_eq!(reached("hall", "stove-wall"), Some(Reach::Nothing));
    assert_eq!(reached("west-room", "ceiling"), Some(Reach::Unknown));
    assert_eq!(
        reached("east-room", "ceiling"),
        None,
        "nobody has been there yet"
    );
}

#[test]
fn of_two_marks_the_later_counts() {
    let site = Survey::default()
        .marked("bathroom", "shower-wall", up_to("tile"))
        .marked("bathroom", "shower-wall", up_to("pipes"))
        .site();
    assert_eq!(
        reach(job(), &site, &"bathroom".into(), &"shower-wall".into()),
        Some(up_to("pipes"))
    );
    assert!(site.state(&Subject::Piece("mixer".into())).done.is_none());
}

#[test]
fn a_layer_that_somebody_saw_before_keeps_its_date_behind_what_is_marked_now() {
    let saw = Note::new(
        uuid::Uuid::from_u128(7),
        at(-600),
        "Dai",
        "hall.north-wall/cables",
        Kind::Done,
    );
    let mut survey = Survey::default().marked("hall", "north-wall", up_to("board"));
    survey.notes.push(saw);
    let cables = state(&survey.site(), "hall", "north-wall", "cables");
    assert!(cables.is_seen_done());
    assert_eq!(cables.done.unwrap().at, at(-600));
}

#[test]
fn all_walls_alike_take_the_same_mark_as_far_as_they_have_the_layer() {
    let first = mark("hall", "north-wall", up_to("board"));
    let marks = several::walls_alike(job(), &"hall".into(), &first);
    let told: Vec<(&str, &Reach)> = marks
        .iter()
        .map(|it| (it.face.as_str(), &it.reach))
        .collect();
    // The wall behind the stove has its board under another key, but of the same name.
    assert_eq!(
        told,
        [
            ("north-wall", &up_to("board")),
            ("south-wall", &up_to("board")),
            ("stove-wall", &up_to("cement-board")),
        ]
    );
    let skim = mark("hall", "north-wall", up_to("skim"));
    let marks = several::walls_alike(job(), &"hall".into(), &skim);
    assert_eq!(marks.len(), 2, "the stove wall has no skim");
}

#[test]
fn a_room_is_marked_like_another_with_the_same_build_ups() {
    let survey = Survey::default()
        .marked("west-room", "walls", up_to("skim"))
        .marked("west-room", "ceiling", up_to("board"));
    let copy = several::like_room(
        job(),
        &survey.site(),
        &"west-room".into(),
        &"east-room".into(),
    );
    assert_eq!(
        copy,
        [
            mark("east-room", "ceiling", up_to("board")),
            mark("east-room", "walls", up_to("skim")),
        ]
    );
    let like = several::rooms_like(job(), &survey.site(), &"bathroom".into());
    assert_eq!(
        like,
        [("west-room".into(), 1)],
        "the ceiling is of the same build-up"
    );
}

#[test]
fn everything_up_to_board_marks_what_has_board_and_leaves_what_is_told() {
    let survey = Survey::default().marked("west-room", "walls", up_to("paint"));
    let upper = Part::Level("upper".into());
    let marks = several::everything_up_to(job(), &survey.site(), "Board", &upper);
    let faces: Vec<String> = marks
        .iter()
        .map(|it| format!("{}.{}", it.place, it.face))
        .collect();
    assert_eq!(
        faces,
        [
            "bathroom.ceiling",
            "bathroom.shower-wall",
            "east-room.ceiling",
            "east-room.walls",
            "west-room.ceiling"
        ]
    );
    assert!(several::everything_up_to(job(), &survey.site(), "thatch", &Part::House).is_empty());
}

#[test]
fn places_are_counted_when_all_their_faces_are_told() {
    let survey = Survey::default()
        .marked("east-room", "walls", up_to("skim"))
        .marked("east-room", "ceiling", Reach::Unknown)
        .marked("hall", "north-wall", up_to("board"));
    let site = survey.site();
    assert_eq!(progress::places(job(), &site), (1, 4));
    assert_eq!(
        progress::next_place(job(), &site, None),
        Some("hall".into())
    );
    assert_eq!(
        progress::next_place(job(), &site, Some(&"hall".into())),
        Some("bathroom".into())
    );
    assert_eq!(progress::places(job(), &taken_over().site()), (4, 4));
    assert_eq!(
        progress::next_place(job(), &taken_over().site(), None),
        None
    );
}

fn any_mark() -> impl Strategy<Value = grounds_survey::Mark> {
    let faces: Vec<(String, String, Vec<String>)> = job()
        .places
        .iter()
        .flat_map(|(place, design)| {
            design.faces.keys().map(|face| {
                let layers = job().layers_of(place, face);
                let layers = layers.iter().map(|key| key.layer.to_string()).collect();
                (place.to_string(), face.to_string(), layers)
            })
        })
        .collect();
    (prop::sample::select(faces), any::<Index>()).prop_map(|((place, face, layers), choice)| {
        let reach = match choice.index(layers.len() + 2) {
            0 => Reach::Nothing,
            1 => Reach::Unknown,
            n => up_to(&layers[n - 2]),
        };
        mark(&place, &face, reach)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn marks_in_any_order_and_repeated_give_the_same_house(
        marks in prop::collection::vec(any_mark(), 1..16),
        shuffle in any::<u64>(),
    ) {
        let notes: Vec<Vec<Note>> = marks
            .iter()
            .enumerate()
            .map(|(minute, it)| written(&mark::said(job(), it), minute as i64))
            .collect();
        let mut arrived = notes.clone();
        arrived.rotate_left(usize::try_from(shuffle % marks.len() as u64).unwrap());
        arrived.reverse();
        arrived.extend(notes.iter().take(3).cloned());
        let first = fold(job(), &notes.concat(), at(600));
        prop_assert_eq!(&first, &fold(job(), &arrived.concat(), at(600)));
    }

    #[test]
    fn the_latest_mark_that_tells_something_is_what_the_face_has_reached(
        marks in prop::collection::vec(any_mark(), 1..16),
    ) {
        let survey = Survey::default().all(&marks);
        let site = survey.site();
        for last in &marks {
            let of_face = || marks.iter().rev().filter(|it| (&it.place, &it.face) == (&last.place, &last.face));
            // What nobody could look at takes nothing away.
            let told = of_face().find(|it| it.reach != Reach::Unknown).or_else(|| of_face().next());
            let expected = told.map(|it| it.reach.clone());
            prop_assert_eq!(reach(job(), &site, &last.place, &last.face), expected);
        }
    }

    #[test]
    fn behind_what_was_seen_nothing_is_known(marks in prop::collection::vec(any_mark(), 1..8)) {
        let site = Survey::default().all(&marks).site();
        for (place, design) in &job().places {
            for face in design.faces.keys() {
                let keys = job().layers_of(place, face);
                let states: Vec<_> = keys
                    .iter()
                    .map(|key| state(&site, place.as_str(), face.as_str(), key.layer.as_str()))
                    .collect();
                let seen = states.iter().rposition(|state| state.is_seen_done());
                for (key, state) in keys.iter().zip(&states).take(seen.unwrap_or(0)) {
                    let was_outermost = marks
                        .iter()
                        .any(|it| (&it.place, &it.face) == (place, face) && it.reach == up_to(key.layer.as_str()));
                    prop_assert!(state.presumed.is_some() || was_outermost);
                }
            }
        }
    }
}
