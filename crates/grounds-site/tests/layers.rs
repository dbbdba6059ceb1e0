//! Layers on faces: begun, done, done again, and done in an order that cannot be.

mod house;

use grounds_site::{Kind, Value};
use house::{asked, june, note, site, state, wall};

#[test]
fn a_finish_coat_over_a_base_coat_nobody_noted_is_kept_and_asked_about() {
    let site = site(&[
        note(1, june(1), "stair-hall.walls/board", Kind::Done),
        note(2, june(8), "stair-hall.walls/finish", Kind::Done),
    ]);
    assert_eq!(
        asked(&site),
        [
            "The finish coat in the stair hall is noted done on Tue 8 June, but the base coat under it was never noted. Was it done?"
        ]
    );
    assert!(site.state(&wall("finish")).done.is_some());
    assert_eq!(site.questions[0].about, "stair-hall.walls/finish");
}

#[test]
fn all_layers_missing_under_one_are_asked_about_together() {
    let site = site(&[note(1, june(8), "stair-hall.walls/finish", Kind::Started)]);
    assert_eq!(
        asked(&site),
        [
            "The finish coat in the stair hall is noted begun on Tue 8 June, but the base coat and the board under it were never noted. Were they done?"
        ]
    );
}

#[test]
fn layers_done_in_their_order_raise_no_question() {
    let site = site(&[
        note(1, june(1), "stair-hall.walls/board", Kind::Done),
        note(2, june(2), "stair-hall.walls/base", Kind::Started),
        note(3, june(3), "stair-hall.walls/base", Kind::Done),
        note(4, june(8), "stair-hall.walls/finish", Kind::Done),
    ]);
    assert_eq!(asked(&site), Vec::<&str>::new());
}

#[test]
fn a_coat_noted_done_before_the_coat_under_it_is_asked_about() {
    let site = site(&[
        note(1, june(1), "stair-hall.walls/board", Kind::Done),
        note(2, june(9), "stair-hall.walls/base", Kind::Done),
        note(3, june(8), "stair-hall.walls/finish", Kind::Done),
    ]);
    assert_eq!(
        asked(&site),
        [
            "The finish coat in the stair hall is noted done on Tue 8 June, before the base coat under it on Wed 9 June. Which date is right?"
        ]
    );
}

#[test]
fn notes_written_up_together_in_the_evening_are_not_an_order_of_work() {
    let evening = june(8);
    let minute = jiff::SignedDuration::from_mins(1);
    let site = site(&[
        note(
            1,
            evening + minute * 2,
            "stair-hall.walls/board",
            Kind::Done,
        ),
        note(2, evening + minute, "stair-hall.walls/base", Kind::Done),
        note(3, evening, "stair-hall.walls/finish", Kind::Done),
    ]);
    assert_eq!(asked(&site), Vec::<&str>::new());
}

#[test]
fn felt_that_was_taken_up_again_is_not_missed() {
    let site = site(&[
        note(1, june(1), "shower-room.walls/membrane", Kind::Done),
        note(2, june(1), "mixer", Kind::Done),
        note(3, june(3), "shower-room.walls/tile", Kind::Done),
    ]);
    assert_eq!(asked(&site), Vec::<&str>::new());
}

#[test]
fn work_that_has_to_be_done_again_is_neither_begun_nor_done() {
    let site = site(&[
        note(1, june(1), "stair-hall.walls/board", Kind::Done),
        note(2, june(2), "stair-hall.walls/base", Kind::Started),
        note(3, june(3), "stair-hall.walls/base", Kind::Done),
        note(4, june(4), "stair-hall.walls/base", Kind::Undone),
    ]);
    let base = site.state(&wall("base"));
    assert_eq!((base.started, base.done), (None, None));
    assert!(site.state(&wall("board")).done.is_some());
}

#[test]
fn work_done_again_counts_from_the_second_time() {
    let site = site(&[
        note(1, june(1), "stair-hall.walls/board", Kind::Done),
        note(2, june(3), "stair-hall.walls/board", Kind::Undone),
        note(3, june(5), "stair-hall.walls/board", Kind::Started),
        note(4, june(6), "stair-hall.walls/board", Kind::Done),
    ]);
    let board = site.state(&wall("board"));
    assert_eq!(board.started.map(|seen| seen.at), Some(june(5)));
    assert_eq!(board.done.map(|seen| seen.at), Some(june(6)));
}

#[test]
fn taking_off_a_base_coat_asks_about_the_finish_coat_on_it() {
    let site = site(&[
        note(1, june(1), "stair-hall.walls", Kind::Done),
        note(2, june(10), "stair-hall.walls/base", Kind::Undone),
    ]);
    assert_eq!(
        asked(&site),
        [
            "The finish coat in the stair hall is noted done on Tue 1 June, but the base coat under it has to be done again by the note of Thu 10 June. Does the finish coat come off too?"
        ]
    );
}

