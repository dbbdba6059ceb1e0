//! How much the risers of one flight may differ, finishes and all.

use crate::rules::prelude::*;

pub(crate) const GREATEST: Input<Length> = asked(
    "riser-greatest",
    "the greatest finished riser of the flight",
    Who::Site,
)
.between("50 mm", "400 mm");
pub(crate) const SMALLEST: Input<Length> = asked(
    "riser-smallest",
    "the smallest finished riser of the flight",
    Who::Site,
)
.between("50 mm", "400 mm");
pub(crate) const MOST: Input<Length> = limit(
    "riser-difference-most",
    "what the risers of a flight may differ by",
)
.or("5 mm", "As a carpenter holds it", Practice);

pub(crate) static RULE: Rule = Rule {
    name: "even-risers",
    title: "Even risers",
    family: Family::Stairs,
    question: "Do the risers of the flight differ no more than a foot forgives, once the finishes are on?",
    inputs: &[GREATEST.spec, SMALLEST.spec, MOST.spec],
    formula: &["greatest − smallest ≤ allowed"],
    sources: &[
        published("IRC 2021 R311.7.5.1, IBC 2021 1011.5.4: 3/8 in"),
        published("Approved Document K (England, 2013) 1.5: all steps of a flight alike"),
        memory("DIN 18065: 5 mm off the drawn rise"),
    ],
    caution: cautions::STAIRS,
    way_out: "Frame the first and the last riser for the finishes that come on the floors and the treads.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (greatest, smallest) = (w.take(&GREATEST)?, w.take(&SMALLEST)?);
    let spread = w.step(
        "Difference",
        &[&greatest, &"−", &smallest],
        greatest - smallest,
    );
    let most = w.take(&MOST)?;
    w.at_most("the difference of the risers", spread, most);
    Ok(())
}
