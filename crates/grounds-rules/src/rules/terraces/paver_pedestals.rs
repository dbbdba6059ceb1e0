//! Pedestals under pavers: whether their range covers the fall.

use crate::rules::prelude::*;

pub(crate) const TOP: Input<Length> = asked(
    "paver-top",
    "the finished top of the pavers over the highest membrane",
    Who::Drawings,
)
.between("10 mm", "2 m");
pub(crate) const FALLS: Input<Length> = asked(
    "membrane-falls",
    "how much lower the lowest membrane lies than the highest",
    Who::Site,
)
.between("0 mm", "1 m");
pub(crate) const THICK: Input<Length> =
    asked("paver-thickness", "the thickness of a paver", Who::Maker).between("5 mm", "200 mm");
pub(crate) const LOW: Input<Length> = asked(
    "pedestal-least",
    "the lowest that a pedestal is made",
    Who::Maker,
)
.between("2 mm", "1 m");
pub(crate) const HIGH: Input<Length> = asked(
    "pedestal-most",
    "the highest that a pedestal is made",
    Who::Maker,
)
.between("2 mm", "1.5 m");

pub(crate) static RULE: Rule = Rule {
    name: "paver-pedestals",
    title: "Pedestals under pavers",
    family: Family::Terraces,
    question: "Do the pedestals reach from the highest to the lowest membrane under level pavers?",
    inputs: &[TOP.spec, FALLS.spec, THICK.spec, LOW.spec, HIGH.spec],
    formula: &[
        "lowest = top − paver",
        "highest = lowest + fall",
        "both within the pedestal's range",
    ],
    sources: &[practice(
        "Levels by a pencil: the pavers lie level, the membrane falls under them",
    )],
    caution: cautions::TERRACE,
    way_out: "Another range of pedestal, thinner pavers, or two ranges side by side.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (top, thick) = (w.take(&TOP)?, w.take(&THICK)?);
    let lowest = w.step("Lowest pedestal", &[&top, &"−", &thick], top - thick);
    let falls = w.take(&FALLS)?;
    let highest = w.step("Highest pedestal", &[&lowest, &"+", &falls], lowest + falls);
    let low = w.take(&LOW)?;
    w.at_least("the lowest pedestal", lowest, low);
    let high = w.take(&HIGH)?;
    w.at_most("the highest pedestal", highest, high);
    Ok(())
}