#[test]
fn a_face_noted_done_is_done_in_all_its_layers_and_keeps_the_dates_known_better() {
    let site = site(&[
        note(1, june(1), "stair-hall.walls/board", Kind::Done),
        note(2, june(9), "stair-hall.walls", Kind::Done),
    ]);
    assert_eq!(
        site.state(&wall("board")).done.map(|seen| seen.at),
        Some(june(1))
    );
    assert_eq!(
        site.state(&wall("base")).done.map(|seen| seen.at),
        Some(june(9))
    );
    assert_eq!(
        site.state(&wall("finish")).done.map(|seen| seen.at),
        Some(june(9))
    );
    assert_eq!(asked(&site), Vec::<&str>::new());
}

#[test]
fn work_begun_on_a_face_is_begun_on_its_next_layer() {
    let site = site(&[
        note(1, june(1), "stair-hall.walls/board", Kind::Done),
        note(2, june(2), "stair-hall.walls", Kind::Started),
    ]);
    assert!(site.state(&wall("base")).started.is_some());
    assert!(site.state(&wall("finish")).started.is_none());
}

#[test]
fn a_face_to_be_done_again_loses_its_outermost_layer_and_asks_how_deep() {
    let site = site(&[
        note(1, june(1), "stair-hall.walls", Kind::Done),
        note(2, june(9), "stair-hall.walls", Kind::Undone),
    ]);
    assert!(site.state(&wall("finish")).done.is_none());
    assert!(site.state(&wall("base")).done.is_some());
    assert_eq!(
        asked(&site),
        [
            "Ana noted on Wed 9 June that the walls in the stair hall must be done again. How many layers come off?"
        ]
    );
}

#[test]
fn a_hundred_percent_is_not_done_until_somebody_says_so() {
    let share = |text: &str| Value::Share(text.parse().unwrap());
    let whole =
        note(1, june(2), "stair-hall.walls/board", Kind::Progress).with_value(share("100 %"));
    let before = site(std::slice::from_ref(&whole));
    assert!(before.state(&wall("board")).done.is_none());
    assert_eq!(
        asked(&before),
        [
            "The board in the stair hall is noted as 100 % on Wed 2 June, but not as done. Is it done?"
        ]
    );
    let done = note(2, june(3), "stair-hall.walls/board", Kind::Done);
    assert_eq!(asked(&site(&[whole, done])), Vec::<&str>::new());
}

#[test]
fn progress_is_the_latest_word_and_means_that_work_began() {
    let share = |number, day, text: &str| {
        let progress = note(number, june(day), "stair-hall.walls/board", Kind::Progress);
        progress.with_value(Value::Share(text.parse().unwrap()))
    };
    let board = site(&[share(1, 2, "60 %"), share(2, 1, "30 %")]).state(&wall("board"));
    assert_eq!(board.started.map(|seen| seen.at), Some(june(1)));
    assert_eq!(
        board.progress.map(|(share, _)| share.to_string()),
        Some("60 %".to_owned())
    );
}

#[test]
fn work_noted_begun_after_it_was_done_is_asked_about() {
    let site = site(&[
        note(1, june(1), "stair-hall.walls/board", Kind::Done),
        note(2, june(2), "stair-hall.walls/board", Kind::Started),
    ]);
    assert_eq!(
        asked(&site),
        [
            "The board in the stair hall is noted done on Tue 1 June, but begun on Wed 2 June, after that. Is it done, or is it being done again?"
        ]
    );
    assert!(site.state(&wall("board")).done.is_some());
}

#[test]
fn tile_laid_over_a_mixer_body_that_was_not_set_is_asked_about() {
    let site = site(&[
        note(1, june(1), "shower-room.walls/membrane", Kind::Done),
        note(2, june(3), "shower-room.walls/tile", Kind::Started),
    ]);
    assert_eq!(
        asked(&site),
        [
            "The tile on the walls in the shower room is noted begun on Thu 3 June, but the mixer body, which goes in before it, was never noted set. Was it set?"
        ]
    );
}

#[test]
fn a_problem_on_a_face_stands_in_the_way_of_each_layer_until_it_is_cleared() {
    let wet = note(1, june(1), "stair-hall.walls", Kind::Problem).with_words("wall is wet");
    let site_with = site(std::slice::from_ref(&wet));
    assert_eq!(
        site_with.state(&wall("base")).problems[0].words,
        "wall is wet"
    );
    let dry = note(2, june(4), "stair-hall.walls", Kind::Cleared);
    assert!(site(&[wet, dry]).state(&wall("base")).problems.is_empty());
}

#[test]
fn a_note_is_listed_with_each_layer_it_is_about() {
    let site = site(&[note(1, june(1), "stair-hall.walls", Kind::Remark)]);
    assert_eq!(
        state(&site, "stair-hall.walls/finish").notes,
        [house::id(1)]
    );
}
