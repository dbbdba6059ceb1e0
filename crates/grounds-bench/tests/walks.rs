//! The scorer of walks, and the score that the reader of walks must reach.

#![allow(clippy::expect_used, reason = "a test stops at the first surprise")]

use grounds_bench::walks::{Score, read, score};
use grounds_walk::transcript;

/// A walk through the mill with its right extraction; one row of it was never said.
const MILL: &str = r#"# Walks

## Walk M1. Mill

**Known before.** Tuesday 8 June 2027. Metric. Places: Mill hall ("the tower"), Kitchen. People: Ana (tiler).

```
[0:02] Tuesday the eighth, the mill.
[0:05] Kitchen. Oven came, plinths aren't on.
[0:09] Sill height is nine hundred and two.
[0:14] Is that your dog?
[0:20] The tower. Rail's Friday.
```

| # | t | place | thing | kind | what is stated | cert. |
|---|---|---|---|---|---|---|
| 1 | 0:05 | Kitchen | oven | delivered | | f |
| 2 | 0:05 | Kitchen | plinths | not done | | f |
| 3 | 0:09 | Kitchen | sill height | measured | 902 mm (900 wanted) | f |
| 4 | 0:20 | Mill hall | rail | next | Fri 11 Jun 2027 | f |
| 5 | 0:20 | Mill hall | newel | done | | f |

**No update from:** 0:02, 0:14 (a dog).
**Must not:** a dog.
"#;

/// The score of a file of walks, all together.
fn scored(file: &str) -> Score {
    read(file)
        .expect("the file has walks")
        .iter()
        .map(|script| {
            let talk = transcript::read(&script.talk).expect("it has talk");
            let walk = grounds_walk::read(&talk, &script.vocabulary);
            score(script, &talk.cues, &walk).score
        })
        .fold(Score::default(), Score::plus)
}

#[test]
fn a_row_that_was_never_said_is_the_only_one_missed() {
    let score = scored(MILL);
    assert_eq!((score.rows, score.hits, score.false_alarms), (5, 4, 0));
    assert_eq!((score.values, score.values_right), (1, 1));
    assert_eq!((score.dates, score.dates_right), (1, 1));
    assert_eq!((score.row_cues, score.row_cues_shown), (3, 3));
    assert_eq!((score.idle_cues, score.idle_cues_quiet), (2, 2));
    // Precision 4/4, recall 4/5: F1 = 2 * 1 * 0.8 / 1.8.
    assert!((score.f1() - 1.6 / 1.8).abs() < 1e-9);
}

#[test]
fn a_file_without_a_walk_a_day_or_a_place_says_which() {
    for (file, what) in [
        ("nothing", "## Walk"),
        ("x\n## Walk A. B\n\nno more", "**Known before.**"),
        ("x\n## Walk A. B\n\n**Known before.** Metric.\n\n", "no day"),
    ] {
        let error = read(file).expect_err("it is no walk");
        assert!(error.contains(what), "{error}");
    }
}

/// Walks with their right extraction that are kept beside the checkout, if they are there.
#[test]
fn the_walks_beside_the_checkout_are_read_well() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../shared/WALKS.md");
    let Ok(file) = std::fs::read_to_string(path) else {
        println!("skipped: there are no walks beside the checkout");
        return;
    };
    let score = scored(&file);
    let reached = |part: usize, whole: usize, percent: usize| part * 100 >= whole * percent;
    assert!(score.f1() >= 0.85, "F1 {:.3}", score.f1());
    assert!(reached(score.values_right, score.values, 95));
    assert!(reached(score.firm_right, score.firm, 94));
    assert!(reached(score.row_cues_shown, score.row_cues, 98));
    assert!(reached(score.idle_cues_quiet, score.idle_cues, 90));
}
