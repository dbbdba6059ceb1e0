//! `.sch` files: small ones worked by hand, and faulty ones.

mod small;

use grounds_bench::progen_max;
use grounds_bench::race::Status;
use grounds_schedule::{ActivityId, Breach, LagId, construct, verify};
use proptest::prelude::*;
use small::raced;

/// One of one resource, needed by every job. Job 2 starts exactly 3 periods after job 1 does (at least
/// 3 by the arc 1→2, at most 3 by the arc 2→1); each takes 2 periods. Job 3 takes 1.
///
/// Longest chain: 3 + 2 = 5. Best makespan: 5, with job 3 in the period between 1 and 2. The sink
/// waits for the starts alone, so that it is not last.
const GAP_OF_ONE: &str = "\
3\t1\t0\t0
0\t1\t2\t1\t3\t[0]\t[0]
1\t1\t1\t2\t[3]
2\t1\t2\t1\t4\t[-3]\t[0]
3\t1\t1\t4\t[0]
4\t1\t0
0\t1\t0\t0
1\t1\t2\t1
2\t1\t2\t1
3\t1\t1\t1
4\t1\t0\t0
1
";

#[test]
fn a_job_that_fits_the_gap_costs_no_time() {
    let outcome = raced(&progen_max::read(GAP_OF_ONE).unwrap()).unwrap();
    assert_eq!(outcome.critical_path, Some(5));
    assert_eq!(outcome.makespan, Some(5));
    assert_eq!(outcome.status, Status::Optimal);
}

#[test]
fn a_job_longer_than_the_gap_goes_before_or_after_both() {
    // 2 periods do not fit into 1, and the longest wait keeps the gap from growing: 5 + 2 = 7.
    let text = GAP_OF_ONE.replace("3\t1\t1\t1\n", "3\t1\t2\t1\n");
    let outcome = raced(&progen_max::read(&text).unwrap()).unwrap();
    assert_eq!(outcome.critical_path, Some(5));
    assert_eq!(outcome.makespan, Some(7));
    assert_eq!(outcome.status, Status::Optimal);
}

#[test]
fn a_negative_weight_is_a_longest_wait_the_other_way() {
    let instance = progen_max::read(GAP_OF_ONE).unwrap();
    let order = [0, 1, 3, 2, 4].map(ActivityId);
    let mut plan = construct(&instance.problem, &order).unwrap();
    assert_eq!(plan.starts[1..4], [0, 3, 2]);
    assert_eq!(verify(&instance.problem, &plan), []);
    // One period later is one too many. The arc 2→1 is the fourth of the file.
    plan.starts[2] += 1;
    plan.finishes[2] += 1;
    let end = instance.end.index();
    plan.starts[end] += 1;
    plan.finishes[end] += 1;
    assert!(verify(&instance.problem, &plan).contains(&Breach::TooLate(LagId(3))));
}

#[test]
fn waits_that_cannot_hold_together_are_proved_to_have_no_plan() {
    // At least 3 and at most 2 apart.
    let text = GAP_OF_ONE.replace("[-3]", "[-2]");
    let outcome = raced(&progen_max::read(&text).unwrap()).unwrap();
    assert_eq!(outcome.status, Status::Infeasible);
    assert_eq!((outcome.critical_path, outcome.makespan), (None, None));
}

#[test]
fn a_plan_that_breaks_a_wait_is_not_counted() {
    // Exactly 1 apart, though each needs the one resource for 2 periods: no plan, which the search
    // cannot prove from the waits alone.
    let text = GAP_OF_ONE.replace("[3]", "[1]").replace("[-3]", "[-1]");
    let outcome = raced(&progen_max::read(&text).unwrap()).unwrap();
    assert_eq!(outcome.makespan, None);
    assert_ne!(outcome.status, Status::Feasible);
}

#[test]
fn a_fault_is_named_with_its_line() {
    let faults = [
        ("3\t1\t0\t0\n", "3\t1\t2\t0\n", 1, "renew"),
        ("3\t1\t0\t0\n", "x\n", 1, "whole number"),
        ("3\t1\t0\t0\n", "3\n", 1, "number of jobs"),
        ("3\t1\t0\t0\n", "-3\t1\n", 1, "number of jobs"),
        (
            "[3]",
            "[3]\t[4]",
            3,
            "1 weights are announced, but 2 follow",
        ),
        ("[3]", "3", 3, "successors"),
        ("[3]", "[3", 3, "in brackets"),
        ("[3]", "[3 4]", 3, "in brackets"),
        ("[3]", "[9999999]", 3, "whole number"),
        ("[-3]\t", "", 4, "2 weights are announced, but 1 follow"),
        ("3\t1\t1\t4\t[0]", "3\t1\t1\t3\t[0]", 5, "tied to job 3"),
        ("3\t1\t1\t4\t[0]", "3\t1\t1\t5\t[0]", 5, "tied to job 5"),
        ("3\t1\t1\t1\n", "3\t2\t1\t1\n", 10, "mode 1 was expected"),
        ("3\t1\t1\t1\n", "3\t1\t1\n", 10, "1 amounts were expected"),
        ("\n1\n", "\n", 11, "ends before the capacities"),
        ("\n1\n", "\n1\n1\n", 13, "expected to end"),
    ];
    for (from, to, line, words) in faults {
        let text = GAP_OF_ONE.replacen(from, to, 1);
        assert_ne!(text, GAP_OF_ONE, "{from:?} is not in the text");
        let error = progen_max::read(&text).map(|_| ()).unwrap_err();
        assert!(error.what.contains(words), "{from:?} -> {to:?}: {error}");
        assert_eq!(error.line, line, "{from:?} -> {to:?}: {error}");
    }
}

#[test]
fn times_that_together_are_past_counting_are_refused() {
    let weights = "\t[1000000]".repeat(80);
    let next = "\t1".repeat(80);
    let text = format!("1\t0\n0\t1\t80{next}{weights}\n1\t1\t0\n2\t1\t0\n");
    let error = progen_max::read(&text).map(|_| ()).unwrap_err();
    assert_eq!(error.line, 2);
    assert!(error.what.contains("together"), "{error}");
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_spoiled_text_is_read_or_refused(at in 0..GAP_OF_ONE.len(), gone in 0..12_usize, put in "[-0-9 \\[\\]\t\n]{0,6}") {
        let until = (at + gone).min(GAP_OF_ONE.len());
        let mut text = GAP_OF_ONE.to_owned();
        text.replace_range(at..until, &put);
        match progen_max::read(&text) {
            Ok(instance) => prop_assert_eq!(instance.problem.activities.len(), instance.end.index() + 1),
            Err(error) => prop_assert!(error.line >= 1 && error.line <= text.lines().count().max(1)),
        }
    }
}
