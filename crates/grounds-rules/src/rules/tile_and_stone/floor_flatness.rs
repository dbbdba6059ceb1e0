//! How flat a floor must be before tile or stone.

use crate::rules::prelude::*;

pub(crate) const GAP: Input<Length> = asked(
    "gap-under-edge",
    "the widest gap under the straightedge",
    Who::Site,
)
.between("0 mm", "100 mm");
pub(crate) const EDGE: Input<Length> =
    asked("straightedge", "the length of the straightedge", Who::Site).between("300 mm", "6 m");
pub(crate) const TILE: Input<Length> =
    asked("tile-edge", "the longest edge of a tile", Who::Drawings).between("10 mm", "4 m");

/// The edge from which a tile counts as large.
const LARGE: &str = "15 in";

pub(crate) static RULE: Rule = Rule {
    name: "floor-flatness",
    title: "Flatness before tile and stone",
    family: Family::TileAndStone,
    question: "Is the floor flat enough for tiles of this size?",
    inputs: &[GAP.spec, EDGE.spec, TILE.spec],
    formula: &[
        "under 15 in: 1/4 in in 10 ft and 1/16 in in 1 ft",
        "from 15 in: 1/8 in in 10 ft and 1/16 in in 2 ft",
    ],
    sources: &[
        published(
            "ANSI A108.02: 1/4 in in 10 ft; for any edge of 15 in or more 1/8 in in 10 ft and 1/16 in in 24 in",
        ),
        memory("The same: 1/16 in in 12 in for smaller tile"),
    ],
    caution: cautions::TILE,
    way_out: "Grind the high spots, fill or level the low ones; never with tile adhesive.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let tile = w.take(&TILE)?;
    let large = tile >= fixed(LARGE);
    let edge = w.take(&EDGE)?;
    let (short, at_ten): (Length, Length) = if large {
        (fixed("2 ft"), fixed("1/8\""))
    } else {
        (fixed("1 ft"), fixed("1/4\""))
    };
    let most = between(edge, short, fixed("1/16\""), at_ten);
    let how = if large {
        "for large tile, over"
    } else {
        "for small tile, over"
    };
    let most = w.step("Allowed", &[&how, &edge], most);
    let gap = w.take(&GAP)?;
    w.at_most("the gap under the straightedge", gap, most);
    Ok(())
}

/// What is allowed over a straightedge between a short one and ten feet, in a straight line.
fn between(edge: Length, short: Length, at_short: Length, at_ten: Length) -> Length {
    let ten: Length = fixed("10 ft");
    let along = ((edge - short) / (ten - short)).base().clamp(0.0, 1.0);
    at_short + (at_ten - at_short) * along
}
