//! What is about to be hidden, what was covered without, and what is behind a wall.

use crate::running::{example, grounds};
use serde_json::Value;

const MORNING: [&str; 2] = ["--at", "2027-06-10T07:10"];

fn mill(more: &[&str]) -> crate::running::Ended {
    let path = example("alder-sluice");
    let arguments: Vec<&str> = ["cover", path.as_str()]
        .into_iter()
        .chain(MORNING)
        .chain(more.iter().copied())
        .collect();
    grounds(&arguments)
}

#[test]
fn what_is_hidden_first_comes_first_with_what_is_missing() {
    let cover = mill(&[]);
    // Work was covered without what the job asks for, and nobody wrote down why.
    assert_eq!(cover.code, Some(1), "{}{}", cover.out, cover.err);
    let sentences = cover.sentences();
    for part in [
        "things cover others in the next four weeks",
        "Fire stopping seen before the plant void is boarded must pass: from the inspector \
         (Building control), to book",
        "Photo of every penetration",
        "Covered without what the job asks for",
        "(common practice)",
    ] {
        assert!(sentences.contains(part), "{part}:\n{}", cover.out);
    }
    for line in cover.out.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    assert!(mill(&["--all"]).out.len() > cover.out.len());
}

#[test]
fn the_register_in_json_tells_what_is_asked_by_whom_and_what_is_there() {
    let cover = mill(&["--json", "--weeks", "2"]);
    let file: Value = serde_json::from_str(&cover.out).unwrap();
    let coming = file["to_come"].as_array().unwrap();
    let board = coming
        .iter()
        .find(|one| one["key"] == "plant-room.void/board")
        .unwrap();
    let hides = board["hides"].as_array().unwrap();
    let hold = hides
        .iter()
        .find(|one| one["about"][0] == "plant-fire-stopping")
        .unwrap();
    assert_eq!(hold["asks"][0]["wanted"], "pass");
    assert_eq!(hold["asks"][0]["asked_by"], "job");
    assert!(!board["missing"].as_array().unwrap().is_empty());
    let without = file["covered_without"].as_array().unwrap();
    assert!(without.iter().all(|one| one["standing"] != "to-come"));
}

#[test]
fn one_inspection_tells_all_that_is_asked_for_it() {
    let hold = mill(&["--hold", "plant-fire-stopping"]);
    assert_eq!(hold.code, Some(0), "{}{}", hold.out, hold.err);
    let sentences = hold.sentences();
    for part in [
        "To book by",
        "Call: Mr Abbot",
        "Maker's sheet of the sealant",
        "The authority having jurisdiction decides",
    ] {
        assert!(sentences.contains(part), "{part}:\n{}", hold.out);
    }
    let file: Value =
        serde_json::from_str(&mill(&["--hold", "steam-flood", "--json"]).out).unwrap();
    assert_eq!(file["fails"], 1);
    let wrong = mill(&["--hold", "steam-flod"]);
    assert_eq!(wrong.code, Some(2));
    assert!(
        wrong.err.contains("did you mean steam-flood"),
        "{}",
        wrong.err
    );
}

#[test]
fn somebody_asks_what_is_behind_a_wall() {
    let behind = mill(&["--behind", "main bathroom shower wall"]);
    assert_eq!(behind.code, Some(0), "{}{}", behind.out, behind.err);
    let sentences = behind.sentences();
    for part in [
        "shower walls",
        "Pipes, first fix",
        "with a detector before you drill",
    ] {
        assert!(sentences.contains(part), "{part}:\n{}", behind.out);
    }
    let by_key = mill(&["--behind", "kitchen.floor", "--json"]);
    let file: Value = serde_json::from_str(&by_key.out).unwrap();
    assert_eq!(file["faces"].as_array().unwrap().len(), 1);
    let nothing = mill(&["--behind", "\u{1b}[2Jzzz"]);
    assert_eq!(nothing.code, Some(2));
    assert!(!nothing.err.contains('\u{1b}'), "{:?}", nothing.err);
}
