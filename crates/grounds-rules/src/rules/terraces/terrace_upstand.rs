//! How far the membrane stands over the finished terrace, at walls and at doors.

use crate::rules::prelude::*;

pub(crate) const UPSTAND: Input<Length> = asked(
    "upstand",
    "the top of the membrane over the finished pavers",
    Who::Drawings,
)
.between("-200 mm", "2 m");
pub(crate) const AT_DOOR: Input<bool> =
    yes_no("upstand-at-door", "whether it is at a door", Who::Drawings);
pub(crate) const DRAIN: Input<bool> = yes_no(
    "drain-at-door",
    "whether a drained channel lies in front of the door",
    Who::Drawings,
)
.wanted();
const WALL: Input<Length> = limit("terrace-upstand-least", "the least upstand at a wall").or(
    "150 mm",
    "BS 6229, 6 in",
    Published,
);
const DOOR: Input<Length> = limit(
    "terrace-upstand-door-least",
    "the least upstand at a door behind a drained channel",
)
.or("15 mm", "Level doors with a channel", Practice);

pub(crate) static RULE: Rule = Rule {
    name: "terrace-upstand",
    title: "Upstand over a terrace",
    family: Family::Terraces,
    question: "Does the membrane stand high enough over the finished terrace?",
    inputs: &[UPSTAND.spec, AT_DOOR.spec, DRAIN.spec, WALL.spec, DOOR.spec],
    formula: &["upstand ≥ 150 mm at walls; at a door less only behind a drained channel"],
    sources: &[
        published("BS 6229 (2018) and trade practice: 150 mm over the finished surface"),
        practice("America: 6 to 8 in; level doors with a drained channel by detail"),
    ],
    caution: cautions::TERRACE,
    way_out: "A lower paver build-up, a higher sill, or a drained channel along the door.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let upstand = w.take(&UPSTAND)?;
    let at_door = w.yes(&AT_DOOR)?;
    let channel = w.known_yes(&DRAIN).unwrap_or(false);
    let least = if at_door && channel {
        w.take(&DOOR)?
    } else {
        w.take(&WALL)?
    };
    w.at_least("the upstand", upstand, least);
    Ok(())
}
