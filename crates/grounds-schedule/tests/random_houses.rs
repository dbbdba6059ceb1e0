//! Thousands of small random houses: every plan is checked, every breach is reported.

use grounds_schedule::{Effort, random, solve, verify};

#[test]
fn every_plan_of_ten_thousand_houses_obeys_or_says_where_it_does_not() {
    let effort = Effort {
        schedules: 6,
        ..Effort::default()
    };
    let mut clean = 0;
    for seed in 0..10_000 {
        let problem = random::small(seed);
        assert_eq!(problem.faults(), [], "house {seed}");
        let solved = solve(&problem, &effort).unwrap();
        assert_eq!(
            solved.breaches,
            verify(&problem, &solved.plan),
            "house {seed}"
        );
        clean += usize::from(solved.breaches.is_empty());
    }
    println!("{clean} of 10000 without a breach");
    assert!(
        clean > 5_000,
        "only {clean} of 10000 houses could be planned without a breach"
    );
}
