//! The log itself: corrections, repeats, clashes, and notes dated when they cannot be.

mod house;

use grounds_site::{Kind, fold};
use house::{asked, id, job, june, note, site, state, wall};
use uuid::Uuid;

const BOARD: &str = "stair-hall.walls/board";

#[test]
fn a_corrected_note_no_longer_counts_but_is_kept() {
    let site = site(&[
        note(1, june(7), BOARD, Kind::Done),
        note(2, june(7), "shower-room.walls/membrane", Kind::Done).correcting(id(1)),
    ]);
    assert!(site.state(&wall("board")).done.is_none());
    assert!(state(&site, "shower-room.walls/membrane").done.is_some());
    assert_eq!(site.notes.len(), 2);
    assert_eq!(asked(&site), Vec::<&str>::new());
}

#[test]
fn a_correction_of_a_correction_leaves_only_the_last_word() {
    let site = site(&[
        note(3, june(9), BOARD, Kind::Started).correcting(id(2)),
        note(1, june(7), BOARD, Kind::Done),
        note(2, june(8), BOARD, Kind::Done).correcting(id(1)),
    ]);
    let board = site.state(&wall("board"));
    assert!(board.done.is_none());
    assert_eq!(board.notes, [id(3)]);
}

#[test]
fn two_corrections_of_one_note_both_count_and_are_asked_about() {
    let site = site(&[
        note(1, june(7), BOARD, Kind::Remark),
        note(2, june(8), BOARD, Kind::Started).correcting(id(1)),
        note(3, june(9), BOARD, Kind::Done).correcting(id(1)),
    ]);
    assert_eq!(
        asked(&site),
        [
            "The note “remark” of Mon 7 June about “stair-hall.walls/board” was corrected 2 times, with “started” for Tue 8 June and “done” for Wed 9 June. All of them count now. Which one is right?"
        ]
    );
    let board = site.state(&wall("board"));
    assert!(board.started.is_some() && board.done.is_some());
    assert_eq!(site.questions[0].notes, [id(1), id(2), id(3)]);
}

#[test]
fn notes_that_correct_each_other_do_not_both_vanish() {
    let site = site(&[
        note(1, june(7), BOARD, Kind::Started).correcting(id(2)),
        note(2, june(8), BOARD, Kind::Done).correcting(id(1)),
    ]);
    assert_eq!(site.state(&wall("board")).notes, [id(2)]);
    assert_eq!(site.questions.len(), 1);
}

#[test]
fn a_note_that_corrects_itself_still_counts() {
    let site = site(&[note(1, june(7), BOARD, Kind::Done).correcting(id(1))]);
    assert!(site.state(&wall("board")).done.is_some());
    assert_eq!(site.questions.len(), 1);
}

#[test]
fn a_correction_whose_note_is_still_on_a_phone_counts_and_says_so() {
    let site = site(&[note(2, june(7), BOARD, Kind::Done).correcting(id(1))]);
    assert!(site.state(&wall("board")).done.is_some());
    assert_eq!(
        asked(&site),
        [
            "The note of Mon 7 June about “stair-hall.walls/board” corrects another that is not here. It counts. Is the other still on somebody's phone?"
        ]
    );
}

#[test]
fn two_notes_with_one_number_keep_the_same_one_in_either_order() {
    let done = note(1, june(7), BOARD, Kind::Done);
    let started = note(1, june(7), BOARD, Kind::Started);
    let one = site(&[done.clone(), started.clone()]);
    let other = site(&[started, done]);
    assert_eq!(one, other);
    assert_eq!(one.questions.len(), 1);
    assert_eq!(one.notes.len(), 1);
}

#[test]
fn of_two_notes_at_one_moment_the_later_number_is_the_latest_word() {
    let share = |number, text: &str| {
        note(number, june(7), BOARD, Kind::Progress)
            .with_value(grounds_site::Value::Share(text.parse().unwrap()))
    };
    let board = site(&[share(2, "60 %"), share(1, "30 %")]).state(&wall("board"));
    assert_eq!(
        board.progress.map(|(share, _)| share.to_string()),
        Some("60 %".to_owned())
    );
}

#[test]
fn a_past_day_looks_as_it_looked_then() {
    let notes = [
        note(1, june(1), BOARD, Kind::Done),
        note(2, june(9), BOARD, Kind::Undone),
        note(3, june(10), BOARD, Kind::Started).correcting(id(1)),
    ];
    let then = fold(job(), &notes, june(5));
    assert!(then.state(&wall("board")).done.is_some());
    assert_eq!(then.notes.len(), 1);
    assert_eq!(asked(&then), Vec::<&str>::new());
}

#[test]
fn a_note_dated_after_it_was_written_waits_for_its_day_and_is_asked_about() {
    // The number says that it was written on 8 June; it is dated the 12th.
    let written = u128::try_from(june(8).as_millisecond()).unwrap();
    let number = Uuid::from_u128((written << 80) | 0x7000_8000_0000_0000_0001);
    let early = grounds_site::Note::new(number, june(12), "Ana", BOARD, Kind::Done);
    let on_the_ninth = fold(job(), std::slice::from_ref(&early), june(9));
    assert!(on_the_ninth.state(&wall("board")).done.is_none());
    assert_eq!(
        asked(&on_the_ninth),
        [
            "The note “done” about “stair-hall.walls/board” is dated Sat 12 June, later than it was written. It does not count until then. Which day is right?"
        ]
    );
    let before_it_was_written = fold(job(), &[early], june(5));
    assert_eq!(asked(&before_it_was_written), Vec::<&str>::new());
}

#[test]
fn a_note_from_before_the_job_began_is_kept_and_asked_about() {
    let at = house::moment("2027-04-28T12:00:00Z");
    let site = site(&[note(1, at, BOARD, Kind::Done)]);
    assert!(site.state(&wall("board")).done.is_some());
    assert_eq!(
        asked(&site),
        [
            "The note “done” about “stair-hall.walls/board” is dated Wed 28 April; the job begins on Mon 3 May. Is the date right?"
        ]
    );
}
