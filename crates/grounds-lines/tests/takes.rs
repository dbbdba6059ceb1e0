//! What can be read, and what to do: at the demo house and at houses of common practice.

#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

mod house;

use std::collections::BTreeSet;

use grounds_lines::{
    advice::advice,
    answers::{Answers, Verdict},
    lines::{Lines, Source},
    take::{Take, take, takes},
};
use house::{House, assert_says};

fn mill() -> House {
    House::example("alder-sluice")
}

fn all_takes(house: &House) -> BTreeSet<Take> {
    let site = house.site();
    let lines = Lines::of(&house.job, &site);
    let answers = Answers::of(&lines).unwrap();
    let all = answers.answers.iter();
    all.flat_map(|answer| takes(&lines, answer)).collect()
}

#[test]
fn every_reading_that_is_offered_counts_once_it_is_taken() {
    let all = all_takes(&mill());
    assert!(all.len() > 10, "{}", all.len());
    let mut house = mill();
    let mut taken = Vec::new();
    for take in all {
        let what = match take.what.as_str() {
            "" => "thickness",
            what => what,
        };
        let about = take.about.as_str();
        house = house.read_off("2027-06-10T07:00:00+01:00", about, what, "12 mm");
        taken.push((house.notes.last().unwrap().id, take));
    }
    let site = house.site();
    let lines = Lines::of(&house.job, &site);
    for (note, take) in taken {
        assert!(lines.unused.iter().all(|(id, _)| *id != note), "{take:?}");
        let counts = lines
            .ties
            .iter()
            .any(|tie| matches!(&tie.source, Source::Reading { note: of, .. } if *of == note));
        assert!(counts, "{take:?}");
    }
}

#[test]
fn every_reading_is_found_again_by_the_words_of_its_note() {
    let house = mill();
    let site = house.site();
    let lines = Lines::of(&house.job, &site);
    for known in all_takes(&house) {
        assert_eq!(take(&lines, &known.about, &known.what), Some(known));
    }
    assert_eq!(take(&lines, &"nothing".into(), "width"), None);
    assert_eq!(take(&lines, &"kitchen.floor".into(), "colour"), None);
}

#[test]
fn what_fails_says_what_to_do_and_by_how_much() {
    let house = mill();
    let site = house.site();
    let lines = Lines::of(&house.job, &site);
    let answers = Answers::of(&lines).unwrap();
    let said = |key: &str| advice(&lines, &answers, answers.get(key).unwrap()).unwrap();
    for (key, says) in [
        ("kitchen-slot-grille.flush", "2.2 mm"),
        ("stair-upper-rail.clear", "3.5 mm further from the plaster"),
        ("hall-tower.threshold", "Make up 6.9 mm under the tiles"),
        ("bin-studio.threshold", "Make up 12 mm under the boards"),
        ("wheel-screen.width", "12 mm"),
        ("guest-valve.flush", "Dai Merrick"),
    ] {
        assert_says(&said(key), &[says]);
    }
    for answer in &answers.answers {
        let advised = advice(&lines, &answers, answer).is_some();
        match answer.verdict {
            Verdict::Holds => assert!(!advised, "{}", answer.key),
            Verdict::Fails | Verdict::CannotTell => assert!(advised, "{}", answer.key),
            Verdict::Tight => {}
        }
    }
}

#[test]
fn a_refrigerator_that_is_too_wide_is_ordered_narrower_while_it_can_be() {
    let house = House::case("fridge-recess");
    let site = house.site();
    let lines = Lines::of(&house.job, &site);
    let answers = Answers::of(&lines).unwrap();
    let answer = answers.get("fridge.width").unwrap();
    // 35 1/2 at the floor against a body of 35 5/8, and 1/8 of air wanted on each side.
    assert_eq!(
        advice(&lines, &answers, answer).as_deref(),
        Some("Order the refrigerator 3/8\" narrower.")
    );
}
