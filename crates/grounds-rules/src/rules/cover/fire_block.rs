//! Fire-stops and fire-blocks before cover.

use crate::rules::prelude::*;

pub(crate) const RUN: Input<Length> = asked(
    "concealed-run",
    "the longest hidden space without a fire-block",
    Who::Site,
)
.between("0 mm", "100 m")
.wanted();
pub(crate) const SEALED: Input<bool> = yes_no(
    "penetrations-sealed",
    "whether every pipe, duct and cable through rated work is stopped as tested",
    Who::Site,
);
pub(crate) const SEEN: Input<bool> = yes_no(
    "fire-stopping-seen",
    "whether it was seen and passed before it is covered",
    Who::Authority,
);
const MOST: Input<Length> = limit("fire-block-most", "the longest hidden space").or(
    "3.05 m",
    "10 ft, IRC R302.11",
    Published,
);

pub(crate) static RULE: Rule = Rule {
    name: "fire-block",
    title: "Fire-stops and fire-blocks",
    family: Family::Cover,
    question: "Are hidden spaces closed against fire, and has that been seen before they are covered?",
    inputs: &[RUN.spec, MOST.spec, SEALED.spec, SEEN.spec],
    formula: &["hidden space ≤ 10 ft; penetrations stopped; seen"],
    sources: &[
        published(
            "IRC 2021 R302.11: at ceilings and floors, every 10 ft, at soffits and stair strings, around vents and pipes",
        ),
        published("IRC 2021 R109.1: not covered until approved"),
    ],
    caution: cautions::FIRE,
    way_out: "Close the gaps by the tested detail, photograph each, and book the inspector.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    if let Some(run) = w.known(&RUN) {
        let most = w.take(&MOST)?;
        w.at_most("the longest hidden space", run, most);
    }
    if let Some(seen) = w.known_yes(&SEEN)
        && seen
    {
        w.settle("It was seen and passed before it was covered.");
        return Ok(());
    }
    let sealed = w.yes(&SEALED)?;
    w.must(
        "every penetration is stopped as tested",
        sealed,
        "not every penetration is stopped",
    );
    let seen = w.yes(&SEEN)?;
    w.must(
        "it was seen and passed before it is covered",
        seen,
        "it has not been seen and passed yet",
    );
    Ok(())
}
