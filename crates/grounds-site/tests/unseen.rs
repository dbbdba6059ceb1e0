//! A house taken over half-done: what is there but was never seen, and what nobody could look at.

mod house;

use grounds_site::{Kind, Look, Note, Subject, unproven};
use house::{asked, id, job, june, note, site, state, wall};

/// The finish coat is seen on the walls of the stair hall; what is behind it is presumed.
fn taken_over() -> Vec<Note> {
    vec![
        note(1, june(1), "stair-hall.walls/finish", Kind::Done),
        note(2, june(1), "stair-hall.walls/base", Kind::Done).unseen(),
        note(3, june(1), "stair-hall.walls/board", Kind::Done).unseen(),
    ]
}

#[test]
fn what_is_presumed_counts_as_done_and_says_that_nobody_saw_it() {
    let site = site(&taken_over());
    let board = site.state(&wall("board"));
    assert!(board.done.is_some());
    assert_eq!(board.presumed.unwrap().note, id(3));
    assert!(!board.is_seen_done());
    assert!(site.state(&wall("finish")).is_seen_done());
    assert_eq!(asked(&site), Vec::<&str>::new());
}

#[test]
fn whoever_sees_it_later_makes_it_known() {
    let mut notes = taken_over();
    notes.push(note(4, june(5), "stair-hall.walls/board", Kind::Done));
    let site = site(&notes);
    assert!(site.state(&wall("board")).is_seen_done());
    assert!(site.state(&wall("base")).presumed.is_some());
}

#[test]
fn what_was_seen_stays_seen_whatever_is_presumed_later() {
    let seen = note(1, june(1), "stair-hall.walls/board", Kind::Done);
    let later = note(2, june(9), "stair-hall.walls/board", Kind::Done).unseen();
    let board = site(&[seen, later]).state(&wall("board"));
    assert_eq!(board.done.unwrap().at, june(1));
    assert!(board.is_seen_done());
}

#[test]
fn opened_and_not_there_is_work_to_do_again() {
    let mut notes = taken_over();
    notes.push(note(4, june(5), "stair-hall.walls/board", Kind::Undone));
    let site = site(&notes);
    let board = site.state(&wall("board"));
    assert!(board.done.is_none() && board.presumed.is_none());
    assert_eq!(board.undone.unwrap().note, id(4));
    assert_eq!(
        asked(&site),
        [
            "The base coat in the stair hall is noted done on Tue 1 June, but the board under it has to be done again by the note of Sat 5 June. Does the base coat come off too?"
        ]
    );
}

#[test]
fn what_was_found_missing_and_is_presumed_again_is_asked_about() {
    let mut notes = taken_over();
    notes.push(note(4, june(5), "stair-hall.walls/board", Kind::Undone));
    notes.push(note(5, june(9), "stair-hall.walls/board", Kind::Done).unseen());
    let site = site(&notes);
    assert!(site.state(&wall("board")).presumed.is_some());
    assert_eq!(
        asked(&site),
        [
            "The board in the stair hall was noted not to be there on Sat 5 June; on Wed 9 June it is taken to be, because of what is over it. Was it put in since?"
        ]
    );
}

#[test]
fn what_never_was_there_is_not_said_to_come_off() {
    let notes = [
        note(1, june(1), "stair-hall.walls/base", Kind::Undone),
        note(2, june(5), "stair-hall.walls/finish", Kind::Done),
    ];
    let site = site(&notes);
    assert_eq!(
        asked(&site),
        [
            "The finish coat in the stair hall is noted done on Sat 5 June, but the base coat under it was not there on Tue 1 June. Was it put in between?"
        ]
    );
}

#[test]
fn work_over_what_nobody_ever_noted_makes_it_presumed_and_asks() {
    let site = site(&[note(1, june(1), "stair-hall.walls/finish", Kind::Started)]);
    let board = site.state(&wall("board"));
    assert_eq!(board.presumed.unwrap().note, id(1));
    assert!(board.done.is_none(), "nobody said that it was done");
    assert_eq!(asked(&site).len(), 1);
}

