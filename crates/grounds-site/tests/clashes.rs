//! Two people see one thing at about the same time and say different things of it: both notes are
//! kept, and somebody is asked.

mod house;

use grounds_site::{Kind, Note, Value};
use house::{asked, june, note, on, site, wall};
use jiff::SignedDuration;

const FINISH: &str = "stair-hall.walls/finish";

fn under() -> Vec<Note> {
    vec![
        note(1, june(1), "stair-hall.walls/board", Kind::Done),
        note(2, june(2), "stair-hall.walls/base", Kind::Done),
    ]
}

/// A note by Ben, some minutes after noon of 8 June.
fn ben(number: u128, minutes: i64, about: &str, kind: Kind) -> Note {
    let at = june(8) + SignedDuration::from_mins(minutes);
    Note {
        by: "Ben".to_owned(),
        ..note(number, at, about, kind)
    }
}

fn asked_after(more: &[Note]) -> Vec<String> {
    let notes = [under(), more.to_vec()].concat();
    asked(&site(&notes))
        .into_iter()
        .map(str::to_owned)
        .collect()
}

#[test]
fn done_for_one_and_not_right_for_another_is_asked_about() {
    let notes = [
        note(3, june(8), FINISH, Kind::Done),
        ben(4, 5, FINISH, Kind::Undone),
    ];
    assert_eq!(
        asked_after(&notes),
        [
            "Ana noted the finish coat in the stair hall done on Tue 8 June at 12:00, but Ben noted it not right on Tue 8 June at 12:05. Which is right? Until somebody says, the later word counts."
        ]
    );
    let site = site(&[under(), notes.to_vec()].concat());
    assert!(site.state(&wall("finish")).done.is_none());
    assert_eq!(site.questions[0].notes.len(), 2);
}

#[test]
fn whose_phone_comes_back_first_does_not_matter() {
    let (a, b) = (
        note(3, june(8), FINISH, Kind::Done),
        ben(4, 5, FINISH, Kind::Problem),
    );
    assert_eq!(
        asked_after(&[a.clone(), b.clone()]),
        asked_after(&[b.clone(), a, b])
    );
}

#[test]
fn two_people_of_one_mind_are_not_asked() {
    let notes = [
        note(3, june(8), FINISH, Kind::Done),
        ben(4, 5, FINISH, Kind::Done),
    ];
    assert_eq!(asked_after(&notes), [""; 0]);
}

#[test]
fn who_thinks_again_is_not_asked() {
    let later = june(8) + SignedDuration::from_mins(5);
    let notes = [
        note(3, june(8), FINISH, Kind::Done),
        note(4, later, FINISH, Kind::Undone),
    ];
    assert_eq!(asked_after(&notes), [""; 0]);
}

#[test]
fn what_goes_wrong_in_the_afternoon_is_news() {
    let notes = [
        note(3, june(8), FINISH, Kind::Done),
        ben(4, 240, FINISH, Kind::Undone),
    ];
    assert_eq!(asked_after(&notes), [""; 0]);
}

#[test]
fn a_word_on_the_matter_settles_it() {
    let notes = [
        note(3, june(8), FINISH, Kind::Done),
        ben(4, 5, FINISH, Kind::Undone),
        note(5, june(9), FINISH, Kind::Done),
    ];
    assert_eq!(asked_after(&notes), [""; 0]);
    let withdrawn = [
        note(3, june(8), FINISH, Kind::Done),
        ben(4, 5, FINISH, Kind::Undone),
        note(5, june(9), FINISH, Kind::Remark).correcting(house::id(4)),
    ];
    assert_eq!(asked_after(&withdrawn), [""; 0]);
}

#[test]
fn a_test_that_passed_for_one_and_failed_for_another_is_asked_about() {
    let notes = [
        note(3, june(7), "shower-room.floor/membrane", Kind::Done),
        note(4, june(8), "flood-test", Kind::Passed),
        ben(5, 20, "flood-test", Kind::Failed),
    ];
    let said = asked_after(&notes);
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(
        said[0].contains("the flood test passed on Tue 8 June at 12:00"),
        "{said:?}"
    );
}

#[test]
fn two_readings_far_apart_are_asked_about_and_near_ones_are_not() {
    let read = |note: Note, figure: &str| {
        note.with_value(Value::Reading {
            what: "moisture".to_owned(),
            figure: figure.to_owned(),
        })
    };
    let pair = |other: &str| {
        asked_after(&[
            read(note(3, june(8), FINISH, Kind::Measured), "71 %"),
            read(ben(4, 10, FINISH, Kind::Measured), other),
        ])
    };
    assert_eq!(pair("72 %"), [""; 0]);
    assert_eq!(
        pair("85 %"),
        [
            "Ana noted the finish coat in the stair hall measured at 71 % on Tue 8 June at 12:00, but Ben noted it measured at 85 % on Tue 8 June at 12:10. Which is right? Until somebody says, the later word counts."
        ]
    );
    assert_eq!(pair("wet"), [""; 0]);
}

#[test]
fn what_cannot_contradict_does_not() {
    let notes = [
        note(3, june(8), "mixer", Kind::Ordered).with_value(on("2027-06-20")),
        ben(4, 5, "mixer", Kind::Damaged),
        note(5, june(8), "mixer", Kind::Arrived),
    ];
    let said = asked_after(&notes);
    assert!(
        said.iter()
            .all(|words| !words.contains("Which is right? Until")),
        "{said:?}"
    );
}
