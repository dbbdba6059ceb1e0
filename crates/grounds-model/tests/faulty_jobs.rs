//! Jobs that are wrong: each file of `tests/faulty` says at its top which faults a site lead must
//! be shown, and marks the lines they stand on.
//!
//! A file begins with lines `# expect: KEY | words of what is wrong | words of the mend`, in the order of the
//! document; each line at fault ends with `# <-`, one mark for each line. A file with fewer marks
//! than faults has several on its last marked line.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at the first surprise"
)]

use std::{fs, path::PathBuf};

use grounds_model::{examine, starter};

struct Expected {
    key: String,
    what: String,
    mend: String,
}

fn files() -> Vec<(String, String)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/faulty");
    let mut files: Vec<(String, String)> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_str().unwrap().to_owned();
            (name, fs::read_to_string(path).unwrap())
        })
        .collect();
    files.sort();
    files
}

fn expected(text: &str) -> Vec<Expected> {
    let lines = text
        .lines()
        .filter_map(|line| line.strip_prefix("# expect: "));
    lines
        .map(|line| {
            let mut parts = line.split('|').map(|part| part.trim().to_owned());
            let mut next = || parts.next().unwrap_or_default();
            Expected {
                key: next(),
                what: next(),
                mend: next(),
            }
        })
        .collect()
}

/// The lines marked, counted from 1.
fn marked(text: &str) -> Vec<usize> {
    let lines = text.lines().enumerate();
    lines
        .filter(|(_, line)| line.ends_with("# <-"))
        .map(|(at, _)| at + 1)
        .collect()
}

/// What is shown that should not be, or not shown that should be.
fn differences(name: &str, text: &str) -> Option<String> {
    let (job, faults) = examine(name, text);
    let expected = expected(text);
    let marked = marked(text);
    let fits = faults.list.len() == expected.len()
        && expected
            .iter()
            .zip(&faults.list)
            .enumerate()
            .all(|(at, (wanted, fault))| {
                let line = marked.get(at).or(marked.last());
                line.is_none_or(|line| *line == fault.line)
                    && fault.key.starts_with(&wanted.key)
                    && fault.key.is_empty() == wanted.key.is_empty()
                    && fault.what.contains(&wanted.what)
                    && fault.mend.contains(&wanted.mend)
                    && !fault.mend.is_empty()
            })
        && job.is_some() != faults.has_errors();
    (!fits).then(|| {
        format!(
            "{name}: expected {} faults on lines {marked:?}, got\n{faults}\n",
            expected.len()
        )
    })
}

#[test]
fn every_faulty_job_is_told_what_is_wrong_where_and_how_to_mend_it() {
    let files = files();
    assert!(files.len() >= 100, "only {} faulty jobs", files.len());
    let wrong: Vec<String> = files
        .iter()
        .filter_map(|(name, text)| differences(name, text))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_faulty_job_expects_something() {
    for (name, text) in files() {
        assert!(!expected(&text).is_empty(), "{name}");
    }
}

#[test]
fn a_file_that_is_no_job_at_all_gets_a_plain_answer() {
    for text in [
        "",
        "\u{feff}",
        "hello",
        "\0",
        "[[[[[[",
        "{}",
        "a = 1",
        "=",
        "\r\r",
        "format = 1",
    ] {
        let (job, faults) = examine("job.toml", text);
        assert!(job.is_none() && faults.has_errors(), "{text:?}");
    }
}

#[test]
fn a_file_of_hostile_depth_or_size_gets_a_plain_answer() {
    let deep = format!("a = {}{}", "[".repeat(100_000), "]".repeat(100_000));
    let dotted = format!("{} = 1", vec!["a"; 100_000].join("."));
    let large = format!("# {}\n", "x".repeat(9 * 1024 * 1024));
    let many: String = (0..20_000).map(|at| format!("key-{at} = 1\n")).collect();
    for text in [deep, dotted, large, many] {
        let (job, faults) = examine("job.toml", &text);
        assert!(job.is_none() && faults.has_errors());
        assert!(faults.list.len() <= 1000);
    }
}

#[test]
fn a_file_full_of_dangling_keys_is_answered_and_not_brooded_over() {
    let pieces: String = (0..20_000)
        .map(|at| {
            format!("[pieces.p{at}]\nname = \"P\"\ntrade = \"q{at}\"\nplace = \"r{at}\"\ntakes = \"1 h\"\n")
        })
        .collect();
    let (job, faults) = examine("job.toml", &format!("{}\n{pieces}", starter().job));
    assert!(job.is_none());
    assert_eq!(faults.list.len(), 1000);
}

#[test]
fn a_hall_of_ten_thousand_walls_is_refused_before_it_is_planned() {
    let faces: String = (0..10_000)
        .map(|at| {
            format!("[places.hall.faces.w{at}]\nkind = \"wall\"\nbuild_up = \"board-level-4\"\n")
        })
        .collect();
    let (job, faults) = examine("job.toml", &format!("{}\n{faces}", starter().job));
    assert!(job.is_none());
    assert!(
        faults
            .list
            .iter()
            .any(|fault| fault.what.contains("at most 2000")),
        "{faults}"
    );
}
