//! Whether a hand closes round a rail.

use crate::rules::prelude::*;

pub(crate) const SHAPE: Input<Word> = word(
    "grip-shape",
    "the section of the rail",
    &["round", "other"],
    Who::Drawings,
);
pub(crate) const DIAMETER: Input<Length> =
    asked("grip-diameter", "the diameter of the rail", Who::Drawings)
        .between("5 mm", "200 mm")
        .wanted();
pub(crate) const AROUND: Input<Length> = asked(
    "grip-around",
    "the length round the section of the rail",
    Who::Drawings,
)
.between("20 mm", "600 mm")
.wanted();
pub(crate) const ACROSS: Input<Length> = asked(
    "grip-across",
    "the greatest measure across the section",
    Who::Drawings,
)
.between("5 mm", "250 mm")
.wanted();
const LEAST: Input<Length> = limit("grip-diameter-least", "the least diameter of a round rail")
    .or("32 mm", "1-1/4 in", Published);
const MOST: Input<Length> = limit(
    "grip-diameter-most",
    "the greatest diameter of a round rail",
)
.or("51 mm", "2 in", Published);
const AROUND_LEAST: Input<Length> = limit(
    "grip-around-least",
    "the least length round another section",
)
.or("102 mm", "4 in", Published);
const AROUND_MOST: Input<Length> = limit(
    "grip-around-most",
    "the greatest length round another section",
)
.or("159 mm", "6-1/4 in", Published);
const ACROSS_MOST: Input<Length> = limit(
    "grip-across-most",
    "the greatest measure across another section",
)
.or("57 mm", "2-1/4 in", Published);

pub(crate) static RULE: Rule = Rule {
    name: "handrail-grip",
    title: "Grip of a handrail",
    family: Family::Stairs,
    question: "Can a hand close round the rail?",
    inputs: &[
        SHAPE.spec,
        DIAMETER.spec,
        LEAST.spec,
        MOST.spec,
        AROUND.spec,
        AROUND_LEAST.spec,
        AROUND_MOST.spec,
        ACROSS.spec,
        ACROSS_MOST.spec,
    ],
    formula: &[
        "round: least ≤ D ≤ most",
        "other: least ≤ length round ≤ most, measure across ≤ most",
    ],
    sources: &[
        published(
            "IRC 2021 R311.7.8.5, IBC 2021 1014.3, type I: 1-1/4 to 2 in; 4 to 6-1/4 in round, 2-1/4 in across",
        ),
        practice("Type II rails, over 6-1/4 in round, want recesses for the fingers"),
    ],
    caution: cautions::GUARDS,
    way_out: "A slimmer section, or finger recesses as the code describes them.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    if w.word(&SHAPE)? == "round" {
        let diameter = w.take(&DIAMETER)?;
        let (least, most) = (w.take(&LEAST)?, w.take(&MOST)?);
        w.at_least("the diameter", diameter, least);
        w.at_most("the diameter", diameter, most);
        return Ok(());
    }
    let around = w.take(&AROUND)?;
    let (least, most) = (w.take(&AROUND_LEAST)?, w.take(&AROUND_MOST)?);
    w.at_least("the length round the section", around, least);
    w.at_most("the length round the section", around, most);
    let across = w.take(&ACROSS)?;
    let most = w.take(&ACROSS_MOST)?;
    w.at_most("the measure across", across, most);
    Ok(())
}
