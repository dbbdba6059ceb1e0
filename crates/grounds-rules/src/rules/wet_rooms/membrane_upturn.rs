//! How far the membrane is carried up.

use crate::rules::prelude::*;

pub(crate) const WHERE: Input<Word> = word(
    "upturn-stands",
    "where the membrane turns up",
    &["shower-wall", "wall", "threshold"],
    Who::Drawings,
);
pub(crate) const UPTURN: Input<Length> = asked(
    "upturn",
    "how far the membrane is carried up over the finished floor",
    Who::Drawings,
)
.between("0 mm", "4 m");
const SHOWER: Input<Length> = limit(
    "upturn-shower-least",
    "the least height on the walls of a shower",
)
.or("1800 mm", "72 in, or 75 mm over the head", Practice);
const WALL: Input<Length> = limit("upturn-wall-least", "the least height on other walls").or(
    "150 mm",
    "6 in outside the shower",
    Practice,
);
const THRESHOLD: Input<Length> = limit("upturn-threshold-least", "the least height at a threshold")
    .or("20 mm", "At thresholds", Practice);

pub(crate) static RULE: Rule = Rule {
    name: "membrane-upturn",
    title: "Upturn of a membrane",
    family: Family::WetRooms,
    question: "Is the membrane carried high enough up?",
    inputs: &[
        WHERE.spec,
        UPTURN.spec,
        SHOWER.spec,
        WALL.spec,
        THRESHOLD.spec,
    ],
    formula: &["upturn ≥ 72 in in the shower, 6 in outside it, by the place"],
    sources: &[
        practice("TCNA handbook and BS 5385-4 as commonly read: 72 in, 6 in, 2 in at curbs"),
        memory("IRC 2021 P2709.2: liner 3 in over the finished threshold"),
    ],
    caution: cautions::WET,
    way_out: "Another strip of membrane, lapped as its maker says, before the tile.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let least = match w.word(&WHERE)? {
        "shower-wall" => w.take(&SHOWER)?,
        "threshold" => w.take(&THRESHOLD)?,
        _ => w.take(&WALL)?,
    };
    let upturn = w.take(&UPTURN)?;
    w.at_least("the upturn", upturn, least);
    Ok(())
}
