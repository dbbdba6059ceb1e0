//! The fall of a shower floor to its drain.

use crate::rules::prelude::*;

pub(crate) const RUN: Input<Length> = asked(
    "fall-run",
    "the longest way from the edge to the drain",
    Who::Drawings,
)
.between("100 mm", "20 m");
pub(crate) const FALL: Input<Length> = asked(
    "fall",
    "how far the floor falls over that way",
    Who::Drawings,
)
.between("0 mm", "1 m");
const LEAST: Input<Ratio> =
    limit("shower-fall-least", "the least fall").or("1:80", "Wet rooms without tray", Practice);
const MOST: Input<Ratio> =
    limit("shower-fall-most", "the greatest fall").or("1:25", "1/2 in per ft", Published);

pub(crate) static RULE: Rule = Rule {
    name: "shower-fall",
    title: "Fall of a shower floor",
    family: Family::WetRooms,
    question: "Does the floor fall enough to drain, and not so much that people slip?",
    inputs: &[RUN.spec, FALL.spec, LEAST.spec, MOST.spec],
    formula: &["slope = fall / run"],
    sources: &[
        published("IRC 2021 P2709.1: 1/4 to 1/2 in per ft; the membrane itself falls as much"),
        practice("Europe: 1:80 to 1:60 for wet rooms, 1:50 in the shower"),
    ],
    caution: cautions::WET,
    way_out: "A deeper recess, a drain nearer the middle, or one drain along the wall.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (run, fall) = (w.take(&RUN)?, w.take(&FALL)?);
    let slope = w.step("Slope", &[&fall, &"/", &run], fall / run);
    let (least, most) = (w.take(&LEAST)?, w.take(&MOST)?);
    let wanted = w.step(
        "Least fall over that way",
        &[&run, &"×", &least],
        run * least,
    );
    if !w.at_least("the slope", slope, least) {
        let short = w.text(&(wanted - fall));
        w.say(format!("It falls {short} too little."));
    }
    w.at_most("the slope", slope, most);
    Ok(())
}
