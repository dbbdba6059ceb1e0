//! Pavers at the edge: how much of one is left, and what it stands on.

use crate::rules::prelude::*;

pub(crate) const LEFT: Input<Length> = asked(
    "edge-paver",
    "the width of the cut pavers at the edge",
    Who::Drawings,
)
.between("0 mm", "3 m");
pub(crate) const WHOLE: Input<Length> =
    asked("paver-width", "the width of a whole paver", Who::Maker).between("50 mm", "3 m");
pub(crate) const OVER: Input<Length> = asked(
    "paver-overhang",
    "how far a paver stands out over its last support",
    Who::Drawings,
)
.between("0 mm", "1 m");
const SHARE: Input<Ratio> = limit(
    "edge-paver-share",
    "the least share of a whole paver at the edge",
)
.or(
    "33 %",
    "A third of a paver, so that it does not tip or blow off",
    Practice,
);
const OVER_SHARE: Input<Ratio> = limit(
    "paver-overhang-share",
    "the most overhang as a share of the paver",
)
.or("15 %", "So that nobody tips it at its edge", Practice);

pub(crate) static RULE: Rule = Rule {
    name: "paver-edge",
    title: "Pavers at the edge",
    family: Family::Terraces,
    question: "Is the cut paver at the edge wide enough, and supported near its edge?",
    inputs: &[
        LEFT.spec,
        WHOLE.spec,
        SHARE.spec,
        OVER.spec,
        OVER_SHARE.spec,
    ],
    formula: &["cut / whole ≥ a third", "overhang / cut ≤ 15 %"],
    sources: &[practice(
        "Makers of pavers and pedestals: no slivers, support at every corner and cut edge",
    )],
    caution: cautions::TERRACE,
    way_out: "Start half a paver over, so that both edges are wide; a clip or a rail at the edge.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (left, whole) = (w.take(&LEFT)?, w.take(&WHOLE)?);
    let share = w.step(
        "Share of a whole paver",
        &[&left, &"/", &whole],
        left / whole,
    );
    let least = w.take(&SHARE)?;
    w.at_least("the cut paver, as a share of a whole one", share, least);
    let over = w.take(&OVER)?;
    let most = w.take(&OVER_SHARE)?;
    if left.base() > 0.0 {
        let out = w.step("Overhang as a share", &[&over, &"/", &left], over / left);
        w.at_most("the overhang as a share", out, most);
    }
    Ok(())
}
