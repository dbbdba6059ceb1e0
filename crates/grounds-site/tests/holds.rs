//! Tests and inspections: booked, failed, put right, passed, and covered without a pass.

mod house;

use grounds_site::{Kind, Note};
use house::{asked, june, note, on, site, state};

fn membrane() -> Note {
    note(1, june(1), "shower-room.floor/membrane", Kind::Done)
}

fn booked(number: u128, day: i64, date: &str) -> Note {
    note(number, june(day), "flood-test", Kind::Ordered).with_value(on(date))
}

#[test]
fn a_test_is_booked_for_its_date_and_done_when_it_passes() {
    let site = site(&[
        membrane(),
        booked(2, 2, "2027-06-07"),
        note(3, june(7), "flood-test", Kind::Passed),
        note(4, june(9), "shower-room.floor/tile", Kind::Done),
    ]);
    let test = state(&site, "flood-test");
    assert_eq!(test.done.map(|seen| seen.at), Some(june(7)));
    assert_eq!(
        test.promised.map(|(when, _)| when.date.to_string()),
        Some("2027-06-07".to_owned())
    );
    assert_eq!(asked(&site), Vec::<&str>::new());
}

#[test]
fn a_failed_test_has_not_passed_and_its_booking_is_used_up() {
    let site = site(&[
        membrane(),
        booked(2, 2, "2027-06-07"),
        note(3, june(7), "flood-test", Kind::Failed),
    ]);
    let test = state(&site, "flood-test");
    assert!(test.failed.is_some());
    assert_eq!((test.done, test.ordered, test.promised), (None, None, None));
}

#[test]
fn a_booking_for_later_outlives_the_fail() {
    let site = site(&[
        membrane(),
        booked(2, 2, "2027-06-21"),
        note(3, june(7), "flood-test", Kind::Failed),
    ]);
    assert!(state(&site, "flood-test").ordered.is_some());
}

#[test]
fn a_fail_after_a_pass_takes_the_pass_away() {
    let site = site(&[
        membrane(),
        note(2, june(7), "flood-test", Kind::Passed),
        note(3, june(8), "flood-test", Kind::Failed),
    ]);
    assert!(state(&site, "flood-test").done.is_none());
}

#[test]
fn a_leak_put_right_lets_the_test_be_tried_again_but_is_no_pass() {
    let mended = [
        membrane(),
        note(2, june(7), "flood-test", Kind::Failed),
        note(3, june(9), "flood-test", Kind::Cleared),
    ];
    let test = state(&site(&mended), "flood-test");
    assert!(test.failed.is_some() && test.done.is_none());
    assert_eq!(test.mended.map(|seen| seen.at), Some(june(9)));

    let mut passed = mended.to_vec();
    passed.push(note(4, june(11), "flood-test", Kind::Passed));
    let test = state(&site(&passed), "flood-test");
    assert_eq!((test.failed, test.mended), (None, None));
    assert!(test.done.is_some());
}

#[test]
fn a_test_noted_done_has_not_passed() {
    let site = site(&[membrane(), note(2, june(7), "flood-test", Kind::Done)]);
    assert!(state(&site, "flood-test").done.is_none());
    assert_eq!(
        asked(&site),
        ["Ana noted the flood test done on Mon 7 June. Did it pass or fail?"]
    );
}

#[test]
fn tile_laid_on_a_floor_that_was_never_tested_is_asked_about() {
    let site = site(&[
        membrane(),
        note(2, june(9), "shower-room.floor/tile", Kind::Done),
    ]);
    assert_eq!(
        asked(&site),
        [
            "The tile on the floor in the shower room is noted done on Wed 9 June, but the flood test, which comes before it, was never noted as passed. Was it covered without a pass?"
        ]
    );
}

#[test]
fn tile_that_somebody_let_go_without_a_test_is_not_asked_about_again() {
    let site = site(&[
        membrane(),
        note(2, june(8), "shower-room.floor/tile", Kind::Decided).with_words("tested next door"),
        note(3, june(9), "shower-room.floor/tile", Kind::Done),
    ]);
    assert_eq!(asked(&site), Vec::<String>::new());
    assert!(state(&site, "shower-room.floor/tile").accepted.is_some());
}

#[test]
fn tile_laid_over_a_failed_test_says_when_it_failed() {
    let site = site(&[
        membrane(),
        note(2, june(7), "flood-test", Kind::Failed),
        note(3, june(9), "shower-room.floor/tile", Kind::Started),
    ]);
    assert_eq!(
        asked(&site),
        [
            "The tile on the floor in the shower room is noted begun on Wed 9 June, but the flood test, which comes before it, failed on Mon 7 June and has not passed since. Was it covered without a pass?"
        ]
    );
}

#[test]
fn a_test_passed_before_its_membrane_is_in_is_asked_about() {
    let site = site(&[note(1, june(7), "flood-test", Kind::Passed)]);
    assert_eq!(
        asked(&site),
        [
            "The flood test is noted passed on Mon 7 June, but the membrane on the floor in the shower room, which it needs first, was not noted done. Which is right?"
        ]
    );
}

#[test]
fn a_pass_of_the_membrane_itself_asks_which_test_is_meant() {
    let site = site(&[
        membrane(),
        note(2, june(7), "shower-room.floor/membrane", Kind::Passed),
    ]);
    assert_eq!(
        asked(&site),
        [
            "Ana noted on Mon 7 June that the membrane on the floor in the shower room passed, but that is no test or inspection. Is the flood test meant?"
        ]
    );
    assert!(state(&site, "flood-test").done.is_none());
}
