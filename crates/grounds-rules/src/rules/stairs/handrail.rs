//! A handrail: whether one is asked for, its height, its clearance from the wall.

use crate::rules::{prelude::*, stairs::flight::RISERS};

pub(crate) const HEIGHT: Input<Length> = asked(
    "rail-height",
    "the top of the rail over the line of the nosings",
    Who::Drawings,
)
.between("400 mm", "1.5 m");
pub(crate) const CLEARANCE: Input<Length> = asked(
    "rail-clearance",
    "the clearance between the rail and the finished wall",
    Who::Drawings,
)
.between("0 mm", "300 mm");
const LEAST: Input<Length> = limit("rail-height-least", "the least height of a handrail").or(
    "900 mm",
    "As most codes have it",
    Practice,
);
const MOST: Input<Length> = limit("rail-height-most", "the greatest height of a handrail").or(
    "1000 mm",
    "As most codes have it",
    Practice,
);
const CLEAR: Input<Length> = limit("rail-clearance-least", "the least clearance from the wall").or(
    "38 mm",
    "1-1/2 in, room for knuckles",
    Practice,
);
const FROM: Input<Number> = limit(
    "rail-from-risers",
    "the number of risers from which a rail is asked",
);

pub(crate) static RULE: Rule = Rule {
    name: "handrail",
    title: "Handrail",
    family: Family::Stairs,
    question: "Is the handrail at the right height, and is there room for a hand behind it?",
    inputs: &[
        RISERS.spec,
        FROM.spec,
        HEIGHT.spec,
        LEAST.spec,
        MOST.spec,
        CLEARANCE.spec,
        CLEAR.spec,
    ],
    formula: &[
        "least ≤ height ≤ most",
        "clearance ≥ least, from the finished wall",
    ],
    sources: &[
        published("IRC 2021 R311.7.8: 34 to 38 in, from 4 risers on"),
        published("IRC 2021 R311.7.8.3: 1-1/2 in clear of the wall"),
        published("Approved Document K (England, 2013) 1.36: 900 to 1000 mm"),
    ],
    caution: cautions::GUARDS,
    way_out: "Move the brackets before the wall is finished; count the plaster in.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let risers = w.take(&RISERS)?;
    if let Some(from) = w.known(&FROM)
        && risers.0 < from.0
    {
        w.settle("So few risers ask for no rail.");
        return Ok(());
    }
    let height = w.take(&HEIGHT)?;
    let (least, most) = (w.take(&LEAST)?, w.take(&MOST)?);
    w.at_least("the height of the rail", height, least);
    w.at_most("the height of the rail", height, most);
    let clearance = w.take(&CLEARANCE)?;
    let clear = w.take(&CLEAR)?;
    w.at_least("the clearance behind the rail", clearance, clear);
    Ok(())
}
