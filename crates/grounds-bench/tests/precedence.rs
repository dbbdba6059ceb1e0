//! `.sm` files: small ones worked by hand, and faulty ones.

mod small;

use grounds_bench::psplib;
use grounds_bench::race::Status;
use proptest::prelude::*;
use small::raced;

/// Two of one resource. Job 2 takes 3 periods and both; jobs 3 and 4 take 2 periods and one each;
/// job 5 takes 1 period and both, after job 3.
///
/// Longest chain: job 2 alone, or 3 and 5: 3 periods. Best makespan: 6, as 3 with 4, then 5, then 2;
/// no plan is shorter, for 3×2 + 2×1 + 2×1 + 1×2 = 12 units of work on 2 a period take 6.
const FOUR_JOBS: &str = "\
************************************************************************
projects                      :  1
jobs (incl. supersource/sink ):  6
horizon                       :  8
RESOURCES
  - renewable                 :  1   R
  - nonrenewable              :  0   N
  - doubly constrained        :  0   D
************************************************************************
PROJECT INFORMATION:
pronr.  #jobs rel.date duedate tardcost  MPM-Time
    1      4      0        3        0        3
************************************************************************
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          3           2   3   4
   2        1          1           6
   3        1          1           5
   4        1          1           6
   5        1          1           6
   6        1          0
************************************************************************
REQUESTS/DURATIONS:
jobnr. mode duration  R 1
------------------------------------------------------------------------
  1      1     0       0
  2      1     3       2
  3      1     2       1
  4      1     2       1
  5      1     1       2
  6      1     0       0
************************************************************************
RESOURCEAVAILABILITIES:
  R 1
    2
************************************************************************
";

#[test]
fn four_jobs_that_share_two_hands_take_six_periods() {
    let outcome = raced(&psplib::read(FOUR_JOBS).unwrap()).unwrap();
    assert_eq!(outcome.critical_path, Some(3));
    assert_eq!(outcome.makespan, Some(6));
    assert!(outcome.bound <= 6);
}

#[test]
fn with_hands_enough_the_longest_chain_is_met_and_proved() {
    let text = FOUR_JOBS.replace("\n    2\n", "\n    9\n");
    let outcome = raced(&psplib::read(&text).unwrap()).unwrap();
    assert_eq!((outcome.makespan, outcome.bound), (Some(3), 3));
    assert_eq!(outcome.status, Status::Optimal);
}

#[test]
fn a_job_that_needs_more_than_there_is_has_no_plan() {
    let text = FOUR_JOBS.replace("\n    2\n", "\n    1\n");
    let outcome = raced(&psplib::read(&text).unwrap()).unwrap();
    assert_eq!(outcome.makespan, None);
    assert_eq!(outcome.status, Status::Infeasible);
}

#[test]
fn jobs_that_wait_for_each_other_have_no_plan() {
    let text = FOUR_JOBS.replace("   5        1          1           6", "   5  1  1  3");
    let outcome = raced(&psplib::read(&text).unwrap()).unwrap();
    assert_eq!(outcome.status, Status::Infeasible);
}

#[test]
fn a_fault_is_named_with_its_line() {
    let after_3 = "   3        1          1           5";
    let job_4 = "  4      1     2       1";
    let capacity = "\n    2\n";
    // What is replaced, by what, and the line and words of the error.
    let faults = [
        ("jobs (incl", "bosj (incl", 36, "begins with \"jobs\""),
        (":  6\n", ":  many\n", 3, "not \"many\""),
        (":  6\n", ":  7\n", 23, "not \"REQUESTS/DURATIONS:\""),
        (":  6\n", ":  5\n", 17, "job 2 cannot be followed by job 6"),
        (
            "onrenewable              :  0",
            "onrenewable :  2",
            7,
            "renew",
        ),
        (after_3, "  3  1  1  3", 18, "followed by job 3"),
        (after_3, "  3  1  1  -5", 18, "followed by job -5"),
        (
            after_3,
            "  3  1  2  5",
            18,
            "2 successors are announced, but 1 follow",
        ),
        (after_3, "  3  2  1  5", 18, "modes"),
        (job_4, "  4  1  -2  1", 29, "duration cannot be -2"),
        (job_4, "  4  1  2", 29, "1 amounts were expected"),
        (job_4, "  4  1  2  -1", 29, "resource cannot be -1"),
        (job_4, "  4  1  99999999999999999999  1", 29, "whole number"),
        (job_4, "  9  1  2  1", 29, "job 4 was expected"),
        (capacity, "\n  2  2\n", 35, "one for each resource, not 2"),
        (capacity, "\n  2\nmore\n", 36, "expected to end"),
    ];
    for (from, to, line, words) in faults {
        let text = FOUR_JOBS.replacen(from, to, 1);
        assert_ne!(text, FOUR_JOBS, "{from:?} is not in the text");
        let error = psplib::read(&text).map(|_| ()).unwrap_err();
        assert!(error.what.contains(words), "{from:?} -> {to:?}: {error}");
        assert_eq!(error.line, line, "{from:?} -> {to:?}: {error}");
    }
}

#[test]
fn foreign_text_is_shown_short_and_without_control_characters() {
    let text = FOUR_JOBS.replace(
        "  4      1     2 ",
        &format!("  4 1 \u{1b}[2J{} ", "x".repeat(900)),
    );
    let error = psplib::read(&text).map(|_| ()).unwrap_err().to_string();
    assert!(error.len() < 200 && !error.contains('\u{1b}'), "{error}");
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_spoiled_text_is_read_or_refused(at in 0..FOUR_JOBS.len(), gone in 0..80_usize, put in "[-0-9 a-z\n]{0,6}") {
        let until = (at + gone).min(FOUR_JOBS.len());
        let mut text = FOUR_JOBS.to_owned();
        text.replace_range(at..until, &put);
        match psplib::read(&text) {
            Ok(instance) => prop_assert_eq!(instance.problem.activities.len(), instance.end.index() + 1),
            Err(error) => prop_assert!(error.line >= 1 && error.line <= text.lines().count().max(1)),
        }
    }
}
