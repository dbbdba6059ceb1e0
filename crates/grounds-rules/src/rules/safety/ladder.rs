//! The foot of a leaning ladder.

use crate::rules::prelude::*;

pub(crate) const UP: Input<Length> = asked(
    "ladder-rests",
    "the height at which the ladder rests",
    Who::Site,
)
.between("500 mm", "20 m");
pub(crate) const OUT: Input<Length> = asked(
    "ladder-foot",
    "how far its foot stands out from the wall",
    Who::Site,
)
.between("0 mm", "10 m");
const SHARE: Input<Ratio> = limit("ladder-lean", "the foot out as a share of the height").or(
    "25 %",
    "One out for four up",
    Published,
);
const WITHIN: Input<Ratio> = limit("ladder-lean-within", "how far off that it may be").or(
    "5 %",
    "Between 1:5 and 1:3.3",
    Practice,
);

pub(crate) static RULE: Rule = Rule {
    name: "ladder",
    title: "Foot of a ladder",
    family: Family::Safety,
    question: "Does the ladder lean neither too steep nor too flat?",
    inputs: &[UP.spec, OUT.spec, SHARE.spec, WITHIN.spec],
    formula: &["foot out / height = 1/4"],
    sources: &[published(
        "29 CFR 1926.1053(b)(5) (USA) and HSE LA455 (UK): one out for four up, 75°",
    )],
    caution: cautions::HEIGHTS,
    way_out: "Move the foot, tie the top, and have it stand a metre over the landing.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (up, out) = (w.take(&UP)?, w.take(&OUT)?);
    let lean = w.step(
        "Foot out as a share of the height",
        &[&out, &"/", &up],
        out / up,
    );
    let (share, within) = (w.take(&SHARE)?, w.take(&WITHIN)?);
    w.at_least("the foot out", lean, share - within);
    w.at_most("the foot out", lean, share + within);
    Ok(())
}
