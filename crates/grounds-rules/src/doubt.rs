//! How an answer hangs on what is guessed.

use grounds_measure::Units;
use serde::Serialize;

use crate::{
    answer::{Verdict, capital},
    code::Code,
    given::Given,
    input::{InputKind, Spec},
    rule::Rule,
    working::Working,
};

/// Halvings that find the turning point to less than a thousandth of the range of a guess.
const HALVINGS: usize = 12;

/// How an answer hangs on one guess.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Doubt {
    /// The key of the input that is guessed.
    pub key: &'static str,
    /// The answer at the least it may be.
    pub low: Verdict,
    /// The answer at the most it may be.
    pub high: Verdict,
    /// Where the answer turns, with its unit; nothing if it is the same all over.
    pub turns_at: Option<String>,
    /// The same in a sentence.
    pub said: String,
}

pub(crate) fn doubts(
    rule: &Rule,
    given: &Given,
    code: &Code,
    units: Units,
    working: &Working<'_>,
) -> Vec<Doubt> {
    let at = |spec: &'static Spec, base: f64| {
        Working::run(rule, &given.with(spec.name, base), code, units).verdict()
    };
    let guesses = working.guesses().iter();
    guesses
        .filter_map(|(spec, low, high)| {
            let InputKind::Quantity(kind) = spec.kind else {
                return None;
            };
            let show = |base| kind.show(base, units);
            let (at_low, at_high) = (at(spec, *low), at(spec, *high));
            let range = format!("from {} to {}", show(*low), show(*high));
            let what = capital(spec.what);
            if at_low == at_high {
                let said = format!("{what} is a guess; the answer is the same {range}.");
                return Some(Doubt {
                    key: spec.name,
                    low: at_low,
                    high: at_high,
                    turns_at: None,
                    said,
                });
            }
            let turn = turning(*low, *high, |base| at(spec, base) == at_low);
            let said = format!(
                "{what} is a guess, {range}: it {} up to about {} and {} beyond.",
                verb(at_low),
                show(turn),
                verb(at_high)
            );
            Some(Doubt {
                key: spec.name,
                low: at_low,
                high: at_high,
                turns_at: Some(show(turn)),
                said,
            })
        })
        .collect()
}

/// Where a property that holds at `low` and not at `high` ends.
fn turning(mut low: f64, mut high: f64, holds: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if holds(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}

fn verb(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Fails => "fails",
        Verdict::CannotTell => "cannot be told",
        Verdict::Passes => "passes",
    }
}
