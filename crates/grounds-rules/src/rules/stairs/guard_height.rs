//! Whether an edge wants a guard, and how high.

use crate::rules::prelude::*;

pub(crate) const DROP: Input<Length> =
    asked("drop", "the drop beyond the edge", Who::Site).between("0 mm", "100 m");
pub(crate) const STANDS: Input<Word> = word(
    "guard-stands",
    "where the guard stands",
    &["floor", "stair", "balcony"],
    Who::Drawings,
);
pub(crate) const HEIGHT: Input<Length> = asked(
    "guard-height",
    "the top of the guard over the finished floor or the nosings",
    Who::Drawings,
)
.between("0 mm", "2.5 m");
const FROM: Input<Length> = limit("guard-from-drop", "the drop from which a guard is asked").or(
    "600 mm",
    "As most codes have it",
    Practice,
);
const FLOOR: Input<Length> = limit("guard-height-floor", "the least height of a guard inside").or(
    "900 mm",
    "As most codes have it",
    Practice,
);
const STAIR: Input<Length> = limit(
    "guard-height-stair",
    "the least height of a guard on a stair",
)
.or("900 mm", "As most codes have it", Practice);
const BALCONY: Input<Length> = limit(
    "guard-height-balcony",
    "the least height of a guard outside",
)
.or("1100 mm", "As most codes have it", Practice);

pub(crate) static RULE: Rule = Rule {
    name: "guard-height",
    title: "Height of a guard",
    family: Family::Stairs,
    question: "Does the edge want a guard, and is it high enough over the finished floor?",
    inputs: &[
        DROP.spec,
        FROM.spec,
        STANDS.spec,
        HEIGHT.spec,
        FLOOR.spec,
        STAIR.spec,
        BALCONY.spec,
    ],
    formula: &[
        "asked for if drop > threshold",
        "height ≥ least, from the finish",
    ],
    sources: &[
        published("IRC 2021 R312.1: drop over 30 in; 36 in, 34 in on stairs"),
        published("IBC 2021 1015: drop over 30 in; 42 in"),
        published(
            "Approved Document K (England, 2013) table 3.1: 600 mm; 900 mm inside, 1100 mm outside",
        ),
    ],
    caution: cautions::GUARDS,
    way_out: "A higher post or pane, ordered from the finished level and not from the structure.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let drop = w.take(&DROP)?;
    let from = w.take(&FROM)?;
    if drop <= from {
        let drop = w.text(&drop);
        w.settle(format!("A drop of {drop} asks for no guard."));
        return Ok(());
    }
    let height = w.take(&HEIGHT)?;
    let least = match w.word(&STANDS)? {
        "stair" => w.take(&STAIR)?,
        "balcony" => w.take(&BALCONY)?,
        _ => w.take(&FLOOR)?,
    };
    w.at_least("the height of the guard", height, least);
    Ok(())
}
