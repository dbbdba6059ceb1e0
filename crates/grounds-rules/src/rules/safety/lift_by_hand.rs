//! What one person lifts.

use crate::rules::{
    glass::glass_weight::{EACH, GEAR, PEOPLE},
    prelude::*,
};

pub(crate) const WEIGHT: Input<Mass> =
    asked("piece-weight", "the weight of the piece", Who::Maker).between("0.1 kg", "20 t");

pub(crate) static RULE: Rule = Rule {
    name: "lift-by-hand",
    title: "Lifting by hand",
    family: Family::Safety,
    question: "Are there enough hands for this piece, or does a lifter take it?",
    inputs: &[WEIGHT.spec, GEAR.spec, PEOPLE.spec, EACH.spec],
    formula: &["weight / people ≤ 25 kg, or a lifter"],
    sources: &[
        published(
            "HSE guidance on manual handling, L23 (UK): 25 kg for one man in good conditions, less for a team on a stair",
        ),
        memory("NIOSH lifting equation (1994): 23 kg (51 lb) at best"),
    ],
    caution: cautions::LOADS,
    way_out: "More hands, a lifter, or the piece in parts; the way cleared first.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let weight = w.take(&WEIGHT)?;
    if w.known_yes(&GEAR) == Some(true) {
        w.settle("A lifter or hoist takes the weight; hands only steer.");
        return Ok(());
    }
    let people = w.take(&PEOPLE)?;
    let each = w.step(
        "Weight for each",
        &[&weight, &"/", &people],
        weight / people.0,
    );
    let most = w.take(&EACH)?;
    w.at_most("the weight for each", each, most);
    Ok(())
}
