//! What may pass through a guard.

use crate::rules::{prelude::*, stairs::guard_height::STANDS};

pub(crate) const GAP: Input<Length> = asked(
    "guard-gap",
    "the widest gap in the guard, or under it",
    Who::Drawings,
)
.between("0 mm", "1 m");
const MOST: Input<Length> =
    limit("guard-gap-most", "the widest gap in a guard").or("100 mm", "A ball of 100 mm", Practice);
const STAIR: Input<Length> = limit(
    "guard-gap-stair-most",
    "the widest gap in a guard on a stair",
)
.or("100 mm", "A ball of 100 mm", Practice);

pub(crate) static RULE: Rule = Rule {
    name: "guard-gaps",
    title: "Gaps in a guard",
    family: Family::Stairs,
    question: "Is every gap in the guard too small for a child?",
    inputs: &[STANDS.spec, GAP.spec, MOST.spec, STAIR.spec],
    formula: &["gap < ball of the code"],
    sources: &[
        published(
            "IRC 2021 R312.1.3: 4 in; 4-3/8 in on stair sides; 6 in in the triangle under a stair rail",
        ),
        published(
            "Approved Document K (England, 2013) 1.39, 3.3: 100 mm, and nothing that is easily climbed",
        ),
    ],
    caution: cautions::GUARDS,
    way_out: "One baluster more, or a lower bottom rail.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let gap = w.take(&GAP)?;
    let most = match w.word(&STANDS)? {
        "stair" => w.take(&STAIR)?,
        _ => w.take(&MOST)?,
    };
    w.at_most("the widest gap", gap, most);
    w.say("Children climb: no rails lying like rungs, no ledge to stand on.");
    Ok(())
}
