//! Pieces: decided, measured, ordered, promised, shipped, arrived, damaged and set.

mod house;

use grounds_site::{Kind, Note};
use house::{asked, june, note, on, site, state};

/// The walls finished, the tint decided, the glass measured and ordered.
fn ordered() -> Vec<Note> {
    vec![
        note(1, june(1), "stair-hall.walls", Kind::Done),
        note(2, june(2), "glass-tint", Kind::Decided),
        note(3, june(2), "stair-glass", Kind::Measured),
        note(4, june(3), "stair-glass", Kind::Ordered).with_value(on("2027-07-12")),
    ]
}

fn with(more: Vec<Note>) -> Vec<Note> {
    ordered().into_iter().chain(more).collect()
}

#[test]
fn glass_goes_from_order_to_setting_without_a_question() {
    let site = site(&with(vec![
        note(5, june(20), "stair-glass", Kind::Shipped),
        note(6, june(21), "stair-glass", Kind::Arrived),
        note(7, june(22), "stair-glass", Kind::Done),
    ]));
    let glass = state(&site, "stair-glass");
    assert!(glass.ordered.is_some() && glass.shipped.is_some() && glass.arrived.is_some());
    assert_eq!(glass.done.map(|seen| seen.at), Some(june(22)));
    assert_eq!(asked(&site), Vec::<&str>::new());
}

#[test]
fn the_last_date_promised_is_the_one_that_counts() {
    let later = note(5, june(10), "stair-glass", Kind::Promised).with_value(on("2027-07-26"));
    let glass = state(&site(&with(vec![later])), "stair-glass");
    assert_eq!(
        glass.promised.map(|(when, _)| when.date.to_string()),
        Some("2027-07-26".to_owned())
    );
}

#[test]
fn a_promise_without_a_date_is_asked_about_and_leaves_the_old_date() {
    let site = site(&with(vec![note(
        5,
        june(10),
        "stair-glass",
        Kind::Promised,
    )]));
    let glass = state(&site, "stair-glass");
    assert_eq!(
        glass.promised.map(|(when, _)| when.date.to_string()),
        Some("2027-07-12".to_owned())
    );
    assert_eq!(
        asked(&site),
        [
            "On Thu 10 June a date was promised for the stair glass, but the note does not give it. Which date?"
        ]
    );
}

#[test]
fn glass_damaged_on_site_has_not_arrived_until_somebody_says_what_now() {
    let broken = with(vec![
        note(5, june(20), "stair-glass", Kind::Arrived),
        note(6, june(21), "stair-glass", Kind::Damaged),
    ]);
    let site_broken = site(&broken);
    let glass = state(&site_broken, "stair-glass");
    assert!(glass.arrived.is_none() && glass.damaged.is_some());
    assert_eq!(
        asked(&site_broken),
        [
            "The stair glass was damaged on Mon 21 June. Is it mended in place, or ordered or done again?"
        ]
    );

    let mut again = broken.clone();
    again.push(note(7, june(22), "stair-glass", Kind::Ordered));
    assert_eq!(asked(&site(&again)), Vec::<&str>::new());

    let mut polished = broken;
    polished.push(note(7, june(22), "stair-glass", Kind::Cleared));
    let glass = state(&site(&polished), "stair-glass");
    assert_eq!(glass.arrived.map(|seen| seen.at), Some(june(20)));
    assert!(glass.damaged.is_none());
}

#[test]
fn glass_damaged_once_set_is_no_longer_done() {
    let site = site(&with(vec![
        note(5, june(20), "stair-glass", Kind::Arrived),
        note(6, june(21), "stair-glass", Kind::Done),
        note(7, june(22), "stair-glass", Kind::Damaged),
    ]));
    assert!(state(&site, "stair-glass").done.is_none());
}

#[test]
fn new_glass_that_arrives_ends_the_damage() {
    let site = site(&with(vec![
        note(5, june(20), "stair-glass", Kind::Damaged),
        note(6, june(25), "stair-glass", Kind::Arrived),
    ]));
    assert!(state(&site, "stair-glass").damaged.is_none());
}

#[test]
fn a_piece_taken_out_again_is_still_on_site() {
    let site = site(&with(vec![
        note(5, june(20), "stair-glass", Kind::Arrived),
        note(6, june(21), "stair-glass", Kind::Done),
        note(7, june(22), "stair-glass", Kind::Undone),
    ]));
    let glass = state(&site, "stair-glass");
    assert!(glass.done.is_none() && glass.arrived.is_some());
}

#[test]
fn glass_that_nobody_ordered_is_asked_about_when_it_arrives() {
    let site = site(&[note(1, june(20), "stair-glass", Kind::Arrived)]);
    assert_eq!(
        asked(&site),
        [
            "The stair glass is noted arrived on Sun 20 June, but never ordered. Is it what the job asks for?"
        ]
    );
}

#[test]
fn glass_ordered_unmeasured_and_undecided_is_asked_about_twice() {
    let site = site(&[note(1, june(3), "stair-glass", Kind::Ordered)]);
    assert_eq!(
        asked(&site),
        [
            "The stair glass is noted ordered on Thu 3 June, but never measured. To which size was it ordered?",
            "The stair glass is noted ordered on Thu 3 June, but the tint of the glass was never noted as decided. Was it?",
        ]
    );
}

#[test]
fn glass_set_on_a_wall_that_is_not_finished_is_asked_about() {
    let site = site(&[note(1, june(3), "stair-glass", Kind::Done)]);
    assert_eq!(
        asked(&site),
        [
            "The stair glass is noted set on Thu 3 June, but the finish coat in the stair hall, which it needs first, was not noted done. Which is right?"
        ]
    );
}

#[test]
fn a_piece_does_not_pass_or_fail() {
    let site = site(&[note(1, june(3), "mixer", Kind::Passed)]);
    assert_eq!(
        asked(&site),
        [
            "Ana noted on Thu 3 June that the mixer body passed, but that is no test or inspection. Which one is meant?"
        ]
    );
}
