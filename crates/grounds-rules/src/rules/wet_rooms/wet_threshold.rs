//! What keeps the water of a shower or wet room in.

use crate::rules::{
    prelude::*,
    wet_rooms::shower_fall::{FALL, RUN},
};

pub(crate) const CURB: Input<Length> = asked(
    "threshold-height",
    "the top of the threshold over the drain",
    Who::Drawings,
)
.between("0 mm", "400 mm");
pub(crate) const LEVEL: Input<bool> = yes_no(
    "level-threshold",
    "whether the room is entered without a curb",
    Who::Designer,
);
const LEAST: Input<Length> = limit(
    "threshold-least",
    "the least height of a curb over the drain",
)
.or("2 in", "As the American code has it", Published);
const MOST: Input<Length> = limit(
    "threshold-most",
    "the greatest height of a curb over the drain",
)
.or("9 in", "As the American code has it", Published);
const LEVEL_LEAST: Input<Length> = limit(
    "level-threshold-least",
    "what a level threshold must stand over the drain",
)
.or(
    "15 mm",
    "So that a blocked drain is seen before the hall is wet",
    Practice,
);

pub(crate) static RULE: Rule = Rule {
    name: "wet-threshold",
    title: "Threshold of a wet room",
    family: Family::WetRooms,
    question: "Does the threshold keep the water in?",
    inputs: &[
        LEVEL.spec,
        CURB.spec,
        LEAST.spec,
        MOST.spec,
        RUN.spec,
        FALL.spec,
        LEVEL_LEAST.spec,
    ],
    formula: &[
        "curb: 2 to 9 in over the drain",
        "level: the fall to the drain ≥ 15 mm, membrane past the door",
    ],
    sources: &[
        published("IRC 2021 P2709.1: 2 to 9 in over the drain"),
        practice("Level entries: the membrane 300 mm past the opening, and a fall to the drain"),
    ],
    caution: cautions::WET,
    way_out: "More fall, a drain along the threshold, or a low curb.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    if w.yes(&LEVEL)? {
        w.take(&RUN)?;
        let fall = w.take(&FALL)?;
        let least = w.take(&LEVEL_LEAST)?;
        w.at_least("the fall from the threshold to the drain", fall, least);
        w.say("Carry the membrane 300 mm (12 in) past the opening.");
        return Ok(());
    }
    let curb = w.take(&CURB)?;
    let (least, most) = (w.take(&LEAST)?, w.take(&MOST)?);
    w.at_least("the threshold over the drain", curb, least);
    w.at_most("the threshold over the drain", curb, most);
    Ok(())
}
