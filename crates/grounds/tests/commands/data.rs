//! Jobs in and out of the data directory.

use std::fs;

use crate::running::{example, grounds};

/// Runs a command with a data directory.
fn with(data: &tempfile::TempDir, arguments: &[&str]) -> crate::running::Ended {
    let data = data.path().join("data").display().to_string();
    let mut all = arguments.to_vec();
    all.extend(["--data", &data]);
    grounds(&all)
}

#[test]
fn a_house_that_went_in_comes_out_the_same() {
    let place = tempfile::tempdir().unwrap();
    let taken = with(&place, &["import", &example("one-bathroom")]);
    assert_eq!(taken.code, Some(0), "{}", taken.err);
    let log =
        fs::read_to_string(std::path::Path::new(&example("one-bathroom")).join("notes.jsonl"));
    let notes = log.unwrap().lines().count();
    let said = format!("as one-bathroom: {notes} new notes");
    assert!(taken.sentences().contains(&said), "{}", taken.out);

    let out = place.path().join("out");
    let given = with(
        &place,
        &["export", "one-bathroom", &out.display().to_string()],
    );
    assert_eq!(given.code, Some(0), "{}", given.err);
    let original = example("one-bathroom");
    let document = |folder: &std::path::Path| fs::read_to_string(folder.join("job.toml")).unwrap();
    assert_eq!(document(&out), document(original.as_ref()));

    let at = ["--at", "2027-06-10T07:10"];
    let kept = with(&place, &["weeks", "one-bathroom", "--json", at[0], at[1]]);
    let plain = grounds(&["weeks", &original, "--json", at[0], at[1]]);
    assert_eq!(kept.code, Some(0), "{}", kept.err);
    assert_eq!(kept.out, plain.out);
}

#[test]
fn what_is_there_is_written_over_only_when_that_is_asked_for() {
    let place = tempfile::tempdir().unwrap();
    let house = crate::running::house(|job| job);
    let folder = house.path().display().to_string();
    assert_eq!(
        with(&place, &["import", &folder, "--key", "room"]).code,
        Some(0)
    );
    let changed = crate::running::ONE_ROOM.replace("One room", "Two rooms");
    fs::write(house.path().join("job.toml"), changed).unwrap();

    let refused = with(&place, &["import", &folder, "--key", "room"]);
    assert_eq!(refused.code, Some(2), "{}", refused.err);
    let replaced = with(&place, &["import", &folder, "--key", "room", "--replace"]);
    assert_eq!(replaced.code, Some(0), "{}", replaced.err);
    assert!(
        with(&place, &["now", "room", "--at", "2027-06-07"])
            .out
            .starts_with("Two rooms")
    );
}

#[test]
fn a_faulty_house_stays_outside() {
    let place = tempfile::tempdir().unwrap();
    let house = crate::running::house(|job| job.replace("format = 1", "format = 2"));
    let refused = with(
        &place,
        &[
            "import",
            &house.path().display().to_string(),
            "--key",
            "room",
        ],
    );
    assert_eq!(refused.code, Some(2));
    assert!(!place.path().join("data").exists());
}

#[test]
fn a_key_leads_nowhere_else() {
    let place = tempfile::tempdir().unwrap();
    assert_eq!(
        with(&place, &["import", &example("one-bathroom")]).code,
        Some(0)
    );
    for key in [
        "no-such-job",
        "../one-bathroom",
        "one-bathroom/..",
        "One",
        "",
    ] {
        let refused = with(&place, &["now", key]);
        assert_eq!(refused.code, Some(2), "{key}: {}", refused.err);
        assert!(refused.err.len() > 20, "{key}: {}", refused.err);
    }
}
