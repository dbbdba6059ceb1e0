//! How narrow a joint may be between tiles that are not all alike.

use crate::rules::prelude::*;

pub(crate) const JOINT: Input<Length> =
    asked("tile-joint", "the width of the joint", Who::Designer).between("0 mm", "30 mm");
pub(crate) const VARIES: Input<Length> =
    asked("tile-varies", "what tiles of one box differ by", Who::Site).between("0 mm", "20 mm");
const LEAST: Input<Length> = limit("tile-joint-least", "the narrowest joint of all").or(
    "1/16\"",
    "ANSI A108.02, 4.3.8",
    Published,
);

pub(crate) static RULE: Rule = Rule {
    name: "tile-joint",
    title: "Joint between tiles",
    family: Family::TileAndStone,
    question: "Is the joint wide enough to take up what the tiles differ by?",
    inputs: &[JOINT.spec, VARIES.spec, LEAST.spec],
    formula: &["joint ≥ 3 × variation, and never under 1/16 in"],
    sources: &[published(
        "ANSI A108.02, 4.3.8: three times the actual variation of the facial size, never under 1/16 in",
    )],
    caution: cautions::TILE,
    way_out: "A wider joint, sorted or rectified tile.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let varies = w.take(&VARIES)?;
    let wanted = w.step(
        "Three times what they differ by",
        &[&"3 ×", &varies],
        varies * 3.0,
    );
    let least = w.take(&LEAST)?;
    let joint = w.take(&JOINT)?;
    w.at_least("the joint", joint, larger(wanted, least));
    Ok(())
}
