//! Heavy lamps and fans: what they hang from.

use crate::rules::prelude::*;

pub(crate) const WEIGHT: Input<Mass> =
    asked("fixture-weight", "the weight of the fixture", Who::Maker).between("0.1 kg", "1 t");
pub(crate) const OWN: Input<bool> = yes_no(
    "own-support",
    "whether it hangs from the structure, not from the box",
    Who::Site,
);
const MOST: Input<Mass> = limit("fixture-on-box-most", "the most that may hang from a box").or(
    "23 kg",
    "50 lb, NEC 314.27(A)",
    Published,
);

pub(crate) static RULE: Rule = Rule {
    name: "fixture-support",
    title: "Support of a heavy fixture",
    family: Family::Electric,
    question: "May this fixture hang from its box, or does it need support of its own?",
    inputs: &[WEIGHT.spec, MOST.spec, OWN.spec],
    formula: &["over 50 lb: a support of its own"],
    sources: &[published(
        "NEC (NFPA 70) 314.27(A)(2): over 50 lb independent of the box, unless the box is listed for it",
    )],
    caution: cautions::ELECTRIC,
    way_out: "A timber or plate fixed to the structure before the ceiling is closed.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (weight, most) = (w.take(&WEIGHT)?, w.take(&MOST)?);
    if weight <= most {
        let weight = w.text(&weight);
        w.settle(format!(
            "At {weight} it may hang from a box that is made for fixtures."
        ));
        return Ok(());
    }
    let own = w.yes(&OWN)?;
    w.must(
        "it hangs from the structure",
        own,
        "it is too heavy for a box and does not hang from the structure",
    );
    Ok(())
}
