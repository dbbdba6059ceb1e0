//! Spoken walks and quick notes on the command line.

use std::{fs, path::Path};

use crate::running::{Ended, example, grounds, grounds_reading};
use serde_json::Value;

const MORNING: &str = "2027-06-10T07:10";

/// A bathroom of its own, and a walk through it.
struct House {
    place: tempfile::TempDir,
}

const TALK: &str = "WEBVTT

00:01.000 --> 00:04.000
Bathroom. Vanity's here, two boxes.

00:05.000 --> 00:09.000
The shower glass comes on the twenty first.

00:10.000 --> 00:14.000
Somebody says the mirror is cracked.

00:15.000 --> 00:19.000
Did you see the game?
";

fn house() -> House {
    let place = tempfile::tempdir().unwrap();
    for file in ["job.toml", "notes.jsonl"] {
        let from = Path::new(&example("one-bathroom")).join(file);
        fs::create_dir_all(place.path().join("house")).unwrap();
        fs::copy(from, place.path().join("house").join(file)).unwrap();
    }
    fs::write(place.path().join("walk.vtt"), TALK).unwrap();
    House { place }
}

impl House {
    fn folder(&self) -> String {
        self.place.path().join("house").display().to_string()
    }

    fn walk(&self, job: &str, more: &[&str]) -> Ended {
        let file = self.place.path().join("walk.vtt").display().to_string();
        let mut all = vec!["walk", job, &file];
        all.extend(more);
        grounds(&all)
    }

    fn log(&self) -> Vec<Value> {
        let log = fs::read_to_string(self.place.path().join("house/notes.jsonl")).unwrap();
        log.lines()
            .map(|line| serde_json::from_str(line).unwrap())
            .collect()
    }
}

#[test]
fn a_walk_is_told_sentence_by_sentence_and_nothing_is_written() {
    let house = house();
    let before = house.log();
    let walk = house.walk(&house.folder(), &["--at", MORNING]);
    assert_eq!(walk.code, Some(0), "{}", walk.err);
    for part in [
        "0:01",
        "Vanity's here",
        "on site",
        "said firmly",
        "promised for Mon 21 June",
        "Nothing. --accept-above",
    ] {
        assert!(walk.sentences().contains(part), "{part}:\n{}", walk.out);
    }
    assert!(!walk.out.contains("the game"), "{}", walk.out);
    assert!(
        walk.out.lines().all(|line| line.chars().count() <= 80),
        "{}",
        walk.out
    );
    assert_eq!(house.log(), before);
    assert!(!house.place.path().join("house/walks.jsonl").exists());
}

#[test]
fn what_is_certain_is_written_once_and_the_walk_is_kept() {
    let house = house();
    let before = house.log().len();
    let above = ["--at", MORNING, "--by", "Ana", "--accept-above", "0.6"];
    let walk = house.walk(&house.folder(), &above);
    assert_eq!(walk.code, Some(0), "{}", walk.err);
    let new: Vec<Value> = house.log().split_off(before);
    assert!(new.len() >= 2, "{new:#?}");
    assert!(
        new.iter()
            .all(|note| note["by"] == "Ana" && note["walk"].is_string())
    );
    let came = new.iter().find(|note| note["kind"] == "arrived").unwrap();
    assert_eq!(came["words"], "Bathroom. Vanity's here, two boxes.");
    assert_eq!(came["at"], "2027-06-10T06:10:01Z");
    assert_eq!(came["walk_ms"], 1000);
    // Nobody saw the mirror.
    assert!(new.iter().all(|note| note["kind"] != "damaged"), "{new:#?}");
    let kept = fs::read_to_string(house.place.path().join("house/walks.jsonl")).unwrap();
    let file = format!("walks/{}.vtt", came["walk"].as_str().unwrap());
    assert!(kept.contains("\"accepted\""), "{kept}");
    assert_eq!(
        fs::read_to_string(house.place.path().join("house").join(file)).unwrap(),
        TALK
    );

    let again = house.walk(&house.folder(), &above);
    assert!(again.sentences().contains("Nothing new."), "{}", again.out);
    assert_eq!(house.log().len(), before + new.len());
    assert_eq!(
        fs::read_to_string(house.place.path().join("house/walks.jsonl")).unwrap(),
        kept
    );
}

