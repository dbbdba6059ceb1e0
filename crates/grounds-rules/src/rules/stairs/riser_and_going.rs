//! Riser and going: each by itself, and how they go together underfoot.

use crate::rules::prelude::*;

pub(crate) const RISER: Input<Length> =
    asked("riser", "the riser", Who::Drawings).between("50 mm", "400 mm");
pub(crate) const GOING: Input<Length> =
    asked("going", "the going, nosing to nosing", Who::Drawings).between("100 mm", "800 mm");
const RISER_MOST: Input<Length> =
    limit("riser-most", "the greatest riser").or("220 mm", "Private stairs", Practice);
const RISER_LEAST: Input<Length> = limit("riser-least", "the least riser");
const GOING_LEAST: Input<Length> =
    limit("going-least", "the least going").or("220 mm", "Private stairs", Practice);
const STEP_LEAST: Input<Length> = limit("step-least", "the least of two risers and a going");
const STEP_MOST: Input<Length> = limit("step-most", "the most of two risers and a going");
const PITCH_MOST: Input<Number> = limit("pitch-most", "the steepest pitch, in degrees");

pub(crate) static RULE: Rule = Rule {
    name: "riser-and-going",
    title: "Riser and going",
    family: Family::Stairs,
    question: "Are the riser and the going of the stair within what the code allows?",
    inputs: &[
        RISER.spec,
        GOING.spec,
        RISER_MOST.spec,
        RISER_LEAST.spec,
        GOING_LEAST.spec,
        STEP_LEAST.spec,
        STEP_MOST.spec,
        PITCH_MOST.spec,
    ],
    formula: &[
        "least ≤ R ≤ most",
        "G ≥ least",
        "2 R + G within its range",
        "pitch = atan(R / G)",
    ],
    sources: &[
        published("IRC 2021 R311.7.5: riser at most 7-3/4 in, tread at least 10 in"),
        published("IBC 2021 1011.5.2: riser 4 to 7 in, tread at least 11 in"),
        published(
            "Approved Document K (England, 2013) 1.2 to 1.4, private stair: 150 to 220 mm, 220 to 300 mm, 42°",
        ),
    ],
    caution: cautions::STAIRS,
    way_out: "One riser more, which makes each lower; or a longer run.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let riser = w.take(&RISER)?;
    let most = w.take(&RISER_MOST)?;
    w.at_most("the riser", riser, most);
    if let Some(least) = w.known(&RISER_LEAST) {
        w.at_least("the riser", riser, least);
    }
    let going = w.take(&GOING)?;
    let least = w.take(&GOING_LEAST)?;
    w.at_least("the going", going, least);
    let step = w.step(
        "Two risers and a going",
        &[&"2 ×", &riser, &"+", &going],
        riser * 2.0 + going,
    );
    if let Some(least) = w.known(&STEP_LEAST) {
        w.at_least("two risers and a going together", step, least);
    }
    if let Some(most) = w.known(&STEP_MOST) {
        w.at_most("two risers and a going together", step, most);
    }
    let pitch = Number((riser / going).base().atan().to_degrees());
    let pitch = w.step(
        "Pitch in degrees",
        &[&"atan(", &riser, &"/", &going, &")"],
        pitch,
    );
    if let Some(most) = w.known(&PITCH_MOST) {
        w.at_most("the pitch in degrees", pitch, most);
    }
    Ok(())
}
