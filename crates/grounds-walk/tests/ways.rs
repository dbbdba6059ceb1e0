//! Ways of saying things on a walk: without marks, in broken English, by two people, from a list.
//! The house is invented; the ways of saying are common practice.

#![allow(clippy::expect_used, reason = "a test stops at the first surprise")]

use grounds_measure::Units;
use grounds_walk::{Kind, Person, Place, Vocabulary, read, transcript};
use jiff::civil::date;

/// Tuesday 8 June 2027 at the mill: kind and thing of what is proposed, dropped doubts left out.
fn said(talk: &str) -> Vec<(Kind, String)> {
    let place = |name: &str| Place {
        id: name.to_lowercase(),
        name: name.into(),
        also: vec![],
    };
    let person = |name: &str, trade: &str| Person {
        id: trade.into(),
        name: name.into(),
        also: vec![trade.into()],
    };
    let vocabulary = Vocabulary {
        day: date(2027, 6, 8),
        units: Units::Metric,
        places: vec![place("Hall"), place("Kitchen"), place("Bath")],
        people: vec![person("Corin", "blacksmith"), person("Ana", "tiler")],
        things: vec![],
    };
    read(&transcript::read(talk).expect("it has talk"), &vocabulary)
        .proposals
        .into_iter()
        .map(|p| (p.kind, p.thing))
        .collect()
}

/// Whether something of the kind with the word in its thing was read.
fn reads(talk: &str, kind: Kind, word: &str) -> bool {
    said(talk)
        .iter()
        .any(|(read, thing)| *read == kind && thing.split(' ').any(|w| w == word))
}

#[test]
fn talk_without_marks_is_cut_where_a_new_thing_begins() {
    let talk = "WEBVTT\n\n00:01.000 --> 00:05.000\nkitchen units are in worktops templated yesterday\n\n\
                00:06.000 --> 00:09.000\nbath panel not here shower valve fitted and tested\n";
    assert!(reads(talk, Kind::Done, "units"), "{:?}", said(talk));
    assert!(reads(talk, Kind::Done, "worktops"), "{:?}", said(talk));
    assert!(reads(talk, Kind::NotDelivered, "panel"), "{:?}", said(talk));
}

#[test]
fn plain_forms_stand_for_what_was_done() {
    let talk = "[0:01] Hall. Tile is put, is not grout.\n[0:05] Stone is crack here in corner.\n\
                [0:09] Handrail is not fix.";
    assert!(reads(talk, Kind::Done, "tile"));
    assert!(reads(talk, Kind::Wrong, "stone"));
    assert!(reads(talk, Kind::NotDone, "handrail"));
}

#[test]
fn what_a_thing_fails_to_do_is_wrong_with_it() {
    for (said, word) in [
        ("[0:01] Hall. The hatch doesn't close.", "hatch"),
        (
            "[0:01] Hall. The shutter bar doesn't meet the catch.",
            "bar",
        ),
        ("[0:01] Hall. Wall's out nine mil in two metres.", "wall"),
        ("[0:01] Hall. There's a tile cracked by the door.", "tile"),
    ] {
        assert!(reads(said, Kind::Wrong, word), "{said}");
    }
}

#[test]
fn names_joined_by_and_are_one_subject() {
    assert!(reads(
        "[0:01] Hall. Skirting and casings are all on.",
        Kind::Done,
        "skirting"
    ));
    assert!(reads(
        "[0:01] Hall. Skirting and casings are all on.",
        Kind::Done,
        "casings"
    ));
}

#[test]
fn an_item_of_a_list_is_what_it_is_today() {
    let closed = "[0:01] Item one, hall, door closer slams. It's been adjusted. Closed.";
    assert!(reads(closed, Kind::Done, "closer"));
    assert!(!reads(closed, Kind::Wrong, "closer"), "{:?}", said(closed));
    let still = "[0:01] Item two, kitchen, mixer tap drips. Washer's been changed. It still drips.";
    assert!(reads(still, Kind::Wrong, "tap"), "{:?}", said(still));
}

#[test]
fn one_asks_and_the_other_answers() {
    let talk = "[0:01] A: Hall.\n[0:02] A: Did the railing come?\n[0:04] B: Came this morning.\n\
                [0:06] A: Is the newel fixed?\n[0:08] B: Nope.\n[0:10] A: The lock is —\n[0:12] B: Cracked.";
    assert!(reads(talk, Kind::Delivered, "railing"), "{:?}", said(talk));
    assert!(reads(talk, Kind::NotDone, "newel"), "{:?}", said(talk));
    assert!(reads(talk, Kind::Wrong, "lock"), "{:?}", said(talk));
}

#[test]
fn what_nobody_does_till_something_waits_for_it() {
    let talk = "[0:01] Hall. Nobody hangs anything off the post till it's welded.";
    assert_eq!(
        said(talk).first().map(|(kind, _)| *kind),
        Some(Kind::Blocked)
    );
    let talk = "[0:01] Bath. I can't paint in there. The plaster patch is still wet.";
    assert!(reads(talk, Kind::Blocked, "paint"), "{:?}", said(talk));
}

#[test]
fn a_joke_a_call_and_an_animal_are_no_news() {
    for talk in [
        "[0:01] Hall. There's a horse in the hall.",
        "[0:01] Hall. That sandwich is done.",
        "[0:01] Hall. Somebody write that down.",
    ] {
        assert_eq!(said(talk), [], "{talk}");
    }
}