#[test]
fn a_walk_of_a_job_in_the_data_directory_goes_with_it() {
    let house = house();
    let data = house.place.path().join("data").display().to_string();
    let with = ["--data", data.as_str()];
    let taken = grounds(&["import", &house.folder(), with[0], with[1]]);
    assert_eq!(taken.code, Some(0), "{}", taken.err);
    let walk = house.walk(
        "house",
        &["--at", MORNING, "--accept-above", "0.6", with[0], with[1]],
    );
    assert_eq!(walk.code, Some(0), "{}", walk.err);
    let out = house.place.path().join("out");
    let given = grounds(&[
        "export",
        "house",
        &out.display().to_string(),
        with[0],
        with[1],
    ]);
    assert_eq!(given.code, Some(0), "{}", given.err);
    assert!(
        fs::read_to_string(out.join("walks.jsonl"))
            .unwrap()
            .contains("\"accepted\"")
    );
    assert!(
        fs::read_to_string(out.join("notes.jsonl"))
            .unwrap()
            .contains("\"walk\"")
    );
}

#[test]
fn a_walk_in_json_says_what_each_note_would_be() {
    let house = house();
    let walk = house.walk(&house.folder(), &["--at", MORNING, "--json"]);
    let walk: Value = serde_json::from_str(&walk.out).unwrap();
    assert_eq!(walk["begun"], "2027-06-10T07:10:00+01:00");
    assert_eq!(walk["cues"], 4);
    let proposals = walk["proposals"].as_array().unwrap();
    let came = proposals.iter().find(|it| it["kind"] == "arrived").unwrap();
    assert_eq!(came["about"], serde_json::json!(["vanity"]));
    assert_eq!(came["certainty"], "firm");
    assert_eq!(came["at_ms"], 1000);
    assert!(walk.get("written").is_none());
}

#[test]
fn talk_that_is_none_and_shares_that_are_none_are_told_with_their_mend() {
    let house = house();
    for (more, said) in [
        (&["--accept-above", "90"][..], "from 0 to 1"),
        (&["--accept-above", "NaN"], "from 0 to 1"),
        (&["--by", "A\u{7}na"], "--by has to be a name"),
        (&["--at", "someday"], "2027-06-07"),
    ] {
        let refused = house.walk(&house.folder(), more);
        assert_eq!(refused.code, Some(2), "{more:?}: {}", refused.out);
        assert!(
            refused.sentences().contains(said),
            "{more:?}: {}",
            refused.err
        );
    }
    fs::write(house.place.path().join("walk.vtt"), "WEBVTT\n\n").unwrap();
    let empty = house.walk(&house.folder(), &[]);
    assert_eq!(empty.code, Some(2));
    assert!(empty.sentences().contains("[1:05]"), "{}", empty.err);
    let gone = grounds(&["walk", &house.folder(), "no-such-file.vtt"]);
    assert_eq!(gone.code, Some(2), "{}", gone.err);
}

#[test]
fn a_few_words_are_a_note_once_somebody_says_yes() {
    let house = house();
    let before = house.log().len();
    let folder = house.folder();
    let note = |more: &[&str], input: &str| {
        let mut all = vec!["note", folder.as_str(), "--at", MORNING];
        all.extend(more);
        grounds_reading(&all, input)
    };
    let no = note(&["bathroom", "vanity", "is", "here"], "n\n");
    assert_eq!(no.code, Some(0), "{}", no.err);
    assert!(
        no.sentences()
            .contains("the vanity unit and basin: on site"),
        "{}",
        no.out
    );
    assert!(no.sentences().contains("Nothing is written."), "{}", no.out);
    assert_eq!(house.log().len(), before);
    let yes = note(&["bathroom", "vanity", "is", "here"], "y\n");
    assert!(yes.sentences().contains("Written: 1 note."), "{}", yes.out);
    assert_eq!(house.log().len(), before + 1);
    assert_eq!(house.log()[before]["kind"], "arrived");
    let piped = note(&["-", "--yes"], "Bathroom. The shower glass is cracked.\n");
    assert!(
        piped.sentences().contains("Written: 1 note."),
        "{}{}",
        piped.out,
        piped.err
    );
    assert_eq!(house.log()[before + 1]["kind"], "damaged");
}

#[test]
fn words_that_say_nothing_and_keys_that_name_nothing_are_told() {
    let house = house();
    let folder = house.folder();
    let idle = grounds(&["note", &folder, "--at", MORNING, "what a lovely morning"]);
    assert_eq!(idle.code, Some(2), "{}", idle.out);
    assert!(
        idle.sentences().contains("name a place or a thing"),
        "{}",
        idle.err
    );
    let slip = grounds(&[
        "note",
        &folder,
        "--at",
        MORNING,
        "bathroom vanity is here",
        "--about",
        "vanty",
    ]);
    assert_eq!(slip.code, Some(2));
    assert!(
        slip.sentences().contains("did you mean vanity"),
        "{}",
        slip.err
    );
}
