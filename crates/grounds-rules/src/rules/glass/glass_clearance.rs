//! The gap at the edge of a pane.

use crate::rules::{glass::glass_weight::THICKNESS, prelude::*};

pub(crate) const CLEARANCE: Input<Length> = asked(
    "edge-clearance",
    "the gap between the edge of the pane and what it stands in",
    Who::Drawings,
)
.between("0 mm", "100 mm");
pub(crate) const TOLERANCE: Input<Length> = asked(
    "edge-tolerance",
    "what the opening and the cut may take off the gap",
    Who::Maker,
)
.between("0 mm", "20 mm")
.wanted();

/// Thickness of the glass up to which, and the least clearance at its edges, in mm.
const CLEARANCES: [(f64, f64); 4] = [(9.0, 6.0), (12.0, 8.0), (18.5, 10.0), (30.0, 13.0)];

pub(crate) static RULE: Rule = Rule {
    name: "glass-clearance",
    title: "Clearance at the edge of glass",
    family: Family::Glass,
    question: "Does the pane keep its distance from metal, stone and tile all round?",
    inputs: &[THICKNESS.spec, CLEARANCE.spec, TOLERANCE.spec],
    formula: &["clearance − tolerances ≥ 6, 8, 10, 13 mm for glass to 1/4, 3/8, 5/8 in and over"],
    sources: &[
        published(
            "Glazing manual, by a trade journal: 1/4 in for 1/4 in glass, 3/8 in for a laminate of 9/16 in",
        ),
        memory("The same manual's table: 5/16 in for 3/8 in, 3/8 in for 1/2 in, 1/2 in for 3/4 in"),
    ],
    caution: cautions::GLASS,
    way_out: "A smaller pane, if it is not cut yet; a deeper channel with blocks at the quarter points.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let thickness = w.take(&THICKNESS)?;
    let mm = thickness.base() * 1000.0;
    let least = CLEARANCES
        .iter()
        .find(|(up_to, _)| mm <= *up_to)
        .map_or(13.0, |(_, least)| *least);
    let least = Length::of_base(least / 1000.0);
    let least = w.step(
        "Least clearance",
        &[&"by the table, for", &thickness],
        least,
    );
    let clearance = w.take(&CLEARANCE)?;
    let left = match w.known(&TOLERANCE) {
        Some(tolerance) => w.step(
            "Clearance left at worst",
            &[&clearance, &"−", &tolerance],
            clearance - tolerance,
        ),
        None => clearance,
    };
    w.at_least("the clearance at the edge", left, least);
    Ok(())
}
