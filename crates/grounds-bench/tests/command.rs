//! The lines and the summary that the program prints.

#![allow(clippy::unwrap_used, reason = "a test may fail loudly")]

use std::fs;
use std::process::{Command, Output};

/// One job of 4 periods that nothing holds.
const ONE_JOB: &str = "1 1\n0 1 1 1 [0]\n1 1 1 2 [4]\n2 1 0\n0 1 0 0\n1 1 4 1\n2 1 0 0\n1\n";

fn bench(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_grounds-bench"))
        .args(arguments)
        .output()
        .unwrap()
}

#[test]
fn one_line_an_instance_then_the_summary() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("a_1.sch"), ONE_JOB).unwrap();
    fs::write(folder.path().join("a_2.sch"), "no numbers").unwrap();
    fs::write(
        folder.path().join("best_known.csv"),
        "instance,best_makespan\na_1.sch,4\n",
    )
    .unwrap();
    let path = folder.path().to_str().unwrap();
    let csv = folder.path().join("out.csv");
    let csv = csv.to_str().unwrap();

    let output = bench(&[
        "rcpsp-max",
        path,
        "--seconds",
        "0.1",
        "--csv",
        csv,
        "--only",
        "_1",
    ]);
    assert_eq!(output.status.code(), Some(0));
    let printed = String::from_utf8(output.stdout).unwrap();
    assert!(
        printed.starts_with("name,cpm,makespan,bound,status,seconds\na_1.sch,4,4,4,OPTIMAL,0."),
        "{printed}"
    );
    assert!(
        printed.contains("mean gap to best known: 0.00 % over 1"),
        "{printed}"
    );
    let written = fs::read_to_string(csv).unwrap();
    assert!(printed.starts_with(&written) && written.lines().count() == 2);

    let output = bench(&["rcpsp-max", path, "--seconds", "0.1"]);
    assert_eq!(output.status.code(), Some(1));
    let complaint = String::from_utf8(output.stderr).unwrap();
    assert!(complaint.contains("a_2.sch: line 1: "), "{complaint}");
}

#[test]
fn a_folder_without_instances_is_an_error() {
    let folder = tempfile::tempdir().unwrap();
    let output = bench(&["rcpsp", folder.path().to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(3));
    assert!(
        String::from_utf8(output.stderr)
            .unwrap()
            .contains("no .sm or .rcp file")
    );
}
