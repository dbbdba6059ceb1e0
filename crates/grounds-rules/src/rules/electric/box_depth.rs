//! A box in a wall: its front against the finish, its back against the cavity.

use crate::rules::prelude::*;

pub(crate) const FINISH: Input<Length> = asked(
    "finish-thickness",
    "what comes on the wall in front of the frame",
    Who::Drawings,
)
.between("0 mm", "300 mm");
pub(crate) const OUT: Input<Length> = asked(
    "box-out",
    "how far the front of the box stands out from the frame",
    Who::Site,
)
.between("-100 mm", "300 mm");
pub(crate) const BURNS: Input<bool> = yes_no(
    "finish-burns",
    "whether the finish burns (timber, board of wood)",
    Who::Drawings,
);
pub(crate) const DEEP: Input<Length> = asked("box-depth", "the depth of the box", Who::Maker)
    .between("5 mm", "300 mm")
    .wanted();
pub(crate) const CAVITY: Input<Length> = asked(
    "cavity-depth",
    "the depth of the cavity behind the frame's face",
    Who::Drawings,
)
.between("0 mm", "1 m")
.wanted();
const BACK: Input<Length> = limit(
    "box-set-back-most",
    "how far a box may sit behind a finish that does not burn",
)
.or("1/4\"", "NEC 314.20", Published);

/// Play that setting always has.
const PLAY: &str = "1 mm";

pub(crate) static RULE: Rule = Rule {
    name: "box-depth",
    title: "Boxes and the build-up",
    family: Family::Electric,
    question: "Does the front of the box come to the finish, and does the box fit into the wall?",
    inputs: &[
        FINISH.spec,
        OUT.spec,
        BURNS.spec,
        BACK.spec,
        DEEP.spec,
        CAVITY.spec,
    ],
    formula: &[
        "set back = build-up − box front",
        "at most 1/4 in; flush where the finish burns",
        "depth − box front ≤ cavity",
    ],
    sources: &[published(
        "NEC (NFPA 70) 314.20: 1/4 in behind a surface that does not burn; flush or proud of one that does",
    )],
    caution: cautions::ELECTRIC,
    way_out: "Set the box to the finish before the board; an extension ring after it.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (finish, out) = (w.take(&FINISH)?, w.take(&OUT)?);
    let back = w.step("Behind the finish", &[&finish, &"−", &out], finish - out);
    let burns = w.yes(&BURNS)?;
    let most = if burns { fixed(PLAY) } else { w.take(&BACK)? };
    w.at_most("how far the box sits behind the finish", back, most);
    let play: Length = fixed(PLAY);
    let proud = w.step("Proud of the finish", &[&out, &"−", &finish], out - finish);
    w.at_most("how far the box stands proud of the finish", proud, play);
    if let Some((deep, cavity)) = w.known(&DEEP).zip(w.known(&CAVITY)) {
        let behind = w.step("Behind the frame's face", &[&deep, &"−", &out], deep - out);
        w.at_most("what of the box is behind the frame's face", behind, cavity);
    }
    Ok(())
}