#[test]
fn what_nobody_could_look_at_is_unknown_until_somebody_tells() {
    let unseen = note(1, june(1), "stair-hall.walls", Kind::Remark).unseen();
    let told = note(2, june(3), "stair-hall.walls/board", Kind::Done);
    let before = site(std::slice::from_ref(&unseen));
    assert_eq!(before.state(&wall("board")).unseen.unwrap().note, id(1));
    let after = site(&[unseen, told]);
    assert!(after.state(&wall("board")).unseen.is_none());
    assert!(after.state(&wall("base")).unseen.is_some());
}

#[test]
fn not_being_able_to_look_takes_nothing_away() {
    let mut notes = taken_over();
    notes.push(note(4, june(5), "stair-hall.walls", Kind::Remark).unseen());
    let site = site(&notes);
    assert!(site.state(&wall("finish")).is_seen_done());
    assert!(site.state(&wall("base")).unseen.is_none());
}

#[test]
fn somebody_decides_to_look_and_the_look_ends_it() {
    let look = note(4, june(2), "stair-hall.walls/board", Kind::Decided)
        .with_value(Look::Camera.value())
        .unseen();
    let mut notes = taken_over();
    notes.push(look);
    let board = site(&notes).state(&wall("board"));
    assert_eq!(
        board.look.map(|(look, seen)| (look, seen.note)),
        Some((Look::Camera, id(4)))
    );
    assert!(
        board.accepted.is_none(),
        "a decision to look lets no fit go"
    );
    notes.push(note(5, june(3), "stair-hall.walls/board", Kind::Done));
    assert!(site(&notes).state(&wall("board")).look.is_none());
}

#[test]
fn letting_go_is_somebodys_decision_and_a_later_look_takes_its_place() {
    let mut notes = taken_over();
    let go = note(4, june(2), "stair-hall.walls/board", Kind::Decided);
    notes.push(go.with_words("Dry for twelve years").unseen());
    assert_eq!(
        site(&notes).state(&wall("board")).let_go.unwrap().note,
        id(4)
    );
    let look = note(5, june(3), "stair-hall.walls/board", Kind::Decided);
    notes.push(look.with_value(Look::Opening.value()).unseen());
    let board = site(&notes).state(&wall("board"));
    assert!(board.let_go.is_none() && board.look.is_some());
}

#[test]
fn a_test_under_presumed_or_covered_work_is_unproven_until_it_passes() {
    let membrane = note(1, june(1), "shower-room.floor/membrane", Kind::Done).unseen();
    let tile = note(2, june(1), "shower-room.floor/tile", Kind::Done);
    let mut notes = vec![membrane, tile];
    let holds = |notes: &[Note]| unproven(job(), &site(notes));
    let found = holds(&notes);
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].hold, "flood-test".into());
    assert_eq!(found[0].covered_by.len(), 1);
    assert!(
        matches!(&found[0].guards[..], [Subject::Layer(key)] if key.layer == "membrane".into())
    );
    notes.push(note(3, june(2), "flood-test", Kind::Passed));
    assert_eq!(holds(&notes), vec![]);
}

#[test]
fn a_pass_that_nobody_saw_is_no_pass() {
    let notes = [note(1, june(1), "flood-test", Kind::Passed).unseen()];
    let site = site(&notes);
    assert!(state(&site, "flood-test").done.is_none());
    assert_eq!(
        asked(&site),
        [
            "The flood test is noted passed on Tue 1 June, though nobody saw it. It does not count: who has the paper?"
        ]
    );
}

#[test]
fn a_test_not_yet_due_is_not_unproven() {
    let membrane = note(1, june(1), "shower-room.floor/membrane", Kind::Done);
    assert_eq!(unproven(job(), &site(&[membrane])), vec![]);
}

#[test]
fn a_piece_is_presumed_in_only_while_its_cover_is_on() {
    let mut notes = vec![
        note(1, june(1), "shower-room.walls/tile", Kind::Done),
        note(2, june(1), "shower-room.walls/membrane", Kind::Done).unseen(),
        note(3, june(1), "mixer", Kind::Done).unseen(),
    ];
    let mixer = |notes: &[Note]| state(&site(notes), "mixer");
    assert!(mixer(&notes).done.is_some() && mixer(&notes).presumed.is_some());
    notes.push(note(4, june(2), "shower-room.walls/tile", Kind::Undone));
    assert!(mixer(&notes).done.is_none() && mixer(&notes).presumed.is_none());
}
