//! How flat a finished wall must be, by the distance between the points.

use crate::rules::{
    prelude::*,
    tile_and_stone::floor_flatness::{EDGE, GAP},
};

pub(crate) const GRADE: Input<Word> = word(
    "wall-grade",
    "what the wall is held to",
    &["usual", "raised"],
    Who::Designer,
);

/// The gap in mm allowed between points so far apart in m: finished walls and ceilings, row 6.
const USUAL: [(f64, f64); 5] = [
    (0.1, 3.0),
    (1.0, 5.0),
    (4.0, 10.0),
    (10.0, 20.0),
    (15.0, 25.0),
];
/// The same, raised, row 7.
const RAISED: [(f64, f64); 5] = [
    (0.1, 2.0),
    (1.0, 3.0),
    (4.0, 8.0),
    (10.0, 15.0),
    (15.0, 20.0),
];

pub(crate) static RULE: Rule = Rule {
    name: "wall-flatness",
    title: "Flatness of a finished wall",
    family: Family::TileAndStone,
    question: "Is the wall or ceiling flat enough for what it is held to?",
    inputs: &[GAP.spec, EDGE.spec, GRADE.spec],
    formula: &["allowed gap by table, in a straight line between its columns"],
    sources: &[published(
        "DIN 18202 table 3, rows 6 and 7: 3/5/10/20/25 and 2/3/8/15/20 mm at 0.1/1/4/10/15 m",
    )],
    caution: "Say before the work which row it is held to. Where a wall meets glass, stone or flush joinery, ask for \
              3 mm in 3 m; walls washed by light show less than that.",
    way_out: "Rule it off again before it sets, or skim it; after paint it is dear.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let raised = w.word(&GRADE)? == "raised";
    let edge = w.take(&EDGE)?;
    let table = if raised { &RAISED } else { &USUAL };
    let most = Length::of_base(looked_up(table, edge.base()) / 1000.0);
    let row = if raised { "row 7 over" } else { "row 6 over" };
    let most = w.step("Allowed", &[&row, &edge], most);
    let gap = w.take(&GAP)?;
    w.at_most("the gap under the straightedge", gap, most);
    Ok(())
}

/// The value of a table at some point, in a straight line between its columns.
fn looked_up(table: &[(f64, f64)], at: f64) -> f64 {
    let first = table.first().map_or(0.0, |(_, value)| *value);
    let mut value = first;
    for pair in table.windows(2) {
        if let [(from, low), (to, high)] = pair
            && at > *from
        {
            value = low + (high - low) * ((at - from) / (to - from)).min(1.0);
        }
    }
    value
}
