//! How far tile runs before it needs a joint that gives.

use crate::rules::prelude::*;

pub(crate) const RUN: Input<Length> = asked(
    "tile-run",
    "the longest run of tile between joints that give",
    Who::Drawings,
)
.between("100 mm", "100 m");
pub(crate) const LIES: Input<Word> = word(
    "tile-lies",
    "where the tile lies",
    &["inside", "sun-or-outside"],
    Who::Drawings,
);
const INSIDE: Input<Length> = limit("movement-joint-inside-most", "the longest run inside").or(
    "7.6 m",
    "TCNA EJ171: 20 to 25 ft",
    Published,
);
const OUTSIDE: Input<Length> = limit(
    "movement-joint-outside-most",
    "the longest run in sun, wet or outside",
)
.or("3.7 m", "TCNA EJ171: 8 to 12 ft", Published);

pub(crate) static RULE: Rule = Rule {
    name: "movement-joints",
    title: "Movement joints in tile",
    family: Family::TileAndStone,
    question: "Is there a joint that gives often enough in this tile?",
    inputs: &[RUN.spec, LIES.spec, INSIDE.spec, OUTSIDE.spec],
    formula: &["run ≤ 25 ft inside, 12 ft in sun, wet or outside"],
    sources: &[
        published("TCNA EJ171: 20 to 25 ft inside, 8 to 12 ft outside, in sun or wet"),
        published(
            "TCNA EJ171: joints at all changes of plane and at the edges, of sealant to ASTM C920",
        ),
    ],
    caution: cautions::TILE,
    way_out: "A joint more, in the line of a doorway or a column; carried through the bed to the structure's own joints.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let run = w.take(&RUN)?;
    let most = match w.word(&LIES)? {
        "inside" => w.take(&INSIDE)?,
        _ => w.take(&OUTSIDE)?,
    };
    w.at_most("the run of tile", run, most);
    Ok(())
}
