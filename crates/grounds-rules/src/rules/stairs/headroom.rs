//! Clear height over the line of the nosings.

use crate::rules::prelude::*;

pub(crate) const HEADROOM: Input<Length> = asked(
    "headroom",
    "the clear height over the line of the nosings, ceiling finish and all",
    Who::Site,
)
.between("1.2 m", "12 m");
const LEAST: Input<Length> =
    limit("headroom-least", "the least headroom").or("2000 mm", "As most codes have it", Practice);

pub(crate) static RULE: Rule = Rule {
    name: "headroom",
    title: "Headroom over a stair",
    family: Family::Stairs,
    question: "Is there headroom over the whole stair once treads and ceiling are finished?",
    inputs: &[HEADROOM.spec, LEAST.spec],
    formula: &["headroom ≥ least"],
    sources: &[
        published("IRC 2021 R311.7.2, IBC 2021 1011.3: 6 ft 8 in"),
        published("Approved Document K (England, 2013) 1.11: 2 m; less is let through in lofts"),
    ],
    caution: cautions::STAIRS,
    way_out: "A thinner tread or ceiling build-up, or a trimmer moved.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let headroom = w.take(&HEADROOM)?;
    let least = w.take(&LEAST)?;
    w.at_least("the headroom", headroom, least);
    Ok(())
}
