//! How far the edge of one tile may stand over the next.

use crate::rules::{prelude::*, tile_and_stone::tile_joint::JOINT};

pub(crate) const LIPPAGE: Input<Length> = asked(
    "lippage",
    "how far one edge stands over the next",
    Who::Site,
)
.between("0 mm", "20 mm");
pub(crate) const WARP: Input<Length> = asked(
    "tile-warp",
    "how far the tiles themselves are warped",
    Who::Maker,
)
.between("0 mm", "5 mm")
.guessed(
    "0 mm",
    "0 mm",
    "1 mm",
    "Flat until the maker or a straightedge says otherwise",
);

pub(crate) static RULE: Rule = Rule {
    name: "lippage",
    title: "Lippage",
    family: Family::TileAndStone,
    question: "Do the edges of neighbouring tiles stand as even as the standard asks?",
    inputs: &[LIPPAGE.spec, JOINT.spec, WARP.spec],
    formula: &[
        "joint under 1/4 in: 1/32 in + warp",
        "joint from 1/4 in: 1/16 in + warp",
    ],
    sources: &[published(
        "ANSI A108.02, 4.3.7; stone institutes ask 1/32 in for natural stone",
    )],
    caution: cautions::TILE,
    way_out: "Levelling clips, flatter tile, a smaller offset, or a flatter floor under it.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let joint = w.take(&JOINT)?;
    let base: Length = fixed(if joint < fixed("1/4\"") {
        "1/32\""
    } else {
        "1/16\""
    });
    let warp = w.take(&WARP)?;
    let most = w.step("Allowed", &[&base, &"+", &warp], base + warp);
    let lippage = w.take(&LIPPAGE)?;
    w.at_most("the lippage", lippage, most);
    Ok(())
}
