//! Jobs that cannot be read: everything that is wrong is said at once, with its mend.

use crate::running::{Ended, ONE_ROOM, example, grounds, house};
use serde_json::Value;

fn check(folder: &tempfile::TempDir) -> Ended {
    grounds(&["check", &folder.path().display().to_string()])
}

#[test]
fn a_sound_house_is_said_to_be_sound() {
    let sound = check(&house(|job| job));
    assert_eq!(sound.code, Some(0), "{}", sound.out);
    assert!(
        sound
            .out
            .contains("No fault in One room: 1 place, 1 face, 1 piece"),
        "{}",
        sound.out
    );
}

#[test]
fn every_example_is_sound() {
    for name in ["one-bathroom", "one-bathroom-imperial", "alder-sluice"] {
        let sound = grounds(&["check", &example(name)]);
        assert_eq!(sound.code, Some(0), "{name}: {}", sound.out);
    }
}

#[test]
fn a_figure_that_no_rule_knows_is_shown_with_the_one_that_was_meant() {
    let faulty = check(&house(|job| {
        job.replacen(
            "entrance = true",
            "entrance = true\nfigures = { goin = \"250 mm\", headroom = \"tall\" }",
            1,
        )
    }));
    assert_eq!(faulty.code, Some(2), "{}", faulty.out);
    for part in [
        "no rule knows the figure `goin`",
        "did you mean `going`?",
        "`tall` does not begin with a plain number",
        "2 faults in the document",
    ] {
        assert!(
            faulty.out.contains(part),
            "{part} is missing in:\n{}",
            faulty.out
        );
    }
}

#[test]
fn two_slips_are_both_shown_on_their_lines_with_their_mends() {
    let faulty = check(&house(|job| {
        job.replace("entrance = true", "entrnce = true").replace(
            "after = [\"room.wall/last\"]",
            "after = [\"room.wall/lst\"]",
        )
    }));
    assert_eq!(faulty.code, Some(2));
    for part in [
        "entrnce = true",
        "did you mean `entrance`",
        "room.wall/lst",
        "2 faults in the document",
    ] {
        assert!(
            faulty.out.contains(part),
            "{part} is missing in:\n{}",
            faulty.out
        );
    }
    let line = ONE_ROOM
        .lines()
        .position(|line| line == "entrance = true")
        .unwrap()
        + 1;
    assert!(
        faulty.out.contains(&format!("job.toml:{line}:1")),
        "{}",
        faulty.out
    );
}

#[test]
fn faults_in_json_carry_line_key_and_mend() {
    let folder = house(|job| job.replace("level = \"ground\"", "level = \"groud\""));
    let faulty = grounds(&["check", &folder.path().display().to_string(), "--json"]);
    assert_eq!(faulty.code, Some(2));
    let faulty: Value = serde_json::from_str(&faulty.out).unwrap();
    let fault = &faulty["faults"][0];
    assert_eq!(fault["key"], "places.room.level");
    assert!(fault["line"].as_u64().unwrap() > 1);
    assert!(
        fault["mend"].as_str().unwrap().contains("ground"),
        "{fault}"
    );
}

#[test]
fn other_commands_show_the_same_faults_and_end_the_same_way() {
    let folder = house(|job| job.replace("trade = \"joinery\"", "trade = \"joinry\""));
    for command in ["now", "weeks"] {
        let faulty = grounds(&[command, &folder.path().display().to_string()]);
        assert_eq!(faulty.code, Some(2));
        assert_eq!(faulty.out, "");
        assert!(faulty.err.contains("joinry"), "{}", faulty.err);
    }
}

#[test]
fn a_bad_line_of_the_log_is_named() {
    let folder = house(|job| job);
    std::fs::write(folder.path().join("notes.jsonl"), "{\"id\":1}\nnot json\n").unwrap();
    let faulty = check(&folder);
    assert_eq!(faulty.code, Some(2));
    for part in ["notes.jsonl:1", "notes.jsonl:2", "2 faults in the log"] {
        assert!(
            faulty.out.contains(part),
            "{part} is missing in:\n{}",
            faulty.out
        );
    }
}

#[test]
fn documents_of_every_odd_shape_are_refused_with_a_sentence() {
    let odd: [(&str, Vec<u8>); 10] = [
        ("empty", Vec::new()),
        ("not TOML", b"this is not a document".to_vec()),
        ("not UTF-8", vec![0xff, 0xfe, b'a']),
        ("null characters", vec![0; 4096]),
        ("a list", b"[[job]]\nname = 1\n[[job]]\n".to_vec()),
        (
            "a newer format",
            ONE_ROOM.replace("format = 1", "format = 99").into_bytes(),
        ),
        (
            "deep nesting",
            format!("a = {}{}", "[".repeat(3000), "]".repeat(3000)).into_bytes(),
        ),
        (
            "a very long line",
            format!("format = 1\nx = \"{}\"", "y".repeat(300_000)).into_bytes(),
        ),
        (
            "escapes for the terminal",
            ONE_ROOM.replace("One room", "\\u001b[2J").into_bytes(),
        ),
        (
            "an unknown zone",
            ONE_ROOM.replace("Europe/London", "Mars/Dome").into_bytes(),
        ),
    ];
    for (what, bytes) in odd {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("job.toml"), bytes).unwrap();
        let faulty = check(&folder);
        assert_eq!(faulty.code, Some(2), "{what}: {}{}", faulty.out, faulty.err);
        let said = format!("{}{}", faulty.out, faulty.err);
        assert!(!said.trim().is_empty(), "{what}");
        assert!(!said.contains('\u{1b}'), "{what}: {said:?}");
        assert!(said.lines().count() < 200, "{what}");
    }
}
