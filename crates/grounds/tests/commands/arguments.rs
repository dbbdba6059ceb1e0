//! What can be typed on the command line, well and badly.

use std::process::{Command, Stdio};

use crate::running::{example, grounds, grounds_reading, house, root};

#[test]
fn help_names_every_command_with_an_example_and_the_exit_codes() {
    let help = grounds(&["--help"]);
    assert_eq!(help.code, Some(0));
    for part in [
        "now",
        "weeks",
        "why",
        "check",
        "verify",
        "new",
        "schema",
        "Examples:",
        "Exit codes:",
    ] {
        assert!(
            help.out.contains(part),
            "{part} is missing in:\n{}",
            help.out
        );
    }
    for command in [
        "now", "weeks", "why", "check", "verify", "new", "serve", "import", "export", "schema",
    ] {
        let help = grounds(&[command, "--help"]);
        assert_eq!(help.code, Some(0));
        assert!(
            help.out.contains(&format!("grounds {command}")),
            "{}",
            help.out
        );
    }
}

#[test]
fn what_cannot_be_used_ends_with_two_and_a_sentence() {
    let bathroom = example("one-bathroom");
    let long = "x".repeat(100_000);
    let hostile: [&[&str]; 14] = [
        &["frobnicate"],
        &["now"],
        &["now", "no-such-house"],
        &["now", "../../../../etc/passwd"],
        &["now", ""],
        &["now", "a\u{1b}[2Jb"],
        &["now", &bathroom, "--at", "tomorrow"],
        &["now", &bathroom, "--at", "2027-02-30"],
        &["weeks", &bathroom, "--weeks", "0"],
        &["weeks", &bathroom, "--weeks", "-1"],
        &["weeks", &bathroom, "--by", "colour"],
        &["why", &bathroom, &long],
        &["why", &bathroom, ""],
        &["verify", &bathroom, "no-such-plan.json"],
    ];
    for arguments in hostile {
        let refused = grounds(arguments);
        let shown = arguments
            .iter()
            .map(|a| a.chars().take(40).collect::<String>())
            .collect::<Vec<_>>();
        assert_eq!(refused.code, Some(2), "{shown:?}: {}", refused.err);
        assert!(
            refused.err.len() > 20 && refused.err.len() < 4000,
            "{shown:?}: {}",
            refused.err
        );
        assert!(!refused.err.contains('\u{1b}'), "{shown:?}");
    }
}

#[test]
fn days_at_the_ends_of_the_calendar_are_answered() {
    for day in [
        "0001-01-01",
        "1970-01-01",
        "2199-12-31",
        "9999-12-31",
        "2027-03-28T01:30",
        "2027-10-31T01:30",
    ] {
        let ended = grounds(&["now", &example("one-bathroom"), "--at", day]);
        assert!(matches!(ended.code, Some(0..=2)), "{day}: {}", ended.err);
    }
}

#[test]
fn plans_of_every_odd_shape_are_refused_with_a_sentence() {
    let bathroom = example("one-bathroom");
    for plan in [
        "",
        "null",
        "[]",
        "{}",
        "{\"job\":1}",
        "{\"job\":\"x\",\"at\":\"never\",\"finish\":\"\",\"work\":[]}",
    ] {
        let refused = grounds_reading(&["verify", &bathroom, "-"], plan);
        assert_eq!(refused.code, Some(2), "{plan}: {}", refused.err);
        assert!(
            refused.err.contains("not a plan"),
            "{plan}: {}",
            refused.err
        );
    }
    let empty = "{\"job\":\"x\",\"at\":\"2027-06-10T06:10:00Z\",\"finish\":\"\",\"work\":[]}";
    let refused = grounds_reading(&["verify", &bathroom, "-"], empty);
    assert_eq!(refused.code, Some(2), "{}", refused.err);
}

#[test]
fn a_new_house_is_sound_plans_and_is_never_written_over() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("my house").display().to_string();
    assert_eq!(grounds(&["new", &path]).code, Some(0));
    assert_eq!(grounds(&["check", &path]).code, Some(0));
    let now = grounds(&["now", &path]);
    assert_eq!(now.code, Some(0), "{}{}", now.out, now.err);
    assert!(now.out.contains("can start"), "{}", now.out);
    let again = grounds(&["new", &path]);
    assert_eq!(again.code, Some(2));
    assert!(again.err.contains("already"), "{}", again.err);
}

#[test]
fn a_room_that_cannot_be_done_in_time_ends_with_one_and_says_so() {
    let late = house(|job| {
        format!(
            "{job}\n[milestones.ready]\nname = \"Room ready\"\ndue = \"2027-06-08\"\nfirm = true\n"
        )
    });
    let now = grounds(&[
        "now",
        &late.path().display().to_string(),
        "--at",
        "2027-06-07",
    ]);
    assert_eq!(now.code, Some(1), "{}{}", now.out, now.err);
    assert!(
        now.sentences().contains("Room ready must be done by"),
        "{}",
        now.out
    );
}

#[test]
fn a_reader_that_goes_away_is_no_fault() {
    let mut child = Command::new(env!("CARGO_BIN_EXE_grounds"))
        .args(["schema"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    let said = String::from_utf8_lossy(&output.stderr);
    assert_eq!((output.status.code(), said.as_ref()), (Some(0), ""));
}

#[test]
fn the_schema_is_the_one_in_the_checkout() {
    let kept = std::fs::read_to_string(root().join("schema/job.schema.json")).unwrap();
    let printed: serde_json::Value = serde_json::from_str(&grounds(&["schema"]).out).unwrap();
    let kept: serde_json::Value = serde_json::from_str(&kept).unwrap();
    assert!(
        printed == kept,
        "write it anew with: grounds schema > schema/job.schema.json"
    );
}
