//! The run of a duct from a tumble dryer.

use crate::rules::{
    air::{
        duct_pressure::{BENDS, LENGTH},
        duct_speed::DIAMETER,
    },
    prelude::*,
};

const HALF_BENDS: Input<Number> = asked(
    "duct-half-bends",
    "how many half (45°) bends there are",
    Who::Drawings,
)
.between("0", "20")
.guessed("0", "0", "2", "None unless drawn");
const MOST: Input<Length> = limit("dryer-duct-most", "the longest run of a dryer's duct").or(
    "35 ft",
    "As the American code has it, unless the maker of the dryer says more",
    Practice,
);
const LEAST: Input<Length> = limit(
    "dryer-duct-diameter-least",
    "the least diameter of a dryer's duct",
)
.or("4 in", "As dryers are made", Practice);

pub(crate) static RULE: Rule = Rule {
    name: "dryer-duct",
    title: "Duct of a dryer",
    family: Family::Air,
    question: "Is the duct of the dryer short and wide enough to keep clear of lint?",
    inputs: &[
        LENGTH.spec,
        BENDS.spec,
        HALF_BENDS.spec,
        DIAMETER.spec,
        MOST.spec,
        LEAST.spec,
    ],
    formula: &["run + 5 ft per quarter bend + 2.5 ft per half bend ≤ 35 ft"],
    sources: &[published(
        "IRC 2021 M1502.4.6 and table M1502.4.6.1, for tight bends",
    )],
    caution: "Lint burns: smooth metal, no screws that catch lint, no screen at the end, never into a roof or a \
              wall. The maker's sheet goes before this; check with the authority having jurisdiction.",
    way_out: "A nearer outlet, fewer or wider bends, or a dryer that condenses.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let run = w.take(&LENGTH)?;
    let bends = w.take(&BENDS)?;
    let half = w.take(&HALF_BENDS)?;
    let (each, each_half): (Length, Length) = (fixed("5 ft"), fixed("2.5 ft"));
    let length = run + each * bends.0 + each_half * half.0;
    let length = w.step(
        "Run with bends",
        &[
            &run, &"+", &bends, &"×", &each, &"+", &half, &"×", &each_half,
        ],
        length,
    );
    let most = w.take(&MOST)?;
    w.at_most("the run with bends", length, most);
    if let Some(diameter) = w.known(&DIAMETER) {
        let least = w.take(&LEAST)?;
        w.at_least("the diameter", diameter, least);
    }
    Ok(())
}
