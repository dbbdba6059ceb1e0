//! Job shops and `.rcp` files: small ones worked by hand, and faulty ones.

#![allow(clippy::unwrap_used, reason = "a test may fail loudly")]

mod small;

use grounds_bench::race::Status;
use grounds_bench::{job_shop, patterson};
use proptest::prelude::*;
use small::raced;

/// Job A: machine 0 for 3, then machine 1 for 2. Job B: machine 1 for 2, then machine 0 for 4. Machine 0
/// has 7 to do and cannot be done sooner; A first on machine 0 while B is on machine 1, then the other
/// way round, takes 7.
const TWO_JOBS: &str = "# two jobs on two machines\n2 2\n0 3 1 2\n1 2 0 4\n";

/// Three jobs between a source and a sink, one crew of two: job 2 takes 3 with both, jobs 3 and 4 take
/// 2 with one each and can go together, so 5.
const THREE_JOBS: &str = "5 1\n2\n\n0 0 3 2 3 4\n3 2 1 5\n2 1 1\n5\n2 1 1 5\n0 0 0\n";

#[test]
fn two_jobs_cross_over_in_seven() {
    let outcome = raced(&job_shop::read(TWO_JOBS).unwrap()).unwrap();
    assert_eq!(outcome.critical_path, Some(6));
    assert_eq!((outcome.makespan, outcome.bound), (Some(7), 7));
    assert_eq!(outcome.status, Status::Optimal);
}

#[test]
fn three_jobs_in_a_row_of_numbers_take_five() {
    let outcome = raced(&patterson::read(THREE_JOBS).unwrap()).unwrap();
    assert_eq!(outcome.critical_path, Some(3));
    assert_eq!((outcome.makespan, outcome.bound), (Some(5), 5));
}

#[test]
fn a_faulty_job_shop_is_told_by_its_line() {
    for (text, line, what) in [
        ("2 2\n0 3 1 2\n", 2, "the text ends before"),
        ("2 2\n0 3 1\n0 1\n", 2, "pairs of a machine and a time"),
        ("1 2\n2 3\n", 2, "no machine 2"),
        ("1 1\n0 -3\n", 2, "a duration cannot be -3"),
        ("1 1\n0 3\n0 3\n", 3, "expected to end after 1 jobs"),
        ("two jobs\n", 1, "a whole number"),
    ] {
        let error = job_shop::read(text).unwrap_err();
        assert_eq!(error.line, line, "{error}");
        assert!(error.what.contains(what), "{error}");
    }
}

#[test]
fn a_faulty_row_of_numbers_is_told_by_its_line() {
    for (text, line, what) in [
        (
            "5 1\n2\n0 0 3 2 3\n",
            3,
            "the text ends before the successors",
        ),
        ("1 1\n2\n0 0 1 1\n", 3, "another of 1 to 1"),
        ("1 1\n2\n0 0 0 9\n", 3, "expected to end after 1 jobs"),
        ("1 1\n-2\n", 2, "an amount of a resource cannot be -2"),
        ("-1 1\n", 1, "the number of jobs cannot be -1"),
    ] {
        let error = patterson::read(text).unwrap_err();
        assert_eq!(error.line, line, "{error}");
        assert!(error.what.contains(what), "{error}");
    }
}

proptest! {
    #[test]
    fn any_text_is_read_or_refused(text in "[0-9 #\n-]{0,200}") {
        let _ = job_shop::read(&text);
        let _ = patterson::read(&text);
    }
}
